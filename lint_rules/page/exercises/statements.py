"""Statements and yes-no questions of a task, held against what a text says word for word.

Only what needs no understanding: a clause of the text is the statement itself, or its denial, or the text names
somebody and says in the next words who it is (*Mimo, my cat* for *Mimo is a cat*). A question is the statement that it
turns round: *Is there an owl in the tree?*
"""

import re
from collections.abc import Iterable, Iterator, Sequence
from functools import lru_cache

from lint_rules import lazy_re
from lint_rules.plain_words import SENTENCE
from lint_rules.tables import words

_CIRCLED = lazy_re.compile(
    r"[(\[]?\b(?:yes\s*[/·•|]\s*no|true\s*[/·•|]\s*false|t\s*[/·•|]\s*f|right\s*[/·•|]\s*wrong)\b.*$|_{2,}.*$"
    r"|\s(?:yes\s+no|true\s+false)\s*$",
    re.I | re.S,
)
_WORD = lazy_re.compile(r"[^\W_]+")
_LEAST = 3  # words of a statement
_POINTING = frozenset(["i", "you", "he", "she", "it", "we", "they", "this", "that", "these", "those", "there", "here"])
_RULES = frozenset([("you", "must"), ("you", "should"), ("you", "can")])  # of anybody
_TURNED = frozenset(["is", "are", "was", "were", "can", "has"])
_DENIALS = frozenset(["not", "never", "no", "nobody", "nothing"])
_ARTICLES = frozenset(["a", "an", "the"])
_OWNERS = frozenset(["my", "your", "his", "her", "its", "our", "their"])
_DETERMINERS = sorted(_ARTICLES | _OWNERS)
_CLAUSE = lazy_re.compile(
    r"[,;:–—\"“”]+\s*(?:(?:and|but|so)\s)?|\s(?:and|but|so)\s", re.I
)  # where one ends, and one begins
# Where is the shop? – It's behind the school: the shop is behind the school.
_WHERE = lazy_re.compile(
    r"\bWhere (is|are) (the [a-z]+)\?[\s–—\"“”'‘’-]*(?:It['’]s|It is|They['’]re|They are) ([^.!?,;\n]+)", re.I
)
_NAME = lazy_re.compile(r"[A-Z][a-z][\w’']*(?:\s+[A-Z][\w’']*)*")
_NOBODY = _POINTING | {"number", "picture", "question", "part", "page", "now", "then", "look", "listen", "one", "every"}
_OPENING = " *“‘\"'"
_PERSONS = frozenset(["he", "she"])
_LEAST_TURNED = 5  # words of a statement whose two parts may have changed places
_SHARED = frozenset(["like", "likes", "liked", "love", "loves", "loved"])  # of one, and of others too
_LEAST_DONE = 4  # words of what somebody does
_IN_PLACE = lazy_re.compile(  # prepositions of which one alone is true of a thing and a place
    r"(?:the (?P<the>(?:[a-z]+ ){0,2}?[a-z]+) (?:is|are|was|were)"
    r"|there (?:is|are|was|were) (?:an?|some|one) (?P<a>(?:[a-z]+ ){0,2}?[a-z]+))"
    r" (?P<where>in|on|under|behind|in front of|next to) (?:the|a|an|my|your|his|her|our|their) (?P<place>[a-z ]+)"
)
_OF_A_PICTURE = lazy_re.compile(r"in (?:the )?(?:\w+ )?(?:picture|drawing|photo)\b", re.I)
_OPENED = lazy_re.compile(r"^\s*(?:and|but|so)\s", re.I)


def bare_statement(text: str) -> str:
    """A statement without what is circled or written behind it: It is red. Yes / No."""
    return _CIRCLED.sub("", text).strip()


def is_said(statement: str, texts: Iterable[str], *, places: bool = True) -> bool | None:
    """Say whether texts say what a statement or a question says: True where they do, False where they deny it, None
    where neither or both. With ``places`` a text that has the thing in another place denies it, too.

    What points (*It is red*) is never known: it may be about anything.
    """
    stated = _words(statement)
    wanteds = list(_turned(stated)) if statement.rstrip().endswith("?") else [stated]
    who = _NAME.match(statement)
    name = who[0] if who is not None and not _POINTING.intersection(_words(who[0])) else ""
    said = {one for wanted in wanteds for one in _answers(wanted, texts, name, places=places)}
    return said.pop() if len(said) == 1 else None


def told_of(statement: str, texts: Iterable[str]) -> str:
    """The name of the other one of whom a text says what a statement says of somebody: Granny, where *Clank sews the
    button on the coat* stands for *Granny has got a needle. She sews the button on the coat.* '' where there is none.
    """
    who = _NAME.match(statement)
    done = _words(statement[who.end() :]) if who is not None else []
    if (
        who is None
        or _POINTING.intersection(_words(who[0]))
        or len(done) < _LEAST_DONE
        or done[0] in _SHARED
        or not _DENIALS.isdisjoint(done)
    ):
        return ""
    own = set(_words(who[0]))
    others: set[str] = set()
    for text in texts:
        subject = ""
        for sentence in SENTENCE.findall(text):
            told = _words(sentence)
            named = _NAME.match(sentence.lstrip(_OPENING))
            whose = named is not None and not _OWNERS.isdisjoint(_words(named[0]))  # His hat: nobody is named
            by_name = named is not None and not whose and told[len(_words(named[0])) :] == done
            if not told or told[0] not in _PERSONS:
                subject = _subject(sentence, own)
            if (told[1:] == done and told[0] in _PERSONS) or by_name:
                others.add(subject if own.isdisjoint(_words(subject)) else "")
    return others.pop() if len(others) == 1 else ""


def _subject(sentence: str, own: set[str]) -> str:
    """Who a sentence is about: the one name that it begins with; all of it where it names somebody of our ``own``; ''
    where it is about something else (A man is standing there), or about two (Nilu and Otto)."""
    bare = sentence.lstrip(_OPENING)
    named = _NAME.match(bare)
    if not own.isdisjoint(_words(sentence)):
        return sentence
    if named is None or _NOBODY.intersection(_words(named[0])) or bare[named.end() :].startswith((" and ", ",")):
        return ""
    return named[0]


def _with_names(sentences: Sequence[str], who: str) -> Iterator[str]:
    """Sentences in which he or she at the beginning is somebody, where the sentences before are about that one."""
    about = False
    for sentence in sentences:
        bare = sentence.lstrip(_OPENING)
        first = bare.split(" ", 1)[0].casefold()
        if first in _PERSONS:
            yield f"{who} {bare.partition(' ')[2]}" if about else sentence
            continue
        rest = bare[len(who) :]
        about = bare.startswith(who) and not rest[:1].isalnum() and _NAME.search(rest) is None  # of nobody else
        yield sentence


def _turned(asked: Sequence[str]) -> Iterator[list[str]]:
    """The statements that a question may ask about: its verb behind one word, or two, or three."""
    if asked and asked[0] in _TURNED:
        for at in range(2, min(5, len(asked))):
            yield [*asked[1:at], asked[0], *asked[at:]]


def _answers(wanted: Sequence[str], texts: Iterable[str], name: str, *, places: bool) -> Iterator[bool]:
    """Each time that a clause of the texts says a statement (True), or that it is not so (False)."""
    there = wanted[:1] == ["there"] and len(wanted) > _LEAST + 1  # there is an owl in the tree
    bare = _positive(wanted)
    rule = tuple(wanted[:2]) in _RULES  # you must not run here
    if len(wanted) < _LEAST or (wanted[0] in _POINTING and not (there or rule)) or not _DENIALS.isdisjoint(bare):
        return
    denied = len(bare) == len(wanted) - 1
    for text in texts:
        sentences = SENTENCE.findall(text)
        sentences += [f"{match[2]} {match[1]} {match[3]}" for match in _WHERE.finditer(text)]
        for sentence in _with_names(sentences, name) if name else sentences:
            if sentence.rstrip().endswith("?") or not words("doubts").isdisjoint(_words(sentence)):
                continue
            if _OF_A_PICTURE.match(sentence.lstrip(_OPENING)):
                continue  # In Picture 3C, Plum has two ears.
            if _is_named(wanted, sentence):
                yield True
            for clause in _CLAUSE.split(_OPENED.sub("", sentence)):
                told = _words(clause)
                if told == list(wanted) or _is_turned_round(wanted, told):
                    yield True
                elif (
                    (denied and told == bare)
                    or (told.count("not") == 1 and _positive(told) == list(wanted))
                    or (places and not denied and _is_elsewhere(wanted, told))
                ):
                    yield False


def _is_turned_round(wanted: Sequence[str], told: Sequence[str]) -> bool:
    """Say whether a clause only begins with what a statement ends with: Under a tree the tracks stopped."""
    if len(told) < _LEAST_TURNED or len(wanted) != len(told):
        return False
    return any(list(told[at:]) + list(told[:at]) == list(wanted) for at in range(2, len(told) - 1))


def _is_elsewhere(wanted: Sequence[str], told: Sequence[str]) -> bool:
    """Say whether a thing is in the school by one, and behind the school by the other."""
    stated, other = _placed(wanted), _placed(told)
    if stated is None or other is None or "not" in told:
        return False
    things, others = stated[0].split(), other[0].split()
    one = things[-1] == others[-1] and (set(things) <= set(others) or set(others) <= set(things))  # blue ball, red ball
    return one and stated[2] == other[2] and stated[1] != other[1]


def _placed(said: Sequence[str]) -> tuple[str, str, str] | None:
    """The thing, the preposition and the place of *the old tree is in the school*, *there is a tree in the school*."""
    match = _IN_PLACE.fullmatch(" ".join(said))
    return (match["a"] or match["the"], match["where"], match["place"]) if match is not None else None


def _positive(said: Sequence[str]) -> list[str]:
    return [word for word in said if word != "not"]


def _words(text: str) -> list[str]:
    return list(_plain_words(text))


@lru_cache(maxsize=10_000)  # each statement is held against the same texts
def _plain_words(text: str) -> tuple[str, ...]:
    plain = text.casefold().replace("’", "'").replace("can't", "can not").replace("n't", " not").replace("'s ", " is ")
    return tuple(_WORD.findall(plain))


def _is_named(wanted: Sequence[str], sentence: str) -> bool:
    """*Mimo is a cat*: Mimo, my cat. Mimo the cat!"""
    if len(wanted) != 4 or wanted[1] != "is" or wanted[2] not in _ARTICLES:
        return False
    who, what = re.escape(wanted[0]), re.escape(wanted[3])
    return re.search(rf"\b{who}(?:, (?:{'|'.join(_DETERMINERS)})| the) {what}\s*[.,!?;]", sentence, re.I) is not None
