"""An instruction longer than a child of this level can hold in mind.

The instruction (the trade calls it the rubric) is the one text on the page that every child has to understand alone,
while the teacher is at another table. At Pre-A1 and A1 children follow very short, simple instructions. The course sets
a length (`instruction: {words: 8}` in course.yaml); a gap is no word, nor a letter to write (Write a, b, c), nor what
a test gives for it (6 points), and a hyphened word is one. What is hardly over a limit that nobody set is nothing, what
is a little over it a note; and two sentences that each keep to it are easy to follow.
"""

import re
from collections.abc import Iterator

from lint_rules import lazy_re
from lint_rules.course.defaults import default_limits
from lint_rules.finding import Found, Severity
from lint_rules.manuscript.counting import count_words, weight_over
from lint_rules.rule import By, Example, Gather, Limit, Reading, Rule, Within

# Letters to write: a, b, c; A or B.
_LETTERS = lazy_re.compile(
    r"\b[A-Za-z](?=\s*[,/–-]\s*[A-Za-z]\b(?!['’]))|(?<=[,/–-] )[A-Za-z]\b(?!['’])|\b[A-Z] or [A-Z]\b"
)
# What a test gives for it: (6 points), (4 marks), [5]
_POINTS = lazy_re.compile(r"[(\[](?:[^()\[\]]*\b(?:points?|marks?|pts?)\b[^()\[\]]*|\s*/?\s*\d+\s*)[)\]]", re.I)
_LIMIT = "levels: [{instruction: {words: 8}}]"

RULE = Rule(
    name="long-instruction",
    family="instructions",
    severity=Severity.QUERY,
    cure=(
        "Say only what the child does, one short order after the other. Show the rest in an example, and tell "
        "the teacher in the Steps."
    ),
    passes=(
        Example("### 1 Listen and point. {.listening}\n", course=_LIMIT),
        Example("### 12 Look at the picture. Colour the three kites. {.reading}\n", course=_LIMIT, why="eight words"),
        Example("### 3 Write ____ or ____ next to the six pictures here. {.writing}\n", course=_LIMIT, why="gaps"),
        Example("### 9 Put the story in order. Write a, b, c, d, e. {.reading}\n", course=_LIMIT, why="letters"),
        Example("### 4 Look at the map and write six words. (6 points) {.test .writing}\n", course=_LIMIT),
        Example("### 4 Look at the map and write the words. [1 mark each] {.test .writing}\n", course=_LIMIT),
        Example("### 3 Read the rhyme and draw a line under the oa words. {.reading}\n", why="hardly over ten"),
        Example(
            "### 3 Read about Nan and Gus. Write the twelve words from the box. {.reading}\n", why="two short ones"
        ),
        Example(
            "### 1 Look. {.reading}\n\n::: teacher\n**Steps:** Children look at the picture, name what they see "
            "and point to it.\n:::\n",
            course=_LIMIT,
            why="the teacher reads this",
        ),
    ),
    fails=(
        Example("### 1 «Look at the picture and say where the three kites are.» {.speaking}\n", course=_LIMIT),
        Example("### 2 «Read the **story** again and tick the pictures that you see.» {.reading}\n", course=_LIMIT),
        Example(
            "### 3 «Read about Nan and Gus and write twelve words from this box.» {.reading}\n", weight=Severity.NOTE
        ),
        Example("### 3 «Read the grammar box. Look at the map in Activity 1. Write Yes or No.» {.reading}\n"),
        Example("### 3 «Draw a map (of your town). Write two things that you can see.» {.reading}\n", course=_LIMIT),
    ),
    limits=(
        Limit(
            "over a limit that is the house default: nothing up to 15 in 100, a note below half as much again",
            "what authors of some forty judged courses thanked for; no published source",
        ),
        Limit(
            "two sentences within such a limit: nothing",
            "30 of 34 long instructions were a shrug to judges of 19 courses, all of two sentences among them",
        ),
        Limit(
            "words in an instruction: the level's `instruction: {words: …}`",
            "house defaults; order of magnitude: Council of Europe, CEFR Companion Volume (2020) and Collated "
            "Representative Samples of Descriptors for Young Learners 7-10 (2018)",
        ),
    ),
    gathers=(Gather(Within.COURSE, By.WORDS),),
    fault="an instruction",
)


_MUCH, _JOBS = 1.5, 3  # times the house's own limit, and sentences: of 24 judged queries 19 were shrugs


def find(reading: Reading) -> Iterator[Found]:
    """Report instructions over the level's limit."""
    level = reading.level
    limit = level.limits.instruction_words
    usual = default_limits(level.cefr).instruction_words
    for activity in reading.unit.activities:
        passage = activity.heading.passage
        text = _LETTERS.sub("", _POINTS.sub("", passage.text))
        words = count_words(text)
        weight = weight_over(words, limit, usual)
        if weight is not None and not (limit == usual and _is_of_two_short_ones(text, limit)):
            message = (
                f"This instruction has {words} words; children in {level.name} ({level.cefr}) follow up to {limit}. "
                "Say only what they do; an example shows the rest, or the teacher's Steps tell it."
            )
            little = limit == usual and (words < limit * _MUCH or len(_sentences(text)) < _JOBS)
            severity = Severity.NOTE if weight is Severity.NOTE or little else None
            yield Found(passage.span(), passage.text, message, severity)


def _is_of_two_short_ones(text: str, limit: int) -> bool:
    """Say whether an instruction is two sentences, and each of them short enough."""
    counts = _sentences(text)
    return len(counts) == 2 and max(counts) <= limit


def _sentences(text: str) -> list[int]:
    """How many words each sentence of an instruction has."""
    return [count for count in map(count_words, re.split(r"[.!?]+(?:\s|$)", text)) if count]
