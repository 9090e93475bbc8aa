"""What the key gives to somebody, held against what that one says in the script of the task.

*Kito – green*, says the key, and KITO says *It's red*; *Fenna: button, pocket*, and FENNA says *I haven't got a
button*; *Orla: rolls 5*, and ORLA says *Four rolls, please*; *Mimba: milk ✓*, and she says no to *Do you like milk?*
Only the one answer that is out of step, where those of others are what they say themselves; or two that have changed
places.
"""

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from lint_rules import lazy_re
from lint_rules.manuscript.model import Passage, Unit
from lint_rules.page.audio import heard_in
from lint_rules.page.exercises.answers import letters_of
from lint_rules.page.exercises.model import Answer, Exercise, Exercises, Place
from lint_rules.page.number_words import numbers_in
from lint_rules.plain_words import DENIED, SENTENCE
from lint_rules.unit_language.option_support import content_in_order

_FEWEST = 2  # answers that their speakers say, before one that they do not is a slip
_CLAUSE = lazy_re.compile(r"[,;:–—]|\b(?:and|but)\b", re.I)
_YES_NO = lazy_re.compile(r"\W*(yes|no)\b", re.I)
_NAMED = lazy_re.compile(r"\s*([A-Z][\w’']+)\s*[:–—-]\s+(\S.*)", re.S)  # Pim: button
_NAMES_ONE = lazy_re.compile(r"(?:(?<=^)|(?<=[.;]\s))[A-Z][\w’']+(?=\s*[:–—]\s)")
_WORD = lazy_re.compile(r"[\w’']+")
_MARKED = lazy_re.compile(r"(?P<thing>[^✓✔✗✘☺☹]+?)\s*(?P<mark>[✓✔✗✘☺☹])")
_COUNTED = lazy_re.compile(r"(?P<thing>[^\W\d]+(?: [^\W\d]+)?):? (?P<number>\d{1,2})")
_PARTS = lazy_re.compile(r",\s*|\s+and\s+")
_TITLES = frozenset({"mr", "mrs", "miss", "ms", "the", "captain", "doctor", "dr", "uncle", "aunt", "granny", "grandma"})


@dataclass(frozen=True, slots=True)
class _Given:
    """What the key gives to a speaker: the answer, who it is, the words, whether they are so (✓) or not (✗); the other
    words that there are to give; how many of them, where it counts (rolls 5)."""

    answer: Answer
    who: str
    words: tuple[str, ...]
    is_so: bool = True
    others: tuple[tuple[str, ...], ...] = ()
    number: int = 0


@dataclass(frozen=True, slots=True)
class _Claim:
    """What a speaker says of himself: the words of a clause, whether they are so, and the sentence."""

    words: frozenset[str]
    is_so: bool
    sentence: str


@dataclass(frozen=True, slots=True)
class Unsaid:
    """An answer that its speaker does not say, who that is, and the sentence that says otherwise."""

    answer: Answer
    who: str
    sentence: str


def unsaid(read: Exercises, unit: Unit) -> list[Unsaid]:
    """The one answer that its speaker denies, or in whose place he says another; two where they have changed places."""
    heard = [passage for passage in heard_in(read.activity, unit) if passage.speaker]
    speakers = {passage.speaker.casefold() for passage in heard}
    if len(speakers) < _FEWEST or DENIED.search(read.activity.heading.passage.text) is not None:
        return []  # What can't they do?
    named = frozenset(word for name in (*speakers, *_names(read)) for word in name.split()) - _TITLES
    claims = {who: list(_claims(who, heard, named - {*who.split()})) for who in speakers}
    in_step = 0
    found: list[tuple[_Given, tuple[str, ...], str]] = []
    for given in _given(read, claims):
        said = _said(given, claims[given.who])
        in_step += said is True
        found += [(given, *said)] if isinstance(said, tuple) else []
    swapped = len(found) == len({one.words for one, *_ in found}) == 2 and {one.words for one, *_ in found} == {
        other for _, other, _ in found
    }
    if in_step < (1 if swapped else _FEWEST) or not (len(found) == 1 or swapped):
        return []
    return [Unsaid(one.answer, one.who.title(), sentence) for one, _, sentence in found]


def _names(read: Exercises) -> Iterator[str]:
    """The items of a task, where they are names."""
    for exercise in read.exercises:
        yield from (item.text.strip(" .:_").casefold() for item in exercise.items if item.text[:1].isupper())


def _claims(who: str, heard: Sequence[Passage], others_named: frozenset[str]) -> Iterator[_Claim]:
    """What a speaker says of himself: his clauses, and what he says yes or no to. What he says of others (Tuba is
    sleeping) is not his."""
    asked = ""
    for passage in heard:
        sentences = [sentence.strip() for sentence in SENTENCE.findall(passage.text) if sentence.strip()]
        if passage.speaker.casefold() == who:
            answer = _YES_NO.match(passage.text)
            if asked and answer is not None and DENIED.search(asked) is None:  # Haven't you got a robot? No, I have!
                is_so = answer[1].casefold() == "yes"
                yield _Claim(frozenset(content_in_order(asked)), is_so, f"{asked} {sentences[0]}")
            for sentence in sentences if not passage.text.rstrip().endswith("?") else sentences[:-1]:
                for clause in _CLAUSE.split(sentence) if not sentence.endswith("?") else ():
                    if others_named.isdisjoint(_WORD.findall(clause.casefold())):
                        words = frozenset(content_in_order(clause))
                        yield _Claim(words, DENIED.search(clause) is None, sentence)
        asked = sentences[-1] if sentences and sentences[-1].endswith("?") else ""


def _given(read: Exercises, speakers: Mapping[str, object]) -> Iterator[_Given]:
    for exercise in read.exercises:
        for item in exercise.items:
            who = (item.text.strip(" .:_") or item.label.text).casefold()
            if who not in speakers and _MARKED.search(item.answer.text if item.answer is not None else "") is not None:
                who = next(iter(who.split()), "")  # a row of a table: Gabi, bread, milk
            if item.answer is not None and not item.example and who in speakers:
                yield from _chosen(item.answer, who, exercise)
    for answer in _named_pieces(read) or read.loose:
        named = _NAMED.fullmatch(answer.text)
        if named is not None and named[1].casefold() in speakers:
            yield from _parts(answer, named[1].casefold(), named[2])


def _named_pieces(read: Exercises) -> list[Answer]:
    """What a key says of each by name, where it is cut at the stops: Lan: throw, jump. Bao: dive."""
    found: list[Answer] = []
    for passage in read.keys if read.loose else ():
        starts = [match.start() for match in _NAMES_ONE.finditer(passage.text)]
        ends = [*starts[1:], len(passage.text)][: len(starts)]
        pieces = [Answer(Place(passage, *cut)) for cut in zip(starts, ends, strict=True)]
        found += pieces if len(pieces) > 1 else []
    return [replace(one, place=_without_end(one.place)) for one in found]


def _without_end(place: Place) -> Place:
    return Place(place.passage, place.start, place.start + len(place.text.rstrip(" .;")))


def _chosen(answer: Answer, who: str, exercise: Exercise) -> Iterator[_Given]:
    letters = letters_of(answer.text)
    options = {one.label.key: content_in_order(one.text) for one in exercise.column if one.label is not None}
    if not options:
        yield from _parts(answer, who, answer.text)
    elif len(letters) == 1 and options.get(letters[0]):
        others = tuple(words for key, words in options.items() if key != letters[0] and words)
        yield _Given(answer, who, options[letters[0]], others=others)


def _parts(answer: Answer, who: str, text: str) -> Iterator[_Given]:
    """`button, pocket`; `rolls 5, pies 1`; `milk ✓, soup ✗`."""
    for part in _PARTS.split(text):
        bare = part.strip(" .;")
        counted, marked = _COUNTED.fullmatch(bare), _MARKED.fullmatch(bare)
        told = counted or marked
        words = content_in_order(told["thing"] if told is not None else part)
        number = int(counted["number"]) if counted is not None else 0
        if words and (counted is None or number):  # pies 0: he says nothing of them
            yield _Given(answer, who, words, marked is None or marked["mark"] in "✓✔☺", number=number)


def _said(given: _Given, claims: Sequence[_Claim]) -> bool | tuple[tuple[str, ...], str]:
    """True where a speaker says what he is given; else the words and the sentence that say otherwise; False where
    nothing does, or both."""
    if given.number:
        return _counted(given, claims)
    own = [one for one in claims if one.words.issuperset(given.words)]
    if any(one.is_so is given.is_so for one in own):
        return not any(one.is_so is not given.is_so for one in own)
    others = {other: one.sentence for other in given.others for one in claims if one.is_so and one.words >= {*other}}
    if len(others) == 1:
        return others.popitem()
    return (given.words, own[0].sentence) if own else False


def _counted(given: _Given, claims: Sequence[_Claim]) -> bool | tuple[tuple[str, ...], str]:
    """The same of a number of things: True where a speaker says it, the sentence where he says another one."""
    told: dict[int, str] = {}
    for one in claims:
        for number, _, _, thing in numbers_in(one.sentence) if one.is_so else ():
            if content_in_order(thing) == given.words:
                told.setdefault(number, one.sentence)
    if given.number in told or len(told) != 1:
        return given.number in told
    return given.words, next(iter(told.values()))
