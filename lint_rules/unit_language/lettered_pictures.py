"""Letters of a key held against lettered pictures: *a: a bear. b: an owl*, and the word or the script of each number.

The key gives picture c to the fish, and c is an owl. Only where all the other letters of the exercise (two at least)
stand for pictures that have the words of their item or of its part of the script, is one that does not, or two that
have changed places, worth a question.
"""

import re
from collections.abc import Iterator, Mapping, Sequence

from lint_rules import lazy_re
from lint_rules.manuscript.model import PICTURE, Audience, Unit
from lint_rules.page.audio import heard_in
from lint_rules.page.exercises.model import Exercise, Exercises, Item, Place
from lint_rules.page.heard_numbers import heard_numbers
from lint_rules.page.opposites import opposites_of
from lint_rules.plain_words import DENIED
from lint_rules.unit_language.option_support import content_words
from lint_rules.unit_language.out_of_step import is_one_of_few
from lint_rules.unit_language.places import PLACES

_FEWEST = 2  # letters in step
_MOST = 2  # letters out of step: they have changed places
_MANY, _HALF = 2, 0.5  # words of a picture, or half of them, that are said: goes out of the door is not *go home*
_LETTER = lazy_re.compile(r"(?:^|(?<=[\s(;,.]))\(?(?:picture |drawing )?([a-h])[):]\s+", re.I)
_BARE_LETTER = lazy_re.compile(r"(?:^|(?<=[\s(;,.:]))([a-h])[):]?\s+(?=[a-z])")
_SET_OFF = lazy_re.compile(r"(?:^|(?<=[;:,.(]\s)|(?<=[\n(]))([a-h])\s+(?=[a-z])")  # in a row: a a sock; b a glove
_NUMBER = lazy_re.compile(
    r"(?:^|(?<=[\s(;,.]))(?:row |picture )?(\d{1,2})(?:[:.)]\s+|\s+(?=a[):]?\s+(?:an?|the|two|three|four|some)\s))",
    re.I,
)
_WORD = lazy_re.compile(r"[a-z]+")
_SENTENCE = lazy_re.compile(r"[^.!?,\n]+[.!?,]*")
_PLACES = frozenset(place.split()[0] for place in PLACES)
_ENDS = lazy_re.compile(r"[.;\n]")

Pictures = Mapping[str, frozenset[str]]


def wrong_letters(read: Exercises, unit: Unit) -> list[tuple[Item, str]]:
    """The items whose letter stands for another picture or option, each with what goes with it (picture c); none where
    more than two are out of step, or the picture is told in several briefs."""
    brief = _brief(read)
    rows = dict(_rows(brief))
    pictures = {} if rows else _drawn(brief)
    parts = {str(one.number): one.behind for one in heard_numbers(heard_in(read.activity, unit))}
    found: list[tuple[Item, str]] = []
    for exercise in read.exercises:
        right = 0
        wrong: list[tuple[Item, str, str]] = []
        # A column of words behind letters (a next to the tree) goes with the script as pictures do.
        told = pictures or ({} if rows else _shown_as_options(exercise) or (_told(exercise) if parts else {}))
        drawn = bool(rows or pictures or _shown_as_options(exercise))
        heard = {at: _shown(text if drawn else _affirmed(text)) for at, text in parts.items()}
        for item, number, letter in letters_of_items(exercise) if rows or told else ():
            words = _shown(item.text) | heard.get(number, frozenset())
            fit = _fitting(rows.get(number, told), words, letter)
            right += letter in fit
            sure = fit and letter not in fit and _is_shown(rows.get(number, told)[fit[0]], words, item)
            wrong += [(item, letter, fit[0])] if sure else []
        changed = len(wrong) == 1 or {one[1] for one in wrong} == {one[2] for one in wrong}
        if right >= _FEWEST and 0 < len(wrong) <= _MOST and changed:
            found += [(item, f"in picture {meant}" if drawn else meant) for item, _, meant in wrong]
    return found


def shown_by_letters(read: Exercises, exercise: Exercise) -> Pictures:
    """What the letters of an exercise stand for: its pictures, or the options of its column."""
    brief = _brief(read)
    return {} if dict(_rows(brief)) else _drawn(brief) or _shown_as_options(exercise) or _told(exercise)


def _brief(read: Exercises) -> str:
    briefs = [one for one in read.activity.part.passages if one.audience is Audience.ARTIST]
    return "\n".join(one.text for one in briefs) if len({one.div for one in briefs}) == 1 else ""


def _drawn(brief: str) -> Pictures:
    return _lettered(brief, _LETTER) or _lettered(brief, _SET_OFF)


def _affirmed(text: str) -> str:
    """A text without what it only asks or denies: Is it in the tree? No, it's on the grass."""
    parts = _SENTENCE.findall(text)
    return " ".join(one for one in parts if not one.rstrip().endswith("?") and not DENIED.search(one))


def _shown_as_options(exercise: Exercise) -> Pictures:
    """What the pictures of a column show, where it is nothing but pictures: a ![boat] · b ![ball]."""
    shown = {
        one.label.key: " ".join(picture.alt for picture in one.place.passage.pictures if _is_in(picture.at, one.place))
        for one in exercise.column
        if one.label is not None and not one.text.replace(PICTURE, "").strip(" ·|/,")
    }
    column = _pictures(shown) if len(shown) == len(exercise.column) else {}
    return column if len(column) >= _MOST and all(column.values()) else {}


def _is_in(at: int, place: Place) -> bool:
    return place.start <= at < place.end


def _told(exercise: Exercise) -> Pictures:
    """What each option of a column says, where all of them say something."""
    column = _pictures({one.label.key: one.text for one in exercise.column if one.label is not None})
    return column if len(column) >= _MOST and all(column.values()) else {}


def _pictures(texts: Mapping[str, str]) -> Pictures:
    """The words of lettered texts; with where things are, where two of them have the same things."""
    plain = {letter: content_words(text) for letter, text in texts.items()}
    alike = len({words - _PLACES for words in plain.values()}) < len(plain)
    return {letter: _shown(text) for letter, text in texts.items()} if alike else plain


def _shown(text: str) -> frozenset[str]:
    """The words that are drawn or said, with where things are."""
    return content_words(text) | _PLACES.intersection(_WORD.findall(text.casefold()))


def letters_of_items(exercise: Exercise) -> Iterator[tuple[Item, str, str]]:
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
    # A blue fish, a yellow fish; a bag on a table, and under one; a big sock, and a small one.
    other = own in pictures and any(
        is_one_of_few(word) or word in _PLACES or opposites_of(word) & words for word in pictures[own] - words
    )
    if shares.get(own, 0) and shares[own] < best and not (best == 1 and other):
        return []
    return [letter for letter, share in shares.items() if share == best] if best else []


def _is_shown(drawn: frozenset[str], words: frozenset[str], item: Item) -> bool:
    """Whether a picture has all words of an item, or much of it is said: goes out of the door is no *go home*; of what
    is only heard more, for a script speaks of other things as well (I put soil in this. I planted a seed)."""
    said = content_words(item.text)
    part = _HALF if said else 1
    return (bool(said) and said <= drawn) or len(drawn & words) >= min(_MANY, len(drawn) * part)


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
    return _pictures(
        {mark[1].casefold(): _ENDS.split(text[mark.end() : end])[0] for mark, end in zip(marks, ends, strict=True)}
    )
