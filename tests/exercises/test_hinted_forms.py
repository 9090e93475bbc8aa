"""A verb in brackets and the key's form of it: what the verb cannot be is found, whatever it can be is left alone."""

import pytest

from lint_rules.language.inflection.forms import ing_form, regular_past
from lint_rules.language.inflection.irregular import irregular_verbs
from lint_rules.unit_language.hinted_forms import hinted_slip

# From memory of what children's keys have.
WRONG = [
    ("run", "runing", "running"), ("make", "is makeing", "making"), ("bring", "bringed", "brought"),
    ("study", "studys", ""), ("see", "have saw", "seen"), ("go", "has went", "gone"), ("go", "didn't went", "go"),
    ("swim", "can swims", "swim"), ("write", "is wrote", ""), ("stop", "stoped", "stopped"), ("watch", "watchs", ""),
    ("eat", "hasn't ate", "eaten"), ("play", "doesn't plays", "play"),
]  # fmt: skip
RIGHT = [
    ("go", "have gone"), ("go", "am going to go"), ("take", "was taken"), ("travel", "travelling"),
    ("travel", "traveled"), ("lie", "lied"), ("lie", "lay"), ("have", "have had"), ("see", "I've seen"),
    ("show", "has showed"), ("help", "helpful"), ("learn", "has learned"), ("go", "used to go"), ("be", "were"),
    ("big", "bigger"), ("rain", "is it raining"), ("act", "actors"),
]  # fmt: skip


@pytest.mark.parametrize(("hint", "said", "better"), WRONG)
def test_a_form_that_the_verb_has_not_is_found(hint, said, better):
    assert hinted_slip(hint, said) == better


@pytest.mark.parametrize(("hint", "said"), RIGHT)
def test_a_form_that_the_verb_has_is_left_alone(hint, said):
    assert hinted_slip(hint, said) is None


@pytest.mark.parametrize(
    ("before", "hint", "said", "better"),
    [
        ("was", "sleep", "sleep", ""),
        ("was", "sleep", "sleeping", None),
        ("have", "see", "saw", "seen"),
        ("can't", "swim", "swims", "swim"),
        ("is", "open", "open", None),
        ("usually", "go", "goes", None),
        ("our", "PHOTOGRAPH", "photographer", None),
        ("to", "go", "go", None),
    ],
)
def test_the_word_before_the_gap_may_be_the_helping_verb(before, hint, said, better):
    assert hinted_slip(hint, said, before) == better


@pytest.mark.parametrize("verb", irregular_verbs(), ids=lambda verb: verb.base)
def test_every_form_of_the_table_is_left_alone(verb):
    said = [verb.base, *verb.pasts, *verb.participles, ing_form(verb.base), f"is {ing_form(verb.base)}"]
    said += [f"have {form}" for form in verb.participles] + [f"didn't {verb.base}", f"will {verb.base}"]
    assert [one for one in said if hinted_slip(verb.base, one) is not None] == []


@pytest.mark.parametrize("verb", ["open", "play", "carry", "stop", "listen", "visit", "dance", "agree"])
def test_regular_forms_are_left_alone(verb):
    past = regular_past(verb)
    for said in (past, f"has {past}", f"was {past}", ing_form(verb), f"are {ing_form(verb)}"):
        assert hinted_slip(verb, said) is None
