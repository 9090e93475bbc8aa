"""One page for the writer of a unit: what children have by then, what it must teach, what is due to be met again."""

from collections.abc import Iterator, Sequence

from lint_rules.course.model import Level, WordEntry
from lint_rules.lists.book import BookOfUnits, Cell, Column, Table
from lint_rules.vocabulary_map import WordRow

_COLUMNS = (Column("what", 30), Column("", 110))


def brief(book: BookOfUnits, level: Level, unit: int) -> Iterator[Table]:
    """One table: the brief of a unit of a level, written or not. ``unit`` is its number."""
    rows = (*_to_teach(book, level, unit), *_known(book, level, unit), *_due(book, level, unit), *_limits(book, level))
    yield Table(f"Brief for {level.name} unit {unit}", _COLUMNS, tuple(row for row in rows if row[1]))


def _to_teach(book: BookOfUnits, level: Level, unit: int) -> Iterator[tuple[Cell, ...]]:
    plan = next((one for one in book.course.plans if (one.level, one.unit) == (level.index, unit)), None)
    yield "level", f"{level.name} ({level.cefr})"
    yield "title", plan.title if plan else ""
    yield "topics", ", ".join(plan.topics) if plan else ""
    mine = [entry for entry in book.course.words if (entry.level, entry.unit) == (level.index, unit)]
    open_ = [entry for entry in book.course.words if (entry.level, entry.unit) == (level.index, 0)]
    yield "words to teach", _words(mine)
    yield "words for any unit here", _words(open_)
    yield "grammar to teach", ", ".join(plan.grammar) if plan else ""


def _known(book: BookOfUnits, level: Level, unit: int) -> Iterator[tuple[Cell, ...]]:
    before = [entry for entry in book.course.words if _is_before(entry.level, entry.unit, level, unit)]
    yield "words children have", _words(before)
    plans = [plan for plan in book.course.plans if _is_before(plan.level, plan.unit, level, unit)]
    yield "grammar children have", ", ".join(dict.fromkeys(label for plan in plans for label in plan.grammar))


def _due(book: BookOfUnits, level: Level, unit: int) -> Iterator[tuple[Cell, ...]]:
    due = [row for row in book.vocabulary if _is_due(book, row, level, unit)]
    yield "words to bring back", ", ".join(f"{row.entry.word} ({row.meetings})" for row in due)


def _is_due(book: BookOfUnits, row: WordRow, level: Level, unit: int) -> bool:
    entry = row.entry
    wanted = book.course.levels[entry.level].limits.recycle
    return entry.level == level.index and 0 < entry.unit < unit and row.meetings < wanted


def _limits(book: BookOfUnits, level: Level) -> Iterator[tuple[Cell, ...]]:
    limits, course = level.limits, book.course
    low, high = limits.lesson_minutes
    yield "names", ", ".join(course.characters)
    yield "words every child knows", ", ".join(course.known)
    yield "lessons", ", ".join(level.unit_pattern)
    yield "in every unit", ", ".join(level.every_unit)
    yield "a lesson", f"{low}–{high} minutes"
    yield "an instruction", f"up to {limits.instruction_words} words, {limits.instruction_steps} steps"
    yield "a sentence", f"up to {limits.sentence_words} words"
    yield "a text", f"up to {limits.text_words} words"


def _is_before(entry_level: int, entry_unit: int, level: Level, unit: int) -> bool:
    return entry_level < level.index or (entry_level == level.index and 0 < entry_unit < unit)


def _words(entries: Sequence[WordEntry]) -> str:
    return ", ".join(dict.fromkeys(entry.word for entry in entries))
