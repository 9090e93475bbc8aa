"""Blanks in a text: for a word (`____`), for some letters of one (`ch__se`, `h _ t`, `____ing`), with their hints."""

import re
from collections.abc import Iterator

from lint_rules import lazy_re
from lint_rules.manuscript.model import PICTURE
from lint_rules.page.exercises.model import Gap, Place
from lint_rules.page.exercises.small_words import small_words

_BLANK = lazy_re.compile(r"_+(?:\s*_{2,})*")
# Letters and blanks run together: gr__n, _irl, ____ing. It begins where letters begin, and so looks once at each.
_TOKEN = lazy_re.compile(r"(?<![^\W\d_])[^\W\d_]*_+[^\W\d]*")
_SPACED = lazy_re.compile(r"(?<![^\s(])(?:[^\W\d_]|_+)(?:[ \u00a0-](?:[^\W\d_]|_+)){2,}(?![^\s.,;)?!])")
_HALF_SPACED = lazy_re.compile(r"(?<![^\W\d])(?:[^\W\d]*(?<!_)_(?!_)[ \u00a0](?=_(?!_)))+[^\W\d]+")  # ch_ _se, _ _ _ _
# A word whose letters stand in groups between single lines: br _ ght, T _ _ sday, d_ _ ghter, _ wl.
_GROUPED = lazy_re.compile(
    r"(?<![^\W\d])(?:[^\W\d_]+(?=[ \u00a0]?_(?!_)))?"
    r"(?:[ \u00a0]?(?<!_)_(?!_)(?:[ \u00a0]?_(?!_))?(?:[ \u00a0]?[^\W\d_]+(?:[ \u00a0][^\W\d_]+)?)?)+(?![\w])"
)
# All that an item has: letters of a word around a blank for some others, `t ____ n`, `si ____`, `____ en`.
_CUT_UP = lazy_re.compile(r"\s*(?P<left>[^\W\d_]{0,6})(?P<apart> ?)_{2,}(?: ?)(?P<right>[^\W\d_]{0,6})\s*")
# Bats live in it. c ____: the first letter of a word, behind what it means.
_CLUE = lazy_re.compile(r"(?<=[.!?:] )(?P<first>[^\W\d_])[ \u00a0]_{2,}(?=\s*$)")
# Letters that are no word, apart from the blank for the others: A bird can do this: fl ____ . It is n ____ t.
_APART = lazy_re.compile(
    r"(?<![\w’'])(?<!\s[^\W\d_][ \u00a0])(?P<left>(?:(?![aeiouy])[^\W\d_]){1,4})(?P<blank>[ \u00a0]_{2,})"
    r"(?:[ \u00a0](?P<right>[^\W\d_]{1,3})(?!\w))?",
    re.I,
)
_GROUP = lazy_re.compile(r"[a-z]{2}|[^aeiouy\W\d_]{3}|igh|ear|air|ure|dge", re.I)  # letters of a word
_PIECE = lazy_re.compile(r"[^\W\d_]+|_+|\S")
_MOST_PIECES = 24
_VOWEL = lazy_re.compile("[aeiouy]", re.I)
_FRAGMENT = 4  # letters of the longest piece that is no word by itself
_DOTS = lazy_re.compile(r"(?<=\s)(?:…|\.{3,})|(?:…{2,}|\.{4,})|^(?:…|\.{3})(?=\s[^.!?]+\?)")  # … Salim have to wait?
_HINT = lazy_re.compile(r"[ \u00a0]*\(([^()\n]{1,40})\)")
_HINT_FIRST = lazy_re.compile(r"\(([^()\n]{1,40})\)\s*")


def gaps_in(place: Place, *, dots: bool = False, said: str = "", in_company: bool = False) -> Iterator[Gap]:
    """The blanks of a range, in order. ``dots``: an ellipsis is one too (`She … a cat`); ``said`` is what the key says:
    it tells which letters belong to one word (`br _ ght`). ``in_company``: the items beside it have words cut up."""
    text = place.passage.text
    if not dots and text.find("_", place.start, place.end) < 0:
        return
    found: list[Gap] = []
    spaced = [
        *(match.span() for match in _SPACED.finditer(text, place.start, place.end)),
        *(match.span() for match in _HALF_SPACED.finditer(text, place.start, place.end)),
    ]
    words = frozenset(re.findall(r"[^\W\d_]+", said))
    clue = _CLUE.search(text, place.start, place.end)
    if clue is not None and any(one.casefold().startswith(clue["first"].casefold()) for one in words):
        word = Place(place.passage, *clue.span())
        found.append(Gap(word, word))
    for match in _APART.finditer(text, place.start, place.end):
        ends = [match.end(group) for group in ("right", "blank") if match[group] and _ends(match, group, words)]
        found += [Gap(word, word) for word in (Place(place.passage, match.start(), end) for end in ends[:1])]
    cut_up = cut_up_word(place, said, in_company=in_company) or _in_pieces(place, words)
    if cut_up is not None:
        spaced.append((cut_up.start, cut_up.end))
    grouped = (_grouped(text, *match.span(), words) for match in _GROUPED.finditer(text, place.start, place.end))
    spaced += [one for one in grouped if one is not None]
    for span in spaced:
        word = Place(place.passage, *span)
        if word == cut_up or ("_" in word.text and "___" not in word.text and _is_one_word(word, words)):
            found.append(Gap(word, word))
    for match in _TOKEN.finditer(text, place.start, place.end):
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
    for gap in sorted(found, key=lambda gap: (gap.place.start, -gap.place.end)):  # of two readings the longer
        if not merged or gap.place.start >= merged[-1].place.end:
            merged.append(gap)
    for gap in merged:
        yield Gap(gap.place, gap.word, _hint(gap, place))


def _ends(match: re.Match[str], group: str, said: frozenset[str]) -> bool:
    """Whether a word of the key begins with the letters before a blank, and ends with those behind it, if these are."""
    right = match["right"] if group == "right" else ""
    return any(fits(f"{match['left']}_{right}", one, one_each=False) for one in said)


def _is_one_word(word: Place, said: frozenset[str]) -> bool:
    """Whether letters and blanks one by one are one word. `a _ _ _ _` may be an article before one: it is the word's
    first letter where the key says so, or where it stands behind a whole sentence and no word fits the rest."""
    letters = set(shown_letters(word.text))
    if not letters or letters - {"I", "a", "A"} or any(fits(word.text, one, one_each=True) for one in said):
        return True
    rest = word.text.lstrip("aAI \u00a0")
    before = word.passage.text[: word.start].rstrip()
    begins = word.text[0].isalpha() and (not before or before[-1] in ".?!:–—→=" or not said)
    return begins and len(rest) > 1 and not any(fits(rest, one, one_each=True) for one in said)


def cut_up_word(place: Place, said: str = "", *, in_company: bool = False) -> Place | None:
    """The one word that a range is, where a blank with spaces stands for some of its letters: `t ____ n`. Told by a
    picture of the word, by the key (letters that are no word: `lun ____`, key `ch`), by a letter that is no word by
    itself, or by its company."""
    text = place.text.replace(PICTURE, " ")
    match = _CUT_UP.fullmatch(text)
    if match is None or not (match["left"] or match["right"]):
        return None
    left, right = match["left"], match["right"]
    if left in ("a", "A") and right and text[match.start("right") - 1] == "_":
        return None  # an article before a word: a ____ar, key st
    start = place.start + match.start("left")
    word = Place(place.passage, start, start + len(text[match.start("left") :].rstrip()))
    shown = [one.alt for one in place.passage.pictures if place.start <= one.at < place.end]
    pieces = [piece for piece in (left, right) if piece]
    small = all(piece.casefold() in small_words() or len(piece) > _FRAGMENT for piece in pieces)
    alone = len(pieces) > 1 and any(len(piece) == 1 and piece not in ("a", "A", "I", "O") for piece in pieces)
    fitting = any(fits(f"{left}_{right}", one, one_each=False) for one in re.findall(r"[^\W\d_]+", said))
    beside = bool(match["apart"]) and not fitting and said.strip().casefold() in small_words()  # `next ____`, key `to`
    ending = fitting and not left and re.fullmatch(r"\W*[^\W\d_]+\W*", said) is not None  # `____ icken`, key `chicken`
    fitting = fitting and (len(pieces) > 1 or not _VOWEL.search(pieces[0]))  # `stop ____`, key `stopped`, is a word
    short = len(pieces) > 1 and max(map(len, pieces)) < 3
    letters = short and re.fullmatch(r"[^\W\d_]{1,3}", said.strip()) is not None
    group = len(pieces) == 1 and _GROUP.fullmatch(said.strip()) is not None
    group = group and said.strip().casefold() not in small_words()
    if (
        any(_shows(one, left, right) for one in shown)
        or (not small and (fitting or letters or group or (in_company and not beside)))
        or alone
        or ending
    ):
        return word
    return None


def _in_pieces(place: Place, said: frozenset[str]) -> Place | None:
    """The one word that a range is, in pieces around single lines: `sp _ _ n`; where no word of the key fits it, the
    letters before its first line must be no word of their own (`my _ _ _`)."""
    text = place.text.strip()
    pieces = _PIECE.findall(text)
    single = all(piece == "_" or piece.isalpha() for piece in pieces)
    if not single or not 2 < len(pieces) <= _MOST_PIECES or " " not in text or "_" not in pieces:
        return None
    first = re.split("[ _]", text)[0].casefold()
    apart = first in small_words() or len(first) > _FRAGMENT
    if any(fits(text, one, one_each=True) for one in said) or not apart:
        start = place.start + place.text.index(text)
        return Place(place.passage, start, start + len(text))
    return None


def _shows(alt: str, left: str, right: str) -> bool:
    """Whether a picture of something shows the word: `a tin` for `t ____ n`."""
    return any(fits(f"{left}_{right}", one, one_each=False) for one in re.findall(r"[^\W\d_]+", alt))


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
    squeezed = re.sub(r"[ \u00a0-]", "", word)
    pattern = ""
    for part in re.findall(r"_+|[^_]", squeezed):
        pattern += (rf"\w{{{len(part)}}}" if one_each else r"\w+") if part.startswith("_") else re.escape(part)
    return re.fullmatch(pattern, re.sub(r"[ \u00a0-]", "", answer), re.I) is not None
