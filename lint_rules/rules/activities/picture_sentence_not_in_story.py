"""A sentence with pictures in place of words that no story or script earlier in the unit contains.

Young children say or write such a sentence from memory: they have heard it in the story, and the pictures call it back.
A sentence that is new, or changed by a word, cannot be remembered; it becomes a riddle with several right answers, and
the key has one. Part of a story's sentence will do; the words may be in another form; quotation marks and `said Rafi`
do not count. What a picture stands for is its alternative text: `a red kite` is read as *kite* or *red kite*.
"""

from collections.abc import Iterator

from lint_rules.finding import Found, Severity
from lint_rules.manuscript.model import Activity, Audience, Passage, Role
from lint_rules.page.story_texts import StoryText, story_texts
from lint_rules.page.word_sets import shown
from lint_rules.rule import Example, Need, Reading, Rule
from lint_rules.unit_language.picture_sentences import Line, fits, lines_of, missing_words, nearest

_STORY = """\
### 1 Look and read. {.story}

A big red box is on the ferry.

**Mina:** Is it a small dog? No! It's a goat.

"The goats are in the hat," said Rafi.

::: {.audio track=1.1}
LOU: There are two frogs under the bridge.
:::

"""
_HEAD = "### 2 Read the pictures. Say the sentence. {.picture-sentence}\n\n"

RULE = Rule(
    name="picture-sentence-not-in-story",
    family="activities",
    severity=Severity.QUERY,
    needs=frozenset({Need.LANGUAGE}),
    passes=(
        Example(_STORY + _HEAD + "1. A big red ![box](b.svg) is on the ![a yellow ferry](f.svg).\n"),
        Example(_STORY + _HEAD + "1. A ![a big red box](b.svg) is on the ferry.\n", why="the picture is red and big"),
        Example(_STORY + _HEAD + "It's a ![goat](g.svg)!\n\nThe goats ____ in the ![a hat](h.svg).\n"),
        Example(_STORY + _HEAD + "1. The ![goat](g.svg) is in the ![hats](h.svg).\n", why="words in another form"),
        Example(_STORY + _HEAD + "1. “The ![goat](g.svg) is in the ![hat](h.svg),” says Mina.\n"),
        Example(_STORY + _HEAD + "1. There are 2 ![frogs](f.svg) under the ![bridge](b.svg).\n", why="from the script"),
        Example(_STORY + _HEAD + "Look at the story again.\n\n1. a small ![dog](d.svg)\n", why="part of a sentence"),
        Example("### 1 Read. {.reading}\n\nThe ![goat](g.svg) is on the ![cake](c.svg).\n", why="another kind"),
    ),
    fails=(
        Example(_STORY + _HEAD + "1. «The ![goat](g.svg){.drawing} is on the ![hat](h.svg).»\n", why="on for in"),
        Example(_STORY + _HEAD + "1. It's a ![goat](g.svg).\n2. «It's a ![duck](d.svg).»\n", why="no duck there"),
        Example(_STORY + _HEAD + "«The ![hat](h.svg) is in the ![goat](g.svg).»\n", why="in another order"),
        Example(_STORY + _HEAD + "1. «It's a big ![goat](g.svg).» Look!\n", why="the story's goat is not big"),
        Example(_HEAD.replace("2", "1") + "1. «It's a ![goat](g.svg).»\n\n" + _STORY.replace("1 Look", "2 Look")),
        Example(_HEAD.replace("2", "1") + "1. «It's a ![goat](g.svg).»\n", why="no story at all"),
    ),
)

_SENTENCES = frozenset({Role.ITEM, Role.TEXT, Role.LINE, Role.TURN, Role.CELL, Role.HEAD, Role.CAPTION})


def find(reading: Reading) -> Iterator[Found]:
    """Report picture sentences that nothing earlier in the unit contains, at the sentence."""
    activities = [a for a in reading.unit.activities if "picture-sentence" in a.kinds and "story" not in a.kinds]
    if not activities:
        return
    texts = [(text, lines_of(text.passage, reading.analyse(text.passage))) for text in story_texts(reading.unit)]
    for activity in activities:
        for line in _sentences(activity, reading):
            earlier = [there for text, lines in texts if _is_earlier(text, line, activity) for there in lines]
            versions = _versions(line, reading)
            if not any(fits(version, earlier) for version in versions):
                later = [there for _, lines in texts for there in lines]
                known_later = any(fits(version, later) for version in versions)
                words = shown(line.passage, line.start, line.end)
                yield Found(line.passage.span(line.start, line.end), words, _message(line, earlier, known_later))


def _is_earlier(text: StoryText, line: Line, activity: Activity) -> bool:
    """Say whether children have met a text by then; a script of the activity itself is played to them."""
    start = text.passage.block.start
    return start < line.passage.block.start or (text.script and activity.span.start <= start < activity.span.end)


def _sentences(activity: Activity, reading: Reading) -> Iterator[Line]:
    """The sentences of an activity that have a picture and at least one more word, each once."""
    for passage in activity.part.passages:
        if passage.audience is not Audience.PUPIL or passage.role not in _SENTENCES or not passage.pictures:
            continue
        seen: set[int] = set()
        for line in lines_of(passage, reading.analyse(passage)):
            pictures = sum(slot.picture for slot in line.slots)
            if pictures and len(line.slots) > pictures and seen.isdisjoint(slot.start for slot in line.slots):
                yield line
            seen.update(slot.start for slot in line.slots)


def _versions(line: Line, reading: Reading) -> list[Line]:
    """A sentence as it stands, and without the words around what it quotes."""
    passage: Passage = line.passage
    return [
        other
        for other in lines_of(passage, reading.analyse(passage))
        if line.start <= other.start and other.end <= line.end and any(slot.picture for slot in other.slots)
    ]


def _message(line: Line, earlier: list[Line], known_later: bool) -> str:
    fair = "A child can say a picture sentence only when it has met the words"
    if known_later:
        return f"This sentence comes only later in the unit. {fair}: put this activity after it."
    near = nearest(line, earlier)
    if near is None:
        return (
            f"No story and no script comes earlier in this unit. {fair}: take a sentence from a story they have read."
        )
    there = shown(near.line.passage, near.line.start, near.line.end).strip()
    missing = [shown(line.passage, slot.start, slot.end) for slot in missing_words(line, near.line)]
    lack = f" It has nothing for {', '.join(f'“{word}”' for word in missing)}." if missing else ""
    return (
        f"No story or script earlier in this unit says this. The nearest is “{there.strip('“”').rstrip('.')}”.{lack} "
        f"{fair}: take the sentence as the story has it."
    )
