"""Acts that are said in so many words (common practice, no source); the sentences were written for this test."""

import pytest

from lint_rules.manuscript.reading import read_unit
from lint_rules.safety.activity_text import activity_texts
from lint_rules.safety.plain_acts import plain_acts
from lint_rules.source import Source
from tests.safety.labelled import FRONT


def acts_of(page: str, materials: str = "", steps: str = "", kind: str = "make") -> list[tuple[str, str]]:
    notes = f"\n::: teacher\n**Materials:** {materials}\n\n**Steps:** {steps}\n:::\n" if materials or steps else ""
    unit = read_unit(Source("level-1/unit-01.md", f"{FRONT}### 1 Make it. {{.{kind}}}\n\n{page}\n{notes}"))
    found = [act for text in activity_texts(unit) for act in plain_acts(text)]
    return [(act.hazard, act.passage.text[act.start : act.end]) for act in found]


@pytest.mark.parametrize(
    ("page", "materials", "steps", "hazard", "words"),
    [
        ("1. Cut off the top of a plastic bottle.", "bottles, scissors", "", "scissors-cutting", "Cut off the top of"),
        ("1. Draw a tail and cut it out.", "scissors, card", "", "scissors-cutting", "cut it out"),
        ("1. Put hot water in three cups.", "", "", "hot-water-cooking", "Put hot water"),
        ("1. Put a drop of hot glue on it.", "", "", "hot-glue-and-irons", "Put a drop of hot glue"),
        ("1. Put the tray in a hot oven.", "", "", "hot-water-cooking", "Put the tray in a hot oven"),
        ("", "", "Let two children carry the hot pan.", "hot-water-cooking", "carry the hot pan"),
        ("", "", "Pour the hot tea into small cups.", "hot-water-cooking", "Pour the hot tea"),
        ("1. Push the pin through the straw.", "", "", "sharp-points-and-edges", "Push the pin"),
        ("", "carrots, a peeler", "Groups peel and cut two carrots.", "knives-and-blades", "peel and cut two carrots"),
        ("", "", "Each group lights a candle.", "candles-fire-fireworks", "lights a candle"),
        ("", "", "Tie the scarf over the eyes of one child.", "blindfold-games", "Tie the scarf over the eyes"),
        (
            "",
            "scissors, paper",
            "Children cut out the pictures with scissors.",
            "scissors-cutting",
            "cut out the pictures with scissors",
        ),
        (
            "3. Make a hole in the middle with the point of the scissors.",
            "scissors, card",
            "",
            "sharp-points-and-edges",
            "Make a hole in the middle with the point of the scissors",
        ),
        (
            "",
            "",
            "The child climbs quickly on to the chair and says *I don't like …* before the class has counted to three.",
            "climbing-standing-on-furniture",
            "climbs quickly on to the chair",
        ),
        (
            "2. Make four holes in the can with a hammer and a nail.",
            "cans",
            "",
            "sharp-points-and-edges",
            "Make four holes in the can with a hammer and a nail",
        ),
        (
            "4. Make a hole in the clock with a nail.",
            "card",
            "",
            "sharp-points-and-edges",
            "Make a hole in the clock with a nail",
        ),
        (
            "1. Pour three centimetres of very hot water into it.",
            "",
            "",
            "hot-water-cooking",
            "Pour three centimetres of very hot water",
        ),
        (
            "4. Push the pointed stick through the card at two places.",
            "thick card, sticks",
            "",
            "sharp-points-and-edges",
            "Push the pointed stick",
        ),
        (
            "2. Push a long stick through the big box.",
            "boxes, wooden skewers",
            "",
            "sharp-points-and-edges",
            "Push a long stick through",
        ),
        (
            "You need: bread, a tomato, a knife, a plate.\n\n6. Eat your lunch!",
            "",
            "",
            "food-tasting-allergy",
            "Eat your lunch",
        ),
        (
            "",
            "bread, cheese, a plate",
            "Children sit down and eat their boats.",
            "food-tasting-allergy",
            "eat their boats",
        ),
        (
            "",
            "",
            "Let two children press a shirt with the hot iron.",
            "hot-glue-and-irons",
            "press a shirt with the hot iron",
        ),
        ("1. Take a needle and a long string.", "", "", "sharp-points-and-edges", "Take a needle"),
        (
            "",
            "",
            "Children push the scissors through the cardboard for the holes.",
            "sharp-points-and-edges",
            "push the scissors through",
        ),
        ("1. Bake the stars.", "an oven, dough", "", "hot-water-cooking", "Bake the stars"),
    ],
)
def test_an_act_is_seen_by_its_verb_and_its_thing(page, materials, steps, hazard, words):
    assert (hazard, words) in acts_of(page, materials, steps)


@pytest.mark.parametrize(
    ("page", "materials", "steps"),
    [
        ("1. Cut the odd one out.", "", ""),
        ("1. A cut, a knife, a plate.", "", ""),
        ("1. ____ the carrots with a knife. (cut, wash)", "", ""),
        ("The tailor cuts the coat.", "scissors", ""),
        ("1. Put cucumber on the cheese.", "a kettle, cups", ""),
        ("1. Push the arrow into the straw.", "pins, straws", ""),
        ("", "scissors", "An adult cuts the card before the lesson."),
        ("", "scissors", "Children pretend to cut the cloth."),
        ("", "", "People light candles in December."),
        ("", "", "The children make the paper frogs jump on the desk."),
        ("", "", "Children let their finger puppets climb on the chair."),
        ("", "", "Do not light the candle."),
        ("", "", "Light and dark: children sort the pictures of candles."),
        ("1. What do you cut with scissors?", "", ""),
        ("", "", "Put the cooker and the sofa in the right room of the plan."),
        ("", "", "Children put the oven card and the stove card in order."),
        ("", "", "Put a tick next to the saucepan."),
        ("", "", "Add *kettle* to the word map."),
        ("", "scissors", "Trim the story to five lines."),
        ("", "scissors", "The class cut in when they hear a mistake."),
        ("", "scissors", "Cut step 3 if time is short."),
        ("", "scissors", "Cut the game after five minutes."),
        ("", "scissors", "Cut the cards before the lesson."),
        ("", "scissors", "Show how you cut one star."),
        ("1. Make a hole in the sand with a stick.", "", ""),
        ("1. Make a nail from clay.", "", ""),
        ("1. Put pine needles on the path.", "", ""),
        ("", "", "An adult uses the glue gun before the lesson."),
        ("2. Eat your lunch!", "paper bread, a card tomato", ""),
        ("", "bread, cheese", "Nobody has to eat. Do not eat the crumbs."),
        ("", "paper, crayons", "Children eat their boats."),
        ("1. Push the small stick into the mud.", "sticks", ""),
        ("", "", "Push the scissors back into the box: no, the teacher does."),
        ("", "scissors", "Children make a pair and name the point of the scissors."),
        ("", "scissors, card", "An adult makes the hole with the point of the scissors before the lesson."),
    ],
)
def test_a_word_that_is_no_act_is_let_alone(page, materials, steps):
    assert acts_of(page, materials, steps) == []


def test_a_page_that_is_only_read_orders_nothing():
    assert acts_of("1. Cut the rope with the scissors!", kind="story") == []


CLIMBING = ("climbing-standing-on-furniture", "Stand up on your chair")


@pytest.mark.parametrize(
    ("page", "steps", "found"),
    [
        ("1. Stand up on your chair.\n2. Move with the waves!", "Make the sound of the wind.", [CLIMBING]),
        ("", "*On* means stand on your chair, *under* means hide.", [(CLIMBING[0], "stand on your chair")]),
        ("1. Stand up on your chair. Miss a turn.\n2. Go on 2 squares.", "Play with dice.", []),
        ("1. Cut the bread with a knife. Who am I?", "One child reads, the others guess.", []),
        ("Tap, tap! It is raining.", "Children tap their nails on the desk. They knock with their nails.", []),
        ("", "Children hit the nail with a hammer.", [("sharp-points-and-edges", "hit the nail")]),
    ],
)
def test_the_page_of_a_game_says_what_is_done(page, steps, found):
    assert acts_of(page, steps=steps, kind="game") == found
