"""How today's program does on judged courses: what of the wrong is gone, what of the right is kept.

    python tests/judged/score.py [COURSE [JUDGED]] [--english URL] [--rules] [--left] [--new]

COURSE is a course's folder, JUDGED its judged.csv or points.csv (by default beside it); without them those of this
folder. In a points.csv each row is a point, known by its first finding, as an author saw it.
Findings are matched by rule, file and words near the judged line, one to one; findings of English need a server and are
left out where none is named. --rules says it rule by rule, --left lists the wrong ones that are left, --new the
findings that nobody has judged; --among takes some courses of this folder by name. The last lines add them all up,
with what their authors first said (and, with --rules, of which rule).
"""

import argparse
import contextlib
import csv
import io
import json
import re
from collections import Counter, defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

HERE = Path(__file__).parent
NEAR = 30  # lines that a finding may have moved
CUT = 120  # characters of a finding's words that judged.csv keeps
ENGLISH = ("english-error",)
VERDICTS = ("RIGHT", "HOUSE", "WRONG")
WEIGHTS = ("note", "query", "stop")


@dataclass
class Row:
    """A judged finding of an earlier version, and today's that it is (its index), if any."""

    rule: str
    severity: str
    path: str
    line: int
    text: str
    verdict: str
    reason: str
    message: str
    now: int | None = None


@dataclass
class Score:
    """What one course's run comes to."""

    course: str
    rows: list[Row]
    findings: list[dict[str, Any]]
    points: list[dict[str, Any]]
    units: int
    skipped: list[dict[str, str]] = field(default_factory=list)

    @property
    def verdicts(self) -> dict[int, str]:
        """Today's findings that were judged, with their verdicts."""
        return {row.now: row.verdict for row in self.rows if row.now is not None}

    def count(self, verdict: str, *, left: bool) -> int:
        """How many findings of a verdict are still there, or gone."""
        return sum(row.verdict == verdict and (row.now is not None) is left for row in self.rows)


def main() -> None:
    """Score the courses that are asked for."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("course", nargs="?", type=Path)
    parser.add_argument("judged", nargs="?", type=Path)
    parser.add_argument("--english", default="")
    parser.add_argument("--rules", action="store_true")
    parser.add_argument("--left", action="store_true")
    parser.add_argument("--new", action="store_true")
    parser.add_argument("--among", nargs="*", default=[], metavar="NAME")
    wanted = parser.parse_args()
    courses = [wanted.course] if wanted.course else sorted(path.parent for path in HERE.glob("*/course/course.yaml"))
    courses = [one for one in courses if not wanted.among or one.parent.name in wanted.among]
    scores = []
    for course in courses:
        beside = (folder / name for folder in (course, course.parent) for name in ("judged.csv", "points.csv"))
        judged = wanted.judged or next(path for path in beside if path.exists())
        scores.append(score(course, judged, wanted.english))
        show(scores[-1], wanted)
    if len(scores) > 1:
        show_together(scores, wanted)


def score(course: Path, judged: Path, english: str = "") -> Score:
    """Run the book's check and match what it finds with what was judged."""
    run = findings_of(course, english)
    with judged.open(encoding="utf-8", newline="") as file:
        rows = [row_of(row) for row in csv.DictReader(file)]
    if not english:
        rows = [row for row in rows if row.rule not in ENGLISH]
    findings = [{**finding, "path": inside(finding["path"], course)} for finding in run["findings"]]
    match(rows, findings)
    points = run.get("points") or [
        {"rule": one["rule"], "severity": one["severity"], "message": one["message"], "findings": [at]}
        for at, one in enumerate(findings)
    ]
    name = course.parent.name if course.name == "course" else course.name
    return Score(name, rows, findings, points, run["units"], run["skipped"])


def findings_of(course: Path, english: str) -> dict[str, Any]:
    """The JSON report of the book, nothing remembered."""
    from lint_rules.cli import main as hornbook

    out = io.TextIOWrapper(io.BytesIO(), encoding="utf-8")
    options = ["--english", english] if english else []
    with contextlib.redirect_stdout(out), contextlib.suppress(SystemExit):
        hornbook(["book", str(course), "--format", "json", "--no-cache", *options])
    out.flush()
    answer: dict[str, Any] = json.loads(out.buffer.getvalue())
    return answer


def inside(path: str, course: Path) -> str:
    """A path inside the course, as judged.csv writes it."""
    whole = Path(path).resolve()
    return whole.relative_to(course.resolve()).as_posix() if whole.is_relative_to(course.resolve()) else path


def row_of(row: dict[str, str]) -> Row:
    return Row(
        row["rule"],
        row["severity"],
        re.sub(r"^courses/\w+/", "", row["path"]),
        int(row["line"]),
        row["text"][:CUT],
        row["verdict"],
        row["reason"],
        row.get("message", ""),
    )


def match(rows: Sequence[Row], findings: Sequence[dict[str, Any]]) -> None:
    """Pair judged findings with today's, the nearest first; where one place has several, by the words they quote."""
    crowded = {place for place, count in Counter(map(place_of, rows)).items() if count > 1}
    pairs = []
    by_rule: defaultdict[tuple[str, str], list[int]] = defaultdict(list)
    for at, one in enumerate(findings):
        by_rule[one["rule"], one["path"]].append(at)
    for number, row in enumerate(rows):
        for at in by_rule[row.rule, row.path]:
            one = findings[at]
            far = abs(one["line"] - row.line)
            same = one["text"][:CUT] == row.text
            akin = far == 0 and (row.text in one["text"] or one["text"] in row.text)
            if far > NEAR or not (same or akin):
                continue
            differs = bool(row.message) and not quoted(row.message) & quoted(one["message"])
            if differs and place_of(row) in crowded:
                continue
            other_weight = one.get("severity", row.severity) != row.severity
            pairs.append((not same, far, differs, other_weight, abs(number - at), number, at))
    taken: set[int] = set()
    for *_, number, at in sorted(pairs):
        if rows[number].now is None and at not in taken:
            rows[number].now = at
            taken.add(at)


def place_of(row: Row) -> tuple[str, str, int, str]:
    return row.rule, row.path, row.line, row.text


def quoted(message: str) -> set[str]:
    """The words that a message quotes."""
    return {found.casefold() for found in re.findall(r"“([^”]+)”", message)}


def show(result: Score, wanted: argparse.Namespace) -> None:
    """Print a score."""
    units = result.units or 1
    verdicts = result.verdicts
    unjudged = [at for at in range(len(result.findings)) if at not in verdicts]
    print(f"== {result.course}: {len(result.rows)} judged, {len(result.findings)} findings today, {units} units")
    first = [row.verdict for row in result.rows if row.severity != "note"]
    stopped = [row.verdict for row in result.rows if row.severity == "stop"]
    print(f"   at first {len(first)} to answer: {counted(first)}; stops: {counted(stopped)}")
    print(f"   WRONG  left {result.count('WRONG', left=True):4}   gone {result.count('WRONG', left=False):4}")
    print(f"   RIGHT  kept {result.count('RIGHT', left=True):4}   lost {result.count('RIGHT', left=False):4}")
    print(f"   HOUSE  left {result.count('HOUSE', left=True):4}   gone {result.count('HOUSE', left=False):4}")
    print(f"   not judged {len(unjudged)}: {counted(result.findings[at]['rule'] for at in unjudged)}")
    print(f"   findings a unit {len(result.findings) / units:.1f}   points a unit {len(result.points) / units:.1f}")
    to_answer = [point for point in result.points if point["severity"] != "note"]
    verdict_of = [point_verdict(point, verdicts) for point in to_answer]
    print(f"   points to answer a unit {len(to_answer) / units:.1f}: {counted(verdict_of)}")
    stops = [at for at, one in enumerate(result.findings) if one["severity"] == "stop"]
    by_verdict = counted(verdicts.get(at, "not judged") for at in stops)
    print(f"   stops {len(stops)}: {by_verdict}")
    for note in result.skipped:
        print(f"   SKIPPED {note['path']}: {note['why']}")
    if wanted.rules:
        show_rules(result)
    show_rows("lost (RIGHT)", [row for row in result.rows if row.verdict == "RIGHT" and row.now is None], result)
    if wanted.left:
        show_rows(
            "left (WRONG)", [row for row in result.rows if row.verdict == "WRONG" and row.now is not None], result
        )
    if wanted.new:
        print("   not judged:")
        for one in (result.findings[at] for at in unjudged):
            print(f"     {one['path']}:{one['line']} {one['severity']} {one['rule']} “{one['text'][:60]}”")
            print(f"        {one['message']}")


def show_together(scores: Sequence[Score], wanted: argparse.Namespace | None = None) -> None:
    """Print what several courses come to."""
    units = sum(one.units for one in scores) or 1
    to_answer = [
        point_verdict(point, one.verdicts) for one in scores for point in one.points if point["severity"] != "note"
    ]
    stops = [
        one.verdicts.get(at, "not judged")
        for one in scores
        for at, finding in enumerate(one.findings)
        if finding["severity"] == "stop"
    ]
    right = [kept(row, one) for one in scores for row in one.rows if row.verdict == "RIGHT"]
    print(f"== together: {len(scores)} courses, {units} units")
    first = [row for one in scores for row in one.rows if row.severity != "note"]
    stopped = counted(row.verdict for row in first if row.severity == "stop")
    said = counted(row.verdict for row in first)
    print(f"   at first {len(first)}, a unit {len(first) / units:.1f}: {said}; stops: {stopped}")
    for rule in sorted({row.rule for row in first}) if wanted is not None and wanted.rules else ():
        print(f"     {rule:32} {counted(row.verdict for row in first if row.rule == rule)}")
    print(f"   points to answer {len(to_answer)}, a unit {len(to_answer) / units:.1f}: {counted(to_answer)}")
    print(f"   stops {len(stops)}: {counted(stops)}")
    print(f"   of {len(right)} that were RIGHT: {counted(right)}")


def kept(row: Row, score: Score) -> str:
    """What has become of a judged finding: said as it was or more loudly, more quietly, or no more."""
    if row.now is None:
        return "gone"
    now = WEIGHTS.index(score.findings[row.now]["severity"])
    return "as loud or louder" if now >= WEIGHTS.index(row.severity) else "quieter"


def point_verdict(point: dict[str, Any], verdicts: dict[int, str]) -> str:
    """A point is worth what its best finding is worth."""
    known = {verdicts[at] for at in point["findings"] if at in verdicts}
    return next((verdict for verdict in VERDICTS if verdict in known), "not judged")


def counted(names: Iterable[str]) -> str:
    return ", ".join(f"{name} {count}" for name, count in Counter(names).most_common()) or "none"


def show_rules(result: Score) -> None:
    """One line a rule: of each verdict those still there, of those judged."""
    before: Counter[tuple[str, str]] = Counter((row.rule, row.verdict) for row in result.rows)
    now: Counter[tuple[str, str]] = Counter((row.rule, row.verdict) for row in result.rows if row.now is not None)
    today = Counter(one["rule"] for one in result.findings)
    for rule in sorted({row.rule for row in result.rows} | set(today)):
        parts = [f"{verdict} {now[rule, verdict]}/{before[rule, verdict]}" for verdict in VERDICTS]
        print(f"     {rule:32} {'  '.join(f'{part:14}' for part in parts)} findings {today[rule]}")


def show_rows(title: str, rows: Sequence[Row], result: Score) -> None:
    if rows:
        print(f"   {title}:")
    for row in rows:
        print(f"     {row.path}:{row.line} {row.severity} {row.rule} “{row.text[:60]}”: {row.reason}")
        beside = {one["rule"] for one in result.findings if (one["path"], one["line"]) == (row.path, row.line)}
        if row.now is None and beside:
            print(f"        (today there: {', '.join(sorted(beside))})")
        if row.now is not None:
            print(f"        {result.findings[row.now]['message']}")


if __name__ == "__main__":
    main()
