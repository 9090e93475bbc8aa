"""What an author reads: at most two sentences and 35 words, in plain words, never twice the same disclaimer.

The limits are the house's own (common practice, no source): a message is read between two other things.
"""

import re
from pathlib import Path

import pytest

from lint_rules.engine.check import Result
from lint_rules.engine.registry import load_rules
from lint_rules.language.service import Language
from lint_rules.rule import RuleModule
from tests.support import run_example

RULES = load_rules()
MOST_WORDS = 35
MOST_SENTENCES = 2
# Their messages are being written anew with what they find.
PENDING = frozenset(("missing-safety-note", "sensitive-topic"))
# What is quoted is not said by the message itself: “Look! A kite.”, `::: art`, (5–10 minutes).
_QUOTED = re.compile(r"“[^”]*”|`[^`]*`|\([^()]*\)")
_JARGON = re.compile(r"\b(?:git|columns?|regex|pars(?:er|ing)|tokens?|strings?|null|lemmas?|Pandoc)\b")


def sentences(message: str) -> int:
    """Sentences of a message: ends of sentences outside what it quotes."""
    return len(re.findall(r"[.!?](?=\s|$)", _QUOTED.sub("x", message))) or 1


def words(message: str) -> int:
    return sum(any(char.isalnum() for char in word) for word in message.split())


def faults(message: str) -> list[str]:
    """What is wrong with a message."""
    found = []
    if words(message) > MOST_WORDS:
        found.append(f"{words(message)} words")
    if sentences(message) > MOST_SENTENCES:
        found.append(f"{sentences(message)} sentences")
    if match := _JARGON.search(message):
        found.append(f"jargon: {match[0]}")
    return found


def said_of(result: Result, rule: str) -> list[str]:
    """The messages of a rule's findings and points."""
    return [one.message for one in (*result.open, *result.points) if one.rule == rule]


@pytest.mark.parametrize(
    "module", [one for one in RULES if one.rule.name not in PENDING], ids=lambda module: module.rule.name
)
def test_messages_of_a_rule_are_short_and_plain(module: RuleModule, language: Language):
    wrong = {}
    for example in module.rule.fails:
        result = run_example(module, example, RULES, language)
        wrong |= {said: found for said in said_of(result, module.rule.name) if (found := faults(said))}
    assert wrong == {}


def test_messages_on_a_whole_draft_are_short_and_plain():
    draft = Path(__file__).parents[1] / "golden" / "first_draft.txt"
    said = re.findall(r"^\S+: (?:stop|query|note): (.*) \[([a-z-]+)\]$", draft.read_text("utf-8"), re.MULTILINE)
    assert len(said) > 50
    assert {message: faults(message) for message, rule in said if faults(message) and rule not in PENDING} == {}
