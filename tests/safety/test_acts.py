"""Acts and the care for them as the sense tables read them, and the table of hazards."""

import re
import time
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from ruamel.yaml import YAML

from lint_rules.manuscript.reading import read_unit
from lint_rules.safety import hazards as table
from lint_rules.safety.activity_text import ActivityText, activity_texts
from lint_rules.safety.acts import Act, act_hazards, acts_of, care_for, care_hazards, sureness
from lint_rules.safety.hazards import hazards
from lint_rules.source import Source
from tests.safety.labelled import FRONT
from tests.safety.measure import answers, read, totals

HERE = Path(__file__).parent
ROWS = YAML(typ="safe").load(table._YAML.read_text(encoding="utf-8"))["hazards"]
META = YAML(typ="safe").load(table._YAML.read_text(encoding="utf-8"))["meta"]


def lines(name: str) -> list[str]:
    text = (HERE / name).read_text(encoding="utf-8")
    return [line for line in text.splitlines() if line.strip() and not line.startswith("#")]


def texts_of(body: str) -> list[ActivityText]:
    return list(activity_texts(read_unit(Source("level-1/unit-01.md", FRONT + body))))


def acts_in(body: str) -> list[Act]:
    return [act for acts in acts_of(texts_of(body)) for act in acts]


def told(sentence: str) -> str:
    return f"### 1 Work in groups. {{.game}}\n\n::: teacher\n**Steps:** {sentence}\n:::\n"


def test_classroom_sentences_stay_quiet() -> None:
    loud = {line: [act.hazard for act in acts_in(told(line))] for line in lines("acts_quiet.txt")}
    wrong = {line: acts for line, acts in loud.items() if acts}
    assert len(wrong) <= 0.012 * len(loud), wrong


def test_acts_are_seen_and_their_words_pointed_at() -> None:
    missed, elsewhere, known = [], [], 0
    for line in lines("acts_fire.txt"):
        hazard, marked = line.split(": ", 1)
        if hazard not in act_hazards():
            continue
        known += 1
        sentence, (words,) = re.sub("[«»]", "", marked), re.findall("«(.*?)»", marked)
        act = next((act for act in acts_in(told(sentence)) if act.hazard == hazard), None)
        if act is None:
            missed.append(line)
        elif set(act.passage.text[act.start : act.end].split()).isdisjoint(words.split()):
            elsewhere.append((line, act.passage.text[act.start : act.end]))
    assert len(missed) <= 0.01 * known, missed
    assert len(elsewhere) <= 0.08 * known, elsewhere


PAIRS = [
    ("knives-and-blades", "Saw two eyes and a mouth into the pumpkin.", "I saw two eyes in the dark."),
    ("scissors-cutting", "Cut out the kite.", "Find the odd one out and cross it out."),
    ("candles-fire-fireworks", "Light the candle and sing.", "Draw a candle and sing."),
    ("climbing-standing-on-furniture", "The tall children get up on the tables.", "Children sit at the tables."),
    ("hot-water-cooking", "The teacher pours boiling water on the tea.", "Act out pouring tea from an empty pot."),
    ("food-tasting-allergy", "Each child takes a sip of each juice.", "Children point to the juice on the card."),
]


@pytest.mark.parametrize(("hazard", "act", "decoy"), PAIRS)
def test_an_act_and_what_only_looks_like_it(hazard: str, act: str, decoy: str) -> None:
    assert hazard in [one.hazard for one in acts_in(told(act))]
    assert [one.hazard for one in acts_in(told(decoy))] == []


def test_what_is_no_food_is_not_tasted() -> None:
    hidden = (
        "### 1 Play Where is the shell? {.game}\n\n::: teacher\n"
        "**Steps:** One child turns away while you hide the shell.\n\n"
        "**Safety:** Choose a shell too big to go in a mouth.\n:::\n"
    )
    assert not any(act.hazard.startswith("food") for act in acts_in(hidden))
    tasted = told("One child turns away while you hide the honey. Then everybody tastes a spoon of it.")
    assert any(act.hazard == "food-tasting-allergy" for act in acts_in(tasted))


@pytest.mark.parametrize(
    ("heading", "steps"),
    [
        (
            "### 1 Take a card and guess. {.game}",
            "Cards to write: carry a basket, eat an orange, drink juice, climb a tree.",
        ),
        ("### 1 Drive your van in the town. {.game}", "Four pairs at a time, with the map in the book."),
        ("### 1 Play Hide the van in pairs. {.game}", "The rubber is put on the map. Three turns each."),
    ],
)
def test_what_stands_on_cards_and_goes_over_a_map_is_no_act(heading: str, steps: str) -> None:
    assert acts_in(f"{heading}\n\n::: teacher\n**Steps:** {steps}\n:::\n") == []


def test_a_walk_out_of_school_is_one_although_a_map_is_carried() -> None:
    walk = told("Take the class out into the street with the map and walk to the market beside the road.")
    assert "outdoor-trips-roads" in [act.hazard for act in acts_in(walk)]


def test_where_knives_are_named_and_no_scissors_knives_cut() -> None:
    recipe = (
        "## Lesson 1: Beans\n\n::: teacher\n**Materials:** cucumber, table knives without a point\n:::\n\n"
        "### 1 Make it. {.make}\n\n::: teacher\n**Steps:** Cut. One child cuts at a time.\n:::\n"
    )
    assert {act.hazard for act in acts_in(recipe)} == {"knives-and-blades"}


def test_cards_that_are_made_are_an_act() -> None:
    made = acts_in(told("Make the cards for the game: cut them out with sharp scissors."))
    assert "scissors-cutting" in [act.hazard for act in made]


@pytest.mark.parametrize(
    "steps",
    [
        "Go by bus to the river with the class. Each child draws it in a small book.",
        "Walk with the class along the road to the market. Two children wait outside the classroom first.",
        "The class goes by bus to the farm. Children mark the way on a map.",
    ],
)
def test_a_book_a_map_and_a_door_make_no_walk_safe(steps: str) -> None:
    assert "outdoor-trips-roads" in [act.hazard for act in acts_in(told(steps))]


def test_who_waits_outside_the_door_has_not_left_the_school() -> None:
    waits = acts_in(told("The seeker waits just outside the open door, in your sight."))
    assert "outdoor-trips-roads" not in [act.hazard for act in waits]


def test_a_chant_orders_nothing() -> None:
    chant = "| She is eating a fish sandwich.\n| Cheese for lunch and a shell on a dish.\n"
    assert acts_in(f"### 1 Chant it slowly, then chant it fast. {{.sounds .speaking}}\n\n{chant}") == []


def test_what_a_note_must_say() -> None:
    wrong = []
    given = lines("notes.txt")
    for line in given:
        hazard, verdict, act, note = line.split(": ", 3)
        (text, *_) = texts_of(f"{told(act).removesuffix(':::' + chr(10))}**Safety:** {note}\n:::\n")
        enough = care_for(text, [hazard])[hazard] >= sureness().enough
        if ("enough" if enough else "not enough") != verdict:
            wrong.append(line)
    assert len(wrong) <= 0.12 * len(given), wrong


def test_the_labelled_activities_that_were_tuned_on_stay_found() -> None:
    """A floor, not a figure: these were trained on. What is held back is measured, and stands in FIGURES.md.

    The floor was .8 before what is only called or said in a game became a note: on judged courses forty such queries
    were wrong, and four right.
    """
    _, every = totals(list(answers(read([HERE / "activities" / "hand-1.jsonl"])[:120])))
    found = every["none reported"] + every["insufficient reported"]
    assert found >= 0.8 * (every["none"] + every["insufficient"])
    assert every["with a false one"] <= 0.02 * every["activities"]


@pytest.mark.parametrize("hazard", hazards().values(), ids=hazards())
def test_every_draft_defers_to_the_school(hazard: table.Hazard) -> None:
    for draft in (hazard.draft_note, *(one.note for one in hazard.drafts_for)):
        assert "school's" in draft.lower()


def test_nails_are_no_needles() -> None:
    sharp = hazards()["sharp-points-and-edges"]
    assert "needle" not in sharp.draft("Hammer four nails into the board").lower()
    assert "needle" in sharp.draft("Thread the needle").lower()


def test_every_hazard_of_the_tables_is_in_the_list_and_weighed() -> None:
    assert set(act_hazards()) == set(care_hazards()) == set(hazards())
    assert sureness().query < sureness().stop


def test_every_source_says_how_far_it_was_confirmed() -> None:
    assert all(source["evidence"] in META["evidence"] for row in ROWS for source in row["source"])
    assert len(ROWS) == 36


@settings(max_examples=30, deadline=None)
@given(st.text(max_size=120))
def test_no_text_crashes_and_every_act_lies_in_it(text: str) -> None:
    for act in acts_in("### 1 " + " ".join(text.split()) + " {.make}\n"):
        assert 0 <= act.start < act.end <= len(act.passage.text)


def test_a_huge_text_takes_no_longer_than_its_length() -> None:
    started = time.perf_counter()
    acts_in(told("cut the paper and " * 2_000))
    assert time.perf_counter() - started < 60


@pytest.mark.parametrize(
    ("page", "hazard"),
    [
        ("1. Cut a lemon in four.", "knives-and-blades"),
        ("1. Cut out the paper lemon.", "scissors-cutting"),
        ("1. Cut the card in two.", "scissors-cutting"),
    ],
)
def test_food_is_cut_with_a_knife_and_paper_with_scissors(page: str, hazard: str) -> None:
    lesson = "## Lesson 1: A drink\n\n::: teacher\n**Materials:** scissors, a plate\n:::\n\n"
    acts = acts_in(f"{lesson}### 1 Make it. {{.make}}\n\n{page}\n")
    assert [act.hazard for act in acts if act.passage.text[act.start :].startswith("Cut")] == [hazard]


@pytest.mark.parametrize(("said", "count"), [("Children climb on chairs.", 1), ("Nobody climbs on chairs.", 0)])
def test_what_nobody_does_is_no_act(said: str, count: int) -> None:
    assert (
        sum(
            act.hazard == "climbing-standing-on-furniture"
            for act in acts_in(told(f"The stair is flat; {said.lower()}"))
        )
        == count
    )


@pytest.mark.parametrize(
    ("cited", "done"),
    [
        (
            "One child acts: *You taste a lemon. You mix flour and butter.*",
            "Groups mix flour, butter and a raw egg. Each child tastes a piece of lemon from the plate.",
        ),
        ("Say it on: *I bought a pineapple and a jar of honey.* Groups add a thing.", "Each child eats some honey."),
    ],
)
def test_what_steps_cite_for_children_to_say_is_not_done(cited: str, done: str) -> None:
    assert acts_in(told(cited)) == []
    assert acts_in(told(done)) != []


MODEL = "### 1 Tell your friend the way. {{.{}}}\n\n{}\n"


@pytest.mark.parametrize(
    ("kind", "line", "seen"),
    [
        ("speaking", "*Start at the hut. Cross the bridge over the stream.*", False),
        ("speaking", "Start at the hut. Cross the bridge over the stream.", True),
        ("make .speaking", "*Start at the hut. Cross the bridge over the stream.*", True),
        ("speaking", "*Light the candle and blow it out.*", True),
        ("speaking .game", "*Tie the scarf over your eyes and walk to the door.*", True),
    ],
)
def test_a_page_to_speak_from_gives_a_model(kind: str, line: str, seen: bool) -> None:
    assert bool(acts_in(MODEL.format(kind, line))) is seen


def test_what_is_asked_and_what_the_teacher_does_alone_is_no_act() -> None:
    asked = "### 1 Ask three friends. {.survey}\n\n*Is there a park in your street?*\n\n| park | |\n|---|---|\n"
    assert acts_in(asked) == []
    assert acts_in(told("You make the holes with the hole punch.")) == []
    assert acts_in(told("The children make the holes with a nail.")) != []


@pytest.mark.parametrize(
    "step",
    [
        "You give each pair a knife and they cut the fruit.",
        "You give out knives and the children cut the bread.",
        "You hand out the kitchen knives, and each group cuts up the apples.",
        "Now you pass the scissors round and the class cuts along the line.",
    ],
)
def test_what_the_teacher_gives_out_is_used_by_children(step: str) -> None:
    assert [act.hazard for act in acts_in(told(step))] in (["knives-and-blades"], ["scissors-cutting"])


@pytest.mark.parametrize(
    ("page", "seen"),
    [
        ("1. Go outside. Look at the sun. Where is it?", True),
        ("1. Look at the sun in the picture. What colour is it?", False),
    ],
)
def test_children_who_look_at_the_sun(page: str, seen: bool) -> None:
    assert (
        "bright-light-lasers-sun" in [act.hazard for act in acts_in(f"### 1 Make a clock. {{.make}}\n\n{page}\n")]
    ) is seen


def test_the_steps_of_a_song_are_done() -> None:
    song = (
        "### 1 Sing. {.song}\n\n::: teacher\n"
        "**Steps:** The third time the children stand on their chairs and jump down to the floor.\n:::\n"
    )
    assert [act.hazard for act in acts_in(song)] == ["climbing-standing-on-furniture"]


@pytest.mark.parametrize(
    ("kind", "page", "steps", "seen"),
    [
        ("game", "Dig the soil! Plant a seed! Be a noisy hen!", "Say a line and do it with the class.", False),
        ("game", "Dig the soil! Plant a seed! Be a noisy hen!", "Give out the pots and the spades.", True),
        ("game", "Dig the soil. Plant a seed. Water it.", "Say a line and do it with the class.", True),
        ("make", "Dig the soil! Plant a seed! Water it!", "Say a line and do it with the class.", True),
    ],
)
def test_orders_that_are_called_out_to_be_acted_are_no_acts(kind: str, page: str, steps: str, seen: bool) -> None:
    acts = acts_in(f"### 1 Garden. {{.{kind}}}\n\n{page}\n\n::: teacher\n**Steps:** {steps}\n:::\n")
    assert any(act.hazard == "plants-soil-insects" for act in acts) is seen


@pytest.mark.parametrize(
    ("step", "cut"),
    [
        ("Cut the thread for them.", False),
        ("Cut the strips for the children before they come.", False),
        ("They cut the strips for the frame.", True),
        ("Children cut out the strips for them.", True),
        ("The children cut the strips for the class with scissors.", True),
        ("Let them cut the strips for the others.", True),
    ],
)
def test_what_is_done_for_the_children_they_do_not_do(step: str, cut: bool) -> None:
    assert any(act.hazard == "scissors-cutting" for act in acts_in(told(step))) is cut


FOOD, BLIND, VOICE = "food-tasting-allergy", "blindfold-games", "photos-recordings"


@pytest.mark.parametrize(
    ("kind", "materials", "step", "hazard", "seen"),
    [
        # What birds eat no child eats; but what a child eats or tastes beside them.
        ("make", "seed", "Explain that the birds will sit on the handle and eat from the spoon.", FOOD, False),
        ("make", "seed", "The children sit on the mat and eat an apple from the spoon.", FOOD, True),
        ("make", "seed", "Put out seeds for the birds and let the children eat an apple.", FOOD, True),
        ("game", "honey", "Explain that bees can make honey and taste a little honey on a spoon.", FOOD, True),
        ("game", "biscuits", "When the cat comes, eat the biscuit.", FOOD, True),
        # Parts of a play are no acts; but what is done in one.
        (
            "game",
            "hats",
            "Two groups are the worms in the soil, the others are the plants.",
            "plants-soil-insects",
            False,
        ),
        ("game", "pots", "The groups dig out the worms in the soil with their hands.", "plants-soil-insects", True),
        ("game", "a scarf", "One pupil is the blindfold player and walks to the door.", BLIND, True),
        ("game", "a scarf", "One child is the blindfolded cat and catches the mice.", BLIND, True),
        # Eyes that are only shut; but somebody who moves.
        ("game", "a pot", "A child with closed eyes feels the pot.", BLIND, False),
        ("game", "a pot", "One child with closed eyes chases the others.", BLIND, True),
        # A pencil records nobody; a microphone may.
        ("speaking", "", "One child is the reporter, the other the guest. A pencil is the microphone.", VOICE, False),
        (
            "speaking",
            "a ruler for a microphone",
            "One child is the reporter and speaks into the microphone.",
            VOICE,
            False,
        ),
        ("speaking", "", "Record your partner, who speaks into the microphone.", VOICE, True),
        ("speaking", "", "Record your dialogue and listen. A pencil shows whose turn it is.", VOICE, True),
        ("speaking", "", "Point the camera at each child and press the button. Then hand the camera on.", VOICE, True),
        (
            "speaking",
            "",
            "Point the phone at each child and press the button. You need paper and a phone.",
            VOICE,
            True,
        ),
    ],
)
def test_guards_and_what_only_looks_like_one(kind: str, materials: str, step: str, hazard: str, seen: bool) -> None:
    page = f"### 1 Play. {{.{kind}}}\n\n::: teacher\n**Materials:** {materials}\n**Steps:** {step}\n:::\n"
    assert (hazard in [act.hazard for act in acts_in(page)]) is seen
