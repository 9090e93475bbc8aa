"""A target word on a page before the unit that teaches it, within one level.

The word lists say where each word is taught. A word that comes earlier is new to the child where the book believes it
to be known: the teacher stops to explain it, and when its own unit comes it is no news any more. Sometimes a story
needs such a word and its picture carries it; then the author lets it stand, and the editor knows.

Read are the pupil's pages and the audio scripts; not the instructions, alternative text, notes and answers, nor
tests, which test-beyond-unit looks after. Only noted is such a word in a title or the head of a table, in a row of
words with one sound, where one activity of the unit alone has it in running text or speech, which carries it (no answer
hangs on it there), and one that children most likely know: a verb that rubrics use from the first page (Turn, Look,
write), or a word of a band below the level's (of such words authors of judged courses thanked for fewer than half).
Words without a unit in the list, or taught by now as another part of speech, names, numbers, greetings, function words
and `known` words come when they like. A word of a later level is word-above-level. Each word is reported once in an
activity.
"""

from collections import Counter
from collections.abc import Iterator
from functools import cache

from lint_rules.course.model import CEFR_BANDS, Level, WordEntry, band_rank
from lint_rules.finding import Found, Severity
from lint_rules.language.inflection.irregular import irregular_verbs
from lint_rules.language.vocabulary.reference import lowest
from lint_rules.language.vocabulary.word_index import canonical, classroom_bands, parts_of
from lint_rules.manuscript.counting import ends_sentence, is_title
from lint_rules.manuscript.model import Role
from lint_rules.rule import By, Example, Gather, Need, Reading, Rule, Within
from lint_rules.unit_language.other_senses import is_another_sense
from lint_rules.unit_language.tests_of import asked_in_tests
from lint_rules.unit_language.unit_words import Met, is_label, listed

_UNIT_2 = (
    "---\nlevel: level-1\nunit: 2\ntitle: Example\n---\n\n"
    "# Example\n\n## Lesson 1: Look {.words}\n\n### 1 Read. {.reading}\n\n"
)
_LIST = (
    "cloud,noun,weather,1\nkite,noun,toys,3\nfly,verb,,2\nput on,verb,clothes,4\nhill,noun,places,\nseven,number,,5\n"
)

RULE = Rule(
    name="word-before-taught",
    family="language level",
    severity=Severity.QUERY,
    cure=("Use a word known by now, move the word's row to an earlier unit, or give it a picture and let it stand."),
    needs=frozenset({Need.LANGUAGE}),
    passes=(
        Example("Look at the clouds.\n", words=_LIST, why="taught in this unit"),
        Example(_UNIT_2 + "The bird is flying to a cloud.\n", words=_LIST, why="taught by now"),
        Example("There is a hill.\n", words=_LIST, why="the list names no unit"),
        Example("I've got seven hats.\n", words=_LIST, why="numbers are known from the first page"),
        Example("Kite is my dog. I love Kite!\n", words=_LIST, course="characters: [Kite]", why="a name"),
        Example("### 1 Draw a kite. {.make}\n\nIt's red.\n", words=_LIST, why="an instruction"),
        Example("::: teacher\n**Steps:** Show the kite.\n:::\n", words=_LIST, why="for the teacher"),
        Example("Write the letter of the rule.\n", words="letter,noun,,3\n", why="no letter that is posted"),
        Example("Let's go home.\n", words="go,verb,,1\nhome,noun,,1\ngo home,verb,,3\n", why="both are known"),
        Example("| see | saw |\n|---|---|\n| go | went |\n", words="saw,noun,,3\n", why="the past of see"),
        Example("Choose the right word.\n", words="right,adjective,,3\n", why="no side"),
        Example("Mimo is lost in the wood.\n", words="lose,verb,,3\n", why="no game that is lost"),
        Example("There's a fly in my soup!\n", words=_LIST, why="the insect: the list teaches the verb"),
        Example(
            "The light went out.\n",
            words="light,adjective,,3\n",
            why="the lamp's light: the list teaches the adjective",
        ),
        Example("There is no light here.\n", words="light,adjective,,3\n", why="the noun again"),
        Example("He showed it to us.\n", words="show,noun,,3\n", why="the list teaches the noun"),
        Example("The wheel goes round and round.\n", words="round,adjective,,3\n", why="the way it goes"),
        Example("Look at the jar.\n", words="rain jar,noun,,1\njar,noun,,2\n", why="the rain jar"),
        Example("Take your ruler.\n", words="rule,noun,,3\n", why="another word"),
        Example("A kite can fly.\n", words=_LIST, course="known: [kite, fly]", why="every child here knows it"),
    ),
    fails=(
        Example("1. Granny opens the «letter» at home.\n", words="letter,noun,,3\n"),
        Example("1. Our team «lost» the game.\n", words="lose,verb,,3\n"),
        Example("1. I've got two «kites».\n", words=_LIST),
        Example("1. The bird «flew» to the cloud.\n", words=_LIST, why="a past form"),
        Example(
            "| «Kite» | Ball |\n|---|---|\n| a | b |\n", words=_LIST, why="the head of a table", weight=Severity.NOTE
        ),
        Example("1. I like «red».\n", words="red,adjective,colours,3\n", why="a colour"),
        Example("1. I am «lost».\n", words="lost,adjective,,3\n", why="a participle"),
        Example("1. The bag is «light».\n", words="light,adjective,,3\n"),
        Example("The bag is «light».\n", words="light,adjective,,3\n", why="in passing", weight=Severity.NOTE),
        Example("1. A «carved» hat. I am «carving».\n", words="carve,verb,,3\ncarving,noun,,3\n"),
        Example("1. I «brush» my hat. They «brush their teeth».\n", words="brush my teeth,verb,,3\nbrush,verb,,3\n"),
        Example("«Turn» right, Mina.\n", words="turn,verb,,3\n", why="a verb of rubrics", weight=Severity.NOTE),
        Example(
            "1. The bag is «light».\n",
            words="light,adjective,,3\n",
            course="levels: [{cefr: A2}]\n",
            why="A1 in the reference: of 13 such words authors of judged courses thanked for 6",
            weight=Severity.NOTE,
        ),
        Example(
            "The bag is «dark».\n\n### 2 Read. {.reading}\n\nThe hat is «dark».\n",
            words="dark,adjective,,3\n",
            why="in two activities",
        ),
        Example("1. An «early» bird!\n", words="early,adverb,,3\n", why="adjective and adverb are one word"),
        Example("1. She's «putting on» her hat.\n", words=_LIST, why="an entry of two words"),
        Example("1. «Put» your hat on, Rafi!\n", words=_LIST, course="characters: [Rafi]", why="its words apart"),
        Example(_UNIT_2 + "1. It's a «kite». The kite is red.\n", words=_LIST, why="once in an activity"),
        Example("::: {.audio track=1.1}\nMINA: Look at my «kite»!\n:::\n", words=_LIST, weight=Severity.NOTE),
    ),
    gathers=(Gather(Within.COURSE, By.KEY),),
    fault="a word",
)


def find(reading: Reading) -> Iterator[Found]:
    """Report the target words of later units of the level, each once in an activity."""
    early = list(_met_early(reading))
    places = Counter(entry.word for _, entry in early)
    for met, entry in early:
        minor = _is_beside_the_text(met) or _is_explained(met, reading)
        passing = places[entry.word] == 1 and not _is_worked_on(met)
        yield Found(
            met.passage.span(met.word.start, met.word.end),
            met.word.text,
            _message(met, entry, reading),
            Severity.NOTE if minor or passing or _is_known_anyway(met, reading.level) else None,
            key=entry.word,
        )


def _met_early(reading: Reading) -> Iterator[tuple[Met, WordEntry]]:
    """The words of later units of the level, each once in an activity, with their rows."""
    unit, level = reading.unit.front.unit, reading.level
    tests = asked_in_tests(reading.read)
    for met in reading.words.met() if unit else ():
        entry = met.word.entry
        if entry is None or met.word.free or entry.level != level.index or entry.unit <= unit or met.word.noise:
            continue
        if is_label(met.passage, met.word) or _is_another(met, entry):
            continue
        if _is_of_known(met, reading):
            continue
        if is_another_sense(met.passage.text, met.word.start, met.word.end, entry):
            continue
        if reading.words.lists.is_taught_otherwise(met.word, level, unit):
            continue
        if id(met.passage) not in tests:  # test-beyond-unit looks there
            yield met, entry


@cache
def _pasts() -> frozenset[str]:
    return frozenset(past for verb in irregular_verbs() for past in verb.pasts if past not in verb.base)


def _is_another(met: Met, entry: WordEntry) -> bool:
    """Say whether a word only looks like a comparative of the entry: a ruler, when rule is taught."""
    if met.passage.cell is not None and entry.part_of_speech == "noun" and met.word.text.casefold() in _pasts():
        return True  # see | saw
    compared = {entry.word.removesuffix("e") + ending for ending in ("er", "est", "ers")}
    return met.word.text.casefold() in compared and entry.part_of_speech in ("noun", "verb")


def _is_of_known(met: Met, reading: Reading) -> bool:
    """Say whether each word of a phrase is listed by itself, and known by now: go home, where go and home are."""
    parts = parts_of(met.word.text)
    known = {
        part
        for entry in reading.course.words
        if (entry.level, entry.unit) <= (reading.level.index, reading.unit.front.unit)
        for part in (canonical(entry.word),)
    }
    return len(parts) > 1 and known.issuperset(parts)


def _is_worked_on(met: Met) -> bool:
    """Say whether an answer may hang on a word: it stands in an item or a table, not in running text or a turn."""
    return met.passage.role in {Role.ITEM, Role.OPTION, Role.CELL}


def _is_known_anyway(met: Met, level: Level) -> bool:
    """Say whether children of a level most likely know a word: a verb of rubrics, or a word of a lower band."""
    word = met.word
    if word.part_of_speech == "verb" and CEFR_BANDS[0] in classroom_bands(word.lemma):
        return True
    band = lowest(canonical(word.lemma))
    return band in CEFR_BANDS and band_rank(band) < band_rank(level.cefr)


def _is_explained(met: Met, reading: Reading) -> bool:
    """Say whether the notes explain a word, or call it new, where it is met: New word: captain."""
    return not {canonical(met.word.text), canonical(met.word.lemma)}.isdisjoint(reading.words.explained)


def _is_beside_the_text(met: Met) -> bool:
    """Say whether a word stands in a title, heads a table, or is one of a row read for a sound: moon, spoon, food."""
    activity = met.place.activity
    if is_title(met.passage) or met.passage.role is Role.HEAD:
        return True
    return activity is not None and "sounds" in activity.kinds and not ends_sentence(met.passage.text)


def _message(met: Met, entry: WordEntry, reading: Reading) -> str:
    often = f" ({met.times} times here)" if met.times > 1 and met.place.activity else ""
    form = "" if met.word.text.casefold() == entry.word.casefold() else f" (“{entry.word}”)"
    unit = reading.unit.front.unit
    said = f"“{met.word.text}”{form}{often} is taught in unit {entry.unit}, and this is unit {unit}."
    near = reading.words.lists.simpler(met.word, reading.level, unit)
    return f"{said} Use {listed(near) if near else 'a word known by now'}, or teach it by now."
