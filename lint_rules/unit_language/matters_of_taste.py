"""Choices that are a matter of taste, or of what somebody has: `I like (oranges / apples)`. Words in, yes or no out."""

from collections.abc import Sequence

from lint_rules.language.tokens import Token
from lint_rules.page.exercises.answers import plain
from lint_rules.page.exercises.model import Option
from lint_rules.tables import words

_TASTE = frozenset({"like", "love", "want", "have", "need", "see", "buy", "prefer"})
_FILLERS = frozenset({"please", "really", "very", "much", "too", "also"})
_ANYTHING = frozenset({"good", "nice", "lovely", "great", "beautiful", "wonderful"})


def colours_of_own(tokens: tuple[Token, ...], at: int, others: Sequence[Option]) -> bool:
    """`I've got a (green / yellow) kite`: the colour of what somebody has."""
    colours = words("colours")
    if tokens[at].text.casefold() not in colours or not all(plain(option.text) in colours for option in others):
        return False
    rest = tuple(token for index, token in enumerate(tokens) if index not in (at, at + 1))
    return (
        at + 2 < len(tokens) and tokens[at + 1].pos == "NOUN" and tokens[at + 2].text in (".", "!") and _tells_own(rest)
    )


def _tells_own(rest: tuple[Token, ...]) -> bool:
    subject = rest[0].text.casefold() in ("i", "we") if rest else False
    content = [token for token in rest if token.pos in ("NOUN", "ADJ", "ADV", "NUM", "PROPN")]
    return subject and not content and any(token.lemma in (*_TASTE, "get") for token in rest)


def fits_anything(tokens: tuple[Token, ...], at: int, option: Option) -> bool:
    """`The soup is very (hot / good)`: whatever is hot may be good."""
    be = at and any(token.lemma == "be" for token in tokens[max(0, at - 2) : at])
    low = tokens[at].text.casefold()
    plain_form = low == tokens[at].lemma and tokens[at].pos == "ADJ" and low not in _ANYTHING
    last = at + 2 >= len(tokens)
    subject = next((token for token in tokens if token.dep == "nsubj"), None)
    noun = subject is not None and subject.pos in ("NOUN", "PROPN", "PRON")
    return bool(be) and plain_form and last and noun and plain(option.text) in _ANYTHING


def matter_of_taste(tokens: tuple[Token, ...], at: int) -> bool:
    """`I like apples`, `Pim plays the drum loudly`: somebody with a verb of taste or having, or a way of doing it."""
    subjects = [token for token in tokens if token.dep == "nsubj"]
    if len(subjects) != 1 or not (subjects[0].pos == "PRON" or subjects[0].tag == "NNP") or subjects[0].lemma == "it":
        return False
    verbs = [token for token in tokens if token.pos == "VERB"]
    if len(verbs) > 1 or sum(token.text in ".!?" for token in tokens) > 1:
        return False
    if tokens[at].pos == "ADV":
        return tokens[at].text.endswith("ly") and not any(
            token.pos in ("ADJ", "ADV") for token in tokens if token is not tokens[at]
        )
    main = verbs[0].lemma if verbs else next((token.lemma for token in tokens if token.pos == "AUX"), "")
    rest = [
        token
        for index, token in enumerate(tokens)
        if index != at and token.pos in ("NOUN", "ADJ", "ADV", "NUM", "PROPN") and token is not subjects[0]
    ]
    taste = main in _TASTE or (main == "get" and any(token.lemma == "have" for token in tokens))
    return taste and all(token.lemma in _FILLERS for token in rest)
