"""What `hornbook level` prints: a page for a writer, or a JSON object a line for other programs. Text in, text out."""

import json
from collections import Counter
from collections.abc import Iterator

from lint_rules.course.model import CEFR_BANDS, Course, band_rank
from lint_rules.language.load import TextLoad, weigh, weighed_band
from lint_rules.language.service import Language, Request
from lint_rules.language.tokens import Analysis, Mode
from lint_rules.language.vocabulary.word_index import Origin, build_index, canonical
from lint_rules.language.vocabulary.word_level import WordLevel

_BATCH = 2000  # lines analysed at a time: enough to be quick, few enough to hold in memory


def run_level(text: str, language: Language, *, lines: bool, as_json: bool, course: Course | None = None) -> str:
    """Weigh a text, or (``lines``) every line of it by itself.

    As JSON: one object, or one a line, empty lines included. Else a page for people, or one row a line. Raises
    LanguageUnavailable when the language model cannot be had.
    """
    if lines:
        return "".join(f"{row}\n" for row in _rows(text, language, as_json, course))
    passages = [line for line in text.splitlines() if line.strip()]
    weighed = weigh(list(zip(passages, _analyse(passages, language, course), strict=True)), build_index(course))
    if as_json:
        return json.dumps(_plain(weighed), ensure_ascii=False) + "\n"
    return "\n".join(_page(weighed)) + "\n"


def _rows(text: str, language: Language, as_json: bool, course: Course | None) -> Iterator[str]:
    texts = text.removesuffix("\n").replace("\r\n", "\n").split("\n") if text else []
    index = build_index(course)
    for at in range(0, len(texts), _BATCH):
        batch = texts[at : at + _BATCH]
        for line, analysis in zip(batch, _analyse(batch, language, course), strict=True):
            weighed = weigh([(line, analysis)], index)
            if as_json:
                yield json.dumps(_plain(weighed), ensure_ascii=False)
            else:
                yield f"{weighed.load:5.1f}  {weighed.cefr:6}  {line}"


def _analyse(texts: list[str], language: Language, course: Course | None) -> list[Analysis]:
    characters = course.names if course is not None else ()
    return language.analyse(
        [Request(text, Mode.TEXT, tuple(sorted(name for name in characters if name in text))) for text in texts]
    )


def _plain(weighed: TextLoad) -> dict[str, object]:
    return {
        "structures": [{"name": item.name, "start": item.start, "end": item.end} for item in weighed.structures],
        "words": [
            {
                "text": word.text,
                "lemma": word.lemma,
                "part_of_speech": word.part_of_speech,
                "level": word.level,
                "source": word.origin.value,
            }
            for word in weighed.words
        ],
        "cefr": weighed.cefr,
        "load": weighed.load,
    }


def _page(weighed: TextLoad) -> Iterator[str]:
    if not weighed.words:
        yield "There is no text to weigh."
        return
    yield f"Level  {weighed.cefr}    Load  {weighed.load:g} of 100"
    for driver in weighed.drivers:
        yield f"  driven by {driver}"
    sentences = weighed.sentences
    yield ""
    yield f"Sentences  {sentences.count}, {sentences.average:g} words on average"
    yield f"  the longest has {sentences.longest}: {_short(sentences.longest_text)}"
    yield ""
    yield "Structures"
    for name, band, count, example in _counted(weighed):
        yield f"  {band:8}  {name:28}  {count:3}  {_short(example, 40)}"
    yield ""
    yield "Words"
    groups: dict[str, dict[str, str]] = {label: {} for label in (*_course_levels(weighed.words), *CEFR_BANDS)}
    for word in weighed.words:
        if word.origin is not Origin.UNKNOWN and not word.text.isdigit():
            label = word.level if word.origin is Origin.COURSE else weighed_band(word)
            groups[label].setdefault(canonical(word.lemma), _marked(word))
    for label, found in groups.items():
        if found:
            yield f"  {label:8}  {', '.join(sorted(found.values(), key=str.casefold))}"
    yield from _footnotes(weighed.words)


def _counted(weighed: TextLoad) -> list[tuple[str, str, int, str]]:
    counts = Counter(item.name for item in weighed.structures)
    first = {item.name: item for item in reversed(weighed.structures)}
    rows = [(name.replace("-", " "), first[name].band, count, first[name].text) for name, count in counts.items()]
    return sorted(rows, key=lambda row: (band_rank(row[1]), row[0]))


def _course_levels(words: tuple[WordLevel, ...]) -> list[str]:
    """Names of the course's levels that teach some of these words, in teaching order."""
    found = {word.entry.level: word.level for word in words if word.entry is not None}
    return [found[number] for number in sorted(found)]


def _marked(word: WordLevel) -> str:
    from_reference = word.origin in {Origin.REFERENCE, Origin.FREQUENCY}
    return f"{word.lemma}*" if from_reference and weighed_band(word) != word.band else word.lemma


def _footnotes(words: tuple[WordLevel, ...]) -> Iterator[str]:
    unknown = sorted({word.text for word in words if word.origin is Origin.UNKNOWN})
    if unknown:
        yield f"  no reference has: {', '.join(unknown)}"
    if any(_marked(word).endswith("*") for word in words):
        yield ""
        yield "* The reference has it higher or ungraded; children meet it early, it can be drawn, or it is common."


def _short(text: str, most: int = 70) -> str:
    return text if len(text) <= most else text[: most - 1].rsplit(" ", 1)[0] + " …"
