"""The things that steps and instructions use and that a list of materials should name; see data/materials.csv."""

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache

from lint_rules import lazy_re
from lint_rules.language.tokens import Analysis, Token
from lint_rules.safety.word_patterns import Finder, longest, noun_pattern, words_of
from lint_rules.tables import alternatives, rows, words

_DRAWING = frozenset({"draw", "sketch"})
_PRETEND = frozenset({"imagine", "imaginary", "pretend", "mime", "picture"})
# Prepositions that bring in what a thing is done with or on: `write on sticky notes`, `masks from paper plates`.
_BY_MEANS = frozenset({"with", "using", "on", "onto", "from"})
# Words after a noun that make another thing of it: `the ball game`, `box number two`.
_HEADS = frozenset(
    {
        "game",
        "song",
        "chant",
        "story",
        "word",
        "words",
        "sound",
        "sounds",
        "picture",
        "pictures",
        "page",
        "lesson",
        "text",
        "shape",
        "shapes",
    }
)
# Where something is put up, it is the school that has what holds it.
_PUT_UP = frozenset({"board", "wall", "door", "window", "whiteboard", "blackboard", "noticeboard", "fridge"})
_ACTIVE = frozenset({"VB", "VBP", "VBZ", "VBG"})

_QUOTED = lazy_re.compile(
    r"“[^”]*”|\"[^\"]*\"|(?<!\w)[‘'](?=\w)[^\n]*?[\w.!?,][’'](?!\w)|\b(?:say|ask)s?:[^.!?]*[.!?]?", re.I
)


# A box that is printed on the page: the words in the box, choose from the box.
_PRINTED = lazy_re.compile(
    r"\b(?:words?|phrases?|sentences?|names?|verbs?|answers?|letters?|numbers?|expressions?|questions?|adjectives?|nouns?"
    r"|endings?|ideas?)\b[^.!?\n]{0,30}\b(?:in|from|inside|of) the (?:\w+ )?box(?:es)?\b"
    r"|\b(?:use|read|choose from|complete|write|look at)\b[^.!?\n]{0,40}\bthe (?:\w+ )?box(?:es)?\b",
    re.I,
)
# What is only shown with hands and face: Mime painting; act: open the box.
_SHOWN = lazy_re.compile(
    r"\b(?:mim(?:es?|ed|ing)|pretend\w*|imagin\w+|invisible|charades)\b|\bact\s*:"
    r"|\b(?:draw|write|trace|paint)\w*\b[^.!?]*\bin the air\b|\bout of the air\b",
    re.I,
)
# What the teacher does before or after the lesson.
PREPARED = lazy_re.compile(
    r"\b(?:before|after) (?:the |this |your )?(?:lesson|class)\b(?! (?:has|have|can|is|says?|counts?|shouts?)\b)"
    r"|\bbeforehand\b|\bin advance\b|\bat home\b",
    re.I,
)
# As wide as a box, like a box; no scissors today.
_NOT_THERE = lazy_re.compile(
    r"\bas\s+[\w-]+\s+as\s+(?:[\w-]+\s+){0,3}$|\blike\s+(?:an?|the)\s+(?:[\w-]+\s+){0,2}$|\bno\s+(?:[\w-]+\s+)?$",
    re.I,
)
# What people do, not things: slow counters use bottle tops.
_OF_PEOPLE = frozenset({"use", "need", "take", "read", "write", "say", "ask", "help", "work", "finish"})
_LIMBS = frozenset({"hand", "finger", "thumb", "arm", "leg", "foot", "tongue", "head", "chin"})
_NEAR = 60  # characters
_NOTHING = frozenset({"nothing", "none", "nobody"})


_BY_THE = lazy_re.compile(r"\b(?:with|use|take) (?:the|a|an|your|their) $", re.I)


@dataclass(frozen=True, slots=True)
class Thing:
    """A row of the table."""

    name: str
    nouns: tuple[str, ...]
    handled: tuple[str, ...]
    verbs: tuple[str, ...]
    listed: tuple[str, ...]
    asked: bool  # a lack is asked about, where a text names it


@dataclass(frozen=True, slots=True)
class Used:
    """A thing used in a text: the range of the words that show it, and whether they name it (or only need it)."""

    thing: Thing
    start: int
    end: int
    named: bool


@cache
def things() -> tuple[Thing, ...]:
    """The rows of the table."""
    return tuple(
        Thing(
            name, alternatives(nouns), alternatives(handled), alternatives(verbs), alternatives(listed), asked == "yes"
        )
        for name, nouns, handled, verbs, listed, asked in rows("materials.csv")
    )


def used_in(text: str, analysis: Analysis) -> list[Used]:
    """The things that a text of steps uses, in order; quoted words are no use of anything, nor are questions."""
    found: list[Used] = []
    tokens = analysis.tokens
    written = words_of(text)
    forms = [word.form for word in written]
    asked = [
        (_question_in(text, one.start, one.end), one.end)
        for one in analysis.sentences
        if text[one.start : one.end].rstrip().endswith("?") or _SHOWN.search(text, one.start, one.end)
    ]
    quoted = [*_quoted(text), *asked, *(match.span() for match in _PRINTED.finditer(text))]
    drawn: set[str] = set()  # `Draw a boat with three ropes. Tie each word to a rope.`
    for (thing, handled), hit in longest(_nouns().find(forms)):
        start, end = written[hit.start].start, written[hit.end - 1].end
        head = next((index for index, token in enumerate(tokens) if token.end == end), None)
        if head is None or any(low <= start < high for low, high in quoted) or _NOT_THERE.search(text, 0, start):
            continue
        if handled and _is_drawn(tokens, head):
            drawn.add(thing.name)
            continue
        by_means = hit.end - hit.start > 1 and _BY_THE.search(text, 0, start) is not None  # with the hole punch
        if by_means or _is_used(tokens, head, forms[hit.end : hit.end + 1], handled=handled):
            found.append(Used(thing, start, end, named=True))
    for index, token in enumerate(tokens):
        if token.pos == "VERB" and token.tag in _ACTIVE and not any(low <= token.start < high for low, high in quoted):
            found += _by_verb(text, tokens, index)
    return sorted((use for use in found if use.thing.name not in drawn), key=lambda use: (use.start, use.end))


def _question_in(text: str, start: int, end: int) -> int:
    """Where a question begins: One child rolls a dice and asks: *Do you like bread?*"""
    colon = text.find(":", start, end)
    return (
        colon if colon >= 0 and text[:end].rstrip().endswith("?") and not _SHOWN.search(text, start, colon) else start
    )


def is_listed(thing: Thing, materials: Sequence[str]) -> bool:
    """Say whether lists of materials name a thing, or another that does as well."""
    names = _covering(thing)
    return any(any(True for _ in names.find([word.form for word in words_of(text)])) for text in materials)


def is_done_otherwise(thing: Thing, texts: Sequence[str]) -> bool:
    """Say whether texts name what does as well as a thing: a knife, where something is cut."""
    others = Finder([(noun_pattern(name), name) for name in thing.listed])
    return any(any(True for _ in others.find([word.form for word in words_of(text)])) for text in texts)


@cache
def _covering(thing: Thing) -> Finder[str]:
    """What may stand under Materials for a thing."""
    return Finder([(noun_pattern(name), name) for name in (thing.name, *thing.nouns, *thing.handled, *thing.listed)])


def _by_verb(text: str, tokens: Sequence[Token], index: int) -> Iterator[Used]:
    """The thing that a verb needs: `cut out the cards`, `stick it in your book`."""
    token = tokens[index]
    if PREPARED.search(text, max(0, token.start - _NEAR), token.start + _NEAR):
        return  # what the teacher does before or after the lesson
    for thing in _needed_for().get(token.lemma, ()):
        if _is_other_sense(tokens, index) or _is_said_of_me(tokens, index) or _is_denied(tokens, index):
            continue
        if _is_done_by_others(tokens, index):
            continue
        particle = tokens[index + 1] if index + 1 < len(tokens) else None
        with_out = particle is not None and particle.text.casefold() in ("out", "up", "off")
        yield Used(thing, token.start, particle.end if particle is not None and with_out else token.end, named=False)


@cache
def _needed_for() -> Mapping[str, tuple[Thing, ...]]:
    """First word of a verb → the things that it needs, in the order of the table."""
    pairs = [(verb.partition(" ")[0], thing) for thing in things() for verb in thing.verbs]
    return {first: tuple(dict.fromkeys(thing for verb, thing in pairs if verb == first)) for first, _ in pairs}


def _is_other_sense(tokens: Sequence[Token], index: int) -> bool:
    """Say whether a verb means something else here: `stick the poster on the wall`, `stick together`, `cut in`."""
    after = tokens[index + 1 : index + 9]
    lemma = tokens[index].lemma
    if lemma in ("stick", "paste", "tape", "glue") and any(token.text.casefold() in _PUT_UP for token in after):
        return True
    following = after[0].text.casefold() if after else ""
    if lemma == "stick":
        limb = any(token.head == index and token.lemma in _LIMBS for token in after)  # stick your tongue out
        return limb or following in ("together", "to", "with") or not _has_object(tokens, index)
    if lemma == "cut":
        other = {"time", "odd", *words("foods")}  # a knife's work
        return following in ("in", "down", "short") or any(token.lemma in other for token in after)
    return False


def _is_done_by_others(tokens: Sequence[Token], verb: int) -> bool:
    """Say whether somebody does it who is not in the class: It cuts trees; Nan Pip cuts."""
    if tokens[verb].tag != "VBZ":
        return False
    subjects = [token for token in tokens if token.head == verb and token.dep == "nsubj"]
    return bool(subjects) and not any(token.lemma.casefold() in words("class_people") for token in subjects)


def _is_denied(tokens: Sequence[Token], verb: int) -> bool:
    """Say whether nobody does it: they cut nothing; nobody cuts; do not cut."""
    of_verb = (token for token in tokens if token.head == verb and token is not tokens[verb])
    return any(token.dep == "neg" or token.text.casefold() in _NOTHING for token in of_verb)


def _has_object(tokens: Sequence[Token], verb: int) -> bool:
    """Say whether something is done to something, or ordered (Stick.): some coins stick."""
    if (
        verb == 0
        or tokens[verb - 1].pos in ("PUNCT", "CCONJ")
        or (tokens[verb].dep == "ROOT" and tokens[verb].tag == "VB")
    ):
        return True
    return any(token.head == verb and token.dep in ("dobj", "obj", "nsubjpass", "prt") for token in tokens)


def _is_used(tokens: Sequence[Token], noun: int, after: Sequence[str], *, handled: bool) -> bool:
    """Say whether a noun is a thing in use, by the verb it belongs to (or by `with` before it)."""
    first = _first_of_sentence(tokens, noun)
    if (after and after[0] in _HEADS) or any(_is_pretence(token) for token in tokens[first:noun]):
        return False
    if _opens_with_handling(tokens, first, noun):
        return True
    title = noun > first + 1 and tokens[noun].text.istitle() and tokens[noun - 1].text.istitle()
    if title or tokens[noun].pos not in ("NOUN", "PROPN"):
        return False  # Play Tangled String.
    head, preposition = tokens[noun], ""
    for _ in range(6):
        parent = tokens[head.head]
        if parent.pos in ("ADP", "SCONJ"):
            preposition = parent.text.casefold()
        if parent.pos == "VERB":
            if _is_said_of_me(tokens, head.head) or (head.dep == "nsubj" and parent.lemma in _OF_PEOPLE):
                return False
            if preposition == "into" and parent.lemma not in ("put", "place", "drop", "throw"):
                return False  # what it becomes: `roll the clay into balls`
            if parent.lemma in words("showing_verbs"):
                return not handled and preposition in _BY_MEANS
            return not handled or parent.lemma in words("handling_verbs")
        if parent is head:
            break
        head = parent
    return not handled


def _is_drawn(tokens: Sequence[Token], noun: int) -> bool:
    """Say whether a noun stands behind the order to draw it in its sentence."""
    before = tokens[_first_of_sentence(tokens, noun) : noun]
    return any(token.lemma.casefold() in _DRAWING and token.tag in _ACTIVE for token in before[:2])


def _is_pretence(token: Token) -> bool:
    """Say whether a verb takes things for granted that are not there (`picture a dog`; not `a picture card`)."""
    return token.lemma in _PRETEND and token.pos not in ("NOUN", "PROPN", "ADJ")


def _is_said_of_me(tokens: Sequence[Token], verb: int) -> bool:
    """Say whether a speaker tells what he or she does, as on a page: `I put my hat in a bag`; or a sentence that
    children are to say, of what somebody has done: `They've just attached the string`."""
    of_verb = [token for token in tokens if token.head == verb]
    me = any(token.dep == "nsubj" and token.text.casefold() in ("i", "we") for token in of_verb)
    return me or (tokens[verb].tag == "VBN" and any(token.lemma in ("just", "already", "yet") for token in of_verb))


def _first_of_sentence(tokens: Sequence[Token], at: int) -> int:
    while at > 0 and tokens[at - 1].text not in (".", "!", "?"):
        at -= 1
    return at


def _opens_with_handling(tokens: Sequence[Token], first: int, noun: int) -> bool:
    """Say whether a sentence opens with an order to handle the noun, which a parser may take for a noun too."""
    between = tokens[first + 1 : noun]
    return (
        noun > first
        and tokens[first].text.casefold() in words("handling_verbs")
        and tokens[first].text[0].isupper()
        and all(token.pos in ("DET", "NUM", "ADJ", "PRON", "ADP") and token.dep != "pobj" for token in between)
        and not any(token.text.casefold() in ("to", "at", "into", "for", "about") for token in between)
    )


def _quoted(text: str) -> list[tuple[int, int]]:
    """What stands in quotation marks, or after `Say:` to the end of its sentence."""
    return [match.span() for match in _QUOTED.finditer(text)]


@cache
def _nouns() -> Finder[tuple[Thing, bool]]:
    return Finder(
        [(noun_pattern(noun), (thing, False)) for thing in things() for noun in thing.nouns]
        + [(noun_pattern(noun), (thing, True)) for thing in things() for noun in thing.handled]
    )
