"""An instruction that asks a child to do more things than it can keep in order.

`Match and write` are two steps; `Cut, fold, colour and write` are four, and the child who is folding has forgotten the
rest. The course sets how many (`instruction: {steps: 2}` in course.yaml). Steps are the imperatives of the
instruction: `Match the words and the pictures` is one step, and so is `Ask and answer`. To look or to listen is none
beside another, nor is working in pairs or groups; what a colon introduces is a name (Play the game: Stop and go). One
step more than the house default is nothing: it is a rule of thumb, and children do `Read, choose and write` every day.
"""

import re
from collections.abc import Iterable, Iterator

from lint_rules import lazy_re
from lint_rules.course.defaults import default_limits
from lint_rules.finding import Found, Severity
from lint_rules.language.grammar.steps import steps_of
from lint_rules.rule import By, Example, Gather, Limit, Need, Reading, Rule, Within

_LIMIT = "levels: [{instruction: {steps: 2}}]"  # the house default for A1
_SET = "levels: [{cefr: A2, instruction: {steps: 2}}]"

RULE = Rule(
    name="too-many-steps",
    family="instructions",
    severity=Severity.QUERY,
    cure="Cut it in two, or let the teacher lead the first steps: the child's own task stays on the page.",
    passes=(
        Example("### 1 Listen and point. {.listening}\n", course=_LIMIT),
        Example("### 1 Match the words, the pictures and the sounds. {.reading}\n", course=_LIMIT, why="one step"),
        Example("### 1 Write the number, the letter and the name. {.writing}\n", course=_LIMIT, why="one step"),
        Example("### 1 Ask and answer in pairs. {.speaking}\n", course=_LIMIT),
        Example("### 1 Look at the picture. Don't write. {.speaking}\n", course=_LIMIT),
        Example("### 1 What can you see? Point and say. {.speaking}\n", course=_LIMIT, why="a question is no step"),
        Example("### 1 Point, say and clap. {.listening}\n", course="levels: [{instruction: {steps: 3}}]"),
        Example("### 1 Look, listen, read and circle. {.listening}\n", course=_SET, why="read and circle"),
        Example("### 1 Show your clock. Ask and answer. {.speaking}\n", course=_SET),
        Example("### 1 Point, say and draw. {.reading}\n", course=_LIMIT, why="one more than a rule of thumb says"),
        Example("### 1 Play the game: Stop and go. {.game}\n", course=_LIMIT, why="the name of a game"),
        Example("### 1 Work in pairs. Ask and answer. {.speaking}\n", course=_LIMIT),
    ),
    fails=(
        Example("### 2 «Cut, fold, colour and write.» {.make}\n", course=_LIMIT),
        Example("### 2 «Listen and point. Then say and draw.» {.listening}\n", course=_SET),
        Example("### 2 «Match the pictures, read the story and answer.» {.reading}\n", course=_SET),
        Example("### 2 «Read the story and draw it.» {.reading}\n", course="levels: [{instruction: {steps: 1}}]"),
    ),
    needs=frozenset({Need.LANGUAGE}),
    limits=(
        Limit(
            "steps in an instruction: the level's `instruction: {steps: …}`",
            "house defaults; order of magnitude: Council of Europe, CEFR Companion Volume (2020) and Collated "
            "Representative Samples of Descriptors for Young Learners 7-10 (2018)",
        ),
    ),
    gathers=(Gather(Within.COURSE, By.WORDS),),
    fault="an instruction",
)

_NAME = lazy_re.compile(r"\b(?:game|song|chant|rhyme|story|play|poem)\b[^.!?:]*:|^play\b[^.!?:]*:", re.I)
_TOGETHER = lazy_re.compile(r"(?:work (?:in|with)|get into)\b", re.I)
_SENSES = lazy_re.compile(r"(?:look|listen)\b(?! for\b)", re.I)  # but look for something
_BOTH = lazy_re.compile(r"ask\s+and\s+$", re.I)  # ask and answer


def find(reading: Reading) -> Iterator[Found]:
    """Report instructions with more steps than the level's children can follow."""
    level = reading.level
    limit = level.limits.instruction_steps
    spare = 1 if limit == default_limits(level.cefr).instruction_steps else 0
    for activity in reading.unit.activities:
        passage = activity.heading.passage
        steps = _counted(passage.text, steps_of(passage.text, reading.analyse(passage)))
        if len(steps) > limit + spare:
            message = (
                f"This instruction has {len(steps)} steps ({', '.join(map(str.casefold, steps))}); children in "
                f"{level.name} ({level.cefr}) follow up to {limit}. Cut it in two, or let the teacher lead the first."
            )
            yield Found(passage.span(), passage.text, message)


def _counted(text: str, steps: Iterable[tuple[int, int]]) -> list[str]:
    """The steps that a child has to keep in order, as they stand in an instruction."""
    name = _NAME.search(text)
    own = [
        (start, end)
        for start, end in steps
        if not _TOGETHER.match(text, start)
        and not _BOTH.search(text[:start])
        and (name is None or start < name.start())
    ]
    further = [(start, end) for start, end in own if not _SENSES.match(text, start)]
    return [text[start:end] for start, end in further or own]
