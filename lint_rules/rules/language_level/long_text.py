"""A story or a text longer than children of this level can read in one activity.

Every word costs a beginner effort, and a text that outlasts the child's strength is not read to its end: the point of
the story is lost on half the class. The course sets a length (`text: {words: 60}` in course.yaml). Counted are running
text and what the characters say on the page, without titles, items, captions and songs. An audio script is counted for
itself, and being longer than a text may be is only noted: children hear it more than once. How long the texts of a
course are is one decision, so its long texts are one point. A limit that the course has not set is a rule of thumb,
and over it is a note: a story is the heart of its unit, and most careful authors mean it to be long.
"""

import re
from collections.abc import Iterable, Iterator

from lint_rules import lazy_re
from lint_rules.course.defaults import default_limits
from lint_rules.finding import Found, Severity
from lint_rules.manuscript.counting import TEXT_ROLES, count_words, is_title, stage_directions, weight_over
from lint_rules.manuscript.model import Audience, DivKind, Heading, Part, Passage
from lint_rules.rule import By, Example, Gather, Limit, Reading, Rule, Within

_LIMIT = "levels: [{text: {words: 12}}]"
_STORY = "### 1 Read the story. {.story}\n\n"


RULE = Rule(
    name="long-text",
    family="language level",
    severity=Severity.QUERY,
    cure=(
        "Cut what the pictures tell, or make two activities of it. If your children read longer texts, set "
        "`text` for the level in course.yaml."
    ),
    passes=(
        Example(
            _STORY + "#### The kite in the tree\n\nThe kite is red.\n\nIt is in the ____ tree. Look!\n",
            course=_LIMIT,
            why="titles and gaps do not count",
        ),
        Example(
            "### 1 Read. {.reading}\n\nThe kite is red. It is in the tree.\n\n"
            "### 2 Read again. {.reading}\n\nThe dog is sad. Where is the kite?\n",
            course=_LIMIT,
            why="two activities, two texts",
        ),
        Example(
            "### 1 Read and match. {.reading}\n\n1. The kite is in the tree.\n2. The dog is in the boat.\n"
            "3. The hat is on the dog.\n",
            course=_LIMIT,
            why="items are no running text",
        ),
        Example(
            _STORY + "The kite is red. It is in the tree.\n\n"
            "::: {.audio track=1.1}\nMINA: The kite is red. It is in the tree.\n:::\n",
            course=_LIMIT,
            why="the story and its recording are one text",
        ),
        Example(
            _STORY + "**The kite in the tree**\n\nThe wind is blowing. A red kite is flying in it now.\n",
            course=_LIMIT,
            why="its title is not counted",
        ),
        Example(
            _STORY + "A cat.\n\n## Audio script\n\n::: {.audio track=1.1}\nMINA: Look at my kite! It's flying!\n:::\n\n"
            "::: {.audio track=1.2}\nRAFI: Oh no! It is up in a tree!\n:::\n",
            course=_LIMIT,
            why="two tracks",
        ),
    ),
    fails=(
        Example(
            "### 1 «Read the story.» {.story}\n\nThe wind is blowing. A red kite is flying.\n\n"
            "**Mina:** Look at my kite!\n\n**Rafi:** It is in the tree!\n",
            course=_LIMIT,
        ),
        Example(
            "### 1 «Listen.» {.listening audio=1.1}\n\n"
            "::: {.audio track=1.1}\nMINA: Look at my kite! It's flying!\n\nRAFI: Oh no! It is up in a tree!\n:::\n",
            course=_LIMIT,
            why="noted only",
            weight=Severity.NOTE,
        ),
    ),
    limits=(
        Limit(
            "over a limit that is the house default: nothing up to 25 in 100, then a note",
            "what authors of 146 judged courses thanked for; no published source",
        ),
        Limit(
            "words of running text in one activity: the level's `text: {words: …}`",
            "house defaults; for their order of magnitude see lint_rules/course/data/defaults.csv",
        ),
    ),
    gathers=(
        Gather(
            Within.COURSE,
            By.KEY,
            {
                "text": "{count} texts of this course are long (the level has {key}). Cut what the pictures tell, or "
                "set `text` for the level in course.yaml.",
                "script": "{count} audio scripts of this course are long (the level has {key}). Cut them, or let "
                "children listen in parts.",
            },
        ),
    ),
)


def find(reading: Reading) -> Iterator[Found]:
    """Report activities (and lessons' openings) whose text is over the level's limit, at their headings."""
    for heading, part in _texts(reading):
        own = [passage for passage in part.passages if passage.role in TEXT_ROLES]
        page = _words(reading, own, Audience.PUPIL)
        tracks = {passage.div for passage in own if passage.audience is Audience.LISTENER}
        scripts = ([passage for passage in own if passage.div == track] for track in tracks)
        script = max((_words(reading, spoken, Audience.LISTENER) for spoken in scripts), default=0)
        limit, usual = reading.level.limits.text_words, default_limits(reading.level.cefr).text_words
        if weight_over(page, limit, usual) is Severity.QUERY:
            weight = Severity.NOTE if limit == usual else Severity.QUERY
            yield _found(reading, heading, f"The text here has {page} words", weight)
        elif script > limit != usual:
            yield _found(reading, heading, f"The audio script here has {script} words", Severity.NOTE)


# What only names a part of the page.
_LABEL = lazy_re.compile(r"(?:picture|frame|panel|scene|part|page|box|bubble|verse|act)\s+(?:\d{1,2}|[A-Z])[.:]?", re.I)


def _texts(reading: Reading) -> Iterator[tuple[Heading, Part]]:
    unit = reading.read
    if unit.heading is not None:
        yield unit.heading, unit.opening
    for lesson in unit.lessons:
        yield lesson.heading, lesson.part
    for activity in unit.activities:
        yield activity.heading, activity.part


def _words(reading: Reading, passages: Iterable[Passage], audience: Audience) -> int:
    return sum(
        count_words(passage.text) - sum(count_words(passage.text[a:b]) for a, b in stage_directions(passage))
        for passage in passages
        if passage.audience is audience
        and _LABEL.fullmatch(passage.text.strip()) is None
        and not is_title(passage)
        and not {DivKind.WORDS, DivKind.PATTERN}.intersection(reading.unit.div_kinds(passage))
    )


def _found(reading: Reading, heading: Heading, what: str, severity: Severity | None) -> Found:
    level = reading.level
    limit = level.limits.text_words
    advice = (
        "Cut what the pictures tell, or make two activities of it."
        if what.startswith("The text")
        else "Cut it, or let children listen in two parts."
    )
    message = f"{what}; in {level.name} a text has up to {limit}. {advice}"
    weight = severity if severity is Severity.NOTE else None
    about = "script" if what.startswith("The audio") else "text"
    return Found(
        heading.passage.span(),
        heading.passage.text,
        message,
        weight,
        key=f"{about}s of up to {limit} words",
        about=about,
    )
