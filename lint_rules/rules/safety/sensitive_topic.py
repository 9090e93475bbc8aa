"""A pupil's page or an audio script touches a topic that publishers for children avoid or clear with their markets.

Beer in a picture story, a pirate's gun, a bet: harmless to one class, the reason another school sends the book back.
The author is asked, nothing more: a word may well be right. The list is a house list (common practice, no source), in
lint_rules/safety/data/sensitive_topics.csv and sensitive_words.csv. Learned tables weigh what a sentence means: they
let a word of the list alone that means something else there (a fat envelope), and find a topic without its word (she
never woke up again), as a note where they are not sure. Some topics are asked about in every course, others only for
the markets that course.yaml names under `markets`; a course that has cleared a topic names it under `sensitive_off`.
Death, war and politics, which most books touch, are notes where no markets are named. Each topic is named once an
activity. Teacher's notes and art briefs are not read.
"""

from collections.abc import Iterator, Sequence
from itertools import islice

from lint_rules.course.model import Course
from lint_rules.course.problem import nearest
from lint_rules.finding import Found, Severity
from lint_rules.language.vocabulary.word_index import canonical
from lint_rules.manuscript.counting import is_for_children
from lint_rules.manuscript.model import Passage, Role
from lint_rules.rule import By, Example, Gather, Limit, Reading, Rule, Within
from lint_rules.safety.sensitive_topics import (
    Topic,
    Touch,
    asked_topics,
    market_names,
    topics,
    touches,
    unknown_markets,
)
from lint_rules.unit_language.unit_words import places_of

_ASKED = "rules: {sensitive-topic: query}\n"

RULE = Rule(
    name="sensitive-topic",
    family="safety",
    severity=Severity.QUERY,
    quiet=True,
    cure=(
        "Choose another word, or clear the topic with your markets. What is cleared is listed under "
        "`sensitive_off` in course.yaml; a single place can be let stand with a reason."
    ),
    passes=(
        Example("Dora drinks ginger beer. Rafi eats a wine gum.\n"),
        Example("Look at the shooting star! The bean has two green shoots. Shoot the ball, Rafi!\n"),
        Example("Tie the bow in your hair. Roll the die. We play tug of war.\n"),
        Example("There is a pig on the farm. Merry Christmas!\n", why="only some markets ask about these"),
        Example("::: words\nveil, smoker\n:::\n\nThe beekeeper has a smoker.\n", why="a tool"),
        Example("The pirate has a sword.\n", course="sensitive_off: [weapons]", why="cleared by this course"),
        Example("::: teacher\n**Steps:** Do not talk about guns or beer here.\n:::\n", why="for the teacher"),
        Example("There is a guinea pig in the box.\n", course="markets: [middle-east]"),
        Example("A needle is used for sewing.\n", words="needle,noun,tools,1\n", why="a word that the course teaches"),
    ),
    fails=(
        Example("Grandpa drinks «beer». He has more beer.\n", why="once an activity"),
        Example("The pirate has a «sword» and a bag of gold. He plays «poker».\n"),
        Example("::: {.audio track=1}\nDORA: Look! A man with a «gun»!\n:::\n"),
        Example("There is a «pig» on the farm.\n", course="markets: [middle-east]"),
        Example("We have a party at «Christmas». A «ghost» comes!\n", course="markets: [worldwide]"),
        Example("### 1 Point to the «cigarette». {.listening}\n"),
        Example("They put all their money on the «grey horse».\n", why="no word of the list"),
        Example(
            "Grandma fell asleep in her chair and «never woke up again».\n",
            course="markets: [europe]",
            why="no word of the list",
        ),
        Example("The fish will «die».\n", course=_ASKED, weight=Severity.NOTE, why="most books speak of it"),
        Example(
            "The men shouted and «threw stones» at the town hall.\n",
            course=_ASKED,
            weight=Severity.NOTE,
            why="no word of the list, and less sure",
        ),
    ),
    limits=(Limit("17 topics, their words and where these are harmless", "common practice, no source"),),
    gathers=(Gather(Within.COURSE, By.KEY),),
)


def find(reading: Reading) -> Iterator[Found]:
    """Report topics on pupils' pages and in audio scripts: the first word of each, in each activity."""
    asked = asked_topics(reading.course.markets, reading.course.sensitive_off)
    places = [
        [
            passage
            for passage in place.passages
            if is_for_children(passage) and passage.role not in (Role.ALT, Role.CODE)
        ]
        for place in places_of(reading.unit)
    ]
    taught = {canonical(entry.word) for entry in reading.course.words}
    touched = iter(touches([passage.text for passages in places for passage in passages]))
    for passages in places:
        found: dict[str, list[tuple[Passage, Touch]]] = {}
        for passage, touching in zip(passages, islice(touched, len(passages)), strict=True):
            for touch in touching:
                guessed_by_taught = not touch.sure and _last_word(passage, touch) in taught  # a needle, of the course
                if touch.topic.name in asked and not guessed_by_taught:
                    found.setdefault(touch.topic.name, []).append((passage, touch))
        for same in found.values():
            yield _found(same, reading.course)


def _last_word(passage: Passage, touch: Touch) -> str:
    return canonical(passage.text[touch.start : touch.end].split()[-1].strip(".,!?;:"))


def _found(places: Sequence[tuple[Passage, Touch]], course: Course) -> Found:
    passage, touch = next((place for place in places if place[1].sure), places[0])
    words = passage.text[touch.start : touch.end]
    more = f" ({len(places) - 1} more here)" if len(places) > 1 else ""
    topic = touch.topic
    message = (
        f"“{words}”{more} touches {topic.name} ({topic.about}), which publishers for children avoid or clear with "
        f"their markets. Choose another word, or list {topic.name} under `sensitive_off` in course.yaml."
        f"{_slip(topic, course)}"
    )
    asked = touch.sure and (not topic.mild or bool(course.markets))
    return Found(passage.span(touch.start, touch.end), words, message, None if asked else Severity.NOTE, key=topic.name)


def _slip(topic: Topic, course: Course) -> str:
    """What course.yaml may have meant, where a name in it is none: then more is asked than the course wants."""
    names = [one.name for one in topics()]
    cleared = [name for name in course.sensitive_off if nearest(name, names) == topic.name]
    if cleared:
        return f" It has “{cleared[0]}” there, which is no topic."
    unknown = unknown_markets(course.markets)
    if unknown and topic.markets:
        known = ", ".join(sorted(market_names()))
        return f" It is asked here because “{unknown[0]}” under `markets` is none that hornbook knows ({known})."
    return ""
