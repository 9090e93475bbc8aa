"""What key-against-text asks about the options of questions on the judged courses, for a reader to say which are wrong.

    python tests/judged/options.py

Prints how many questions with options and a key the courses of this folder have, and what is asked of them.
"""

from collections.abc import Iterator
from pathlib import Path

from lint_rules.manuscript.reading import read_unit
from lint_rules.page.exercises.completed import completed
from lint_rules.page.readings import readings_of
from lint_rules.source import Source
from tests.judged.score import findings_of

HERE = Path(__file__).parent
ASKED = "beside the words of the question"


def questions(path: Path) -> Iterator[str]:
    """The questions of a unit that have options below them, and a key that names one."""
    unit = read_unit(Source(path.name, path.read_text("utf-8")))
    for one in (one for read in readings_of(unit).exercises for one in read.exercises):
        for item in one.items:
            below = len(item.choices) == 1 and item.choices[0].inline is None
            if below and item.answer is not None and not item.example and all(completed(item, one).chosen):
                yield item.text


def main() -> None:
    """Read all courses and print what is asked."""
    units = sorted(HERE.glob("*/course/*/unit-*.md"))
    print(f"{sum(1 for unit in units for _ in questions(unit))} questions")
    for course in sorted({unit.parents[1] for unit in units}):
        for one in findings_of(course, "")["findings"]:
            if one["rule"] == "key-against-text" and ASKED in one["message"]:
                print(f"  {course.parent.name}: {Path(one['path']).name}:{one['line']} {one['message']}")


if __name__ == "__main__":
    main()
