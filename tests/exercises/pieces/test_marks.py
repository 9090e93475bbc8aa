"""What looks like a label, how surely it is one, and which of them count on."""

import pytest

from lint_rules.page.exercises.marks import Kind, Mark, chains, end_lines, label_of, marks_in
from lint_rules.page.exercises.stream import Line, mended_passages, page_lines
from tests.exercises.test_layouts import ACTIVITY, unit_of

LINE, DRESSED, APART, WEAK = 4, 3, 2, 1


def read(page: str) -> tuple[list[Line], list[Mark]]:
    unit = unit_of(f"{ACTIVITY}{page}\n")
    (activity,) = unit.activities
    lines = page_lines(activity, unit, mended_passages(activity, unit))
    return lines, marks_in(lines)


def counted(marks: list[Mark], kind: Kind, weakest: int = APART) -> list[str]:
    return [" ".join(mark.label for mark in chain) for chain in chains(marks, kind, weakest)]


@pytest.mark.parametrize(
    ("page", "marks"),
    [
        ("1 hen 2 cow", [("1 ", LINE), ("2 ", WEAK)]),
        ("(1) hen (2) cow", [("(1) ", LINE), ("(2) ", DRESSED)]),
        ("[1] hen [2] cow", [("[1] ", LINE), ("[2] ", DRESSED)]),
        ("Q1 hen No. 2 cow #3 pig", [("Q1 ", LINE), ("No. 2 ", WEAK), ("#3 ", WEAK)]),
        ("① hen ② cow", [("① ", LINE), ("② ", DRESSED)]),
        ("**1** hen **2** cow", [("1 ", LINE), ("2 ", DRESSED)]),
        ("hen   1 cow   2. pig", [("1 ", APART), ("2. ", DRESSED)]),
        ("A hen. 1 cow. 2. pig, 3. ant", [("A ", LINE), ("1 ", APART), ("2. ", DRESSED), ("3. ", APART)]),
        ("A hen has a cow. B pig", [("A ", LINE), ("a ", WEAK), ("B ", WEAK)]),
        ("☐ a hen ☐ b cow", [("☐ a ", LINE), ("b ", APART)]),
        ("• 1 hen – 2 cow", [("• 1 ", LINE), ("2 ", WEAK)]),
        ("____ 1 hen", [("____ 1 ", LINE)]),
        ("Animals: 1 hen", [("1 ", LINE)]),
        ("Picture A: hen. Picture B: cow", [("Picture A: ", LINE), ("B: ", WEAK)]),
        ("Question 1: hen", [("Question 1: ", LINE)]),
        ("Question 1 hen", [("1 ", WEAK)]),
        ("A 1 am here 2 is here", [("A ", LINE), ("1 ", LINE), ("2 ", WEAK)]),
        ("(1 go / went) (2 is / are)", [("(1 ", DRESSED), ("(2 ", DRESSED)]),
        ("____ (3)", [("____ (3)", LINE)]),
        ("cold and ____ (3).", [(" (3)", DRESSED)]),
        ("x = 1 y → 2 z", [("x ", LINE), ("1 ", APART), ("y ", WEAK), ("2 ", APART), ("z", WEAK)]),
        ("1 – hen", [("1 – ", LINE)]),
        ("iv) hen x) cow", [("iv) ", LINE), ("x) ", DRESSED)]),
    ],
)
def test_what_looks_like_a_label(page, marks):
    lines, found = read(page.replace("   ", "&nbsp; &nbsp;"))
    texts = [lines[mark.line].passage.text[mark.first : mark.last].replace("\u00a0", " ") for mark in found]
    assert list(zip(texts, [mark.strength for mark in found], strict=True)) == marks


@pytest.mark.parametrize(
    "page",
    [
        "jacket (picture 1) cow",
        "It rhymes with red. (3)",
        "(1 hen",
        "6.30 and 12.15",
        "1b 2a",
        "100 hens",
        "hen2 (1] x2",
    ],
)
def test_other_figures_are_no_labels(page):
    assert read(page)[1] == []


@pytest.mark.parametrize(
    ("page", "kind", "chain"),
    [
        ("1. hen\n2. cow", Kind.NUMBER, ["1 2"]),
        ("1. hen\n3. cow\n4. pig", Kind.NUMBER, ["1 3 4"]),
        ("(1) hen (2) cow (1) pig (2) ant", Kind.NUMBER, ["1 2", "1 2"]),
        ("(0) hen (1) cow (2) pig", Kind.NUMBER, ["0 1 2"]),
        ("(1) hen\n\n(3) cow", Kind.NUMBER, ["1 3"]),
        ("(1) hen\n\n(4) cow", Kind.NUMBER, []),
        ("(1) hen (3) cow", Kind.NUMBER, []),
        ("1 hen 2 cow 3 pig", Kind.NUMBER, []),
        ("4. hen\n5. cow", Kind.NUMBER, ["4 5"]),
        ("1. hen", Kind.NUMBER, ["1"]),
        ("(1) hen", Kind.NUMBER, []),
        ("a baker, b. hen", Kind.LOWER, ["a b"]),
        ("(A) hen (B) cow", Kind.UPPER, ["A B"]),
        ("(A) hen (B) cow", Kind.LOWER, []),
        ("Say (a) hen (B) cow", Kind.LOWER, []),
        ("(i) hen (ii) cow (iii) pig (iv) ant", Kind.ROMAN, ["i ii iii iv"]),
        ("(b) hen (c) cow", Kind.LOWER, []),
        ("a big hen\n\n(a) hen (b) cow", Kind.LOWER, ["a b"]),
    ],
)
def test_labels_that_count_on(page, kind, chain):
    assert counted(read(page)[1], kind) == chain


def test_weak_ones_count_where_they_are_asked_for():
    marks = read("1 hen 2 cow 3 pig")[1]
    assert counted(marks, Kind.NUMBER, WEAK) == ["1 2 3"]
    assert counted(marks, Kind.NUMBER) == []


@pytest.mark.parametrize(
    ("page", "ends"),
    [
        ("hen (A)\n\ncow (B)", True),
        ("hen (A)\\\ncow (B)", True),
        ("hen (A) cow (B)", False),
        ("(A) hen\n\n(B) cow", False),
        ("hen A\n\ncow B", False),
        ("(A)\n\n(B)", False),
        ("hen (A) is\n\ncow (B)", False),
    ],
)
def test_labels_may_end_their_lines(page, ends):
    lines, marks = read(page)
    assert end_lines([mark for mark in marks if mark.label in "AB"], lines) is ends


def test_a_label_is_found_where_it_stands():
    lines, (own, other) = read("1. hen (2) cow")
    assert label_of(own, lines).mark is None
    label = label_of(other, lines)
    assert label.mark is not None
    assert (label.text, label.mark.text, own.own, own.order < other.order) == ("2", "(2) ", True, True)


def test_the_label_of_an_entry_counts_once():
    lines, marks = read("1. hen\n\n   cow\n2. pig\n")
    assert [(mark.label, lines[mark.line].text) for mark in marks] == [("1", "hen"), ("2", "pig")]
