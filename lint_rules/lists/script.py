"""The recording script for the studio: tracks with their voices and lengths, then every line to be spoken."""

from collections import Counter
from collections.abc import Iterator, Sequence

from lint_rules import lazy_re
from lint_rules.lists.book import PLACE, BookOfUnits, Cell, Column, Spot, Table, joined, one_line, spots
from lint_rules.manuscript.counting import count_words
from lint_rules.manuscript.model import Audience, DivKind, Passage, Unit

WORDS_A_MINUTE = 100  # slow, clear speech for young learners: common practice, no source
PAUSE = 1.5  # seconds after each turn: common practice, no source

_SOUND = lazy_re.compile(r"\[([^\]]+)\]|\(([^)]+)\)")
_TRACKS = (
    Column("track", 8),
    *PLACE,
    Column("voices (words)", 40),
    Column("sounds to make", 32),
    Column("words", 7),
    Column("about", 8),
)
_LINES = (Column("track", 8), Column("line", 5), Column("voice", 14), Column("text", 80))


def script(book: BookOfUnits) -> Iterator[Table]:
    """The tracks in file order, then their lines."""
    tracks = [one for spot in spots(book) for one in _tracks(spot)]
    yield Table(
        "Tracks",
        _TRACKS,
        tuple(_track_row(*track) for track in tracks),
        f"Length at {WORDS_A_MINUTE} words a minute and {PAUSE:g} seconds after each turn (common practice).",
    )
    yield Table("Script", _LINES, tuple(row for track in tracks for row in _line_rows(*track)))


def _tracks(spot: Spot) -> Iterator[tuple[str, Spot, Sequence[Passage]]]:
    unit = spot.of.unit
    for index in spot.part.divs:
        div = unit.divs[index]
        if div.kind is DivKind.AUDIO:
            lines = [p for p in spot.part.passages if p.audience is Audience.LISTENER and _inside(unit, p, index)]
            yield div.attributes.values.get("track", ""), spot, lines


def _inside(unit: Unit, passage: Passage, div: int) -> bool:
    at = passage.div
    while at is not None and at != div:
        at = unit.divs[at].parent
    return at == div


def _track_row(track: str, spot: Spot, lines: Sequence[Passage]) -> tuple[Cell, ...]:
    words: Counter[str] = Counter()
    sounds: list[str] = []
    for line in lines:
        words[line.speaker] += count_words(_spoken(line.text))
        sounds += [one_line(match[1] or match[2]) for match in _SOUND.finditer(line.text)]
    total = words.total()
    voices = [f"{voice or 'a voice'} ({count})" for voice, count in words.items() if count]
    seconds = round(total * 60 / WORDS_A_MINUTE + PAUSE * len(lines))
    return (track, *spot.cells, joined(voices), joined(sounds), total, f"{seconds // 60}:{seconds % 60:02}")


def _line_rows(track: str, _: Spot, lines: Sequence[Passage]) -> Iterator[tuple[Cell, ...]]:
    for number, line in enumerate(lines, start=1):
        yield track, number, line.speaker, one_line(line.text)


def _spoken(text: str) -> str:
    return _SOUND.sub(" ", text)
