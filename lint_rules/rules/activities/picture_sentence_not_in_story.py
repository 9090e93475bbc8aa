"""A sentence with pictures in place of words, one of which children cannot know.

Young children say or write such a sentence with words for the pictures. Best is a sentence of the story: they have
heard it, and the pictures call it back. A new sentence is fair too when the word for every picture has been met earlier
in the unit, or in an earlier one. A picture whose word they have not met, or that may be read as two words (*cup* or
*tea*), is a riddle with several right answers, and the key has one. What a picture stands for is its alternative text:
`a red kite` is read as *kite* or *red kite*. It is a note: an earlier page may have the word, and of thirty that judges
had seen as queries three were thanked for.
"""

from collections.abc import Iterator

from lint_rules.course.model import Level, band_rank
from lint_rules.finding import Found, Severity
from lint_rules.language.vocabulary.reference import lowest
from lint_rules.manuscript.counting import is_for_children
from lint_rules.manuscript.field_names import field_key
from lint_rules.manuscript.model import Activity, Audience, Passage, Role
from lint_rules.page.story_texts import StoryText, story_texts
from lint_rules.page.word_sets import shown
from lint_rules.rule import Example, Need, Reading, Rule
from lint_rules.unit_language.picture_sentences import Line, Slot, fits, keys_of_word, lines_of, nouns_of_picture
from lint_rules.unit_language.unit_words import listed

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
    severity=Severity.NOTE,
    cure=(
        "Take a sentence from the story, or let children meet its words earlier in the unit. Put the activity "
        "after the text it comes from."
    ),
    needs=frozenset({Need.LANGUAGE}),
    passes=(
        Example(_STORY + _HEAD + "1. A big red ![box](b.svg) is on the ![a yellow ferry](f.svg).\n"),
        Example(_STORY + _HEAD + "1. A ![a big red box](b.svg) is on the ferry.\n", why="the picture is red and big"),
        Example(_STORY + _HEAD + "It's a ![goat](g.svg)!\n\nThe goats ____ in the ![a hat](h.svg).\n"),
        Example(_STORY + _HEAD + "1. The ![goat](g.svg) is in the ![hats](h.svg).\n", why="words in another form"),
        Example(_STORY + _HEAD + "1. “The ![goat](g.svg) is in the ![hat](h.svg),” says Mina.\n"),
        Example(_STORY + _HEAD + "1. There are 2 ![frogs](f.svg) under the ![bridge](b.svg).\n", why="from the script"),
        Example(_STORY + _HEAD + "Look at the story again.\n\n1. a small ![dog](d.svg)\n", why="part of a sentence"),
        Example(
            _STORY + _HEAD + "1. The ![goat](g.svg){.drawing} is on the ![hat](h.svg).\n", why="new, of words they know"
        ),
        Example(_STORY + _HEAD + "1. It's a big ![goat](g.svg).\n", why="new, of words they know"),
        Example(
            "### 1 Look. {.words}\n\n::: words\ngoat\n:::\n\n" + _HEAD + "1. It's a ![goat](g.svg).\n",
            why="from a panel",
        ),
        Example("### 1 Read. {.reading}\n\nThe ![dog](g.svg) is big.\n", why="another kind"),
        Example(
            _HEAD + "1. We see a ![cloud](c.svg).\n", course="levels: [{cefr: B1}]", why="long known at this level"
        ),
        Example("### 1 Read. {.reading}\n\nThe ![goat](g.svg) is on the ![cake](c.svg).\n", why="another kind"),
    ),
    fails=(
        Example(_STORY + _HEAD + "1. It's a ![goat](g.svg).\n2. «It's a ![duck](d.svg).»\n", why="no duck so far"),
        Example(
            _STORY + _HEAD + "1. «Two frogs like ![a box of frogs](g.svg).»\n",
            why="box or frogs? and no sentence of the story",
        ),
        Example(_HEAD.replace("2", "1") + "1. «It's a ![goat](g.svg).»\n\n" + _STORY.replace("1 Look", "2 Look")),
        Example(_HEAD.replace("2", "1") + "1. «It's a ![goat](g.svg).»\n", why="nothing before it"),
        Example(
            _HEAD.replace("2", "1") + "1. «It's a ![goat](g.svg).»\n",
            words="goat,noun,animals,2\n",
            why="of a later unit",
        ),
    ),
)

_SENTENCES = frozenset({Role.ITEM, Role.TEXT, Role.LINE, Role.TURN, Role.CELL, Role.HEAD, Role.CAPTION})


def find(reading: Reading) -> Iterator[Found]:
    """Report picture sentences that are new and have a picture whose word children cannot know, at the sentence."""
    activities = [a for a in reading.unit.activities if "picture-sentence" in a.kinds and "story" not in a.kinds]
    if not activities:
        return
    texts = [(text, lines_of(text.passage, reading.analyse(text.passage))) for text in story_texts(reading.unit)]
    for activity in activities:
        for line in _sentences(activity, reading):
            earlier = [there for text, lines in texts if _is_earlier(text, line, activity) for there in lines]
            if any(fits(version, earlier) for version in _versions(line, reading)):
                continue
            message = _message(line, _known(reading, line, activity), reading.level)
            if message:
                words = shown(line.passage, line.start, line.end)
                yield Found(line.passage.span(line.start, line.end), words, message)


def _known(reading: Reading, line: Line, activity: Activity) -> frozenset[str]:
    """The words, as they are compared, that children have met before a sentence: read or heard in the unit, in the
    instruction or a script of the activity, or taught by an earlier unit."""
    start = line.passage.block.start
    known = {key for word in reading.course.known for key in keys_of_word(word)}
    for entry in reading.course.words:
        if (entry.level, entry.unit) < (reading.level.index, reading.unit.front.unit) and entry.unit:
            known.update(key for word in entry.word.split() for key in keys_of_word(word))
    for passage in reading.unit.passages:
        here = activity.span.start <= passage.block.start < activity.span.end
        beside = here and (passage.audience is Audience.LISTENER or passage.role is Role.PANEL)
        promised = field_key(passage.field) == "word" and passage.block.start < start  # the Words of the lesson
        met = passage.role is not Role.ALT and is_for_children(passage) and (beside or passage.block.start < start)
        if met or promised:
            known.update(key for token in reading.analyse(passage).tokens for key in keys_of_word(token.text))
            known.update(token.lemma.casefold() for token in reading.analyse(passage).tokens)
    return frozenset(known)


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


def _message(line: Line, known: frozenset[str], level: Level) -> str:
    """What is wrong with a new sentence; '' where nothing is."""
    pictures = [slot for slot in line.slots if slot.picture and not slot.gap]
    new = [slot for slot in pictures if not slot.keys & known and not any(_is_easier(key, level) for key in slot.keys)]
    unknown = [shown(line.passage, slot.start, slot.end) for slot in new]
    if unknown:
        which = "this picture" if len(unknown) == 1 else "these pictures"
        return (
            f"Nothing before this sentence has a word for {which}: {listed(unknown)}. "
            "Take a word of the story, or teach it first."
        )
    double = next((slot for slot in pictures if len(_things(line, slot)) > 1), None)
    if double is None:
        return ""
    return (
        f"The picture “{shown(line.passage, double.start, double.end)}” may be read as "
        f"{listed(_things(line, double))}, and no story has the sentence. Show one thing."
    )


def _is_easier(word: str, level: Level) -> bool:
    """Say whether a word belongs to a band below the level: at B1 nobody needs to be taught cloud."""
    low = lowest(word)
    return bool(low) and band_rank(low) < band_rank(level.cefr)


def _things(line: Line, slot: Slot) -> list[str]:
    alts = [picture.alt for picture in line.passage.pictures if picture.at == slot.start]
    return [phrase[-1] for alt in alts for phrase in nouns_of_picture(alt)]
