"""The same option twice among those that a child chooses from.

With a blue, b green and c blue two children who know the answer mark two letters, and one of them is told it is wrong.
"""

from collections.abc import Iterator

from lint_rules.finding import Found, Severity
from lint_rules.page.exercises.answers import plain
from lint_rules.page.exercises.model import Choice
from lint_rules.rule import Example, Reading, Rule

RULE = Rule(
    name="duplicate-option",
    family="exercises",
    severity=Severity.QUERY,
    since="0.2",
    cure="Write another option in its place, or take it out.",
    passes=(
        Example("1. The sky is …  a) blue  b) green  c) red\n2. Grass is …  a) blue  b) green  c) red\n"),
        Example("1. We *is / are* here. 2. He *is / are* here.\n\n::: answers\n1 are 2 is\n:::\n"),
        Example("1. a) ![](a.svg) b) ![](b.svg)\n2. a) ![](c.svg) b) ![](d.svg)\n\n::: answers\n1 a 2 b\n:::\n"),
    ),
    fails=(
        Example(
            "1. Where do we cook?\n    - in the kitchen\n    - in bed\n    - «in bed»\n2. Where do we sleep?\n"
            "    - in bed\n    - in the bath\n    - in a cup\n\n::: answers\n1. in the kitchen\n2. in bed\n:::\n",
            why="options that nothing labels",
        ),
        Example("1. They *live ~ lives ~ «live»* here.\n2. I *am ~ is* six.\n\n::: answers\n1 live 2 am\n:::\n"),
        Example(
            "He (1) ____ home, and they (2) ____ glad.\n\n| (1) | goes | go | «goes» |\n|---|---|---|---|\n"
            "| (2) | is | are | am |\n\n::: answers\n1 goes 2 are\n:::\n",
            why="words for a text in a table",
        ),
        Example("1. He (live, lives) here.\n2. We (swim, swims, «swim»).\n\n::: answers\n1 lives 2 swim\n:::\n"),
        Example("1. The sky is …  a) blue  b) green  c) «blue»\n2. Grass is …  a) blue  b) green  c) red\n"),
        Example("1. Bats fly by day · night · «night».\n2. Owls can fly · read.\n\n::: answers\n1 night 2 fly\n:::\n"),
        Example("1 ☐ hen  ☐ dog  ☐ «hen»\n2 ☐ cat  ☐ cow  ☐ pig\n"),
    ),
)  # fmt: skip


def find(reading: Reading) -> Iterator[Found]:
    """Report options that stand twice."""
    for read in reading.readings.exercises:
        for exercise in read.exercises:
            for item in exercise.items:
                for choice in item.choices:
                    yield from _twice(choice)


def _twice(choice: Choice) -> Iterator[Found]:
    seen: dict[str, str] = {}
    for number, option in enumerate(choice.options, start=1):
        text = " ".join(option.text.casefold().split()).strip(" .,;")
        if not plain(option.text):
            continue
        if text in seen:
            again = option.label.text if option.label is not None else f"option {number}"
            message = f"“{option.text}” stands here twice, as {seen[text]} and as {again}. Give another option."
            yield Found(option.place.span, option.text, message)
        else:
            seen[text] = option.label.text if option.label is not None else f"option {number}"
