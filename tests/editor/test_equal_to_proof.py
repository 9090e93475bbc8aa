"""What an editor shows after any edits is what the command line finds in the same text."""

import random
from datetime import date

import pytest

from lint_rules.editor.checker import Checker
from lint_rules.editor.open_courses import OpenCourses
from lint_rules.editor.recent_language import RecentLanguage
from lint_rules.engine.cache.key_value_store import open_store
from lint_rules.engine.registry import load_rules
from lint_rules.finding import Severity
from lint_rules.reports.progress import progress
from lint_rules.session import Tools, proof_reports
from tests.commands.world import ONE, TWO, make_course, unit

LINES = (
    "The kite is flying high.",
    "",
    "::: teacher",
    ":::",
    "1. a kite\n2. two kites",
    "<!-- stet word-above-level: needed -->",
    "**Time:** 10 minutes",
    "### 2 Cut out a kite. {.make}",
    "## Lesson 2: More kites {.words}",
    "😀 An extraordinary kite\u2028is here.",
    "grammar: [present continuous]",
    "\ufeff",
    "\ud83d",
)


@pytest.fixture
def kit(language):
    with open_store(None) as kept, progress() as counts:
        yield Tools(load_rules(), language, None, date.today(), kept, (), counts)


@pytest.mark.parametrize("seed", range(4))
def test_equal_after_random_edits(seed, kit, tmp_path):
    root = make_course(tmp_path)
    held = Checker(kit, OpenCourses(kit.rules))
    held.kit = Tools(kit.rules, RecentLanguage(kit.language), None, kit.today, kit.kept, (), kit.progress)
    dice = random.Random(seed)
    lines = unit(1).split("\n")
    for _ in range(12):
        at = dice.randrange(len(lines) + 1)
        if dice.random() < 0.6:
            lines.insert(at, dice.choice(LINES))
        else:
            del lines[at : at + dice.randrange(1, 3)]
        text = "\n".join(lines)
        shown = held.check(root / ONE, text, {}, english=False)
        (root / ONE).write_bytes(_stored(text))
        (report,) = proof_reports([str(root / ONE)], kit, Severity.STOP)
        said = [(point.rule, point.severity, point.lead.span, point.message) for point in report.points]
        assert shown.report is not None
        assert [(p.rule, p.severity, p.lead.span, p.message) for p in shown.report.points] == said


def test_what_other_units_teach_is_heeded_as_soon_as_it_is_typed(kit, tmp_path):
    root = make_course(tmp_path)
    held = Checker(kit, OpenCourses(kit.rules))
    text = unit(1, "The kite is flying. I am looking up.")
    later = unit(2).replace("title: Kites 2", "title: Kites 2\ngrammar: [present continuous]")

    def rules(buffers):
        return {p.rule for p in held.check(root / ONE, text, buffers, english=False).report.points}

    assert "grammar-before-taught" not in rules({})
    assert "grammar-before-taught" in rules({root / TWO: later})
    assert "grammar-before-taught" not in rules({})


def _stored(text: str) -> bytes:
    """A text as an editor would save it: half characters become the replacement character."""
    return "".join("\ufffd" if "\ud800" <= char <= "\udfff" else char for char in text).encode("utf-8")
