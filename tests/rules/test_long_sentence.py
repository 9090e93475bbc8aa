"""Where a long sentence should be cut, and what is hardly too long."""

import pytest

from lint_rules.engine.example import assemble
from lint_rules.engine.registry import load_rules
from lint_rules.rule import Example
from tests.support import run_files

RULES = [module for module in load_rules() if module.rule.name in {"long-sentence", "long-text"}]


def told(text: str, language, course: str) -> list[tuple[str, str]]:
    result = run_files(assemble(Example(text, course=course)).files, RULES, language)
    return [(str(finding.severity), finding.message) for finding in result.open]


@pytest.mark.parametrize(
    ("sentence", "cut"),
    [
        ("He ran past the stall and round the corner, and he stopped next to a van.", "“and he stopped”"),
        ("The bag is big, but there isn't a kite in the bag.", "“but there isn't”"),
        ("Mina sees a big red kite and takes it to her mum.", "“and takes it”"),
        ("When it is dark, the cat sleeps and the mouse goes out.", "“and the mouse”"),
        # none that leaves half a sentence, or a comma between two
        ("One is going up, one is coming down and one is in my hand.", ""),
        ("They go up, they turn over and they come down on a plate!", ""),
        ("I can see a red kite and a blue kite in the tree.", ""),
        ("The dog in the boat with the red hat and the flag is sad.", ""),
    ],
)
def test_the_cut_is_one_that_leaves_two_sentences(sentence, cut, language):
    ((_, message),) = told(sentence + "\n", language, "levels: [{sentence: {words: 8}}]")
    assert (cut in message) if cut else ("Cut it" not in message)


def test_a_little_over_a_limit_that_the_course_did_not_set_is_noted_where_it_asks(language):
    eleven = "The kite is in the big green tree in our park.\n"
    assert told(eleven, language, "levels: [{cefr: A1}]") == []
    assert [weight for weight, _ in told(eleven, language, "levels: [{cefr: A1, sentence: {words: 9}}]")] == ["query"]
    twelve = "The kite is in the big green tree in our little park.\n"
    asked = "levels: [{cefr: A1}]\nrules: {long-sentence: query}"
    assert told(twelve, language, "levels: [{cefr: A1}]") == []
    assert [weight for weight, _ in told(twelve, language, asked)] == ["note"]
    seventeen = "The red kite is in the big green tree in our little park near the old bridge.\n"
    assert [weight for weight, _ in told(seventeen, language, "levels: [{cefr: A1}]")] == ["query"]
    sixteen = seventeen.replace("little ", "")
    assert [weight for weight, _ in told(sixteen, language, asked)] == ["note"]


def test_sentences_that_are_a_little_long_are_one_point_of_a_unit(language):
    one, two = (
        "The kite is in the big green tree in our little park.",
        "The dog is on the big mat in our little old house.",
    )
    text = f"{one}\n\n{two}\n"
    result = run_files(
        assemble(Example(text, course="levels: [{cefr: A1}]\nrules: {long-sentence: query}")).files, RULES, language
    )
    (point,) = result.points
    assert len(point.findings) == 2
    assert "2 sentences" in point.message
    assert "up to 10 words" in point.message
