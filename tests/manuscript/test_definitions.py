"""Definition lists, as in Pandoc's manual: in notes their terms are fields, elsewhere words and meanings."""

from lint_rules.manuscript.model import Role
from lint_rules.manuscript.reading import read_unit
from lint_rules.source import Source

FRONT = "---\nlevel: level-1\nunit: 1\ntitle: A\n---\n\n# A\n\n## Lesson 1: A {.words}\n\n"


def test_the_notes_of_a_lesson_may_be_a_definition_list():
    notes = (
        "::: teacher\n**Aim**\n:   Children name things.\n\nTime\n:   40 minutes\n\n"
        "**Steps**\n:   1. Look.\n    2. Say.\n\n    Then sing.\n:::\n"
    )
    unit = read_unit(Source("level-1/unit-01.md", FRONT + notes))
    fields = [(field.name, [passage.text for passage in field.passages]) for field in unit.lessons[0].part.fields]
    assert fields == [
        ("Aim", ["Children name things."]),
        ("Time", ["40 minutes"]),
        ("Steps", ["Look.", "Say.", "Then sing."]),
    ]
    source = unit.source
    assert [source.slice(field.name_span) for field in unit.lessons[0].part.fields] == ["Aim", "Time", "Steps"]
    steps = unit.lessons[0].part.fields[2].passages
    assert [source.slice(passage.span()) for passage in steps] == ["Look.", "Say.", "Then sing."]


def test_a_term_of_a_panel_is_a_word_and_its_meaning_is_none():
    unit = read_unit(Source("level-1/unit-01.md", FRONT + "::: words\nkite\n:   It flies, high up.\n:::\n"))
    read = [(passage.text, passage.role) for passage in unit.lessons[0].part.passages]
    assert read == [("kite", Role.PANEL), ("It flies, high up.", Role.TEXT)]


def test_a_line_that_begins_with_a_colon_under_a_table_is_its_caption():
    unit = read_unit(Source("level-1/unit-01.md", FRONT + "| a | b |\n|---|---|\n| c | d |\n\n: A caption.\n"))
    assert [passage.text for passage in unit.lessons[0].part.passages if passage.role is Role.CAPTION] == ["A caption."]
