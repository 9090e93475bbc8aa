"""YAML with places: reads values out of ruamel.yaml's nodes and writes down every fault instead of raising it."""

import re
from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass, field

from ruamel.yaml.nodes import MappingNode, Node, ScalarNode, SequenceNode

from lint_rules import lazy_re
from lint_rules.course.problem import CourseProblem, did_you_mean, problem_at
from lint_rules.manuscript.yaml_text import YamlFault, read_yaml
from lint_rules.source import Source, whole_characters

_NULL, _INTEGER = "tag:yaml.org,2002:null", "tag:yaml.org,2002:int"
_LARGEST = 1_000_000  # characters; YAML is read slowly, and a course file has a few thousand
_RANGE = lazy_re.compile(r"\s*(\d{1,4})\s*(?:-|–|to)\s*(\d{1,4})\s*")

Entry = tuple[Node, Node]  # key and value


@dataclass
class NodeReader:
    """Reads one YAML file. ``problems`` grows as it is read; a value that is wrong reads as None."""

    source: Source
    problems: list[CourseProblem] = field(default_factory=list)

    def say(self, at: Node | int, message: str) -> None:
        """Write down a problem at a node, or at an offset of the file."""
        offset = at if isinstance(at, int) else at.start_mark.index
        self.problems.append(problem_at(self.source, offset, message))

    def root(self) -> Node | None:
        """The file's one node; None when the file is empty or is no YAML (a problem then)."""
        if len(self.source.text) > _LARGEST:
            self.say(0, "This file is far too large for a course file; is it the right one?")
            return None
        try:
            return read_yaml(self.source.text)
        except YamlFault as fault:
            self.say(fault.at, f"This is not YAML: {fault.cure}.")
            return None

    def mapping(self, node: Node, what: str, keys: Collection[str], elsewhere: dict[str, str]) -> dict[str, Entry]:
        """The entries of a mapping whose keys are known; empty values count as not given.

        ``what`` is what the mapping describes ('the course', 'a level'); ``elsewhere`` are keys that belong to another
        mapping, each with the advice to give.
        """
        found: dict[str, Entry] = {}
        for key, value in self.entries(node, what):
            if key.value in keys:
                found[key.value] = (key, value)
            else:
                advice = elsewhere.get(key.value) or f"'{key.value}' is not a key of {what}."
                self.say(key, advice + ("" if key.value in elsewhere else did_you_mean(key.value, keys)))
        return {key: entry for key, entry in found.items() if not is_empty(entry[1])}

    def entries(self, node: Node, what: str) -> list[Entry]:
        """The entries of a mapping whose keys are plain words, the first of each key; anything else is a problem."""
        if not isinstance(node, MappingNode):
            self.say(
                node, f"{what[0].upper()}{what[1:]} must be written as keys and values, one a line (`key: value`)."
            )
            return []
        first: dict[str, Node] = {}
        entries: list[Entry] = []
        for key, value in node.value:
            if not isinstance(key, ScalarNode):
                self.say(key, "A key must be a plain word.")
            elif key.value in first:
                line = self.source.position(first[key.value].start_mark.index).line
                self.say(key, f"'{key.value}' is already given in line {line}; keep one of the two.")
            else:
                first[key.value] = key
                entries.append((key, value))
        return entries

    def items(self, node: Node, name: str, example: str) -> list[Node]:
        """The items of a list."""
        if isinstance(node, SequenceNode):
            return list(node.value)
        self.say(node, f"'{name}' must be a list, e.g. {example}.")
        return []

    def text(self, node: Node, name: str) -> str | None:
        """A text: any scalar, as written."""
        if isinstance(node, ScalarNode) and not is_empty(node) and node.value.strip():
            return " ".join(whole_characters(node.value).split())
        self.say(node, f"A text is wanted here, for '{name}'.")
        return None

    def texts(self, node: Node, name: str) -> tuple[str, ...] | None:
        """A list of texts, each once, in the order written."""
        if isinstance(node, ScalarNode):
            self.say(node, f"'{name}' must be a list: {name}: [{node.value.strip() or '…'}].")
            return None
        items = [self.text(item, name) for item in self.items(node, name, f"{name}: [one, two]")]
        return tuple(dict.fromkeys(item for item in items if item is not None))

    def integer(self, node: Node, name: str, least: int, most: int) -> int | None:
        """A whole number from ``least`` to ``most``."""
        number = _integer(node)
        if number is not None and least <= number <= most:
            return number
        shown = f", not {_shown(node)}" if isinstance(node, ScalarNode) else ""
        if isinstance(node, ScalarNode) and node.style and node.value.isdecimal():
            shown = ", without quotation marks"
        self.say(node, f"'{name}' must be a whole number from {least} to {most}{shown}.")
        return None

    def hours(self, node: Node, name: str, least: int, most: int) -> float | None:
        """Hours from ``least`` to ``most``, halves and quarters too: `10.5`."""
        written = node.value if isinstance(node, ScalarNode) and not node.style else ""
        if re.fullmatch(r"[0-9]{1,5}\.[0-9]{1,2}", written) and least <= float(written) <= most:
            return float(written)
        return self.integer(node, name, least, most)

    def range(self, node: Node, name: str, least: int, most: int, example: str) -> tuple[int, int] | None:
        """Two whole numbers, the smaller first: `[35, 45]`, `35-45`, or one number for both."""
        pair = _pair(node)
        if pair is None:
            self.say(node, f"'{name}' must be two whole numbers, the smaller first, e.g. {name}: {example}.")
        elif pair[0] > pair[1]:
            self.say(node, f"'{name}' runs from {pair[0]} down to {pair[1]}; write the smaller number first.")
        elif not (least <= pair[0] and pair[1] <= most):
            self.say(node, f"'{name}' must lie between {least} and {most}, not {pair[0]}-{pair[1]}.")
        else:
            return pair
        return None

    def choice(self, node: Node, name: str, choices: Sequence[str]) -> str | None:
        """One of a few words."""
        if isinstance(node, ScalarNode) and node.value in choices:
            return str(node.value)
        shown = f", not {_shown(node)}" if isinstance(node, ScalarNode) else ""
        near = did_you_mean(node.value, choices) if isinstance(node, ScalarNode) and len(choices) > 4 else ""
        self.say(node, f"'{name}' must be {one_of(choices)}{shown}.{near}")
        return None


def is_empty(node: Node) -> bool:
    """Say whether nothing stands after the colon (or `~`, or `null`)."""
    return isinstance(node, ScalarNode) and node.tag == _NULL


def one_of(choices: Iterable[str]) -> str:
    """'stop, query, note or off'."""
    *first, last = choices
    return f"{', '.join(first)} or {last}" if first else last


def _integer(node: Node) -> int | None:
    if isinstance(node, ScalarNode) and node.tag == _INTEGER and re.fullmatch(r"[-+]?[0-9_]{1,12}", node.value):
        return int(node.value.replace("_", "")) if node.value.strip("-+_") else None
    return None


def _pair(node: Node) -> tuple[int, int] | None:
    if isinstance(node, SequenceNode) and len(node.value) == 2:
        low, high = (_integer(item) for item in node.value)
        return None if low is None or high is None else (low, high)
    if isinstance(node, ScalarNode) and (match := _RANGE.fullmatch(node.value)):
        return int(match[1]), int(match[2])
    number = _integer(node)
    return None if number is None else (number, number)


def _shown(node: ScalarNode) -> str:
    """A value as a message shows it: short, and in quotation marks unless it is a number."""
    value = " ".join(str(node.value).split())
    value = value if len(value) <= 40 else value[:39] + "…"
    return value if _integer(node) is not None else f"'{value}'"
