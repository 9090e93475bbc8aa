"""Measure missing-safety-note on activities that were written and labelled by hand: found, nagged, false.

    python -m tests.safety.measure FILE.jsonl …     totals and a line for each hazard
    python -m tests.safety.measure --list FILE …    what was missed (-), nagged (~), invented (+) (not held-back ones)

Found: a hazard without sufficient care is reported, as a stop or a query. Nagged: it is reported although there is
sufficient care. False: an activity with a stop or query about a hazard that it has not. Notes are counted apart. Where
a second reader's labels stand beside a hand (`second-N.jsonl`) and the two differ, a third reader decides
(`third.jsonl`); with --agreed a hazard that only one of the two saw, or whose care only one found sufficient, counts
neither way; with --first the first reader's labels decide alone.
"""

import argparse
import json
from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from typing import Any, NamedTuple

from lint_rules.finding import Found, Severity
from lint_rules.manuscript.reading import read_unit
from lint_rules.rule import Reading
from lint_rules.rules.safety.missing_safety_note import RULE, find
from lint_rules.source import Source
from tests.safety.labelled import FRONT, settled_rows
from tests.support import course_of, no_analysis, no_english

COURSE = course_of(
    {
        "course.yaml": "title: A\nlevels:\n  - {name: level-1, cefr: A1, words: words/level-1.csv}\n",
        "words/level-1.csv": "word,part_of_speech,topic,unit\n",
    }
)


class Answer(NamedTuple):
    """An activity's labels (hazard → care), and what the rule reports (hazard → severity and words)."""

    id: str
    text: str
    labels: dict[str, str]
    reported: dict[str, tuple[Severity, str]]


def read(paths: list[Path], *, by: str = "") -> list[dict[str, Any]]:
    """The lines of the files, each with the hazards that count neither way as ``disputed``; ``by``: `agreed`, `first`,
    or '' for labels that a third reader has settled."""
    found = []
    for path in paths:
        if not by:
            found += [row | {"disputed": set()} for row in settled_rows(path)]
            continue
        second = path.with_name(path.name.replace("hand", "second"))
        again = {} if by == "first" or not second.exists() else {row["id"]: _cares(row) for row in _rows(second)}
        for row in _rows(path):
            one, other = _cares(row), again.get(row["id"], _cares(row))
            enough = {
                hazard for hazard, care in one.items() if (care == "sufficient") != (other.get(hazard) == "sufficient")
            }
            found.append(row | {"disputed": set(one) ^ set(other) | enough})
    return found


def _rows(path: Path) -> list[dict[str, Any]]:
    return [json.loads(line) for line in path.read_text("utf-8").splitlines() if line.strip()]


def _cares(row: dict[str, Any]) -> dict[str, str]:
    return {one["hazard"]: one["care"] for one in row["hazards"]}


def answers(items: list[dict[str, Any]]) -> Iterator[Answer]:
    """What the rule says of each activity."""
    for item in items:
        unit = read_unit(Source("level-1/unit-01.md", FRONT + item["activity"].rstrip() + "\n"))
        reported: dict[str, tuple[Severity, str]] = {}
        for found in find(Reading(unit, COURSE, COURSE.levels[0], no_analysis, no_english)):
            one = _severity(found)
            if found.key in item["disputed"]:
                continue
            if found.key not in reported or one.weight > reported[found.key][0].weight:
                reported[found.key] = (one, found.text)
        labels = {hazard: care for hazard, care in _cares(item).items() if hazard not in item["disputed"]}
        yield Answer(item["id"], item["activity"], labels, reported)


def _severity(found: Found) -> Severity:
    return found.severity or RULE.severity


def totals(given: list[Answer]) -> tuple[dict[str, Counter[str]], Counter[str]]:
    """Counts for each hazard, and for all."""
    table: dict[str, Counter[str]] = {}
    every: Counter[str] = Counter()
    for answer in given:
        every["activities"] += 1
        loud = {hazard for hazard, (severity, _) in answer.reported.items() if severity is not Severity.NOTE}
        every["with a false one"] += bool(loud - set(answer.labels))
        every["harmless"] += not answer.labels
        every["harmless with a false one"] += bool(loud) and not answer.labels
        for hazard, (severity, _) in answer.reported.items():
            right = answer.labels.get(hazard) in ("none", "insufficient")
            table.setdefault(hazard, Counter())[f"{severity} {'right' if right else 'wrong'}"] += 1
        for hazard in loud - set(answer.labels):
            table.setdefault(hazard, Counter())["false"] += 1
        for hazard, care in answer.labels.items():
            row = table.setdefault(hazard, Counter())
            row[care] += 1
            row[f"{care} reported"] += hazard in loud
            row[f"{care} noted"] += hazard in answer.reported and hazard not in loud
    for row in table.values():
        every.update(row)
    return table, every


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("files", nargs="+", type=Path)
    parser.add_argument("--first", action="store_true", help="the first reader's labels alone")
    parser.add_argument("--agreed", action="store_true", help="only what two readers agree on")
    parser.add_argument("--list", action="store_true", help="print each miss, nag and invention")
    options = parser.parse_args()
    given = list(answers(read(options.files, by="first" if options.first else "agreed" if options.agreed else "")))
    table, every = totals(given)
    if options.list:
        _list(given)
    print("hazard | none: found of | insufficient: found of | sufficient: nagged of | false")
    for hazard in sorted(table):
        print(f"{hazard} | {_cells(table[hazard])} | {table[hazard]['false']}")
    listed = {hazard: row for hazard, row in table.items() if hazard != "other"}
    both = sum(row["none"] + row["insufficient"] for row in listed.values())
    got = sum(row["none reported"] + row["insufficient reported"] for row in listed.values())
    stops, wrong = every["stop right"], every["stop wrong"]
    print(f"all | {_cells(every)} | {every['false']}")
    print(f"without sufficient care, but for class other: {got} of {both} found = {_share(got, both)}")
    print(f"activities with a false one: {every['with a false one']} of {every['activities']}", end=" = ")
    print(_share(every["with a false one"], every["activities"]), end="; harmless ones: ")
    print(f"{every['harmless with a false one']} of {every['harmless']}")
    print(f"stops right: {stops} of {stops + wrong} = {_share(stops, stops + wrong)}; ", end="")
    print(f"queries right: {every['query right']} of {every['query right'] + every['query wrong']}; ", end="")
    print(f"notes: {every['note right']} right, {every['note wrong']} not")


def _cells(row: Counter[str]) -> str:
    return " | ".join(f"{row[f'{care} reported']} of {row[care]}" for care in ("none", "insufficient", "sufficient"))


def _share(part: int, whole: int) -> str:
    return f"{part / whole:.3f}" if whole else "-"


def _list(given: list[Answer]) -> None:
    for answer in given:
        marks = []
        for hazard, care in answer.labels.items():
            severity, words = answer.reported.get(hazard, (None, ""))
            loud = severity in (Severity.STOP, Severity.QUERY)
            if care != "sufficient" and not loud:
                marks.append(f"- {hazard} ({care}{', noted' if severity else ''})")
            elif care == "sufficient" and loud:
                marks.append(f"~ {hazard}: {severity} «{words}»")
        for hazard, (severity, words) in answer.reported.items():
            if hazard not in answer.labels and severity is not Severity.NOTE:
                marks.append(f"+ {hazard}: {severity} «{words}»")
        if marks:
            print(answer.id, " ¶ ".join(answer.text.split("\n\n")).replace("\n", " "))
            print("    " + "; ".join(marks))


if __name__ == "__main__":
    main()
