"""Fenced divs as Pandoc's Markdown reads them.

A fence with attributes or one word opens a div; a bare fence closes the innermost; lengths do not matter; trailing
colons are allowed. The rule only places opening and closing marks; ``close_divs`` matches them afterwards, so that divs
may nest without end. Source: Pandoc User's Guide, 'Divs and Spans'; held against Pandoc itself in the tests.
"""

import re

from markdown_it.rules_block import StateBlock
from markdown_it.token import Token

from lint_rules import lazy_re
from lint_rules.manuscript.attributes import Braces, read_braces

DIV_OPEN, DIV_CLOSE = "div_open", "div_close"
_FENCE = lazy_re.compile(r":{3,}[ \t]*")
_BARE = lazy_re.compile(r":{3,}[ \t:]*$")
_WORD = lazy_re.compile(r"\S+")
_TRAILING = lazy_re.compile(r"[ \t]*:*[ \t]*$")
_VALUE = lazy_re.compile(r"""([^\W\d_][\w-]*)\s*=\s*(?:"([^"]*)"|'([^']*)'|([^\s{}"']+))""")
_CLASSES = lazy_re.compile(r"[^\W\d_][\w\-]*")


def div_fence(state: StateBlock, line: int, end_line: int, silent: bool) -> bool:
    """Block rule: a line that opens or closes a div."""
    start = state.bMarks[line] + state.tShift[line]
    if not state.src.startswith(":::", start) or state.is_code_block(line):
        return False
    if silent:
        return True
    text = state.src[start : state.eMarks[line]]
    braces, clear = read_fence(text)
    after_text = _after_text(state, line)
    token = state.push(DIV_CLOSE if braces is None else DIV_OPEN, "div", 0)
    token.map = [line, line + 1]
    token.meta = {"start": start, "braces": braces, "clear": clear, "after_text": after_text}
    state.line = line + 1
    return True


def read_fence(text: str) -> tuple[Braces | None, bool]:
    """Attributes of an opening fence (None: it closes), and whether Pandoc would read it as we do."""
    if _BARE.match(text):
        return None, True
    match = _FENCE.match(text)
    at = match.end() if match else 0
    braces = read_braces(text, at)
    if braces is None and (word := _WORD.match(text, at)) and not word[0].startswith("{"):
        braces = Braces(word.end(), classes=[word[0].lstrip(".")])
    dotted = text.startswith(".", at)  # to Pandoc the full stop is a part of the name
    if braces is not None and _TRAILING.match(text, braces.end) and not dotted:
        return braces, True
    if braces is None:  # braces that cannot be read: save the classes that can
        braces = Braces(len(text), classes=re.findall(r"\.([^\W\d_][\w\-]*)", text) or _CLASSES.findall(text)[:1])
    if not braces.values:  # and what is said of them, so that one slip is one finding
        braces.values |= {name: one or other or plain for name, one, other, plain in _VALUE.findall(text)}
    return braces, False


def as_meant(braces: Braces) -> str:
    """An opening fence as Pandoc reads it, with these attributes."""
    marks = [f"#{braces.identifier}"] if braces.identifier else []
    marks += [f".{name}" for name in braces.classes]
    marks += [
        f'{name}="{text}"' if re.search(r"\s", text) else f"{name}={text}" for name, text in braces.values.items()
    ]
    return f"::: {{{' '.join(marks)}}}"


def _after_text(state: StateBlock, line: int) -> bool:
    """Whether a paragraph, list or table stands on the line above, where Pandoc wants an empty line before a fence."""
    if not line or state.isEmpty(line - 1) or not state.tokens:
        return False
    return state.tokens[-1].type in ("paragraph_close", "bullet_list_close", "ordered_list_close", "blockquote_close")


def close_divs(tokens: list[Token]) -> tuple[list[Token], list[Token], list[Token]]:
    """Match the marks. Gives the tokens with every div closed, the openings that had no end, the surplus closings.

    A div ends at the latest with the item or quote it was opened in. One that nothing closes ends before the next
    heading of an activity, a lesson or a unit, so that one forgotten fence does not hide the rest of the file.
    """
    stack: list[int] = []
    floors = [0]
    ends: dict[int, int] = {}
    surplus: list[Token] = []
    dropped: set[int] = set()
    unclosed: list[int] = []
    for index, token in enumerate(tokens):
        if token.type == DIV_OPEN:
            stack.append(index)
        elif token.type == DIV_CLOSE and len(stack) > floors[-1]:
            ends[stack.pop()] = index
        elif token.type == DIV_CLOSE:
            surplus.append(token)
            dropped.add(index)
        elif token.type in ("list_item_open", "blockquote_open"):
            floors.append(len(stack))
        elif token.type in ("list_item_close", "blockquote_close"):
            floor = floors.pop()
            unclosed += stack[floor:]
            ends.update(dict.fromkeys(stack[floor:], index))
            del stack[floor:]
    end = len(tokens)
    for opening in reversed(stack):
        end = ends[opening] = _recover(tokens, opening, ends, end)
    unclosed += stack
    return _with_ends(tokens, ends, dropped), [tokens[index] for index in sorted(unclosed)], surplus


def _recover(tokens: list[Token], opening: int, ends: dict[int, int], end: int) -> int:
    """Where an unclosed div ends, given where the next unclosed one inside it does."""
    index = opening + 1
    while index < len(tokens):
        token = tokens[index]
        if token.type == "heading_open" and token.level == 0 and token.tag in ("h1", "h2", "h3"):
            return index
        if token.type == DIV_OPEN and ends[index] == end:
            return end
        index = max(index + 1, ends.get(index, 0))
    return len(tokens)


def _with_ends(tokens: list[Token], ends: dict[int, int], dropped: set[int]) -> list[Token]:
    """Put a closing mark where a div has none of its own."""
    missing: dict[int, list[int]] = {}
    for opening, end in ends.items():
        if end == len(tokens) or tokens[end].type != DIV_CLOSE:
            missing.setdefault(end, []).append(opening)
    result: list[Token] = []
    for index, token in enumerate([*tokens, None]):
        for _ in missing.get(index, ()):
            result.append(Token(DIV_CLOSE, "div", 0))
        if token is not None and index not in dropped:
            result.append(token)
    return result
