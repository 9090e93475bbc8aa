"""What art has otherwise than the texts that it stands beside, on the judged courses.

    python -m tests.judged.drawn

Prints each such thing, with the words of the art and of the story, for a reader to say which is a slip.
"""

from pathlib import Path

from lint_rules.manuscript.reading import read_unit
from lint_rules.source import Source
from lint_rules.unit_language.drawn_otherwise import drawn_otherwise

HERE = Path(__file__).parent


def main() -> None:
    """Read all courses and print what differs."""
    units = sorted(HERE.glob("*/course/*/unit-*.md"))
    for path in units:
        unit = read_unit(Source(path.name, path.read_text("utf-8")))
        for drawn, told in drawn_otherwise(unit):
            line = unit.source.position(drawn.passage.span(drawn.start, drawn.end).start).line
            print(f"{path.relative_to(HERE)}:{line}: “{drawn.text}”, and the text “{told.text}”")


if __name__ == "__main__":
    main()
