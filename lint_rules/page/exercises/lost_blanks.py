"""Blanks that Markdown has taken for marks of emphasis: in `br_ _d  sch_ _l` it sees *d  sch* between two underscores.

Where an underscore stands beside a stretch of emphasis, or within one of its words, no emphasis is meant but blanks:
the passage is read with its underscores back in their places. A page that is printed would lose them all the same.
In `3. * g g` it sees a list of one entry within the numbered one: the star is the first letter's blank.
"""

from array import array
from collections.abc import Sequence
from dataclasses import replace

from lint_rules import lazy_re
from lint_rules.manuscript.model import Item, Passage
from lint_rules.manuscript.paragraph_split import gaps
from lint_rules.source import Source, Span

_LINE = lazy_re.compile(r"_+")
_BLANKS = lazy_re.compile(r"_{2,}(?:[ \t]+_{2,})+")
_BULLETS = lazy_re.compile(r"[ \t]*(?P<label>\d{1,3})[.)][ \t]+(?P<signs>(?:[*+-][ \t]+)+)")
_LETTERS = lazy_re.compile(r"[^\W\d_](?: (?:[^\W\d_]|[*+-]))*")
_INSIDE = lazy_re.compile(r"[^\W\d_]_|_[^\W\d_]")


def with_blanks(passage: Passage, source: Source) -> Passage:
    """The passage with the underscores that were blanks; itself where there are none."""
    if _LINE.fullmatch(passage.text):
        return _as_written(passage, source)
    if not (passage.emphasis or passage.strong) or "_" not in source.text[passage.starts[0] : passage.ends[-1] + 2]:
        return passage
    lost = sorted(
        {at for ranges in (passage.emphasis, passage.strong) for one in ranges for at in _lost(passage, one, source)}
    )
    if not lost:
        return passage
    text: list[str] = []
    starts, ends = array("l"), array("l")
    done = 0
    for index, offset in lost:
        text.append(passage.text[done:index])
        starts.extend(passage.starts[done:index])
        ends.extend(passage.ends[done:index])
        text.append("_")
        starts.append(offset)
        ends.append(offset + 1)
        done = index
    text.append(passage.text[done:])
    starts.extend(passage.starts[done:])
    ends.extend(passage.ends[done:])
    whole = "".join(text)
    shift = sorted(index for index, _ in lost)
    pictures = tuple(replace(one, at=one.at + sum(at <= one.at for at in shift)) for one in passage.pictures)
    return replace(passage.bare(whole, starts, ends), gaps=gaps(whole), pictures=pictures)


def without_bullets(passages: Sequence[Passage], source: Source) -> dict[int, Passage]:
    """The words in letters one by one whose first sign Markdown has taken for a bullet, as they are meant, by identity
    of what they are read for: entries of the list that their number belongs to."""
    made: dict[int, Passage] = {}
    lists = [passage.item.list for passage in passages if passage.item is not None]
    for passage in passages:
        item = passage.item
        if item is None or item.label or item.parent is None or lists.count(item.list) > 1:
            continue
        begins = source.text.rfind("\n", 0, passage.starts[0]) + 1
        match = _BULLETS.fullmatch(source.text, begins, passage.starts[0])
        if match is None or not _LETTERS.fullmatch(passage.text):
            continue
        at = match.start("signs")
        signs = match["signs"]
        starts, ends = array("l", range(at, at + len(signs))), array("l", range(at + 1, at + 1 + len(signs)))
        outer, index = item.parent
        while outer not in lists and outer > 0 and len(signs.split()) > 1:
            outer -= 1  # `* * g`: a list in a list in the list
        index = index if outer == item.parent[0] else int(match["label"]) - 1
        number = Item(outer, index, match["label"], 0, None, Span(match.start("label"), match.end("label")))
        whole = passage.bare(signs + passage.text, starts + passage.starts, ends + passage.ends)
        made[id(passage)] = replace(whole, item=number)
    return made


def _as_written(passage: Passage, source: Source) -> Passage:
    """A line of blanks alone, with all of them: to Markdown `____ ____ ____` is one line across the page."""
    start = passage.block.start
    written = source.text[start : passage.block.end]
    start += len(written) - len(written.lstrip())
    written = written.strip()
    if not _BLANKS.fullmatch(written) or written == passage.text:
        return passage
    starts = array("l", range(start, start + len(written)))
    ends = array("l", range(start + 1, start + 1 + len(written)))
    return replace(passage, text=written, starts=starts, ends=ends, gaps=gaps(written))


def _lost(passage: Passage, around: tuple[int, int], source: Source) -> list[tuple[int, int]]:
    """The underscores around a stretch of emphasis that are blanks: where they go in the text, and their offsets."""
    start, end = around
    opening, closing = passage.starts[start], passage.ends[end - 1]
    before = after = 0
    while source.text[opening - 1 - before : opening - before] == "_":
        before += 1
    while source.text[closing + after : closing + after + 1] == "_":
        after += 1
    if not before or not after:
        return []
    outside = source.text[max(0, opening - before - 2) : opening - before]
    behind = source.text[closing + after : closing + after + 2]
    inside = passage.text[start:end]
    beside = outside.endswith("_ ") or behind.startswith(" _") or outside[-1:].isalnum() or behind[:1].isalnum()
    if not beside and not _INSIDE.search(inside):
        return []
    return [(start, opening - before + at) for at in range(before)] + [(end, closing + at) for at in range(after)]
