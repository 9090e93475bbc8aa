"""Answers held against a script that numbers what is heard: *Number one. It's a frog. It's green.*

Only where the answers to all the others are words that the script says under their numbers is one that is not worth a
question; a key of letters, ticks or drawings says nothing here.
"""

import re
from collections.abc import Iterable, Iterator, Sequence

from lint_rules import lazy_re
from lint_rules.manuscript.model import Audience
from lint_rules.page.exercises.answers import alternatives, is_verdict, yes_or_no
from lint_rules.page.exercises.completed import completed
from lint_rules.page.exercises.model import Answer, Exercises
from lint_rules.page.exercises.small_words import small_words
from lint_rules.page.number_words import NUMBER_WORDS

_STEM = 4  # letters that a word begins with in another form
_FEWEST = 3  # answers that are heard under their numbers, before one that is not is a slip
_NUMBER = lazy_re.compile(
    rf"\b(?:number|question|picture)\s+(\d{{1,2}}|{'|'.join(NUMBER_WORDS)})\b"
    rf"|^\W*(\d{{1,2}}|{'|'.join(NUMBER_WORDS)})[.!:](?=\s)",  # Three. Look! A bag. It's yellow.
    re.I | re.M,
)
_DRAWN = lazy_re.compile(r"\b(?:picture\s+)?(\d{1,2})\b[.:)]?\s+(?=[a-z])", re.I)  # Picture 1: a leaf. 2 red onion.
_WORD = lazy_re.compile(r"[^\W_]+")


def not_heard(read: Exercises) -> Answer | None:
    """The one answer of a key that the script does not say under its number, where it says all the others."""
    said = _by_number(one.text for one in read.activity.part.passages if one.audience is Audience.LISTENER)
    if not said:
        return None
    right, wrong = 0, []
    for answer, ways in _answers(read):
        heard = said.get(answer.label.key if answer.label else "")
        if heard is None:
            return None
        if any(all(_is_heard(word, heard) for word in words) for words in ways):
            right += 1
        else:
            wrong.append(answer)
    return wrong[0] if right >= _FEWEST and len(wrong) == 1 else None


def verdict_out_of_step(read: Exercises) -> tuple[Answer, bool] | None:
    """The one yes or no of a key that does not go with the picture and the script of its number (a red fish is drawn,
    and a blue one told of), where all the others do; and whether picture and script say the same there."""
    passages = read.activity.part.passages
    said = _by_number(one.text for one in passages if one.audience is Audience.LISTENER)
    drawn = _drawn_by_number(one.text for one in passages if one.audience is Audience.ARTIST)
    if not said or said.keys() != drawn.keys():
        return None
    right, wrong = 0, []
    for item in (item for exercise in read.exercises for item in exercise.items if not item.example):
        answer = item.answer
        told = yes_or_no(answer.text) if answer is not None else None
        if answer is None or told is None or item.label.key not in said:
            return None
        same = all(_is_heard(word, said[item.label.key]) for word in drawn[item.label.key])
        right += same is told
        wrong += [(answer, same)] if same is not told else []
    return wrong[0] if right >= _FEWEST and len(wrong) == 1 else None


def _drawn_by_number(texts: Iterable[str]) -> dict[str, frozenset[str]]:
    """What a brief draws under each number, in words that matter, where it numbers its pictures from 1 on."""
    whole = "\n".join(texts)
    marks: list[re.Match[str]] = []
    for mark in _DRAWN.finditer(whole):
        if mark[1] == str(len(marks) + 1):
            marks.append(mark)
    ends = [*(mark.start() for mark in marks[1:]), len(whole)]
    found = (
        {}
        if not marks
        else {
            mark[1]: frozenset(_words(re.split(r"[.;\n]", whole[mark.end() : end])[0])) - small_words()
            for mark, end in zip(marks, ends, strict=True)
        }
    )
    return found if all(found.values()) else {}


def _by_number(texts: Iterable[str]) -> dict[str, frozenset[str]]:
    """The words under each number, where they are numbered from 1 on."""
    whole = "\n".join(texts)
    marks = list(_NUMBER.finditer(whole))
    said = [mark[1] or mark[2] for mark in marks]
    numbers = [NUMBER_WORDS.get(one.casefold(), one) for one in said]
    if not marks or [str(number) for number in numbers] != [str(at) for at in range(1, len(marks) + 1)]:
        return {}
    ends = [*(mark.start() for mark in marks[1:]), len(whole)]
    return {
        str(number): frozenset(_words(whole[mark.end() : end]))
        for number, mark, end in zip(numbers, marks, ends, strict=True)
    }


def _answers(read: Exercises) -> Iterator[tuple[Answer, Sequence[Sequence[str]]]]:
    """Each answer that is of words, with the ways to say it."""
    for exercise in read.exercises:
        for item in exercise.items:
            if item.answer is not None and not item.example:
                chosen = [option for option in completed(item, exercise).chosen if option is not None]
                texts = [option.text for option in chosen] if item.choices else alternatives(item.answer.text)
                yield from _ways(item.answer, texts)
    for answer in read.loose:  # nothing is numbered on the page: Listen and colour
        yield from _ways(answer, alternatives(answer.text))


def _ways(answer: Answer, texts: Iterable[str]) -> Iterator[tuple[Answer, Sequence[Sequence[str]]]]:
    ways = [[word for word in _words(text) if word not in small_words()] for text in texts if not is_verdict(text)]
    ways = [words for words in ways if any(len(word) > 1 for word in words)]
    if ways and answer.label is not None:
        yield answer, ways


def _is_heard(word: str, heard: frozenset[str]) -> bool:
    """Whether a word is heard, perhaps in another form: sleep, in sleeping."""
    return any(one.startswith(word) or (len(one) >= _STEM and word.startswith(one)) for one in heard)


def _words(text: str) -> list[str]:
    return _WORD.findall(text.casefold())
