"""Words that are only mentioned or frozen in a set phrase: options, hints after gaps, formulae. They show nothing."""

from functools import cache

from lint_rules import tables
from lint_rules.language.parsing.words import Text, Word

_NEGATIONS = frozenset({"n't", "not"})


def options(text: Text) -> None:
    """`is / are`, `go / went / gone`, `Write is or are in each gap.`: forms to choose from."""
    words = text.words
    for word in words:
        if word.lower in ("/", "or") and not word.mention and 0 < word.index < len(words) - 1:
            before, after = words[word.index - 1], words[word.index + 1]
            if before.lower in _NEGATIONS and before.index:
                before = words[before.index - 1]
            if word.lower == "/" or (before.lower in tables.group("forms") and after.lower in tables.group("forms")):
                for option in (before, after):
                    _mention(words, option)


def _mention(words: list[Word], word: Word) -> None:
    word.mention = True
    if word.index + 1 < len(words) and words[word.index + 1].lower in _NEGATIONS:
        words[word.index + 1].mention = True


def hints(text: Text) -> None:
    """`I ____ (go) to bed.`: the word in brackets says what to put in the gap."""
    words = text.words
    for gap in words:
        if gap.gap and gap.index + 2 < len(words) and words[gap.index + 1].lower == "(":
            for word in words[gap.index + 2 : gap.index + 8]:
                if word.lower == ")":
                    break
                word.mention = True


@cache
def _formulae() -> dict[str, tuple[tuple[str, ...], ...]]:
    """The set phrases, by their first word."""
    found: dict[str, tuple[tuple[str, ...], ...]] = {}
    for line in tables.entries("formulae.txt"):
        words = tuple(line.split())
        found[words[0]] = (*found.get(words[0], ()), words)
    return found


def formulae(text: Text) -> None:
    """`Thank you`, `See you later`, `How about you?` at the start of a sentence or after a comma."""
    known = _formulae()
    words = text.words
    for word in words:
        if word.lower in known:
            for phrase in known[word.lower]:
                end = word.index + len(phrase)
                if tuple(one.lower for one in words[word.index : end]) == phrase and _opens(text, word):
                    for one in words[word.index : end]:
                        one.mention = True


def _opens(text: Text, word: Word) -> bool:
    before = text.before(word)
    return (
        before is None
        or before.lower in (",", ".", "!", "?", '"', "'", "-", "no", "yes", "and")
        or any(start == word.index for start, _ in text.sentences)
    )


STEPS = (options, hints, formulae)
