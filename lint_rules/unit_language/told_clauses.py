"""What the clauses of a text tell: their words in their order, and whom they are about.

Nothing is understood: *I* is who speaks, *she* the one who was named before, *Tocko's bag* a bag that he has; questions
and what is only thought or wished tell nothing.
"""

import re
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from lint_rules import lazy_re
from lint_rules.language.vocabulary.word_index import function_bands
from lint_rules.manuscript.model import Audience, Passage
from lint_rules.page.number_words import numbers_in
from lint_rules.page.opposites import opposites_of, with_opposites
from lint_rules.plain_words import DENIED, SENTENCE
from lint_rules.tables import words
from lint_rules.unit_language.option_support import content_in_order

_CLAUSE = lazy_re.compile(
    r"[;:–—“”\"]|(?<!\s),?\s+\b(?:and|but|because|so|while|when|who|which|that|than|before|after|until)\b\s+|,\s+", re.I
)
_NAME = lazy_re.compile(r"(?<![^\W_])[A-Z][a-z][\w’']*")
_SMALL = lazy_re.compile(r"(?<![\w’'])[a-z]{3,}(?![\w’'])")
_OFTEN = 2  # times that a name is said
FIRST_WORD = lazy_re.compile(r"\W*(?:\d{1,2}[.:)]?\s+)?(?:(?:and|but|so|then|now|oh|yes|no)\b\W*)*([\w’']+)", re.I)
_FRAME = lazy_re.compile(r"^\W*\d{1,2}[.:)]?\s+(?=[A-Z])")  # 3: Mina in a red hat
UNSURE = lazy_re.compile(
    r"\b(?:if|perhaps|maybe|thinks?|thought|wants?|wanted|would|pretend|dreams?|wish|than|or|can you|always|never"
    r"|sometimes|often|usually|in picture \w+)\b"
    r"|/|(?<!n['’]t )(?<!\bnot )(?<!\bI )(?<!\bwe )(?<!\byou )(?<!\bthey )\blike\b",
    re.I,
)
_LIKE = lazy_re.compile(r"(?:(?<=n['’]t )|(?<=\bnot )|(?<=\bI )|(?<=\bwe )|(?<=\byou )|(?<=\bthey ))like\b", re.I)
_ONLY_THING = lazy_re.compile(
    r"\W*(?:(?:look at|(?:this|that|here|it)(?: is|['’]s)|I(?: have|['’]ve)(?: got)?|(?:he|she) has(?: got)?)\s+)?"
    r"(?:an?|the|my|your|his|her)\s+([a-z]+)\W*",
    re.I,
)  # Look at my hat. My hat!
_OF_ANOTHER = lazy_re.compile(r"\W*(?:my|his|her)\s+[a-z]+['’]s\s", re.I)
_POINTED = lazy_re.compile(r"(?<![\d.:])(\d{1,3})[.:](\d\d)(?![\d.:])")  # a time, a price: one number
_IT_IS = lazy_re.compile(r"\W*(?:it|they)(?:['’]s|['’]re| is| are| was| were)\b", re.I)
_SHORTENED = lazy_re.compile(r"['’](?:s|ve|re|m|ll|d)\b|\b(?:[a-z]{2,5}n['’]t|cannot)\b", re.I)
_HAS_GOT = lazy_re.compile(r"(?:\bha(?:ve|s|d)|['’](?:ve|s|d)) got\b", re.I)
_OWNER = lazy_re.compile(
    r"\b(?!(?:He|She|It|That|There|Here|What|Who|Where|Let)\b)([A-Z][a-z]+)['’]s (?=[a-z])"
)  # Tocko's bag
OWNING = "zx"  # behind a name: what is his
_COUNTED = "number"  # before a figure: single figures are no words
_FIRST_PERSON = frozenset(["i", "i'm", "i've"])
_THIRD_PERSON = frozenset(["he", "she"])
_OWNERS = frozenset(["my", "his", "her"])
POINTING = (
    _FIRST_PERSON
    | _THIRD_PERSON
    | _OWNERS
    | {"it", "its", "it's", "he's", "she's", "they", "they're", "their", "we", "our", "you", "your"}
    | {"this", "that", "these", "those"}
)
_GOES_ON = frozenset(["a", "an", "two", "three", "four", "some"])  # I have a hat and a bag
_I_AM = lazy_re.compile(r"\bI(?:['’]m| am) ([A-Z][a-z]+)\b")
_SAYING = (
    r"(?:says?|said|asks?|asked|shouts?|shouted|calls?|called|whispers?|whispered)\s+(?:(?:Mr|Mrs|Miss|Ms|Dr)\.?\s+)?"
    r"([A-Z][a-z]+)\b"
)
_SAYS = lazy_re.compile(rf"\b{_SAYING}")
_SAID_BEHIND = lazy_re.compile(rf"\s*[\"”’']\s*{_SAYING}")  # "I like rain!" says Nia.


@dataclass(frozen=True, slots=True)
class Told:
    """What a clause tells: its words in their order, whom it is about first; whether it denies it; its sentence."""

    words: tuple[str, ...]
    denied: bool
    sentence: str
    after: frozenset[str] = frozenset()  # the words of its text behind it: She has a blue kite, too
    points: bool = False  # it says he or she, who is most likely the one named before
    drawn: bool = False  # in a picture's brief


def told_clauses(passage: Passage, names: frozenset[str], asked: frozenset[str] = frozenset()) -> Iterator[Told]:
    """What the clauses of a text tell; questions and what is only thought tell nothing. ``asked`` are the words that
    ask about them: a speaker is called as he is there, Nana or Nana Jo."""
    about = own = says = ""
    parts = [one for one in passage.speaker.casefold().split() if one in names]
    of_turn = " ".join(one for one in parts if one in asked) or next(iter(parts), "")
    sentences = sentences_of(passage)
    behind = _behind(sentences)
    last = ""  # the one thing of the sentence before: Look at my hat. It's yellow.
    for sentence, after, following in zip(sentences, behind, [*sentences[1:], ""], strict=False):
        said, i_am = _SAYS.search(sentence) or _SAID_BEHIND.match(following), _I_AM.search(sentence)
        own = i_am[1].casefold() if i_am is not None else own
        says, before = (said[1].casefold() if said is not None else ""), says
        clauses = list(_with_subjects(sentence, names, of_turn or says or before or own, about))
        named = [one for one in _named(sentence) if one in names]
        about = named[0] if len(named) == 1 else about if not named else ""
        if sentence.rstrip().endswith("?") or UNSURE.search(sentence):
            last = ""
            continue
        for clause, who, points in clauses:
            content = words_of(clause)
            if content and last and not who and _IT_IS.match(clause) and all(map(is_quality, content)):
                content = (last, *content)
            if content:
                about_whom = who.split()
                told = (*about_whom, *content) if who and about_whom[-1] not in content else content
                said_so = sentence.strip(" “\"‘'*_")
                drawn = passage.audience is Audience.ARTIST
                yield Told(told, DENIED.search(clause) is not None, said_so, after, points, drawn)
        only = _ONLY_THING.fullmatch(sentence.strip())
        last = words_of(only[1])[-1] if only is not None and words_of(only[1]) else ""


def names_in(texts: Sequence[str]) -> frozenset[str]:
    """The names of some texts: what has a capital within a sentence, or whenever it is said, twice or more; and never
    none (the River Tumba, the river)."""
    found: set[str] = set()
    for text in texts:
        for match in _NAME.finditer(text):
            before = text[: match.start()].rstrip(" “‘\"'*")
            if before and before[-1] not in ".!?:\n…":
                found.update(_named(match[0]))
    small = {word for text in texts for word in _SMALL.findall(text)}
    often = Counter(word for text in texts for word in _named(text))
    found |= {word for word, count in often.items() if count >= _OFTEN and not function_bands(word)}
    return frozenset(found) - small - POINTING - {"the", "it"} - with_opposites()


def words_of(text: str) -> tuple[str, ...]:
    """The words that mean something, in their order, numbers in figures."""
    liked = _LIKE.sub("likes", text)  # the verb: like alone is a small word
    rest = _SHORTENED.sub("", _HAS_GOT.sub(" have", _OWNER.sub(rf"\1{OWNING} ", liked)))
    rest = _POINTED.sub(r"\1\2", rest)
    for number, start, end, _ in reversed(list(numbers_in(rest, parts=True))):
        rest = f"{rest[:start]}{_COUNTED}{number}{rest[end:]}"
    found = (word.removeprefix(_COUNTED) for word in content_in_order(rest))
    return tuple(word for word in found if word not in words("titles_of_persons"))


def is_quality(word: str) -> bool:
    """Say whether a word tells what something is like: a colour, or a word that has an opposite."""
    return word in words("colours") or bool(opposites_of(word))


def sentences_of(passage: Passage) -> list[str]:
    """The sentences of a text; those of a brief without the number of their picture."""
    found = SENTENCE.findall(passage.text)
    return [_FRAME.sub("", one) for one in found] if passage.audience is Audience.ARTIST else found


def _behind(sentences: Sequence[str]) -> list[frozenset[str]]:
    """The words of all sentences behind each."""
    found: list[frozenset[str]] = [frozenset()]
    for sentence in reversed(sentences[1:]):
        found.append(found[-1].union(words_of(sentence)))
    return found[::-1][: len(sentences)]


def _with_subjects(sentence: str, names: frozenset[str], speaker: str, about: str) -> Iterator[tuple[str, str, bool]]:
    """The clauses of a sentence, each with whom it is about where it names nobody: I, he, my, and what goes on."""
    who, points = "", False
    for clause in _CLAUSE.split(sentence):
        match = FIRST_WORD.match(clause)
        word = match[1].replace("’", "'").removesuffix("'s").casefold() if match is not None else ""
        if word in names:
            who, points = word, False
        elif word in _FIRST_PERSON or word == "my":
            who, points = speaker, False
        elif _OF_ANOTHER.match(clause):
            who, points = "", False  # his sister's boat
        elif word in _THIRD_PERSON or word in _OWNERS:
            who, points = about, bool(about)
        elif word not in _GOES_ON and not word.endswith(("ing", "ed")):
            who, points = "", False
        yield clause, "" if word in names else f"{who}{OWNING}" if who and word in _OWNERS else who, points


def _named(text: str) -> list[str]:
    named = (match[0].replace("’", "'").removesuffix("'s").casefold() for match in _NAME.finditer(text))
    return [name for name in named if name not in words("titles_of_persons")]
