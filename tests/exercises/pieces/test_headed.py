"""Keys by names of the page: columns that words are sorted into, fields of a form, rows of a chart."""

import pytest

from lint_rules.page.exercises.model import Exercise
from tests.exercises.pieces.places import key
from tests.exercises.test_layouts import ACTIVITY, read

COLUMNS = "Words: hen, rose, cow\n\n| Animals | Flowers |\n|---|---|\n| ____ | ____ |\n"
SOUNDS = "| /a/ | /e/ |\n|---|---|\n| ____ | ____ |\n"
LETTERS = "| o | oo |\n|---|---|\n| ____ | ____ |\n"
BELOW = "**Animals**\n\n____ ____\n\n**Flowers**\n\n____\n"
FORM = "Name: ____\n\nAge: ____\n\nDay of the club: ____\n"
CHART = "| Ed | ____ |\n|---|---|\n| Jo | ____ |\n| Al | ____ |\n"
WIDE = "| Who | Age | Pet |\n|---|---|---|\n| Jo | ____ | ____ |\n| Al | ____ | ____ |\n"

SORTED = [
    (COLUMNS, "Animals: hen, cow. Flowers: rose.", ["hen, cow", "rose"]),
    (COLUMNS, "Animals: hen, cow\n\nFlowers: rose", ["hen, cow", "rose"]),
    (COLUMNS, "**Animals** hen, cow\n\n**Flowers** rose", ["hen, cow", "rose"]),
    (COLUMNS, "**Animals** hen: red, cow: big\n\n**Flowers** rose", ["hen: red, cow: big", "rose"]),
    (COLUMNS, "Animals – hen, cow; Flowers – rose", ["hen, cow", "rose"]),
    (COLUMNS, "Animals = hen, cow\n\nFlowers = rose", ["hen, cow", "rose"]),
    (COLUMNS, "animals hen, cow\n\nflowers rose", ["hen, cow", "rose"]),
    (COLUMNS, "Animals: \n\nFlowers: rose", ["", "rose"]),
    (COLUMNS, "Animals: hen, cow. The hen lays very many eggs.\n\nFlowers: rose", ["hen, cow", "rose"]),
    (COLUMNS, "Animals: hen, cow. The hen lays.\n\nFlowers: rose", ["hen, cow. The hen lays", "rose"]),
    (COLUMNS, "Animals: hen. Garden: rose.", ["hen", None]),  # of two the one has another name
    (COLUMNS, "| Animals | Flowers |\n|---|---|\n| hen | rose |\n| cow | |", ["hen", "rose"]),
    (COLUMNS, "| Pets | Flowers |\n|---|---|\n| hen | rose |\n| cow | |", [None, "rose"]),
    (SOUNDS, "/a/ hat, cat\n\n/e/ pet, hen", ["hat, cat", "pet, hen"]),
    (SOUNDS, "/a/: hat, cat\n\n/e/ = pet, hen.", ["hat, cat", "pet, hen"]),
    (LETTERS, "o hot\n\noo moon", ["hot", "moon"]),
    (BELOW, "Animals: hen, cow. Flowers: rose.", ["hen, cow", "rose"]),
    ("Ed: ____ , ____\n\nJo: ____ – ____\n", "Ed: six, ten. Jo: two, ten.", ["six, ten", "two, ten"]),
    (
        COLUMNS.replace("Flowers", "____ | Flowers").replace("|---|---|", "|---|---|---|"),
        "Animals: hen. Flowers: rose.",
        ["hen", "rose"],
    ),
]
FILLED_IN = [
    (FORM, "Name: Mo. Age: six. Day: Monday.", ["Mo", "six", "Monday"]),
    (FORM, "Name: Mo. He is old. Age: six. Day: Monday.", ["Mo. He is old", "six", "Monday"]),
    (FORM, "Name: Mo; Age: six", ["Mo", "six", None]),
    (FORM, "Name: Mo. Town: Hull. Age: six.", ["Mo", "six", None]),
    (FORM, "Name: Mo, and he says: hi there. Age: six.", ["Mo, and he says: hi there", "six", None]),
    (FORM, "Her name: Mo; Age: six; Day of the club: Monday", ["Mo", "six", "Monday"]),
    ("Ed: ____\n\nJo: ____\n\nAl: ____\n\nBo: ____\n", "Ed: six. Jo: ten.", ["six", "ten", None, None]),
    ("| Ed | ____ |\n|---|---|\n| Jo | ____ |\n| ____ | ____ |\n| | ____ |\n", "Ed: six. Jo: ten.", ["six", "ten"]),
    (CHART, "Ed: six. Jo: ten. Al: two.", ["six", "ten", "two"]),
    (WIDE, "Jo: ten, cow. Al: two, hen.", ["ten, cow", "two, hen"]),
    ("**Ed:** ____\n\n**Jo:** ____ ____\n", "Ed: six. Jo: ten.", ["six", "ten"]),
    ("☐ Ed: ____\n\n• Jo: ____\n", "Ed: six. Jo: ten.", ["six", "ten"]),
    ("Ed: ____ is ____\n\nJo: ____ , ____\n", "Ed: six. Jo: ten.", ["six", "ten"]),
    ("Ed: ____ , ____\n\nJo: ____\n", "Ed: six. Jo: ten.", ["six", "ten"]),
]
BY_NO_NAME = [
    (COLUMNS, "Pets: hen. Garden: rose."),
    (COLUMNS, "Animals hen\n\nGarden rose"),
    (COLUMNS, "Animal hen, cow\n\nFlowers rose"),
    (LETTERS, "ohot\n\noo moon"),
    (COLUMNS.replace("| ____ | ____ |", "| hen | ____ |"), "Animals: cow. Flowers: rose."),  # a chart
    (FORM, "Name: Mo"),
    (FORM, "1 Mo 2 six 3 Monday"),
    ("Name: ____\n\nName: ____\n", "Name: Mo. Name: Al."),  # which is which?
    ("Name: ____\n", "Name: Mo."),
    ("Ed: ____\n\nJo: ____\n\nEd: ____\n", "Ed: six. Jo: ten."),  # which Ed?
    ("Ed: ____\n\nJo: ____\n", "Ed: six. Al: ten."),
    ("Ed: ____\n\nJo: ____\n\nAl: ____\n\nBo: ____\n\nDi: ____\n", "Ed: six. Jo: ten."),
    (COLUMNS, "Animals: hen. Garden: rose. Trees: oak."),
    ("| A hen | A cow | A pig |\n|---|---|---|\n| ____ | ____ | ____ |\n", "A hen: red. Cat: old."),
    ("**Animals**\n\nA hen is one.\n\n**Flowers**\n\n____\n", "Animals: hen, cow. Flowers: rose."),
    ("**Animals**\n\n**Flowers**\n\nWrite.\n", "Animals: hen, cow. Flowers: rose."),
    ("**Ani**mals\n\n____\n\n**Flo**wers\n\n____\n", "Animals: hen, cow. Flowers: rose."),
    ("My **animals**\n\n____\n\nMy **flowers**\n\n____\n", "My animals: hen, cow. My flowers: rose."),
    ("**Ed:** –\n\n**Jo:** –\n", "Ed: six. Jo: ten."),
    ("| Ed | ____ |\n|---|---|\n| ____ | ____ |\n| | ____ |\n", "Ed: six. Jo: ten."),
]


def named(page: str) -> list[Exercise]:
    return [
        one
        for one in read(ACTIVITY + page).exercises
        if any(len(item.label.text) and not item.label.text.isdigit() for item in one.items)
    ]


@pytest.mark.parametrize(("page", "said", "answers"), SORTED)
def test_words_are_sorted_under_names(page, said, answers):
    (one,) = named(page + key(said))
    assert (one.sorting, one.cloze) == (True, False)
    assert [item.answer.text if item.answer else None for item in one.items] == answers


@pytest.mark.parametrize(("page", "said", "answers"), FILLED_IN)
def test_blanks_go_by_their_names(page, said, answers):
    (one,) = named(page + key(said))
    assert (one.sorting, one.cloze) == (False, False)
    assert [item.answer.text if item.answer else None for item in one.items] == answers
    assert all(item.gaps and item.prompt for item in one.items)


@pytest.mark.parametrize(("page", "said"), BY_NO_NAME)
def test_other_keys_go_by_no_name(page, said):
    assert named(page + key(said)) == []


@pytest.mark.parametrize(
    ("page", "said", "labels"),
    [
        (COLUMNS, "Animals: hen. Flowers: rose.", ["Animals", "Flowers"]),
        (COLUMNS, "Animals: hen. Garden: rose.", ["Animals", "Garden"]),
        (COLUMNS, "| Pets | Flowers |\n|---|---|\n| hen | rose |\n| cow | lily |", ["Pets", "Flowers", None, None]),
        (COLUMNS, "| ANIMALS | Flowers |\n|---|---|\n| hen | rose |", ["Animals", "Flowers"]),
        (FORM, "Mo Name: Mo. Town: Hull. AGE: six.", ["Name", "Town", "Age"]),
        (FORM, "Name: Mo. I say: hello. Age – six. Town – Hull", ["Name", "I say", "Age"]),
        (FORM, "Name: Mo, age: six, day: Monday", ["Name", "Age", "Day of the club"]),
        (FORM, "**Name** Mo: old. Age: six.", ["Name", "Age"]),
    ],
)  # fmt: skip
def test_each_answer_has_the_name_of_the_page_or_its_own(page, said, labels):
    (one,) = named(page + key(said))
    assert [answer.label.text if answer.label else None for answer in one.key.answers] == labels


def test_a_name_and_its_blanks_are_found_where_they_stand():
    (form,) = named("Ed: a ____ hen\n\n**Jo:** ____ ____\n" + key("Ed: red. Jo: ten."))
    assert [[gap.place.text for gap in item.gaps] for item in form.items] == [["____"], ["____ ____"]]
    assert [item.text for item in form.items] == ["a ____ hen", "____ ____"]
    (said, _) = form.key.answers
    assert said.label is not None
    assert said.label.mark is not None
    assert (said.label.mark.text, said.text) == ("Ed", "red")
