"""Every rule's own examples: what should be flagged is flagged at exactly those words, and nothing else is."""

import pytest

from lint_rules.engine.example import assemble
from lint_rules.engine.registry import load_rules, rule_paths
from lint_rules.finding import Finding
from lint_rules.language.service import Language
from lint_rules.rule import Example, RuleModule
from tests.support import run_example

RULES = load_rules()


def cases(kind: str) -> list[pytest.ParameterSet]:  # type: ignore[name-defined]
    return [
        pytest.param(module, example, id=f"{module.rule.name}-{kind}-{number}")
        for module in RULES
        for number, example in enumerate(getattr(module.rule, kind), start=1)
    ]


def found(module: RuleModule, example: Example, language: Language) -> list[Finding]:
    """What the rule alone finds in an example."""
    result = run_example(module, example, RULES, language)
    mine = [note for note in result.broken if note.rule == module.rule.name]
    assert not mine
    return [finding for finding in result.open if finding.rule == module.rule.name]


@pytest.mark.parametrize(("module", "example"), cases("fails"))
def test_example_that_fails_is_flagged_at_the_marked_words(module, example, language):
    wanted = [(path, span) for path, spans in assemble(example).flagged.items() for span in spans]
    assert wanted, "an example that fails must mark its words"
    findings = found(module, example, language)
    assert [(finding.path, finding.span) for finding in findings] == wanted
    assert {finding.severity for finding in findings} == {example.weight or module.rule.severity}


@pytest.mark.parametrize(("module", "example"), cases("passes"))
def test_example_that_passes_is_left_alone(module, example, language):
    assert not any(assemble(example).flagged.values()), "an example that passes marks nothing"
    assert not found(module, example, language)


def test_every_rule_has_examples_of_both_kinds():
    assert [m.rule.name for m in RULES if not (m.rule.passes and m.rule.fails)] == []


def test_every_rule_is_called_as_its_module_and_family_say():
    own = {path.rpartition(".")[2].replace("_", "-"): path.split(".")[-2] for path in rule_paths()}
    for module in RULES:
        if module.code not in rule_paths():
            continue  # a house's own: its families are its own affair
        assert own[module.rule.name].replace("_", "-") == module.rule.family.lower().replace("'", "").replace(" ", "-")
