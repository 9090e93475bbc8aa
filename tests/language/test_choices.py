"""Forms to choose from: the first is read, the others are put aside; what is no choice of forms is read as it is."""

import pytest

from lint_rules.language.parsing.choices import second_choices

# The words that are put aside stand in brackets.
CHOICES = [
    "She is [/ is n't] happy .",
    "She is n't [/ is] happy .",
    "She is not [/ is] happy .",
    "He am [/ is] [/ are] my friend .",
    "They was [/ were] late .",
    "Where do [/ does] she live ?",
    "Kit have [/ has] a dog .",
    "Fish can [/ ca n't] sing .",
    "It will [/ wo n't] rain .",
    "You must [/ must n't] run .",
    "You should [/ should not] run .",
    "We could [/ could n't] swim .",
    "Have you got a [/ an] [/ any] umbrella ?",
    "The [/ Some] dogs bark .",
    "HE [/ she] is tall .",
    "I [/ We] like jam .",
    "Kit like [/ likes] jam .",
    "Kit likes [/ like] jam .",
    "Kit carry [/ carries] a bag .",
    "Kit likes [/ does n't like] jam .",
    "They like [/ do n't like] jam .",
    "They like [/ do not like] jam and I like [/ likes] tea .",
    "He is [/ is n't]",
    "Kit likes [/ does n't like]",
]
NO_CHOICE = [
    "A cat / dog sleeps here .",
    "He and she like red / green jam .",
    "He is / has tall .",
    "It was / is late .",
    "Kit rides / does n't like a bike .",
    "Kit has / does n't have it .",  # not in the tables of verbs by its spelling
    "He / we are here .",
    "Kit likes / jumps .",
    "/ is it late ?",
    "Is it late /",
    "is / are",
    "is / is n't / are",
    "Open the door .",
]


@pytest.mark.parametrize("line", CHOICES + NO_CHOICE)
def test_what_is_put_aside(line):
    words, aside, inside = [], set(), False
    for piece in line.split():
        inside = inside or piece.startswith("[")
        if inside:
            aside.add(len(words))
        words.append((piece.strip("[]"), len(words)))
        inside = inside and not piece.endswith("]")
    assert second_choices(words) == aside
