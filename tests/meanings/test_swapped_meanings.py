"""Matchings of words and meanings: a key that exchanges two of them is asked about, and no other is.

The exercises are our own, written for this; what the words mean is what any dictionary says (common practice).
"""

from itertools import pairwise

import pytest

from lint_rules.manuscript.reading import read_unit
from lint_rules.page.readings import readings_of
from lint_rules.source import Source
from lint_rules.unit_language.key_doubts import doubts

FRONT = "---\nlevel: level-1\nunit: 1\ntitle: Ships\n---\n\n# Ships\n\n## Lesson 1: Ships {.words}\n\n"
ACTIVITY = "### 1 Match the words and the meanings. {.reading}\n\n"
HARBOUR = {
    "anchor": "it holds a ship in its place",
    "lighthouse": "a tall tower with a lamp for ships",
    "captain": "the person who tells everybody on a ship what to do",
    "net": "you catch fish with it",
    "storm": "very bad weather with wind and rain",
    "island": "land with water all around it",
}
KITCHEN = {
    "spoon": "You eat soup with it.",
    "fridge": "It keeps milk and cheese cold.",
    "knife": "You cut bread with it.",
    "oven": "A cake bakes in it.",
    "cup": "You drink tea from it.",
}
DOING = {
    "to whisper": "to speak very quietly",
    "to climb": "to go up a tree or a wall",
    "to float": "to stay on top of the water",
    "to borrow": "to take something and give it back later",
    "to hide": "to go where nobody can see you",
}


def matching(words: dict[str, str], *, swap: tuple[int, int] | None = None, meanings_first: bool = False) -> str:
    """A page with words, their meanings in another order, and a key; two of its letters exchanged."""
    order = [*range(1, len(words)), 0]
    left, right = list(words), [list(words.values())[at] for at in order]
    letters = ["abcdefgh"[order.index(at)] for at in range(len(words))]
    if swap is not None:
        one, other = swap
        letters[one], letters[other] = letters[other], letters[one]
    if meanings_first:
        left, right = list(words.values()), [list(words)[at] for at in order]
    items = "\n".join(f"{number}. {text}" for number, text in enumerate(left, 1))
    column = "\n\n".join(f"{letter}. {text}" for letter, text in zip("abcdefgh", right, strict=False))
    key = ", ".join(f"{number} {letter}" for number, letter in enumerate(letters, 1))
    return f"{ACTIVITY}{items}\n\n{column}\n\n::: answers\n{key}\n:::\n"


def said(text: str) -> list[str]:
    unit = read_unit(Source("level-1/unit-01.md", FRONT + text))
    return [f"{doubt.asked} {doubt.against}" for read in readings_of(unit).exercises for doubt in doubts(read, unit)]


@pytest.mark.parametrize("words", [HARBOUR, KITCHEN, DOING])
@pytest.mark.parametrize("meanings_first", [False, True])
def test_a_right_key_is_left_alone(words: dict[str, str], meanings_first: bool) -> None:
    assert said(matching(words, meanings_first=meanings_first)) == []


@pytest.mark.parametrize(
    ("words", "swap"), [(HARBOUR, (0, 1)), (HARBOUR, (3, 5)), (KITCHEN, (1, 3)), (KITCHEN, (0, 4)), (DOING, (0, 1))]
)
@pytest.mark.parametrize("meanings_first", [False, True])
def test_two_words_that_changed_places_are_asked_about(
    words: dict[str, str], swap: tuple[int, int], meanings_first: bool
) -> None:
    (message,) = said(matching(words, swap=swap, meanings_first=meanings_first))
    assert all(list(words)[at] in message for at in swap)


def test_a_key_that_is_shifted_or_of_another_exercise_is_not_asked_about() -> None:
    text = matching(HARBOUR)
    key = text.partition("::: answers\n")[2].partition("\n")[0]
    letters = [one.split()[1] for one in key.split(", ")]
    shifted = ", ".join(f"{number} {letter}" for number, letter in enumerate([*letters[1:], letters[0]], 1))
    assert said(text.replace(key, shifted)) == []


@pytest.mark.parametrize(
    "words",
    [
        {"Ilo": "a red net", "Tansu": "an old lamp", "Mirre": "the big spoon", "Odo": "a wet coat"},
        {"the net": "in the boat", "the lamp": "on the wall", "the cup": "under the bed", "the cat": "on the oven"},
        {"First": "they saw a light", "Then": "they heard a noise", "After that": "it rained", "Last": "they slept"},
        {"Who has a net?": "the captain has", "Is it cold?": "yes, it is", "Where is Odo?": "he is at home"},
    ],
)
def test_what_a_story_decides_is_not_asked_about(words: dict[str, str]) -> None:
    assert all(said(matching(words, swap=swap)) == [] for swap in pairwise(range(len(words))))
