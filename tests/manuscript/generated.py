"""Manuscripts made up by hypothesis: known plain text under random markup, in random blocks.

A generated body is a list of lines and the texts that a reader must find in it, in order. Words hold no commas, colons
or brackets, so that no role (an option, a speaker, an entry) cuts them.
"""

from dataclasses import dataclass

from hypothesis import strategies as st

FRONT = [
    "---",
    "level: level-1",
    "unit: 1",
    "title: Made up",
    "---",
    "",
    "# Made up",
    "",
    "## Lesson 1: One",
    "",
    "### 1 Read.",
    "",
]

# Letters, digits inside words, apostrophes, accents as one character and as combining marks, emoji (also outside the
# Basic Multilingual Plane and joined ones), another script, a no-break space, punctuation that Markdown may escape.
_LETTERS = "abcdeghkmoprstuwyzABKTZéñ"
_ODD = ["e\u0301", "n\u0303", "🪁", "👩\u200d🏫", "☂\ufe0f", "日本", "ß", "'", "’", "-", "x\u00a0y", "ﬁ", "\u200b"]
_PUNCTUATION = ["!", "?", ".", "#", "*", "_", "<", ">", "&", "~", "$", "%", "+", "=", "@", "^", "`", "{", "}", "\\"]

letters = st.text(_LETTERS, min_size=1, max_size=6)


@dataclass(frozen=True)
class Word:
    """A word as a reader sees it and as it is stored."""

    text: str
    stored: str


@st.composite
def plain_words(draw: st.DrawFn) -> Word:
    word = draw(letters)
    if draw(st.integers(0, 4)) == 0:
        word += draw(st.sampled_from(_ODD)) + draw(letters)
    return Word(word, word)


@st.composite
def marked_words(draw: st.DrawFn, in_cell: bool = False) -> Word:
    """A word under some markup, or with markup inside it."""
    word = draw(plain_words()).text
    kind = draw(st.integers(0, 13))
    if kind == 0:
        mark = draw(st.sampled_from(["*", "**", "***", "_", "__"]))
        return Word(word, f"{mark}{word}{mark}")
    if kind == 1:  # emphasis inside a word
        before, after = draw(letters), draw(letters)
        mark = draw(st.sampled_from(["*", "**"]))
        inner = draw(letters)
        return Word(before + inner + after, f"{before}{mark}{inner}{mark}{after}")
    if kind == 2:
        code = draw(st.sampled_from(["x", "#233", "#x1F600", "amp", "eacute", "lt", "ngE"]))
        char = {"x": "x", "#233": "é", "#x1F600": "😀", "amp": "&", "eacute": "é", "lt": "<", "ngE": "≧̸"}[code]
        if code == "x":
            return Word(word, word)
        return Word(word + char + word, f"{word}&{code};{word}")
    if kind == 3:
        mark = draw(st.sampled_from(_PUNCTUATION))
        return Word(word + mark + "q", f"{word}\\{mark}q")
    if kind == 4:
        return Word(
            word, draw(st.sampled_from([f"[{word}](a/b.html)", f'[{word}](<a b> "t")', f"[{word}](x){{.c k=v}}"]))
        )
    if kind == 5:
        return Word(word, f"[{word}]{{.glossed}}")
    if kind == 6 and not word.startswith("`"):
        code = f"`{word}`" if draw(st.booleans()) else f"`` {word} ``"
        return Word(word, code)
    if kind == 7:
        tag = draw(st.sampled_from(["b", "i", "u", 'span class="x"']))
        return Word(word, f"<{tag}>{word}</{tag.split()[0]}>")
    if kind == 8:
        return Word(word, f"{word}<!-- a note -->")
    if kind == 9:
        url = f"http://a.b/{draw(st.text('abxy_', min_size=1, max_size=4))}%20z"
        return Word(url, f"<{url}>")
    if kind == 10:
        return Word("\ufffc", draw(st.sampled_from(["![a](a.png)", "![a *b*](a.png){.drawing}", '![](x.svg "t")'])))
    if kind == 11 and in_cell:
        return Word(f"{word}|{word}", f"{word}\\|{word}")
    if kind == 12:
        return Word(word + "😀" + word, f"**{word}**&#x1F600;*{word}*")
    return Word(word, word)


@dataclass(frozen=True)
class Body:
    """Lines of a manuscript, without line ends, and what a reader finds in them."""

    lines: list[str]
    texts: list[str]


@st.composite
def paragraphs(draw: st.DrawFn) -> Body:
    words = [draw(plain_words()), *draw(st.lists(marked_words(), max_size=9))]
    lines, text = [words[0].stored], words[0].text
    for word in words[1:]:
        gap = draw(st.integers(0, 7))
        if gap == 0:
            lines[-1] += draw(st.sampled_from(["", " "]))
            lines.append(draw(st.sampled_from(["", "", " ", "   "])) + "w " + word.stored)
            text += " w " + word.text
        elif gap == 1:
            lines[-1] += draw(st.sampled_from(["  ", "\\", "    "]))
            lines.append("w " + word.stored)
            text += "\nw " + word.text
        elif gap == 2:
            lines[-1] += "\t" + word.stored
            text += "\t" + word.text
        else:
            lines[-1] += " " + word.stored
            text += " " + word.text
    return Body(lines, [text])


@st.composite
def tables(draw: st.DrawFn) -> Body:
    columns = draw(st.integers(1, 4))
    lines, texts = [], []
    closed = draw(st.booleans()) or columns == 1
    for row in range(draw(st.integers(2, 4))):
        cells = []
        for _ in range(columns):
            if draw(st.integers(0, 5)) == 0:
                cells.append("" if closed else "&#8203;".replace("&#8203;", "x"))
                if not closed:
                    texts.append("x")
                continue
            words = [draw(plain_words()), *draw(st.lists(marked_words(in_cell=True), max_size=3))]
            cells.append(" ".join(word.stored for word in words))
            texts.append(" ".join(word.text for word in words))
        pad = draw(st.sampled_from(["", " ", "  "])) or (" " if columns == 1 else "")
        line = f"{pad}|{pad}".join(cells)
        lines.append(f"|{pad}{line}{pad}|" if closed else line)
        if row == 0:
            lines.append("|" + "---|" * columns)
    return Body(lines, texts)


def _joined(bodies: list[Body]) -> Body:
    lines: list[str] = []
    for body in bodies:
        lines += ["", *body.lines] if lines else body.lines
    return Body(lines, [text for body in bodies for text in body.texts])


@st.composite
def lists(draw: st.DrawFn, content: st.SearchStrategy[Body]) -> Body:
    mark = draw(st.sampled_from(["-", "*", "+", "1.", "7)", "-  ", "12. "]))
    first = mark if mark.endswith(" ") else mark + " "
    rest = " " * len(first)
    lines: list[str] = []
    texts: list[str] = []
    for _ in range(draw(st.integers(1, 3))):
        item = _joined([draw(paragraphs()), *draw(st.lists(content, max_size=2))])
        if lines and draw(st.booleans()):
            lines.append("")
        lines += [first + item.lines[0], *((rest + line if line else line) for line in item.lines[1:])]
        texts += item.texts
    return Body(lines, texts)


@st.composite
def definitions(draw: st.DrawFn, content: st.SearchStrategy[Body]) -> Body:
    lines: list[str] = []
    texts: list[str] = []
    for _ in range(draw(st.integers(1, 3))):
        term = draw(plain_words())
        meaning = _joined([draw(paragraphs()), *draw(st.lists(content, max_size=1))])
        lines += [""] if lines else []
        lines += [
            term.stored,
            ":   " + meaning.lines[0],
            *(f"    {line}" if line else line for line in meaning.lines[1:]),
        ]
        texts += [term.text, *meaning.texts]
    return Body(lines, texts)


@st.composite
def quotes(draw: st.DrawFn, content: st.SearchStrategy[Body]) -> Body:
    inner = _joined(draw(st.lists(content, min_size=1, max_size=3)))
    # A space after ">" belongs to the mark (CommonMark 0.31.2, 5.1), so a line that is set in needs one of its own.
    mark = "> " if any(line.startswith(" ") for line in inner.lines) else draw(st.sampled_from(["> ", ">"]))
    return Body([mark + line if line else ">" for line in inner.lines], inner.texts)


@st.composite
def divs(draw: st.DrawFn, content: st.SearchStrategy[Body]) -> Body:
    inner = _joined(draw(st.lists(content, min_size=1, max_size=3)))
    opening = draw(
        st.sampled_from(["::: box", ":::: {.speech key=v}", "::: {#a .box} :::", ":::box", "::: {.box k='v w'}"])
    )
    closing = draw(st.sampled_from([":::", ":::::"]))
    space = [""] if draw(st.booleans()) else []
    return Body([opening, *space, *inner.lines, *space, closing], inner.texts)


@st.composite
def titles(draw: st.DrawFn) -> Body:
    words = [draw(plain_words()), *draw(st.lists(marked_words(), max_size=4))]
    tail = draw(st.sampled_from(["", " {.x}", " ##", ' {#i .c k="v w"}', " <!-- note -->", " ## {.x}"]))
    line = draw(st.sampled_from(["#### ", "##### ", "###### "])) + " ".join(word.stored for word in words) + tail
    return Body([line], [" ".join(word.text for word in words)])


_LEAVES = st.one_of(paragraphs(), tables())
blocks = st.recursive(
    _LEAVES, lambda inner: st.one_of(lists(inner), quotes(inner), divs(inner), definitions(inner)), max_leaves=6
)


@st.composite
def bodies(draw: st.DrawFn) -> Body:
    """Some blocks, with a rule between lists so that they stay apart."""
    return _joined(draw(st.lists(st.one_of(blocks, titles()), min_size=1, max_size=4)))


def manuscript(body: Body, line_end: str = "\n") -> str:
    """The whole file."""
    return line_end.join([*FRONT, *body.lines, ""])
