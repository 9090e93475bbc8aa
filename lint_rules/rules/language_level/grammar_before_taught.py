"""Grammar that a later unit of the same level teaches, met before it is taught.

A structure that turns up two units early is no help: the child cannot use it yet, and when its unit comes, it is no
longer new. Which unit teaches what is read from the units' front matter (`grammar: [present continuous]`). Read are
pages and audio scripts, once an activity for each structure; not instructions, word panels, greetings and other set
phrases, activities whose mistakes are deliberate, nor tests, which test-beyond-unit looks after. A yes/no question is
no new structure where its verb is known (`Can you swim?` after `I can swim`). In titles and songs alone it is a note.
"""

import re
from collections.abc import Iterator

from lint_rules import lazy_re
from lint_rules.finding import Found, Severity
from lint_rules.language.grammar.grammar_levels import names, standing
from lint_rules.manuscript.counting import first_words
from lint_rules.rule import By, Example, Gather, Limit, Need, Reading, Rule, Within
from lint_rules.unit_language.grammar_uses import Use, is_carried, is_listed_as_state


def _unit(number: int, grammar: str, page: str = "") -> str:
    """A small unit for the examples."""
    return (
        f"---\nlevel: level-1\nunit: {number}\ntitle: Unit {number}\ngrammar: [{grammar}]\n---\n\n"
        f"# Unit {number}\n\n## Lesson 1: Look {{.words}}\n\n### 1 Look and read. {{.reading}}\n\n{page}"
    )


RULE = Rule(
    name="grammar-before-taught",
    family="language level",
    severity=Severity.QUERY,
    cure=(
        "Say it with what children know by this unit, or teach it here and name it under `grammar` at the top "
        "of the file."
    ),
    passes=(
        Example(_unit(2, "can", "I can swim. Can you swim?\n"), others=(_unit(1, "present simple be"),)),
        Example(
            _unit(2, "present simple", "I can swim.\n"), others=(_unit(1, "can"),), why="an earlier unit taught it"
        ),
        Example(
            _unit(1, "can", "I can swim. Can you swim?\n"),
            others=(_unit(2, "yes/no questions"),),
            why="a question with a verb that is known",
        ),
        Example(
            _unit(1, "there is", "There is a kite in the tree.\n"),
            others=(_unit(2, "present simple be"),),
            why="the is of there is",
        ),
        Example(_unit(1, "can", "Hello! How are you? What's your name?\n"), others=(_unit(2, "wh-questions"),)),
        Example(
            _unit(1, "present simple be", "Where is the hat?\n"),
            others=(_unit(2, "questions with whose"),),
            why="asked with another word",
        ),
        Example(
            _unit(1, "past continuous", "The cat sleeps.\n"),
            course="levels: [{cefr: B1}]",
            others=(_unit(2, "present simple"),),
            why="two bands below the level: known from long ago",
        ),
        Example(
            _unit(1, "present simple be", "I can swim.\n"),
            others=(_unit(2, "'Can I have …?'"),),
            why="a pattern keeps back no more than it says",
        ),
        Example(
            _unit(1, "can", "I can swim. He walked home.\n"),
            others=(_unit(2, "past continuous with past simple and when"),),
            why="the second is known there, and only stands beside the first",
        ),
        Example(_unit(1, "can", "The wind is blowing.\n"), why="no unit teaches it: free at its band"),
        Example(
            _unit(1, "can", "::: teacher\n**Steps:** Children have got five minutes.\n:::\n"),
            others=(_unit(2, "have got"),),
        ),
    ),
    fails=(
        Example(
            _unit(1, "can", "I can swim. He «was walking» home.\n"),
            others=(_unit(2, "past continuous with past simple and when"),),
        ),
        Example(
            _unit(1, "present simple be", "It's a duck. It «can swim».\n\nA cat can't swim.\n"),
            others=(_unit(2, "can"),),
        ),
        Example(
            _unit(1, "can", "::: {.audio track=1.1}\nMINA: «Have you got» a kite?\n:::\n"),
            others=(_unit(3, "have got"),),
        ),
        Example(
            _unit(1, "present simple be", "It's a duck. «Can I have» a duck? I can swim.\n"),
            others=(_unit(2, "'Can I have …?'"),),
            why="the very pattern",
        ),
        Example(_unit(1, "present simple be", "«What is» this?\n"), others=(_unit(2, "question words"),)),
        Example(_unit(1, "present simple be", "«Whose hat is» this?\n"), others=(_unit(2, "questions with whose"),)),
    ),
    needs=frozenset({Need.LANGUAGE}),
    limits=(Limit("which unit teaches a structure", "the `grammar` labels of the units' front matter"),),
    gathers=(Gather(Within.UNIT, By.KEY),),
)


def find(reading: Reading) -> Iterator[Found]:
    """Report structures of later units of this level, once an activity."""
    course, level, unit = reading.course, reading.level, reading.unit.front.unit

    def is_known(name: str) -> bool:
        return standing(name, course, level, unit) is None

    for place in reading.grammar:
        early: dict[str, list[Use]] = {}
        for use in place.uses:
            if place.is_test or use.in_instruction or is_listed_as_state(use, course.words):
                continue
            where = standing(use.structure.name, course, level, unit, use.shown)
            if where is not None and where.same_level and not is_carried(use, is_known):
                early.setdefault(use.structure.name, []).append(use)
        for uses in early.values():
            yield _found(reading, uses)


def _found(reading: Reading, uses: list[Use]) -> Found:
    use = next((use for use in uses if not (use.in_title or use.sung)), uses[0])
    name = use.structure.name
    unit = reading.unit.front.unit
    where = standing(name, reading.course, reading.level, unit, use.shown)
    assert where is not None
    assert where.later is not None
    often = f", {len(uses)} times here" if len(uses) > 1 else ""
    said = f"“{first_words(use.text)}” ({names()[name].called}{often}) is taught in unit {where.later.unit}"
    message = f"{said}, and this is unit {unit}. {names()[name].instead or 'Say it otherwise.'}"
    light = all(use.in_title or use.sung for use in uses) or _is_passing(uses)
    span = use.passage.span(use.structure.start, use.structure.end)
    return Found(span, use.text, message, Severity.NOTE if light else None, key=name)


_OFTEN = 4  # uses in an activity: what authors of 146 judged courses thanked for, no published source
_WITH_DO = lazy_re.compile(r"\b(?:do|does)(?:n['’]t|\b)", re.I)
_LISTED = frozenset({"better", "best", "worse", "worst", "more", "most"})


def _is_passing(uses: list[Use]) -> bool:
    """Say whether forms only pass by: a verb or two of the present simple, which a story cannot be told without (says
    Tom), or a comparative that is learnt as a word (better, more)."""
    name, words = uses[0].structure.name, {first_words(use.text).casefold() for use in uses}
    if name == "present-simple":
        return len(uses) < _OFTEN and not any(map(_WITH_DO.search, words))
    return name in {"comparative", "superlative"} and words <= _LISTED
