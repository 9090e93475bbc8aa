"""The total that a lesson states is not what its activities add up to, nor an activity's what its steps do.

A teacher trusts the total and runs out of lesson, or trusts the activities and stands there with ten minutes to fill.
Only a lesson whose every activity has a time is added up. Ranges add up to a range, and a total inside it is right.
What the notes add beside the total (hello ring 4 + activities 10 + 12 + tidy-up 3) is added as well, and where minutes
that they name in prose (Open with the song, 5 minutes) make up what is missing, nothing is said. The same minutes
missing in several lessons, an opening and a close that no activity holds, are one point.
"""

import re
from collections import Counter
from collections.abc import Iterator

from lint_rules import lazy_re
from lint_rules.finding import Found, Severity
from lint_rules.manuscript.model import Activity, Lesson, Unit
from lint_rules.page.number_words import numbers_in
from lint_rules.page.time_plans import activities_minutes, plan_of, stages_minutes, steps_minutes, times_of, total_of
from lint_rules.page.times import Minutes, StatedTime, add_up, minutes_told, stated_time
from lint_rules.rule import By, Example, Gather, Reading, Rule, Within

_NOTES = "## Lesson 1: Kites\n\n::: teacher\n**Time:** {}\n:::\n\n"
_STEPS = "{}\n\n**Steps:**\n\n1. Circle (5 minutes). Say hello.\n2. Read{}. Read it aloud.\n3. Sing (18 minutes)."
_GAME = (
    "## Lesson 1: Kites\n\n### 1 Play. {{.game}}\n\n::: teacher\n**Time:** {}\n\n**Steps:**\n\n"
    "1. Show the game (2 min).\n2. (5 min) Children draw the map.\n3. Play in pairs. Who finds five {}?\n:::\n"
)
_STAGED = (
    "## Lesson 1: Kites\n\n### 1 Spell. {{.game}}\n\n::: teacher\n**Time:** {}\n\n"
    "| Stage | Time | What to do |\n|---|---|---|\n| Show | 3 min | Spell one word. |\n"
    "| Write | 7 min | Children write. |\n| Make | 4 min | Mix one up. |\n:::\n"
)
_TWO = (
    "### 1 Listen. {{.song}}\n\n::: teacher\n**Time:** {0}\n:::\n\n"
    "### 2 Draw. {{.make}}\n\n::: teacher\n**Time:** {1}\n:::\n"
)


def _lesson(total: str, first: str, second: str) -> str:
    notes = f"::: teacher\n**Aim:** sing\n**Time:** {total}\n:::\n\n"
    return "## Lesson 1: Kites\n\n" + notes + _TWO.format(first, second)


def _planned(*totals: str) -> str:
    return "".join(
        f"## Lesson {at}: Kites\n\n::: teacher\n**Time:** {total}\n\n"
        "| Stage | Activity | Minutes |\n|---|---|---|\n| Begin | – | 5 |\n| Sing | 1 | 15 |\n| Draw | 2 | 20 |\n"
        ":::\n\n### 1 Sing. {.song}\n\n### 2 Draw. {.make}\n\n"
        for at, total in enumerate(totals, 1)
    )


def _told(*reading: int, mark: str = "forty minutes") -> str:
    return "".join(
        f"## Lesson {at}: Kites\n\n::: teacher\n**Before.** Read the poem, about {minutes} minutes.\n\n"
        "**On the page.** Activity 1, about fifteen minutes. Activity 2 is for pairs, about fifteen minutes.\n\n"
        f"**After.** Say it again, about five minutes. The lesson takes {mark} in all.\n:::\n\n"
        for at, minutes in enumerate(reading, 1)
    )


def _in_names(total: str, *minutes: int) -> str:
    """A lesson whose activities have their times in the name of a field."""
    notes = [f"\n\n::: teacher\n**Steps ({many} minutes):**\n\n1. Say it.\n2. Sing it.\n:::" for many in minutes]
    activities = "\n\n".join(f"### {at} Look.{note}" for at, note in enumerate([*notes, ""][:2], 1))
    return f"## Lesson 1: Kites\n\n::: teacher\n**Time:** {total}\n:::\n\n{activities}\n"


RULE = Rule(
    name="lesson-time-mismatch",
    family="timing",
    severity=Severity.QUERY,
    cure="Change the lesson's total, or the time of the activity that is wrong.",
    passes=(
        Example(_in_names("40 minutes", 15, 25)),
        Example(_in_names("40 minutes", 15), why="the other says no time"),
        Example(
            "## Lesson 1: Kites\n\n::: teacher\n**Time:** 40 minutes. Warm-up 5', Book 20', Goodbye 15'\n:::\n\n"
            "### 1 Look.\n",
            why="parts that make it up",
        ),
        Example(
            _NOTES.format(_STEPS.format("40 minutes", "")) + "### 1 Look.\n",
            why="a step has no time of its own",
        ),
        Example(_GAME.format("14 minutes", "(7 min)")),
        Example(_STAGED.format("14 minutes")),
        Example(_told(5, 5, 5, 5)),
        Example(_planned("40 minutes", "40 minutes", "40 minutes")),
        Example(_planned("40 minutes", "35 minutes", "35 minutes"), why="no habit of this author"),
        Example(_told(5, 10, 10, 5), why="no habit of this author"),
        Example(_GAME.format("12 minutes", ""), why="a step has no time"),
        Example(_GAME.format("12 minutes", "(after 7 min change over)"), why="no time of the step"),
        Example(_lesson("40 minutes", "15 minutes", "25 minutes")),
        Example(_lesson("40 minutes", "10–15 minutes", "25–30 min"), why="40 lies between 35 and 45"),
        Example(_lesson("35–45 minutes", "15 minutes", "25 minutes"), why="the total is a range"),
        Example(_lesson("40 minutes", "15 minutes", "as long as they like"), why="one activity has no time to add"),
        Example(_lesson("1 hour", "half an hour", "30 min")),
        Example(_lesson("40 minutes: hello ring 4 + activities 15 + 18 + tidy-up 3", "15 minutes", "18 minutes")),
        Example(_lesson("40 minutes (5 for the register)", "15 minutes", "20 minutes")),
        Example(_lesson("40 minutes. The last 5 minutes are for the story.", "15 minutes", "20 minutes")),
        Example(
            _lesson(
                "40 minutes\n**Steps:** Sing hello, which takes two minutes. End with 3 minutes of tidying.",
                "15 minutes",
                "20 minutes",
            )
        ),
        Example(
            "## Lesson 1: Kites\n\n### 1 Read. {.reading}\n\n### 2 Draw. {.make}\n\n"
            "::: teacher\n**Aim:** draw\n\n**Time:** Ex. 1 15', Ex. 2 25'. Total 40'.\n:::\n"
        ),
        Example(_NOTES.format("40 minutes: Lesson 12, page 30, track 14") + "### 1 Look.\n", why="no times"),
        Example(_lesson("40 minutes (24 children)", "15 minutes", "25 minutes")),
        Example(_lesson("40 minutes (hello four and, with the song, another three)", "15 minutes", "18 minutes")),
    ),
    fails=(
        Example(_in_names("«40 minutes»", 15, 30), why="the times stand in the names of fields"),
        Example(
            "## Lesson 1: Kites\n\n::: teacher\n**Time:** «40 minutes». Warm-up 5', Book 20', Survey 15', Goodbye 5'\n"
            ":::\n\n### 1 Look.\n",
            why="parts that make more of it",
        ),
        Example(
            _NOTES.format("«40 minutes». 1, 10 minutes; 2, 20 minutes; 3, 15 minutes.")
            + "### 1 Look.\n\n### 2 Sing.\n\n### 3 Draw.\n",
            why="its activities by number",
        ),
        Example(
            _NOTES.format(_STEPS.format("«40 minutes»", " (20 minutes)")) + "### 1 Look.\n",
            why="each step has its time",
        ),
        Example(_GAME.format("«12 minutes»", "(7 min)"), why="its steps"),
        Example(_STAGED.format("«12 minutes»"), why="the stages of its table"),
        Example(
            "## Lesson 1: Kites\n\n::: teacher\n**Time:** «45 minutes»\n\n"
            "| Minutes | Corner | What to do |\n|---|---|---|\n"
            "| 5 | Hello | Say hello. |\n| 12 | 1 Sing | Sing it. |\n| 18 | 2 Draw | Draw it. |\n:::\n\n"
            "### 1 Sing. {.song}\n\n### 2 Draw. {.make}\n",
            why="a plan that begins with the minutes",
        ),
        Example(
            "## Lesson 1: Kites\n\n::: teacher\n**Time:** «thirty-five minutes»\n\n"
            "Activity 1. Fifteen minutes. Sing it.\n\nActivity 2. Twenty-five minutes. Draw it.\n:::\n\n"
            "### 1 Sing. {.song}\n\n### 2 Draw. {.make}\n",
            why="a paragraph for each activity",
        ),
        Example(
            _NOTES.format("«40 min»: warm-up 4; Act. 1 – 20; Act. 2 – 18") + "### 1 Look.\n\n### 2 Sing.\n",
            why="parts in bare figures",
        ),
        Example(_planned("40 minutes", "40 minutes", "«35 minutes»"), why="others count the row too"),
        Example(_told(5, 5, 5) + _told(10, mark="«forty minutes»"), why="in all others the times make it up"),
        Example(_lesson("«40 minutes»", "15 minutes", "30 minutes")),
        Example(_lesson("«40 minutes». The last 5 minutes are for the story.", "15 minutes", "30 minutes")),
        Example(_lesson("«40 minutes». The last 5 minutes are for the story.", "15 minutes", "15 minutes")),
        Example(_lesson("«50 minutes» (a long one)", "10–15 minutes", "25–30 minutes")),
        Example(_lesson("«1 h 30»", "15 min", "25 min")),
        Example(_lesson("«40 minutes» (12 children)", "15 minutes", "13 minutes")),
        Example(_lesson("«40 minutes», or 45 with the song", "15 minutes", "20 minutes")),
        Example(_lesson("«40 minutes»: hello ring 4 + activities 18 + 20 + tidy-up 3", "18 minutes", "20 minutes")),
        Example(_lesson("«40 minutes»: hello ring 4 + activities 16 + 17 + tidy-up 3", "16 minutes", "27 minutes")),
    ),
    gathers=(
        Gather(
            Within.COURSE,
            By.ABOUT,
            "In {count} lessons the activities add up to {about} less than the total says. If an opening and a close "
            "fill them, write so beside the total: 40 minutes (hello 4, tidy-up 3).",
        ),
    ),
)


_MOST_TOLD = 6
# hello ring 4; activities 10; 12; 5 for the register; tidy-up: 3 minutes
_PART = lazy_re.compile(
    r"(?:(?!or\b|room\b|page|track|unit|class|group|year|lesson)(?P<what>[^\W\d_][\w' -]*?):?\s*)?(?P<number>\d{1,2})"
    r"(?:\s*min(?:ute)?s?\.?)?(?:\s+for\s[\w' -]+)?",
    re.I,
)

_NAMED_PART = lazy_re.compile(r"[^\W\d_][\w &/-]{1,24}?\s+(\d{1,2})\s*(?:['’′]|min(?:ute)?s?)\.?", re.I)
_NUMBERED_PART = lazy_re.compile(r"\d{1,2}\s*[,:.)]?\s+(\d{1,2})\s*(?:['’′]|min(?:ute)?s?)\.?", re.I)
_BARE_PART = lazy_re.compile(
    r"(?!(?:page|track|unit|class|group|year|lesson|room)s?\b)[^\W\d_][\w .&/-]{1,24}?\s*(?:\s|[–—-])\s*(\d{1,2})", re.I
)
_FEWEST_PARTS = 3
_TOGETHER = lazy_re.compile(r"\s*(?:together|altogether|in all)\b")  # the sum of others
_FEWEST_STEPS = 2


def find(reading: Reading) -> Iterator[Found]:
    """Report totals that do not fit the sum, at the total's words."""
    for activity in reading.unit.activities:
        yield from _by_steps(activity)
    yield from _by_prose(reading.unit)
    yield from _by_rows(reading.unit)
    for lesson in reading.unit.lessons:
        total, added = total_of(lesson), activities_minutes(lesson)
        if total is not None and total.minutes is not None and added is None and not any(times_of(lesson)):
            yield from _by_stages(lesson, total, total.minutes)
        if total is not None and (over := _over(total)) is not None:
            yield over
            continue
        if total is None or total.minutes is None or added is None or total.minutes.overlaps(added):
            continue
        beside = _beside(lesson, total)
        if beside is None:
            continue
        beside += int(plan_of(lesson).beside)
        if total.minutes.overlaps(added + Minutes(beside, beside)) or _made_up_in_prose(lesson, total, added):
            continue
        added += Minutes(beside, beside)
        words = total.passage.text[total.start : total.end]
        more = f" + {beside}" if beside else ""
        message = (
            f"The lesson says {total.minutes}, but its activities add up to {added} ({_sum(lesson)}{more}). "
            "Change the total, or the time of an activity."
        )
        missing = total.minutes.low - added.high
        about = str(Minutes(missing, missing)) if missing > 0 else ""
        yield Found(total.passage.span(total.start, total.end), words, message, about=about)


def _parts_named(total: StatedTime) -> list[int]:
    """The minutes of the parts of a lesson that are listed behind its total, where nothing else stands there: 40
    minutes. Warm-up 5', Book 20', Goodbye 5'."""
    behind = total.passage.text[total.end :].strip(" .:;,–-()")
    rest = re.split(r"\s*[,;]\s*", behind)
    parts = [_NAMED_PART.fullmatch(part) for part in rest]
    if not all(parts):  # 1, 10 minutes; 2, 8 minutes
        parts = [_NUMBERED_PART.fullmatch(part) for part in re.split(r"\s*;\s*", behind)]
    if not all(parts):  # warm-up 4; Act. 1 – 6
        parts = [_BARE_PART.fullmatch(part) for part in rest]
    return [int(part[1]) for part in parts if part] if len(parts) >= _FEWEST_PARTS and all(parts) else []


def _over(total: StatedTime) -> Found | None:
    """A total that is less than the parts listed behind it."""
    parts, minutes = _parts_named(total), total.minutes
    if minutes is None or minutes.low != minutes.high or minutes.high >= sum(parts):
        return None
    told = " + ".join(map(str, parts))
    message = (
        f"The lesson says {minutes}, and the parts listed behind it add up to {sum(parts)} minutes ({told}). "
        "Change the total, or the time of a part."
    )
    return Found(total.passage.span(total.start, total.end), total.passage.text[total.start : total.end], message)


def _by_steps(activity: Activity) -> Iterator[Found]:
    """An activity's time that is not what its steps add up to, where each of them has one."""
    total, steps = stated_time(activity.part), steps_minutes(activity.part)
    added = add_up(steps)
    if total is None or total.minutes is None or len(steps) < _FEWEST_STEPS or total.minutes.overlaps(added):
        return
    told = " + ".join(map(_figure, steps))
    message = (
        f"The activity says {total.minutes}, but its steps add up to {added} ({told}). "
        "Change the total, or the time of a step."
    )
    words = total.passage.text[total.start : total.end]
    yield Found(total.passage.span(total.start, total.end), words, message)


def _by_prose(unit: Unit) -> Iterator[Found]:
    """A lesson whose total stands in the prose of its notes, and is not the sum of the other times they name, where
    that of every other lesson is: Read the poem. About five minutes. … The lesson takes forty minutes in all."""
    right, wrong = 0, []
    for lesson in unit.lessons:
        total = total_of(lesson)
        if total is None or total.minutes is None or total.passage.field:
            continue
        told = [one for one in minutes_told(lesson.part) if (one[0], one[1].start) != (total.passage, total.start)]
        times = [time.minutes for _, time in told]
        if len(times) < _FEWEST_PARTS or any(_TOGETHER.match(passage.text, time.end) for passage, time in told):
            continue
        if total.minutes.overlaps(add_up(times)):
            right += 1
        else:
            wrong.append((total, total.minutes, times))
    if right >= _FEWEST_PARTS and len(wrong) == 1:
        (total, minutes, times), *_ = wrong
        message = (
            f"The lesson says {minutes}, and the times in its notes add up to {add_up(times)} "
            f"({' + '.join(map(_figure, times))}). Change the total, or one of them."
        )
        words = total.passage.text[total.start : total.end]
        yield Found(total.passage.span(total.start, total.end), words, message)


def _by_rows(unit: Unit) -> Iterator[Found]:
    """A lesson whose total leaves out what its plan has beside the activities (Begin | – | 5), where that of every
    other lesson counts it."""
    right, wrong = 0, []
    for lesson in unit.lessons:
        total, added, beside = total_of(lesson), activities_minutes(lesson), plan_of(lesson).beside
        if total is None or total.minutes is None or added is None or not beside:
            continue
        if total.minutes.overlaps(added + Minutes(beside, beside)):
            right += 1
        elif total.minutes.overlaps(added):
            wrong.append((lesson, total, added, Minutes(beside, beside)))
    if right > 1 and len(wrong) == 1:
        (lesson, total, added, more), *_ = wrong
        message = (
            f"The lesson says {total.minutes}, but the rows of its plan add up to {added + more} "
            f"({_sum(lesson)} + {_figure(more)}). Change the total, or the time of a row."
        )
        words = total.passage.text[total.start : total.end]
        yield Found(total.passage.span(total.start, total.end), words, message)


def _by_stages(lesson: Lesson, total: StatedTime, minutes: Minutes) -> Iterator[Found]:
    """A total that is not what the stages of the lesson's notes add up to, where no activity has a time."""
    stages = stages_minutes(lesson)
    added = add_up(stages)
    if stages and not minutes.overlaps(added):
        told = " + ".join(map(_figure, stages))
        message = (
            f"The lesson says {minutes}, but its stages add up to {added} ({told}). "
            "Change the total, or the time of a stage."
        )
        words = total.passage.text[total.start : total.end]
        yield Found(total.passage.span(total.start, total.end), words, message)


def _beside(lesson: Lesson, total: StatedTime) -> int | None:
    """The minutes that the notes name beside the total, but for those of the activities: hello ring 4, tidy-up 3. Only
    where all that follows the total is such a list: (24 children), or 45 with the song are none. None where several
    numbers follow otherwise: it cannot be told what they are."""
    rest = total.passage.text[total.end :].strip(" :;,.–-()")
    parts = [_PART.fullmatch(part.strip()) for part in re.split(r"[+,;]", rest)]
    if not rest or not all(parts):
        return None if len(list(numbers_in(rest))) > 1 else 0
    beside: list[int] = []
    of_activities = told = False
    for part in filter(None, parts):
        if part["what"]:
            of_activities = part["what"].casefold().startswith("activit")
            told = told or of_activities
        if not of_activities:  # activities 16 + 17: both are
            beside.append(int(part["number"]))
    if told:
        return sum(beside)
    times = times_of(lesson)
    named = Counter(beside) - Counter(int(one.minutes.low) for one in times if one and one.minutes)
    return sum(number * times for number, times in named.items())


def _made_up_in_prose(lesson: Lesson, total: StatedTime, added: Minutes) -> bool:
    """Whether minutes that the lesson's notes name in prose make up what the activities leave of the total."""
    told = [
        time.minutes
        for passage, time in minutes_told(lesson.part)
        if (passage, time.start) != (total.passage, total.start)
    ]
    sums = [added]
    for minutes in told[:_MOST_TOLD]:
        sums += [one + minutes for one in sums]
    return total.minutes is not None and any(total.minutes.overlaps(one) for one in sums)


def _sum(lesson: Lesson) -> str:
    """The times of a lesson's activities as a sum: `10 + 5–10 + 20`."""
    times = times_of(lesson)
    return " + ".join(_figure(time.minutes) for time in times if time and time.minutes)


def _figure(minutes: Minutes) -> str:
    return str(minutes).removesuffix("s").removesuffix(" minute")
