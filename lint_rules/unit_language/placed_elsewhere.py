"""Things that an answer puts in one place, and the picture in another: *There is some milk on the table*, called true,
where the brief has *The milk is in the fridge*.

Nothing is understood: every clause of the brief that names the thing must say where it is, and none of them may name
the place of the answer, but with the opposite word (*in front of the tent*, called *behind the tent*). Told is the one
answer of an exercise of which that is so, where at least two others stand in the brief as they are answered.
"""

import re
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from lint_rules import lazy_re
from lint_rules.manuscript.model import Unit
from lint_rules.page.briefs import briefs_of
from lint_rules.page.exercises.answers import yes_or_no
from lint_rules.page.exercises.completed import completed_sentence
from lint_rules.page.exercises.in_step import the_one_out_of_step
from lint_rules.page.exercises.model import Exercise, Exercises, Item
from lint_rules.page.exercises.statements import bare_statement
from lint_rules.plain_words import DENIED
from lint_rules.unit_language.option_support import content_in_order, content_words
from lint_rules.unit_language.places import PLACES, places_of

_FEWEST = 2
_WHERE = "|".join((*PLACES, "inside", "opposite"))
_OWNER = r"(?:the|an?|his|her|its|my|your|our|their|[A-Z]\w+['’]s)"
_STATED = lazy_re.compile(
    rf"(?:there\s+(?:is|are|was|were)\s+)?(?P<thing>[a-z’' -]+?)\s+(?:(?:is|are|was|were)\s+(?:[a-z]+ing\s+)?)?"
    rf"(?P<where>{_WHERE}|by|at)\s+{_OWNER}\s+(?P<spot>(?:[a-z]+ ){{0,2}}?[a-z]+)\s*[.?!]?",
    re.I,
)
_SPOT = lazy_re.compile(rf"\b(?:{_WHERE})\s+(?:{_OWNER}\s+)?((?:[a-z-]+\s+){{0,2}}?[a-z-]+)(?=\W|$)", re.I)
_WHERE_IS = lazy_re.compile(r"Where(?: is| are|['’]s) (?:the|my|your|his|her|our|their) ([a-z ]+)\?", re.I)
_CLAUSE = lazy_re.compile(r"[.;:,!?\n]|\b(?:and|but|while|who|which)\b")


# Where nothing is that is at the other: in front of the tent, and behind it.
_OPPOSITE = {"in front of": "behind", "behind": "in front of", "under": "on", "on": "under", "above": "under"}


class _Placed(NamedTuple):
    """What an answer says of a thing: its words, the word of its place, and the words that say where it is of that."""

    thing: frozenset[str]
    spot: str
    where: str


def placed_elsewhere(read: Exercises, unit: Unit) -> tuple[Item, str] | None:
    """The one item whose answer puts a thing where the picture has it not, and the clause of its brief."""
    briefs = (one.text for one in briefs_of(read.activity, unit))
    clauses = [clause.strip() for brief in briefs for clause in _CLAUSE.split(brief) if clause.strip()]
    for exercise in read.exercises:
        marked = [
            (found is None, (item, found or ""))
            for item in exercise.items
            if (placed := _placed(item, exercise)) is not None and (found := _against(placed, clauses)) != ""
        ]
        out = the_one_out_of_step(marked, _FEWEST)
        if out is not None:
            return out
    return None


def _placed(item: Item, exercise: Exercise) -> _Placed | None:
    """Where an item's answer puts something; None where it does not."""
    asked = _WHERE_IS.fullmatch(item.text.strip(" _"))
    if item.answer is None or item.example or ("?" in item.text and asked is None):
        return None
    said = yes_or_no(item.answer.text)
    statement = bare_statement(item.text) if said is not None else completed_sentence(item, exercise)
    if asked is not None and "__" not in item.text:
        statement = f"the {asked[1]} is {item.answer.text}"  # Where is the can? On the step.
    match = _STATED.fullmatch(statement.strip())
    if said is False or match is None or DENIED.search(statement):
        return None
    thing, spot = content_words(match["thing"]), content_in_order(match["spot"])
    told = thing and spot and spot[-1] not in (*thing, "picture", "photo", "drawing")
    return _Placed(thing, spot[-1], match["where"].casefold()) if told else None


def _against(placed: _Placed, clauses: Sequence[str]) -> str | None:
    """The clause that has a thing elsewhere; None where it is where it should be, '' where nobody can tell."""
    own = [clause for clause in clauses if placed.thing <= content_words(clause)]
    across = [clause for clause in own if _is_across(placed, clause)]
    if own and across == own:
        return own[0]
    if any(
        word.endswith(placed.spot) or placed.spot.endswith(word) for clause in own for word in content_words(clause)
    ):
        return None  # on the bench: under the workbench
    spots = [list(_spots(clause, placed.thing)) for clause in own]
    return own[0] if own and all(spots) else ""


def _is_across(placed: _Placed, clause: str) -> bool:
    """Say whether a clause has a thing at its spot by the opposite word alone."""
    return list(places_of(frozenset({placed.spot}), clause)) == [_OPPOSITE.get(placed.where, "")]


def _spots(clause: str, thing: frozenset[str]) -> Iterator[str]:
    for match in _SPOT.finditer(clause):
        words = content_in_order(match[1])
        if words and words[-1] not in thing:
            yield words[-1]
