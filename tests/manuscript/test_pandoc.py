"""Our reading held against Pandoc's own (the program itself, from the package pypandoc_binary).

Headings with their attributes, divs with their nesting, and the plain text of every block are the same as those of
Pandoc's Markdown reader, over files written to be tricky and over generated ones. The inline text is also held against
Pandoc's CommonMark reader. Where the two truly differ, CommonMark rules the text; the differences we know of:

- Pandoc's Markdown wants an empty line above an opening fence; we open the div and ask for the line (a problem).
- A fence's braces may run over two lines in Pandoc; we want them on one (a problem says so).
- Pandoc's CommonMark reader matches fences by length and takes no colons behind them, unlike its Markdown.
- It also takes no `-`, no quotation marks with an escape, and no closing `##` before a heading's attributes.
- A comment that holds `<!--` is an unclosed one to us (it hides text that nobody meant to hide), a comment to both.
- An unclosed or surplus fence is text to Pandoc; we report it.
- `<!-- a -- > -->` is one comment to CommonMark and to us, and text to Pandoc's Markdown.
- A comment between the rows of a table or the items of a list ends neither for us.
- Comments behind a heading's attributes leave them attributes for us.
- Inside an ordered list in a quote written `>` without its space, Pandoc's Markdown counts indents otherwise.
- Four or more underscores (a gap) are never emphasis in Pandoc's Markdown and for us; in CommonMark they may be.
- Pandoc's CommonMark reader composes combining marks (Unicode NFC); both make one space of a tab.
"""

import re
import unicodedata
from pathlib import Path

import pytest
from hypothesis import assume, given, settings

from tests.manuscript.generated import Body, bodies, manuscript
from tests.manuscript.pandoc import COMMONMARK, MARKDOWN, pandoc_reads, we_read

TRICKY = sorted((Path(__file__).parent / "tricky").glob("*.md"))
EXAMPLE = sorted((Path(__file__).parents[2] / "example_manuscript").glob("*/*.md"))


def even(text: str) -> str:
    """A text without the differences that Pandoc makes of spaces and combining marks."""
    return unicodedata.normalize("NFC", re.sub(r"[ \t]+", " ", text))


@pytest.mark.parametrize("path", [*TRICKY, *EXAMPLE], ids=lambda path: f"{path.parent.name}/{path.stem}")
def test_a_file_reads_as_pandoc_reads_it(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    ours, pandocs = we_read(text), pandoc_reads(text, MARKDOWN)
    assert [(level, attributes, even(shown)) for level, attributes, shown in ours.headings] == [
        (level, attributes, even(shown)) for level, attributes, shown in pandocs.headings
    ]
    assert ours.divs == pandocs.divs
    assert [even(shown) for shown in ours.texts] == [even(shown) for shown in pandocs.texts]


@pytest.mark.parametrize("name", ["inline", "lists", "comments"])
def test_text_reads_as_commonmark(name: str) -> None:
    text = (Path(__file__).parent / "tricky" / f"{name}.md").read_text(encoding="utf-8")
    if name == "comments":  # a comment that begins a line takes the whole line in CommonMark; we read what follows it
        text = text.replace("<!----> Short.", "Short.")
    text = re.sub(r"It's _.*\n", "", text)  # four underscores are text in Pandoc's Markdown only
    assert [even(shown) for shown in we_read(text).texts] == [
        even(shown) for shown in pandoc_reads(text, COMMONMARK).texts
    ]


@settings(max_examples=40, deadline=None, derandomize=True)
@given(bodies())
def test_generated_files_read_as_pandoc_reads_them(body: Body) -> None:
    assume(not any(re.search(r">[^ >]", line) for line in body.lines if re.match(r"[> ]*>", line)))
    text = manuscript(body)
    ours, pandocs = we_read(text), pandoc_reads(text, MARKDOWN)
    assert ours.headings == pandocs.headings
    assert ours.divs == pandocs.divs
    assert [even(shown) for shown in ours.texts] == [even(shown) for shown in pandocs.texts]


@settings(max_examples=40, deadline=None, derandomize=True)
@given(bodies())
def test_generated_texts_read_as_commonmark(body: Body) -> None:
    assume(not any(":::" in line or re.match(r"#+ .* ## \{|#+ .*['\"]", line) for line in body.lines))
    text = manuscript(body)
    ours, commonmark = we_read(text), pandoc_reads(text, COMMONMARK)
    assert [even(shown) for shown in ours.texts] == [even(shown) for shown in commonmark.texts]
