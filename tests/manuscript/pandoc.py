"""What Pandoc itself reads in a file: headings with attributes, divs with their nesting, and plain texts."""

import json
import subprocess
from dataclasses import dataclass, field
from functools import cache
from typing import Any

from lint_rules.manuscript.inline_text import read_plain
from lint_rules.manuscript.markdown import parse
from lint_rules.manuscript.model import PICTURE, Attributes, Unit
from lint_rules.source import Source

# Pandoc's Markdown without what our manuscripts do not have (typographic quotes, formulas, footnotes, citations,
# further kinds of lists and tables), and with CommonMark's ways where Pandoc can be told to follow them.
MARKDOWN = (
    "markdown-smart-auto_identifiers-implicit_figures-tex_math_dollars-raw_tex-latex_macros-footnotes-inline_notes"
    "-citations-subscript-superscript-strikeout-example_lists-startnum-line_blocks"
    "-grid_tables-multiline_tables-simple_tables-task_lists-raw_attribute-markdown_in_html_blocks-native_divs"
    "-native_spans-blank_before_header-blank_before_blockquote-implicit_header_references"
    "+lists_without_preceding_blankline"
)
COMMONMARK = (
    "commonmark_x-smart-gfm_auto_identifiers-tex_math_dollars-footnotes-subscript-superscript-strikeout-fancy_lists"
    "-task_lists-emoji-raw_attribute-implicit_header_references-alerts"
)

Attributed = tuple[str, tuple[str, ...], tuple[tuple[str, str], ...]]


@dataclass
class Seen:
    """Headings (level, attributes, text), divs (depth, attributes), and every other run of text, in file order."""

    headings: list[tuple[int, Attributed, str]] = field(default_factory=list)
    divs: list[tuple[int, Attributed]] = field(default_factory=list)
    texts: list[str] = field(default_factory=list)


@cache
def _pandoc() -> str:
    import pypandoc

    return str(pypandoc.get_pandoc_path())


def pandoc_reads(text: str, reader: str = MARKDOWN) -> Seen:
    """What Pandoc's own reader makes of a text."""
    done = subprocess.run(
        [_pandoc(), "-f", reader, "-t", "json"], input=text.encode(), capture_output=True, check=True, timeout=60
    )
    seen = Seen()
    _blocks(json.loads(done.stdout)["blocks"], seen, 0)
    return seen


def _attributed(attributes: list[Any]) -> Attributed:
    identifier, classes, values = attributes
    return identifier, tuple(classes), tuple((key, value) for key, value in values)


def _blocks(blocks: list[Any], seen: Seen, depth: int) -> None:
    for block in blocks:
        kind, content = block["t"], block.get("c")
        if kind in ("Para", "Plain"):
            _add(seen.texts, _text(content))
        elif kind == "Header":
            seen.headings.append((content[0], _attributed(content[1]), _text(content[2]).strip()))
        elif kind == "Div":
            seen.divs.append((depth, _attributed(content[0])))
            _blocks(content[1], seen, depth + 1)
        elif kind == "BlockQuote":
            _blocks(content, seen, depth)
        elif kind == "BulletList":
            for item in content:
                _blocks(item, seen, depth)
        elif kind == "OrderedList":
            for item in content[1]:
                _blocks(item, seen, depth)
        elif kind == "DefinitionList":
            for term, definitions in content:
                _add(seen.texts, _text(term))
                for definition in definitions:
                    _blocks(definition, seen, depth)
        elif kind == "Table":
            _, _, _, head, tables, _ = content
            rows = [*head[1], *(row for table in tables for row in table[3])]
            for row in rows:
                for cell in row[1]:
                    _blocks(cell[4], seen, depth)
        elif kind == "CodeBlock":
            _add(seen.texts, content[1])


def _add(texts: list[str], text: str) -> None:
    if text.strip():
        texts.append(text.strip())


def _text(inlines: list[Any]) -> str:
    parts: list[str] = []
    for inline in inlines:
        kind, content = inline["t"], inline.get("c")
        if kind == "Str":
            parts.append(content)
        elif kind in ("Space", "SoftBreak"):
            parts.append(" ")
        elif kind == "LineBreak":
            parts.append("\n")
        elif kind == "Code":
            parts.append(content[1])
        elif kind == "Image":
            parts.append(PICTURE)
        elif kind in ("Emph", "Strong", "Underline"):
            parts.append(_text(content))
        elif kind in ("Link", "Span"):
            parts.append(_text(content[1]))
    return "".join(parts)


def we_read(text: str, unit: Unit | None = None) -> Seen:
    """The same of our own reading of the blocks and inlines."""
    from lint_rules.manuscript.front_matter import front_matter_lines
    from lint_rules.manuscript.reading import read_unit

    source = Source("unit.md", text)
    unit = unit or read_unit(source)
    seen = Seen()
    depths: dict[int | None, int] = {None: -1}
    for index, div in enumerate(unit.divs):
        depths[index] = depths[div.parent] + 1
        seen.divs.append((depths[index], _ours(div.attributes)))
    level, braces = 0, None
    for token in parse(source, front_matter_lines(source)[0]).tokens:
        if token.type == "heading_open":
            level = int(token.tag[1])
        elif token.type == "inline":
            shown = read_plain(token).text
            braces = token.meta.get("braces")
            if level:
                attributes: Attributed = ("", (), ())
                if braces:
                    attributes = braces.identifier, tuple(braces.classes), tuple(braces.values.items())
                seen.headings.append((level, attributes, shown.strip()))
            else:
                _add(seen.texts, shown)
            level = 0
        elif token.type in ("fence", "code_block"):
            _add(seen.texts, token.content)
    return seen


def _ours(attributes: Attributes) -> Attributed:
    return attributes.identifier, attributes.classes, tuple(attributes.values.items())
