"""Names, told by their capitals: a word that has one where its place in the sentence does not ask for it."""

from collections.abc import Iterator, Sequence

from lint_rules.language.tokens import Analysis, Token
from lint_rules.language.vocabulary.word_index import canonical, parts_of
from lint_rules.language.vocabulary.word_shapes import in_title_case

LONGEST = 4  # words of a name
_NEAR = 6  # words before the letters
_ARTICLES = frozenset({"a", "an", "the"})


def names_in(analysis: Analysis) -> frozenset[str]:
    """What a text uses as names, as they are compared: proper nouns with a capital inside a sentence, nouns and
    adjectives with one behind a word (how old is Speedy?), and runs of words that all have one (the Little Plum →
    ``little plum``)."""
    tokens = analysis.tokens
    if not any(token.text[:1].isupper() for token in tokens[1:]) or in_title_case(tokens):
        return frozenset()
    starts = {sentence.first for sentence in analysis.sentences}
    inside = [at not in starts and _has_capital(token) for at, token in enumerate(tokens)]
    single = {
        canonical(token.text) for at, token in enumerate(tokens) if token.text and inside[at] and _is_named(tokens, at)
    }
    return frozenset(single | set(_runs(tokens, inside)) | set(_spelt(tokens)))


def names_of_title(title: str) -> frozenset[str]:
    """A course's title as a name, where it is more than one word: The Little Plum → ``little plum``."""
    words = parts_of(title)
    if words and words[0] in _ARTICLES:
        words = words[1:]
    return frozenset({" ".join(words)} if 1 < len(words) <= LONGEST else ())


def name_from(tokens: Sequence[Token], at: int, names: frozenset[str]) -> int:
    """One past the last word of a name of several words that starts here, or 0."""
    words: list[str] = []
    found = 0
    for place in range(at, min(at + LONGEST, len(tokens))):
        if not tokens[place].text[:1].isupper():
            break
        words.append(canonical(tokens[place].text))
        if len(words) > 1 and " ".join(words) in names:
            found = place + 1
    return found


def _has_capital(token: Token) -> bool:
    return token.text[:1].isupper() and not token.text.isupper() and token.lemma != "I"


def _is_named(tokens: Sequence[Token], at: int) -> bool:
    """Say whether a capital inside a sentence makes a name."""
    return tokens[at].pos == "PROPN" or (tokens[at].pos in ("NOUN", "ADJ") and tokens[at - 1].text.isalpha())


def _spelt(tokens: Sequence[Token]) -> Iterator[str]:
    """Names that are spelt out behind themselves: Gadd. That's G, A, double D."""
    letters, at = "", 0
    for place, token in enumerate(tokens):
        letter = token.text.rstrip(".")
        if len(letter) == 1 and letter.isupper():
            at = at if letters else place
            doubled = place > 0 and tokens[place - 1].text.casefold() == "double"
            letters += letter * (2 if doubled else 1)
            before = (one.text for one in tokens[max(0, at - _NEAR) : at])
            if len(letters) > 1 and any(one.upper() == letters and one[1:].islower() for one in before):
                yield letters.casefold()
        elif token.text.isalnum() and token.text.casefold() != "double":
            letters = ""


def _runs(tokens: Sequence[Token], inside: Sequence[bool]) -> Iterator[str]:
    words: list[str] = []
    for at in range(len(tokens) + 1):
        if at < len(tokens) and inside[at]:
            words.append(canonical(tokens[at].text))
            continue
        if 1 < len(words) <= LONGEST:
            yield " ".join(words)
        words = []
