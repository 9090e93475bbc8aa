"""Where a structure stands in a course of two levels: above the level, before it is taught, or free."""

from lint_rules.engine.registry import load_rules
from lint_rules.finding import Finding, Severity
from lint_rules.language.service import Language
from tests.support import run_files

RULES = load_rules()
COURSE = """\
title: Two levels
levels:
  - {name: level-1, cefr: Pre-A1, words: words.csv}
  - {name: level-2, cefr: A1, words: words.csv}
"""


def unit(level: int, number: int, grammar: str, page: str, heading: str = "### 1 Read. {.story}") -> str:
    return (
        f"---\nlevel: level-{level}\nunit: {number}\ntitle: Unit\ngrammar: [{grammar}]\n---\n\n# Unit\n\n"
        f"## Lesson 1: Look {{.story}}\n\n{heading}\n\n{page}\n"
    )


def findings(language: Language, units: dict[str, str], course: str = COURSE) -> list[Finding]:
    files = {"course.yaml": course, "words.csv": "word,part_of_speech,topic,unit\n", **units}
    result = run_files(files, RULES, language)
    assert not result.broken
    return [finding for finding in result.open if finding.rule in ("grammar-above-level", "grammar-before-taught")]


def test_a_structure_of_a_later_level_is_above_level_and_named_with_its_unit(language):
    found = findings(
        language,
        {
            "level-1/unit-01.md": unit(1, 1, "can", "The kite landed in the tree."),
            "level-2/unit-02.md": unit(2, 2, "past simple", "The kite landed in the tree."),
        },
    )
    assert [(f.path, f.rule, f.text, f.severity) for f in found] == [
        ("level-1/unit-01.md", "grammar-above-level", "landed", Severity.STOP)
    ]
    assert "level-2 unit 2" in found[0].message


def test_a_structure_of_a_later_unit_of_the_level_is_before_taught_and_free_afterwards(language):
    found = findings(
        language,
        {
            "level-1/unit-01.md": unit(1, 1, "present simple be", "I can swim."),
            "level-1/unit-02.md": unit(1, 2, "can", "I can swim."),
            "level-1/unit-03.md": unit(1, 3, "have got", "I can swim."),
            "level-2/unit-01.md": unit(2, 1, "past simple", "I can swim."),
        },
    )
    assert [(f.path, f.rule, f.text) for f in found] == [("level-1/unit-01.md", "grammar-before-taught", "can swim")]


def test_what_no_unit_teaches_is_free_at_its_band_and_above_below_it(language):
    pages = "The wind was blowing when we played in the park."
    below = findings(language, {"level-1/unit-01.md": unit(1, 1, "past simple", pages)})
    assert [(f.text, f.severity) for f in below if "blowing" in f.text] == [("was blowing", Severity.STOP)]
    course = COURSE.replace("cefr: Pre-A1", "cefr: A2").replace("cefr: A1,", "cefr: B1,")
    assert findings(language, {"level-1/unit-01.md": unit(1, 1, "", pages)}, course) == []


def test_what_sources_disagree_on_is_noted_once_a_unit_and_the_course_can_settle_it(language):
    page = "I am happy because it is sunny.\n\nI am sad because it is late."
    units = {"level-2/unit-01.md": unit(2, 1, "", page + "\n\n### 2 Read. {.reading}\n\nI run because I am late.")}
    asked = findings(language, units, COURSE + "rules: {grammar-above-level: stop}\n")
    assert [(f.rule, f.severity) for f in asked] == [("grammar-above-level", Severity.NOTE)]
    assert "3 times in this unit" in asked[0].message
    assert "structures: {because-clause: A1}" in asked[0].message
    assert findings(language, units, COURSE + "structures: {because-clause: A1}\n") == []


def test_a_tired_author_gets_one_finding_a_structure_and_activity(language):
    story = "We played.\n\nWe jumped.\n\nWe laughed.\n\n### 2 Read again. {.reading}\n\nWe played."
    found = findings(language, {"level-1/unit-01.md": unit(1, 1, "", story)})
    assert [f.text for f in found] == ["played", "played"]
    assert "3 times in this activity" in found[0].message


def test_the_page_is_shown_before_the_instruction_which_is_only_noted(language):
    heading = "### 1 Tick what you heard. {.listening}"
    told = COURSE + "rules: {grammar-above-level: stop}\n"
    alone = findings(language, {"level-1/unit-01.md": unit(1, 1, "", "It is red.", heading)}, told)
    assert [(f.text, f.severity) for f in alone] == [("heard", Severity.NOTE)]
    both = findings(language, {"level-1/unit-01.md": unit(1, 1, "", "We jumped.", heading)})
    assert [(f.text, f.severity) for f in both] == [("jumped", Severity.STOP)]


def test_short_answers_gaps_and_set_phrases_are_left_alone(language):
    pages = (
        "Have you got a kite? Yes, I have. No, she hasn't.\n\nI've ____ a brother.\n\n____ Dad row a boat?\n\n"
        "What's your name? How are you?\n\n| Can you swim? | Yes, I can. |\n|---|---|\n| Is it red? | No, it isn't. |"
    )
    units = {
        "level-1/unit-01.md": unit(1, 1, "have got, can", pages),
        "level-1/unit-02.md": unit(1, 2, "wh-questions, yes/no questions", "Hello!"),
        "level-2/unit-01.md": unit(2, 1, "present simple", "Hello!"),
    }
    assert findings(language, units) == []


def test_tests_are_left_to_the_rule_about_tests(language):
    units = {
        "level-1/unit-01.md": unit(1, 1, "present simple be", "I can swim.", "### 1 Read. {.test .reading}"),
        "level-1/unit-02.md": unit(1, 2, "can", "I can swim."),
    }
    assert findings(language, units) == []


def test_the_past_simple_is_known_where_another_past_tense_comes_beside_it(language):
    course = COURSE.replace("cefr: Pre-A1", "cefr: A1").replace("cefr: A1, words", "cefr: A2, words")
    for label, told in (
        ("past continuous and past simple with when", []),
        ("past simple and past continuous", ["landed"]),
    ):
        units = {
            "level-2/unit-01.md": unit(2, 1, "can", "The kite landed in the tree."),
            "level-2/unit-02.md": unit(2, 2, label, "The kite landed in the tree."),
        }
        assert [finding.text for finding in findings(language, units, course)] == told
