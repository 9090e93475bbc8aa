"""Files that once broke the reading, or are of the kind that does: each is read, with every place inside the file."""

from pathlib import Path

import pytest

from lint_rules.manuscript.reading import read_unit
from lint_rules.source import Source

HERE = Path(__file__).parent


@pytest.mark.parametrize("path", sorted(HERE.glob("*.md")), ids=lambda path: path.stem)
def test_a_file_that_broke_the_reading_is_read(path: Path) -> None:
    source = Source.decode(f"level-1/{path.name}", path.read_bytes())
    unit = read_unit(source)
    for passage in unit.passages:
        for index, char in enumerate(passage.text):
            stored = source.slice(passage.span(index, index + 1))
            assert stored == char or char in " \ufffc\ufffd"
    assert all(0 <= problem.span.start <= problem.span.end <= len(source.text) for problem in unit.problems)
