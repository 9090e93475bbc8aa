"""The house's policy for releases: read from a file outside the book, so that no book sets its own rules."""

from collections.abc import Sequence
from dataclasses import dataclass

from ruamel.yaml.nodes import Node, ScalarNode

from lint_rules.course.nodes import NodeReader
from lint_rules.course.problem import CourseProblem, did_you_mean
from lint_rules.source import Source

_KEYS = ("rules", "stets", "carried", "reason_words", "english", "since")
_MOST = 100_000  # of any figure
_ALL = "all"
_REQUIRED = "required"


@dataclass(frozen=True, slots=True)
class House:
    """What a house asks of every book.

    ``rules`` weigh what they weigh, whatever course.yaml says; at most ``stets`` findings are let stand and ``carried``
    carried over (None: any number); a stet's reason has at least ``reason_words`` words; ``english`` must be checked;
    ``since``: a release is compared with an earlier one.
    """

    rules: tuple[str, ...] = ()
    stets: int | None = None
    carried: int | None = None
    reason_words: int = 0
    english: bool = False
    since: bool = False


def read_house(source: Source, rule_names: Sequence[str]) -> tuple[House, tuple[CourseProblem, ...]]:
    """Read a policy: what it asks, and everything that is wrong with it. Any problem keeps a release away."""
    nodes = NodeReader(source)
    root = nodes.root()
    if root is None:
        if not nodes.problems:
            nodes.say(0, f"This policy is empty. It may have the keys {', '.join(_KEYS)}.")
        return House(), tuple(nodes.problems)
    entries = nodes.mapping(root, "the house's policy", _KEYS, {})

    def number(key: str) -> int | None:
        return nodes.integer(entries[key][1], key, 0, _MOST) if key in entries else None

    def required(key: str) -> bool:
        return key in entries and nodes.choice(entries[key][1], key, (_REQUIRED, "optional")) == _REQUIRED

    house = House(
        rules=_rules(nodes, entries["rules"][1], rule_names) if "rules" in entries else (),
        stets=number("stets"),
        carried=number("carried"),
        reason_words=number("reason_words") or 0,
        english=required("english"),
        since=required("since"),
    )
    return house, tuple(nodes.problems)


def _rules(nodes: NodeReader, node: Node, rule_names: Sequence[str]) -> tuple[str, ...]:
    if isinstance(node, ScalarNode) and node.value == _ALL:
        return tuple(rule_names)
    names = nodes.texts(node, "rules") or ()
    for name in names:
        if name not in rule_names:
            nodes.say(node, f"There is no rule '{name}'.{did_you_mean(name, rule_names)}")
    return names
