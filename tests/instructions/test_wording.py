"""Which instructions set the same task."""

import pytest

from lint_rules.unit_language.task_wording import task_of, wording_of

SAME = [
    ("Listen and point to the picture.", "Listen. Then point at the picture."),
    ("Ring the answers.", "Draw a circle round the answers."),
    ("Read and match.", "Read and connect."),
    ("Complete the sentences.", "Fill in the sentences."),
    ("Ask and answer in pairs.", "Ask and answer with a partner."),
    ("Colour the kite.", "Color the kite."),
    ("Look at the picture and write.", "Look at the picture. Write."),
]
OTHER = [
    ("Listen and point.", "Listen and point to the boats."),
    ("Read and listen.", "Listen and read."),
    ("Look at the picture and say.", "Look at the pictures and say."),
    ("Ask six friends.", "Ask eight friends."),
    ("Listen and say.", "Listen and sing."),
    ("Read and write.", "Read and draw."),
]


@pytest.mark.parametrize(("one", "another"), SAME)
def test_other_words_for_the_same_task(one: str, another: str) -> None:
    assert task_of(one, ()) == task_of(another, ())
    assert wording_of(one) != wording_of(another)


@pytest.mark.parametrize(("one", "another"), OTHER)
def test_another_task(one: str, another: str) -> None:
    assert task_of(one, ()) != task_of(another, ())


def test_an_odd_one_out_is_one_task_whatever_its_words_unless_it_has_another_step() -> None:
    kinds = ("odd-one-out",)
    assert task_of("Circle the odd one out.", kinds) == task_of("Find the word that is different.", kinds)
    assert task_of("Circle the odd one out.", kinds) != task_of("Circle the odd one out. Say why.", kinds)


def test_marks_and_capitals_are_no_other_wording() -> None:
    assert wording_of("Listen, and point!") == wording_of("listen and point")
    assert wording_of("What’s this?") == wording_of("What's this?")
