"""Exercises that a set taught, in other layouts: each is one that is caught, with its rule and words, or let alone."""

import re
from collections.abc import Mapping, Sequence
from typing import Any

from lint_rules.language.service import Language
from tests.exercises.measure import ABOUT_LEVEL, Exercise, findings_of

Caught = tuple[str, str, str]  # rule, words, activity
Said = Mapping[str, tuple[Sequence[Any], str]]


def said_of(caught: Sequence[Caught], left_alone: Sequence[str], language: Language) -> Said:
    """What is said of all of them, first those that are caught."""
    activities = [*(activity for _, _, activity in caught), *left_alone]
    some = [Exercise(f"{at:02}", activity, "", (), "A2", "") for at, activity in enumerate(activities)]
    return findings_of(some, language)


def assert_caught(said: Said, at: int, caught: Sequence[Caught]) -> None:
    """The fault is found at its words, and by no other rule."""
    rule, words, _ = caught[at]
    findings, text = said[f"{at:02}"]
    spans = [match.span() for match in re.finditer(re.escape(words), text)]
    at_words = [one for one in findings if any(one.span.start < end and start < one.span.end for start, end in spans)]
    assert rule in {finding.rule for finding in at_words}, findings
    assert {finding.rule for finding in findings if finding.rule not in ABOUT_LEVEL} == {rule}


def assert_left_alone(said: Said, at: int) -> None:
    """Nothing is said but of levels."""
    findings, _ = said[f"{at:02}"]
    assert [(one.rule, one.text) for one in findings if one.rule not in ABOUT_LEVEL] == []
