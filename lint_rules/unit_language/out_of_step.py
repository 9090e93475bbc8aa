"""The one answer of a key that is out of step with what is heard or drawn, where all others of its exercise are not.

Nothing is understood here. Where the words of every other answer are in the script, or in the brief of the picture, the
one whose words are nowhere there is worth a question: the key says six o'clock, and the script five; the picture has
three lamps, and *There are four lamps on the table* is called true; the key gives picture a, the yellow fish is b.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache, cached_property

from lint_rules import lazy_re
from lint_rules.manuscript.model import Passage, Unit
from lint_rules.page.audio import heard_in
from lint_rules.page.briefs import briefs_of
from lint_rules.page.exercises.completed import completed
from lint_rules.page.exercises.in_step import the_one_out_of_step
from lint_rules.page.exercises.model import Answer, Exercise, Exercises, Item, Option
from lint_rules.page.exercises.small_words import small_words
from lint_rules.page.heard_numbers import heard_numbers, number_left_out
from lint_rules.page.number_words import numbers_in, without_counting
from lint_rules.tables import words
from lint_rules.unit_language.drawn_statements import not_as_drawn
from lint_rules.unit_language.places import PLACES
from lint_rules.unit_language.told_words import CLAUSE, PLACE_WORDS, SENTENCE, drawn_words, told_words

_STEM = 4  # letters that a word begins with in another form
_LABEL = 3  # words of an item that only names what it asks about
_FEWEST = 3  # answers that are in step, before one that is not is a slip
_WORD = lazy_re.compile(r"[^\W\d_]{3,}")
_OPEN = lazy_re.compile(r"\b(?:own|or|e\.?g|example|possible|answers?|any|points?|marks?)\b|/", re.I)
# What is reckoned or weighed, and not said: twice, warmer than tonight.
_RECKONED = lazy_re.compile(
    r"\b(?:how long|how old|than|once|twice|more|less|times|altogether|in all|in total|left|add|plus|minus)\b", re.I
)
_LISTEN, _READ = lazy_re.compile(r"\blisten\b", re.I), lazy_re.compile(r"\bread\b", re.I)
_PRICED = lazy_re.compile(r"\b(?:how much|costs?|prices?|pay|coins?|euros?|pounds?|dollars?|pence|cents?)\b", re.I)
_IN_OTHER_UNITS = frozenset(["60", "100", "1000"])  # an hour, a metre, a kilo
_BRACKETED = lazy_re.compile(r"\([^()]*\)")
_BEING = lazy_re.compile(r"\b(?:is|are|was|were|feels?|felt|looks?|looked)\W*$|\b(?:is|are|was|were)\s+_", re.I)
_DOES = lazy_re.compile(r"\b(?:is|are|was|were)\s+\w+ing\b", re.I)
_WHAT_DOING = lazy_re.compile(r"\bWhat(?: is| are| was| were|['’]s|['’]re) (.+?) doing\b", re.I)
_LONG = lazy_re.compile(r"\d[\d ]{4,}\d")  # a number to phone, which is said figure by figure
_FULL_HOUR = lazy_re.compile(r"\d[.:]00")  # 4:00, which the script says in words
_DENIED = lazy_re.compile(r"n['’]t\b|\b(?:not|no|any|never)\b", re.I)
_WHERE = lazy_re.compile(r"\bWhere(?: is| are|['’]s) (?:(?:the|my|your|his|her|our|their) )?([^?]+)\?", re.I)
# Where things are: of these one alone is drawn.
_BESIDE = frozenset(["near", "next", "between"])  # a ball on a box is near the table, too


@dataclass(frozen=True, slots=True)
class OutOfStep:
    """An item whose answer is out of step with the others, and in a few words with what."""

    item: Item
    answer: Answer
    against: str


@dataclass(frozen=True)
class _Source:
    """What an exercise is about: the script that is heard in it, or the brief of its picture."""

    passages: Sequence[Passage]

    @cached_property
    def sentences(self) -> list[frozenset[str]]:
        """The words of each sentence, with who says it."""
        return [
            told_words(sentence) | told_words(passage.speaker or "")
            for passage in self.passages
            for sentence in SENTENCE.findall(passage.text)
        ]

    @cached_property
    def words(self) -> frozenset[str]:
        """All words."""
        return frozenset().union(*self.sentences)

    @cached_property
    def by_number(self) -> dict[str, frozenset[str]]:
        """The numbers that are said under each number of a script that is numbered from one on; else nothing."""
        heard = heard_numbers(self.passages)
        if len(heard) < _FEWEST or [one.number for one in heard] != list(range(1, len(heard) + 1)):
            return {}
        said = {str(one.number): without_counting(one.behind) for one in heard}
        return {number: frozenset(word for word in told_words(text) if word.isdigit()) for number, text in said.items()}

    @cached_property
    def has_times(self) -> bool:
        """Whether times of day are told that are no full hours."""
        return any(":" in word for word in self.words)

    def counts_other_things(self, own: frozenset[str], asked: frozenset[str]) -> bool:
        """Whether a number is only said of things that are not asked for, and never alone: Have we six? No, seven."""
        counted = [
            told_words(thing)
            for passage in self.passages
            for number, _, _, thing in numbers_in(passage.text)
            if str(number) in own
        ]
        return bool(counted) and all(things and not things & asked for things in counted)

    def says(self, words: frozenset[str]) -> bool:
        """Whether a sentence has all these words."""
        return any(words <= sentence for sentence in self.sentences)


def out_of_step(read: Exercises, unit: Unit) -> OutOfStep | None:
    """The one answer of a page that goes neither with its script nor with its picture; None where there is none."""
    heard = heard_in(read.activity, unit)
    if number_left_out(heard) is not None:
        return None  # the script's own slip
    drawn = briefs_of(read.activity, unit)
    for passages, name in ((heard, "script"), (drawn, "picture")):
        if passages and (passages is heard or not heard):
            source = _Source(passages)
            found = _option(read, source, name) or _number(read, source, name)
            if found is not None:
                return found
    if heard or not drawn:
        return None
    source = _Source(drawn)
    item = not_as_drawn(read, drawn)
    if item is not None:
        return _found(item, "look at what is drawn")
    return _elsewhere(read, source) or _doing(read, source)


def _option(read: Exercises, source: _Source, name: str) -> OutOfStep | None:
    """The one chosen option that is not said, where one other option of its item is, or no word of any in a script."""
    found = the_one_out_of_step(_by_option(read, source, name), _FEWEST)
    if found is None:
        return None
    item, chosen, said = found
    if not said and name == "script":
        return (
            _found(item, f"the script has none of “{'”, “'.join(_options(item))}”")
            if _says_none(item, source)
            else None
        )
    if len(said) != 1:
        return None
    return _found(item, f"the {name} has “{said[0]}”, not “{chosen.text}”")


def _options(item: Item) -> Sequence[str]:
    return [option.text.rstrip(" .") for option in item.choices[0].options]


def _says_none(item: Item, source: _Source) -> bool:
    """Say whether no word of any option is heard, in any form; what is like something (*The weather was …*) is often
    told in other words."""
    options = [told_words(option) for option in _options(item)]
    told = not any(_is_heard(word, source.words) for words in options for word in words)
    return told and len(options) > 2 and _BEING.search(item.text) is None


def _by_option(
    read: Exercises, source: _Source, name: str
) -> Iterator[tuple[bool, tuple[Item, Option, Sequence[str]]]]:
    """Items with their chosen option and those that are said, and whether the chosen one is said."""
    for exercise in read.exercises:
        for item in _answered(exercise):
            chosen = _chosen(item, exercise)
            if chosen is None:
                continue
            options = [option.text for option in item.choices[0].options]
            if any(option.casefold() in PLACES for option in options):
                continue  # where a thing is, is asked of the sentence that tells it
            asked = told_words(_without(item.text, options))
            whole = [told_words(option) - asked for option in options]
            told = [words - frozenset.intersection(*whole) for words in whole]
            if not all(told) or any(_RECKONED.search(text) for text in (item.text, chosen.text)):
                continue
            own = told[options.index(chosen.text)]
            # A picture has two jars and three coins: what is two must stand beside it.
            missing = not source.says(own) if name == "picture" and _has_number(own) else not own <= source.words
            if missing and name == "script" and len(own) > 1 and any(_is_heard(word, source.words) for word in own):
                continue  # cold and windy: freezing, with strong winds
            if not missing and asked and _has_number(own) and source.counts_other_things(own, asked):
                of_it = _said(options, [words | asked for words in told], source)
                missing = len(of_it) == 1 and of_it[0] != chosen.text  # ____ birds: four bees, and six birds
            said = _said(options, whole, source) or _said(options, told, source)
            said = said if len(said) == 1 else _said(options, [words and words | asked for words in whole], source)
            yield not missing, (item, chosen, said)


def _is_heard(word: str, words: frozenset[str]) -> bool:
    """Say whether a word is heard in some form: windy, in winds."""
    return word in words or any(other.startswith(word[:_STEM]) for other in words if len(word) > _STEM)


def _without(text: str, options: Sequence[str]) -> str:
    """A question without the options that stand inside it."""
    for option in options:
        text = text.replace(option, " ")
    return text


def _said(options: Sequence[str], told: Sequence[frozenset[str]], source: _Source) -> list[str]:
    return [option for option, words in zip(options, told, strict=True) if source.says(words)]


def _number(read: Exercises, source: _Source, name: str) -> OutOfStep | None:
    """The one number, time, colour or day that is not said, where all words of at least three other answers are."""
    heading = read.activity.heading.passage.text
    if name == "script" and _LISTEN.search(heading) and _READ.search(heading):
        return None  # a test of which only a part is heard
    for exercise in read.exercises:
        found = None if _is_numbering(exercise) else the_one_out_of_step(_by_word(exercise, source), _FEWEST)
        if found is not None:
            item, one = found
            there = " there" if _said_there(item, exercise, source) is not None and one.isdigit() else ""
            shown = one.capitalize() if one.endswith("day") else one
            return _found(item, f"the {name} has no {shown}{there}{_forgotten(item, source)}")
    return None


def _forgotten(item: Item, source: _Source) -> str:
    """What a short item is about, where that is not told of at all: `____ spoons`, and no word of spoons."""
    asked = [word for word in _WORD.findall(item.text) if word.casefold() not in small_words()]
    if len(asked) > _LABEL or "?" in item.text:
        return ""
    never = next((word for word in asked if told_words(word) and not told_words(word) & source.words), "")
    return f", and nothing of “{never}”" if never else ""


def _said_there(item: Item, exercise: Exercise, source: _Source) -> frozenset[str] | None:
    """The numbers that are said under an item's own number; None where the script counts its lines, and not the
    items."""
    return source.by_number.get(item.label.key) if len(source.by_number) <= len(exercise.items) else None


def _by_word(exercise: Exercise, source: _Source) -> Iterator[tuple[bool, tuple[Item, str]]]:
    """Items all whose words are said, and each number, time, colour or day of the others that is not."""
    for item in _answered(exercise):
        said = _BRACKETED.sub("", _said_by_key(item, exercise))
        if not said or _LONG.search(said) or _OPEN.search(said) or _FULL_HOUR.search(said):
            continue
        known = _said_there(item, exercise, source)
        missing = {
            one
            for one in told_words(said)
            if one not in (known if known is not None and one.isdigit() else source.words)
        }
        times = {one for one in missing if ":" in one}
        if not times and any(":" in one for one in told_words(said)):
            missing = {one for one in missing if not one.isdigit()}  # half past four, and the clock says 4:30
        if not missing:
            yield True, (item, "")
        if _RECKONED.search(item.text):
            continue
        for one in times if times and source.has_times else missing - times:  # half past eight, and not eight as well
            priced, timed = _PRICED.search(f"{item.text} {said}") is not None, ":" in one
            if priced and (timed or _is_product(one, source.words)):
                continue  # four mangoes at twenty coins
            if is_one_of_few(one) and one not in _IN_OTHER_UNITS:
                yield False, (item, one)


def _is_product(one: str, said: frozenset[str]) -> bool:
    """Say whether a number is one that is said times another."""
    figures = [int(word) for word in said if word.isascii() and word.isdigit() and int(word) > 1]
    return one.isdigit() and any(int(one) == first * other for first in figures for other in figures)


def _is_numbering(exercise: Exercise) -> bool:
    """Say whether the answers are nothing but numbers from one on, in any order: pictures are numbered."""
    told = [item.answer.text.strip(" .()") for item in _answered(exercise) if item.answer is not None]
    return sorted(told) == sorted(str(at) for at in range(1, len(told) + 1))


def _said_by_key(item: Item, exercise: Exercise) -> str:
    """What the key says of an item: the words of the options that it chooses, else its own."""
    chosen = [option for option in completed(item, exercise).chosen if option is not None]
    return " ".join(option.text for option in chosen) if chosen else item.answer.text if item.answer else ""


def is_one_of_few(word: str) -> bool:
    """Say whether a word is one of few that exclude each other: a number in figures, a time (7:40), a colour, a day."""
    return word.isdigit() or ":" in word or word in _few()


@cache
def _few() -> frozenset[str]:
    return words("colours") | {f"{day}day" for day in ("mon", "tues", "wednes", "thurs", "fri", "satur", "sun")}


def _elsewhere(read: Exercises, source: _Source) -> OutOfStep | None:
    """Where a thing is: on the table by the key, and under it in the picture."""
    clauses = [drawn_words(one) for passage in source.passages for one in CLAUSE.split(passage.text)]
    for exercise in read.exercises:
        for item in _answered(exercise):
            asked = _WHERE.search(item.text)
            chosen = _chosen(item, exercise)
            said = chosen.text if chosen is not None else item.answer.text if item.answer is not None else ""
            thing, place = told_words(asked[1]) if asked is not None else frozenset(), drawn_words(said)
            where, spot = PLACE_WORDS & place, place - PLACE_WORDS - thing
            drawn = [clause for clause in clauses if thing and spot and where and thing | spot <= clause]
            if drawn and not where & _BESIDE and all(clause & PLACE_WORDS and not clause & where for clause in drawn):
                return _found(item, "look where it is drawn")
    return None


def _doing(read: Exercises, source: _Source) -> OutOfStep | None:
    """The one answer to what somebody is doing of which nothing is drawn where he is: He was eating a mango, of who
    sleeps on a bench."""
    parts = [one for passage in source.passages for one in CLAUSE.split(passage.text)]
    clauses = [drawn_words(one) for one in parts if _DOES.search(one)]
    for exercise in read.exercises:
        marked: list[tuple[bool, Item]] = []
        for item in _answered(exercise):
            asked = _WHAT_DOING.search(item.text)
            who = drawn_words(asked[1]) if asked is not None else frozenset[str]()
            done = drawn_words(item.answer.text) - who if item.answer is not None else frozenset[str]()
            own = [clause for clause in clauses if who and who <= clause]
            in_step = any(done <= clause for clause in own)
            if own and done and (in_step or not any(done & clause for clause in own)):
                marked.append((in_step, item))
        found = the_one_out_of_step(marked, _FEWEST)
        if found is not None:
            return _found(found, "look at what is drawn")
    return None


def _answered(exercise: Exercise) -> Iterator[Item]:
    return (item for item in exercise.items if item.answer is not None and not item.example)


def _chosen(item: Item, exercise: Exercise) -> Option | None:
    """The option that the key chooses, where the item has options of its own in one place."""
    if len(item.choices) != 1:
        return None
    chosen = completed(item, exercise).chosen[0]
    return chosen if chosen in item.choices[0].options else None


def _found(item: Item, against: str) -> OutOfStep | None:
    return OutOfStep(item, item.answer, against) if item.answer is not None else None


def _has_number(words: frozenset[str]) -> bool:
    return any(re.fullmatch(r"\d+", word) for word in words)
