"""A word that children of this level have not met: of a later level of the course, or above the level's band.

A child of seven who stops at a word in every line stops reading. One new word in a story can be guessed, acted or
drawn; four cannot, and the teacher has to explain what the page should have made plain.

The course's own word lists are the authority. A word that a later level teaches is a stop. A word in no list is looked
up in a general reference (cefrpy), and as a last resort by how common it is (wordfreq); such a reference rates
children's words too high, so words that children meet early are a note, things that can be drawn a query, and only a
word well above the band a stop. The course can settle this for all (`off_list: stop | query | note | picture`).

Read are the pupil's pages and the audio scripts. Instructions have a rule of their own (unfamiliar-instruction-word);
alternative text, art briefs, answers and teacher's notes are not read. Names, numbers, greetings, function words,
noises, words that the unit presents itself (a `words` panel, or Words in the notes) and `known` words pass. Titles and
songs stop nobody: there a word is a query at most. A spelling that no reference has, one slip away from a word that
children know (freind), is a query: is it spelt right? Each word is reported once in an activity, a note once in a unit.
"""

from collections.abc import Iterator

from lint_rules.course.model import Level, WordEntry
from lint_rules.finding import Found, Severity
from lint_rules.language.vocabulary.misspellings import meant_by, plays_with_letters
from lint_rules.language.vocabulary.reference import lowest
from lint_rules.language.vocabulary.word_index import Origin, canonical, parts_of
from lint_rules.language.vocabulary.word_levels import WordLevel
from lint_rules.manuscript.model import Passage, Role
from lint_rules.rule import Example, Limit, Need, Reading, Rule
from lint_rules.unit_language.off_list import off_list_severity, what_the_reference_says
from lint_rules.unit_language.unit_words import (
    Met,
    has_picture,
    is_title,
    listed,
)

_PRE_A1 = "levels:\n  - cefr: Pre-A1\n"
_LATER = "volcano,noun,nature,3\nwhisper,verb,,1\nice cream,noun,food,2\n"

RULE = Rule(
    name="word-above-level",
    family="language level",
    severity=Severity.STOP,
    needs=frozenset({Need.LANGUAGE}),
    passes=(
        Example("The dog is in the garden.\n"),
        Example("We can see a volcano.\n", words="volcano,noun,nature,1\n", why="taught at this level"),
        Example("Mina and Rafi can see Oslo.\n", course="characters: [Mina, Rafi]", why="names"),
        Example("I love my quokka.\n", course="known: [quokka]", why="every child here knows it"),
        Example("We can see two ice-creams!\n", words="ice cream,noun,food,1\n", why="hyphened, in the plural"),
        Example("Hello! I've got twenty-one hats. Whoosh!\n", course=_PRE_A1, why="greeting, number, noise"),
        Example(
            "She ran home, and the children weren't sad.\n", words="run,verb,,1\n", why="irregular and short forms"
        ),
        Example("What's your favorite color?\n", words="colour,noun,,1\n", why="the list has the other spelling"),
        Example("### 1 Evaluate the economy. {.reading}\n\nA cat.\n", why="an instruction has a rule of its own"),
        Example("The Zoggle eats plims and a jumfrog on a splishy day.\n", why="invented words, near no known one"),
        Example("### 1 Put the letters in order. {.game}\n\nfreind, purpel\n", why="the letters are out of order"),
        Example(
            "### 1 Sing. {.song}\n\nZum-zum-zumba-zay!\nFlippy-floppy, off we go!\n", why="a song has its own words"
        ),
        Example("![an economy of scale](art/cat.svg)\n", why="alternative text is not for the child"),
        Example("::: teacher\n**Steps:** Nevertheless, discuss the economy.\n:::\n", why="for the teacher"),
        Example("::: answers\n1 economy\n:::\n", why="for the teacher"),
        Example("::: words\neconomy\n:::\n\nThe economy is big.\n", why="the unit presents the word itself"),
        Example(
            "![jellyfish](art/jellyfish.svg){.drawing}\n\nThis is a jellyfish.\n",
            course="off_list: picture",
            why="there is a drawing of it, and the course accepts that",
        ),
        Example(
            "The lamp gives two flashes.\n", words="flash,verb,,1\nlamp,noun,,1\n", why="a noun to a verb they know"
        ),
        Example(
            "The string is 30 cm long. Bzz!\n", course=_PRE_A1, words="string,noun,,1\n", why="centimetres; a noise"
        ),
        Example(
            '### 1 Listen and say. {.sounds sound="iː" spelling="ee"}\n\nCan you find ee?\n',
            course=_PRE_A1,
            why="letters of the sound",
        ),
        Example("She is swimming.\n", later_words="swimming,noun,sports,2\n", words="swim,verb,sports,1\n"),
    ),
    fails=(
        Example("«Nevertheless», the «economy» is big.\n", course=_PRE_A1),
        Example(
            "My «freind» has a «purpel» hat. A «beutiful» hat!\n",
            words="beautiful,adjective,,1\n",
            why="a known word is one slip away",
            weight=Severity.QUERY,
        ),
        Example("Look! There's a «volcano».\n", later_words=_LATER, why="a later level teaches it"),
        Example("Rafi «whispered» to Mina.\n", course="characters: [Mina, Rafi]", later_words=_LATER),
        Example("I like «icecream». He likes ice creams too.\n", later_words=_LATER, why="once in an activity"),
        Example("::: {.audio track=1.1}\nMINA: It's a «catastrophe»!\n:::\n", course="characters: [Mina]"),
        Example(
            "### 1 Read. {.reading}\n\nThe «economy» is big.\n\n### 2 Read. {.reading}\n\nThe «economy» is small.\n",
            why="once in each activity",
        ),
        Example(
            "What is the «situation»?\n",
            course=_PRE_A1,
            why="a word of instructions for older children",
            weight=Severity.QUERY,
        ),
        Example(
            "This is a «hippo» and a «jellyfish».\n",
            course=_PRE_A1,
            why="children's words: only a note",
            weight=Severity.NOTE,
        ),
        Example(
            "![kite](art/kite.svg){.drawing}\n\nThe «jellyfish» is big.\n",
            course="off_list: picture",
            why="the drawing shows something else",
            weight=Severity.NOTE,
        ),
        Example(
            "The old «mon**aster**y» is big.\n",
            course="off_list: query",
            why="emphasis inside the word",
            weight=Severity.QUERY,
        ),
    ),
    limits=(
        Limit("words off the list: levels A1 to C2", "the open data of the package cefrpy 1.0.3"),
        Limit("words that no reference has: how common they are", "wordfreq 3.1.1, as a last resort"),
        Limit("children's words, which a reference rates too high", "house table, common practice, no source"),
        Limit("simpler words to offer", "Princeton WordNet 3.1, where the course has them"),
    ),
)


def find(reading: Reading) -> Iterator[Found]:
    """Report the words above the level, each once in an activity (a note once in the unit)."""
    noted: set[str] = set()
    for met in reading.words.met(presented=True):
        judged = _judge(met, reading)
        if judged is None:
            continue
        severity, message = judged
        key = canonical(met.word.lemma)
        if severity is Severity.NOTE and key in noted:
            continue
        noted.add(key)
        weight = min(severity, Severity.QUERY, key=lambda s: s.weight) if _is_lenient(met.passage) else severity
        yield Found(
            met.passage.span(met.word.start, met.word.end),
            met.word.text,
            message,
            severity=None if weight is RULE.severity else weight,
        )


def _is_lenient(passage: Passage) -> bool:
    """Titles are for the teacher as well, and songs and chants are carried by tune and rhyme: they stop nobody."""
    return is_title(passage) or passage.role is Role.LINE


def _judge(met: Met, reading: Reading) -> tuple[Severity, str] | None:
    """How much a word weighs and what to say of it; None where it is at home in the level."""
    word, level, course = met.word, reading.level, reading.course
    if word.free:
        return None
    often = f" ({met.times} times in this activity)" if met.times > 1 and met.place.activity else ""
    if word.entry is not None:
        if word.entry.level <= level.index:
            return None
        itself = "".join(parts_of(word.lemma)) in reading.words.presented.by_solid  # the unit presents the word itself
        severity = Severity.QUERY if itself or word.elsewhere is not None else Severity.STOP
        return severity, f"“{word.text}”{often} {_of_later_level(word, word.entry, reading)}"
    if met.passage.role is Role.LINE and "-" in word.text and word.entry is None and not lowest(word.lemma):
        return None  # fiddle-dee-dee: songs have words of their own
    if _is_unheard_of(word):
        if met.place.activity is not None and plays_with_letters(met.place.activity.heading.passage.text):
            return None
        meant = meant_by(word.text, reading.words.lists.index)
        if meant and met.passage.role is not Role.LINE:
            return Severity.QUERY, f"“{word.text}”{often} {_slip(meant, level)}"
    pictured = has_picture(met.place, word)
    weight = off_list_severity(word, level, course.off_list, pictured=pictured)
    if weight is None:
        return None
    return weight, f"“{word.text}”{often} {_off_list(met, weight, reading, pictured=pictured)}"


def _is_unheard_of(word: WordLevel) -> bool:
    """Say whether no reference has a spelling, or only as a rare one; what has a capital may be a name."""
    rare = word.origin is Origin.FREQUENCY and word.band == "C2"
    return (rare or word.origin is Origin.UNKNOWN) and not word.text[:1].isupper()


def _slip(meant: str, level: Level) -> str:
    return (
        f"is in no list. Is it spelt right, or is “{meant}” meant? If it is right, use a simpler word, show it in a "
        f"`words` panel, or add it to {level.words_path}."
    )


def _of_later_level(word: WordLevel, entry: WordEntry, reading: Reading) -> str:
    level, unit = reading.level, reading.unit.front.unit
    later = reading.course.levels[entry.level].name
    where = f"{later}, unit {entry.unit}" if entry.unit else later
    said = f"is a target word of {where} ({entry.path}); this is {level.name}, so children have not met it."
    near = reading.words.lists.simpler(word, level, unit)
    if near:
        return f"{said} Near in meaning: {listed(near)}. Or move the word to {level.words_path}."
    topic = reading.words.lists.of_topic(word, level, unit)
    if topic:
        return f"{said} Known by now of its topic: {listed(topic)}. Or move the word to {level.words_path}."
    return f"{said} Use a word they know, or move this one to {level.words_path}."


def _off_list(met: Met, weight: Severity, reading: Reading, *, pictured: bool) -> str:
    word, level = met.word, reading.level
    as_other = ""
    if word.elsewhere is not None and word.elsewhere.part_of_speech:
        as_other = f" as {_a(word.part_of_speech)} (it has the {word.elsewhere.part_of_speech})"
    said = f"is not in the course's list{as_other}; {what_the_reference_says(word)}, and {level.name} is {level.cefr}."
    near = reading.words.lists.simpler(word, level, reading.unit.front.unit)
    instead = f"Near in meaning: {listed(near)}. Use a simpler word such as that" if near else ""
    if _may_be_a_name(word, met):
        return f"{said} If it is a name, write it under `characters` in course.yaml; else use a simpler word."
    if weight is Severity.NOTE and word.young:
        keep = f"If your children know it, as many do, add it to {level.words_path} or to `known`."
        return f"{said} Near in meaning: {listed(near)}. {keep}" if near else f"{said} {keep}"
    if pictured:
        return f"{said} {instead or 'Its picture may carry it'}, or add it to {level.words_path}."
    if weight is Severity.NOTE:
        return f"{said} {instead or 'Show it in a picture'}, or add it to {level.words_path}."
    return f"{said} {instead or 'Use a simpler word, show it in a `words` panel'}, or add it to {level.words_path}."


def _may_be_a_name(word: WordLevel, met: Met) -> bool:
    """Say whether a word has a capital that its place does not ask for."""
    before = met.passage.text[: word.start].rstrip(" \"“‘'(")
    return word.text[:1].isupper() and not word.text.isupper() and before[-1:].isalnum()


def _a(part: str) -> str:
    return f"an {part}" if part[:1] in "aeiou" else f"a {part}"
