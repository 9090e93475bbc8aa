"""The core: a rule that breaks stops no other and never passes for a clean page; a course's word on a rule goes."""

from dataclasses import replace
from types import ModuleType

import pytest

from lint_rules.engine.registry import load_rules
from lint_rules.finding import Found, Severity
from lint_rules.rule import Example, Rule, RuleModule, from_module
from lint_rules.source import Span
from tests.support import run_files

COURSE = "title: Kites\nlevels:\n  - {name: level-1, cefr: A1, unit_pattern: []}\n"
UNIT = "---\nlevel: level-1\nunit: 1\ntitle: Kites\n---\n\n# Kites\n\n## Lesson 1: Look\n\n### 1 Look.\n\nA kite.\n"
LIST = "word,part_of_speech,topic,unit\nkite,noun,toys,1\n"
PATH = "level-1/unit-01.md"
QUERY = Rule("house-rule", "house", Severity.QUERY, (Example("a"),), (Example("b"),))


def rule_module(**finders) -> RuleModule:
    return RuleModule(
        QUERY, "house.rule", "A rule.", *(finders.get(f"find{kind}") for kind in ("", "_in_book", "_in_stets"))
    )


def says(*severities: Severity | None, path: str | None = None):
    def find(_):
        for at, severity in enumerate(severities):
            yield Found(Span(at, at + 1), "-", "Said.", severity, path=path)

    return find


def breaks_after_one(_):
    yield Found(Span(0, 1), "-", "Said before it broke.")
    raise ZeroDivisionError("no")


def settled(module: RuleModule, language, setting: str = ""):
    course = COURSE + (f"rules: {{duplicate-option: {setting}}}\n" if setting else "")
    return run_files({"course.yaml": course, "words/level-1.csv": LIST, PATH: UNIT}, [module], language)


def test_a_rule_that_breaks_keeps_what_it_found_and_is_named(language):
    result = settled(rule_module(find=breaks_after_one), language)
    assert [finding.message for finding in result.findings] == ["Said before it broke."]
    assert [(note.rule, note.path) for note in result.broken] == [("house-rule", PATH)]
    assert "ZeroDivisionError" in result.broken[0].why


def test_a_rule_that_broke_on_a_unit_says_nothing_of_the_book(language):
    module = rule_module(find=breaks_after_one, find_in_book=says(None, path=PATH))
    assert [finding.message for finding in settled(module, language).findings] == ["Said before it broke."]


def test_when_the_facts_cannot_be_drawn_the_books_rules_are_noted_and_no_other(language, monkeypatch):
    def no_facts(_):
        raise ValueError("no facts")

    monkeypatch.setattr("lint_rules.engine.check.facts_of", no_facts)
    module = rule_module(find=says(None), find_in_book=says(None, None, path=PATH))
    result = settled(module, language)
    assert len(result.findings) == 1
    assert [note.rule for note in result.broken] == ["house-rule"]
    assert settled(rule_module(find=says(None)), language).broken == ()


def test_a_finding_in_a_file_that_was_not_read_is_a_break(language):
    result = settled(rule_module(find_in_book=says(None, path="level-1/other.md")), language)
    assert result.findings == ()
    assert "level-1/other.md" in result.broken[0].why


@pytest.mark.parametrize(
    ("setting", "weights"),
    [
        # a query by nature; what it calls a note stays one, what it calls a stop is as heavy as the course says
        ("stop", ["stop", "note", "stop"]),
        ("query", ["query", "note", "query"]),
        ("note", ["note", "note", "note"]),
        ("off", []),
    ],
)
def test_the_courses_word_goes_but_never_above_a_milder_case(language, setting, weights):
    module = next(module for module in load_rules() if module.rule.name == "duplicate-option")
    module = replace(module, find=says(None, Severity.NOTE, Severity.STOP))
    assert [str(finding.severity) for finding in settled(module, language, setting).findings] == weights


def test_a_course_may_ask_for_what_a_rule_only_notes(language):
    module = next(module for module in load_rules() if module.rule.name == "duplicate-option")
    module = replace(
        module, rule=replace(module.rule, severity=Severity.NOTE, since="0.1"), find=says(None, Severity.QUERY)
    )
    weights = {
        setting: [str(finding.severity) for finding in settled(module, language, setting).findings]
        for setting in ("", "query", "note")
    }
    assert weights == {"": ["note", "query"], "query": ["query", "query"], "note": ["note", "note"]}


@pytest.mark.parametrize(
    ("line", "weights"),
    [
        ("", ["note", "note"]),  # a course that says nothing has adopted 0.1
        ("adopted: 0.1", ["note", "note"]),
        ("adopted: 0.2", ["query", "stop"]),
        ("rules: {duplicate-option: query}", ["query", "query"]),  # who names a rule has adopted it
        ("rules: {duplicate-option: stop}", ["stop", "stop"]),
        ("rules: {duplicate-option: off}", []),
        ("rules: {too-many-steps: stop}", ["note", "note"]),
    ],
)
def test_a_new_rule_advises_until_the_course_adopts_it(language, line, weights):
    module = next(module for module in load_rules() if module.rule.name == "duplicate-option")
    module = replace(module, rule=replace(module.rule, since="0.2"), find=says(None, Severity.STOP))
    other = next(module for module in load_rules() if module.rule.name == "too-many-steps")
    files = {"course.yaml": f"{COURSE}{line}\n", "words/level-1.csv": LIST, PATH: UNIT}
    found = run_files(files, [module, replace(other, find=says())], language).findings
    assert [str(finding.severity) for finding in found] == weights


@pytest.mark.parametrize(
    ("line", "weights"),
    [
        ("", ["query"]),  # nobody ever thanked for this rule's notes
        ("rules: {long-sentence: query}", ["query", "note"]),
        ("rules: {long-sentence: note}", ["note", "note"]),
        ("rules: {too-many-steps: stop}", ["query"]),
    ],
)
def test_notes_that_nobody_thanked_for_are_told_to_a_course_that_asks(language, line, weights):
    module = next(module for module in load_rules() if module.rule.name == "long-sentence")
    other = next(module for module in load_rules() if module.rule.name == "too-many-steps")
    rules = [replace(module, find=says(None, Severity.NOTE)), replace(other, find=says())]
    files = {"course.yaml": f"{COURSE}{line}\n", "words/level-1.csv": LIST, PATH: UNIT}
    assert [str(finding.severity) for finding in run_files(files, rules, language).findings] == weights


def test_a_rule_of_the_first_version_needs_no_adopting(language):
    assert [str(f.severity) for f in settled(rule_module(find=says(None)), language).findings] == ["query"]


def test_a_rule_says_since_which_version_it_is_there():
    module = ModuleType("house.rule")
    module.__dict__.update(__doc__="A rule.", find=says(), RULE=replace(QUERY, since="new"))
    with pytest.raises(TypeError, match=r"since must be a version such as 0.2, not 'new'"):
        from_module(module)
