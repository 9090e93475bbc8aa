"""What an author may write at a place: keys of front matter, kinds, divs, fields, structures, words taught so far."""

import re
from collections.abc import Iterator, Sequence

from lsprotocol import types

from lint_rules import lazy_re
from lint_rules.course.model import ACTIVITY_KINDS, Course
from lint_rules.language.grammar.grammar_levels import names
from lint_rules.manuscript.front_matter import KEYS
from lint_rules.manuscript.model import DivKind
from lint_rules.source import Source

_FIELDS = ("Aim", "Grammar", "Words", "Materials", "Time", "Steps", "Safety", "Answers", "Support", "Extra")
_KIND = lazy_re.compile(r"^#{2,3}\s.*\{[^}]*\.([\w-]*)$")
_DIV = lazy_re.compile(r"^:{3,}\s*(?:\{\s*\.)?([\w-]*)$")
_FIELD = lazy_re.compile(r"^\s*\*\*(\w*)$")
_KEY = lazy_re.compile(r"^([\w-]*)$")
_GRAMMAR = lazy_re.compile(r"^grammar\s*:\s*\[?(?:[^,\]]*,\s*)*\s*([^,\[\]]*)$")
_WORD = lazy_re.compile(r"([^\W\d_]{2,})$")
_MOST = 200


def completions(
    source: Source, offset: int, course: Course | None, div: DivKind | None
) -> Iterator[types.CompletionItem]:
    """What fits behind the text before an offset."""
    start = source.line_starts[source.position(offset).line - 1]
    before = source.text[start:offset]
    if _in_front_matter(source, offset):
        yield from _front(before)
    elif match := _KIND.match(before):
        of_course = (
            {kind for level in course.levels for kind in (*level.unit_pattern, *level.every_unit)} if course else set()
        )
        kinds = sorted(of_course) if before.startswith("## ") else sorted({*ACTIVITY_KINDS, *of_course})
        yield from _items(kinds, match[1], types.CompletionItemKind.EnumMember)
    elif match := _DIV.match(before):
        known = [kind.value for kind in DivKind if kind is not DivKind.PAGE]
        yield from _items(known, match[1], types.CompletionItemKind.Struct)
    elif div is DivKind.TEACHER and (match := _FIELD.match(before)):
        fields = (*_FIELDS, *(course.note_fields if course else ()))
        for field in fields:
            if field.casefold().startswith(match[1].casefold()):
                yield types.CompletionItem(field, kind=types.CompletionItemKind.Field, insert_text=f"{field}:** ")
    elif course is not None and div is not DivKind.TEACHER and (match := _WORD.search(before)):
        yield from _words(course, source, match[1])


def _in_front_matter(source: Source, offset: int) -> bool:
    if not source.text.startswith("---"):
        return False
    end = re.search(r"^---[ \t]*$", source.text[3:], re.M)
    return end is None or offset <= end.start() + 3


def _front(before: str) -> Iterator[types.CompletionItem]:
    if match := _GRAMMAR.match(before):
        called = sorted({name.called for name in names().values()})
        yield from _items(called, match[1].strip(), types.CompletionItemKind.Value)
    elif match := _KEY.match(before):
        for key in KEYS:
            if key.startswith(match[1]):
                yield types.CompletionItem(key, kind=types.CompletionItemKind.Property, insert_text=f"{key}: ")


def _words(course: Course, source: Source, begun: str) -> Iterator[types.CompletionItem]:
    """Target words that are taught by this unit, the nearest unit first."""
    level = course.level_of(source.path)
    plan = next((plan for plan in course.plans if plan.path == source.path), None)
    if level is None or plan is None:
        return
    taught = [
        entry
        for entry in course.words
        if (entry.level, entry.unit) <= (level.index, plan.unit) and entry.word.casefold().startswith(begun.casefold())
    ]
    for rank, entry in enumerate(sorted(taught, key=lambda entry: (-entry.level, -entry.unit, entry.word))[:_MOST]):
        where = (
            f"{course.levels[entry.level].name} unit {entry.unit}" if entry.unit else course.levels[entry.level].name
        )
        kind = types.CompletionItemKind.Text
        yield types.CompletionItem(entry.word, kind=kind, detail=where, sort_text=f"{rank:04}")


def _items(words: Sequence[str], begun: str, kind: types.CompletionItemKind) -> Iterator[types.CompletionItem]:
    for name in words:
        if name.casefold().startswith(begun.casefold()):
            yield types.CompletionItem(name, kind=kind)
