"""Blanks in a text: for a word (`____`), for some letters of one (`ch__se`, `h _ t`, `____ing`), with their hints."""

import re
from bisect import bisect_left
from collections.abc import Iterator

from lint_rules.page.exercises.model import Gap, Place

_BLANK = re.compile(r"_+(?:\s*_{2,})*")
# Letters and blanks run together: gr__n, _irl, ____ing. It begins where letters begin, and so looks once at each.
_TOKEN = re.compile(r"(?<![^\W\d_])[^\W\d_]*_+[^\W\d]*")
_SPACED = re.compile(r"(?<![^\s(])(?:[^\W\d_]|_+)(?:[ \u00a0](?:[^\W\d_]|_+)){2,}(?![^\s.,;)?!])")
_HALF_SPACED = re.compile(r"(?<![^\W\d])(?:[^\W\d]*(?<!_)_(?!_)[ \u00a0](?=_(?!_)))+[^\W\d]+")  # ch_ _se, _ _ _ _
# A word whose letters stand in groups between single lines: br _ ght, T _ _ sday, d_ _ ghter, _ wl.
_GROUPED = re.compile(
    r"(?<![^\W\d])(?:[^\W\d_]+(?=[ \u00a0]?_(?!_)))?"
    r"(?:[ \u00a0]?(?<!_)_(?!_)(?:[ \u00a0]?_(?!_))?(?:[ \u00a0]?[^\W\d_]+)?)+(?![\w])"
)
_DOTS = re.compile(r"(?<=\s)(?:…|\.{3,})|(?:…{2,}|\.{4,})")
_HINT = re.compile(r"[ \u00a0]*\(([^()\n]{1,40})\)")
_HINT_FIRST = re.compile(r"\(([^()\n]{1,40})\)\s*")
_LABEL_BEFORE = re.compile(r"[(\[]?\d{1,2}[)\].]?\s*$")


def gaps_in(place: Place, *, dots: bool = False, said: str = "") -> Iterator[Gap]:
    """The blanks of a range, in order. ``dots``: an ellipsis is one too (`She … a cat`); ``said`` is what the key says:
    it tells which letters belong to one word (`br _ ght`)."""
    text = place.passage.text
    found: list[Gap] = []
    spaced = [
        *(match.span() for match in _SPACED.finditer(text, place.start, place.end)),
        *(match.span() for match in _HALF_SPACED.finditer(text, place.start, place.end)),
    ]
    words = frozenset(re.findall(r"[^\W\d_]+", said))
    grouped = (_grouped(text, *match.span(), words) for match in _GROUPED.finditer(text, place.start, place.end))
    spaced += [one for one in grouped if one is not None]
    for span in sorted(spaced, key=lambda one: one[0] - one[1]):  # of two readings the longer
        word = Place(place.passage, *span)
        letters = set(shown_letters(word.text))
        if any(gap.place.start < word.end and word.start < gap.place.end for gap in found):
            continue
        if "_" in word.text and "___" not in word.text and (not letters or letters - {"I", "a", "A"}):
            found.append(Gap(word, word))
    found.sort(key=lambda gap: gap.place.start)
    starts, ends = [gap.place.start for gap in found], [gap.place.end for gap in found]  # of spaced words: apart
    for match in _TOKEN.finditer(text, place.start, place.end):
        before = bisect_left(starts, match.end()) - 1
        if before >= 0 and match.start() < ends[before]:
            continue
        here = Place(place.passage, *match.span())
        if any(char.isalpha() for char in here.text):
            found.append(Gap(here, here))
        elif len(here.text) > 1 or _stands_alone(text, *match.span()):
            blank = _BLANK.match(text, match.start(), place.end)
            found.append(Gap(Place(place.passage, match.start(), blank.end() if blank else match.end())))
    if dots and not found:
        found += [Gap(Place(place.passage, *match.span())) for match in _DOTS.finditer(text, place.start, place.end)][
            :1
        ]
    merged: list[Gap] = []
    for gap in sorted(found, key=lambda gap: gap.place.start):
        if not merged or gap.place.start >= merged[-1].place.end:
            merged.append(gap)
    for gap in merged:
        yield Gap(gap.place, gap.word, _hint(gap, place))


def _grouped(text: str, start: int, end: int, said: frozenset[str]) -> tuple[int, int] | None:
    """A word in groups of letters, without a whole word of its sentence that only stands beside it, by what the key
    says; None where it is one run (`_irl`), or where no word of the key can be it."""
    pieces = list(re.finditer(r"[^\W\d_]+|_", text[start:end]))
    spans = []
    for first, last in ((0, 0), (1, 0), (0, 1), (1, 1)):
        inner = pieces[first : len(pieces) - last]
        left = not first or (_is_whole(pieces[0][0]) and text[start + pieces[0].end()].isspace())
        right = not last or (_is_whole(pieces[-1][0]) and text[start + pieces[-1].start() - 1].isspace())
        if left and right and len(inner) > 1 and any(piece[0] != "_" for piece in inner):
            spans.append((start + inner[0].start(), start + inner[-1].end()))
    spans = [one for one in spans if " " in text[slice(*one)].replace("\u00a0", " ")]
    for one_each in (True, False):
        for one in spans:
            if any(fits(text[slice(*one)], word, one_each=one_each) for word in said):
                return one
    return None


def _is_whole(piece: str) -> bool:
    return piece != "_" and (len(piece) > 1 or piece in ("a", "A", "I"))


def _stands_alone(text: str, start: int, end: int) -> bool:
    return not text[max(0, start - 1) : start].strip() and not text[end : end + 1].strip(" .,;?!")


def _hint(gap: Gap, around: Place) -> Place | None:
    """What stands in brackets behind a blank; or at the very start of what it stands in."""
    text = around.passage.text
    behind = _HINT.match(text, gap.place.end, around.end)
    if behind is not None:
        return Place(around.passage, behind.start(1) - 1, behind.end())
    before = _HINT_FIRST.match(text, around.start, gap.place.start)
    if before is not None:
        return Place(around.passage, before.start(), before.end())
    return None


def shown_letters(word: str) -> str:
    """The letters that a word shows, in order."""
    return "".join(char for char in word if char.isalpha())


def fits(word: str, answer: str, *, one_each: bool) -> bool:
    """Whether a word with blanks can be an answer: its letters fit; ``one_each``: each blank is one letter."""
    squeezed = re.sub(r"[ \u00a0]", "", word)
    pattern = ""
    for part in re.findall(r"_+|[^_]", squeezed):
        pattern += (rf"\w{{{len(part)}}}" if one_each else r"\w+") if part.startswith("_") else re.escape(part)
    return re.fullmatch(pattern, answer.replace(" ", ""), re.I) is not None
