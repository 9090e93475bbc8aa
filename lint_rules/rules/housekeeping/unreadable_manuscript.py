"""A unit's file that cannot be read as a unit, wholly or in part.

The front matter does not parse, a div or a comment is never closed, there is no title or no lesson: what hornbook
cannot read it cannot check, and what a typesetter's program cannot read it drops from the child's page without a word.
So this is said first, with the line and the cure, and nothing that could not be read ever counts as clean.

Asterisks that were meant for bold and are none are a query: bold needs two before its first and two behind its last
letter. So is bold that begins or ends between a letter and a mark (she**'s**): Pandoc reads it, but CommonMark (0.31,
section 6.2), and with it most previews, prints the asterisks.

A part that begins with nearly a word that hides it from the child's page (`::: anwsers`) would be printed there: a stop
where letters have changed places or are capitals, else a query. A file that is named for another unit's number is a
query.

A grammar label of the front matter that is misspelt is a query: hornbook would take its structure for one that no unit
teaches, and stop where the unit uses it. One that is neither grammar nor a pattern is a note, once in the course.

A key of the front matter that is nearly one of hornbook's (`topic:` for `topics:`) is a query: what it says would not
be read. Keys of a house's own are left alone.

A kind of activity that hornbook does not know (`{.listenning}`) is a note, once a unit: what goes by the kind is not
checked there. Kinds of the course's own that course.yaml names under `every_unit` are known.
"""

import re
from collections.abc import Iterator

from lint_rules import lazy_re
from lint_rules.course.model import ACTIVITY_KINDS
from lint_rules.course.problem import nearest
from lint_rules.finding import Edit, Found, Mend, Severity
from lint_rules.language.grammar.labels import is_label_read, label_meant
from lint_rules.language.vocabulary.misspellings import one_slip_away
from lint_rules.manuscript.model import POINT, DivKind, Role, Unit
from lint_rules.manuscript.reader_state import SONGS
from lint_rules.page.story_texts import STORY
from lint_rules.rule import By, Example, Gather, Reading, Rule, Within
from lint_rules.source import Span


def _labelled(grammar: str) -> str:
    """A unit with these grammar labels, for the examples."""
    return _fronted(f"grammar: [{grammar}]")


def _fronted(line: str) -> str:
    """A unit with a line more in its front matter, for the examples."""
    return (
        f"---\nlevel: level-1\nunit: 1\ntitle: Example\n{line}\n---\n\n"
        "# Example\n\n## Lesson 1: Look {.words}\n\n### 1 Look at the kite.\n"
    )


RULE = Rule(
    name="unreadable-manuscript",
    family="housekeeping",
    severity=Severity.STOP,
    cure=(
        "Mend what the message names, and run the check again: until then parts of the unit may not have been "
        "read at all."
    ),
    passes=(
        Example("::: teacher\n**Time:** 10 minutes\n:::\n", why="a div that is opened and closed"),
        Example(
            "She is swimm**ing**. **She's** here. She\\*\\*'s here.\n",
            why="bold, and asterisks that are meant",
        ),
        Example(
            "### 1 Dance. {.dance .game}\n", course="levels: [{every_unit: [dance]}]", why="a kind of the course's own"
        ),
        Example(_labelled("present continuous, plurals, some / any, 'Put on …'"), why="grammar, words and a phrase"),
        Example(_labelled("'Can I have …?', 'It is a …'"), why="patterns are read by their words"),
        Example(_fronted("author: M\ntags: [kites]\nkeywords: wind"), why="keys of the house's own"),
        Example(_fronted("topics: [weather]\ntopic: wind"), why="the one that is read is there"),
        Example("::: speech\nHello!\n:::\n\n::: box\nA tip.\n:::\n", why="on the child's page, and meant to be"),
        Example("::: sword\nHello!\n:::\n\n::: teach\nLook!\n:::\n\n::: radio\nHello!\n:::\n", why="other words"),
        Example("The wind is blowing.\n\nThree dots :::: in a line are only dots.\n"),
    ),
    fails=(
        Example("«::: teacher»\n**Time:** 10 minutes\n", why="the div is never closed"),
        Example("«::: .teacher»\n**Time:** 10 minutes\n:::\n", why="to Pandoc its name is .teacher, not teacher"),
        Example("«::: anwsers»\n1 yes\n:::\n", why="nearly answers: it would be printed for the child"),
        Example("«::: TEACHER»\n**Time:** 5 minutes\n:::\n", why="Pandoc minds capitals"),
        Example("«::: answer»\n1 yes\n:::\n", why="perhaps the house's own", weight=Severity.QUERY),
        Example(_fronted("").replace("unit: 1", "unit: «2»"), why="the file is unit-01.md", weight=Severity.QUERY),
        Example(
            "Look.\n\n«+-----+-----+»\n| a | b   |\n+-----+-----+\n",
            why="a table drawn with + and -, out of line",
            weight=Severity.QUERY,
        ),
        Example("Look at the kite.\n\n«:::»\n", why="a fence that closes nothing"),
        Example("Look.\n«::: words»\nkite\n:::\n", why="Pandoc wants an empty line before it", weight=Severity.QUERY),
        Example("Look at the «**»kite.\n", why="bold that nothing ends", weight=Severity.QUERY),
        Example(
            "She«**'s**» here. They«**’re**» swimm**ing**.\n",
            why="bold within a word, at a mark",
            weight=Severity.QUERY,
        ),
        Example(
            "### 1 Listen. {.«listenning» .song}\n\n### 2 Listen. {.listenning}\n",
            why="a kind misspelt: a note",
            weight=Severity.NOTE,
        ),
        Example(
            "### 1 Play. {.game «speaking»}\n\n### 2 Read. {.story «reading» audio=1.1}\n",
            why="a point is missing: one point a course",
            weight=Severity.QUERY,
        ),
        Example(
            _labelled("present simple, «presant continuous»"),
            why="a label misspelt: its structure would count as untaught",
            weight=Severity.QUERY,
        ),
        Example(
            _labelled("present continuous, «our own pattern»"),
            why="a label that nobody can read: a note, once a course",
            weight=Severity.NOTE,
        ),
        Example(
            _fronted("«topic»: weather\n«grammer»: [can]"),
            why="nearly a key: what it says would not be read",
            weight=Severity.QUERY,
        ),
        Example(
            """\
---
level: «level-2»
unit: 1
title: Example
---

# Example

## Lesson 1: Look {.words}

### 1 Look at the kite.
""",
            why="the course has no such level",
        ),
    ),
    gathers=(Gather(Within.COURSE, By.KEY),),
)


_UNREAD = "an unread label"
_HIDING = ("teacher", "audio", "answers", "words", "pattern")  # `art` is too short: start, part, chart
_OF_PANDOC = frozenset({"unnumbered", "unlisted"})  # classes of headings that Pandoc itself reads
# Asterisks around a few letters, or a pair of them alone; such as are escaped are meant.
_STRAY = lazy_re.compile(r"(?P<marks>\*{1,3})[^\s*]{1,20}(?P=marks)|\*\*")
_STRAY_SAID = (
    "These asterisks would be printed: the bold that they begin or end has no other end. "
    "Put two before and two behind the words, without a space inside (**kite**)."
)
_HALF_BOLD = (
    "Many programs print these asterisks: bold begins or ends between a letter and a mark. "
    "Set the whole word in bold (**she's**), or only the letters (she'**s**)."
)


def find(reading: Reading) -> Iterator[Found]:
    """Report what the reader of the manuscript stumbled over, and front matter that does not fit the course."""
    unit = reading.unit
    for problem in unit.problems:
        severity = None if problem.blocks else Severity.QUERY
        words = unit.source.slice(problem.span)
        point = Edit(Span(problem.span.start, problem.span.start), ".")
        mend = Mend(f"write .{words}", (point,)) if problem.habit == POINT else None
        yield Found(problem.span, words, problem.message, severity, mend, key=problem.habit)
    yield from _stray_asterisks(unit)
    yield from _half_bold(unit)
    yield from _unknown_kinds(reading)
    yield from _misspelt_labels(unit)
    yield from _unread_labels(reading)
    yield from _misspelt_keys(unit)
    yield from _misspelt_divs(unit)
    if unit.front.level:
        yield from _level(reading)
    if unit.front.unit:
        yield from _number(reading)


def _stray_asterisks(unit: Unit) -> Iterator[Found]:
    """Asterisks that a reader would see although they were meant for bold."""
    for passage in unit.passages:
        if passage.role is Role.CODE or "*" not in passage.text:
            continue
        for mark in _STRAY.finditer(passage.text):
            span = passage.span(mark.start(), mark.end())
            if unit.source.slice(span) == mark[0]:
                yield Found(span, mark[0], _STRAY_SAID, Severity.QUERY, key="asterisks")


def _half_bold(unit: Unit) -> Iterator[Found]:
    """Bold that begins or ends inside a word, at a mark: Pandoc reads it, CommonMark prints the asterisks."""
    text = unit.source.text
    for passage in unit.passages:
        for start, end in passage.strong:
            span = passage.span(start, end)
            before, behind = text[span.start - 3 : span.start], text[span.end : span.end + 3]
            if before[1:] != "**" or behind[:2] != "**":
                continue
            opens = before[0].isalnum() and not passage.text[start].isalnum()
            closes = behind[2:].isalnum() and not passage.text[end - 1].isalnum()
            if opens or closes:
                whole = Span(span.start - 2, span.end + 2)
                yield Found(whole, unit.source.slice(whole), _HALF_BOLD, Severity.QUERY, key="asterisks")


def _unknown_kinds(reading: Reading) -> Iterator[Found]:
    """Classes of activities that are no kind, where each first stands."""
    known = {*ACTIVITY_KINDS, *SONGS, *STORY, *_OF_PANDOC, *reading.level.every_unit, *reading.level.unit_pattern}
    for activity in reading.unit.activities:
        braces = activity.heading.attributes.span
        for kind in activity.kinds:
            if kind in known:
                continue
            known.add(kind)
            near = nearest(kind, ACTIVITY_KINDS)
            meant = (
                f"Did you mean {near}?"
                if near
                else "If it is one of your own and recurs in every unit, name it under `every_unit` in course.yaml."
            )
            message = f"hornbook knows no kind of activity “{kind}”: what goes by the kind is not checked. {meant}"
            written = re.search(rf"(?<![\w-]){re.escape(kind)}(?![\w-])", reading.unit.source.slice(braces))
            span = braces if written is None else Span(braces.start + written.start(), braces.start + written.end())
            yield Found(span, kind, message, Severity.NOTE)


def _misspelt_keys(unit: Unit) -> Iterator[Found]:
    """Keys of the front matter that are near one that the unit lacks."""
    given = {"topics": unit.front.topics, "grammar": unit.front.grammar}
    for key, span in unit.front.others:
        meant = nearest(key, [name for name, values in given.items() if not values])
        if meant:
            message = f"hornbook does not read `{key}`, so to it this unit has no {meant}. Did you mean `{meant}:`?"
            yield Found(span, key, message, Severity.QUERY)


def _misspelt_divs(unit: Unit) -> Iterator[Found]:
    """Parts that begin with nearly a word that hides them from the child's page: `::: anwsers`.

    A letter more, less or other may be a house's own word (`::: answer`), so that is only asked.
    """
    for div in unit.divs:
        for written in div.attributes.classes if div.kind is DivKind.PAGE else ():
            plain = written.casefold()
            meant = next((word for word in _HIDING if word == plain or word in one_slip_away(plain)), "")
            if meant:
                message = (
                    f"hornbook knows no “{written}”: as it stands, this is printed on the child's page. "
                    f"Did you mean `::: {meant}`?"
                )
                severity = None if sorted(plain) == sorted(meant) else Severity.QUERY
                yield Found(div.opening, unit.source.slice(div.opening), message, severity)


def _misspelt_labels(unit: Unit) -> Iterator[Found]:
    """Labels of the front matter that name no structure, and are near one that does."""
    for label, span in zip(unit.front.grammar, unit.front.grammar_spans, strict=True):
        meant = label_meant(label)
        if meant:
            message = (
                f"hornbook knows no grammar “{label}”, so its structure counts as taught nowhere. Did you mean {meant}?"
            )
            yield Found(span, unit.source.slice(span), message, Severity.QUERY)


def _unread_labels(reading: Reading) -> Iterator[Found]:
    """Labels that are neither grammar, nor words, nor a pattern: said in the first unit of the course that has one."""
    unit, plans = reading.unit, reading.course.plans
    for label, span in zip(unit.front.grammar, unit.front.grammar_spans, strict=True):
        first = next((plan.path for plan in plans if label in plan.grammar), unit.path)
        if first == unit.path and not is_label_read(label) and not label_meant(label):
            message = (
                f"hornbook cannot read “{label}” as grammar, so nothing is checked by it. "
                "A name (present simple) or a pattern (I've got …) can be read."
            )
            yield Found(span, unit.source.slice(span), message, Severity.NOTE, key=_UNREAD)


def _level(reading: Reading) -> Iterator[Found]:
    """The level of the front matter must be one of the course's, and the one whose folder the file is in."""
    written, folder = reading.unit.front.level, reading.course.level_of(reading.unit.path)
    names = [level.name for level in reading.course.levels]
    if folder is not None and written.isdigit() and re.fullmatch(rf"\D+0*{int(written)}", folder.name):
        return  # `level: 1` in the folder level-1
    if written not in names:
        near = nearest(written, names)
        meant = f"Did you mean {near}?" if near else f"The course has {', '.join(names)}."
        yield _at(reading, "level", f"course.yaml has no level {written}. {meant}")
    elif folder is not None and folder.name != written:
        yield _at(
            reading,
            "level",
            f"This file is in the folder {folder.name}, but its level is {written}. Move the file, or mend the level.",
        )


def _number(reading: Reading) -> Iterator[Found]:
    """No two units of a level have the same number, and a file that is named by a number has that of its unit."""
    number = reading.unit.front.unit
    twins = [
        plan.path
        for plan in reading.course.plans
        if (plan.level, plan.unit) == (reading.level.index, number) and plan.path != reading.unit.path
    ]
    if twins:
        more = f" (and {len(twins) - 1} more)" if len(twins) > 1 else ""
        what = f"{twins[0]}{more} is unit {number} of {reading.level.name} too."
        yield _at(reading, "unit", f"{what} Give one of them another number.")
        return
    named = re.search(r"(?i)unit[-_ ]?0*([0-9]+)\.md$", reading.unit.path)
    if named and int(named[1]) != number:
        said = f"This file is named for unit {named[1]}, and here it is unit {number}. Change the one or the other."
        yield _at(reading, "unit", said, Severity.QUERY)


def _at(reading: Reading, key: str, message: str, severity: Severity | None = None) -> Found:
    span = reading.unit.front.spans.get(key, reading.unit.front.span)
    return Found(span, reading.unit.source.slice(span), message, severity)
