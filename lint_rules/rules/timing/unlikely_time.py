"""An activity's time is far from what its kind and its number of items suggest.

A slip of the pen (3 for 30, a time copied from the activity before) costs a teacher the lesson. The estimate is rough
and wide: setting up, doing it, looking at the answers, for a class of six- to ten-year-olds. It is common practice, no
source; the figures stand in lint_rules/page/data/activity_minutes.csv, and a house may correct them.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from lint_rules.finding import Found, Severity
from lint_rules.manuscript.counting import count_words
from lint_rules.manuscript.model import Activity, Audience, Passage, Role
from lint_rules.page.times import Minutes, stated_time
from lint_rules.rule import Example, Limit, Reading, Rule
from lint_rules.tables import rows


def _activity(time: str, kind: str, items: int) -> str:
    listed = "".join(f"{number}. a red kite\n" for number in range(1, items + 1))
    return f"### 1 Look and say. {{.{kind}}}\n\n{listed}\n::: teacher\n**Time:** {time}\n:::\n"


RULE = Rule(
    name="unlikely-time",
    family="timing",
    severity=Severity.NOTE,
    cure=(
        "Try the activity against the clock, or ask a teacher who has. Change the time if it was a slip, and "
        "let it stand if you know better."
    ),
    passes=(
        Example(_activity("5 minutes", "listening", 4)),
        Example(_activity("10 minutes", "writing", 6)),
        Example(_activity("3–10 minutes", "make", 5), why="part of the range is likely"),
        Example(_activity("40 minutes", "make", 6)),
        Example(_activity("2 minutes", "riddle", 12), why="a kind of the course's own"),
        Example(_activity("5 minutes", "listening .survey", 3), why="of several kinds the widest counts"),
        Example(_activity("soon", "test", 30), why="missing-time asks about this one"),
    ),
    fails=(
        Example(_activity("«3 minutes»", "make", 6)),
        Example(_activity("«90 minutes»", "odd-one-out", 4)),
        Example(_activity("about «2 min»", "test", 20)),
    ),
    limits=(Limit("minutes by kind of activity, items and words", "common practice, no source"),),
)

_READ = frozenset({Role.TEXT, Role.TURN, Role.LINE, Role.CAPTION})


@dataclass(frozen=True, slots=True)
class _Size:
    """What an activity's time goes by: its items (steps, rows of a chart) and its words to read or hear."""

    items: int
    words: int


def find(reading: Reading) -> Iterator[Found]:
    """Report times outside the estimate, at the time's words."""
    for activity in reading.unit.activities:
        time = stated_time(activity.part)
        size = _size(activity)
        likely = _estimate(activity.kinds, size)
        if time is None or time.minutes is None or likely is None or time.minutes.overlaps(likely):
            continue
        words = time.passage.text[time.start : time.end]
        looks = "short" if time.minutes.high < likely.low else "long"
        message = (
            f"{time.minutes} looks {looks} for this ({_named(activity, size)}): about {likely} is usual, with setting "
            "up and looking at the answers. That is a rough estimate: let it stand if you know better."
        )
        yield Found(time.passage.span(time.start, time.end), words, message)


def _estimate(kinds: tuple[str, ...], size: _Size) -> Minutes | None:
    """The widest range of the kinds of an activity; None when none of them is in the table."""
    ranges = []
    for kind, *figures in rows("activity_minutes.csv"):
        if kind in kinds:
            least, most, item_least, item_most, text_least, text_most = map(float, figures)
            ranges.append(
                (
                    least + item_least * size.items + text_least * size.words / 100,
                    most + item_most * size.items + text_most * size.words / 100,
                )
            )
    if not ranges:
        return None
    return Minutes(round(min(low for low, _ in ranges)), round(max(high for _, high in ranges)))


def _size(activity: Activity) -> _Size:
    passages = activity.part.passages
    pupil = [passage for passage in passages if passage.audience is Audience.PUPIL]
    items = sum(p.role is Role.ITEM and p.item is not None and p.item.depth == 0 and not _is_option(p) for p in pupil)
    rows_of_tables = {(p.cell.table, p.cell.row) for p in pupil if p.cell is not None and p.cell.row > 0}
    heard = [p for p in passages if p.audience in (Audience.PUPIL, Audience.LISTENER) and p.role in _READ]
    words = sum(count_words(passage.text) for passage in heard)
    return _Size(items + len(rows_of_tables), words)


def _is_option(passage: Passage) -> bool:
    return passage.item is not None and passage.item.label.isalpha()


def _named(activity: Activity, size: _Size) -> str:
    parts = [" and ".join(activity.kinds)]
    if size.items:
        parts.append(f"{size.items} item{'s' if size.items > 1 else ''}")
    if size.words:
        parts.append(f"{size.words} words")
    return ", ".join(parts)
