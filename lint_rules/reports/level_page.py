"""What `hornbook level` prints: the text itself with what asks most of a child marked, and why; or, for other programs,
a JSON object a line. Text in, text out."""

import json
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

from lint_rules.course.model import CEFR_BANDS, Course, Level, band_rank
from lint_rules.language.demands import Demands, Sentence, demands, weighed_band
from lint_rules.language.service import Language, Request
from lint_rules.language.tokens import Analysis, Mode
from lint_rules.language.vocabulary.which_language import other_language
from lint_rules.language.vocabulary.word_index import Origin, build_index, canonical

_BATCH = 2000  # lines analysed at a time: enough to be quick, few enough to hold in memory
_WIDTH = 92  # characters of a row of text
_MARGIN = 6
_LONG = 1.5  # times the average, and at least so many words, is a long sentence where no course says more: house figure
_LONG_WORDS = 10


@dataclass(frozen=True, slots=True)
class _Ask:
    """Something in a sentence that asks much of a child: its place there (none: the whole sentence), and why."""

    start: int
    end: int
    why: str


def run_level(
    text: str,
    language: Language,
    *,
    lines: bool,
    as_json: bool,
    course: Course | None = None,
    level: Level | None = None,
) -> str:
    """Read a text, or (``lines``) every line of it by itself, for a level of a course where it stands in one.

    As JSON: one object, or one a line, empty lines included. Else a page for people, or one row a line. Raises
    LanguageUnavailable when the language model cannot be had.
    """
    if lines:
        return "".join(f"{row}\n" for row in _rows(text, language, as_json, course))
    passages = [line for line in text.splitlines() if line.strip()]
    asked = demands(list(zip(passages, _analyse(passages, language, course), strict=True)), build_index(course))
    foreign = other_language(text)
    if as_json:
        return json.dumps(_plain(asked, foreign), ensure_ascii=False) + "\n"
    return "\n".join(_page(asked, passages, foreign, level)) + "\n"


def _rows(text: str, language: Language, as_json: bool, course: Course | None) -> Iterator[str]:
    texts = text.removesuffix("\n").replace("\r\n", "\n").split("\n") if text else []
    index = build_index(course)
    for at in range(0, len(texts), _BATCH):
        batch = texts[at : at + _BATCH]
        for line, analysis in zip(batch, _analyse(batch, language, course), strict=True):
            asked = demands([(line, analysis)], index)
            if as_json:
                yield json.dumps(_plain(asked, other_language(line)), ensure_ascii=False)
            else:
                length = sum(sentence.length for sentence in asked.sentences)
                yield f"{length:3}  {asked.cefr if length else '':6}  {line}"


def _analyse(texts: list[str], language: Language, course: Course | None) -> list[Analysis]:
    characters = course.names if course is not None else ()
    return language.analyse(
        [Request(text, Mode.TEXT, tuple(sorted(name for name in characters if name in text))) for text in texts]
    )


def _plain(asked: Demands, foreign: str) -> dict[str, object]:
    return {
        "structures": [{"name": item.name, "start": item.start, "end": item.end} for item in asked.structures],
        "words": [
            {
                "text": word.text,
                "lemma": word.lemma,
                "part_of_speech": word.part_of_speech,
                "level": word.level,
                "source": word.origin.value,
            }
            for word in asked.words
        ],
        "cefr": asked.cefr,
        "english": not foreign,
    }


def _page(asked: Demands, passages: list[str], foreign: str, level: Level | None) -> Iterator[str]:
    if foreign:
        looks = f"It looks like {foreign}" if foreign[0].isupper() else f"It is in {foreign}"
        yield f"This text is not English. {looks}, and hornbook reads English only."
        return
    if not asked.words:
        yield "There is no text to read."
        return
    base = band_rank(level.cefr) if level else max(1, band_rank(asked.cefr) - 1)
    count = len(asked.sentences)
    words = sum(sentence.length for sentence in asked.sentences)
    average = f", {asked.average:.1f} a sentence" if count > 1 else ""
    yield f"{_many(words, 'word')} in {_many(count, 'sentence')}{average}."
    whom = f"level {level.name}, {level.cefr}" if level else CEFR_BANDS[base]
    yield f"Marked: words and structures above {whom}, and long sentences; each is explained where it comes first."
    yield ""
    yield from _text(asked, passages, base, level)
    yield ""
    yield "Structures"
    for name, band, often, example in _counted(asked):
        yield f"  {band:8}  {name:28}  {often:3}  {_short(example, 40)}"
    unknown = sorted({word.text for word in asked.words if word.origin is Origin.UNKNOWN})
    if unknown:
        yield ""
        yield f"No reference has: {', '.join(unknown)}"


def _text(asked: Demands, passages: list[str], base: int, level: Level | None) -> Iterator[str]:
    """The text, a sentence a row with its words counted in the margin; under it marks, and why."""
    told: set[str] = set()
    before, marked = 0, False
    for sentence in asked.sentences:
        if sentence.passage != before:
            yield ""
            if foreign := other_language(passages[sentence.passage]):
                yield f"{'':{_MARGIN}}(not English? it looks like {foreign})"
            before = sentence.passage
        asks = list(_asks(sentence, asked, base, level))
        marked = marked or bool(asks)
        yield from _marked(sentence, asks)
        for ask in asks:
            if ask.why not in told:
                told.add(ask.why)
                yield f"{'':{_MARGIN}}  {ask.why}"
    if not marked:
        yield ""
        yield "Nothing in it is marked."


def _asks(sentence: Sentence, asked: Demands, base: int, level: Level | None) -> Iterator[_Ask]:
    most = level.limits.sentence_words if level else max(_LONG_WORDS - 1, int(_LONG * asked.average))
    if sentence.length > most:
        measure = f"a sentence of {level.name} has up to {most}" if level else "long beside the others"
        yield _Ask(0, 0, f"{sentence.length} words: {measure}")
    for item in sentence.structures:
        if band_rank(item.band) > base:
            yield _Ask(item.start, item.end, f"{item.name.replace('-', ' ')}, a structure of {item.band}")
    for word in sentence.words:
        of_course = word.origin is Origin.COURSE and word.entry is not None and level is not None
        later = of_course and word.entry is not None and level is not None and word.entry.level > level.index
        above = not of_course and band_rank(weighed_band(word)) > base
        if word.origin is not Origin.UNKNOWN and not word.text.isdigit() and (later or above):
            whose = f"taught in {word.level}" if later else f"a word of {weighed_band(word)}"
            start = word.start - sentence.start
            yield _Ask(start, start + word.end - word.start, f"“{canonical(word.lemma)}”, {whose}")


def _marked(sentence: Sentence, asks: list[_Ask]) -> Iterator[str]:
    """A sentence in rows, its length before the first, and below a row what is marked in it."""
    marks = [" "] * len(sentence.text)
    for ask in asks:
        marks[ask.start : ask.end] = "~" * len(marks[ask.start : ask.end])
    for number, (start, end) in enumerate(_broken(sentence.text)):
        margin = f"{sentence.length:{_MARGIN - 2}}  " if number == 0 else " " * _MARGIN
        yield margin + "".join(" " if char.isspace() else char for char in sentence.text[start:end])
        under = "".join(marks[start:end]).rstrip()
        if under:
            yield " " * _MARGIN + under


def _broken(text: str) -> Iterator[tuple[int, int]]:
    """Ranges of a text that fit on a row, broken between words."""
    start = 0
    while len(text) - start > _WIDTH - _MARGIN:
        cut = text.rfind(" ", start, start + _WIDTH - _MARGIN)
        end = cut if cut > start else start + _WIDTH - _MARGIN
        yield start, end
        start = end + (cut > start)
    yield start, len(text)


def _counted(asked: Demands) -> list[tuple[str, str, int, str]]:
    counts = Counter(item.name for item in asked.structures)
    first = {item.name: item for item in reversed(asked.structures)}
    rows = [(name.replace("-", " "), first[name].band, count, first[name].text) for name, count in counts.items()]
    return sorted(rows, key=lambda row: (band_rank(row[1]), row[0]))


def _many(count: int, noun: str) -> str:
    return f"{count} {noun if count == 1 else noun + 's'}"


def _short(text: str, most: int = 70) -> str:
    return text if len(text) <= most else text[: most - 1].rsplit(" ", 1)[0] + " …"
