"""A survey in which a child asks too few classmates to learn the pattern.

A survey is practice in disguise: the same question and the same kind of answer, again and again, until they come by
themselves, and with a reason to ask each time. With one or two classmates it is over before the pattern sits. The
number is the one in the instruction, else the rows that the chart has for classmates; `survey: {classmates: 8}` in
course.yaml says how many are enough (three, if it says nothing: common practice, no source).
"""

import re
from collections.abc import Iterator

from lint_rules import lazy_re
from lint_rules.finding import Found, Severity
from lint_rules.manuscript.model import Activity, Audience, Passage, Role
from lint_rules.page.charts import Chart, charts_of
from lint_rules.page.classmates import EVERYBODY, Asked, asked_in
from lint_rules.page.number_words import in_words
from lint_rules.rule import By, Example, Gather, Limit, Reading, Rule, Within


def _chart(rows: int) -> str:
    return "| Name | Colour |\n|---|---|\n" + "".join(f"| {row} ____ | ____ |\n" for row in range(1, rows + 1))


_EIGHT = "survey: {classmates: 8}\n"
_EMPTY = "| | |\n"
_TALLY = "| Colour | How many? |\n|---|---|\n| red | ____ |\n| blue | ____ |\n"

RULE = Rule(
    name="short-survey",
    family="activities",
    severity=Severity.NOTE,
    cure=(
        "Let children ask more classmates, and draw a chart with as many rows. A small class can say so once: "
        "`survey: {classmates: 5}` in course.yaml."
    ),
    passes=(
        Example(
            "### 1 Ask eight friends. {.survey}\n\n"
            + _chart(8)
            + "\n| | Film | Club |\n|---|---|---|\n| Yes | 6 | 3 |\n"
            "| No | 2 | 5 |\n",
            why="a chart that is filled in, by answers",
        ),
        Example("### 1 Count in the playground. {.survey}\n\nWalk with a friend. Look and count.\n\n" + _TALLY),
        Example("### 1 Vote and complete the chart. {.survey}\n\n" + _TALLY, why="nobody is asked one by one"),
        Example("### 1 Ask eight friends. Write the answers. {.survey}\n\n" + _chart(8)),
        Example(
            "### 1 Ask six classmates. {.survey}\n\n" + _chart(2) + "\n::: teacher\n"
            "**Steps:** The children copy the table with six rows.\n:::\n",
            why="the notes make it longer",
        ),
        Example(
            "### 1 Ask five puppets. {.survey}\n\n" + _chart(5) + "\n::: teacher\n"
            "**Steps:** One child asks five puppets and ticks.\n:::\n",
            why="the one asks",
        ),
        Example(
            "### 1 Ask your friends. {.survey}\n\n::: teacher\n**Steps:** Show it with one child. Then each asks eight "
            "friends.\n:::\n",
            why="one child helps to show it",
        ),
        Example("### 1 Show your chart to eight friends and ask. {.survey}\n", why="children show it here"),
        Example("### 1 Ask three friends. Write the answers. {.survey}\n\n" + _chart(3)),
        Example("### 1 Ask 8–10 classmates. {.survey}\n"),
        Example("### 1 Ask your friends. {.survey}\n\n" + _chart(8), why="the chart has eight rows"),
        Example("### 1 Ask your friends. {.survey}\n\n| Name | Pet |\n|---|---|\n" + _EMPTY * 8, why="empty rows too"),
        Example("### 1 Ask everyone. {.survey}\n\n" + _TALLY, why="the whole class; the rows are for colours"),
        Example("### 1 Ask four boys and four girls. Tell three friends. {.survey}\n"),
        Example("### 1 Ask five people. {.survey}\n", course="survey: {classmates: 5}"),
        Example("### 1 Ask three friends. {.speaking}\n", why="no survey"),
        Example("### 1 Ask two questions. {.survey}\n\nAsk eight of your classmates.\n"),
        Example(
            "### 1 Ask and write. {.survey}\n\n::: teacher\n**Steps:** Children go and ask eight classmates.\n:::\n"
        ),
        Example(
            "### 1 Ask. {.survey}\n\n| | 1 | 2 | 3 | 4 | 5 | 6 | 7 | 8 |\n"
            "|---|---|---|---|---|---|---|---|---|\n| Can you swim? |\n"
        ),
    ),
    fails=(
        Example("### 1 Ask «two» friends. {.survey}\n"),
        Example(
            "### 1 Ask your class. {.survey}\n\n" + _chart(2).replace("Name", "«Name»"),
            why="a class does not fit into two rows",
        ),
        Example("### 1 Ask «three» friends. Write the answers. {.survey}\n\n" + _chart(3), course=_EIGHT),
        Example(
            "### 1 Ask «5» of your classmates. {.survey}\n\n" + _chart(8),
            course=_EIGHT,
            why="the children do what they read",
        ),
        Example("### 1 Ask your friends. {.survey}\n\n" + _chart(5).replace("Name", "«Name»"), course=_EIGHT),
        Example(
            "### 1 Ask eight friends. {.survey}\n\n" + _chart(6).replace("Name", "«Name»"),
            course=_EIGHT,
            why="no room for two",
        ),
        Example("### 1 Ask «seven» friends. {.survey}\n", course=_EIGHT, why="one is missing"),
        Example("### 1 Ask «a friend». {.survey}\n"),
        Example("### 1 Do a survey. {.survey}\n\nAsk «four» children in your class.\n", course=_EIGHT),
        Example("### 1 Ask «eight» friends. {.survey}\n", course="survey: {classmates: 10}"),
    ),
    limits=(
        Limit(
            "classmates to ask: `survey: {classmates: …}` in course.yaml, three by default",
            "common practice, no source",
        ),
    ),
    gathers=(
        Gather(
            Within.COURSE,
            By.ABOUT,
            "{count} surveys ask too few classmates for the question and its answer to stick. Ask more, or say under "
            "`survey` in course.yaml how many this course wants.",
        ),
    ),
)

_RANGE = lazy_re.compile(r"\b(?:to|or)\b|[-–—]", re.I)
_PAGE = frozenset({Role.TEXT, Role.ITEM, Role.TURN, Role.TITLE, Role.LINE})

_TOO_FEW = "too few for the question and its answer to stick"


_SHOWN = lazy_re.compile(r"\b(?:Show|Model|Demonstrate)\b[^.!?\n]*")
_ROWS = lazy_re.compile(r"\b(?:copy|copies|draw|draws|add|adds|rule|make)\b[^.!?]*\b(?:rows?|lines)\b", re.I)


def find(reading: Reading) -> Iterator[Found]:
    """Report surveys with too few classmates, at the number, else at the chart, else at the instruction."""
    wanted = reading.course.survey_classmates
    for activity in reading.unit.activities:
        if "survey" in activity.kinds:
            yield from _short(activity, reading, wanted)


def _short(activity: Activity, reading: Reading, wanted: int) -> Iterator[Found]:
    charts = [chart for chart in charts_of(reading.unit, activity) if chart.room]
    room = sum(chart.room for chart in charts)
    said = _said(activity, Audience.PUPIL)
    if said is None or (charts and not said[1].plain):
        if charts:
            if room < wanted:
                lack = f"This chart has room for {_friends(room)}, {_TOO_FEW}."
                cure = f"Write “Ask {in_words(wanted)} friends” {_and_rows(room)}."
                yield _at_chart(charts[0], activity, f"{lack} {cure}")
            return
        said = said or _said(activity, Audience.TEACHER) or _lines(activity)
    if said is None:
        return  # all seven authors who were asked for a number called it wrong: a vote, a walk, the notes say it
    passage, asked = said
    if asked.number < wanted:
        words = passage.text[asked.start : asked.end]
        several = f"{words} classmates" if _RANGE.search(words) else _friends(asked.number)
        cure = f"Write “Ask {in_words(wanted)} friends”" + ("." if room >= wanted else f" {_and_rows(room)}.")
        message = f"This survey asks {several}, {_TOO_FEW}. {cure}"
        yield Found(passage.span(asked.start, asked.end), words, message, about="few")
    elif charts and room < wanted and not _is_made_longer(activity):
        asks = "everybody" if asked.number == EVERYBODY else _friends(asked.number)
        lack = f"Children are to ask {asks}, but this chart has room for {in_words(room)}."
        yield _at_chart(charts[0], activity, f"{lack} Give it as many rows as they need.")


def _is_made_longer(activity: Activity) -> bool:
    """Say whether the notes have children draw a longer chart: They copy the table with six rows."""
    notes = (p.text for p in activity.part.passages if p.audience is Audience.TEACHER)
    return any(_ROWS.search(text) for text in notes)


def _said(activity: Activity, audience: Audience) -> tuple[Passage, Asked] | None:
    """What the instruction says, else the page; for teachers, what the notes say."""
    passages = [p for p in activity.part.passages if p.audience is audience]
    if audience is Audience.PUPIL:
        passages = [activity.heading.passage, *(p for p in passages if p.role in _PAGE)]
    told = ((p, _without_model(p.text) if audience is Audience.TEACHER else p.text) for p in passages)
    found = [(passage, asked) for passage, text in told if (asked := asked_in(text)) is not None]
    plain = [one for one in found if one[1].plain]
    return next(iter(plain or found), None)


def _without_model(text: str) -> str:
    """A text without what the teacher shows first: Show it with one child."""
    return _SHOWN.sub(lambda match: " " * len(match[0]), text)


def _lines(activity: Activity) -> tuple[Passage, Asked] | None:
    """Numbered lines to be filled in, each beginning with a gap, stand for a chart."""
    items = [p for p in activity.part.passages if p.audience is Audience.PUPIL and p.role is Role.ITEM]
    if len(items) < 2 or not all(p.gaps and not p.text[: p.gaps[0][0]].strip() for p in items):
        return None
    return items[0], Asked(len(items), 0, len(items[0].text))


def _at_chart(chart: Chart, activity: Activity, message: str) -> Found:
    cells = [p for p in activity.part.passages if p.cell is not None and chart.span.covers(p.block)]
    columns = chart.columns if chart.room == len(chart.columns) else (chart.who,)
    who = [p for p in cells if p.cell is not None and p.cell.column in columns]
    at = next(iter(who or cells), None)
    span, text = (at.span(), at.text) if at else (chart.span, "")
    return Found(span, text, message, about="few")


def _and_rows(room: int) -> str:
    return "and give the chart as many rows" if room else "and draw a chart with as many rows"


def _friends(number: int) -> str:
    return f"{in_words(number)} classmate{'' if number == 1 else 's'}"
