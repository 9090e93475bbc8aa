"""Keys by names: a name that the page has not, and words sorted into its columns."""

import pytest

from lint_rules.engine.registry import load_rules
from tests.exercises.pieces.places import key, said_of

(RULE,) = [module for module in load_rules() if module.rule.name == "answers-mismatch"]
FORM = "Name: ____\n\nAge: ____\n\nTown: ____\n\nPet: ____\n"
FRIENDS = "Ed: ____\n\nJo: ____\n\nAl: ____\n"
TABLE = "Words: {}\n\n| Animals | Flowers |\n|---|---|\n| ____ | ____ |\n"
NO_EXTRA = (
    "The items are “Animals”, “Flowers”, the key has “Animals”, “Flowers”, “Extra”: there is no item Extra to answer."
)
OTHER_NAME = "The page has no “{}”; the key says nothing for “{}”. Give both the same name."


@pytest.mark.parametrize(
    ("page", "said"),
    [
        (FORM + key("Name: Mo. Age: six. City: Hull. Pet: hen."), [("City", OTHER_NAME.format("City", "Town"))]),
        (FRIENDS + key("Ed: six. Jo: ten. Bo: two."), [("Bo", OTHER_NAME.format("Bo", "Al"))]),
        (FORM + key("Name: Mo. Age: six. Town: Hull. Pet: hen."), []),
        (FORM + key("Name: Mo. Age: six. Towns: Hull. Pet: hen."), []),  # the same in another form
        (FRIENDS + key("Possible answers: Ed: six. Jo: ten. Al: two."), []),
        (FORM + key("Name: Mo. Years: six. City: Hull. Pet: hen."), []),  # two of them: a key of its own
        (FORM + key("Name: Mo. Age: six. City: Hull."), []),
        (FORM + key("Name: Mo. Age: six. Town: Hull."), [("Pet", "")]),
        ("a. a ____ hen\nb. a ____ cow\nc. a ____ pig\n" + key("a red b old d big"), []),  # letters are no names
        ("1. a ____ hen\n2. a ____ cow\n3. a ____ pig\n" + key("1 red 2 old 4 big"), []),
        ("10. a ____ hen\n11. a ____ cow\n12. a ____ pig\n" + key("10 red 11 old 14 big"), [("12", "")]),
    ],
)
def test_a_name_that_the_page_has_not(page, said):
    found = [
        (words, message if message.startswith("The page has no") else "") for words, message in said_of(RULE, page)
    ]
    assert found == said


@pytest.mark.parametrize(
    ("words", "answer", "said"),
    [
        ("hen, cow, pig, rose, tulip", "Animals: hen, cow, pig. Flowers: rose, tulip.", []),
        (
            "hen, cow, pig, rose, tulip",
            "Animals: hen, cow, pig. Flowers: rose, daisy, tulip.",
            [("daisy", "“daisy” is not among the words to sort. Put it there, or take it out of the key.")],
        ),
        (
            "hen, cow, pig, rose, tulip",
            "Animals: hen, cow. Flowers: rose, tulip.",
            [("pig", "The key sorts “pig” into no column. Give it one.")],
        ),
        (
            "hen, cow, pig, rose, tulip",
            "Animals: hen, cow. Flowers: rose.",
            [],  # too much of another key
        ),
        (
            "hen, cow, pig, rose, tulip",
            "Animals: hen, cow, hen. Flowers: rose, tulip.",
            [("hen", "The key sorts “hen” twice, and “pig” not at all.")],
        ),
        ("hen, cow, pig, rose, tulip", "Animals: hen, cow, pig, hen. Flowers: rose, tulip.", []),  # it may go into two
        ("hen, cow, pig, rose, tulip", "Animals: dog, cat, pig. Flowers: lily, tulip.", []),
        ("hen, cow, pig", "Animals: hen, cow, pig. Flowers: rose, lily.", []),
        (
            "hen, cow, rose",
            "Animals: hen, cow. Flowers: lily.",
            [
                ("lily", "“lily” is not among the words to sort. Put it there, or take it out of the key."),
                ("rose", "The key sorts “rose” into no column. Give it one."),
            ],
        ),
        (
            "hen, cow, pig, rose, tulip, lily",
            "Animals: hen, cow. Flowers: rose, tulip.",
            [(word, f"The key sorts “{word}” into no column. Give it one.") for word in ("pig", "lily")],
        ),
        ("hen, cow, rose, tulip", "Animals: hen, cow. Flowers: rose, tulip.\n\nExtra: say when you saw one.", []),
        (
            "hen, cow, rose, tulip",
            "Animals: hen, cow. Flowers: rose.\n\nExtra: tulip",
            [("Extra", NO_EXTRA)],
        ),
    ],
)  # fmt: skip
def test_each_word_is_sorted_into_a_column_once(words, answer, said):
    assert said_of(RULE, TABLE.format(words) + key(answer)) == said


def test_nothing_is_sorted_where_no_words_or_no_columns_are_given():
    assert (
        said_of(RULE, "| Animals | Flowers |\n|---|---|\n| ____ | ____ |\n" + key("Animals: hen. Flowers: rose, rose."))
        == []
    )
    assert (
        said_of(RULE, "Words: hen, rose, cow\n\n1. A ____ lays eggs.\n2. A ____ grows.\n" + key("1 hen 2 rose")) == []
    )
