"""A course in memory, and where its problems may lie."""

from collections.abc import Mapping

from lint_rules.course.model import Course
from lint_rules.course.problem import CourseProblem
from lint_rules.course.reading import read_course
from lint_rules.language.grammar.labels import structures_of_label
from lint_rules.source import Source

RULES = ("long-sentence", "long-text", "word-above-level", "course-hours")
STRUCTURES = ("present-simple", "present-continuous", "present-perfect", "can", "have-got", "past-simple")


def read(files: Mapping[str, str]) -> tuple[Course | None, tuple[CourseProblem, ...]]:
    """Read a course from files in memory."""

    def load(path: str) -> Source | CourseProblem:
        if path in files:
            return Source(path, files[path])
        return CourseProblem(path, 0, 0, f"There is no file {path} in the course's folder.")

    return read_course(Source("course.yaml", files["course.yaml"]), load, RULES, STRUCTURES, structures_of_label)


def read_list(text: str, units: int = 9) -> tuple[Course, tuple[CourseProblem, ...]]:
    """Read a course of one level whose word list is given."""
    settings = f"title: T\nlevels:\n  - name: level-1\n    cefr: A1\n    units: {units}\n    words: words/level-1.csv\n"
    course, problems = read({"course.yaml": settings, "words/level-1.csv": text})
    assert course is not None
    return course, problems


def is_inside(problem: CourseProblem, source: Source) -> bool:
    """Say whether a problem's place is a place of the file."""
    if not 1 <= problem.line <= len(source.line_starts):
        return False
    return 1 <= problem.column <= len(source.line_text(problem.line)) + 1
