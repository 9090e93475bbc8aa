"""Where a safety note counts, how often a hazard is named, what the message says, and what the mend does."""

from pathlib import Path

import pytest

from lint_rules.finding import Found, Mend, Severity
from lint_rules.manuscript.reading import read_unit
from lint_rules.rule import Reading
from lint_rules.rules.safety.missing_safety_note import _message, _Open, find
from lint_rules.safety.acts import Act
from lint_rules.safety.hazards import Hazard, hazards
from lint_rules.source import Source
from tests.safety.labelled import lines_of
from tests.support import course_of, no_analysis, no_english

FRONT = "---\nlevel: level-1\nunit: 1\ntitle: Kites\n---\n\n# Kites\n\n"
COURSE = course_of(
    {
        "course.yaml": "title: T\nlevels:\n  - {name: level-1, cefr: A1, words: words/level-1.csv}\n",
        "words/level-1.csv": "word,part_of_speech,topic,unit\n",
    }
)


def reading_of(body: str) -> Reading:
    unit = read_unit(Source("level-1/unit-01.md", FRONT + body))
    return Reading(unit, COURSE, COURSE.levels[0], no_analysis, no_english)


def found_in(body: str) -> list[Found]:
    return list(find(reading_of(body)))


def keys(body: str) -> list[str]:
    return sorted(found.key for found in found_in(body))


def mended(body: str) -> str:
    """The unit's text after the mends of all findings, applied one after the other as a writer would."""
    text = FRONT + body
    for _ in range(9):
        unit = read_unit(Source("level-1/unit-01.md", text))
        found = list(find(Reading(unit, COURSE, COURSE.levels[0], no_analysis, no_english)))
        mend: Mend | None = next((f.mend for f in found if f.mend), None)
        if mend is None:
            return text[len(FRONT) :]
        for edit in mend.edits:
            text = text[: edit.span.start] + edit.text + text[edit.span.end :]
    raise AssertionError("the mend does not answer the finding")


DRAFT = (
    "Use round-ended scissors, keep children seated while they cut, and show them how to pass scissors handle first. "
    "Count the scissors out and in, and follow your school's policy on tools."
)
NOTE = "::: teacher\n**Safety:** Use round-ended scissors and sit down.\n:::\n\n"


@pytest.mark.parametrize(
    "body",
    [
        "## Lesson 1: A\n\n### 1 Cut out a kite. {.make}\n\n" + NOTE,
        "## Lesson 1: A\n\n" + NOTE + "### 1 Cut out a kite. {.make}\n",
        "## Lesson 1: A\n\n::: teacher\n**Materials:** scissors\n:::\n\n### 1 Cut out a kite. {.make}\n\n" + NOTE,
        "## Lesson 1: A\n\n### 1 Cut out a kite. {.make}\n\n::: teacher\n**Materials:** round-ended scissors\n:::\n",
        "## Lesson 1: A\n\n### 1 Cut out a kite. {.make}\n\n"
        "::: teacher\n**Steps:** Children sit down to cut, with round-ended scissors.\n:::\n",
        "### 1 Cut out a kite. {.make}\n\n" + NOTE,
        "## Lesson 1: A\n\n::: teacher\n**Materials:** round-ended scissors\n:::\n\n### 1 Cut out a kite. {.make}\n",
    ],
    ids=[
        "activity",
        "lesson",
        "lesson's materials, activity's note",
        "materials",
        "steps",
        "before any lesson",
        "lesson's materials",
    ],
)
def test_where_a_note_counts(body: str) -> None:
    assert keys(body) == []


@pytest.mark.parametrize(
    "body",
    [
        "## Lesson 1: A\n\n### 1 Cut out a kite. {.make}\n\n### 2 Sing. {.song}\n\n" + NOTE,
        "## Lesson 1: A\n\n" + NOTE + "## Lesson 2: B\n\n### 1 Cut out a kite. {.make}\n",
        "## Lesson 1: A\n\n### 1 Cut out a kite. {.make}\n\n::: answers\nUse round-ended scissors, sit down.\n:::\n",
    ],
    ids=["another activity's", "another lesson's", "the key"],
)
def test_where_a_note_does_not_count(body: str) -> None:
    assert keys(body) == ["scissors-cutting"]


TASTING = """## Lesson 1: A

### 1 Taste and say. {{.speaking}}

{page}

::: teacher
**Materials:** plates with mango and {food}
**Steps:** {steps} Everybody tastes a piece of each food.
**Safety:** {care}Children wash their hands first, sit down while they eat, and nobody has to taste.
:::
"""
HANDS = {"page": "Look!", "food": "peanut biscuit", "steps": "", "care": ""}


@pytest.mark.parametrize(
    "other",
    [
        {},
        {"page": "My family likes apples."},
        {"steps": "Put labels with the names beside the plates."},
    ],
)
def test_nuts_that_are_eaten_ask_for_a_word_about_allergies(other: dict[str, str]) -> None:
    assert keys(TASTING.format(**HANDS | other)) == ["food-tasting-allergy"]


@pytest.mark.parametrize(
    "other",
    [
        {"care": "Ask the families first. "},
        {"care": "Check the labels. "},
        {"food": "banana", "care": "Bring no nuts to class. "},
        {"food": "banana", "page": "The man has got a nut."},
    ],
)
def test_nuts_that_are_not_there_or_have_been_asked_about_ask_for_nothing(other: dict[str, str]) -> None:
    assert keys(TASTING.format(**HANDS | other)) == []


def test_one_finding_a_hazard_an_activity_and_none_for_the_lesson_too() -> None:
    body = (
        "## Lesson 1: A\n\n::: teacher\n**Materials:** scissors\n:::\n\n"
        "### 1 Cut out a kite. Cut out a star. {.make}\n\n"
        "::: teacher\n**Steps:** Children cut out the kite.\n:::\n\n### 2 Cut out a cloud. {.make}\n"
    )
    assert keys(body) == ["scissors-cutting", "scissors-cutting"]


def test_paint_in_every_lesson_is_one_note_a_unit() -> None:
    notes = "::: teacher\n**Materials:** poster paint\n:::\n\n"
    lesson = "## Lesson {0}: A\n\n" + notes + "### 1 Paint the card with poster paint. {{.make}}\n\n"
    found = found_in("".join(lesson.format(number) for number in range(1, 7)))
    assert [(item.key, item.severity) for item in found] == [("glue-paint-clay", Severity.NOTE)]


def test_a_glue_stick_asks_for_nothing() -> None:
    notes = "::: teacher\n**Materials:** glue sticks\n:::\n\n"
    assert keys(f"## Lesson 1: A\n\n{notes}### 1 Stick the picture on the card. {{.make}}\n\n") == []


def test_steps_on_the_page_of_something_to_make_count() -> None:
    need = "### 1 Make a lantern. {.make}\n\nYou need:\n\n- scissors\n- paper\n- a candle\n\n"
    assert keys(need + "1. Draw a star.\n2. Cut it out.\n3. Light the candle.\n") == [
        "candles-fire-fireworks",
        "scissors-cutting",
    ]
    assert (
        keys(need.replace("scissors", "pencils").replace("- a candle\n", "") + "1. Draw a star.\n2. Colour it.\n") == []
    )


def test_the_name_of_a_tool_is_no_care_and_its_kind_is_one() -> None:
    body = "### 1 Make a card. {.make}\n\nYou need:\n\n- %s\n- paper\n\n1. Draw a star.\n2. Cut it out.\n"
    assert keys(body % "scissors") == ["scissors-cutting"]
    assert keys(body % "round-ended scissors") == []
    listed = "### 1 Cut out a kite. {.make}\n\n::: teacher\n**Materials:** %s\n:::\n"
    for bare in ("scissors", "scissors, card, glue", "a pair of scissors for each child"):
        assert keys(listed % bare) == ["scissors-cutting"]
    for safe in ("safety scissors, card", "paper, blunt scissors, glue"):
        assert keys(listed % safe) == []


def test_one_dangerous_step_among_harmless_ones_weighs_whole() -> None:
    steps = [
        "Put the cards on the wall.",
        "Say: Point to the cat!",
        "Count to ten.",
        "Sing the song again.",
        "Sit down.",
    ]
    body = "### 1 Play a game. {.game}\n\n::: teacher\n**Steps:** %s\n:::\n"
    assert keys(body % " ".join(steps)) == []
    assert keys(body % " ".join([*steps[:3], "Light the candle with a match.", *steps[3:]])) == [
        "candles-fire-fireworks"
    ]


def test_what_a_story_tells_hides_no_step_of_the_teacher() -> None:
    story = (
        "### 1 Read the story. {.story}\n\nCut out the mask with your scissors!\n\n"
        "::: teacher\n**Steps:** Read it aloud.%s\n:::\n"
    )
    assert keys(story % "") == []
    assert keys(story % " Children cut out a mask.") == ["scissors-cutting"]


@pytest.mark.parametrize("line", list(lines_of(Path(__file__).parent / "materials.txt")))
def test_things_that_are_listed_and_ask_for_nothing(line: str) -> None:
    assert keys(BALL.format(things=line, steps="Look and say.")) == []


@pytest.mark.parametrize(
    ("line", "hazard"),
    [("a pair of scissors for each child", "scissors-cutting"), ("glue gun", "hot-glue-and-irons")],
)
def test_things_that_are_listed_and_ask_for_a_note(line: str, hazard: str) -> None:
    assert keys(BALL.format(things=line, steps="Look and say.")) == [hazard]


def test_what_children_read_or_hear_is_never_a_hazard() -> None:
    body = (
        "## Lesson 1: Light the candles! {.story}\n\n### 1 Read the story. {.story}\n\n"
        "Blow up the balloon! Run to the wall!\n\n"
        "1. Cut out the kite.\n\n::: {.audio track=1}\nDORA: Light the candle. Eat the grapes!\n:::\n\n"
        "::: words\nscissors, knife, balloon\n:::\n\n::: pattern\n| Stand on your chair. |\n|---|\n:::\n\n"
        "::: art\nChildren blow up balloons.\n:::\n\n::: answers\nTaste the fruit.\n:::\n\n"
        "::: teacher\n**Aim:** throw a ball\n**Words:** light the candle\n**Answers:** Stroke the rabbit.\n"
        "**Culture:** Children in Britain blow out candles.\n:::\n"
    )
    assert keys(body) == []


@pytest.mark.parametrize(
    ("notes", "after"),
    [
        (
            "::: teacher\n**Time:** 10 minutes\n**Steps:** Begin.\n:::\n",
            "::: teacher\n**Time:** 10 minutes\n**Steps:** Begin.\n**Safety:** [check] DRAFT\n:::\n",
        ),
        (
            "::: teacher\n**Time:** 10 minutes\n\n**Steps:** Begin.\n:::\n",
            "::: teacher\n**Time:** 10 minutes\n\n**Steps:** Begin.\n\n**Safety:** [check] DRAFT\n:::\n",
        ),
        (
            "::: teacher\n**Steps:**\n\n- Begin.\n- Stop.\n\n:::::\n",
            "::: teacher\n**Steps:**\n\n- Begin.\n- Stop.\n\n**Safety:** [check] DRAFT\n\n:::::\n",
        ),
        ("::: teacher\n:::\n", "::: teacher\n**Safety:** [check] DRAFT\n:::\n"),
        (
            "::: teacher\r\n**Time:** 10 minutes\r\n**Aim:** cut\r\n:::\r\n",
            "::: teacher\r\n**Time:** 10 minutes\r\n**Aim:** cut\r\n**Safety:** [check] DRAFT\r\n:::\r\n",
        ),
        (
            "::: teacher\n**Safety:** Be careful.\n:::\n",
            "::: teacher\n**Safety:** Be careful. [check] DRAFT\n:::\n",
        ),
        ("", ""),
    ],
)
def test_the_mend_puts_a_draft_into_the_notes(notes: str, after: str) -> None:
    heading = "### 1 Cut out a kite. {.make}\n\n"
    assert mended(heading + notes) == heading + after.replace("DRAFT", DRAFT)


def test_mends_of_several_hazards_end_up_in_one_note() -> None:
    text = mended("### 1 Cut out the mask. Light the candle. {.make}\n\n::: teacher\n**Time:** 9 minutes\n:::\n")
    assert text.count("**Safety:**") == 1
    assert text.count("[check]") >= 1


BALL = (
    "## Lesson 1: A\n\n::: teacher\n**Materials:** {things}\n:::\n\n"
    "### 1 Play. {{.game}}\n\n::: teacher\n**Steps:** {steps}\n:::\n"
)


@pytest.mark.parametrize(
    ("things", "steps", "expected"),
    [
        ("cards, a ball", "Children sit in a circle and roll the ball.", []),
        ("cards, a ball", "Pass the red ball round.", []),
        ("cards, a ball", "Play the ball game.", []),
        ("a rubber band", "Flick the rubber band at the can.", ["catapults-darts-throwing"]),
        ("elastic bands, tins", "Put an elastic band round the tin. Play your drum.", []),
        ("a ball", "Roll the dice.", []),
    ],
)
def test_a_ball_that_is_only_rolled_asks_for_nothing(things: str, steps: str, expected: list[str]) -> None:
    assert keys(BALL.format(things=things, steps=steps)) == expected


BOARD = (
    "### 1 Play the market game. {{.game}}\n\nGo back two. The goat eats your bread. SUPPER!\n\n"
    "::: teacher\n**Materials:** {things}\n\n**Steps:** Throw the dice. {steps}\n:::\n"
)


@pytest.mark.parametrize(
    ("things", "steps", "expected"),
    [
        ("dice", "First to supper wins, and the rest eat too.", []),
        ("dice, bread, honey", "First to supper wins, and the rest eat too.", ["food-tasting-allergy"]),
        ("dice", "Whoever gets to supper tastes the honey.", ["food-tasting-allergy"]),
    ],
)
def test_on_the_squares_of_a_board_nobody_eats(things: str, steps: str, expected: list[str]) -> None:
    assert keys(BOARD.format(things=things, steps=steps)) == expected


@pytest.mark.parametrize(
    ("step", "expected"),
    [
        ("Hold the compass flat and turn until the needle points to N.", []),
        ("Push the needle through the felt.", ["sharp-points-and-edges"]),
    ],
)
def test_the_needle_of_a_compass_pricks_nobody(step: str, expected: list[str]) -> None:
    assert keys(f"### 1 Do it. {{.game}}\n\n::: teacher\n**Steps:** {step}\n:::\n") == expected


def test_what_two_friends_say_is_no_act() -> None:
    page = "### 1 Ask a friend. {.speaking}\n\nA: *Do you like pineapples?*\n\nB: *Tam eats pineapples.*\n"
    assert keys(page) == []


def test_cold_milk_that_is_poured_off_is_no_work_with_heat() -> None:
    steps = "1. Pour the cold cream into the jar.\n2. Shake the jar.\n3. Pour {what} into the cup.\n"
    note = "\n::: teacher\n**Safety:** Ask families about allergies. Plastic jars, hands washed.\n:::\n"
    make = "### 1 Make butter. {{.make}}\n\n" + steps + note
    assert keys(make.format(what="the milk")) == []
    assert keys(make.format(what="the boiling water")) == ["hot-water-cooking"]


def test_the_message_says_in_two_sentences_what_is_done_and_what_is_usual() -> None:
    (found,) = found_in("### 1 Cut out a kite. {.make}\n")
    assert found.message == (
        "“Cut out” is cutting with scissors, and the notes name no care. "
        "Name what fits: round-ended scissors, sitting down to cut, or an adult who watches."
    )
    assert (found.severity, found.text) == (Severity.QUERY, "Cut out")


def test_one_measure_for_this_act_is_enough_and_one_for_another_is_none() -> None:
    act = "### 1 Slice the banana with a knife. {.make}\n\n::: teacher\n**Safety:** %s\n:::\n"
    assert keys(act % "Table knives only, one adult at each table, fingers tucked in.") == []
    assert keys(act % "Cover the desks with newspaper.") == ["knives-and-blades"]


def test_what_keeps_tables_clean_keeps_nobody_from_heat() -> None:
    act = "### 1 Make a cake. {.make}\n\n::: teacher\n**Steps:** Let two children pour the hot fat into the bowl.\\\n"
    act += "**Safety:** %s\n:::\n"
    tidy = "Put newspaper on the tables, because fat makes them dirty. Everybody washes their hands with soap."
    assert keys(act % tidy) == ["hot-water-cooking"]
    assert keys(act % f"{tidy} An adult pours, and the children stand back.") == []


def test_a_hammer_is_told_the_care_of_a_hammer() -> None:
    (found,) = found_in("### 1 Make a lantern. {.make}\n\n1. Hammer a nail through the tin.\n")
    assert "an adult who starts each nail" in found.message
    (found,) = found_in("### 1 Make a lantern. {.make}\n\n1. Push a needle through the tin.\n")
    assert "blunt or plastic points" in found.message


@pytest.mark.parametrize(
    ("note", "weight"),
    [
        ("", None),  # a stop
        ("**Safety:** Cover the desks with newspaper.", Severity.QUERY),
        ("**Safety:** Table knives only, one adult at each table.", "silent"),
    ],
)
def test_where_a_note_stands_about_another_act_it_is_asked_and_stops_nobody(note, weight) -> None:
    found = found_in(f"### 1 Slice the banana with a knife. {{.make}}\n\n::: teacher\n{note}\n:::\n")
    assert [item.severity for item in found if item.key == "knives-and-blades"] == (
        [] if weight == "silent" else [weight]
    )


@pytest.mark.parametrize(
    ("materials", "weight"),
    [
        ("plates, slices of lemon and pear", None),
        ("spoons, a bag, picture cards", Severity.NOTE),  # it is mimed
    ],
)
def test_food_that_no_list_of_materials_has_is_asked_about_less(materials, weight) -> None:
    steps = f"**Materials:** {materials}\n**Steps:** Children taste the fruit one by one and say what it is.\n"
    found = found_in(f"### 1 Taste and say. {{.speaking}}\n\n::: teacher\n{steps}:::\n")
    weights = [item.severity for item in found if item.key == "food-tasting-allergy"]
    assert weights in ([weight], [Severity.QUERY] if weight else [weight]), weights


def test_a_counter_that_goes_down_the_street_leaves_no_school() -> None:
    page = "### 1 Ask the way. {{.speaking}}\n\n::: teacher\n**Steps:** {}\n:::\n"
    on_map = "Pairs use the map, and the first moves a counter. Strong pairs cross the road and go down the street."
    assert keys(page.format(on_map)) == []
    assert keys(page.format("The class crosses the road and walks down the street to the park.")) != []


@pytest.mark.parametrize(
    "body",
    [
        "### 1 Hide it. {.game}\n\n::: teacher\n**Materials:** a key cut from paper for each group\n:::\n",
        "### 1 Do it! {.game}\n\nCut the paper! Fold the card!\n\n::: teacher\n**Steps:** Give an order; the children "
        "mime it with empty hands.\n:::\n",
        "### 1 Play. {.game}\n\n::: teacher\n**Steps:** Call *Hay for the pony!* and throw the bag.\n:::\n",
    ],
)
def test_what_is_ready_mimed_or_only_called_is_no_act(body: str) -> None:
    assert not {"scissors-cutting", "animals"} & set(keys(body))


def test_a_street_of_desks_is_no_street() -> None:
    steps = "**Materials:** two desks for the street\n**Steps:** Put the shops on the street. Go down the street."
    assert "outdoor-trips-roads" not in keys(f"### 1 Play. {{.game}}\n\n::: teacher\n{steps}\n:::\n")


@pytest.mark.parametrize(
    ("body", "hazard"),
    [
        (
            "**Steps:** Take the class out with a map. Walk along the street. Move a finger along the map.",
            "outdoor-trips-roads",
        ),
        ("**Steps:** Take the class out to the street and draw with chalk.", "outdoor-trips-roads"),
        (
            "**Materials:** peanut butter\n**Steps:** Sit down with empty hands. Children taste the peanut butter.",
            "food-tasting-allergy",
        ),
        ("**Materials:** scissors\n**Steps:** Two children cut from the edge to the line.", "scissors-cutting"),
    ],
)
def test_what_looks_like_a_guards_words_is_still_an_act(body: str, hazard: str) -> None:
    assert hazard in keys(f"### 1 Do it. {{.speaking}}\n\n::: teacher\n{body}\n:::\n")


def test_holes_that_children_make_with_scissors_ask_for_care() -> None:
    page = "### 1 Make it. {.make}\n\n1. Roll the card.\n2. Make two holes in the card with your scissors.\n"
    assert "sharp-points-and-edges" in keys(page)


def test_who_holds_a_paper_toy_up_and_counts_is_in_no_contest() -> None:
    steps = "1 Hold the helicopter up. 2 One child counts the seconds while it turns. 3 They change places."
    page = f"### 1 Drop it. {{.game}}\n\n::: teacher\n**Steps:** {steps}\n:::\n"
    assert "breath-spin-eating-contests" not in keys(page)
    held = page.replace(steps, "Who can hold their breath for the longest time? Time them.")
    assert "breath-spin-eating-contests" in keys(held)


@pytest.mark.parametrize("hazard", hazards().values(), ids=hazards())
def test_every_message_is_short(hazard: Hazard) -> None:
    passage = next(reading_of("### 1 Do it. {.make}\n\none two three four five six seven\n").unit.activities).part
    act = Act(hazard.id, 0.0, passage.passages[0], 0, 33)
    for noted in (True, False):
        message = _message(_Open(act, hazard, Severity.STOP, passage, noted), 0)
        assert len(message.split()) <= 35, message
