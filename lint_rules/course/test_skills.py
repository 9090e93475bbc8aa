"""`test_skills` in course.yaml: the skills that a test must ask for, some of them together."""

import re

from ruamel.yaml.nodes import Node, SequenceNode

from lint_rules.course.defaults import default_list
from lint_rules.course.nodes import NodeReader, one_of
from lint_rules.course.problem import did_you_mean

_SKILLS = ("listening", "speaking", "reading", "writing")


def default_skills(band: str) -> tuple[tuple[str, ...], ...]:
    """The parts of a test at a band where course.yaml says nothing."""
    return tuple(tuple(part.split(" and ")) for part in default_list("test_skills", band))


def read_skills(nodes: NodeReader, node: Node) -> tuple[tuple[str, ...], ...] | None:
    """`[listening, reading and writing, speaking]`; skills tested together may be a list in the list."""
    parts: list[tuple[str, ...]] = []
    for item in nodes.items(node, "test_skills", "[listening, reading and writing, speaking]"):
        members = item.value if isinstance(item, SequenceNode) else [item]
        names = [name for member in members for name in _names(nodes, member)]
        if names:
            parts.append(tuple(dict.fromkeys(names)))
    return tuple(parts) if isinstance(node, SequenceNode) else None


def _names(nodes: NodeReader, node: Node) -> list[str]:
    names = re.split(r"\s*(?:,|&|\band\b)\s*", nodes.text(node, "test_skills") or "")
    for name in names:
        if name and name not in _SKILLS:
            near = did_you_mean(name, _SKILLS) or f" It can be {one_of(_SKILLS)}."
            nodes.say(node, f"'{name}' is not a skill.{near}")
    return [name for name in names if name in _SKILLS]
