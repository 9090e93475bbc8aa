"""Tracks whose numbers nobody would write, and which must break nothing."""

from lint_rules.engine.example import assemble
from lint_rules.engine.registry import load_rules
from lint_rules.rule import Example
from tests.support import run_files


def test_a_number_of_thousands_of_figures_is_a_track_as_well(language):
    script = f"::: {{.audio track=1.{'9' * 5000}}}\nA: Hi!\n:::\n\n"
    page = script + "::: teacher\n**Steps:** Play track 1.4.\n:::\n"
    rules = [module for module in load_rules() if module.rule.name == "broken-reference"]
    assert run_files(assemble(Example(page)).files, rules, language).broken == ()
