"""Who did it by the key, and somebody else by the text: *Who rang the bell?* Mr Sprat, and *Then Ilka rang the bell*;
*____ is sleeping*: Moss, and the picture has *Smoke is sleeping on a chair*.

Nothing is understood: a clause must have the words of the question behind a name, as they stand there, and none of the
clauses has them behind the name that the key gives.
"""

from collections.abc import Collection, Iterator, Sequence

from lint_rules import lazy_re
from lint_rules.manuscript.model import Passage
from lint_rules.page.exercises.in_step import the_one_out_of_step
from lint_rules.page.exercises.model import Item
from lint_rules.tables import words
from lint_rules.unit_language.told_clauses import UNSURE, Told, names_in, told_clauses, words_of

_WHO = lazy_re.compile(r"\W*Who (?P<did>(?!else\b)[a-z][\w’']*(?: [\w’',-]+)+)\s*\?\W*")
_BLANK_DID = lazy_re.compile(r"\W*_{2,}\s+(?P<did>[a-z][\w’']*(?: [\w’',-]+)+)\s*\.?\s*")  # ____ is sleeping.
_REMARK = lazy_re.compile(r"\([^()]*\)")
_LEAST = 2  # words of what somebody does; in a picture each does one thing


def done_by_another(items: Sequence[Item], texts: Sequence[Passage], known: Collection[str]) -> tuple[Item, str] | None:
    """The one question who does something whose answer the texts give to somebody else, and their sentence; None where
    there is none. ``known`` are names of the course."""
    asked = [
        (item, did)
        for item in items
        if item.answer is not None and (did := _WHO.fullmatch(item.text) or _BLANK_DID.fullmatch(item.text))
    ]
    if not asked:
        return None
    keyed = [_REMARK.sub("", item.answer.text) for item, _ in asked if item.answer is not None]
    of_course = {part for name in known for part in name.casefold().split()} - words("titles_of_persons") - {"the"}
    names = names_in([*keyed, *(passage.text for passage in texts)]) | of_course
    told = [one for passage in texts for one in told_clauses(passage, names) if not one.denied]
    wanted = [(item, words_of(did["did"]), words_of(key)) for (item, did), key in zip(asked, keyed, strict=True)]
    return the_one_out_of_step(_marked(wanted, told, names), 0)


def _marked(
    wanted: Sequence[tuple[Item, tuple[str, ...], tuple[str, ...]]], told: Sequence[Told], names: frozenset[str]
) -> Iterator[tuple[bool, tuple[Item, str]]]:
    for item, did, key in wanted:
        drawn = all(one.drawn for one in told)
        if len(did) < _LEAST - drawn or UNSURE.search(item.text) or not names.intersection(key):
            continue
        does = [one for one in told if one.words[0] in names and one.words[1 : 1 + len(did)] == did]
        sure = [one for one in does if not one.points and (drawn or len(one.words) == 1 + len(did))]
        by_key = any(one.words[0] in key for one in does)
        if by_key or len({one.words[0] for one in sure}) == 1 == len({one.words[0] for one in does}):
            yield by_key, (item, (sure or does)[0].sentence)
