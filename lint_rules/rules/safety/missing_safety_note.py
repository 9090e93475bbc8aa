"""Children are told to do something that asks for care, and the teacher's notes do not say what care.

A child of six holds the scissors the way the book shows. The teacher who opens the notes five minutes before the lesson
has nothing else to go by. So where children cut, throw, taste, climb, light or photograph something, the notes say what
an experienced teacher would do.

Read are the instructions, the steps and other teacher's notes, the materials, and the steps on a page where children
make or play something. Never what children read or hear, and not what they draw, mime or say. A note counts in the
activity's Safety field, in the lesson's, or anywhere in the activity's notes where it speaks of the care to take. Some
hazards stop a commit, some ask the author, some only suggest a note (those once a unit).

This prompts the usual caution. It is no risk assessment: the school's policy, local rules and licensed practice decide.
The table of hazards, with the source of every row, is lint_rules/safety/data/hazards.yaml.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from lint_rules.finding import Found, Mend, Severity
from lint_rules.manuscript.insert_field import field_edit
from lint_rules.manuscript.model import Part, Passage
from lint_rules.rule import Example, Limit, Reading, Rule
from lint_rules.safety.activity_actions import ActivityActions, actions_of
from lint_rules.safety.cue_index import Cue
from lint_rules.safety.cue_lists import missing_topics
from lint_rules.safety.hazards import Hazard, Topic

RULE = Rule(
    name="missing-safety-note",
    family="safety",
    severity=Severity.STOP,
    cure=(
        "Write into the notes, after **Safety:**, what the teacher should see to. `hornbook mend` writes a "
        "draft, marked [check], for you to fit to your school's own rules."
    ),
    passes=(
        Example("### 2 Cut the odd one out. {.odd-one-out}\n\n1. red, blue, dog\n", why="nothing is cut"),
        Example(
            "### 2 Cut out a kite. {.make}\n\n::: teacher\n**Time:** 10 minutes\n"
            "**Safety:** Use round-ended scissors and keep children seated. Follow your own school's rules.\n:::\n"
        ),
        Example(
            "## Lesson 1: Kites\n\n::: teacher\n**Materials:** scissors, paper\n"
            "**Safety:** Children sit down to cut. Your school's rules come first.\n:::\n\n"
            "### 1 Cut out a kite. {.make}\n",
            why="the lesson's note covers its activities",
        ),
        Example("### 1 Draw a balloon. Colour the candle. {.writing}\n", why="drawn, not held"),
        Example("Light the candle! said Dora. Run to the door!\n", why="a story, not something to do"),
        Example(
            "### 1 Listen and touch the dog. {.game}\n\n::: teacher\n**Steps:** Put the flashcards on the wall. "
            "Children take turns to throw the dice and point.\n:::\n",
            why="flashcards and dice",
        ),
        Example(
            "### 1 Act out the café. {.speaking}\n\n::: teacher\n**Materials:** flashcards (milk, egg), toy food\n"
            "**Steps:** Children order fish and chips. Make a menu with pizza and cake first.\n:::\n"
        ),
        Example(
            "### 1 Play the game. {.game}\n\n::: teacher\n"
            "**Steps:** Do not let children run to the board: they walk.\n:::\n"
        ),
    ),
    fails=(
        Example("### 2 «Cut out» a kite. Colour it. {.make}\n", weight=Severity.QUERY),
        Example(
            "### 2 Say a number and «throw the ball». {.game}\n",
            course="rules: {missing-safety-note: query}",
            weight=Severity.QUERY,
        ),
        Example(
            "### 1 Sing the song. {.song}\n\n::: teacher\n**Time:** 5 minutes\n"
            "**Steps:** Children «light the candle» and sing.\n:::\n"
        ),
        Example("## Lesson 1: Party\n\n::: teacher\n**Materials:** «balloons», string\n:::\n\n### 1 Listen. {.song}\n"),
        Example(
            "### 1 Read and do. {.make}\n\n1. Wash your hands.\n2. «Slice the banana».\n\n::: teacher\n"
            "**Safety:** An adult does the cutting.\n:::\n",
            why="the note does not say where the knives go",
        ),
        Example(
            "### 1 «Glue the picture» on the poster. {.make}\n\n### 2 Glue the shapes on the card. {.make}\n",
            why="a hazard that only suggests a note is named once a unit",
            weight=Severity.NOTE,
        ),
    ),
    limits=(
        Limit("36 hazards: their cues, decoys, and what a note must say", "hazards.yaml, source of each row there"),
    ),
)

_DEFERS = (
    "This prompts the usual caution and is no risk assessment: "
    "the school's policy, local rules and licensed practice decide."
)


@dataclass(frozen=True, slots=True)
class _Open:
    """A hazard that no note answers: where it shows, what a note still has to say, and the notes a draft belongs in."""

    cue: Cue
    passage: Passage
    missing: tuple[Topic, ...]
    part: Part

    @property
    def severity(self) -> Severity:
        if self.cue.raised:
            return Severity.STOP
        hazard = self.cue.hazard
        return Severity((self.cue.listed and hazard.listed) or hazard.severity)


def find(reading: Reading) -> Iterator[Found]:
    """Report hazards that no note answers: once an activity, those that only suggest a note once a unit."""
    every_safety = [text for actions in actions_of(reading.unit) for text in actions.safety]
    suggested: dict[str, list[_Open]] = {}
    in_lesson: dict[tuple[int, str], bool] = {}
    for actions in actions_of(reading.unit):
        for item in _open(actions):
            hazard = item.cue.hazard
            if item.severity is Severity.NOTE:
                if not missing_topics(hazard, every_safety, []):
                    continue
                suggested.setdefault(hazard.id, []).append(item)
            elif not (actions.whole_lesson and (actions.lesson, hazard.id) in in_lesson):
                in_lesson[actions.lesson, hazard.id] = True
                yield _found(reading, item, others=0)
    for items in suggested.values():
        yield _found(reading, items[0], others=len(items) - 1)


def _open(actions: ActivityActions) -> Iterator[_Open]:
    for cue, passage in actions.cues():
        missing = missing_topics(cue.hazard, actions.safety, actions.notes)
        if missing:
            yield _Open(cue, passage, missing, actions.part)


def _found(reading: Reading, item: _Open, *, others: int) -> Found:
    cue, passage = item.cue, item.passage
    edit = field_edit(reading.unit, item.part, "Safety", f"[check] {cue.hazard.draft_note}")
    return Found(
        passage.span(cue.start, cue.end),
        passage.text[cue.start : cue.end],
        _message(cue.hazard, item.missing, others),
        severity=None if item.severity is Severity.STOP else item.severity,
        mend=Mend("add a draft of Safety, to be checked", (edit,)) if edit else None,
        key=cue.hazard.id,
    )


def _message(hazard: Hazard, missing: tuple[Topic, ...], others: int) -> str:
    demand = hazard.note_must_address
    gists = "; ".join(topic.gist.replace(";", ",") for topic in missing)
    if len(missing) < len(demand.topics):
        first = f"{hazard.title}: the safety note does not say all that is usual yet. Still missing: {gists}."
    elif demand.require == "any":
        first = f"{hazard.title}: the notes do not say what care to take. Usual is at least one of: {gists}."
    else:
        first = f"{hazard.title}: the notes do not say what care to take. Usual is: {gists}."
    more = f" {others} more of this unit's activities {'ask' if others > 1 else 'asks'} for it." if others else ""
    return f"{first}{more} A draft: “{hazard.draft_note}” {_DEFERS}"
