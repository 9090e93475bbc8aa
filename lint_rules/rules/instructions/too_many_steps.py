"""An instruction that asks a child to do more things than it can keep in order.

`Listen and point` are two steps; `Cut, fold, colour and write` are four, and the child who is folding has forgotten the
rest. The course sets how many (`instruction: {steps: 2}` in course.yaml). Steps are the imperatives of the
instruction: `Match the words and the pictures` is one step, `Ask and answer` are two. What a colon introduces is a name
(Play the game: Stop and go), and working in pairs or groups is no step. One step more than the house default is a note:
it is a rule of thumb, and children do `Listen, point and say` every day.
"""

import re
from collections.abc import Iterator

from lint_rules.course.defaults import default_limits
from lint_rules.finding import Found, Severity
from lint_rules.language.grammar.steps import steps_of
from lint_rules.rule import By, Example, Gather, Limit, Need, Reading, Rule, Within

_LIMIT = "levels: [{instruction: {steps: 2}}]"

RULE = Rule(
    name="too-many-steps",
    family="instructions",
    severity=Severity.QUERY,
    cure="Make two activities of it, or let the teacher lead the later steps from the notes.",
    passes=(
        Example("### 1 Listen and point. {.listening}\n", course=_LIMIT),
        Example("### 1 Match the words, the pictures and the sounds. {.reading}\n", course=_LIMIT, why="one step"),
        Example("### 1 Write the number, the letter and the name. {.writing}\n", course=_LIMIT, why="one step"),
        Example("### 1 Ask and answer in pairs. {.speaking}\n", course=_LIMIT),
        Example("### 1 Look at the picture. Don't write. {.speaking}\n", course=_LIMIT),
        Example("### 1 What can you see? Point and say. {.speaking}\n", course=_LIMIT, why="a question is no step"),
        Example("### 1 Listen, point and say. {.listening}\n", course="levels: [{instruction: {steps: 3}}]"),
        Example("### 1 Play the game: Stop and go. {.game}\n", course=_LIMIT, why="the name of a game"),
        Example("### 1 Work in pairs. Ask and answer. {.speaking}\n", course=_LIMIT),
    ),
    fails=(
        Example("### 2 «Cut, fold, colour and write.» {.make}\n", course=_LIMIT),
        Example("### 2 «Listen and point. Then say.» {.listening}\n", course=_LIMIT, weight=Severity.NOTE),
        Example(
            "### 2 «Look at the pictures, read the story and answer.» {.reading}\n",
            course=_LIMIT,
            weight=Severity.NOTE,
        ),
        Example("### 2 «Look at the pictures and answer.» {.reading}\n", course="levels: [{instruction: {steps: 1}}]"),
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

_NAME = re.compile(r"\b(?:game|song|chant|rhyme|story|play|poem)\b[^.!?:]*:|^play\b[^.!?:]*:", re.I)
_TOGETHER = re.compile(r"work (?:in|with)\b|get into\b", re.I)


def find(reading: Reading) -> Iterator[Found]:
    """Report instructions with more steps than the level's children can follow."""
    level = reading.level
    limit = level.limits.instruction_steps
    for activity in reading.unit.activities:
        passage = activity.heading.passage
        named_from = _NAME.search(passage.text)
        steps = [
            (start, end)
            for start, end in steps_of(passage.text, reading.analyse(passage))
            if not _TOGETHER.match(passage.text, start) and (named_from is None or start < named_from.start())
        ]
        if len(steps) > limit:
            named = [passage.text[start:end].casefold() for start, end in steps]
            rest = f"“{named[limit]}”" + (" and what follows" if len(steps) > limit + 1 else "")
            message = (
                f"This instruction has {len(steps)} steps ({', '.join(named)}); children in {level.name} "
                f"({level.cefr}) follow up to {limit}. Make two activities of it, or leave {rest} to the "
                "teacher's Steps."
            )
            usual = default_limits(level.cefr).instruction_steps
            hardly = limit == usual and len(steps) == limit + 1
            yield Found(passage.span(), passage.text, message, Severity.NOTE if hardly else None)
