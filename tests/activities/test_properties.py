"""Whatever stands in an activity, the activity rules neither break nor point outside the file."""

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lint_rules.engine.example import assemble
from lint_rules.engine.registry import load_rules
from lint_rules.language.tokens import Analysis, Reference, Token
from lint_rules.manuscript.model import Passage
from lint_rules.manuscript.reading import read_unit
from lint_rules.rule import Example, Reading
from lint_rules.source import Source
from tests.support import course_of, no_english

RULES = [module for module in load_rules() if module.rule.family == "activities"]
WORDS = "cat,noun,animals\nhen,noun,animals\nred,adjective,colours\nrain,noun,weather|things\nice cream,noun,food\n"
COURSE = course_of(assemble(Example("", words=WORDS)).files)
MARKS = r"""the is in , . ! ? : / | ____ ( ) “ ” " ' ’ – * ** \ 1. 2. a) - > # #### ::: é 🐈 &amp; |---|---|"""
BLOCKS = """cat hen red rain ice cream Mina ![a*cat](c.svg) ![](x) ![image](<a*b>){.photo} :::*teacher :::*art :::*words
    :::*answers :::*{.audio}"""
BREAKS = [" ", "\n", "\n\n", "\n- ", "\n  - ", "\n1. ", "\n| a | ", " | b |\n", "\n|---|---|\n", "\u2028", "\t"]
PIECES = st.sampled_from([*MARKS.split(), *BLOCKS.split(), *BREAKS])
KINDS = st.sampled_from(
    [
        "survey",
        "picture-sentence",
        "odd-one-out",
        "mind-map",
        "story",
        'sounds sound="æ" spelling="a"',
        "sounds sound=x",
    ]
)
ACTIVITIES = st.lists(st.tuples(KINDS, st.lists(PIECES, max_size=25)), min_size=1, max_size=3)


def naive(passage: Passage) -> Analysis:
    """Words and marks, without any grammar."""
    nothing = Reference("", "")
    return Analysis(
        tuple(
            Token(m.start(), m.end(), m[0], m[0].lower(), "NOUN", "NN", "ROOT", 0, nothing)
            for m in re.finditer(r"\w+|[^\w\s]", passage.text)
        ),
        (),
        (),
    )


@pytest.mark.parametrize("module", RULES, ids=[module.rule.name for module in RULES])
@settings(max_examples=60, deadline=None)
@given(activities=ACTIVITIES)
def test_no_activity_breaks_a_rule(module, activities):
    body = "".join(
        f"### {number} Ask three friends. {{.{kind}}}\n\n{' '.join(pieces).replace('*', ' ')}\n\n"
        for number, (kind, pieces) in enumerate(activities, start=1)
    )
    files = assemble(Example(body)).files
    source = Source("level-1/unit-01.md", files["level-1/unit-01.md"])
    reading = Reading(read_unit(source), COURSE, COURSE.levels[0], naive, no_english)
    for found in module.find(reading):
        assert 0 <= found.span.start <= found.span.end <= len(source.text)
        assert found.message
        assert "\ufffc" not in found.message + found.text
