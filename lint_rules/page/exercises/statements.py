"""Statements and yes-no questions of a task, held against what a text says word for word.

Only what needs no understanding: the statement itself stands in a sentence of the text, or its denial does, or the text
names somebody and says in the next words who it is (*Mimo, my cat* for *Mimo is a cat*). A question is the statement
that it turns round: *Is there an owl in the tree?*
"""

import re
from collections.abc import Iterable, Iterator, Sequence

_SENTENCE = re.compile(r"[^.!?\n]+[.!?]*")
_WORD = re.compile(r"[^\W_]+")
_LEAST = 3  # words of a statement
_POINTING = frozenset(["i", "you", "he", "she", "it", "we", "they", "this", "that", "these", "those", "there", "here"])
_TURNED = frozenset(["is", "are", "was", "were", "can", "has"])
_DENIALS = frozenset(["not", "never", "no", "nobody", "nothing"])
_DOUBTS = frozenset(["if", "perhaps", "maybe", "or", "think", "thinks", "thought", "pretend", "dream", "dreams"])
_ARTICLES = frozenset(["a", "an", "the"])
_DETERMINERS = _ARTICLES | {"my", "your", "his", "her", "our", "their"}


def is_said(statement: str, texts: Iterable[str]) -> bool | None:
    """Say whether texts say what a statement or a question says: True where they do, False where they deny it, None
    where neither or both.

    What points (*It is red*) is never known: it may be about anything.
    """
    words = _words(statement)
    wanteds = list(_turned(words)) if statement.rstrip().endswith("?") else [words]
    said = {one for wanted in wanteds for one in _answers(wanted, texts)}
    return said.pop() if len(said) == 1 else None


def _turned(words: Sequence[str]) -> Iterator[list[str]]:
    """The statements that a question may ask about: its verb behind one word, or two, or three."""
    if words and words[0] in _TURNED:
        for at in range(2, min(5, len(words))):
            yield [*words[1:at], words[0], *words[at:]]


def _answers(wanted: Sequence[str], texts: Iterable[str]) -> Iterator[bool]:
    """Each time that texts say a statement (True), or that they deny it (False)."""
    there = wanted[:1] == ["there"] and len(wanted) > _LEAST + 1  # there is an owl in the tree
    if len(wanted) < _LEAST or (wanted[0] in _POINTING and not there) or not _DENIALS.isdisjoint(wanted):
        return
    for text in texts:
        for sentence in _SENTENCE.findall(text):
            told = _words(sentence)
            if sentence.rstrip().endswith("?") or not _DOUBTS.isdisjoint(told):
                continue
            denied = not _DENIALS.isdisjoint(told)
            if _stand_in(wanted, [word for word in told if word not in _DENIALS]):
                yield not denied
            elif not denied and _is_named(wanted, told):
                yield True


def _words(text: str) -> list[str]:
    plain = text.casefold().replace("’", "'").replace("can't", "can not").replace("n't", " not").replace("'s ", " is ")
    return _WORD.findall(plain)


def _stand_in(wanted: Sequence[str], told: Sequence[str]) -> bool:
    """Say whether some words stand one after another where a clause may begin and end."""
    count = len(wanted)
    return any(list(told[at : at + count]) == list(wanted) for at in range(len(told) - count + 1))


def _is_named(wanted: Sequence[str], told: Sequence[str]) -> bool:
    """*Mimo is a cat*: Mimo, my cat; Mimo the cat."""
    if len(wanted) != 4 or wanted[1] != "is" or wanted[2] not in _ARTICLES:
        return False
    return any(
        told[at] == wanted[0] and told[at + 1] in _DETERMINERS and told[at + 2] == wanted[3]
        for at in range(len(told) - 2)
    )
