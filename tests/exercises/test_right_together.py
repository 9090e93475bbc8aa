"""Options of which either goes: only where no sense of the world decides between them."""

import pytest

from lint_rules.unit_language.right_together import either_goes, either_time, right_together

# Two options, the first the key's, and what stands before and behind them. From memory of what children's books have.
EITHER = [
    ("in", "at", "We play", "the park."),
    ("at", "in", "They are", "the swimming pool."),
    ("on", "in", "There are apples", "the tree."),
    ("swim", "dance", "I can", "."),
    ("swim", "sing", "My sister can't", "."),
    ("red", "blue", "My new bag is", "."),
    ("who", "that", "The girl", "won is my cousin."),
    ("which", "that", "It is a thing", "flies."),
    ("on", "every", "We sing", "Saturday."),
    ("Yes, please.", "No, thank you.", "Would you like tea?", ""),
    ("Yes, I do.", "No, I don't.", "Do you like tea?", ""),
    ("No, I can't.", "Yes, I can.", "Can you swim?", ""),
]
DECIDED = [
    ("in", "at", "We live", "the house."),
    ("in", "on", "My cat is", "the box."),
    ("swim", "fly", "I can", "."),
    ("swim", "sing", "A fish can", "."),
    ("swim", "dance", "I can", "in the sea."),
    ("green", "blue", "My frog is", "."),
    ("yellow", "blue", "The banana is", "."),
    ("red", "big", "My bag is", "."),
    ("that", "who", "I think", "he is nice."),
    ("who", "that", "", "is that?"),
    ("on", "every", "We sing", "Saturdays."),
    ("on", "every", "My book is", "the table."),
    ("Yes, please.", "No, thank you.", "Where is my hat?", ""),
    ("Yes, I do.", "No, I can't.", "Do you like tea?", ""),
    ("Yes, it is.", "No, it isn't.", "Is the sky blue?", ""),
]


@pytest.mark.parametrize(("one", "other", "before", "behind"), EITHER)
def test_either_goes(one, other, before, behind):
    assert either_goes(one, other, before, behind)
    assert either_goes(other, one, before, behind)


@pytest.mark.parametrize(("one", "other", "before", "behind"), DECIDED)
def test_something_decides(one, other, before, behind):
    assert not either_goes(one, other, before, behind)


@pytest.mark.parametrize(
    ("one", "other", "before", "sentence", "either"),
    [
        ("went", "go", "We", "We   to the lake by train.", True),
        ("play", "played", "My friends", "My friends   chess.", True),
        ("went", "go", "We", "We   to the lake yesterday.", False),
        ("went", "go", "We", "We   to the lake on Sundays.", False),
        ("went", "go", "She", "She   to the lake.", False),
        ("went", "go", "We", "We   to the lake, and it rained.", False),
        ("went", "going", "We", "We   to the lake.", False),
        ("put", "puts", "We", "We   it away.", False),
    ],
)
def test_a_sentence_without_a_time_is_right_in_both(one, other, before, sentence, either):
    assert either_time(one, other, before, sentence) is either


def test_what_follows_may_be_told_with_and():
    assert right_together("so", "and", "I was tired,   I went to bed.", told_who=False)
    assert not right_together("and", "so", "I was tired,   I went to bed.", told_who=False)
    assert not right_together("so", "and", "I was   tired.", told_who=False)
