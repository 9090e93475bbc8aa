"""One item as a sentence of its own: what stands around its gap or choice, and whether a word beside decides."""

import re

from lint_rules import lazy_re
from lint_rules.language.inflection.irregular import irregular_plurals
from lint_rules.manuscript.model import Activity
from lint_rules.page.exercises.answers import plain
from lint_rules.page.exercises.model import Exercise, Item, Option, Place

_DECIDES = lazy_re.compile(
    r"\b(?:look|because|but|so|think|sure|promise|hope|if|when|not|never|maybe|perhaps|probably)\b|n['’]t\b", re.I
)
_LOTS = frozenset({"a lot of", "lots of"})
_ASKED_OR_DENIED = lazy_re.compile(r"\?|\b(?:not|never)\b|n['’]t\b", re.I)
_DENIED = lazy_re.compile(r"\b(?:not|never)\b|n['’]t\b", re.I)


def around(item: Item) -> tuple[str, str]:
    """The words of an item before and behind its one gap, or its one choice; all before where it has neither in it."""
    inline = item.choices[0].inline
    places = [gap.place for gap in item.gaps] or ([inline] if inline is not None else [])
    if not places:
        return item.text, ""
    if len(places) > 1:
        return "", ""
    whole = next((place for place in item.prompt if place.holds(places[0])), places[0])
    text, end = whole.passage.text, whole.end
    if inline is not None and inline.passage is whole.passage and places[0].end < inline.start < end:
        end = inline.start - (text[inline.start - 1] in "([")  # `The girl ____ won. (who / that)`
    return text[whole.start : places[0].start], text[places[0].end : end]


def in_sentence(item: Item) -> tuple[str, str]:
    """What stands before and behind an item's one gap or choice, also what an item of a running text does not take up:
    the text before its number."""
    before, behind = around(item)
    mark = item.label.mark
    if not before.strip() and mark is not None and item.prompt and item.prompt[0].passage is mark.passage:
        return mark.passage.text[: mark.start].rstrip(" ("), behind
    return before, behind


def _amount_decides(pair: set[str], sentence: str, behind: str) -> bool:
    """Whether what is counted takes only one of two amounts: `isn't (many / a lot of) milk`."""
    near = [word.casefold() for word in re.findall(r"[^\W\d_]+", behind)[:2]]  # an adjective may stand before it
    several = any(word.endswith("s") or word in irregular_plurals() for word in near)
    if "many" in pair and not several:
        return True
    return "much" in pair and (several or not _ASKED_OR_DENIED.search(sentence))


def is_alone(item: Item, exercise: Exercise, *, denied: bool = False) -> bool:
    """Whether an item is one sentence, with no other beside it that may decide; ``denied``: though it is denied
    (`Don't forget …`)."""
    places = item.prompt
    if exercise.cloze:  # a list's entry, a line of its own
        places = tuple(Place(place.passage, 0, len(place.passage.text)) for place in places)
        if sum(one.prompt[0].passage is places[0].passage for one in exercise.items if one.prompt) > 1:
            return False
    if any(char.isdigit() or char in "%✓✗☐☺☹" for place in places for char in place.text):
        return False
    ends = sum(place.text.count(mark) for place in places for mark in ".!?:;")
    said = without_options(item)
    return ends <= 1 and not _DECIDES.search(_DENIED.sub("", said) if denied else said)


def without_options(item: Item) -> str:
    """The words of an item without its options."""
    text = item.text
    for choice in item.choices:
        if choice.inline is not None:
            text = text.replace(choice.inline.text, " ")
    return text


def word_decides(item: Item, one: Option, other: Option) -> bool:
    """`an (huge / enormous) tree`, `How (much / a lot of) …`, `(When / What time) is it?`: a word beside decides."""
    left, behind = around(item)
    before = left.split()[-1:]
    pair = {plain(one.text), plain(other.text)}
    asked = "when" in pair and behind.strip().casefold().startswith("is it")
    if asked or (pair & _LOTS and plain("".join(before)) in ("how", "too", "so", "very", "as")):
        return True
    if pair & _LOTS and _amount_decides(pair, f"{left} {behind}", behind):
        return True
    if any("'" in text for text in pair) and not behind.strip(" .!?,"):
        return True  # Yes, (I am / I'm).
    return before[:1] in (["a"], ["an"], ["A"], ["An"]) and (one.text[:1] in "aeiou") != (other.text[:1] in "aeiou")


def is_the_lesson(one: Option, other: Option, exercise: Exercise, activity: Activity) -> bool:
    """Whether two words are what is practised: several items have both of them, or the instruction names one."""
    pair = {plain(one.text), plain(other.text)}
    choices = [choice for item in exercise.items for choice in item.choices]
    having = sum(pair <= {plain(option.text) for option in choice.options} for choice in choices)
    return having > 1 or not pair.isdisjoint(plain(activity.heading.passage.text).split())
