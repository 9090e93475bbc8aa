"""Which option of a question the texts of its lesson support: by the words that stand together, nothing more.

*Who was Nela waiting for? – her mum, her grandpa, her friend.* The text has *I was waiting for my grandpa*, and
nowhere a mum: a key that says *her mum* is worth a question. So is one whose words stand somewhere, while those of
another option stand beside nearly all the words of the question (*electric light for the first time*). Nothing is said
where two other options are supported alike: texts name what is wrong as well.
"""

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache

from lint_rules import lazy_re
from lint_rules.language.inflection.lemmas import lemma
from lint_rules.language.vocabulary.word_index import function_bands
from lint_rules.plain_words import DENIED, SENTENCE

_WORD = lazy_re.compile(r"[^\W_]+")
_SHORT_FORM = lazy_re.compile(r"['’](?:ve|re|ll)\b|\b[a-z]+n['’]t\b")
_BUT = lazy_re.compile(r",?\s+\bbut\b\s+", re.I)  # No, but I have got a parcel for you: denied is what stands before
_COMPARED = lazy_re.compile(r"\b(?:which|who)\b.*\b(?:[a-z]{3,}er|more|less|better|worse)\b", re.I)
_NUMBER = lazy_re.compile(r"\d|\b(?:once|twice|one|two|three|four|five|six|seven|eight|nine|ten)\b", re.I)
# On the 668 questions of the courses in tests/judged six keys lie so far behind another option, and all six are wrong
# (`python -m tests.judged.options`); of those from 2.0 on behind it, a third.
_SURE = 3.5
_NOT_FAR, _SURER = 2.0, 5.0  # where words of the question stand in the sentence beside it, it may well be meant
_SAME = 4  # letters that two forms of one word have in common
_SUPPOSED = lazy_re.compile(
    r"\b(?:if|think\w*|thought|maybe|perhaps|say|says|said|at first|as a \w+|wants?|wanted|would)\b|[“”\"]",
    re.I,
)
_FEWEST = 2  # words of a question that is answered outright
_WHO = lazy_re.compile(r"\W*who(?:se)?\b", re.I)
_NEAR = 0.5  # a word of the question in the sentence before or behind counts half
_FORMS = (("NNS", "NOUN"), ("VBZ", "VERB"), ("VBD", "VERB"), ("VBG", "VERB"))


@dataclass(frozen=True, slots=True)
class Told:
    """A sentence of a text: its words, as they are compared, in their order, and those of it and its neighbours."""

    order: tuple[str, ...]
    around: frozenset[str]
    supposed: bool = False  # somebody thinks or says it, or it is so at first

    @property
    def words(self) -> frozenset[str]:
        """Its words, in no order."""
        return frozenset(self.order)

    def has(self, words: Sequence[str]) -> bool:
        """Whether it has these words in their order: *lost his boat* is not said of a boat that was lost."""
        left = iter(self.order)
        return all(word in left for word in words)


def told_in(texts: Iterable[str]) -> list[Told]:
    """The sentences that tell something: no questions, and nothing that is denied."""
    found: list[Told] = []
    for text in texts:
        sentences = [part for sentence in SENTENCE.findall(text) for part in _BUT.split(sentence)]
        words = [content_in_order(one) for one in sentences]
        for at, sentence in enumerate(sentences):
            if not DENIED.search(sentence) and not sentence.rstrip().endswith("?"):
                around = frozenset[str]().union(*words[max(0, at - 1) : at + 2])
                found.append(Told(words[at], around, _SUPPOSED.search(sentence) is not None))
    return found


def better_option(question: str, options: Sequence[str], key: int, told: Sequence[Told]) -> int | None:
    """The one other option that the texts support far better than the key's; None otherwise."""
    if DENIED.search(question) or _COMPARED.search(question) or any(_NUMBER.search(option) for option in options):
        return None  # numbers are reckoned; beside the words stands what is less (colder than Friday night)
    if len({tuple(word[:_SAME] for word in content_in_order(option)) for option in options}) == 1:
        return None  # forms of one word: warmer, the warmest
    outright = [at for at, option in enumerate(options) if _is_answered(question, option, told)]
    asked = content_words(question)
    support = [
        _support([word for word in content_in_order(option) if word not in asked], asked, told) for option in options
    ]
    if None in support:
        return None
    known = [one or 0.0 for one in support]
    if len(outright) == 1 and outright != [key] and not _is_beside(options[key], asked, told):
        return outright[0]
    behind = _SURE if known[key] < _NOT_FAR else _SURER
    others = [at for at, one in enumerate(known) if at != key and one - known[key] >= behind]
    return others[0] if len(others) == 1 else None


def _is_answered(question: str, option: str, told: Sequence[Told]) -> bool:
    """Whether a sentence is the question's own answer: *Naledi dropped her notebook*, to *What did Naledi drop?*"""
    asked = content_in_order(question)
    words = tuple(word for word in content_in_order(option) if word not in asked)
    way = (*words, *asked) if _WHO.match(question) else (*asked, *words)
    return len(asked) >= _FEWEST and any(
        way == one.order[at : at + len(way)] for one in told if not one.supposed for at in _starts(one, way)
    )


def _is_beside(option: str, asked: frozenset[str], told: Sequence[Told]) -> bool:
    """Whether a sentence has an option and a word of the question."""
    words = [word for word in content_in_order(option) if word not in asked]
    return any(one.has(words) and asked & one.words for one in told)


def _starts(told: Told, way: Sequence[str]) -> range:
    return range(len(told.order) - len(way) + 1)


def _support(option: Sequence[str], asked: frozenset[str], told: Sequence[Told]) -> float | None:
    """How well a sentence has an option with words of the question around it; None where the option says nothing."""
    if not option:
        return None
    having = (one for one in told if one.has(option))
    return max((1 + len(asked & one.words) + _NEAR * len(asked & one.around) for one in having), default=0.0)


def content_words(text: str) -> frozenset[str]:
    """The words of a text that mean something by themselves, in their dictionary forms."""
    return frozenset(content_in_order(text))


@lru_cache(maxsize=10_000)  # each check of a key asks for those of the same sentences again
def content_in_order(text: str) -> tuple[str, ...]:
    """The same in their order."""
    whole = _SHORT_FORM.sub(" ", text.casefold())
    return tuple(_base(word) for word in _WORD.findall(whole) if len(word) > 1 and not function_bands(word))


@lru_cache(maxsize=5_000)
def _base(word: str) -> str:
    bases = (lemma(word, tag, part, "") for tag, part in _FORMS)
    return next((base for base in bases if base and base != word), word)
