"""Characters that a reader of the page and the rules see differently: invisible ones, and letters that only look Latin.

An invisible character cuts a word in two for every rule, one that turns the direction of text prints other words than
were checked, and a Cyrillic а among Latin letters makes a word that no list holds. All of them come with text that was
pasted; none of them can be seen.
"""

import unicodedata
from collections.abc import Iterable, Iterator, Sequence

from lint_rules import lazy_re
from lint_rules.manuscript.model import Passage, Problem
from lint_rules.plain_words import LETTERS
from lint_rules.source import Source, Span

# Unicode 15, the bidirectional formatting characters (Unicode Standard Annex #9, section 2).
_TURNING = "\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069"
# Controls but tab and line ends (NUL is told apart), and default-ignorable characters (DerivedCoreProperties.txt).
_CONTROL = "\x01-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f"
_UNSEEN = (
    "\u00ad\u034f\u115f\u1160\u17b4\u17b5\u180b-\u180f\u200b-\u200d\u2028\u2029\u2060-\u2065\u206a-\u206f\u3164"
    "\ufe00-\ufe0f\ufeff\uffa0\ufff0-\ufffb\U000e0000-\U000e0fff"
)
_ODD = lazy_re.compile(f"[{_TURNING}{_CONTROL}{_UNSEEN}]+")
_IS_TURNING = lazy_re.compile(f"[{_TURNING}]")
_IS_CONTROL = lazy_re.compile(f"[{_CONTROL}]")
_VARIANTS, _JOINER = "\ufe0e\ufe0f", "\u200d"
_FLAG = lazy_re.compile("\U0001f3f4[\U000e0020-\U000e007e]{1,6}\U000e007f")  # of England, Scotland, Wales (UTS #51)
_MOST_SHOWN = 30  # characters of a word around

# Letters that look like Latin ones in most typefaces (Unicode Technical Standard #39, confusables; chosen from memory).
_LOOK_LATIN = frozenset(
    "аеорсухіјѕԁһԛԝӏѵАВЕЅІЈКМНОРСТУХԌԚԜҮЗ"  # Cyrillic
    "ονρυκιΑΒΕΖΗΙΚΜΝΟΡΤΥΧ"  # Greek
    "օոսհցՕՏԼ"  # Armenian
    "ᎪᏴᏟᎠᎬᏀᎻᎫᏦᏞᎷᏢᏚᎢᏙᎳᏃᏒ"  # Cherokee
    "ⲟⲣⲥⲞⲢⲤⲔⲘⲚ"  # Coptic
)
_SCRIPTS = ("CYRILLIC", "GREEK", "ARMENIAN", "CHEROKEE", "COPTIC", "LISU")
_PHONETIC = frozenset("θβχ")  # the Greek letters of the International Phonetic Alphabet (chart of 2020)

_TURNS = (
    "Here stands a character that turns the direction of text ({}): the page may read otherwise than what was checked."
    " Take it out."
)
_CONTROLS = "Here stands a control character ({}), which no typesetter's program can print. Take it out."
_HIDDEN = "Here stands a character that nobody can see ({}), and the rules read the word otherwise. Take it out."
_MIXED = "“{}” holds letters of another alphabet that only look Latin ({}), so no rule knows the word. Type it again."
_FOREIGN = "“{}” is written in letters that only look Latin ({}), so no rule knows the word. Type it again."
_FORMS = "“{}” is written in special forms of letters ({}), so no rule knows the word. Type it in plain letters."


def odd_characters(source: Source, passages: Iterable[Passage]) -> Iterator[Problem]:
    """The first odd character of its kind in each line, and every word with letters that only look Latin."""
    text = source.text
    if not text.isascii() or _IS_CONTROL.search(text):
        yield from _unseen(source)
    for passage in passages:
        if not passage.text.isascii():
            yield from _look_alikes(passage)


def _unseen(source: Source) -> Iterator[Problem]:
    text, told = source.text, set[tuple[int, str]]()
    flags = {place for flag in _FLAG.finditer(text) for place in range(*flag.span())}
    for run in _ODD.finditer(text):
        for at in range(*run.span()):
            said = _said_of(text[at])
            place = (source.position(at).line, said)
            if place not in told and at not in flags and not _belongs(text, at):
                told.add(place)
                named = unicodedata.name(text[at], f"U+{ord(text[at]):04X}").lower()
                yield Problem(_around(source, at), said.format(named), blocks=said is not _HIDDEN)


def _said_of(char: str) -> str:
    if _IS_TURNING.match(char):
        return _TURNS
    return _CONTROLS if _IS_CONTROL.match(char) else _HIDDEN


def _belongs(text: str, at: int) -> bool:
    """Say whether a character is part of a picture character, or of a script that needs it."""
    before, after = text[at - 1 : at] if at else "", text[at + 1 : at + 2]
    if text[at] in _VARIANTS:
        return bool(before) and (unicodedata.category(before)[0] == "S" or before in "0123456789#*‼⁉")
    if text[at] == _JOINER and before and after:
        pictures = unicodedata.category(before) in ("So", "Sk") or before in _VARIANTS
        if pictures and unicodedata.category(after) == "So":
            return True
    if text[at] in "\u200c\u200d":  # Persian, and the scripts of India
        return all(char and not char.isascii() and unicodedata.category(char)[0] in "LM" for char in (before, after))
    return False


def _around(source: Source, at: int) -> Span:
    """The word that a character stands in."""
    line = source.line_span(source.position(at).line)
    start = end = at
    while start > max(line.start, at - _MOST_SHOWN) and not source.text[start - 1].isspace():
        start -= 1
    while end < min(line.end, at + _MOST_SHOWN) and (end == at or not source.text[end].isspace()):
        end += 1
    return Span(start, max(end, at + 1))


def _look_alikes(passage: Passage) -> Iterator[Problem]:
    for word in LETTERS.finditer(passage.text):
        written = word[0]
        if written.isascii():
            continue
        problem = _judged(written)
        if problem:
            message, blocks = problem
            yield Problem(passage.span(*word.span()), message, blocks=blocks)


def _judged(written: str) -> tuple[str, bool] | None:
    alike = [char for char in written if char in _LOOK_LATIN]
    foreign = [char for char in written if not char.isascii() and unicodedata.name(char, "").startswith(_SCRIPTS)]
    latin = any(char.isascii() or unicodedata.name(char, "").startswith("LATIN") for char in written)
    if latin and set(foreign) - _PHONETIC:
        return _MIXED.format(written, _named(foreign)), True
    if alike and len(alike) == len(written):
        return _FOREIGN.format(written, _named(alike)), False
    forms = [char for char in written if not char.isascii() and _is_form(char)]
    return (_FORMS.format(written, _named(forms)), False) if forms else None


def _is_form(char: str) -> bool:
    """Say whether a letter is only another form of plain Latin ones: a ligature, a full-width or a bold letter."""
    plain = unicodedata.normalize("NFKC", char)
    return unicodedata.category(char) in ("Ll", "Lu", "Lt") and plain.isascii() and plain.isalpha()


def _named(chars: Sequence[str]) -> str:
    return unicodedata.name(chars[0], "unnamed").lower()
