"""`hornbook rules`: all of them by family, one family, or one rule's page that is short enough to read."""

import json

import pytest

from lint_rules.engine.registry import load_rules

RULES = load_rules()
NAMES = [module.rule.name for module in RULES]


def named(said: str) -> list[str]:
    """The rules that a list shows."""
    return [line.split()[0] for line in said.splitlines() if line.startswith("  ")]


def test_the_list_has_every_rule_under_its_family(hornbook):
    said = hornbook("rules").out
    assert sorted(named(said)) == sorted(NAMES)
    for module in RULES:
        family, name = said.index(f"{module.rule.family}\n"), said.index(f"  {module.rule.name} ")
        between = said[family:name]
        assert not any(f"\n{other.rule.family}\n" in between for other in RULES)


@pytest.mark.parametrize("name", ["safety", "teacher's notes", "teachers-notes", "Correct English", "vocabulary_map"])
def test_a_family_is_listed_by_its_name_however_it_is_written(hornbook, name):
    said = named(hornbook("rules", name).out)
    families = {module.rule.family for module in RULES if module.rule.name in said}
    assert len(families) == 1
    assert sorted(said) == sorted(module.rule.name for module in RULES if module.rule.family in families)


def test_a_name_that_is_none_is_an_error_with_the_nearest(hornbook):
    assert "Did you mean safety?" in hornbook("rules", "sefety").err
    assert "Did you mean long-sentence?" in hornbook("rules", "long-sentense").err
    assert hornbook("rules", "xyz").status == 2


@pytest.mark.parametrize("module", RULES, ids=NAMES)
def test_a_page_says_what_why_what_to_do_and_shows_two_of_each(hornbook, module):
    said = hornbook("rules", module.rule.name).out
    headings = ["What it catches", "Why", "What to do", "Passes", "Found, at the words in « »"]
    headings += ["Limits and where they are from"] if module.rule.limits else []
    lines = said.splitlines()
    assert [line for line in lines if line in headings] == headings
    assert f"<!-- stet {module.rule.name}: " in said
    for examples in (module.rule.passes, module.rule.fails):
        for example in examples[:2]:
            assert all(f"  | {line}" in lines for line in example.text.strip("\n").splitlines())
        whys = {example.why for example in examples[:2]}
        hidden = [f"  {example.why}" for example in examples[2:] if example.why and example.why not in whys]
        assert not set(hidden) & set(lines)


def test_a_program_gets_the_same_of_a_family(hornbook):
    said = json.loads(hornbook("rules", "safety", "--format", "json").out)
    assert {one["family"] for one in said} == {"safety"}
    assert all(one["cure"] and one["catches"] for one in said)
