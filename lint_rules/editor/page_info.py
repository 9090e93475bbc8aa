"""What an editor shows of a unit beside its findings: its outline, what folds, what a word or a structure is, links."""

from collections.abc import Iterator, Sequence
from pathlib import Path

from lsprotocol import types

from lint_rules.course.model import Course, WordEntry
from lint_rules.editor.positions import range_of
from lint_rules.engine.check import request_of
from lint_rules.engine.registry import first_line
from lint_rules.language.grammar.grammar_levels import names
from lint_rules.language.grammar.structures import structure
from lint_rules.language.service import Language
from lint_rules.language.vocabulary.course_words import CourseWords
from lint_rules.language.vocabulary.word_level import WordLevel
from lint_rules.language.vocabulary.word_levels import look_up
from lint_rules.manuscript.model import Activity, Audience, DivKind, Heading, Lesson, Passage, Unit
from lint_rules.page.audio import scripts_of, tracks_played
from lint_rules.page.time_plans import lesson_minutes
from lint_rules.page.times import stated_time
from lint_rules.rule import RuleModule
from lint_rules.source import Source, Span


def symbols(unit: Unit, encoding: str) -> list[types.DocumentSymbol]:
    """The unit's lessons and activities, with their minutes."""
    found = [_of_activity(activity, unit.source, encoding) for activity in unit.opening_activities]
    return [*found, *(_of_lesson(lesson, unit.source, encoding) for lesson in unit.lessons)]


def _of_lesson(lesson: Lesson, source: Source, encoding: str) -> types.DocumentSymbol:
    minutes = lesson_minutes(lesson)
    detail = str(minutes) if minutes is not None else ""
    children = [_of_activity(activity, source, encoding) for activity in lesson.activities]
    return _symbol(lesson.heading, lesson.span, detail, types.SymbolKind.Module, source, encoding, children)


def _of_activity(activity: Activity, source: Source, encoding: str) -> types.DocumentSymbol:
    time = stated_time(activity.part)
    detail = str(time.minutes) if time is not None and time.minutes is not None else ""
    return _symbol(activity.heading, activity.span, detail, types.SymbolKind.Event, source, encoding, [])


def _symbol(
    heading: Heading,
    span: Span,
    detail: str,
    kind: types.SymbolKind,
    source: Source,
    encoding: str,
    children: Sequence[types.DocumentSymbol],
) -> types.DocumentSymbol:
    name = " ".join(f"{heading.number} {heading.passage.text}".split()) or "…"  # LSP 3.17: no name may be empty
    whole = Span(min(span.start, heading.span.start), max(span.end, heading.span.end))
    at = range_of(heading.span, source, encoding)
    return types.DocumentSymbol(
        name, kind, range_of(whole, source, encoding), at, detail or None, children=list(children)
    )


def folds(unit: Unit) -> Iterator[types.FoldingRange]:
    """Lessons, activities and divs."""
    spans = [lesson.span for lesson in unit.lessons]
    spans += [activity.span for activity in unit.activities]
    spans += [div.span for div in unit.divs]
    for span in sorted(set(spans)):
        first = unit.source.position(span.start).line - 1
        last = unit.source.position(max(span.start, span.end - 1)).line - 1
        while last > first and not unit.source.line_text(last + 1).strip():
            last -= 1
        if last > first:
            yield types.FoldingRange(first, last)


def rule_hover(module: RuleModule) -> str:
    """A rule in three lines."""
    paragraphs = [" ".join(part.split()) for part in module.page.strip().split("\n\n")]
    why = paragraphs[1] if len(paragraphs) > 1 else ""
    return "\n\n".join(part for part in (f"**{module.rule.name}**", first_line(module), why) if part)


def passage_at(unit: Unit, offset: int) -> tuple[Passage, int] | None:
    """The passage at an offset, and where in its text."""
    for passage in unit.passages:
        for at, (start, end) in enumerate(zip(passage.starts, passage.ends, strict=True)):
            if start <= offset < end:
                return passage, at
    return None


def word_at(
    unit: Unit, offset: int, course: Course, lists: CourseWords, language: Language
) -> tuple[WordLevel, Span, str] | None:
    """The word at an offset, where it stands, and a line on the structures there."""
    found = passage_at(unit, offset)
    if found is None or found[0].audience not in (Audience.PUPIL, Audience.LISTENER):
        return None
    passage, at = found
    analysis = language.analyse([request_of(passage, course)])[0]
    word = next((w for w in look_up(analysis, passage.text, lists.index) if w.start <= at < w.end), None)
    if word is None:
        return None
    here = dict.fromkeys(s.name for s in analysis.structures if s.start <= at < s.end)
    said = ", ".join(f"{names()[name].called if name in names() else name} ({structure(name).level})" for name in here)
    return word, passage.span(word.start, word.end), said


def word_hover(word: WordLevel, course: Course) -> str:
    """A word in a few lines: its level, who says so, and where the course teaches it."""
    part = f" ({word.part_of_speech})" if word.part_of_speech else ""
    lines = [f"**{word.lemma}**{part}"]
    entry = word.entry or word.elsewhere
    if entry is not None:
        where = f"unit {entry.unit}" if entry.unit else "some unit"
        lines.append(f"taught in {course.levels[entry.level].name}, {where}")
    elif word.free:
        lines.append("every child here knows it from the first page")
    elif word.band:
        lines.append(f"{word.band}, by {word.origin.value}")
    else:
        lines.append("no reference grades it")
    return "\n\n".join(lines)


def entry_location(entry: WordEntry, root: Path) -> types.Location:
    """Where a target word stands in its list."""
    start = types.Position(max(entry.row - 1, 0), 0)
    return types.Location((root / entry.path).as_uri(), types.Range(start, start))


def links(unit: Unit, uri: str, encoding: str) -> Iterator[types.DocumentLink]:
    """From the track that an activity plays to its script in the same unit."""
    scripts = {script.track: script.div for script in scripts_of(unit) if script.track}
    for activity in unit.activities:
        attributes = activity.heading.attributes
        written = unit.source.slice(attributes.span)
        for track in tracks_played(activity):
            div = scripts.get(track)
            at = written.find(track, max(written.find("audio"), 0))
            if div is not None and at >= 0:
                span = Span(attributes.span.start + at, attributes.span.start + at + len(track))
                line = unit.source.position(div.span.start).line
                shown = range_of(span, unit.source, encoding)
                yield types.DocumentLink(shown, f"{uri}#L{line}", tooltip=f"script of track {track}")


def script_location(unit: Unit, uri: str, offset: int, encoding: str) -> types.Location | None:
    """The script of the track at an offset of an activity's heading."""
    for activity in unit.activities:
        if activity.heading.span.start <= offset <= activity.heading.span.end:
            for script in scripts_of(unit):
                if script.track and script.track in tracks_played(activity):
                    return types.Location(uri, range_of(script.div.opening, unit.source, encoding))
    return None


def kind_of_div(unit: Unit, offset: int) -> DivKind | None:
    """The innermost div around an offset that changes who a text is for."""
    around = [div for div in unit.divs if div.span.start <= offset <= div.span.end]
    return min(around, key=lambda div: div.span.end - div.span.start).kind if around else None
