"""The sound and the spelling that an activity practises, as its attributes say, and whether a word has them.

`sound="eɪ" spelling="ai"`; several of either with a comma, a slash or a space between (as many of both: they go in
pairs). A spelling may be split (`a-e`: cake), stand at the end or the start (`-y`, `kn-`) or have letters in brackets
(`a(r)`: with or without them).
"""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from lint_rules import lazy_re
from lint_rules.language.sounds.pronunciation import Sounds, has_sound, pronunciations, read_ipa
from lint_rules.plain_words import WORD

_BETWEEN = lazy_re.compile(r"\s*(?:[,;/|+&]|\s(?:and|or|vs?\.?)\s|\s)\s*")
_SPLIT = lazy_re.compile(r"([a-z])\s*[-_–—…]+\s*e")


@dataclass(frozen=True, slots=True)
class Spelling:
    """A spelling as its author wrote it, and what it looks like in a word."""

    written: str
    pattern: re.Pattern[str]


@dataclass(frozen=True, slots=True)
class Practised:
    """What an activity practises: sounds (as written, and read) with spellings. ``unread``: what is no IPA."""

    sounds: tuple[tuple[str, Sounds], ...]
    spellings: tuple[Spelling, ...]
    unread: tuple[str, ...] = ()

    @property
    def paired(self) -> bool:
        """Say whether each sound has its own spelling."""
        return len(self.sounds) == len(self.spellings)


@dataclass(frozen=True, slots=True)
class Heard:
    """What a word has of what is practised. ``sound`` is None where the dictionary lacks the word."""

    fits: bool
    sound: bool | None
    spelling: bool
    said: tuple[Sounds, ...] = ()


def practised(values: Mapping[str, str]) -> Practised | None:
    """What the attributes of an activity say, or None when they name neither a sound nor a spelling."""
    sounds = [part for part in _BETWEEN.split(values.get("sound", "").strip()) if part.strip("[]")]
    spellings = [part for part in _BETWEEN.split(_joined(values.get("spelling", ""))) if part]
    if not sounds and not spellings:
        return None
    read = [(sound.strip("[]"), read_ipa(sound)) for sound in sounds]
    return Practised(
        tuple((written, heard) for written, heard in read if heard),
        tuple(Spelling(written, _pattern(written.casefold())) for written in spellings),
        tuple(written for written, heard in read if not heard),
    )


def _joined(spelling: str) -> str:
    """`a – e` is one split spelling, not two."""
    return re.sub(r"(?<=\b[^\W\d_])\s*[-_–—…]\s*(?=[^\W\d_]\b)", "-", spelling.strip())


def _pattern(written: str) -> re.Pattern[str]:
    split = _SPLIT.fullmatch(written)
    if split:
        return re.compile(rf"{split[1]}(?:[^aeiou\W\d_]|th|st|ng|ch|qu)e")
    start, end = written.endswith("-"), written.startswith("-")
    bare = re.sub(r"\(([^()]*)\)", lambda match: f"(?:{re.escape(match[1])})?", re.sub(r"[-_…]", "", written))
    return re.compile(("\\b" if start else "") + bare + ("\\b" if end else ""))


def hear(text: str, wanted: Practised, variety: str) -> Heard:
    """Say what an entry of a list has; of an entry of several words, one must have both."""
    each = [_hear_word(word, wanted, variety) for word in words_of(text)]
    if not each:
        return Heard(fits=True, sound=True, spelling=True)
    best = max(each, key=lambda heard: (heard.fits, heard.sound is None, bool(heard.sound), heard.spelling))
    return best if len(each) == 1 or best.fits or best.sound is None else _together(each)


def _together(each: Sequence[Heard]) -> Heard:
    said: Sounds = sum((heard.said[0] for heard in each if heard.said), ())
    return Heard(False, any(heard.sound for heard in each), any(heard.spelling for heard in each), (said,))


def words_of(text: str) -> list[str]:
    """The words of an entry: `r(ai)n` is rain, what stands in brackets of its own is no part of it."""
    bare = re.sub(r"(?:(?<=\s)|^)[(\[][^()\[\]]*[)\]](?=\s|$)", " ", text)
    return [word for word in WORD.findall(re.sub(r"[()\[\]]", "", bare)) if word[0].isalpha()]


def _hear_word(word: str, wanted: Practised, variety: str) -> Heard:
    plain = word.casefold().replace("’", "'")
    said = pronunciations(plain, variety)
    sounds = [any(has_sound(one, sound, variety) for one in said) for _, sound in wanted.sounds]
    spelt = [bool(spelling.pattern.search(plain)) for spelling in wanted.spellings]
    sound = True if not wanted.sounds else any(sounds) if said else None
    spelling = any(spelt) or not spelt
    fits = bool(sound) and spelling
    if fits and wanted.paired:
        fits = any(both for both in map(all, zip(sounds, spelt, strict=True)))
    return Heard(fits, sound, spelling, said)
