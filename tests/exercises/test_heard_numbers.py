"""Numbers that a script speaks, what each of them brings, and the one of them that is left out."""

import pytest

from lint_rules.manuscript.model import Passage
from lint_rules.page.heard_numbers import heard_numbers, letter_left_out, number_left_out
from tests.exercises.test_layouts import unit_of


def turns_of(script: str) -> list[Passage]:
    page = f"### 1 Listen. {{.listening audio=1.1}}\n\n::: {{.audio track=1.1}}\n{script}\n:::\n"
    (activity,) = unit_of(page).activities
    return [one for one in activity.part.passages if one.speaker]


def said(*turns: str) -> list[Passage]:
    return turns_of("\n\n".join(f"ODO: {turn}" for turn in turns))


@pytest.mark.parametrize(
    ("turns", "heard"),
    [
        (["Number one. It's a frog. Number two. It's a hen."], [(1, "It's a frog."), (2, "It's a hen.")]),
        (["Picture three is mine."], [(3, "is mine.")]),
        (["Question 2: where is it?"], [(2, ": where is it?")]),
        (["One. Look!", "Two: a bag.", "Three … a hat."], [(1, "Look!"), (2, "a bag."), (3, "a hat.")]),
        (["“Four”", "A goat."], [(4, "ODO A goat.")]),
        (["3 She made a knot.", "4 – “It's red.”"], [(3, "She made a knot."), (4, "“It's red.”")]),
        (["1. Apple. 2. Egg."], [(1, "Apple."), (2, "Egg.")]),
        (["Hello.", "One. A cow.", "It's big."], [(1, "A cow.\nODO It's big.")]),
        # Leave alone: a number of things, a number inside a sentence, a time.
        (["Four goats are here."], []),
        (["I have 3 Sundays."], []),
        (["It's at 5. good."], []),
        (["There are one, two, three goats."], []),
    ],
)
def test_what_a_number_brings(turns: list[str], heard: list[tuple[int, str]]) -> None:
    found = heard_numbers(said(*turns))
    assert [(one.number, one.behind.strip(" .\n")) for one in found] == [
        (number, told.rstrip(".")) for number, told in heard
    ]


def test_a_number_stands_where_it_is_written() -> None:
    (one, two) = heard_numbers(said("One. Look!", "Here. 2. Egg."))
    assert (one.passage.text[one.start : one.end], two.passage.text[two.start : two.end]) == ("One", "2")


def test_words_counted_off_are_numbers_only_where_they_are_asked_for() -> None:
    row = said("One, rain. Two, dad. Three, train.")
    assert heard_numbers(row) == []
    assert [(one.number, one.behind.strip()) for one in heard_numbers(row, rows=True)] == [
        (1, "rain."),
        (2, "dad."),
        (3, "train."),
    ]


def test_turns_of_one_word_each_are_counted_off_from_four() -> None:
    four = said("One, tree.", "Two, bee.", "Three, sea.", "Four, key.")
    assert [one.number for one in heard_numbers(four, rows=True)] == [1, 2, 3, 4]
    assert heard_numbers(said("One, tree.", "Two, bee.", "Three, sea."), rows=True) == []
    assert heard_numbers(said("Two, tree.", "Two, bee.", "Three, sea hens.", "Four, key."), rows=True) == []


def test_entries_of_a_list_are_numbers_that_nobody_speaks() -> None:
    found = heard_numbers(turns_of("1. ODO: A frog.\n2. MIRRE: A hen.\n3. ODO: A cow.\n4. MIRRE: A pig."))
    assert [(one.number, one.behind, one.spoken) for one in found] == [
        (1, "A frog.", False),
        (2, "A hen.", False),
        (3, "A cow.", False),
        (4, "A pig.", False),
    ]
    assert [one.passage.text[one.start : one.end] for one in found] == ["A", "A", "A", "A"]
    assert heard_numbers(turns_of("1. ODO: A frog.\n2. MIRRE: A hen.\n3. ODO: A cow.")) == []


def test_spoken_numbers_come_before_those_of_a_list() -> None:
    found = heard_numbers(said("One. A frog."))
    assert [one.spoken for one in found] == [True]


@pytest.mark.parametrize(
    ("turns", "missing", "instead"),
    [
        (["One. A cow. Two. A hen. Three. A pig. Five. A cat."], 4, 5),
        (["Number one. Red. Number two. Blue. Number four. Pink. Number five. Green."], 3, 4),
        (["“One. A cow.”", "“Two. A hen.”", "“Three. A pig.”", "“Five. A cat.”"], 4, 5),
        (["Number one. Red. It's wet. Number two. Blue.", "Number four. Pink. Oh no! Number five. Green."], 3, 4),
        (["One: walked. Two: painted. Three: opened.", "Five: laughed. Six: waved."], 4, 5),
        # Spoken of in the middle of a sentence, or what is not called and stands behind no stop.
        (["Number one. Red. Number two. Blue. Look at number three. Number four. Pink. Number five: red."], None, None),
        (["1. Apple, 2. egg", "2. Egg. 4. Ham", "5. Jam."], None, None),
        (["One. A cow.", "Two. A hen.", "Three. A pig.", "Four. A cat."], None, None),
        (["One. A cow.", "Two. A hen.", "Four. A pig."], None, None),  # three numbers are no series
        (["Two. A cow.", "Three. A hen.", "Five. A pig.", "Six. A cat."], None, None),  # does not begin with one
        (["One. A cow.", "Two. A hen.", "Five. A pig.", "Six. A cat."], None, None),  # two are left out
        (["One. A cow.", "Three. A hen.", "Four. A pig.", "Four. A cat."], None, None),  # one comes twice
        (["One.", "Two.", "Three.", "Five."], None, None),  # nothing follows them
        (["One. A cow.", "Two. A hen.", "Three. Yes, four. A pig.", "Five. A cat."], None, None),  # said in passing
        (["One. A cow.", "Two. A hen.", "Three. Four pigs.", "Five. A cat."], 4, 5),  # four of what is counted
    ],
)
def test_the_number_that_is_left_out(turns: list[str], missing: int | None, instead: int | None) -> None:
    found = number_left_out(said(*turns))
    assert (found and found[0], found and found[1].number) == (missing, instead)


@pytest.mark.parametrize(
    ("turns", "missing", "at"),
    [
        (["a. A cow.", "b. A hen.", "d. A pig.", "e. A cat."], "c", (2, 0)),
        (["Listen.", "a) A cow.", "b) A hen.", "c) A pig.", "e) A cat."], "d", (4, 0)),
        (["a. A cow.", "b. A hen.", "c. A pig.", "d. A cat."], None, None),
        (["a. A cow.", "c. A hen.", "d. A pig."], None, None),  # three letters are no series
        (["b. A cow.", "c. A hen.", "e. A pig.", "f. A cat."], None, None),  # does not begin with a
        (["a. A cow.", "b. A hen.", "e. A pig.", "f. A cat."], None, None),  # two are left out
        (["a. A cow.", "c. A hen.", "d. A pig.", "c. A cat."], None, None),  # not in their order
    ],
)
def test_the_letter_that_is_left_out(turns: list[str], missing: str | None, at: tuple[int, int] | None) -> None:
    passages = said(*turns)
    found = letter_left_out(passages)
    assert (found and found[0], found and (passages.index(found[1]), found[2])) == (missing, at)
    assert found is None or found[3] == found[2] + 1
