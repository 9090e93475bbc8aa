"""A picture, or the brief for one, that leaves the artist or the child guessing.

For a child who cannot read yet the picture is the meaning of the word. So each picture needs an alternative text that
names what must be seen: the artist draws by it, the screen reader speaks it. `image`, a file's name, or another word
than the one beside it help nobody; a jacket that is green in the brief and yellow in the story is drawn green; an art
brief must say what it shows, and in a unit with photos whether it is drawn.
And a photo shows too much: a child who sees a dog on grass may take *dog* for the word for grass. For a word that the
unit teaches, a drawing is clearer (common practice, no source; a note). While the art is still to come (`art: briefs`,
the default), a picture without a file is no finding, but for a slip in its name; with `art: files` every file must be
there.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import partial

from lint_rules import lazy_re
from lint_rules.course.model import WordEntry
from lint_rules.finding import Found, Severity
from lint_rules.language.vocabulary.topics import TopicList, topic_key, topics_of
from lint_rules.manuscript.model import PICTURE, Activity, Div, DivKind, Passage, Picture, Role, Unit
from lint_rules.page.pictures import (
    asked_photo,
    file_of,
    is_photo,
    names_nothing,
    nearest_file,
    same_file,
    says_how,
    shows_nothing,
)
from lint_rules.rule import By, Example, Gather, Limit, Reading, Rule, Within
from lint_rules.source import Span
from lint_rules.unit_language.drawn_otherwise import drawn_otherwise
from lint_rules.unit_language.picture_sentences import names_of_picture, nouns_of_picture

_WORDS = "apple,noun,food,1\ndog,noun,animals,1\ncat,noun,animals,1\nhill,noun,places,2\nanimal,noun,animals,1\n"
_ART_IS_THERE = "art: files\n"
_STORY = (
    "### 1 Read. {{.story}}\n\nPim has a green hat and a bag. He looks for eggs.\n\nHe puts four eggs into the green "
    "hat.\n\n::: art\nDrawing: Pim with {}.\n:::\n"
)
_FILES = ("art/apple.svg", "art/a cat.svg", "art/hill.jpg")

RULE = Rule(
    name="art-brief",
    family="activities",
    severity=Severity.QUERY,
    cure=(
        "Write what must be seen, as a sentence that an artist can draw from. Once the art is in, set `art: "
        "files` in course.yaml, and every picture must be there."
    ),
    passes=(
        Example("![a red apple](../art/apple.svg){.drawing}\n", words=_WORDS, files=_FILES),
        Example(
            "![a hill in the sun](../art/hill.jpg){.photo}\n", words=_WORDS, files=_FILES, why="not a word of this unit"
        ),
        Example("![a market in the rain](https://example.org/market.jpg){.photo}\n", words=_WORDS, why="on the web"),
        Example("1. ![cat](<../art/a cat.svg>) It's a ____.\n2. ![a cat](../art/a%20cat.svg)\n", files=_FILES),
        Example("::: art\nDrawing: Mina waves from the ferry.\n:::\n"),
        Example(
            "::: art\nPhoto: a gull\n:::\n\n::: art\nTwo diagrams side by side.\n:::\n\n"
            "::: art\nA crossword grid.\n:::\n",
            why="nobody photographs a diagram",
        ),
        Example(_STORY.format("a green hat and four eggs"), why="as the story has them"),
        Example(_STORY.format("a green hat and a red hat"), why="one of two hats"),
        Example(_STORY.format("the red hats of other people"), why="other hats than Pim's"),
        Example(_STORY.format("a red bag"), why="the story does not say what it is like"),
        Example("::: art\nMina waves from the ferry.\n:::\n", why="no photo in this unit: all is drawn"),
        Example("![a pear](../art/pear.svg){.drawing}\n", files=_FILES, why="the art is still to come"),
        Example("![a pear]()\n", why="the art is still to come"),
        Example("![apples](../art/apples.svg)\n", files=_FILES, why="another picture, still to come"),
        Example("::: {.art .photo}\nThe harbour on a busy morning, from above.\n:::\n"),
        Example(
            "::: words\n![a dog](../art/apple.svg) dog, ![a dog](../art/apple.svg) animal\n:::\n",
            words=_WORDS,
            files=_FILES,
        ),
        Example(
            "1. ![comic](../art/comic.svg) It's a ____.\n", words="comic,noun,things,1\n", why="a comic is a thing here"
        ),
        Example("### 1 Tick or cross. {.reading}\n\n1. ![a dog](../art/apple.svg) cat\n", words=_WORDS, files=_FILES),
    ),
    fails=(
        Example(
            "![«a red apple»](../art/apple.svg){.photo}\n",
            words=_WORDS,
            files=_FILES,
            why="a note",
            weight=Severity.NOTE,
        ),
        Example("1. ![«»](../art/apple.svg){.drawing} It's an ____.\n", files=_FILES),
        Example(
            "![«image»](../art/apple.svg)\n\n![«Picture 3»](../art/apple.svg)\n\n![«apple.svg»](../art/apple.svg)\n",
            files=_FILES,
        ),
        Example("![«a pear»](../art/pear.svg){.drawing}\n", files=_FILES, course=_ART_IS_THERE, why="no such file"),
        Example("![«a pear»]()\n", course=_ART_IS_THERE, why="no file is named"),
        Example("![«a hill»](../Art/Hill.jpg)\n", files=_FILES, why="a name in other capitals is another name"),
        Example(
            "::: words\n![«a dog»](../art/apple.svg) cat, dog\n:::\n", words=_WORDS, files=_FILES, why="the word is cat"
        ),
        Example(
            "::: art\n«Mina waves from the ferry.»\n:::\n\n::: art\nPhoto: the harbour from above\n:::\n\n"
            "::: art\nDrawing: a gull\n:::\n",
            weight=Severity.NOTE,
            why="drawing or photo?",
        ),
        Example(
            "::: art\n«Mina waves from the ferry.»\n:::\n\n::: art\nPhoto: the harbour from above\n:::\n",
            why="what is no photo is meant to be drawn",
            weight=Severity.NOTE,
        ),
        Example("«::: {.art .drawing}»\n:::\n\n::: art\n«A full-page drawing.»\n:::\n", why="of what?"),
        Example(_STORY.format("a «red hat»"), why="the story has it green"),
        Example(_STORY.format("a green hat and «five eggs»"), why="four in the story"),
        Example("::: art\n«Photo: a red apple»\n:::\n", words=_WORDS, weight=Severity.NOTE),
    ),
    limits=(Limit("a drawing, not a photo, for a word that the unit teaches", "common practice, no source"),),
    gathers=(
        Gather(
            Within.COURSE,
            By.ABOUT,
            {
                "path": "{count} pictures name files that are elsewhere in this course. Mend the folder before their "
                "names (from a unit's folder `../art/`, where art stands beside course.yaml).",
                "file": "{count} pictures have no file yet. Add them, or write their names as they are.",
                "how": "{count} art briefs say neither drawing nor photo. Begin each with “Drawing:” or “Photo:”.",
            },
        ),
    ),
)

_WORD_LESSONS = frozenset({"words", "vocabulary"})
_MOST_WORDS_OF_A_THING = 3
_ARTICLES = frozenset({"a", "an", "the", "some"})
_JUDGING = lazy_re.compile(
    r"\b(?:tick|cross|match|join|yes|no|true|false|correct|right|wrong|mistakes?|circle|choose|find|which|odd|line)\b",
    re.I,
)
_JUDGED = frozenset({"test", "game", "mistakes", "odd-one-out", "picture-sentence"})


def find(reading: Reading) -> Iterator[Found]:
    """Report pictures at their alternative text, and art briefs at their words or their fence."""
    unit, topics = reading.unit, topics_of(reading.course)
    briefs = [div for div in unit.divs if div.kind is DivKind.ART]
    for shown in _pictures(unit):
        in_brief = any(div.span.covers(shown.picture.span) for div in briefs)
        yield from _picture(shown, reading, topics, in_brief=in_brief)
    for picture, word in _beside(unit):
        if _names_another(picture.alt, word, topics):
            yield _at(
                picture,
                f"This picture stands for the word “{word}”, but its alternative text names something else: the artist "
                f"will draw what it says. Write what must be seen, such as “{_with_article(word)}”.",
            )
    some_photo = any(map(partial(_asks_photo, unit), briefs)) or any(
        is_photo(shown.picture.attributes.classes) for shown in _pictures(unit)
    )
    for div in briefs:
        yield from _brief(div, reading, topics, must_say_how=some_photo)
    for drawn, told in drawn_otherwise(unit):
        message = (
            f"The picture has “{drawn.text}”, and the text “{told.text}”. Make them the same: artists draw by this."
        )
        yield Found(drawn.passage.span(drawn.start, drawn.end), drawn.text, message)


@dataclass(frozen=True, slots=True)
class _Shown:
    """A picture, and whether it stands in a lesson that teaches words."""

    picture: Picture
    in_words: bool


def _pictures(unit: Unit) -> list[_Shown]:
    """Every picture of a unit, in file order."""
    found = {p.span: _Shown(p, False) for p in unit.opening.pictures}
    found |= {p.span: _Shown(p, False) for activity in unit.opening_activities for p in activity.part.pictures}
    for lesson in unit.lessons:
        teaches = bool(_WORD_LESSONS.intersection(lesson.classes))
        for part in (lesson.part, *(activity.part for activity in lesson.activities)):
            found |= {picture.span: _Shown(picture, teaches) for picture in part.pictures}
    return [found[span] for span in sorted(found)]


def _picture(shown: _Shown, reading: Reading, topics: TopicList, *, in_brief: bool) -> Iterator[Found]:
    picture, unit = shown.picture, reading.unit
    alt = picture.alt.strip()
    if not alt:
        message = (
            "This picture has no alternative text, so nobody knows what to draw or to read aloud. Write between the "
            "square brackets what must be seen, such as “a dog with a red ball”."
        )
        yield _at(picture, message)
    elif names_nothing(alt, picture.target) and not topics.entries(alt.casefold()):  # a comic, where it is taught
        message = (
            f"“{alt}” does not say what must be seen. Name it, such as “a dog with a red ball”: artists draw by this."
        )
        yield _at(picture, message)
    elif is_photo(picture.attributes.classes) and not in_brief and (shown.in_words or _is_one_thing(alt)):
        word = _taught_here(alt, reading, topics)
        if word is not None:
            yield _at(picture, _too_much(word), Severity.NOTE)
    all_there = reading.course.art == "files"
    if not picture.target.strip():
        if all_there:
            yield _at(picture, "This picture names no file: write between the round brackets where it is.")
        return
    path = file_of(picture.target, unit.path)
    from_course = None if all_there else file_of(picture.target, "course.yaml")  # some print from there
    if path is not None and path not in reading.files and from_course not in reading.files:
        near = (nearest_file if all_there else same_file)(path, reading.files)
        if near:
            elsewhere = near.rpartition("/")[2] == path.rpartition("/")[2]
            message = f"There is no file {path} in this course. Did you mean {near}?"
            yield _at(picture, message, about="path" if elsewhere else "")
        elif all_there:
            message = f"There is no file {path} in this course. Add it, or write its name as it is."
            yield _at(picture, message, about="file")


def _at(picture: Picture, message: str, severity: Severity | None = None, about: str = "") -> Found:
    return Found(picture.alt_span, picture.alt, message, severity, key=picture.target, about=about)


def _is_one_thing(text: str) -> bool:
    """Say whether a text names one thing and no more: `a red apple`."""
    things = nouns_of_picture(text)
    words = [word for word in text.casefold().split() if word not in _ARTICLES]
    return len(things) == 1 and len(things[0]) == len(words) <= _MOST_WORDS_OF_A_THING


def _too_much(word: WordEntry) -> str:
    return (
        f"This unit teaches “{word.word}”, and a photo shows too much: children cannot tell which part is the word. "
        "A drawing with nothing else in it is clearer (common practice, no source)."
    )


def _taught_here(alt: str, reading: Reading, topics: TopicList) -> WordEntry | None:
    """The target word of this unit that an alternative text names."""
    for entry in _listed(alt, topics):
        if entry.level == reading.level.index and entry.unit in (0, reading.unit.front.unit):
            return entry
    return None


def _listed(alt: str, topics: TopicList) -> list[WordEntry]:
    """The rows of the word lists for what an alternative text names: `teddy bear` before `bear`."""
    found: list[WordEntry] = []
    for phrase in nouns_of_picture(alt):
        names = (" ".join(phrase[at:]) for at in range(len(phrase)))
        found += next((entries for name in names if (entries := topics.entries(name))), ())
    return found


def _beside(unit: Unit) -> Iterator[tuple[Picture, str]]:
    """Pictures that teach the one word beside or under them: in a `words` panel, or where no answer is asked for."""
    judged = {passage: _is_judged(activity, unit) for activity in unit.activities for passage in activity.part.passages}
    by_alt = {shown.picture.alt_span: shown.picture for shown in _pictures(unit)}
    before: Passage | None = None
    for passage in unit.passages:
        teaches = passage.role is Role.PANEL or not judged.get(passage, True)
        pictures = passage.pictures
        if passage.role is Role.CAPTION and before is not None and before.role is Role.ALT:
            pictures = tuple(by_alt[span] for span in (before.span(),) if span in by_alt)
        elif passage.role not in (Role.PANEL, Role.ITEM):
            pictures = ()
        word = passage.text.replace(PICTURE, "").strip(" \t\n=:–—-.")
        if teaches and len(pictures) == 1 and not passage.gaps and word and len(word.split()) == 1:
            yield pictures[0], word
        before = passage


def _is_judged(activity: Activity, unit: Unit) -> bool:
    """An activity in which pictures and words may differ on purpose: children judge, match or correct them."""
    return (
        bool(_JUDGED.intersection(activity.kinds))
        or bool(_JUDGING.search(activity.heading.passage.text))
        or any(unit.divs[div].kind is DivKind.ANSWERS for div in activity.part.divs)
    )


def _names_another(alt: str, word: str, topics: TopicList) -> bool:
    """Say whether an alternative text names another noun of the lists than the one it stands beside."""
    heads, all_words = names_of_picture(alt)
    keys = {topic_key(word), word.casefold()}
    own = [entry for entry in topics.entries(word) if entry.part_of_speech in ("", "noun")]
    if not own or keys & (heads | all_words):
        return False
    others = [entry for entry in _listed(alt, topics) if entry.part_of_speech in ("", "noun") and entry not in own]
    return bool(others) and not any(keys & topics.of(entry.word) for entry in others)


def _said_in(div: Div, unit: Unit) -> tuple[list[Passage], str, list[str]]:
    """What an art brief says: its passages, their words, and the classes of the div and of the pictures in it."""
    passages = [p for p in unit.passages if p.role in (Role.BRIEF, Role.ALT) and div.span.covers(p.block)]
    inside = [shown.picture for shown in _pictures(unit) if div.span.covers(shown.picture.span)]
    text = " ".join([p.text.replace(PICTURE, " ") for p in passages] + [q.alt for p in passages for q in p.pictures])
    classes = [name for name in div.attributes.classes if name != "art"]
    classes += [name for picture in inside for name in picture.attributes.classes]
    return passages, text, [*classes, *div.attributes.values.values()]


def _asks_photo(unit: Unit, div: Div) -> bool:
    _, text, classes = _said_in(div, unit)
    return asked_photo(text, classes)


def _brief(div: Div, reading: Reading, topics: TopicList, *, must_say_how: bool) -> Iterator[Found]:
    """One art brief: it must say what it shows; drawing or photo, in a unit that has both, is only noted."""
    unit = reading.unit
    passages, text, classes = _said_in(div, unit)
    if shows_nothing(text):
        message = (
            "This art brief does not say what must be seen. Write it as a sentence: “Drawing: a dog jumps over a box.”"
        )
        yield _at_brief(passages, div, unit, message)
    elif must_say_how and not says_how(text, classes):
        message = (
            "This art brief does not say whether it asks for a drawing or a photo, and this unit has photos. Begin it "
            "“Drawing:” or “Photo:”."
        )
        yield replace(_at_brief(passages, div, unit, message, Severity.NOTE), about="how")
    elif (
        asked_photo(text, classes)
        and _is_one_thing(_without_how(text))
        and (word := _taught_here(_without_how(text), reading, topics))
    ):
        yield _at_brief(passages, div, unit, _too_much(word), Severity.NOTE)


def _without_how(text: str) -> str:
    how, colon, rest = text.partition(":")
    return rest if colon and len(how.split()) < 4 else text


def _at_brief(passages: list[Passage], div: Div, unit: Unit, message: str, severity: Severity | None = None) -> Found:
    if not passages:
        return Found(div.opening, unit.source.slice(div.opening), message, severity)
    spans = [passage.span() for passage in passages]
    words = " ".join(passage.text.replace(PICTURE, "").strip() for passage in passages)
    return Found(Span(spans[0].start, spans[-1].end), words, message, severity)


def _with_article(word: str) -> str:
    return f"{'an' if word[:1].lower() in 'aeiou' else 'a'} {word}"
