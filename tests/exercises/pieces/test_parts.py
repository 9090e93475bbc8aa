"""Letters that head the parts of a page: no words of anybody, and no item runs over them."""

import pytest

from tests.exercises.test_layouts import ACTIVITY, read


@pytest.mark.parametrize(
    ("page", "heads"),
    [
        ("**A** Write.\n\n1. hen\n\n**B** Draw.\n\n1. cow", ["A ", "B "]),
        ("A – Write.\n\n1. hen\n\nB – Draw.\n\n1. cow", ["A – ", "B – "]),
        ("#### A Write.\n\n1. hen\n\n#### B Draw.\n\n1. cow", ["A ", "B "]),
        ("#### A. Write.\n\n1. hen\n\n#### B) Draw.\n\n1. cow", ["A. ", "B) "]),
        ("**A** Write.\n\n1. hen", []),  # one alone may be an article
        ("**B** Write.\n\n1. hen\n\n**C** Draw.\n\n1. cow", []),
        ("**A** Write.\n\n1. hen\n\n**A** Draw.\n\n1. cow", []),
        ("Part A: Write.\n\n1. hen\n\nPart B: Draw.\n\n1. cow", []),  # they say what they are
        ("A day by the sea.\n\n1. hen\n\nB and C.\n\n1. cow", []),
        ("**A**\n\n1. hen\n\n**B**\n\n1. cow", []),
        ("**Ann** writes.\n\n**Bo** draws.", []),
        ("**A** Write.\n\n1. hen\n\n::: teacher\n**B** Draw.\n:::\n", []),
    ],
)
def test_letters_that_head_parts(page, heads):
    assert [one.text for one in read(ACTIVITY + page).heads] == heads


@pytest.mark.parametrize(
    ("head", "last"),
    [
        ("**B** Draw.", ["cow", "It is old."]),
        ("Part B: Draw.", ["cow", "It is old."]),
        ("Part B", ["cow", "It is old."]),
        ("B – Draw.", ["cow", "It is old."]),
        ("B draws.", ["cow", "It is old.", "B draws."]),
        ("**C** Draw.", ["cow", "It is old.", "C Draw."]),
    ],
)
def test_no_item_runs_over_the_head_of_a_part(head, last):
    page = f"**A** Write.\n\n1 hen\n\nIt is red.\n\nSo there.\n\n2 cow\n\nIt is old.\n\n{head}\n\n3 pig\n"
    items = [item for one in read(ACTIVITY + page).exercises for item in one.items]
    assert [place.text for place in items[1].prompt] == last
