# ruff: noqa: E501 - each row is one page
"""Pages that nothing numbers: the key's answers go to blanks, lines, rows or entries, whichever there are as many of."""

import pytest

from lint_rules.page.exercises.model import Exercise
from tests.exercises.pieces.places import key
from tests.exercises.test_layouts import ACTIVITY, read

LETTERS = "| Now | a | b | c |\n|---|---|---|---|\n| new | old | big | red |\n| one | hen | cow | pig |"


def bare(page: str) -> list[Exercise]:
    return [one for one in read(ACTIVITY + page).exercises if not any(item.label.text for item in one.items)]


@pytest.mark.parametrize(
    ("page", "said", "items", "cloze"),
    [
        # Each blank and each choice.
        ("The hen is ____. The cow is ____.", "red, old", [("The hen is ____. The cow is", "red"), (". The cow is ____.", "old")], True),
        ("The hen is ____ &nbsp; The cow is ____.", "red, old", [("The hen is ____", "red"), ("The cow is ____.", "old")], True),
        ("| The hen | is ____ |\n|---|---|\n| The cow | is ____ |", "red, old", [("The hen is ____", "red"), ("The cow is ____", "old")], True),
        ("| Hens ____ | is ____ |\n|---|---|\n| Cows ____ | is ____ |", "red, old, big, six", [("Hens ____", "red"), ("is ____", "old"), ("Cows ____", "big"), ("is ____", "six")], True),
        ("It is (red / old) and (big / six).", "red, six", [("It is (red / old) and", "red"), ("and (big / six).", "six")], True),
        ("- The hen is ____.\n- The cow ____ and ____.", "red\n\nhas, had", [("The hen is ____.", "red"), ("The cow ____ and", "has"), ("and ____.", "had")], True),
        ("Ed: ____ you ____ here? ____ he?", "1 Did … go 2 Is", [("Ed: ____ you", "Did"), ("you ____ here?", "go"), ("here? ____ he?", "Is")], True),
        ("I ____.", "red", [("I ____.", "red")], True),
        ("____\n\n____", "red, old", [("____", "red"), ("____", "old")], True),
        # The words of its line again.
        ("____ bell\\\n____ drum", "2 bell; 5 drum", [("____ bell", "2"), ("____ drum", "5")], True),
        # By pictures.
        ("c_p (picture 2)\\\nh_t (picture 1)", "1 hat 2 cup", [("c_p (picture 2)", "cup"), ("h_t (picture 1)", "hat")], True),
        ("c_p (picture 2)\\\nh_t (picture 1)", "1 cup 3 hat", [("c_p (picture 2)", "cup"), ("h_t (picture 1)", "hat")], True),
        # Each line, where each has something to do.
        ("- It is ____ and ____.\n- He ____ and ____.", "1 It is red and old.\n2 He ran and sang.", [("It is ____ and ____.", "It is red and old."), ("He ____ and ____.", "He ran and sang.")], False),
        ("- has / a / hen / Mo\n- you / do / run / ?", "Mo has a hen.\n\nDo you run?", [("has / a / hen / Mo", "Mo has a hen."), ("you / do / run / ?", "Do you run?")], False),
        # Each line or sentence, where one has lost its blank.
        ("• The hen is ____.\n\n• The cow is old.\n\n• The pig is ____.", "red, old, big", [("• The hen is ____.", "red"), ("• The cow is old.", "old"), ("• The pig is ____.", "big")], False),
        ("A hen is ____. A cow has legs. A pig is ____.", "red, old, big", [("A hen is ____.", "red"), ("A cow has legs.", "old"), ("A pig is ____.", "big")], False),
        # Each row of which the key takes a cell.
        (LETTERS, "old, cow", [("new", "old"), ("one", "cow")], False),
        # Each entry of a list.
        ("- Who is red?\n- Who is old?", "Mo, Ed", [("Who is red?", "Mo"), ("Who is old?", "Ed")], False),
    ],
)  # fmt: skip
def test_answers_go_to_what_there_is_as_many_of(page, said, items, cloze):
    (one,) = bare(page + key(said))
    assert [(item.text, item.answer.text if item.answer else None) for item in one.items] == items
    assert one.cloze is cloze


@pytest.mark.parametrize(
    ("page", "said", "blanks"),
    [
        ("I ____.", "red, old", 1),
        ("It is (red / old) and ____.", "red, six, ten", 1),
        ("A hen is big. A cow ____ legs. A pig is ____.", "red, old, big", 2),  # the first is no item
        ("A hen is ____. A cow is big. An ant is old. A pig is ____.", "red, old, big, six", 2),
        ("hen – ____\\\ncow\\\npig – ____", "red, old, big", 2),
        ("• The hen is ____.\n\nThe cow is old.\n\n• The pig is ____.", "red, old, big", 2),
        ("Ask: do you like ____ best?", "Each line has five ticks.", 1),  # a remark
        ("A hen ____ up.", "All of them sing.", 1),
        ("- Who is red?\n- Who is old?\n- Who is big?", "Mo, Ed", 0),
        (LETTERS, "old, ant", 0),
        ("I sing.", "red", 0),
    ],
)
def test_answers_of_another_number_go_to_nothing(page, said, blanks):
    found = read(ACTIVITY + page + key(said))
    assert sum(len(item.gaps) for one in bare(page + key(said)) for item in one.items) == blanks
    assert all(item.answer is None for one in found.exercises for item in one.items)
    assert found.loose


def test_what_a_child_may_say_there_is_no_remark():
    (one,) = bare("Ask: do you like ____ best?" + key("You like tea best."))
    assert [item.answer is not None for item in one.items] == [True]
    (one,) = bare("Mr ____ sings." + key("Old Mo Hill."))
    assert [item.answer is not None for item in one.items] == [False]


def test_a_box_belongs_to_what_has_blanks():
    words = "Word box: red, old\n\n"
    (one,) = bare(words + "The hen is ____. The cow is ____." + key("red, old"))
    assert one.box is not None
    (one,) = bare(words + "The hen is ____. The cow is ____.")
    assert one.box is not None
    (one,) = bare(words + "- Who is red?\n- Who is old?" + key("Mo, Ed"))
    assert one.box is None
