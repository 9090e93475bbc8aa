"""Measure how well the structures are found: precision, recall and F1 of each.

python -m tests.language.measure                      the 306 sentences we tune on
python -m tests.language.measure --held-back          the 100 that nobody tunes on: totals alone
python -m tests.language.measure FILE.jsonl           lines of {"text": …, "structures": […]}
python -m tests.language.measure --errors [NAME]      what was missed (-) and invented (+)
"""

import argparse
import json
import re
from collections import Counter
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import NamedTuple

from lint_rules.language.grammar.structures import STRUCTURE_NAMES
from lint_rules.language.pipeline import SpacyLanguage
from lint_rules.language.service import Request
from lint_rules.language.tokens import Mode
from tests.language.course_english import HELD_BACK, TUNED_ON, Sentence, sentences


class Score(NamedTuple):
    """How often a structure stands in the labels, was found, and was rightly found."""

    labelled: int
    found: int
    right: int

    @property
    def precision(self) -> float:
        return self.right / self.found if self.found else 0.0

    @property
    def recall(self) -> float:
        return self.right / self.labelled if self.labelled else 0.0

    @property
    def f1(self) -> float:
        return 2 * self.right / (self.labelled + self.found) if self.labelled + self.found else 0.0


def find(items: Iterable[Sentence]) -> list[frozenset[str]]:
    """The structures that hornbook finds in each sentence."""
    analyses = SpacyLanguage().analyse([Request(item.text, item.mode) for item in items])
    return [frozenset(structure.name for structure in analysis.structures) for analysis in analyses]


def scores(labels: Iterable[frozenset[str]], found: Iterable[frozenset[str]]) -> dict[str, Score]:
    """A score for each structure, in the order of the grammar, and one for ``all`` (micro-averaged)."""
    labelled, predicted, right = Counter[str](), Counter[str](), Counter[str]()
    for wanted, got in zip(labels, found, strict=True):
        labelled.update(wanted)
        predicted.update(got)
        right.update(wanted & got)
    table = {name: Score(labelled[name], predicted[name], right[name]) for name in STRUCTURE_NAMES}
    return table | {"all": Score(labelled.total(), predicted.total(), right.total())}


def errors(items: Iterable[Sentence], found: Iterable[frozenset[str]]) -> Iterator[str]:
    """A line for each sentence that was read wrongly: what was missed (-) and invented (+)."""
    for item, got in zip(items, found, strict=True):
        wrong = [f"-{name}" for name in sorted(item.structures - got)]
        wrong += [f"+{name}" for name in sorted(got - item.structures)]
        if wrong:
            yield f"{item.text}  [{' '.join(wrong)}]"


def read(path: Path) -> list[Sentence]:
    """Labelled sentences from a text file of ours, or from JSON lines."""
    if path.suffix != ".jsonl":
        return sentences(path)
    rows = [json.loads(line) for line in path.read_text(encoding="utf-8").splitlines() if line.strip()]
    return [Sentence(row["text"], Mode.TEXT, frozenset(row["structures"])) for row in rows]


def main() -> None:
    """Print the table, or the errors."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("file", nargs="?", type=Path, default=TUNED_ON)
    parser.add_argument("--held-back", action="store_true")
    parser.add_argument("--errors", nargs="?", const="all", default="")
    arguments = parser.parse_args()
    items = read(HELD_BACK if arguments.held_back else arguments.file)
    found = find(items)
    if arguments.errors and not arguments.held_back:
        for line in errors(items, found):
            if arguments.errors == "all" or re.search(rf"[-+]{re.escape(arguments.errors)}[ \]]", line):
                print(line)
        return
    table = scores((item.structures for item in items), found)
    print(f"{'structure':32}{'labelled':>9}{'found':>7}{'precision':>11}{'recall':>8}{'F1':>7}")
    for name, score in table.items():
        if name == "all" or (not arguments.held_back and score.labelled + score.found):
            print(
                f"{name:32}{score.labelled:9}{score.found:7}{score.precision:11.3f}{score.recall:8.3f}{score.f1:7.3f}"
            )
    whole = sum(item.structures == got for item, got in zip(items, found, strict=True))
    print(f"{whole} of {len(items)} sentences wholly right")


if __name__ == "__main__":
    main()
