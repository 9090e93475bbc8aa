"""Children are told to do something that asks for care, and the teacher's notes do not say what care.

A child of six holds the scissors the way the book shows. The teacher who opens the notes five minutes before the
lesson has nothing else to go by. So where children cut, throw, taste, climb, light or photograph something, the notes
say what an experienced teacher would do.

Read are the instructions, the steps and other teacher's notes, the materials, and the page. Learned tables weigh each
sentence with those around it, so that sawing two eyes into a pumpkin counts without the word knife, one dangerous step
counts among many harmless ones, and what is mimed, drawn, told, sung or only a toy stays quiet. The words that weighed
most are pointed at. What weighs little stays a query.

A note is enough when it names, in any words, one measure that meets this act: its tool, its place, its food, its
person. It may stand in the activity's Safety field or the lesson's, in the steps, the materials or on the page. A
note about another act is none; nor, for a serious hazard, are general words; nor, where nuts or sesame are eaten, is
one that speaks of nobody's allergy. Where there is a note of another act, its author has thought of what can happen:
that weighs less; so does food that no list of Materials has, and what a game, a song or talk may only call for, unless
it needs no thing (a blindfold, a chair), for most of it is mimed or only spoken of. What an ideal
note would say besides stands in the table. Some hazards only suggest a note, and so does what an earlier activity of
the lesson has cared for; those are named once a unit. Stops are never carried over from an old book, and a stet needs
a reason of at least four words.

This prompts the usual caution. It is no risk assessment: the school's policy, local rules and licensed practice
decide. The table of hazards, with the source of every row, is lint_rules/safety/data/hazards.yaml; how well acts and
notes are told apart is measured in tests/safety/FIGURES.md.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from lint_rules import lazy_re
from lint_rules.finding import Found, Mend, Severity
from lint_rules.manuscript.insert_field import field_edit
from lint_rules.manuscript.model import Audience, Part
from lint_rules.rule import Example, Limit, Reading, Rule
from lint_rules.safety.activity_text import ActivityText, Place, activity_texts
from lint_rules.safety.foods import has_real_food, leaves_allergens_open
from lint_rules.safety.hazards import Hazard, hazards
from lint_rules.tables import words

if TYPE_CHECKING:  # the tables of acts bring numpy, which a remembered run does not need
    from lint_rules.safety.acts import Act

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
        Example(
            "### 2 Taste and say. {.speaking}\n\n::: teacher\n**Materials:** plates with mango and peanut biscuit\n"
            "**Steps:** Everybody tastes a piece of each food.\n"
            "**Safety:** Ask families about allergies first. Children sit down while they eat.\n:::\n"
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
        Example(
            "### 1 Do what I say. {.game}\n\nStir the soup! Chop the onion! Eat it!\n\n::: teacher\n"
            "**Steps:** Call out the verbs. Children mime. They use no real tools.\n:::\n",
            why="mimed",
        ),
        Example("### 1 Say the rhyme. {.speaking}\n\nEat a pea, please, eat a bean!\nA grape and a cake on a plate!\n"),
        Example(
            "### 1 Make a paper boat. {.make}\n\nFold. Fold again.\n\n::: teacher\n"
            "**Support:** fold the corners for the child\n:::\n",
            why="nothing is cut",
        ),
        Example(
            "## Lesson 1: Kites {.make}\n\n::: teacher\n| Stage | Time | The teacher |\n|---|---|---|\n"
            "| 1 Make | 20 min | Pairs make a kite. **Safety:** Round-ended scissors; they sit down to cut. |\n"
            "| 2 Talk | 9 min | They talk. |\n:::\n\n### 1 Make a kite. {.make}\n\n1. Cut four pieces of paper.\n\n"
            "### 2 Talk. {.speaking}\n\nTalk.\n",
            why="the care stands in the plan, in the row of the activity",
        ),
    ),
    fails=(
        Example(
            "## Lesson 1: Sticks {.make}\n\n::: teacher\n**Time:** 20 minutes\n\n"
            "Activity 1. Ten minutes. Sing slowly.\n\nActivity 2. Ten minutes. Every child has a stick. "
            "«With a vegetable peeler the child takes» the bark off.\n"
            ":::\n\n### 1 Sing. {.song}\n\nLa la la!\n\n### 2 Make your stick. {.make}\n\nMake it.\n",
            why="the lesson's notes have a paragraph for each activity",
        ),
        Example(
            "## Lesson 1: The ship {.story}\n\n::: teacher\n**Steps:** 1 Read the story. 2 In groups of five, "
            "children «climb on the chairs» and shout.\n:::\n\n### 1 Read. {.story}\n\nThe ship goes.\n",
            why="an act in the plan of a lesson",
            weight=Severity.QUERY,
        ),
        Example(
            "### 4 Act the play. {.speaking}\n\nMina is the King.\n\n::: teacher\n**Steps:** In Scene 2 "
            "Mina and Tam «stand on the desks» and sway.\n"
            "**Safety:** The wool is held in the hand.\n:::\n",
            course="characters: [Mina, Tam]",
            why="parts that children play",
            weight=Severity.QUERY,
        ),
        Example(
            "### 2 Taste and say. {.speaking}\n\n::: teacher\n**Materials:** plates with mango and «peanut biscuit»\n"
            "**Steps:** Everybody tastes a piece of each food.\n"
            "**Safety:** Children wash their hands first and sit down while they eat.\n:::\n",
            why="clean hands help nobody against nuts",
        ),
        Example("### 2 «Cut out» a kite. Colour it. {.make}\n", weight=Severity.QUERY),
        Example(
            "### 1 Say the poem. {.speaking}\n\n::: teacher\n"
            "**Steps:** «Children light» the candle. They pretend to be mice.\n:::\n",
            why="only the mice are not real",
        ),
        Example(
            "### 2 Say a number and «throw the ball». {.game}\n",
            course="rules: {missing-safety-note: query}",
            weight=Severity.QUERY,
        ),
        Example(
            "### 1 Say the poem. {.speaking}\n\n::: teacher\n**Time:** 5 minutes\n"
            "**Steps:** «Children light the candle» and speak.\n:::\n"
        ),
        Example(
            "## Lesson 1: Party\n\n::: teacher\n**Materials:** «balloons», string\n:::\n\n### 1 Listen. {.song}\n",
            weight=Severity.QUERY,
        ),
        Example(
            "### 1 Do it. {.game}\n\n::: teacher\n**Steps:** «Carry the buckets» to the pond.\n:::\n",
            why="not sure, and in a game it may be played",
            weight=Severity.NOTE,
        ),
        Example(
            "### 1 Do it. {.make}\n\n::: teacher\n**Steps:** «Carry the buckets» to the pond.\n:::\n",
            why="not sure, where something is made",
            weight=Severity.QUERY,
        ),
        Example(
            "### 1 Act the play. {.speaking}\n\n::: teacher\n**Steps:** Children cut the wolf out of card with "
            "«craft knives».\n:::\n",
            why="said in so many words",
        ),
        Example(
            "### 1 Make a hedgehog. {.make}\n\n::: teacher\n**Steps:** «Each child peels one end» of a stick "
            "with a potato peeler.\n**Safety:** Children wash their hands with soap afterwards.\n:::\n",
            why="clean hands keep nobody from a blade",
            weight=Severity.QUERY,
        ),
        Example(
            "### 1 «Saw two eyes» and a mouth into the pumpkin. {.make}\n\n::: teacher\n"
            "**Safety:** Cover the desks with newspaper.\n:::\n",
            why="the note speaks of something else",
            weight=Severity.QUERY,
        ),
        Example(
            "## A {.words}\n\n### 1 Taste the fruit. {.make}\n\n::: teacher\n**Safety:** Ask families about allergies "
            "and diets first.\n:::\n\n### 2 Make a kebab. «Eat» it. {.make}\n\n1. Put the fruit on a straw.\n",
            why="cared for just before",
            weight=Severity.NOTE,
        ),
        Example(
            "## A {.words}\n\n### 1 Make a kebab. «Eat» it. {.make}\n\n1. Put the fruit on a straw.\n\n"
            "### 2 Taste the juice. {.make}\n\n::: teacher\n**Safety:** Ask families about allergies and diets first.\n"
            ":::\n",
            why="cared for in the same lesson",
            weight=Severity.NOTE,
        ),
        Example(
            "### 1 «Paint the mask with poster paint». {.make}\n\n### 2 Paint the box with poster paint. {.make}\n",
            why="a hazard that only suggests a note is named once a unit",
            weight=Severity.NOTE,
        ),
    ),
    limits=(
        Limit("36 hazards, what care is usual for each", "hazards.yaml, source of each row there"),
        Limit("a query or a stop from this score on", "labelled activities, tests/safety; sureness.csv"),
    ),
)

_STEP = lazy_re.compile(r"^\d{1,2}[.)]?\s+")
_WORDS = 35  # of a message: what reads as two sentences at a glance
_LEAST = 3  # words of the act that a message always shows


@dataclass(frozen=True, slots=True)
class _Open:
    """An act for which the notes name no care: its weight, where a draft belongs, whether there is a Safety note."""

    act: "Act"
    hazard: Hazard
    severity: Severity
    part: Part
    noted: bool


_TASTING = "food-tasting-allergy"
_WATER = "ponds-water"
_OF_WATER = lazy_re.compile(r"\b(?:water|pond|pool|stream|river)\b", re.I)
_POINTS = "sharp-points-and-edges"
_THINGS = frozenset({Place.STEPS, Place.MATERIALS, Place.LESSON_MATERIALS, Place.LIST})
_FLAME, _MELTING = "candles-fire-fireworks", "hot-glue-and-irons"
_WAX = lazy_re.compile(r"\bwax\b(?!.*\b(?:glue gun|iron)\b)", re.I | re.S)
_WASHING = lazy_re.compile(
    r"^(?=.*\b(?:wash|washes|washed|rinse|wipe|clean)\b)(?=.*\bhands\b)(?!.*\b(?:adult|sharp|cut)).*$", re.I
)
# What keeps tables and clothes clean: Put newspaper on the tables, because fat makes them dirty.
_TIDY = lazy_re.compile(
    r"^(?=.*\b(?:newspapers?|aprons?|old shirts?|tablecloths?|dirty|mess|messy)\b)"
    r"(?!.*\b(?:adults?|teachers?|you|sharp|cut\w*|hot|heat|burn\w*|cool|slip\w*)\b).*$",
    re.I,
)
_PLAYED = frozenset({"game", "song", "speaking"})
_PLAIN_CARE = 0.5  # a score: rather a care than not; the mere names of tools reach 0


def find(reading: Reading) -> Iterator[Found]:
    """Report acts that no note answers: once an activity, those that only suggest a note once a unit."""
    from lint_rules.safety.acts import acts_of, sureness

    suggested: dict[str, list[_Open]] = {}
    in_lesson: set[tuple[int, str]] = set()
    names = frozenset(form for name in reading.course.names for form in (name, name.upper()))
    texts = list(activity_texts(reading.unit))
    every = list(zip(texts, acts_of(texts, names), strict=True))
    hazards_of = [(text, frozenset(act.hazard for act in done)) for text, done in every]
    for text, done in every:
        acts = done
        if text.whole_lesson:  # what is only listed or planned must be surer, and was said where it is done
            sure = (act for act in done if act.plain or act.score >= sureness().stop)
            acts = [act for act in sure if (text.lesson, act.hazard) not in in_lesson]
        in_lesson.update((text.lesson, act.hazard) for act in acts)
        for item in _without_same_heat(list(_open(text, acts))):
            # What a lesson cares for elsewhere, the teacher has in mind who prepares it: the tasted fruit is eaten
            # now; not a nail, where scissors were cared for.
            points = item.hazard.id == _POINTS
            beside = (
                one
                for one, acted in hazards_of
                if one is not text and one.lesson == text.lesson and (not points or item.hazard.id in acted)
            )
            if item.severity is Severity.NOTE or any(_cares(one, item.hazard) for one in beside):
                suggested.setdefault(item.hazard.id, []).append(replace(item, severity=Severity.NOTE))
            else:
                yield _found(reading, item, others=0)
    for items in suggested.values():
        yield _found(reading, items[0], others=len(items) - 1)


def _without_same_heat(items: Sequence[_Open]) -> Iterator[_Open]:
    """What has no care, a flame and the wax that it melts once: lights a candle and lets the hot wax drip."""
    flames = {id(item.act.passage) for item in items if item.hazard.id == _FLAME}
    for item in items:
        said = item.act.passage.text[item.act.start : item.act.end]
        if not (item.hazard.id == _MELTING and id(item.act.passage) in flames and _WAX.search(said)):
            yield item


def _open(text: ActivityText, acts: Sequence["Act"]) -> Iterator[_Open]:
    from lint_rules.safety.acts import care_for, sureness

    care = care_for(text, [act.hazard for act in acts]) if acts else {}
    noted = any(said.place in (Place.SAFETY, Place.LESSON_SAFETY) for said in text.said)
    for act in acts:
        hazard = hazards()[act.hazard]
        # Where no note speaks of safety at all, or of clean hands alone, a plain act's care must be plain in the steps.
        unspoken = act.plain and not (noted and not _speaks_of_cleanness(text, act.hazard))
        lacking = care[act.hazard] < (_PLAIN_CARE if unspoken else sureness().enough)
        lacking = lacking and not (act.hazard == _WATER and _names_water(text))
        allergens = act.hazard == _TASTING and _leaves_allergens_open(text)
        if lacking or allergens:
            yield _Open(act, hazard, _severity(text, act, noted=noted and not allergens), text.part, noted)


def _speaks_of_cleanness(text: ActivityText, hazard: str) -> bool:
    """Say whether all that the safety notes speak of is clean hands and tables, which keep nobody from a blade, heat or
    a fall."""
    if hazard not in words("not_by_washing"):
        return False
    noted = [one.passage.text for one in text.said if one.place in (Place.SAFETY, Place.LESSON_SAFETY)]
    sentences = [sentence for one in noted for sentence in re.split(r"[.;!]\s*", one) if sentence.strip(" *")]
    return bool(sentences) and all(_WASHING.search(one) or _TIDY.search(one) for one in sentences)


def _severity(text: ActivityText, act: "Act", *, noted: bool) -> Severity:
    """How much it weighs that an act has no care: what is not sure, less; and less where a safety note stands, for its
    author had the activity's dangers in mind, and where food is tasted that no list of Materials has."""
    from lint_rules.safety.acts import sureness

    severity = Severity(hazards()[act.hazard].severity)
    both = act.plain and act.score > sureness().query  # weighed, and said in so many words
    sure = act.score >= sureness().stop or both
    if severity is Severity.STOP and (text.whole_lesson or not sure):
        severity = Severity.QUERY
    no_food = act.hazard == _TASTING and _lists_no_food(text)
    if no_food and not has_real_food(act.passage.text[act.start : act.end]):
        return Severity.NOTE  # Children chew and say: eat, eat, eat!
    if severity is Severity.QUERY and _is_only_said(text, act) and not sure:
        return Severity.NOTE
    if (noted and severity is not Severity.NOTE) or no_food:
        return Severity.QUERY if sure or act.plain else Severity.NOTE
    return severity


def _is_only_said(text: ActivityText, act: "Act") -> bool:
    """Say whether an act may only be called or mimed: it needs a thing, and stands in a game, a song or talk that makes
    none; not so where the teacher's notes say it in so many words (cut with craft knives)."""
    told = act.plain and act.passage.audience is Audience.TEACHER
    played = not _PLAYED.isdisjoint(text.kinds) and "make" not in text.kinds
    return played and not told and act.hazard not in words("bodily_hazards")


def _lists_no_food(text: ActivityText) -> bool:
    """Say whether there are Materials, and no food among them: the taste is mimed, or only spoken of."""
    listed = [one.passage.text for one in text.said if one.place in (Place.MATERIALS, Place.LESSON_MATERIALS)]
    return bool(listed) and not any(map(has_real_food, listed))


def _names_water(text: ActivityText) -> bool:
    """Say whether a safety note speaks of the water: Put the buckets on towels, watch the children near the water."""
    noted = (one.passage.text for one in text.said if one.place in (Place.SAFETY, Place.LESSON_SAFETY))
    return any(_OF_WATER.search(one) for one in noted)


def _cares(text: ActivityText, hazard: Hazard) -> bool:
    """Say whether an activity's own Safety names a care for a hazard."""
    from lint_rules.safety.acts import care_for, sureness

    noted = any(said.place is Place.SAFETY for said in text.said)
    return noted and care_for(text, [hazard.id])[hazard.id] >= max(_PLAIN_CARE, sureness().enough)


def _leaves_allergens_open(text: ActivityText) -> bool:
    done = [said.passage.text for said in text.said if said.place in _THINGS]
    told = [said.passage.text for said in text.said if said.passage.audience is Audience.TEACHER]
    return leaves_allergens_open(done, told)


def _found(reading: Reading, item: _Open, *, others: int) -> Found:
    act = item.act
    draft = item.hazard.draft(act.passage.text[act.start : act.end])
    edit = field_edit(reading.unit, item.part, "Safety", f"[check] {draft}")
    return Found(
        act.passage.span(act.start, act.end),
        act.passage.text[act.start : act.end],
        _message(item, others),
        severity=None if item.severity is Severity.STOP else item.severity,
        mend=Mend("add a draft of Safety, to be checked", (edit,)) if edit else None,
        key=item.hazard.id,
    )


def _message(item: _Open, others: int) -> str:
    hazard = item.hazard
    lack = "Safety speaks of other things" if item.noted else "the notes name no care"
    more = f" (and in {others} more activities)" if others else ""
    done = item.act.passage.text[item.act.start : item.act.end]
    after = f" is {hazard.act}{more}, and {lack}. Name what fits: {hazard.usual_for(done)}."
    said = _STEP.sub("", done).split()
    room = max(_LEAST, _WORDS - len(after.split()))
    first = (room - 1) // 2 if item.act.plain else room - 1  # the thing stands last: press … a hot iron
    shown = " ".join(said if len(said) <= room else [*said[:first], "…", *said[len(said) + first + 1 - room :]])
    return f"“{shown}”{after}"
