"""No unit breaks a rule: real units with lines lost, doubled, swapped and sprinkled with odd signs are proofed."""

from random import Random
from typing import ClassVar

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

from lint_rules.course.model import UnitPlan
from lint_rules.engine.check import Outcome
from lint_rules.engine.registry import load_rules
from lint_rules.language.service import Language
from lint_rules.source import Source
from tests.support import course_of, run_files
from tests.test_example_manuscript import DRAFT, EXAMPLE, HeardOneSlip

RULES = load_rules()
BOOKS = [
    {
        path.relative_to(top).as_posix(): path.read_text(encoding="utf-8")
        for path in (top / "course.yaml", *top.glob("words/*.csv"), *sorted(top.glob("level-*/*.md")))
    }
    for top in (DRAFT, EXAMPLE)
]
ODD = [
    *("\0", "\ufffc", "\u2028", "\u00a0", "\u200b", "\x1b", "\r", "\t", "😀", "e\u0301", "İ", "ß", "ﬁ", "²", "½", "٣"),
    *("____", "**", "*", "`", "|", "<!--", "-->", "[", "](", "{.", "}", "::", "::::", "\\", "&nbsp;", "&#0;", "<b>"),
    *("> ", "- ", "1. ", "a) ", "# ", "### ", "## ", "~~", ": ", ", ", " / ", "0", "-5", "9" * 30, "5–", "audio="),
    *("**Time:** ", "**Steps:** ", "**Safety:** ", "{.test}", "{.survey}", "{.odd-one-out}", "{.mind-map}"),
    *("{.picture-sentence}", "{.sounds sound=x}", "![](", "track 9", "lesson 0", "minutes"),
]


class Unspoilt:
    """Remembers what reading a book's units gave, but for the spoilt one, as long as no plan of a unit has changed."""

    kept: ClassVar[dict[tuple[int, tuple[UnitPlan, ...], Source], Outcome]] = {}

    def __init__(self, which: int, plans: tuple[UnitPlan, ...], spoilt_path: str) -> None:
        self.book = (which, plans)
        self.spoilt_path = spoilt_path

    def recall(self, source: Source) -> Outcome | None:
        return self.kept.get((*self.book, source))

    def keep(self, source: Source, outcome: Outcome) -> None:
        if source.path != self.spoilt_path:
            self.kept[*self.book, source] = outcome


def spoilt(text: str, random: Random) -> str:
    """The text after a few accidents."""
    lines = text.split("\n")
    for _ in range(random.randint(1, 6)):
        at, other = random.randrange(len(lines)), random.randrange(len(lines))
        inside = random.randint(0, len(lines[at]))
        match random.randint(0, 5):
            case 0:
                lines[at : at + random.randint(1, 5)] = [""]
            case 1:
                lines[at:at] = lines[other : other + random.randint(1, 8)]
            case 2:
                lines[at] = lines[at][:inside] + random.choice(ODD) * random.randint(1, 3) + lines[at][inside:]
            case 3:
                lines.insert(at, random.choice(ODD))
            case 4:
                lines[at], lines[other] = lines[other], lines[at]
            case _:
                lines[at] = lines[at][:inside]
    return random.choice(["\n", "\n", "\r\n", "\r"]).join(lines)


@pytest.mark.slow
@settings(
    max_examples=6, deadline=None, phases=[Phase.reuse, Phase.generate], suppress_health_check=[HealthCheck.too_slow]
)
@given(st.randoms(use_true_random=False), st.integers(0, 1))
def test_every_rule_reads_every_unit_and_points_into_its_file(language: Language, random: Random, which: int) -> None:
    book = BOOKS[which]
    path = random.choice([path for path in book if path.endswith(".md")])
    text = spoilt(book[path], random)
    files = {**book, path: text}
    plans = course_of(files, [module.rule.name for module in RULES]).plans
    result = run_files(files, RULES, language, english=HeardOneSlip(), memory=Unspoilt(which, plans, path))
    assert result.broken == ()
    for finding in result.findings:
        if finding.path == path:
            assert 0 <= finding.span.start <= finding.span.end <= len(text)
            in_gap = "_" in text[slice(*finding.span)]  # what is read in a gap is found at the gap
            if finding.rule != "picture-sentence-not-in-story" and not in_gap:  # its words are those of the pictures
                stored = iter(text[slice(*finding.span)])
                assert all(char in stored for char in finding.text if char.isascii() and char.isalnum())
