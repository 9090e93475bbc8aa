"""Letters of a key held against lettered pictures: *a: a bear. b: an owl*, and the word or the script of each number.

The key gives picture c to the fish, and c is an owl. Only where all the other letters of the exercise (two at least)
stand for pictures that have the words of their item or of its part of the script, is one that does not, or two that
have changed places, worth a question.
"""

import re
from collections.abc import Iterator, Mapping, Sequence

from lint_rules import lazy_re
from lint_rules.manuscript.model import Audience, Unit
from lint_rules.page.audio import heard_in
from lint_rules.page.exercises.model import Exercise, Exercises, Item
from lint_rules.page.heard_numbers import heard_numbers
from lint_rules.unit_language.option_support import content_words
from lint_rules.unit_language.out_of_step import is_one_of_few

_FEWEST = 2  # letters in step
_MOST = 2  # letters out of step: they have changed places
_LETTER = lazy_re.compile(r"(?:^|(?<=[\s(;,.]))\(?(?:picture |drawing )?([a-h])[):]\s+", re.I)
_BARE_LETTER = lazy_re.compile(r"(?:^|(?<=[\s(;,.:]))([a-h])[):]?\s+(?=[a-z])")
_NUMBER = lazy_re.compile(r"(?:^|(?<=[\s(;,.]))(?:row |picture )?(\d{1,2})[:.)]\s+", re.I)
_ENDS = lazy_re.compile(r"[.;\n]")

Pictures = Mapping[str, frozenset[str]]


def wrong_letters(read: Exercises, unit: Unit) -> list[tuple[Item, str]]:
    """The items whose letter stands for another picture, each with the letter that goes with it; none where more
    than two are out of step, or the picture is told in several briefs."""
    briefs = [one for one in read.activity.part.passages if one.audience is Audience.ARTIST]
    if len({one.div for one in briefs}) != 1:
        return []
    brief = "\n".join(one.text for one in briefs)
    rows = dict(_rows(brief))
    pictures = {} if rows else _lettered(brief, _LETTER)
    heard = {str(one.number): content_words(one.behind) for one in heard_numbers(heard_in(read.activity, unit))}
    found: list[tuple[Item, str]] = []
    for exercise in read.exercises if rows or pictures else ():
        right = 0
        wrong: list[tuple[Item, str, str]] = []
        for item, number, letter in _letters(exercise):
            words = content_words(item.text) | heard.get(number, frozenset())
            fit = _fitting(rows.get(number, pictures), words, letter)
            right += letter in fit
            wrong += [(item, letter, fit[0])] if fit and letter not in fit else []
        changed = len(wrong) == 1 or {one[1] for one in wrong} == {one[2] for one in wrong}
        if right >= _FEWEST and 0 < len(wrong) <= _MOST and changed:
            found += [(item, meant) for item, _, meant in wrong]
    return found


def _letters(exercise: Exercise) -> Iterator[tuple[Item, str, str]]:
    """The items that the key answers with a letter, or letters that it answers with a number: item, number, letter."""
    for item in exercise.items:
        if item.answer is None or item.example:
            continue
        said, label = item.answer.text.strip(" .()").casefold(), item.label.key
        if re.fullmatch("[a-h]", said):
            yield item, label, said
        elif said.isdigit() and re.fullmatch("[a-h]", label):
            yield item, said, label


def _fitting(pictures: Pictures, words: frozenset[str], own: str) -> Sequence[str]:
    """The letters of the pictures of which most is said; none where nothing is, or only a part of one and of the key's
    ``own`` (The beans grow: the beans get taller, beans are watered)."""
    shares = {letter: len(drawn & words) / len(drawn) for letter, drawn in pictures.items() if drawn}
    best = max(shares.values(), default=0)
    other = own in pictures and any(is_one_of_few(word) for word in pictures[own] - words)  # a blue fish, a yellow fish
    if shares.get(own, 0) and shares[own] < best and not (best == 1 and other):
        return []
    return [letter for letter, share in shares.items() if share == best] if best else []


def _rows(brief: str) -> Iterator[tuple[str, Pictures]]:
    """The lettered pictures of each numbered row: 1: a brown bear, b white bear. 2: …"""
    marks: list[re.Match[str]] = []
    for mark in _NUMBER.finditer(brief):
        if mark[1] == str(len(marks) + 1):
            marks.append(mark)
    if not marks:
        return
    ends = [*(mark.start() for mark in marks[1:]), len(brief)]
    for mark, end in zip(marks, ends, strict=True):
        row = brief[mark.end() : end]
        if pictures := _lettered(row, _LETTER) or _lettered(row, _BARE_LETTER):
            yield mark[1], pictures


def _lettered(text: str, pattern: re.Pattern[str]) -> Pictures:
    """What each picture shows, in words as they are compared, where they are lettered from a on."""
    marks: list[re.Match[str]] = []
    for mark in pattern.finditer(text):
        if mark[1].casefold() == "abcdefgh"[len(marks) : len(marks) + 1]:
            marks.append(mark)
    if len(marks) < _MOST:
        return {}
    ends = [*(mark.start() for mark in marks[1:]), len(text)]
    return {
        mark[1].casefold(): content_words(_ENDS.split(text[mark.end() : end])[0])
        for mark, end in zip(marks, ends, strict=True)
    }
