"""Who says what in the texts of a unit: for tasks that ask who said it.

Only what is word for word: a quoted sentence of the text with a name right behind or before it (*“The mast is down,”
said Pip*), or a turn of a dialogue or a script under its speaker's name.
"""

import re
from collections.abc import Iterable, Iterator, Sequence

from lint_rules import lazy_re
from lint_rules.manuscript.model import Passage, Role
from lint_rules.page.exercises.answers import plain
from lint_rules.page.exercises.in_step import the_one_out_of_step
from lint_rules.page.exercises.model import Exercises, Item

_QUOTED = lazy_re.compile(r"[“\"‘'](?P<said>[^“”\"‘]{6,}?)[”\"’'](?=[\s.,;!?]|$)")
_VERBS = r"(?:says?|said|asks?|asked|shouts?|shouted|calls?|called|cries|cried|answers?|answered|whispers?|whispered)"
_SOMEBODY = r"(?:[A-Z][\w'’]*\s?)+|(?:the|his|her|my)\s+(?:[a-z]+\s)?[a-z]+"  # says Pip, says the old book
_BEHIND = lazy_re.compile(rf"\s*{_VERBS}\s+(?P<after>{_SOMEBODY})|\s*(?P<before>[A-Z][\w'’]*)\s+{_VERBS}\b")
_SMALL = frozenset({"the", "his", "her", "my"})
_WORD = lazy_re.compile(r"[^\W_]+(?:['’][^\W_]+)*")
_HOW = lazy_re.compile(r"^\s*[a-z]+ly\b")
_LEAST = 3  # words that somebody says
_ASKED = lazy_re.compile("who (?:says?|said|asks?|asked)|who is (?:speaking|talking)|whose words", re.I)


def other_speaker(read: Exercises, passages: Iterable[Passage]) -> tuple[Item, str] | None:
    """The one item of a task that asks who said something to which the key gives a name, and the text another one,
    where the key is right about others; None otherwise."""
    asks = _ASKED.search(read.activity.heading.passage.text)
    return the_one_out_of_step(_by_speaker(read, passages), 1) if asks else None


def _by_speaker(read: Exercises, passages: Iterable[Passage]) -> Iterator[tuple[bool, tuple[Item, str]]]:
    """Items that one speaker of the texts says, with that speaker, and whether the key names them."""
    items = [item for exercise in read.exercises for item in exercise.items]
    asked = {place.passage.block for item in items for place in item.prompt}
    spoken = [one for passage in passages if passage.block not in asked for one in _spoken(passage)]
    for item in items:
        keyed = _names(item.answer.text) if item.answer is not None and not item.example else frozenset()
        said = _words(item.text.replace("_", " "))
        who = {name for words, name in spoken if _holds(words, said)}
        if keyed and len(said) >= _LEAST and len(who) == 1:
            (speaker,) = who
            is_keyed = not keyed.isdisjoint(_names(speaker) - _SMALL)
            if is_keyed or speaker[:1].isupper():  # says the heron, who may be Morag
                yield is_keyed, (item, speaker)


def _spoken(passage: Passage) -> Iterator[tuple[Sequence[str], str]]:
    if passage.role is Role.TURN and passage.speaker:
        yield _words(passage.text), passage.speaker.title()
        return
    who, end, asked = "", -1, False
    for match in _QUOTED.finditer(passage.text):
        behind = _BEHIND.match(passage.text, match.end())
        # “Hello,” says Dod proudly. “I am on page nine.”
        between = _HOW.sub("", passage.text[end : match.start()]).strip(" .,")
        goes_on = who and not between and not asked
        if behind is not None:
            who, end = (behind["after"] or behind["before"]).strip(), behind.end()
        elif goes_on:
            end = match.end()
        else:
            who = ""
        asked = match["said"].rstrip().endswith("?")  # somebody else may answer
        if who:
            yield _words(match["said"]), who


def _holds(words: Sequence[str], said: Sequence[str]) -> bool:
    many = len(said)
    return any(list(words[at : at + many]) == list(said) for at in range(len(words) - many + 1))


def _words(text: str) -> list[str]:
    return [word.replace("’", "'") for word in _WORD.findall(text.casefold())]


def _names(text: str) -> frozenset[str]:
    """The words of a name as they are compared: Uncle Dosh and Dosh may be one."""
    return frozenset(word for word in plain(text).split() if len(word) > 1)
