"""What exchanged meanings are told on the judged courses, and how many exchanges of two words would be.

    python -m tests.meanings.measure [FOLDER …]

Prints each exchange that is told in the courses of tests/judged (or in other folders), for a reader to say whether the
key is wrong; then, of all exchanges of two words in all matchings that the key has right, how many would be told.
"""

import sys
from collections.abc import Iterator, Sequence
from itertools import combinations
from pathlib import Path

from lint_rules.manuscript.reading import read_unit
from lint_rules.page.readings import readings_of
from lint_rules.source import Source
from lint_rules.unit_language.swapped_meanings import Pair, are_held, exchanged_among, pairs_in

JUDGED = Path(__file__).parents[1] / "judged"


def matchings(path: Path) -> Iterator[list[Pair]]:
    """What the keys of a unit put together, matching by matching, where words and meanings can be held together."""
    for read in readings_of(read_unit(Source(path.name, path.read_text("utf-8")))).exercises:
        for exercise in read.exercises:
            pairs = list(pairs_in(exercise))
            if are_held(pairs):
                yield pairs


def with_exchange(pairs: Sequence[Pair], one: int, other: int) -> list[Pair]:
    """The same with the meanings of two words exchanged."""
    changed = list(pairs)
    changed[one] = pairs[one]._replace(meaning=pairs[other].meaning, told=pairs[other].told)
    changed[other] = pairs[other]._replace(meaning=pairs[one].meaning, told=pairs[one].told)
    return changed


def main(folders: Sequence[Path]) -> None:
    """Measure and print."""
    held = told = possible = seen = 0
    for path in sorted(path for folder in folders for path in folder.rglob("unit-*.md")):
        for pairs in matchings(path):
            held += 1
            found = list(exchanged_among(pairs))
            for one in found:
                told += 1
                print(f"{path.relative_to(path.parents[3])}: {one.word} – {one.other_word}")
            for at, other in combinations(range(len(pairs)), 2) if not found else ():
                possible += 1
                seen += any(True for _ in exchanged_among(with_exchange(pairs, at, other)))
    print(f"{told} told in {held} matchings; of {possible} exchanges in the others {seen} would be told")


if __name__ == "__main__":
    main([Path(one) for one in sys.argv[1:]] or [JUDGED])
