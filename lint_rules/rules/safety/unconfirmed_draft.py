"""A draft in the teacher's notes is still marked `[check]`: nobody has made it their own yet.

A drafted safety note is only a prompt. Before it reaches a teacher, a person who knows the class and the school's rules
reads it, changes what does not fit, and takes the mark out. Until then the draft stays open.
"""

import re
from collections.abc import Iterator

from lint_rules import lazy_re
from lint_rules.finding import Found, Severity
from lint_rules.manuscript.model import Audience
from lint_rules.rule import Example, Gather, Reading, Rule, Within

_MARK = lazy_re.compile(r"\[check\]", re.I)

RULE = Rule(
    name="unconfirmed-draft",
    family="safety",
    severity=Severity.QUERY,
    cure="Read the draft, fit it to the class and to the school's own rules, then take the mark [check] out.",
    passes=(
        Example("::: teacher\n**Safety:** Children sit down to cut. Follow your school's own rules.\n:::\n"),
        Example("::: teacher\n**Steps:** Children check their answers.\n:::\n", why="a word, not the mark"),
        Example("1. [check] the right box\n", why="a pupil's page"),
    ),
    fails=(
        Example("::: teacher\n**Safety:** «[check]» Use round-ended scissors and keep children seated.\n:::\n"),
        Example("::: teacher\n**Steps:** Play the song. «[Check]» Track 4.\n\nSay goodbye.\n:::\n"),
        Example("## Lesson 1: Kites\n\n::: teacher\n**Safety:** «[check]» Children sit down to cut.\n:::\n"),
    ),
    gathers=(
        Gather(
            Within.UNIT,
            says="{count} drafts in these notes wait for a person. Read each, fit it to the class and the school's own "
            "rules, then take its mark out.",
        ),
    ),
)


def find(reading: Reading) -> Iterator[Found]:
    """Report every mark in the teacher's notes."""
    for passage in reading.unit.passages:
        if passage.audience is not Audience.TEACHER:
            continue
        for match in _MARK.finditer(passage.text):
            yield Found(
                passage.span(match.start(), match.end()),
                match.group(),
                "This draft waits for a person: read it, fit it to the class and to the school's own rules, "
                "then take the mark out.",
            )
