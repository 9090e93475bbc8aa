"""Who speaks in a script, set off in the ways that houses do (common practice, no source)."""

import pytest

from lint_rules.manuscript.model import Role
from lint_rules.manuscript.reading import read_unit
from lint_rules.source import Source

FRONT = (
    "---\nlevel: level-1\nunit: 1\ntitle: A\n---\n\n# A\n\n## Lesson 1: A {.words}\n\n"
    "### 1 Listen. {.listening audio=1.1}\n\n"
)
TURNS = [("MINA", "Is it a kite?"), ("TEO", "No, a hat.")]


def script_of(script: str) -> list[tuple[str, str]]:
    unit = read_unit(Source("level-1/unit-01.md", f"{FRONT}::: {{.audio track=1.1}}\n{script}\n:::\n"))
    return [(passage.speaker, passage.text) for passage in unit.passages if passage.role is Role.TURN]


@pytest.mark.parametrize(
    "script",
    [
        "MINA: Is it a kite?\n\nTEO: No, a hat.",
        "**MINA:** Is it a kite?\n\n**TEO:** No, a hat.",
        "MINA – Is it a kite?\n\nTEO – No, a hat.",
        "*MINA* — Is it a kite?\n\n*TEO* — No, a hat.",
        "- MINA – Is it a kite?\n- TEO – No, a hat.",
        "| Speaker | Script |\n|---|---|\n| MINA | Is it a kite? |\n| TEO | No, a hat. |",
        "| MINA | Is it a kite? |\n|---|---|\n| TEO | No, a hat. |",
        "| | |\n|---|---|\n| **MINA** | Is it a kite? |\n| **TEO:** | No, a hat. |",
        "MINA\n:   Is it a kite?\n\nTEO\n:   No, a hat.",
        "| MINA: Is it a kite?\n| TEO: No, a hat.",
    ],
)
def test_a_speaker_is_read_however_the_name_is_set_off(script):
    assert script_of(script) == TURNS


@pytest.mark.parametrize("script", ["Look – a kite!", "One – two – three.", "A kite\n:   flies.", "10 – Go!"])
def test_a_dash_alone_makes_nobody_speak(script):
    assert [text for _, text in script_of(script) if text in ("a kite!", "two – three.", "Go!")] == []
