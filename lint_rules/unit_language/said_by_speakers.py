"""What the key gives to somebody, held against what that one says in the script of the task.

*Kito – green*, says the key, and KITO says *It's red*; *Fenna: button, pocket*, and FENNA says *I haven't got a
button*. Only the one answer that is out of step, where those of others are what they say themselves; or two that have
changed places.
"""

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from lint_rules import lazy_re
from lint_rules.manuscript.model import Passage, Unit
from lint_rules.page.audio import heard_in
from lint_rules.page.exercises.answers import letters_of
from lint_rules.page.exercises.model import Answer, Exercise, Exercises
from lint_rules.page.number_words import numbers_in
from lint_rules.unit_language.option_support import content_in_order

_FEWEST = 2  # answers that their speakers say, before one that they do not is a slip
_SENTENCE = lazy_re.compile(r"[^.!?\n]+[.!?]*")
_CLAUSE = lazy_re.compile(r"[,;:–—]|\b(?:and|but)\b", re.I)
_DENIED = lazy_re.compile(r"n['’]t\b|\b(?:not|no|never)\b", re.I)
_NAMED = lazy_re.compile(r"\s*([A-Z][\w’']+)\s*[:–—-]\s+(\S.*)", re.S)  # Pim: button
_WORD = lazy_re.compile(r"[\w’']+")
_MARKED = lazy_re.compile(r"[✓✗✔✘]")
_COUNTED = lazy_re.compile(r"(?P<thing>[^\W\d]+(?: [^\W\d]+)?):? (?P<number>\d{1,2})")
_PARTS = lazy_re.compile(r",\s*|\s+and\s+")


@dataclass(frozen=True, slots=True)
class _Given:
    """What the key gives to a speaker: the answer, who it is, the words; the other words that there are to give."""

    answer: Answer
    who: str
    words: tuple[str, ...]
    others: tuple[tuple[str, ...], ...] = ()
    number: int = 0  # of things, where the key counts them: rolls 5


@dataclass(frozen=True, slots=True)
class Unsaid:
    """An answer that its speaker does not say, who that is, and the sentence that says otherwise."""

    answer: Answer
    who: str
    sentence: str


def unsaid(read: Exercises, unit: Unit) -> list[Unsaid]:
    """The one answer that its speaker denies, or in whose place he says another; two where they have changed places."""
    turns: dict[str, list[Passage]] = {}
    for passage in heard_in(read.activity, unit):
        if passage.speaker:
            turns.setdefault(passage.speaker.casefold(), []).append(passage)
    if len(turns) < _FEWEST:
        return []
    named = frozenset(word for name in (*turns, *_names(read)) for word in name.split()) - {"mr", "mrs", "miss", "the"}
    in_step, found = 0, []
    for given in _given(read, turns):
        said = _said(given, turns[given.who], named - {*given.who.split()})
        in_step += said is True
        found += [(given, said)] if isinstance(said, tuple) else []
    swapped = len(found) == len({one.words for one, _ in found}) == 2 and all(
        other == two.words for (_, (other, _)), (two, _) in ((found[0], found[1]), (found[1], found[0]))
    )
    if in_step < _FEWEST or not (len(found) == 1 or swapped):
        return []
    return [Unsaid(one.answer, one.who.title(), sentence) for one, (_, sentence) in found]


def _given(read: Exercises, speakers: Mapping[str, object]) -> Iterator[_Given]:
    for exercise in read.exercises:
        for item in exercise.items:
            who = (item.text.strip(" .:_") or item.label.text).casefold()
            if item.answer is not None and not item.example and who in speakers:
                yield from _chosen(item.answer, who, exercise)
    for answer in read.loose:
        named = _NAMED.fullmatch(answer.text)
        if named is not None and named[1].casefold() in speakers:
            yield from _parts(answer, named[1].casefold(), named[2])


def _chosen(answer: Answer, who: str, exercise: Exercise) -> Iterator[_Given]:
    letters = letters_of(answer.text)
    options = {one.label.key: content_in_order(one.text) for one in exercise.column if one.label is not None}
    if not options:
        yield from _parts(answer, who, answer.text)
    elif len(letters) == 1 and options.get(letters[0]):
        others = tuple(words for key, words in options.items() if key != letters[0] and words)
        yield _Given(answer, who, options[letters[0]], others)


def _parts(answer: Answer, who: str, text: str) -> Iterator[_Given]:
    for part in _PARTS.split(text) if _MARKED.search(text) is None else ():
        counted = _COUNTED.fullmatch(part.strip(" .;"))
        words = content_in_order(counted["thing"] if counted is not None else part)
        if words and (counted is None or int(counted["number"])):  # pies 0: he says nothing of them
            yield _Given(answer, who, words, number=int(counted["number"]) if counted is not None else 0)


def _names(read: Exercises) -> Iterator[str]:
    """The items of a task, where they are names."""
    for exercise in read.exercises:
        yield from (item.text.strip(" .:_").casefold() for item in exercise.items if item.text[:1].isupper())


def _said(given: _Given, turns: Sequence[Passage], others_named: frozenset[str]) -> bool | tuple[tuple[str, ...], str]:
    """True where a speaker says what he is given; else the words and the sentence that say otherwise; False where
    nothing does. What he says of others (Tuba is sleeping) is not his."""
    if given.number:
        return _counted(given, turns)
    affirmed: list[tuple[frozenset[str], str]] = []
    denied: list[tuple[frozenset[str], str]] = []
    for passage in turns:
        for sentence in _SENTENCE.findall(passage.text):
            if not sentence.rstrip().endswith("?"):
                for clause in _CLAUSE.split(sentence):
                    if not others_named.isdisjoint(_WORD.findall(clause.casefold())):
                        continue
                    where = denied if _DENIED.search(clause) is not None else affirmed
                    where.append((frozenset(content_in_order(clause)), sentence.strip()))
    if any(words.issuperset(given.words) for words, _ in affirmed):
        return True
    others = [(other, said) for other in given.others for words, said in affirmed if words.issuperset(other)]
    if len({other for other, _ in others}) == 1:
        return others[0]
    against = next((said for words, said in denied if words.issuperset(given.words)), "")
    return (given.words, against) if against else False


def _counted(given: _Given, turns: Sequence[Passage]) -> bool | tuple[tuple[str, ...], str]:
    """The same of a number of things: True where a speaker says it, the sentence where he says another one."""
    for passage in turns:
        for sentence in _SENTENCE.findall(passage.text):
            told = {number for number, _, _, thing in numbers_in(sentence) if content_in_order(thing) == given.words}
            if told:
                return given.number in told or (given.words, sentence.strip())
    return False
