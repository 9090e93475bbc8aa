"""Count what the rules say of exercises that were written without sight of the program, clean ones and faulty ones.

    python -m tests.exercises.measure tuned                # the half first tuned on, with what went wrong
    python -m tests.exercises.measure held_back            # the half that was held back at first, tuned on since
    python -m tests.exercises.measure third                # a third part, by another hand, tuned on since
    python -m tests.exercises.measure fourth               # a fourth, layouts that the others had not
    python -m tests.exercises.measure fifth                # a fifth, by another hand: measured once, learnt from since
    python -m tests.exercises.measure sixth                # a sixth, by yet another: measured once, learnt from since
    python -m tests.exercises.measure seventh              # a seventh, layouts that the others had not
    python -m tests.exercises.measure eighth               # an eighth, by a third stranger: measured once
    python -m tests.exercises.measure ninth                # a ninth, by a fourth: measured once, learnt from since
    python -m tests.exercises.measure tenth                # a tenth, by a fifth: measured once, learnt from since
    python -m tests.exercises.measure eleventh             # an eleventh, by a sixth: measured once, at the end
    python -m tests.exercises.measure tuned --english URL  # with an English checker

Each exercise is wrapped into a course of its own, which asks for all that does not fit a key (answers-mismatch: a
note by default). Counted are stops and queries (notes stop nobody). A clean exercise
is at fault when any rule about its text raises one; words that are above the level count for themselves, since what a
word list has is not what was written for here. A fault is found when a finding of its rule overlaps the words where an
editor would put the mark.
"""

import argparse
import json
import re
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from lint_rules.engine.registry import load_rules
from lint_rules.english.client import EnglishClient
from lint_rules.finding import Finding, Severity
from lint_rules.language.pipeline import SpacyLanguage
from lint_rules.language.service import English, Language
from tests.support import run_files

FOLDER = Path(__file__).parent
SETS = ("tuned", "held_back", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth", "eleventh")
_LEVELS = {"Pre-A1": 1, "A1": 2, "A2": 3, "B1": 4}
# Rules about what stands around an exercise, or about levels: the wrapping decides what they say.
_NOT_ABOUT_TEXT = frozenset((FOLDER / "rules_left_out.txt").read_text(encoding="utf-8").split())
ABOUT_LEVEL = frozenset((FOLDER / "rules_about_the_level.txt").read_text(encoding="utf-8").split())


@dataclass(frozen=True, slots=True)
class Exercise:
    """An exercise as it was written, with the places where its fault may be marked."""

    id: str
    activity: str
    fault: str
    places: tuple[str, ...]
    level: str
    layout: str


def exercises(name: str) -> Iterator[Exercise]:
    """The exercises of a set."""
    for line in (FOLDER / f"{name}.jsonl").read_text(encoding="utf-8").splitlines():
        one: dict[str, Any] = json.loads(line)
        places = tuple(words for words in (one["words"], *one["also_ok"]) if words)
        yield Exercise(one["id"], one["activity"], one["fault"] or "", places, one["level"], one["layout"])


def findings_of(
    some: Sequence[Exercise], language: Language, english: English | None = None
) -> dict[str, tuple[list[Finding], str]]:
    """The stops and queries on each exercise, and the text of its unit, by its id."""
    found: dict[str, tuple[list[Finding], str]] = {}
    rules = load_rules()
    course = "title: The measured course\ncharacters: []\nadopted: 0.2\nrules: {answers-mismatch: query}\nlevels:\n"
    files: dict[str, str] = {}
    for band, number in _LEVELS.items():
        course += f"  - name: level-{number}\n    cefr: {band}\n    words: words/level-{number}.csv\n"
        files[f"words/level-{number}.csv"] = "word,part_of_speech,topic,unit\n"
    paths: dict[str, str] = {}
    for index, one in enumerate(some, start=1):
        level = _LEVELS[one.level]
        path = f"level-{level}/unit-{index:03}.md"
        front = f"---\nlevel: level-{level}\nunit: {index}\ntitle: Look\n---\n\n"
        files[path] = f"{front}# Look\n\n## Lesson 1: Look {{.words}}\n\n{one.activity}"
        paths[path] = one.id
        found[one.id] = ([], files[path])
    files["course.yaml"] = course
    for finding in run_files(files, rules, language, whole_book=False, english=english).open:
        if finding.severity is not Severity.NOTE and finding.rule not in _NOT_ABOUT_TEXT:
            found[paths[finding.path]][0].append(finding)
    return found


def is_at(finding: Finding, one: Exercise, text: str) -> bool:
    """Whether a finding overlaps one of the places where an exercise's fault may be marked."""
    offset = text.index(one.activity)
    for words in one.places:
        starts = [match.start() for match in re.finditer(re.escape(words), one.activity)]
        for start in starts if one.fault == "duplicate-option" else starts[:1]:  # what is there twice: at either
            first = offset + start
            if finding.span.start < first + len(words) and first < max(finding.span.end, finding.span.start + 1):
                return True
    return False


def report(name: str, *, english: English | None, show: bool) -> Iterator[str]:
    """The figures of a set, and (``show``) what went wrong."""
    some = list(exercises(name))
    found = findings_of(some, SpacyLanguage(), english)
    clean = [one for one in some if not one.fault]
    faulty = [one for one in some if one.fault]
    wrong: Counter[str] = Counter()
    levels: Counter[str] = Counter()
    at_fault = 0
    shown: list[str] = []
    for one in clean:
        about_text = [finding for finding in found[one.id][0] if finding.rule not in ABOUT_LEVEL]
        wrong.update(finding.rule for finding in about_text)
        levels.update(finding.rule for finding in found[one.id][0] if finding.rule in ABOUT_LEVEL)
        at_fault += bool(about_text)
        shown += [f"  {one.id} ({one.layout}): {f.rule}: {f.text!r}: {f.message}" for f in about_text]
    hits: Counter[str] = Counter()
    for one in faulty:
        findings, text = found[one.id]
        of_kind = [finding for finding in findings if finding.rule == one.fault]
        hit = any(is_at(finding, one, text) for finding in of_kind)
        hits[one.fault] += hit
        if not hit:
            shown.append(f"  {one.id} ({one.layout}): {one.fault} not found: {[(f.rule, f.text) for f in findings]}")
        others = [f for f in findings if f.rule != one.fault and f.rule not in ABOUT_LEVEL]
        shown += [f"  {one.id} also: {f.rule}: {f.text!r}: {f.message}" for f in others]
    kinds = Counter(one.fault for one in faulty)
    yield f"{name}: {len(clean)} clean exercises, {at_fault} with a false stop or query"
    yield from (f"    {rule}: {count}" for rule, count in wrong.most_common())
    yield f"  rules about the level, on the clean ones: {dict(levels.most_common())}"
    yield f"{name}: {len(faulty)} faults, {hits.total()} found at their words"
    yield from (f"    {kind}: {hits[kind]} of {kinds[kind]}" for kind in sorted(kinds))
    if show:
        yield from shown


def main() -> None:
    """Print the figures."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("set", choices=SETS)
    parser.add_argument("--english", metavar="URL")
    arguments = parser.parse_args()
    english = EnglishClient(arguments.english, direct=False) if arguments.english else None
    for line in report(arguments.set, english=english, show=True):
        print(line)


if __name__ == "__main__":
    main()
