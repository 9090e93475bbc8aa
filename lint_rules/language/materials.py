"""The things that steps and instructions use and that a list of materials should name; see data/materials.csv."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache

from lint_rules.language.cue_words import Finder, Hit, noun_pattern, words_of
from lint_rules.language.tables import alternatives, rows
from lint_rules.language.tokens import Analysis, Token

# Verbs whose object is really there. Common practice, no source.
_HANDLE = frozenset(
    "use throw toss roll catch pass take pick put place hold shake spin turn deal shuffle mix move give hand distribute"
    " bring collect hang tie pull drop hide cover wear swap exchange keep fill empty open blow inflate kick bounce"
    " balance attach fix need prepare lay arrange play ring shine press push blindfold pin clip decorate".split()
)
# Verbs whose object is a picture, a word or something still to be made.
_SHOW_OR_TELL = frozenset(
    "draw point say name find circle describe spell write listen look imagine mime think read choose match tick colour"
    " color count guess see hear remember trace underline talk ask answer call sing discuss make create design invent"
    " pretend become like want label order number compare learn repeat".split()
)
# Words after a noun that make another thing of it: `the ball game`, `box number two`.
_HEADS = frozenset("game song chant story word words sound sounds picture pictures page lesson text shape shapes".split())
# Where something is put up, it is the school that has what holds it.
_PUT_UP = frozenset("board wall door window whiteboard blackboard noticeboard fridge".split())
_ACTIVE = frozenset({"VB", "VBP", "VBZ", "VBG"})

_QUOTED = re.compile(
    r"“[^”]*”|\"[^\"]*\"|(?<!\w)[‘'](?=\w)[^\n]*?[\w.!?,][’'](?!\w)|\b(?:say|ask)s?:[^.!?]*[.!?]?", re.I
)


@dataclass(frozen=True, slots=True)
class Thing:
    """A row of the table."""

    name: str
    nouns: tuple[str, ...]
    handled: tuple[str, ...]
    verbs: tuple[str, ...]
    listed: tuple[str, ...]


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
    return tuple(Thing(row[0], *map(alternatives, row[1:])) for row in rows("materials.csv"))


def used_in(text: str, analysis: Analysis) -> list[Used]:
    """The things that a text of steps uses, in order; quoted words are no use of anything."""
    found: list[Used] = []
    tokens = analysis.tokens
    words = words_of(text)
    forms = [word.form for word in words]
    quoted = _quoted(text)
    for (thing, handled), hit in _longest(_nouns().find(forms)):
        start, end = words[hit.start].start, words[hit.end - 1].end
        head = next((index for index, token in enumerate(tokens) if token.end == end), None)
        if head is None or any(low <= start < high for low, high in quoted):
            continue
        if _is_used(tokens, head, forms[hit.end : hit.end + 1], handled=handled):
            found.append(Used(thing, start, end, named=True))
    for index, token in enumerate(tokens):
        if token.pos == "VERB" and token.tag in _ACTIVE and not any(low <= token.start < high for low, high in quoted):
            found += _by_verb(text, tokens, index)
    return sorted(found, key=lambda use: (use.start, use.end))


def is_listed(thing: Thing, materials: Sequence[str]) -> bool:
    """Say whether lists of materials name a thing, or another that does as well."""
    names = _covering(thing)
    return any(any(True for _ in names.find([word.form for word in words_of(text)])) for text in materials)


@cache
def _covering(thing: Thing) -> Finder[str]:
    """What may stand under Materials for a thing."""
    return Finder([(noun_pattern(name), name) for name in (thing.name, *thing.nouns, *thing.handled, *thing.listed)])


def _by_verb(text: str, tokens: Sequence[Token], index: int) -> Iterator[Used]:
    """The thing that a verb needs: `cut out the cards`, `stick it in your book`."""
    token = tokens[index]
    for thing in things():
        verbs = {verb.partition(" ")[0]: verb for verb in sorted(thing.verbs)}
        verb = verbs.get(token.lemma)
        if verb is None or _is_other_sense(tokens, index):
            continue
        particle = tokens[index + 1] if index + 1 < len(tokens) else None
        with_out = particle is not None and particle.text.casefold() in ("out", "up", "off")
        yield Used(thing, token.start, particle.end if particle is not None and with_out else token.end, named=False)


def _is_other_sense(tokens: Sequence[Token], index: int) -> bool:
    """Say whether a verb means something else here: `stick the poster on the wall`, `stick together`, `cut in`."""
    after = tokens[index + 1 : index + 9]
    lemma = tokens[index].lemma
    if lemma in ("stick", "paste", "tape", "glue") and any(token.text.casefold() in _PUT_UP for token in after):
        return True
    following = after[0].text.casefold() if after else ""
    if lemma == "stick":
        return following in ("together", "to", "with")
    if lemma == "cut":
        return following in ("in", "down", "short") or any(token.lemma in ("cake", "time") for token in after)
    return False


def _is_used(tokens: Sequence[Token], noun: int, after: Sequence[str], *, handled: bool) -> bool:
    """Say whether a noun is a thing in use, by the verb it belongs to (or by `with` before it)."""
    token = tokens[noun]
    if token.pos not in ("NOUN", "PROPN") or (after and after[0] in _HEADS):
        return False
    head = tokens[noun]
    for _ in range(6):
        parent = tokens[head.head]
        if parent.text.casefold() == "with" and not handled:
            return True
        if parent.pos == "VERB":
            if parent.lemma in _SHOW_OR_TELL:
                return _with_before(tokens, noun) and not handled
            return not handled or parent.lemma in _HANDLE
        if parent is head:
            break
        head = parent
    return not handled


def _with_before(tokens: Sequence[Token], noun: int) -> bool:
    return any(token.text.casefold() in ("with", "using") for token in tokens[max(0, noun - 4) : noun])


def _quoted(text: str) -> list[tuple[int, int]]:
    """What stands in quotation marks, or after `Say:` to the end of its sentence."""
    return [match.span() for match in _QUOTED.finditer(text)]


def _longest(found: Iterator[tuple[tuple[Thing, bool], Hit]]) -> list[tuple[tuple[Thing, bool], Hit]]:
    hits = list(found)
    return [
        (key, hit)
        for key, hit in hits
        if not any(o.start <= hit.start and hit.end <= o.end and o.end - o.start > hit.end - hit.start for _, o in hits)
    ]


@cache
def _nouns() -> Finder[tuple[Thing, bool]]:
    return Finder(
        [(noun_pattern(noun), (thing, False)) for thing in things() for noun in thing.nouns]
        + [(noun_pattern(noun), (thing, True)) for thing in things() for noun in thing.handled]
    )
