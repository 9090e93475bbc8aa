"""Count what each check of the English checker says, to see which deserve to be listened to (``english_checks.csv``).

    python -m tests.english.checks URL

For each check that says anything: its alarms on the lines of course English in ``tests/safety`` (no slip was meant
there, so nearly all are false), and how many of the slips of the first three proofreaders it sees; the fourth's measure
(``tests.english.measure``) and are not looked at. Then the same of our own patterns (``page_slips``).
"""

import json
import sys
from collections import Counter
from collections.abc import Iterator, Sequence

from lint_rules.english.alarms import listens_to
from lint_rules.english.client import EnglishClient
from lint_rules.language.pipeline import SpacyLanguage
from lint_rules.language.service import English, Mode, Request
from lint_rules.unit_language.page_slips import page_slips
from tests.english.measure import PROOFREAD
from tests.safety.labelled import ACTIVITIES, unmarked

_VARIETY = "en-GB"
_LEARNT_FROM = ("first", "second", "third")
_SLACK = 2  # characters beside a slip that an alarm may stand
_OURS = "page_slips"

Said = tuple[str, int, int]  # what says it, and the range


def _clean() -> list[str]:
    """Every line of course English of the data on safety and topics, once."""
    files = [*sorted(ACTIVITIES.glob("lines-*.jsonl")), *sorted((ACTIVITIES.parent / "topics").glob("topics-*.jsonl"))]
    rows = (json.loads(line) for path in files for line in path.read_text("utf-8").splitlines())
    return list(dict.fromkeys(unmarked(row["line"])[0] for row in rows))


def _slips() -> list[tuple[str, tuple[int, int]]]:
    files = (PROOFREAD / f"{name}.jsonl" for name in _LEARNT_FROM)
    return [unmarked(json.loads(line)["line"]) for path in files for line in path.read_text("utf-8").splitlines()]


def _said(texts: Sequence[str], english: English) -> Iterator[list[Said]]:
    """What is said of each text: by the checker's checks, and by our own patterns."""
    analyses = SpacyLanguage().analyse([Request(text, Mode.TEXT, ()) for text in texts])
    for matches, analysis in zip(english.check(texts, _VARIETY), analyses, strict=True):
        theirs = [(one.rule, one.start, one.end) for one in matches]
        yield theirs + [(_OURS, one.start, one.end) for one in page_slips(analysis, _VARIETY)]


def main() -> None:
    english = EnglishClient(sys.argv[1], direct=False)
    clean, slips = _clean(), _slips()
    alarms = Counter(name for said in _said(clean, english) for name, _, _ in said)
    hits: Counter[str] = Counter()
    for (_, (left, right)), said in zip(slips, _said([text for text, _ in slips], english), strict=True):
        hits.update({name for name, start, end in said if start < right + _SLACK and end > left - _SLACK})
    print(f"{len(clean)} lines, {len(slips)} slips\nalarms  slips seen")
    for name in sorted(alarms.keys() | hits.keys(), key=lambda one: (-hits[one], alarms[one], one)):
        ours = "ours" if name == _OURS else "listened to" if listens_to(name) else ""
        print(f"{alarms[name]:6}  {hits[name]:10}  {name}  {ours}")


if __name__ == "__main__":
    main()
