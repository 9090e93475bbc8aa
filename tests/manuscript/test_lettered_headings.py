"""Activities with letters for numbers: the letter is the number, and no word of the instruction."""

import pytest

from lint_rules.manuscript.reading import read_unit
from lint_rules.source import Source

_FRONT = "---\nlevel: level-1\nunit: 1\ntitle: Look\n---\n\n# Look\n\n"


def headings(*lessons: tuple[str, ...]) -> list[tuple[str, str]]:
    text = _FRONT + "".join(
        f"## Lesson {number}: Look {{.words}}\n\n" + "".join(f"### {one} {{.reading}}\n\nA cat.\n\n" for one in lesson)
        for number, lesson in enumerate(lessons, 1)
    )
    unit = read_unit(Source("unit.md", text))
    found = [activity.heading for activity in unit.activities]
    assert all(one.number == text[one.number_span.start : one.number_span.end] for one in found)
    assert all(one.passage.text == text[one.passage.span().start : one.passage.span().end] for one in found)
    assert all(any(one.passage is passage for passage in unit.passages) for one in found)
    return [(one.number, one.passage.text) for one in found]


def test_letters_that_run_through_a_lesson_are_numbers():
    assert headings(("A Look.", "B. Read.", "C) A game."), ("A Say.", "B Sing.", "C Play.")) == [
        ("A", "Look."),
        ("B", "Read."),
        ("C", "A game."),
        ("A", "Say."),
        ("B", "Sing."),
        ("C", "Play."),
    ]


@pytest.mark.parametrize(
    "lesson",
    [
        ("A game for two.", "Read.", "Write."),
        ("A game.", "B"),
        ("A Look.", "C Read.", "B Write."),
        ("A song about A.", "A cat.", "A dog."),
    ],
)
def test_other_letters_are_words(lesson):
    assert headings(lesson) == [("", one) for one in lesson]


def test_each_lesson_has_its_own_habit():
    assert headings(("A Look.", "B Read.", "C Write."), ("A dog runs.", "Sing.")) == [
        ("A", "Look."),
        ("B", "Read."),
        ("C", "Write."),
        ("", "A dog runs."),
        ("", "Sing."),
    ]
