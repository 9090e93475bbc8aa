"""The steps use something that the list of materials does not name.

A teacher packs the bag by the list, and stands before twenty children who are told to cut. So what the instruction or
the steps use (scissors, glue, dice, cards …) is listed under Materials, in the notes of the activity or of the lesson.
Things that every classroom has need no listing: board, pencils, books, plain paper, chairs. What children only draw,
find, point to or talk about is not used, and a verb counts only as a verb: `stick it in your book` needs glue, `a
stick` does not. The things and their cues stand in lint_rules/safety/data/materials.csv.
"""

import re
from collections.abc import Iterator

from lint_rules import lazy_re
from lint_rules.finding import Edit, Found, Mend, Severity
from lint_rules.manuscript.field_names import field_key, is_usual
from lint_rules.manuscript.model import Audience, DivKind, Part, Passage, Role, Unit
from lint_rules.rule import Example, Gather, Limit, Need, Reading, Rule, Within
from lint_rules.safety.activity_actions import actions_of
from lint_rules.safety.materials import PREPARED, Thing, Used, is_done_otherwise, is_listed, used_in
from lint_rules.source import Span


def _activity(instruction: str, steps: str, materials: str = "paper") -> str:
    """A small lesson for the examples."""
    return (
        f"## Lesson 1: Kites {{.words}}\n\n::: teacher\n**Aim:** name toys\n\n**Materials:** {materials}\n:::\n\n"
        f"### 1 {instruction}\n\nLook at the kite.\n\n::: teacher\n**Steps:** {steps}\n:::\n"
    )


RULE = Rule(
    name="material-not-listed",
    family="teacher's notes",
    severity=Severity.QUERY,
    cure=(
        "Add the thing to Materials, in the notes of the lesson or of the activity: `hornbook mend` does it "
        "where that is sure."
    ),
    passes=(
        Example(
            _activity("Play. {.game}", "Play it again for the string. Teams choose a letter.")
            + "1. What should you use for a broken ear?\n   a. water\n   b. glue\n",
            why="a row of a table, and an option",
        ),
        Example(
            _activity("Match. {.reading}", "They use the words below (1 thread; 2 bank; 3 price)."),
            why="the numbered answers of the key",
        ),
        Example(_activity("Cut out a kite. {.make}", "Children cut with scissors.", "scissors, paper")),
        Example(
            _activity("Play Tangled String. {.game}", "Check: They've just attached the string."),
            why="a game's name, and a sentence to say",
        ),
        Example(_activity("Listen and point. {.listening}", "Hand out the word cards.", "flashcards, a paper bag")),
        Example(_activity("Point to the scissors. {.listening}", "Children point to the dice and the ball.")),
        Example(_activity("Draw a ball. {.writing}", "Children draw a box and a bag, and colour them.")),
        Example(_activity("Write. {.writing}", "Children take a pencil, open their books and look at the board.")),
        Example(_activity("Do it. {.game}", "Mime painting. Act: open the box.")),
        Example(_activity("Say a. {.sounds}", "Children open their mouths as wide as a box.")),
        Example(_activity("Fold. {.make}", "The squares come ready cut, so no scissors are on the tables.")),
        Example(_activity("Play. {.game}", "Let slow counters use their fingers.")),
        Example(_activity("Make a salad. {.make}", "Your helper cuts the tomatoes.", "tomatoes, a knife")),
        Example(
            _activity(
                "Make a salad. {.make}", "Look: your teacher cuts.\n\n**Safety:** Only you use the knife.", "tomatoes"
            ),
            why="cut with a knife, which the notes name",
        ),
        Example(_activity("Make a birthday card. {.make}", "Children make a card and write their names.")),
        Example(_activity("Say. {.speaking}", "Ask: Where are the scissors? Children find a stick in the picture.")),
        Example(
            _activity("Make a drum. {.make}", "Children make a drum from a tin. They play their drums.", "tins"),
            why="they have made it",
        ),
        Example(_activity("Sing. {.song}", "Stick the poster on the board.", "poster"), why="the board holds it"),
        Example(
            _activity("Make a snack. {.make}", "Give out the knives. Children cut the fruit.", "plastic knives"),
            why="it says what they cut with",
        ),
        Example(
            _activity(
                "Draw and write. {.mind-map}", "Draw a boat with three ropes on the board. Tie each word to a rope."
            ),
            why="the ropes are drawn",
        ),
        Example(_activity("Play. {.game}", "Children spell *ball* and throw their hands up.")),
        Example(_activity("Read. {.reading}", "Children cut the odd one out of each line.")),
        Example(
            _activity("Play. {.game}", "Throw a ball. Then play with the words of the two boxes.", "ball").replace(
                "Look at the kite.", "::: words\nkite, plane\n:::"
            ),
            why="boxes of words",
        ),
        Example(_activity("Paint. {.make}", "Stick your hand on the paper.", "paint"), why="a hand is pressed"),
        Example(
            _activity("Draw. {.make}", "Children draw. Staple the pages together at home."), why="after the lesson"
        ),
        Example(
            "### 1 Play. {.game}\n\n::: teacher\n**Materials:** one die for each pair, buttons\n"
            "**Steps:** Roll the dice and move your counter.\n:::\n",
            why="listed in the activity's own notes; buttons do for counters",
        ),
    ),
    fails=(
        Example(
            _activity("Make a kite. {.make}", "They cut with «scissors». Each child needs a partner."),
            why="what they need is said, and it is no scissors",
        ),
        Example(
            _activity("Make a kite. {.make}", "Bring the children to the front. They cut with «scissors»."),
            why="nobody packs the children",
        ),
        Example(_activity("Make a kite. {.make}", "Children cut out a kite with «scissors» and colour it.")),
        Example(
            _activity("Make a kite. {.make}", "Children «cut out» a kite. They «stick» it in their books."),
            weight=Severity.NOTE,
        ),
        Example(
            _activity("Make a snack. {.make}", "Give out plastic «knives». Children cut the fruit."),
            why="not scissors: it says what they cut with",
            weight=Severity.NOTE,
        ),
        Example(_activity("Play. {.game}", "Give each pair two «dice».")),
        Example(_activity("Play. {.game}", "One child rolls two «dice» and asks: *Have you got a seven?*")),
        Example(_activity("Make a cloud. {.make}", "Tie it to the stick with «yarn». Put two «buttons» on it.")),
        Example(_activity("Play. {.game}", "Give each pair ten «counters»."), weight=Severity.NOTE),
        Example(_activity("«Cut» and «stick». {.make}", "Children make a kite."), weight=Severity.NOTE),
        Example(_activity("Make a kite. {.make}", "Children «glue» the tail on the kite.")),
        Example(_activity("Draw. {.make}", "Children draw, then «staple» the pages together."), weight=Severity.NOTE),
        Example(
            _activity("Play. {.game}", "Throw the «ball» to a child. Shuffle the «cards».", "a bell"),
            weight=Severity.NOTE,
        ),
        Example(
            _activity("Make a kite. {.make}", "At home, put «tape» on the edges. Children draw a kite."),
            why="the teacher's own work",
            weight=Severity.NOTE,
        ),
    ),
    needs=frozenset({Need.LANGUAGE}),
    limits=(Limit("things worth listing", "materials.csv: common practice, no source"),),
    gathers=(
        Gather(
            Within.UNIT,
            says="The class uses {words} in this unit where neither the activity's Materials nor the lesson's list "
            "them ({count} places). A teacher packs by those lists.",
        ),
    ),
)


_NEEDED = lazy_re.compile(
    r"\b(?:you|we|they|children|pupils|(?:each|every) \w+)(?:'ll| will)? needs?\b(?! to\b)|\bbring\b", re.I
)
_ATTENDED = lazy_re.compile(r"\b(?:play|listen|look|read|check|watch)s?\b[^.!?\n]{0,20}\bfor (?:the |an? )?$", re.I)
_OPTION = lazy_re.compile(r"\?[^?]*(?<!\w)[a-h][.)]\s+(?:an? |the )?$")
_KEYED = lazy_re.compile(r"\((?:[^();\n\d]*\d[^();\n]*;){2,}[^();\n]*\)")  # answers by number
_OF_AIR = lazy_re.compile(r"\s+(?:of|in the) air\b")
_IS_KEY = lazy_re.compile(r"\W*(?:keys?|answers?)\s*:", re.I)  # [Key: 1 string, 2 glue]
_SENTENCE = lazy_re.compile(r"[^.!?]+")
_MAKES = lazy_re.compile(
    r"\b(?:makes?|made|making|build|design|create|invent|draw|paint)\s+"
    r"((?:(?!\b(?:with|from|using|out|and)\b)[^.!?\n])*)",
    re.I,
)

_HANDS = lazy_re.compile(r"\b(?:fingers?|hands?|arms?)\s+(?:for|as|are|is|like)\s+(?:the |an? )?$", re.I)
_ON_BOARD = lazy_re.compile(r"\bdraw\b[^.!?]*\bboard\b[^.!?]*$", re.I)


def find(reading: Reading) -> Iterator[Found]:
    """Report things in use that no list names, once an activity for each."""
    unit = reading.unit
    opening = _lists(unit.opening, of_lesson=True)
    made = _made_in(unit)
    for found in actions_of(unit):
        lesson = unit.lessons[found.lesson].part if found.lesson >= 0 else unit.opening
        lists = (
            *(passage.text for passage in found.materials),
            *_lists(lesson, of_lesson=True),
            *_lists(found.part),
            *opening,
        )
        first: dict[str, tuple[Passage, Used]] = {}
        printed = _has_box(unit, found.part)
        for passage in found.actions:
            if _IS_KEY.match(passage.text):
                continue
            keyed = [match.span() for match in _KEYED.finditer(passage.text)]
            for use in used_in(passage.text, reading.analyse(passage)):
                if any(start <= use.start < end for start, end in passage.emphasis):
                    continue  # a word set in italics is a word, no thing: the children spell *toys*
                if any(start <= use.start < end for start, end in keyed):
                    continue  # (1 thread; 2 bank; 3 price)
                if printed and use.thing.name == "box":
                    continue  # the box of words on the page
                if _ATTENDED.search(passage.text, 0, use.start) or _OPTION.search(passage.text, 0, use.start):
                    continue  # play it again for the string: the row of a table; b. glue
                if passage.text[use.start : use.end] in reading.course.names or _is_in_a_name(passage.text, use):
                    continue  # Button, the goat; Button Street
                if _HANDS.search(passage.text, 0, use.start):
                    continue  # two fingers for scissors
                if not use.named and _ON_BOARD.search(passage.text, 0, use.start):
                    continue  # draw a cake on the board and cut it into quarters with lines
                before = first.get(use.thing.name)
                if before is None or (use.named and not before[1].named):
                    first[use.thing.name] = (passage, use)
        told = tuple(one.text for one in found.part.passages if one.audience is Audience.TEACHER)
        named = tuple(passage.text[use.start : use.end] for passage, use in first.values() if use.named)
        for passage, use in first.values():
            if use.named and is_listed(use.thing, made):
                continue
            if not use.named and is_done_otherwise(use.thing, told):
                continue  # your teacher cuts, and in the notes is a knife
            if not is_listed(use.thing, lists if use.named else (*lists, *named)):
                yield _found(passage, use, (found.part, lesson))


def _is_in_a_name(text: str, use: Used) -> bool:
    """Say whether a word is part of a name of two: Button Street."""
    before, behind = text[: use.start].split()[-1:], text[use.end :].split()[:1]
    inside = bool(before) and before[0][-1:].isalpha()
    return text[use.start].isupper() and inside and bool(behind) and behind[0][0].isupper()


def _has_box(unit: Unit, part: Part) -> bool:
    """Say whether a box stands on the page: a panel of words, or what is set in one."""
    boxed = (unit.divs[index] for index in part.divs)
    return any(div.kind is DivKind.WORDS or "box" in div.attributes.classes for div in boxed)


def _made_in(unit: Unit) -> tuple[str, ...]:
    """What children make in this unit (Make a drum from a tin): nobody packs that."""
    texts = (passage.text for passage in unit.passages if passage.role in (Role.INSTRUCTION, Role.FIELD))
    return tuple(match[1] for text in texts for match in _MAKES.finditer(text))


def _lists(part: Part, *, of_lesson: bool = False) -> tuple[str, ...]:
    """What a part's notes list: under Materials, or in a sentence (You will need paper); what a lesson's notes say
    outside the usual fields names things to pack as well."""
    found: list[str] = []
    for passage in part.passages:
        if passage.audience is not Audience.TEACHER:
            continue
        if field_key(passage.field) == "material" or (of_lesson and not is_usual(passage.field)):
            found.append(passage.text)
        else:
            found += [sentence for sentence in _SENTENCE.findall(passage.text) if _NEEDED.search(sentence)]
    return tuple(found)


def _found(passage: Passage, use: Used, parts: tuple[Part, ...]) -> Found:
    text = passage.text[use.start : use.end]
    name = use.thing.name
    listed = next((part.field("Materials") for part in parts if part.field("Materials")), None)
    what = f"“{text}”" if use.named else f"{name} (“{text}”)"
    it = "them" if (text if use.named else name).endswith("s") or name == "dice" else "it"
    lack = f"Materials does not list {it}" if listed else "there is no list of Materials"
    message = (
        f"The class uses {what} here, and {lack}, in this activity's notes or the lesson's. "
        f"A teacher packs by that list: add {it} there."
    )
    mend = None
    if listed is not None and listed.passages and use.named and _is_called(text, use.thing):
        end = listed.passages[-1].span().end
        mend = Mend(f"add {name} to Materials", (Edit(Span(end, end), f", {name}"),))
    called = use.named or text.casefold() == name  # Glue the roof on the box: eight of eight were thanked for
    sure = listed is not None and called and use.thing.asked and not _is_prepared(passage.text, use)
    weight = None if sure else Severity.NOTE  # a course without lists has them in its head
    return Found(passage.span(use.start, use.end), text, message, weight, mend=mend, key=name)


def _is_prepared(text: str, use: Used) -> bool:
    """Say whether only the teacher uses a thing, at home, or nobody does, with one of air."""
    start = max(text.rfind(mark, 0, use.start) for mark in ".!?\n") + 1
    end = min((at for mark in ".!?\n" if (at := text.find(mark, use.end)) >= 0), default=len(text))
    return PREPARED.search(text, start, end) is not None or _OF_AIR.match(text, use.end) is not None


def _is_called(text: str, thing: Thing) -> bool:
    """Say whether a text calls a thing as the list will: who cuts may tear, and toys need not be soft toys."""
    return text.casefold().removesuffix("s") == thing.name.removesuffix("s")
