"""What texts tell of the statements that keys call true or false, on the judged courses.

    python -m tests.judged.statements

Prints of how many statements the texts of their lesson tell something, and those whose key says otherwise, for a
reader to say which are wrong; `told` marks what key-against-text asks.
"""

from collections.abc import Iterator
from pathlib import Path

from lint_rules.manuscript.reading import read_unit
from lint_rules.page.readings import readings_of
from lint_rules.source import Source
from lint_rules.unit_language.texts_around import around_each
from lint_rules.unit_language.told_statements import held_against, told_otherwise

HERE = Path(__file__).parent


def statements(path: Path) -> Iterator[tuple[bool, str]]:
    """The statements of a unit of which its texts tell something: whether the key goes with that, a line to read."""
    unit = read_unit(Source(path.name, path.read_text("utf-8")))
    for around in around_each(unit, readings_of(unit).exercises):
        for one in around.read.exercises:
            texts = around.stating
            told = told_otherwise(one, texts)
            for goes, (contrary, _) in held_against(one, texts):
                key = contrary.item.answer.text if contrary.item.answer is not None else ""
                mark = "told " if told is not None and told.item is contrary.item else ""
                yield goes, f"{mark}{contrary.item.text} [{key}]: {contrary.sentence}"


def main() -> None:
    """Read all courses and print the statements whose key differs."""
    units = sorted(HERE.glob("*/course/*/unit-*.md"))
    found = [(path, goes, line) for path in units for goes, line in statements(path)]
    print(f"{len(found)} statements, {sum(not goes for _, goes, _ in found)} keys differ")
    for path, goes, line in found:
        if not goes:
            print(f"  {path.parents[2].name}: {path.name} {line}")


if __name__ == "__main__":
    main()
