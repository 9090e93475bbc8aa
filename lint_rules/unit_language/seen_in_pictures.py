"""Answers held against what a picture is said to show: the word beside it, the colour that a thing has in its brief.

*![a boat] mum · boat* with the key *mum*; *What colour are Ailsa's boots?* with the key *green*, where the brief has
blue boots. Nothing is known of a picture but its words.
"""

import re
from collections.abc import Iterator, Sequence

from lint_rules import lazy_re
from lint_rules.manuscript.model import Audience
from lint_rules.page.exercises.completed import completed
from lint_rules.page.exercises.model import Exercise, Exercises, Item, Option
from lint_rules.tables import words
from lint_rules.unit_language.option_support import content_words
from lint_rules.unit_language.places import PLACES, last_word, places_of

_FEWEST = 2  # answers that go with their picture, before one that does not is a slip
_SENTENCE = lazy_re.compile(r"[^.!?;\n]+")
_CLAUSE = lazy_re.compile(r"[.!?;:,\n]|\band\b")
_WORD = lazy_re.compile(r"[^\W\d_]+")
_COLOUR_OF = lazy_re.compile(r"\bwhat colou?r (?:is|are) ([^?]+)\?", re.I)
_BESIDE = frozenset(["near", "next to", "in front of", "behind", "between"])  # several may be true at once
_FACING = frozenset(["in front of", "behind"])  # but never both of these
_PRONOUN = lazy_re.compile(r"\s*(?:his|her|its|their|the)\b", re.I)
_NAME_INSIDE = lazy_re.compile(r"(?<=\w )[A-Z][a-z]+")
_BETWEEN = 2  # words that may stand between a colour and its thing: blue rubber boots


def another_word(read: Exercises) -> tuple[Item, str] | None:
    """The one item whose picture shows another of its options than the key's, and that option; None otherwise."""
    for exercise in read.exercises:
        right: list[Option] = []
        wrong: list[tuple[Item, Option]] = []
        for item in exercise.items:
            shown, options = _picture_of(item), _options_of(item, exercise)
            chosen = _chosen(item, exercise) if item.answer is not None and not item.example else None
            if not shown or chosen is None:
                continue
            fit = [option for option in options if (said := _unnamed(option.text)) and said <= shown]
            if chosen in fit:
                right.append(chosen)
            elif len(fit) == 1:
                wrong.append((item, fit[0]))
        wrong = [(item, option) for item, option in wrong if option not in right]
        if len(right) >= _FEWEST and len(wrong) == 1:
            return wrong[0][0], wrong[0][1].text
    return None


def _unnamed(text: str) -> frozenset[str]:
    """The words of an option that mean something, without the names in it: Who's Tiro."""
    return content_words(_NAME_INSIDE.sub(" ", text))


def another_colour(read: Exercises) -> tuple[Item, str] | None:
    """An item that asks for the colour of a thing which the brief of its picture has in one other; and that one."""
    briefs = [one.text for one in read.activity.part.passages if one.audience is Audience.ARTIST]
    sentences = [sentence for brief in briefs for sentence in _SENTENCE.findall(brief)]
    for item in (item for exercise in read.exercises for item in exercise.items):
        asked = _COLOUR_OF.search(item.text)
        said = _colours(_WORD.findall(item.answer.text)) if item.answer is not None and not item.example else []
        if asked is None or len(said) != 1:
            continue
        drawn = {colour for sentence in sentences for colour in _colours_of(asked[1], sentence)}
        if len(drawn) == 1 and said[0] not in drawn and not _may_be_so(said[0], asked[1], sentences):
            return item, drawn.pop()
    return None


def another_place(read: Exercises) -> tuple[Item, str] | None:
    """An item whose answer says where a thing is, and the one other place word that the brief has there; None where it
    has none, or several: *Kuku is ____ the basket*, under by the key, and behind in the picture."""
    briefs = [one.text for one in read.activity.part.passages if one.audience is Audience.ARTIST]
    sentences = [clause for brief in briefs for clause in _CLAUSE.split(brief)]
    for exercise in read.exercises:
        for item in exercise.items:
            said = _said(item, exercise)
            if said not in PLACES:
                continue
            thing, _, spot = _without_options(item).partition("____")
            last = last_word(_CLAUSE.split(spot)[0])
            what = content_words(thing)
            drawn = {
                found
                for sentence in sentences
                if what and last and what <= content_words(sentence)
                for found in places_of(last, sentence)
            }
            both = {said, *drawn}
            if len(drawn) == 1 and said not in drawn and (both == _FACING or not both <= _BESIDE):
                return item, drawn.pop()
    return None


def _said(item: Item, exercise: Exercise) -> str:
    """The word or words that the key puts in, in lower case."""
    if item.answer is None or item.example:
        return ""
    chosen = [option for option in completed(item, exercise).chosen if option is not None]
    return (chosen[0].text if len(chosen) == 1 else item.answer.text).strip(" .").casefold()


def _without_options(item: Item) -> str:
    """The sentence of an item with a blank where its options stand."""
    text = re.sub(r"_{2,}", "____", item.text)
    for choice in item.choices:
        options = r"\W+".join(re.escape(option.text) for option in choice.options)
        if "____" not in text and choice.inline is not None:
            text = re.sub(rf"[(\[]?\s*{options}\s*[)\]]?", " ____ ", text, count=1)
    return text


def _may_be_so(colour: str, thing: str, sentences: Sequence[str]) -> bool:
    """Say whether a sentence that names the thing and nobody (Her boots are green) has it in a colour."""
    return any(
        last_word(thing) <= content_words(sentence)
        and colour in _colours(_WORD.findall(sentence))
        and _PRONOUN.match(sentence) is not None
        for sentence in sentences
    )


def _colours_of(thing: str, sentence: str) -> Iterator[str]:
    """The colours that a sentence gives a thing, right before it, where it names all else too (Ailsa's boots)."""
    wanted, last = content_words(re.sub(r"['’]s\b", "", thing)), last_word(thing)
    named = _WORD.findall(sentence)
    if not last or not wanted <= content_words(sentence):
        return
    for at, word in enumerate(named):
        if content_words(word) == last:
            before = [one.casefold() for one in named[max(0, at - 1 - _BETWEEN) : at]]
            joined = len(before) - before[::-1].index("and") if "and" in before else 0  # a blue coat and boots
            yield from _colours(before[joined:])[-1:]


def _colours(named: Sequence[str]) -> list[str]:
    return [word.casefold() for word in named if word.casefold() in words("colours")]


def _picture_of(item: Item) -> frozenset[str]:
    """What the one picture of an item shows, in words as they are compared."""
    shown = [
        picture.alt
        for place in item.prompt
        for picture in place.passage.pictures
        if place.start <= picture.at < place.end
    ]
    return content_words(shown[0]) if len(shown) == 1 else frozenset()


def _options_of(item: Item, exercise: Exercise) -> Sequence[Option]:
    return item.choices[0].options if len(item.choices) == 1 else exercise.column if not item.choices else ()


def _chosen(item: Item, exercise: Exercise) -> Option | None:
    done = completed(item, exercise)
    return done.chosen[0] if len(done.chosen) == 1 else done.matched
