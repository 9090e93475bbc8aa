"""A unit's test that leaves out a skill: nothing to listen to, nothing to read or write, or nothing to say.

A child who understands and speaks well may write little at six; a test on paper alone tells that child, and the family,
the wrong thing. A test should ask for listening, for reading or writing, and for speaking, or for what the course lists
under `test_skills`. The skills are the classes of the test's activities; of one that is marked as a test and no more
(*Do the test*, with all its parts) they are what its page tells children to do, or the Steps say that they do.
"""

import re
from collections.abc import Iterator, Sequence

from lint_rules import lazy_re
from lint_rules.course.test_skills import default_skills
from lint_rules.finding import Found, Severity
from lint_rules.manuscript.model import Activity, Audience, Lesson
from lint_rules.rule import By, Example, Gather, Limit, Reading, Rule, Within
from lint_rules.unit_language.tests_of import TEST

_LISTEN = "### 1 Listen and circle. {.test .listening}\n\n1. a kite\n\n"
_READ = "### 2 Read and write. {.test .reading .writing}\n\n1. The kite is ____.\n\n"
_SPEAK = "### 3 Look and say. {.test .speaking}\n\nWhat colour is it?\n"

RULE = Rule(
    name="test-skills",
    family="vocabulary map",
    severity=Severity.NOTE,
    cure=(
        "Add an activity for the skill and mark it, as in {.test .speaking}. What a test must ask for is set "
        "under `test_skills` in course.yaml."
    ),
    passes=(
        Example(f"## Test {{.test}}\n\n{_LISTEN}{_READ}{_SPEAK}"),
        Example(f"## Test {{.test}}\n\n{_LISTEN}{_SPEAK}### 4 Read. {{.reading}}\n\nThe kite is red.\n"),
        Example(
            "## Test {.test}\n\n### 1 Do the test. {.test}\n\n**A. Read and write.**\n\n1. It is a ____ .\n\n"
            "**B. Listen and draw.**\n\n**C. Ask your partner.**\n",
            why="one activity for all, and its page says what children do",
        ),
        Example(f"## Look {{.review}}\n\n{_LISTEN}", why="one test activity in a lesson is no unit test"),
        Example(
            f"## Test {{.test}}\n\n{_LISTEN}{_READ}",
            course="levels:\n  - test_skills: [listening, reading and writing]\n",
            why="the course asks for no more",
        ),
    ),
    fails=(
        Example(f"## «Test» {{.test}}\n\n{_LISTEN}{_READ}", why="nothing to say"),
        Example(f"## Lesson 6: «What can I do?» {{.test}}\n\n{_READ}{_SPEAK}", why="nothing to listen to"),
        Example(
            "## «Test» {.test}\n\n### 1 Do the test. {.test}\n\n**A. Read and write.**\n\n1. A ____ .\n\n::: teacher\n"
            "**Steps:** Tell children to write in silence. Listen for whispers. Nobody may speak.\n:::\n",
            why="what the teacher does",
        ),
        Example("## «Test» {.test}\n\n### 1 Do the test. {.test}\n\n**A. Read and write.**\n\n1. It is a ____ .\n"),
    ),
    limits=(Limit("listening, reading or writing, and speaking", "common practice, no source"),),
    gathers=(
        Gather(
            Within.COURSE,
            By.ABOUT,
            "{count} tests have nothing for {about}. Add an activity for it, or say under `test_skills` in course.yaml "
            "what a test must ask for.",
        ),
    ),
)


_BY_CHILDREN = lazy_re.compile(
    r"(?:^|(?<=[.!?] )|\d[.)] )(?:the )?(?:children|pupils|they|pairs|each child)\b[^.!?]*", re.I | re.M
)
_WORDS_OF = {
    skill: lazy_re.compile(rf"\b(?:{words})\b", re.I)
    for skill, words in {
        "listening": "listen|hear|audio|track",
        "reading": "read",
        "writing": "write|spell",
        "speaking": "say|speak|ask|tell|talk",
    }.items()
}


def find(reading: Reading) -> Iterator[Found]:
    """Report each test lesson that leaves a skill out, at its heading."""
    asked = reading.level.test_skills != default_skills(reading.level.cefr)
    for lesson in reading.unit.lessons:
        if TEST in lesson.classes and lesson.activities:
            missing = _missing(lesson, reading.level.test_skills)
            if missing:
                title = lesson.heading.passage
                skills, first = ", and nothing for ".join(missing), missing[0].partition(" ")[0]
                message = f"This test has nothing for {skills}. Add an activity marked {{.test .{first}}}."
                yield Found(title.span(), title.text, message, Severity.QUERY if asked else None, about=skills)


def _missing(lesson: Lesson, wanted: Sequence[Sequence[str]]) -> list[str]:
    skills = {skill for group in wanted for skill in group}
    kinds: set[str] = set()
    for activity in lesson.activities:
        kinds.update(activity.kinds if skills & {*activity.kinds} else _asked_by_words(activity))
    return [" or ".join(group) for group in wanted if not kinds & set(group)]


def _asked_by_words(activity: Activity) -> Iterator[str]:
    """The skills that an activity without such a class asks for, by the words of its page and what children do."""
    if "audio" in activity.heading.attributes.values:
        yield "listening"
    passages = (activity.heading.passage, *activity.part.passages)
    page = [one.text for one in passages if one.audience is Audience.PUPIL]
    notes = [one.text for one in passages if one.audience is Audience.TEACHER]
    text = "\n".join([*page, *(match[0] for note in notes for match in _BY_CHILDREN.finditer(note))])
    for skill, words in _WORDS_OF.items():
        if words.search(text):
            yield skill
