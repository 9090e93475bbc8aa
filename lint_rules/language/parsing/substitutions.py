"""The word that the parser reads instead of another one: a well-known name for a course's, a neutral word for a gap, an
unambiguous word for one that the model takes for another (*can* that holds beans, *Will* and *May* that are people)."""

from collections.abc import Sequence

from lint_rules import tables
from lint_rules.language.inflection.verb_forms import bases

Piece = tuple[str, int]  # a word of the plain text, and its offset

NAMES = ("Anna", "Tom", "Mary", "Peter", "Kate", "Sam", "Lucy", "Ben")
_CLITICS = {"s": "'s", "m": "'m", "nt": "n't", "re": "'re", "ve": "'ve", "ll": "'ll", "r": "'re"}
_FINITE = frozenset(["is", "was", "has", "are", "were", "does", "did", "isn't"])
_PREPOSITIONS = frozenset(["in", "on", "at", "for", "of", "from", "with", "to", "under", "by"])


def substitutions(pieces: Sequence[Piece]) -> dict[int, str]:
    """The words to be read as another, by index."""
    found: dict[int, str] = {}
    plainer = tables.mapping("spellings")
    for index, (word, _) in enumerate(pieces):
        low = word.lower()
        if low in plainer:
            found[index] = plainer[low]
        elif (
            low in _CLITICS
            and index
            and _joined(pieces, index)
            and pieces[index - 1][0].lower() in tables.group("clitic_hosts")
        ):
            found[index] = _CLITICS[low]
        elif low in ("can", "cans") and _is_tin(pieces, index):
            found[index] = "tin"
        elif word in ("Will", "May") and _is_name(pieces, index):
            month = word == "May" and _neighbour(pieces, index, -1) in tables.group("month_hints")
            found[index] = "June" if month else "Tom" if word == "Will" else "Anna"
    return found


def _joined(pieces: Sequence[Piece], index: int) -> bool:
    before, at = pieces[index - 1]
    return at + len(before) == pieces[index][1]


def _neighbour(pieces: Sequence[Piece], index: int, step: int) -> str:
    """The lower-case word next to a place ('' where there is none)."""
    index += step
    return pieces[index][0].lower() if 0 <= index < len(pieces) else ""


def _is_tin(pieces: Sequence[Piece], index: int) -> bool:
    """A *can* that is a thing: `the can`, `a can of beans`, `the green can is`."""
    before, after = _neighbour(pieces, index, -1), _neighbour(pieces, index, 1)
    if before in tables.group("determiners") - {"this", "that"} or after == "of":
        return True
    return after in _FINITE or (before in ("this", "that") and after in _PREPOSITIONS)


def _is_name(pieces: Sequence[Piece], index: int) -> bool:
    """*Will* and *May* as names: with a capital inside a sentence, before a comma, or before a finite verb."""
    after = _neighbour(pieces, index, 1)
    before = pieces[index - 1][0] if index else ""
    inside = bool(before) and before not in tables.words("sentence_ends") and before not in ('"', "'", "(", "-")
    if inside and not before[0].isdigit():
        return before.lower() not in ("i", "you", "he", "she", "it", "we", "they") or after in _FINITE
    return (
        after in _FINITE | {",", "'s", "can", "likes", "and", "!"}
        or after.endswith("ed")
        or (after.endswith("s") and after in tables.words("third_persons"))
    )


def names_at(pieces: Sequence[Piece], names: Sequence[str], text: str) -> dict[int, str]:
    """Where the course's names stand in ``text``, and the well-known name that stands in for each.

    A name that is also a verb (Mark, Will, Skip) is a name where only a name can stand.
    """
    found: dict[int, str] = {}
    lowered = [word.lower() for word, _ in pieces]
    for number, name in enumerate(names):
        parts = name.lower().replace("-", " - ").split()
        is_verb = len(parts) == 1 and (parts[0] in bases() or parts[0] in ("will", "may"))
        for index in range(len(lowered) - len(parts) + 1):
            if lowered[index : index + len(parts)] != parts or not text[pieces[index][1]].isupper():
                continue
            if not is_verb or _is_name(pieces, index):
                found[index + len(parts) - 1] = NAMES[number % len(NAMES)]
    return found


_THIRD = frozenset({"he", "she", "it", "this", "that", "who", "what"})
_OTHERS = frozenset({"i", "you", "we", "they"})


def gap_word(pieces: Sequence[Piece], index: int) -> str:
    """A neutral word that can stand in a gap, judged by its neighbours. It shows no structure; it only keeps the
    sentence whole."""
    before, after = _neighbour(pieces, index, -1), _neighbour(pieces, index, 1)
    ends = not after or not after[0].isalpha()
    if after == "than":
        return "better"
    if before in tables.group("base_after") or (before in _OTHERS and _asks_before(pieces, index)):
        return "go" if ends else "be" if after in ("a", "an") else "take"
    if before in ("'ve", "have", "has", "had", "haven't", "hasn't", "n't") and after in tables.group("gap_objects"):
        return "got"
    if before in tables.group("determiners"):
        return "thing" if ends or after in _FINITE or after in _PREPOSITIONS or after == "and" else "big"
    if before in ("is", "are", "was", "were", "am", "'s", "'re", "'m"):
        return (
            "doing"
            if after in tables.group("gap_objects")
            else "good"
            if ends or after in _PREPOSITIONS | {"and", "or"}
            else "some"
        )
    if before == "there":
        return "is" if after in ("a", "an") else "are"
    if before in _THIRD | _OTHERS or (pieces[index - 1][0][:1].isupper() and index):
        third = before not in _OTHERS
        if after.endswith("ing"):
            return "is" if third else "are"
        return "goes" if ends and third else "go" if ends else "likes" if third else "like"
    if not before or before in tables.words("sentence_ends"):
        if after in _THIRD | _OTHERS:
            return "Does" if after in _THIRD else "Do"
        return (
            "What"
            if after in ("is", "are", "do", "does", "did", "can")
            else "Take"
            if after in tables.group("gap_objects")
            else "It"
        )
    if after in tables.group("gap_objects") - {"you"} and not before.endswith(("s", "e", "d")):
        return "likes"
    return "things"


def _asks_before(pieces: Sequence[Piece], index: int) -> bool:
    """Say whether an auxiliary stands two words before a gap: `do you ____`."""
    return _neighbour(pieces, index, -2) in ("do", "does", "did", "can", "will", "should", "must", "could", "would")
