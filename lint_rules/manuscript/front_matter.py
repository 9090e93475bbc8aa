"""The YAML at the top of a unit: level, unit, title, topics, grammar, and where in the file each value stands."""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

from ruamel.yaml.nodes import MappingNode, Node, ScalarNode, SequenceNode

from lint_rules import lazy_re
from lint_rules.manuscript.model import FrontMatter, Problem
from lint_rules.manuscript.yaml_text import YamlFault, read_yaml
from lint_rules.source import Source, Span, whole_characters

KEYS = ("level", "unit", "title", "topics", "grammar")
_EXAMPLE = "`---`, `level: level-1`, `unit: 1`, `title: The title`, `---`"
_OPENING = lazy_re.compile(r"---[ \t]*(?:\r\n|\n|\r|$)")
_CLOSING = lazy_re.compile(r"^(?:---|\.\.\.)[ \t]*$")
_CLOSING_LINE = lazy_re.compile(r"(?:\r\n|\n|\r)(?:---|\.\.\.)[ \t]*(?:\r\n|\n|\r|\Z)")


@dataclass(frozen=True, slots=True)
class Value:
    """A scalar of the YAML and where it stands."""

    text: str
    span: Span


Entry = Value | tuple[Value, ...] | None  # None: neither a text nor a list of texts
Table = dict[str, tuple[Entry, Span]]


def front_matter_lines(source: Source) -> tuple[int, bool]:
    """How many lines (from the first) the front matter takes, and whether it is closed. 0 lines: there is none."""
    if not _OPENING.match(source.text):
        return 0, True
    empty = 0  # the first empty line
    for line in range(2, len(source.line_starts) + 1):
        text = source.line_text(line)
        if _CLOSING.match(text):
            return line, True
        if not text.strip():
            empty = empty or line
        elif empty and text.startswith("## "):
            return empty - 1, False  # a lesson: the closing line was forgotten
    return (empty - 1 if empty else len(source.line_starts)), False


def _head(source: Source) -> Source:
    """The part of a file that holds its front matter: the rest need not be split into lines."""
    closing = _CLOSING_LINE.search(source.text)
    return source if closing is None else Source(source.path, source.text[: closing.end()], source.bom)


@lru_cache(maxsize=128)  # a run asks twice: what does each unit of the course teach; what does this unit say
def read_front_matter(source: Source) -> tuple[FrontMatter, tuple[Problem, ...]]:
    """Read the front matter of a unit file. Never raises; what is wrong is a Problem."""
    source = _head(source)
    lines, closed = front_matter_lines(source)
    if not lines:
        at = Span(0, source.line_span(1).end)
        what = "This unit does not begin with its front matter" if source.text.strip() else "This file is empty"
        message = f"{what}. Put these lines at the very top, with this unit's own values: {_EXAMPLE}."
        return FrontMatter(span=Span(0, 0)), (Problem(at, message),)
    block = Span(0, source.line_span(lines).end)
    problems: list[Problem] = []
    if not closed:
        problems.append(
            Problem(source.line_span(1), "The front matter is not closed. Write a line --- under its last entry.")
        )
    start = source.line_starts[1] if len(source.line_starts) > 1 else len(source.text)
    end = source.line_starts[lines - 1] if closed else block.end
    table = _parsed(source, Span(start, max(start, end)), problems)
    if table is None:
        return FrontMatter(span=block), tuple(problems)
    if not closed and not table:
        return FrontMatter(span=block), tuple(problems)
    return _front_matter(table, source, block, problems)


def _parsed(source: Source, span: Span, problems: list[Problem]) -> Table | None:
    """Read the block with ruamel.yaml; None (and a problem with its place) when it does not parse."""
    try:
        root = read_yaml(source.slice(span))
    except YamlFault as fault:
        at = min(span.start + fault.at, len(source.text))
        line = source.line_span(source.position(at).line)
        message = f"The front matter cannot be read as YAML here: {fault.cure}."
        problems.append(Problem(Span(min(at, line.end), line.end), message))
        return None
    if root is None:
        return {}
    if not isinstance(root, MappingNode):
        message = f"The front matter holds no `key: value` lines. It should be these lines: {_EXAMPLE}."
        problems.append(Problem(span, message))
        return None
    table: Table = {}
    for key, value in root.value:
        name = key.value if isinstance(key, ScalarNode) else ""
        if name in table:
            message = f"`{name}` stands twice in the front matter. The first one counts; take the other out."
            problems.append(Problem(_span(key, source, span.start), message, blocks=False))
            continue
        table[name] = _entry(value, source, span.start), _span(value, source, span.start)
    return table


def _span(node: Node, source: Source, offset: int) -> Span:
    start, end = offset + node.start_mark.index, offset + node.end_mark.index
    return Span(start, start + len(source.text[start:end].rstrip()))


def _entry(node: Node, source: Source, offset: int) -> Entry:
    if isinstance(node, ScalarNode):
        return Value(whole_characters(node.value), _span(node, source, offset))
    if isinstance(node, SequenceNode) and all(isinstance(item, ScalarNode) for item in node.value):
        return tuple(Value(whole_characters(item.value), _span(item, source, offset)) for item in node.value)
    return None


def _front_matter(
    table: Table, source: Source, block: Span, problems: list[Problem]
) -> tuple[FrontMatter, tuple[Problem, ...]]:
    first_line = source.line_span(1)
    level = _text(table, "level", "the folder of its level, e.g. `level: level-1`", first_line, problems)
    title = _text(table, "title", "the unit's title, e.g. `title: A windy day`", first_line, problems)
    number = _text(table, "unit", "the unit's number, e.g. `unit: 4`", first_line, problems)
    unit = 0
    if number and re.fullmatch(r"[0-9]{1,9}", number.text) and int(number.text) > 0:
        unit = int(number.text)
    elif number:
        message = f"`unit: {number.text}` is no unit number. Write a whole number from 1, e.g. `unit: 4`."
        problems.append(Problem(number.span, message))
    topics = _list(table, "topics", problems)
    grammar = _whole(source, _list(table, "grammar", problems))
    return (
        FrontMatter(
            level=level.text if level else "",
            unit=unit,
            title=title.text if title else "",
            topics=tuple(value.text for value in topics),
            grammar=tuple(value.text for value in grammar),
            spans={name: table[name][1] if name in table else block for name in KEYS},
            grammar_spans=tuple(value.span for value in grammar),
            others=tuple(_others(table, source.slice(block), block.start)),
            span=block,
        ),
        tuple(problems),
    )


def _others(table: Table, block: str, start: int) -> Iterator[tuple[str, Span]]:
    for name in (name for name in table if name not in KEYS):
        written = re.search(rf"^[\"']?({re.escape(name)})[\"']?\s*:", block, re.M) if name else None
        if written:
            yield name, Span(start + written.start(1), start + written.end(1))


def _text(table: Table, key: str, what: str, first_line: Span, problems: list[Problem]) -> Value | None:
    entry, span = table.get(key, (Value("", first_line), first_line))
    if isinstance(entry, Value):
        text = " ".join(entry.text.split())
        if text and text not in ("~", "null"):
            return Value(text, entry.span)
        message = f"The front matter does not say `{key}`: {what}. Add that line."
        problems.append(Problem(span, message))
        return None
    problems.append(Problem(span, f"`{key}` must be one value: {what}."))
    return None


def _list(table: Table, key: str, problems: list[Problem]) -> tuple[Value, ...]:
    entry, span = table.get(key, ((), Span(0, 0)))
    if entry is None:
        problems.append(Problem(span, f"`{key}` must be a list of words: `{key}: [one, two]`.", blocks=False))
        return ()
    if isinstance(entry, Value):
        return tuple(_split(entry))
    return tuple(value for value in entry if value.text.strip())


def _whole(source: Source, values: tuple[Value, ...]) -> tuple[Value, ...]:
    """The entries of a list with those put together that YAML cut inside brackets: prepositions (in, on, under)."""
    found: list[Value] = []
    for value in values:
        last = found[-1] if found else None
        if last is not None and last.text.count("(") > last.text.count(")"):
            span = Span(last.span.start, value.span.end)
            found[-1] = Value(source.slice(span), span)
        else:
            found.append(value)
    return tuple(found)


def _split(value: Value) -> list[Value]:
    """A list written without its brackets: `weather, clothes`."""
    if value.text.strip() in ("", "~", "null"):
        return []
    if value.span.end - value.span.start != len(value.text):  # quoted or folded: the whole value is the place
        return [Value(part.strip(), value.span) for part in value.text.split(",") if part.strip()]
    return [
        Value(match[0], Span(value.span.start + match.start(), value.span.start + match.end()))
        for match in re.finditer(r"[^\s,](?:[^,]*[^\s,])?", value.text)
    ]
