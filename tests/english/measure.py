"""Count the slips of English that are found in sentences by proofreaders, and the alarms on lines without any.

    python -m tests.english.measure URL

URL is that of an English checker. ``proofread`` holds 700 sentences with one slip each, marked with « », by four
proofreaders of course books who saw neither the program nor its checks; the first three are learnt from, the fourth
measures. The lines without a slip are those of two writers for safety (``tests/safety/activities``): what is said of
their grammar is false but for a slip of theirs.
"""

import json
import sys
from collections import Counter
from collections.abc import Mapping
from pathlib import Path

from lint_rules.engine.registry import load_rules
from lint_rules.english.client import EnglishClient
from lint_rules.finding import Finding
from lint_rules.language.pipeline import SpacyLanguage
from lint_rules.language.service import English
from tests.safety.labelled import ACTIVITIES, unmarked
from tests.support import run_files

PROOFREAD = Path(__file__).parent / "proofread"
_CLEAN = ("lines-o", "lines-p")
_COURSE = {
    "course.yaml": "title: T\nadopted: 0.2\nlevels:\n  - {name: level-1, cefr: A2, words: words/level-1.csv}\n",
    "words/level-1.csv": "word,part_of_speech,topic,unit\n",
}


def findings_of(lines: list[tuple[str, bool]], english: English) -> Mapping[int, list[tuple[Finding, int]]]:
    """What is said of the English of each line (text, whether it stands in the notes), and where the line begins."""
    files = dict(_COURSE)
    for number, (line, noted) in enumerate(lines, start=1):
        head = (
            f"---\nlevel: level-1\nunit: {number}\ntitle: Look\n---\n\n# Look\n\n## Lesson 1: Look\n\n### 1 Look.\n\n"
        )
        body = f"A cat.\n\n::: teacher\n**Steps:** {line}\n:::\n" if noted else f"{line}\n"
        files[f"level-1/unit-{number:05}.md"] = head + body
    found: dict[int, list[tuple[Finding, int]]] = {number: [] for number in range(len(lines))}
    for one in run_files(files, load_rules(), SpacyLanguage(), whole_book=False, english=english).open:
        if one.rule in ("english-error", "spelling-variety"):
            number = int(one.path[-8:-3]) - 1
            found[number].append((one, files[one.path].index(lines[number][0])))
    return found


def main() -> None:
    english = EnglishClient(sys.argv[1], direct=False)
    for path in sorted(PROOFREAD.glob("*.jsonl")):
        rows = [json.loads(line) for line in path.read_text("utf-8").splitlines()]
        marked = [unmarked(row["line"]) for row in rows]
        said = findings_of(
            [(text, row["place"] == "notes") for (text, _), row in zip(marked, rows, strict=True)], english
        )
        hits: Counter[str] = Counter()
        for number, (_, (start, end)) in enumerate(marked):
            at = [
                one
                for one, begin in said[number]
                if one.span.start < begin + end + 2 and one.span.end > begin + start - 2
            ]
            hits[max((one.severity.value for one in at), default="none")] += 1
        print(f"{path.stem}: {len(rows) - hits['none']} of {len(rows)} found ({dict(hits)})")
    rows = [
        json.loads(line) for name in _CLEAN for line in (ACTIVITIES / f"{name}.jsonl").read_text("utf-8").splitlines()
    ]
    said = findings_of([(unmarked(row["line"])[0], row["place"] in ("steps", "materials")) for row in rows], english)
    told = [one for found in said.values() for one, _ in found if "no dictionary" not in one.message]
    print(f"of {len(rows)} lines without a slip {len(told)} have an alarm about grammar:")
    for one in told:
        print(f"  {one.severity.value}: {one.text!r}: {one.message}")


if __name__ == "__main__":
    main()
