"""A rule's page (its docstring) as plain paragraphs: the first says what it catches, the others why it matters."""

import inspect

from lint_rules.rule import RuleModule


def paragraphs_of(module: RuleModule) -> list[str]:
    """The paragraphs of a rule's page, each on one line."""
    parts = inspect.cleandoc(module.page).split("\n\n")
    return [" ".join(part.split()) for part in parts if part.strip()]


def summary_of(module: RuleModule) -> tuple[str, str]:
    """What a rule catches, and why that matters ('' where its page says no more)."""
    first, *rest = paragraphs_of(module)
    return first, rest[0] if rest else ""
