"""What an instruction asks of an exercise: every word used once, a number of things, things put in order."""

import re
from collections.abc import Iterator
from dataclasses import dataclass

from lint_rules import lazy_re
from lint_rules.manuscript.model import Activity, Audience
from lint_rules.page.number_words import NUMBER_WORDS

_NUMBERS = "|".join([*(word for word, number in NUMBER_WORDS.items() if number > 1), r"\d{1,2}"])
_ANY_NUMBER = lazy_re.compile(rf"\b(?:{_NUMBERS})\b", re.I)
_ONCE = lazy_re.compile(
    r"\b(?:each|every)\b[^.!?]{0,30}\b(?:once|one\s+gap\s+only|only\s+one\s+gap)\b|\bonly\s+once\b|\bonce\s+each\b|\buse\s+all\b"
    r"|\b(?:each|every)\s+word\b[^.!?]{0,20}\bin(?:to)?\s+(?:one|a)\s+gap\b"
    r"|\bneed\s+(?:every|each|all)\b"
    r"|\ball\s+(?:of\s+)?(?:the|these)\s+words\b|\b(?:use|write)\s+every\b",
    re.I,
)
# Write, put or use, and what: `Use every word once.`, `Each word goes in one gap.`, `There is one extra word.`
_USES_WORDS = lazy_re.compile(
    r"^\s*(?:(?:please|now|you(?:\s+(?:can|must|should|will))?)\s+)?(?:(?:only|do\s+not|don['’]t)\s+)?(?:use|need|write|put|choose|take)\b"
    r"[^.!?]*\b(?:words?|phrases?|verbs?|all|them|each|every)\b"
    r"|\b(?:word|phrase|verb)s?\b[^.!?]*\b(?:goes?|fits?|gaps?|extra|left\s+over|too\s+many|twice|need|used?)\b",
    re.I,
)
_SENTENCE = lazy_re.compile(r"[^\s.!?][^.!?]*[.!?]?")
_SPARE = lazy_re.compile(r"\b(?:extra|too\s+many|don['’]t\s+need|do\s+not\s+need|not\s+need|left\s+over|twice)\b", re.I)
_LEFT_OVER = lazy_re.compile(
    rf"\b(?P<number>one|an|{_NUMBERS})\s+(?:extra\s+(?:words?|phrases?|verbs?|answers?)"
    r"|(?:words?|phrases?|verbs?|of\s+the\s+words)\s+(?:(?:that\s+)?you\s+(?:do\s+not|don['’]t|will\s+not|won['’]t)\s+(?:need|use)"
    r"|(?:is|are)\s+(?:extra|not\s+needed|left\s+over)|too\s+many|more\s+than\s+you\s+need))",
    re.I,
)
_ORDER = lazy_re.compile(r"\border\b|\bnumber\s+(?:the|them|these)\b|\bsequence\b|\bfirst\b", re.I)
_ONE_LETTER = lazy_re.compile(
    r"\b(?:one|a)\s+letter\b[^.!?]*\b(?:line|gap|each)\b|\b(?:line|gap)s?\s+(?:is|means|for|=)\s+one\s+letter\b"
    r"|\beach\s+(?:line|gap)\s+is\s+(?:one|a)\s+letter\b|\bone\s+(?:line|gap)\s*,\s*one\s+letter\b",
    re.I,
)
_COUNTED = lazy_re.compile(
    rf"\b(?P<verb>ask|interview|write|find|tick|complete|circle|underline|answer|choose|match|read|colour|color|number|name|list|say"
    rf"|correct|finish|make|order|put|look\s+at|there\s+are|here\s+are)\b(?P<between>[^.!?:–—]{{0,30}}?)(?<![\d–-])\b(?P<phrase>(?P<number>{_NUMBERS})"
    rf"\s+(?:(?!and\b|or\b|to\b|more\b)[a-z’'-]+\s+){{0,2}}?(?P<noun>things|words|sentences|questions|mistakes|differences"
    r"|animals|colou?rs|objects|pictures|answers|items|names|verbs|adjectives|nouns|gaps|boxes|rooms|jobs|clothes|fruits"
    r"|foods|toys|days|months|numbers|friends|classmates|children|people|pupils|partners|students|lines|steps|riddles"
    r"|clues|places|sports|countries|phrases|shapes|birds|insects|vegetables|rhymes|pairs|plurals))\b",
    re.I,
)
# Things of any sort: `Write the names of the six tools`, `Label the five planets`, `Look at the three tents`
_THESE = lazy_re.compile(
    rf"\b(?P<verb>label|name|names\s+of|words\s+for|look\s+at)\s+(?:(?:the|these|those|all)\s+)+"
    rf"(?P<phrase>(?P<number>{_NUMBERS})\s+(?:(?!and\b|or\b|to\b|of\b)[a-z’'-]+\s+)?(?P<noun>[a-z]+s|people|children))\b",
    re.I,
)
_IN_A_ROW = lazy_re.compile(
    r"\s+(?:\w+\s+)?(?:in|on)\s+(?:the|this)\s+(?:\w+\s+)?(?:line|snake|row|square|grid|puzzle|caterpillar|worm)\b",
    re.I,
)
_FREE = lazy_re.compile(
    r"^\s*(?:about|of\s+your\s+own|with\s+(?:your|them|these)|for\s+each|in\s+each|for\s+every|each\b|per\b|like|using|more\b|or\s+more|in\s+your)",
    re.I,
)
_TOLD_OF = frozenset({"mistakes", "differences"})  # what the page has to find: `There are three mistakes`
_FINDING = frozenset({"find", "circle", "underline", "tick"})  # what is there: `Find eight words about the sea`
PEOPLE = frozenset({"friends", "classmates", "children", "people", "pupils", "partners", "students"})


@dataclass(frozen=True, slots=True)
class Asked:
    """A number of things that an instruction asks for: its range in the text, how many, and what."""

    start: int
    end: int
    number: int
    verb: str
    noun: str
    free: bool = False  # children write them freely: only lines to write on can be held against it


def instruction_of(activity: Activity) -> str:
    """What an activity tells to do: its heading, and below it the sentences about how to use the words of a box."""
    below = [passage for passage in activity.part.passages if passage.audience is Audience.PUPIL and passage.text]
    return " ".join([activity.heading.passage.text, *(told for one in below for told in _about_words(one.text))])


def is_about_words(text: str) -> bool:
    """Whether a text only says how to use the words of a box: `You need each word once.`"""
    return "".join(_about_words(text)) == text.strip()


def _about_words(text: str) -> Iterator[str]:
    if "_" not in text and _USES_WORDS.search(text):
        for sentence in _SENTENCE.findall(text):
            if _USES_WORDS.search(sentence):
                yield sentence


def each_once(instruction: str) -> bool:
    """Whether every word of a box goes into one gap, and all of them do."""
    return _ONCE.search(instruction) is not None and _SPARE.search(instruction) is None


def spare_words(instruction: str) -> tuple[int, int, int] | None:
    """How many words of a box an instruction says are left over, and where it says so; None where it does not."""
    match = _LEFT_OVER.search(instruction)
    if match is None:
        return None
    number = 1 if match["number"].casefold() == "an" else _number(match["number"])
    return number, match.start("number"), match.end()


def has_spare(instruction: str) -> bool:
    """Whether an instruction says that there are more options than are used."""
    return _SPARE.search(instruction) is not None


def asks_for_order(instruction: str) -> bool:
    """Whether things are to be put in order."""
    return _ORDER.search(instruction) is not None


def one_letter_each(instruction: str) -> bool:
    """Whether each line of a word with gaps is one letter."""
    return _ONE_LETTER.search(instruction) is not None


_UP_TO = lazy_re.compile(r"\b\w+\s+(?:to|or)\s+$", re.I)


def asked_for(instruction: str) -> Iterator[Asked]:
    """The numbers of things that an instruction asks for (`Find seven colours`), also what children write freely."""
    for match in _COUNTED.finditer(instruction):
        verb = match["verb"].casefold()
        free = _FREE.match(instruction[match.end() :]) is not None
        free = free and not (verb in _FINDING and instruction[match.end() :].lstrip().startswith("about"))
        if _UP_TO.search(instruction, 0, match.start("phrase")):
            continue  # in one to three words
        number = _number(match["number"])
        told = (
            match["noun"].casefold() in _TOLD_OF or "here" in verb.split() or _IN_A_ROW.match(instruction, match.end())
        )
        if verb.startswith("there") and not told:
            continue
        if number > 1:
            yield Asked(*match.span("phrase"), number, verb, match["noun"].casefold(), free)


def named_in(instruction: str) -> Iterator[Asked]:
    """The numbers of things of any sort whose names are to be written: `Label the five planets`."""
    told = {asked.start for asked in asked_for(instruction)}
    for match in _THESE.finditer(instruction):
        if match.start("phrase") not in told:
            verb, noun = " ".join(match["verb"].casefold().split()), match["noun"].casefold()
            yield Asked(*match.span("phrase"), _number(match["number"]), verb, noun)


def _number(written: str) -> int:
    return int(written) if written.isdigit() else NUMBER_WORDS[written.casefold()]


def numbers_in(instruction: str) -> set[int]:
    """All numbers that an instruction says."""
    return {_number(match[0]) for match in _ANY_NUMBER.finditer(instruction)}
