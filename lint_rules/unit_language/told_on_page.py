"""What decides between two options besides their own sentence: a picture, a text, a script, another item."""

import re
from collections.abc import Iterator

from lint_rules import lazy_re
from lint_rules.manuscript.model import Activity, Audience, Role, Unit
from lint_rules.page.exercises.answers import plain
from lint_rules.page.exercises.model import Exercise, Exercises, Item, Option
from lint_rules.unit_language.nothing_decides import is_about
from lint_rules.unit_language.one_sentence import without_options
from lint_rules.unit_language.right_together import tells_a_time, tells_who

_SMALL = frozenset({"the", "and", "near", "next", "behind", "under", "with", "from", "his", "her", "they", "she"})
_BACK = lazy_re.compile(
    r"\b(?:again|back|story|text|song|rhyme|poem|chant|comic|diary|remember|watch|listen|lesson)\b", re.I
)
_SHOWN = lazy_re.compile(r"\b(?:pictures?|map|photos?|plan|chart|table|drawings?)\b", re.I)
_TENSE = lazy_re.compile(r"\b(?:past|present|future|tense|yesterday|last|now|story|happened)\b", re.I)
_FREE_WORDS = 15  # words of running text from which on a page tells something


def shows_something(read: Exercises) -> bool:
    """Whether a page has a picture, or a text besides its items, that may decide."""
    part = read.activity.part
    items = {id(place.passage) for exercise in read.exercises for item in exercise.items for place in item.prompt}
    options = [o for one in read.exercises for item in one.items for choice in item.choices for o in choice.options]
    tables = {option.place.passage.cell.table for option in options if option.place.passage.cell is not None}
    cells = [place.passage.cell for place in read.charts]
    if any(cell is None or cell.table not in tables for cell in cells):
        return True  # but for the heads of a table of options
    if part.pictures or any(passage.role is Role.BRIEF or passage.pictures for passage in part.passages):
        return True
    pupils = (passage for passage in part.passages if passage.audience is Audience.PUPIL)
    free = sum(len(passage.text.split()) for passage in pupils if id(passage) not in items and passage.item is None)
    return free > _FREE_WORDS and not all(exercise.cloze for exercise in read.exercises)


def told_elsewhere(activity: Activity, unit: Unit) -> bool:
    """Whether what decides may stand elsewhere: the instruction sends the children to a picture, or back to a story, a
    text, a song."""
    if _SHOWN.search(activity.heading.passage.text):
        return True
    return _BACK.search(activity.heading.passage.text) is not None and len(tuple(unit.activities)) > 1


def tells(sentence: str, option: Option) -> bool:
    """Whether a sentence has all that an option says, of two words that matter or more."""
    said = re.findall(r"[\w'’-]+", sentence.casefold())
    content = [word for word in plain(option.text).split() if len(word) > 2 and word not in _SMALL]
    return len(content) > 1 and all(word in said for word in content)


def _free_text(exercise: Exercise, activity: Activity) -> Iterator[str]:
    """What stands on a page beside an exercise's items and options."""
    places = [place for item in exercise.items for place in item.prompt]
    places += [option.place for item in exercise.items for choice in item.choices for option in choice.options]
    taken = {place.passage.block for place in places}
    for passage in activity.part.passages:
        if passage.audience is Audience.PUPIL and passage.block not in taken and passage.cell is None:
            yield passage.text


def tells_of_same(item: Item, chosen: Option, exercise: Exercise, activity: Activity) -> bool:
    """Whether a text of the page, or another item, tells of the same: `1. Ida is six. 2. Bo is nine. 3. Ida is (older /
    younger) than Bo.`"""
    about = is_about(without_options(item))
    said = re.compile(rf"\b{re.escape(plain(chosen.text))}\b", re.I)
    if any(about & is_about(text) or said.search(text) for text in _free_text(exercise, activity)):
        return True
    return any(about & is_about(without_options(one)) for one in exercise.items if one is not item)


def tells_times(exercise: Exercise, item: Item, activity: Activity) -> bool:
    """Whether the other items of an exercise have words that tell when, and its instruction names no tense."""
    others = [one.text for one in exercise.items if one is not item and one.choices]
    told = sum(tells_a_time(text) for text in others)
    return len(others) > 1 and told * 3 >= 2 * len(others) and not _TENSE.search(activity.heading.passage.text)


def decided_elsewhere(item: Item, chosen: Option, activity: Activity, unit: Unit) -> bool:
    """Whether a text or a script of another activity has the chosen option and most of what the sentence is about."""
    about = {word for word in plain(without_options(item)).split() if len(word) > 2 and word not in _SMALL}
    for other in unit.activities:
        if other.span == activity.span:
            continue
        told = (passage for passage in other.part.passages if passage.audience in (Audience.PUPIL, Audience.LISTENER))
        text = " ".join(passage.text for passage in told).casefold()
        shared = sum(word in text for word in about)
        if plain(chosen.text) in text and len(text.split()) > _FREE_WORDS and shared * 2 >= max(1, len(about)):
            return True
    return False


def tells_before(item: Item, exercise: Exercise) -> bool:
    """Whether the item before names somebody: `1. This is Ida. 2. (He / She) is six.`"""
    at = next((index for index, one in enumerate(exercise.items) if one is item), 0)
    return at > 0 and tells_who(exercise.items[at - 1].text)
