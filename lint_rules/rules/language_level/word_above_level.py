"""A word that children of this level have not met: of a later level of the course, or above the level's band.

A child of seven who stops at a word in every line stops reading. One new word in a story can be guessed, acted or
drawn; four cannot, and the teacher has to explain what the page should have made plain.

The course's own word lists are the authority. A word that a later level teaches is a stop. A word in no list is looked
up in a general reference (cefrpy). Such a reference rates children's words too high and leaves many ungraded, so words
that children meet early are a note, what can be drawn or acted and what nobody has graded a query, and only a word
graded well above the band a stop; a short word of everyday English (knot, van) weighs a step less, and the first of
two words that are one thing (polar bear) is a note. The course can settle this for all (`off_list: stop | query |
note | picture`).

Read are the pupil's pages and the audio scripts, without what stands there in brackets. Instructions have a rule of
their own (unfamiliar-instruction-word); alternative text, art briefs, answers and teacher's notes are not read.
Names, numbers, greetings, function words, days and months cut short, noises (Splash! Tac, tac!), words that the unit
presents itself (a `words` panel, or Words in the notes), labels (Panel 1) and `known` words pass. The name of a topic
is a note. Titles and songs stop nobody: there a word is a query at most, and one that only a reference rates is a note;
so is one with a picture or an explanation beside it. A spelling that no reference has, one
slip away from a word that children know (freind), is a query: is it spelt right? Each word is reported once in an
activity, a note once in a unit.
"""

from collections.abc import Iterator, Set
from dataclasses import replace

from lint_rules import lazy_re
from lint_rules.course.model import Level, WordEntry
from lint_rules.finding import Found, Severity
from lint_rules.language.grammar.labels import all_grammar_terms
from lint_rules.language.vocabulary.misspellings import meant_by, plays_with_letters
from lint_rules.language.vocabulary.reference import lowest
from lint_rules.language.vocabulary.word_families import is_clear_compound
from lint_rules.language.vocabulary.word_index import Origin, canonical, first_names, parts_of
from lint_rules.language.vocabulary.word_level import WordLevel
from lint_rules.manuscript.counting import ends_sentence, is_title
from lint_rules.manuscript.model import DivKind, Role
from lint_rules.rule import By, Example, Gather, Limit, Need, Reading, Rule, Within
from lint_rules.unit_language.no_words import begins_a_compound, is_filled_in, is_no_word, is_spelling
from lint_rules.unit_language.off_list import (
    graded,
    is_always_capital,
    is_everyday,
    is_past_of_known,
    is_unheard_of,
    is_used_as_a_name,
    off_list_severity,
    what_the_reference_says,
)
from lint_rules.unit_language.unit_words import Met, has_picture, is_cried, is_glossed, is_label, listed

_PRE_A1 = "levels:\n  - cefr: Pre-A1\n"
_LATER = "volcano,noun,nature,3\nwhisper,verb,,1\nice cream,noun,food,2\n"

# What findings are about that are one point: words that many children know, harder ones, names.
_YOUNG = "known by many"
_HARD = "above the level"
_NAME = "a name"
_YOUNG_ONES = (
    "{count} words of this unit are in no list and may be above the level: {words}. List those that your children "
    "know, and show what the others mean."
)
_HARD_ONES = (
    "{count} words of this unit are in no list and above the level: {words}. Use simpler words, show what they mean, "
    "or list those that your children know."
)
_NAMES = "In no list: {words}. If these are names, put them under `characters` or `places` in course.yaml."

RULE = Rule(
    name="word-above-level",
    family="language level",
    severity=Severity.STOP,
    cure=(
        "Use a simpler word, show it with a picture, or teach it: add it to the level's word list. A name "
        "goes under `characters` or `places` in course.yaml."
    ),
    needs=frozenset({Need.LANGUAGE}),
    passes=(
        Example(
            '### 1 Listen and say. {.sounds sound="iː" spelling="ea"}\n\nThe same sound, with ee: tree, green\n',
            words="tree,noun,nature,1\ngreen,adjective,colours,1\n",
            why="letters that are spoken of",
        ),
        Example("The dog is in the garden.\n"),
        Example("We can see a volcano.\n", words="volcano,noun,nature,1\n", why="taught at this level"),
        Example("Mina and Rafi can see Oslo.\n", course="characters: [Mina, Rafi]", why="names"),
        Example("I love my quokka.\n", course="known: [quokka]", why="every child here knows it"),
        Example("The quokka-house is red.\n", course="known: [quokka]", why="of words that the course knows"),
        Example(
            "bl ____ ck\n\nIn the morning I found it.\n",
            course=_PRE_A1.replace("Pre-A1", "A1"),
            why="a word with a gap",
        ),
        Example("14 Furrow Rd\n\nt-i-p, tip-top!\n", words="tip-top,adjective,,1\n", why="a street, letters"),
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
        Example(
            "Splash! Tac, tac, tac! Hip hip hooray! Pitter patter.\n", later_words="splash,verb,,2\n", why="noises"
        ),
        Example("We go to the Old Zumbo. I love the Old Zumbo!\n", course="places: [Old Zumbo]", why="a ship"),
        Example(
            "## Lesson 1: Off we go, Tall Kettle! {.words}\n\n### 1 Read. {.reading}\n\nThis is the Tall Kettle.\n",
            later_words="kettle,noun,home,2\n",
            why="the text shows that it is a name",
        ),
        Example("It's in my boot.\n", course=_PRE_A1, words="boots,noun,clothes,1\n", why="the list has the plural"),
        Example("Mon: art. Sept is hot. Are you ____ing? That is mine!\n", course=_PRE_A1, why="cut short; an ending"),
        Example("::: {.audio track=1.1}\nMINA: (A horn and a volcano.) Oh!\n:::\n", why="a direction, not said"),
        Example("She is swimming.\n", later_words="swimming,noun,sports,2\n", words="swim,verb,sports,1\n"),
        Example("Look at the gauge.\n", words="rain gauge,noun,weather,1\n", why="a rain gauge is in the list"),
        Example("Huge means very, very big.\n", words="huge,adjective,,1\n", why="a verb, whatever it is taken for"),
    ),
    fails=(
        Example("«Nevertheless», the «economy» is big.\n", course=_PRE_A1),
        Example(
            "My «freind» has a «purpel» hat. A «beutiful» hat!\n",
            words="beautiful,adjective,,1\n",
            why="a known word is one slip away",
            weight=Severity.QUERY,
        ),
        Example(
            "### 1 Make a boat. {.make}\n\n1. Cut a «cork».\n\n::: teacher\n**Materials:** corks, sticks\n:::\n",
            course=_PRE_A1,
            why="children hold one",
            weight=Severity.NOTE,
        ),
        Example("Look! There's a «volcano».\n", later_words=_LATER, why="a later level teaches it"),
        Example(
            "**The «volcano»**\n\nA cat.\n",
            later_words=_LATER,
            why="a title is asked about",
            weight=Severity.QUERY,
        ),
        Example(
            "Draw. Look at the «volcano» (a hill with a fire in it).\n",
            later_words=_LATER,
            why="explained beside it",
            weight=Severity.QUERY,
        ),
        Example("«Tomas» is third.\n", course=_PRE_A1, why="a first name", weight=Severity.NOTE),
        Example("### 1 Say. {.sounds}\n\n«economy»\n", why="for its sound", weight=Severity.NOTE),
        Example("«Asha» has a cat. She is six.\n", course=_PRE_A1, why="it is used as a name", weight=Severity.NOTE),
        Example("It has got 20 «tonnes».\n", why="counted in figures", weight=Severity.NOTE),
        Example("Some people say *«wee»* for small.\n", why="the page explains it", weight=Severity.NOTE),
        Example("Say the «season».\n", words="winter,noun,seasons,1\n", why="a topic's name", weight=Severity.NOTE),
        Example("Draw the fire. «Whisper».\n", later_words=_LATER, why="an order of one word"),
        Example("The man «dipped» it in the water.\n", course=_PRE_A1, why="can be acted", weight=Severity.QUERY),
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
    ),
    limits=(
        Limit("words off the list: levels A1 to C2", "the open data of the package cefrpy 1.0.3"),
        Limit("words that no reference has: how common they are", "wordfreq 3.1.1, as a last resort"),
        Limit("children's words, which a reference rates too high", "house table, common practice, no source"),
        Limit("simpler words to offer", "Princeton WordNet 3.1, where the course has them"),
    ),
    gathers=(
        Gather(Within.COURSE, By.ABOUT, _NAMES, only=_NAME),
        Gather(Within.UNIT, By.ABOUT, {_YOUNG: _YOUNG_ONES, _HARD: _HARD_ONES}),
        Gather(Within.COURSE, By.KEY),
    ),
    fault="a word",
)


def find(reading: Reading) -> Iterator[Found]:
    """Report the words above the level, each once in an activity (a note once in the unit)."""
    judged = list(_judged(reading))
    grave = {found.key for found in judged if not found.about}  # one word is one point, at its heaviest
    for found in judged:
        yield replace(found, about="") if found.key in grave else found


def _judged(reading: Reading) -> Iterator[Found]:
    noted: set[str] = set()
    topics = _topics(reading)
    for met in reading.words.met(presented=True):
        judged = _judge(met, reading, topics)
        if judged is None:
            continue
        weight, message, about = judged
        key = canonical(met.word.lemma)
        if _is_lenient(met):
            most = Severity.NOTE if about == _HARD else Severity.QUERY
            weight = min(weight, most, key=lambda s: s.weight)
        elif met.word.entry is None and is_clear_compound(key, reading.level.cefr):
            weight = Severity.NOTE
        elif met.word.entry is None and _is_of_sounds(met) and not ends_sentence(met.passage.text):
            weight = Severity.NOTE  # one of a row: pin and bin
        elif met.word.entry is None and _may_be_no_word(met, reading):
            weight = min(weight, Severity.QUERY, key=lambda s: s.weight)
        if weight is Severity.NOTE and key in noted:
            continue
        noted.add(key)
        if weight is Severity.STOP or (weight is Severity.NOTE and about != _NAME):
            about = _YOUNG if weight is Severity.NOTE else ""
        yield Found(
            met.passage.span(met.word.start, met.word.end),
            met.word.text,
            message,
            severity=None if weight is RULE.severity else weight,
            key=key,
            about=about,
        )


_FIGURE = lazy_re.compile(r"\d\s*$")  # 20 tonnes: what is counted stands in figures
_BANDS = ("Pre-A1", "A1", "A2", "B1")


def _is_lenient(met: Met) -> bool:
    """Titles are for the teacher as well, and songs and chants are carried by tune and rhyme: they stop nobody."""
    return is_title(met.passage) or met.place.sung


def _is_of_sounds(met: Met) -> bool:
    """Say whether a word is practised for its sound, be its meaning known or not: cork and cock."""
    return met.place.activity is not None and "sounds" in met.place.activity.kinds


def _may_be_no_word(met: Met, reading: Reading) -> bool:
    unsure = _is_of_sounds(met) or is_filled_in(met) or is_always_capital(met.word, reading.unit.source.text)
    return unsure or is_cried(met)


def _judge(met: Met, reading: Reading, topics: Set[str]) -> tuple[Severity, str, str] | None:
    """How much a word weighs, what to say of it, what that is about; None where it is at home in the level."""
    word, level, course = met.word, reading.level, reading.course
    if word.free or is_spelling(met) or is_label(met.passage, word) or is_no_word(met):
        return None
    if _is_of_tables(met, reading) or canonical(word.lemma) in reading.words.labels:
        return None
    explained = not {canonical(word.lemma), canonical(word.text)}.isdisjoint(reading.words.explained)
    explained = explained or is_glossed(met.passage, word)
    shown = explained or has_picture(met.place, word)
    shown = shown or (word.part_of_speech == "noun" and reading.words.in_hand(met.place, word))
    often = f" ({met.times} times here)" if met.times > 1 and met.place.activity else ""
    if word.entry is not None:
        ordered = met.passage.role is not Role.TURN and reading.words.lists.is_of_instructions(word.lemma)
        if word.entry.level <= level.index or word.noise or ordered:
            return None  # what an instruction asks is unfamiliar-instruction-word's
        itself = reading.words.presents("".join(parts_of(word.lemma)))  # the unit presents the word itself
        # A word that a later level only lists (for its sound, say) may be known long before: tree.
        easy = lowest(word.lemma) in _BANDS[: _BANDS.index(level.cefr) + 1] if level.cefr in _BANDS else False
        unsure = itself or shown or easy or word.elsewhere is not None
        severity = Severity.QUERY if unsure else Severity.STOP
        return severity, f"“{word.text}”{often} {_of_later_level(word, word.entry, reading)}", ""
    if met.place.sung and "-" in word.text and not lowest(word.lemma):
        return None  # fiddle-dee-dee: songs have words of their own
    if is_unheard_of(word):
        if met.place.activity is not None and plays_with_letters(met.place.activity.heading.passage.text):
            return None
        meant = meant_by(word.text, reading.words.lists.index)
        echo = word.noise and meant in met.passage.text.casefold()  # wiggle, waggle
        if met.place.activity is not None and "mistakes" in met.place.activity.kinds:
            return None  # the beautifullest
        wrong = met.passage in reading.readings.unchecked  # on purpose: He hurryed home. → ____
        if meant and not met.place.sung and not echo and not wrong:
            return Severity.QUERY, f"“{word.text}”{often} {_slip(meant, level)}", ""
    of_known = word.part_of_speech == "noun" and reading.words.lists.has_family(word.lemma)
    if is_past_of_known(word, level, reading.words.lists.index.has) or reading.words.lists.heads_a_compound(word.lemma):
        return None
    weight = off_list_severity(word, level, course.off_list, pictured=shown, of_known=of_known)
    if weight is None:
        return None
    if weight is not Severity.NOTE and not course.off_list and is_everyday(word, level):
        weight = Severity.QUERY if weight is Severity.STOP else Severity.NOTE
    counted = word.part_of_speech == "noun" and _FIGURE.search(met.passage.text[: word.start]) is not None
    if weight is Severity.QUERY and not course.off_list and shown:
        weight = Severity.NOTE  # of seven that judges saw on fresh courses none was thanked for
    set_term = explained or counted or canonical(word.lemma) in topics or begins_a_compound(met)
    if set_term and not course.off_list:
        weight = Severity.NOTE
    about = _NAME if _may_be_a_name(word, met, reading) else _HARD
    if about == _NAME and (not graded(word) or is_used_as_a_name(word, reading.unit.source.text)):
        weight = Severity.NOTE
    return weight, f"“{word.text}”{often} {_off_list(met, weight, reading, shown=shown)}", about


def _is_of_tables(met: Met, reading: Reading) -> bool:
    """Say whether a word is a term of grammar in a table of grammar: Regular and Irregular, a vowel. If children may
    meet it there is grammar-term-on-page's to ask."""
    if DivKind.PATTERN not in reading.read.div_kinds(met.passage):
        return False
    return any(met.word.lemma in term.term.split() for term in all_grammar_terms())


def _topics(reading: Reading) -> frozenset[str]:
    """What the course's word lists and the unit call their topics, in the singular too: seasons."""
    topics = {canonical(topic) for entry in reading.course.words for topic in entry.topics}
    topics |= {canonical(topic) for topic in reading.unit.front.topics}
    return frozenset(topics | {topic.removesuffix("s") for topic in topics})


def _slip(meant: str, level: Level) -> str:
    return f"is in no list: is “{meant}” meant? If it is right, show it in a `words` panel or add it to {_list(level)}."


def _of_later_level(word: WordLevel, entry: WordEntry, reading: Reading) -> str:
    level, unit = reading.level, reading.unit.front.unit
    later = reading.course.levels[entry.level].name
    said = f"is taught in {later}{f' unit {entry.unit}' if entry.unit else ''}, and this is {level.name}."
    near = reading.words.lists.simpler(word, level, unit)
    if near:
        return f"{said} Use {listed(near)}, or move the word to {_list(level)}."
    return f"{said} Use a word they know, or move this one to {_list(level)}."


def _off_list(met: Met, weight: Severity, reading: Reading, *, shown: bool) -> str:
    word, level = met.word, reading.level
    if _may_be_a_name(word, met, reading):
        if canonical(word.text) in first_names():
            return "is in no list. If it is a name, put it under `characters`."
        return f"is in no list, and {what_the_reference_says(word)}. If it is a name, put it under `characters`."
    near = reading.words.lists.simpler(word, level, reading.unit.front.unit)
    if weight is Severity.NOTE and word.young:
        instead = f" Else use {listed(near)}." if near else ""
        return f"is in no list. If your children know it, as many do, add it to {_list(level)} or `known`.{instead}"
    as_other = ""
    if word.elsewhere is not None and word.elsewhere.part_of_speech:
        as_other = f" as {_a(word.part_of_speech)}"
    said = f"is in no list{as_other}, and {what_the_reference_says(word)}; {level.name} is {level.cefr}."
    if near:
        return f"{said} Use {listed(near)}, or add it to {_list(level)}."
    if shown:
        return f"{said} It is shown here, so it may stay: add it to {_list(level)}."
    return f"{said} Use a simpler word, show what it means, or add it to {_list(level)}."


def _list(level: Level) -> str:
    return level.words_path or "the word list"


def _may_be_a_name(word: WordLevel, met: Met, reading: Reading) -> bool:
    """Say whether a word has a capital that its place does not ask for: no title's, and none of a text in capitals.
    What nobody knows may be a name wherever it always has its capital."""
    if word.young or is_title(met.passage):
        return False
    text = reading.unit.source.text
    if is_used_as_a_name(word, text) or (not graded(word) and is_always_capital(word, text)):
        return True
    before = met.passage.text[: word.start].rstrip(" \"“‘'(")
    alone = met.passage.cell is not None and not before and word.origin is Origin.UNKNOWN  # | Mipo | ✓ | ✗ |
    return word.text[:1].isupper() and not word.text.isupper() and (alone or before[-1:].isalnum())


def _a(part: str) -> str:
    return f"an {part}" if part[:1] in "aeiou" else f"a {part}"
