"""Where an editor would cut a sentence that is too long: before a clause that can stand by itself."""

from collections.abc import Sequence

from lint_rules.language.tokens import Analysis, Sentence, Token

_LEAST = 3  # words of a half: common practice, no source
_SHOWN = 3  # words of a place to cut at that a message shows
_SUBJECTS = frozenset({"nsubj", "nsubjpass", "expl"})
_FINITE = frozenset({"VBZ", "VBD", "VBP"})


def place_to_cut(analysis: Analysis, sentence: Sentence, text: str) -> str:
    """The words before which an editor would cut: `and`, `but` or `so`, right before what another, or the same, does.

    What follows must be a sentence of its own, with its subject if it can be; of several, the one nearest the middle.
    """
    tokens = analysis.tokens
    middle = (sentence.first + sentence.last) / 2
    found: list[tuple[bool, float, int]] = []
    for index in range(sentence.first + _LEAST, sentence.last - _LEAST):
        word = tokens[index]
        if word.pos != "CCONJ" or word.text.casefold() not in ("and", "but", "so"):
            continue
        if _is_last_of_three(tokens, sentence.first, index):
            continue  # it went up, it turned over and it came down: a cut would leave a comma between sentences
        verb = next((at for at in range(index + 1, sentence.last) if _is_clause(tokens, at, index, word.head)), None)
        if verb is not None:
            own = any(tokens[at].head == verb and tokens[at].dep in _SUBJECTS for at in range(index + 1, verb + 2))
            found.append((not own, abs(index - middle), index))
    if not found:
        return ""
    index = min(found)[2]
    marks = (at for at in range(index, sentence.last) if tokens[at].pos == "PUNCT")
    end = min(next(marks, sentence.last), index + _SHOWN)
    last = tokens[end - 1].end
    while last < len(text) and not text[last].isspace() and text[last] not in ",.;:!?":
        last += 1  # the parser cuts isn't in two
    return text[tokens[index].start : last]


def _is_last_of_three(tokens: Sequence[Token], first: int, cut: int) -> bool:
    """Say whether clauses stand before a cut with nothing but a comma between them."""
    if tokens[first].pos == "SCONJ" or tokens[first].tag == "WRB":
        return False  # When it is dark, the cat sleeps and …
    finite = [at for at in range(first, cut) if tokens[at].tag in (*_FINITE, "MD")]
    commas = [at for at in range(first, cut) if tokens[at].text == "," and at + 1 < cut]
    return any(
        min(finite) < comma and any(comma < at for at in finite) and tokens[comma + 1].pos not in ("CCONJ", "SCONJ")
        for comma in commas
        if finite and comma < cut - 1
    )


def _is_clause(tokens: Sequence[Token], verb: int, cut: int, head: int) -> bool:
    """Say whether a finite verb is joined to the sentence's own by the word at ``cut``, and its clause begins there."""
    if tokens[verb].dep != "conj" or tokens[verb].head != head or not _is_main(tokens, head):
        return False
    helpers = [at for at in range(cut + 1, verb) if tokens[at].pos == "AUX" and tokens[at].head == verb]
    if tokens[verb].tag not in _FINITE and not helpers:
        return False
    return all(_is_under(tokens, at, verb) for at in range(cut + 1, verb))


def _is_under(tokens: Sequence[Token], at: int, verb: int) -> bool:
    for _ in range(len(tokens)):
        if at == verb:
            return True
        if tokens[at].head == at:
            return False
        at = tokens[at].head
    return False


def _is_main(tokens: Sequence[Token], verb: int) -> bool:
    """Say whether a verb is the sentence's own, or joined to it by `and`: no cut inside `when it was dark and …`."""
    while tokens[verb].dep == "conj":
        verb = tokens[verb].head
    return tokens[verb].head == verb
