"""A key in its many forms: rows of labelled answers, rows of labels alone, answers in order."""

import pytest

from lint_rules.manuscript.model import Audience
from lint_rules.page.exercises.key import ReadKey, read_key
from lint_rules.page.exercises.marks import Kind
from tests.exercises.test_layouts import ACTIVITY, unit_of


def read(said: str, kinds: tuple[Kind, ...] = (Kind.NUMBER,), page: list[list[str]] | None = None) -> ReadKey:
    unit = unit_of(f"{ACTIVITY}Look.\n\n::: answers\n{said}\n:::\n")
    (activity,) = unit.activities
    passages = [one for one in activity.part.passages if one.audience is Audience.KEY]
    return read_key(passages, kinds, unit.source, page or [])


def rows(found: ReadKey) -> list[list[tuple[str, str]]]:
    for answer in (*(answer for row in found.rows for answer in row), *found.order):
        assert answer.label is not None
        assert answer.label.mark is None or answer.label.mark.text.strip(" .:()–=")
    return [[(answer.label.text if answer.label else "", answer.text) for answer in row] for row in found.rows]


@pytest.mark.parametrize(
    ("said", "answers"),
    [
        ("1 red 2 blue 3 old", ["red", "blue", "old"]),
        ("1 red, 2 blue; 3 old.", ["red", "blue", "old."]),
        ("1 Yes 2 No 3 Yes", ["Yes", "No", "Yes"]),
        ("1 No. 2 No. 3 Yes.", ["No.", "No.", "Yes."]),
        ("1. No 2. No 3. Yes", ["No", "No", "Yes"]),
        ("No 1 red No 2 blue No 3 old", ["red", "blue", "old"]),
        ("1. red\n2. blue\n3. old", ["red", "blue", "old"]),
        ("1 red / 2 blue / 3 old", ["red", "blue", "old"]),
        ("1: red – 2: blue – 3: old", ["red", "blue", "old"]),
        ("(1) red (2) blue (3) old", ["red", "blue", "old"]),
        ("① red ② blue ③ old", ["red", "blue", "old"]),
        ("Answers: 1 red 2 blue 3 old", ["red", "blue", "old"]),
        ("1b 2a 3c", ["b", "a", "c"]),
        ("1-red 2-blue 3-old", ["red", "blue", "old"]),
        ("(Key: 1 red. 2 blue. 3 old.)", ["red.", "blue.", "old."]),
        ("[1 red, 2 blue, 3 old]", ["red", "blue", "old"]),
        ("1–b 2–a 3=c", ["b", "a", "c"]),
        ("1 two hens 2 3 hens 3 old", ["two hens", "3 hens", "old"]),
        ("1 2 coins 2 4 coins 3 1 coin", ["2 coins", "4 coins", "1 coin"]),
        ("c 1, a 2, b 3", ["c", "a", "b"]),
        ("hen (1), cow (2), pig (3)", ["hen", "cow", "pig"]),
        ("1\n: red\n\n2\n: blue\n\n3\n: old", ["red", "blue", "old"]),
        ("1\n\nred\n\n2\n\nblue\n\n3\n\nold", ["red", "blue", "old"]),
        ("| 1 | 2 | 3 |\n|---|---|---|\n| red | blue | old |", ["red", "blue", "old"]),
        ("| No. | Answer |\n|---|---|\n| 1 | red |\n| 2 | blue |\n| 3 | old |", ["red", "blue", "old"]),
        ("| 1 hen | T |\n|---|---|\n| 2 cow | F |\n| 3 pig | F |", ["T", "F", "F"]),
        ("1 is (d), 2 is (c) and 3 is (a).", ["(d)", "(c)", "(a)"]),
        ("Number 1 is page, number 2 is anchor and number 3 is “boat”.", ["page", "anchor", "boat"]),
        ("1 A; C 2 A; B 3 D", ["A; C", "A; B", "D"]),  # two letters each, and no part B
        ("1 is 2 are 3 is", ["is", "are", "is"]),
        ("1 is falling, 2 is going, 3 is it", ["is falling", "is going", "is it"]),
        ("1–2 are “red” and 3 is “blue”.", ["red", "red", "blue"]),
        ("1–3 red", ["red", "red", "red"]),
        ("1 red 2 (no word) 3 old", ["red", "(no word)", "old"]),
    ],
)
def test_answers_behind_their_numbers(said, answers):
    found = read(said)
    assert rows(found) == [list(zip(["1", "2", "3"], answers, strict=True))]
    assert (found.order, found.entries) == ((), ())


@pytest.mark.parametrize(
    ("said", "kinds", "labelled"),
    [
        ("1 c, 2 a, 4 b", (Kind.NUMBER,), "1c 2a 4b"),
        ("1 c, 2 a (no.), 4 b", (Kind.NUMBER,), "1c 2a (no.) 4b"),
        ("1 c\n2 a\n4 b", (Kind.NUMBER,), "1c 2a 4b"),
        ("0 ten 1 red 2 old", (Kind.NUMBER,), "0ten 1red 2old"),
        ("2 red 3 old", (Kind.NUMBER,), "2red 3old"),
        ("1 red", (Kind.NUMBER,), "1red"),
        ("i) red ii) old", (Kind.ROMAN,), "ired iiold"),
        ("a red b old", (Kind.LOWER,), "ared bold"),
        ("A red B old", (Kind.UPPER,), "Ared Bold"),
        ("a) red\nb) old", (Kind.NUMBER,), "ared bold"),
        ("b 1, d 2, a 3", (Kind.LOWER,), "b1 d2 a3"),
        ("a S, b B, c S", (Kind.LOWER,), "aS bB cS"),
        ("A 2, B 1, C 2", (Kind.NUMBER,), "A2 B1 C2"),
        ("1 red hen 2 blue 4 old", (Kind.NUMBER,), "1red hen 2blue 4 old"),
        ("1 red 1 blue 2 old", (Kind.NUMBER,), "1red 1 blue 2old"),
    ],
)
def test_answers_behind_other_labels(said, kinds, labelled):
    (row,) = rows(read(said, kinds))
    assert " ".join(label + text for label, text in row) == labelled


@pytest.mark.parametrize(
    ("said", "page", "labelled"),
    [
        ("A\n1 red\n2 blue\nB\n1 old\n2 new", [], ["1red 2blue", "1old 2new"]),
        ("A 1 red 2 blue; B 3 old 4 new", [], ["1red 2blue 3old 4new"]),
        ("1 red\n2 blue\n\n1 old\n2 new", [], ["1red 2blue", "1old 2new"]),
        ("Across: 1 rain 4 fire; Down: 2 ice 3 rose", [["1", "4"], ["2", "3"]], ["1rain 4fire", "2ice 3rose"]),
        (
            "Across: 1 rain, 3 fire\n\nDown: 1 ice, 2 rose, 3 sun",
            [["1", "3"], ["1", "2", "3"]],
            ["1rain 3fire", "1ice 2rose 3sun"],
        ),
        ("**Across** 1 rain 2 fire\n\n**Down** 1 ice 2 rose", [], ["1rain 2fire", "1ice 2rose"]),
        ("Student A: 1 red 2 blue\n\nStudent B: 3 old 4 new", [], ["1red 2blue 3old 4new"]),
        ("has / have: 1 has 2 have\n\nis / are: 1 is 2 are", [], ["1has 2have", "1is 2are"]),
    ],
)
def test_parts_number_anew_or_go_on(said, page, labelled):
    assert [" ".join(label + text for label, text in row) for row in rows(read(said, page=page))] == labelled


@pytest.mark.parametrize(
    ("said", "labels"), [("d – b – e – a", "dbea"), ("d, b, e", "dbe"), ("Order: d, b, e.", "dbe"), ("3 1 2", "312")]
)
def test_labels_alone_are_an_order(said, labels):
    found = read(said)
    assert "".join(answer.label.text for answer in found.order if answer.label) == labels
    assert (found.rows, found.entries) == ((), ())


@pytest.mark.parametrize(
    ("said", "entries"),
    [
        ("red, blue, old", ["red", "blue", "old"]),
        ("red; blue, old", ["red", "blue, old"]),
        ("red\n\nblue, old", ["red", "blue, old"]),
        ("Key: red, blue", ["red", "blue"]),
        ("Colours: red, blue", ["red", "blue"]),
        ("red – blue", ["red – blue"]),
        ("red,, blue,", ["red", "blue"]),
    ],
)
def test_answers_in_order(said, entries):
    found = read(said)
    assert [answer.text for answer in found.entries] == entries
    assert (found.rows, found.order) == ((), ())


@pytest.mark.parametrize(
    ("said", "count", "entries"),
    [
        ("red, blue", 2, ["red", "blue"]),
        ("red – blue", 2, ["red", "blue"]),
        ("red / blue / old", 3, ["red", "blue", "old"]),
        ("red and blue", 2, ["red", "blue"]),
        ("red blue old", 3, ["red", "blue", "old"]),
        ("red, blue\n\nold, new", 4, ["red", "blue", "old", "new"]),
        ("Colours: red blue", 2, ["red", "blue"]),
        ("red blue old", 2, ["red blue old"]),
        ("red, blue", 3, ["red", "blue"]),
        ("1 red", 3, []),
    ],
)
def test_answers_are_cut_as_many_ways_as_give_the_number(said, count, entries):
    assert [answer.text for answer in read(said).entries_for(count)] == entries


@pytest.mark.parametrize(
    ("said", "own", "crossed"),
    [
        ("Children's own answers", True, False),
        ("1 red 2 own answer", True, False),
        ("Cross out: 1 red 2 blue", False, True),
        ("1 red 2 blue are crossed out", False, True),
        ("1 red 2 a cross", False, False),
    ],
)
def test_what_else_a_key_says(said, own, crossed):
    found = read(said)
    assert (found.own, found.crossed_out) == (own, crossed)
    assert found.entries == ()


def test_a_label_and_its_answer_are_found_where_they_stand():
    (row,) = read("1 red / 2 – blue").rows
    (_, second) = row
    assert second.label is not None
    assert second.label.mark is not None
    assert (second.label.mark.text, second.text) == ("2 – ", "blue")


@pytest.mark.parametrize(
    "said", ["c 1, a 2", "hen (1), cow (2)", "1 (a), 2 (c)", "1a 2c", "b – d – a", "1 is (d) and 2 is (c)."]
)
def test_a_label_is_as_long_as_it_is(said):
    found = read(said)
    for answer in (*(answer for row in found.rows for answer in row), *found.order):
        assert answer.label is not None
        assert answer.label.mark is not None
        assert answer.label.text in answer.label.mark.text
        assert answer.label.span.end - answer.label.span.start == len(answer.label.text)
        assert answer.label.mark.span.start <= answer.label.span.start
