"""Where a structure stands for the children of a unit: free, taught later, or above their level.

Order of authority: what units have taught by then (their `grammar` labels) is free; what a later unit of the level
teaches comes too early; else the band counts that the course sets itself (`structures` in course.yaml); else what a
later level teaches is above level; else the house table of structures decides, with its sources.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from types import MappingProxyType

from lint_rules import lazy_re
from lint_rules.course.memo import memo
from lint_rules.course.model import CEFR_BANDS, Course, Level, UnitPlan, band_rank
from lint_rules.language.grammar.label_patterns import stands_in
from lint_rules.language.grammar.labels import patterns_that_teach, structures_of_label
from lint_rules.language.grammar.structures import STRUCTURE_NAMES, structure
from lint_rules.tables import rows

HOUSE_SAYS = "house default"
LOWEST = CEFR_BANDS[0]
_SIMPLE = "past-simple"  # which every other tense of the past is taught beside
_BESIDE_SIMPLE = frozenset({"past-continuous", "past-perfect", "present-perfect"})
# Bands below a level: what lies so far below is known, and the unit that names it goes over it again. Common practice,
# no source.
_LONG_KNOWN = 2
# Structures whose third person has a form of its own, what names that person in a label, and what has that form.
_WITH_S = frozenset({"present-simple", "have-got"})
_THIRD = lazy_re.compile(r"\b(?:he|she|third[ -]person)\b", re.I)
_FIRST_AND_SECOND = lazy_re.compile(r"\b(?:I|you|we|they)\b")
_ASKED_WITH = lazy_re.compile(
    r"\b(?:what (?:time|colou?r|day|kind)|how (?:many|much|old|often|far|long|tall)|whose|who|what|which|where|when|why"
    r"|how)\b"
)
_WITH = lazy_re.compile(r"\s(?:with|next to|beside)\s", re.I)
_S_FORM = lazy_re.compile(r"s\b|\bdoesn['’]t\b|\bhasn['’]t\b", re.I)


@dataclass(frozen=True, slots=True)
class Name:
    """What a teacher calls a structure, and what to write instead where children do not know it ('' for nothing)."""

    called: str
    instead: str


@dataclass(frozen=True, slots=True)
class Standing:
    """A structure that is not free for a unit's children.

    ``later`` is the plan of the unit that teaches it (None when no unit does), ``same_level`` whether that unit is of
    the same level; ``band`` and ``source`` say from where on the structure is free when no unit teaches it, ``higher``
    the band of a source that differs ('' when none does). ``certain`` is False where sources disagree, or where the
    structure is found too unsurely to stop anybody. ``sourced`` is False where it lies one band up on nobody's word but
    the house's.
    """

    later: UnitPlan | None
    same_level: bool
    band: str
    higher: str
    source: str
    certain: bool
    disputed: bool = False
    sourced: bool = True


@cache
def names() -> Mapping[str, Name]:
    """The structures by name: what they are called, and what to write instead."""
    return MappingProxyType({name: Name(called, instead) for name, called, instead in rows("plainer_structures.csv")})


def standing(
    name: str, course: Course, level: Level, unit: int, shown: tuple[str, int, int] | None = None
) -> Standing | None:
    """Where a structure stands for the children of a unit (0: its number is not known); None when it is free.

    ``shown`` is the text that shows it, and where in it: a label written as a pattern (`Can I have …?`) keeps back no
    more than what is written so. Imperatives are always free: every instruction is one.
    """
    if name == "imperative" or name not in STRUCTURE_NAMES:
        return None
    taught = _teaching(name, course, (level.index, unit), shown)
    own = course.structures.get(name, "")
    declared = structure(name)
    if taught is not None:
        if (taught.level, taught.unit) <= (level.index, unit):
            return None
        if taught.level == level.index:
            if band_rank(level.cefr) - band_rank(own or declared.level) >= _LONG_KNOWN:
                return None
            return Standing(taught, True, "", "", "", certain=False) if unit else None
        if not own:
            return Standing(taught, False, "", "", "", certain=declared.sure)
    band = own or declared.level
    higher = "" if own else declared.higher
    source = "course.yaml" if own else _source(declared.source)
    rank = band_rank(level.cefr)
    if rank < band_rank(band):
        sourced = source != HOUSE_SAYS or band_rank(band) - max(rank, 1) > 1
        return Standing(None, False, band, higher, source, certain=declared.sure and sourced, sourced=sourced)
    if higher and rank < band_rank(higher) and band != LOWEST:
        # Free at Pre-A1 is the house's own word, so that a profile which begins at A1 is no other opinion.
        return Standing(None, False, band, higher, source, certain=False, disputed=True)
    return None


def _teaching(name: str, course: Course, here: tuple[int, int], shown: tuple[str, int, int] | None) -> UnitPlan | None:
    """The first unit that teaches a structure; a later one only where it teaches what is shown."""
    for plan, label in _teachings(course.plans).get(name, ()):
        if (plan.level, plan.unit) <= here:
            return plan
        if name == _SIMPLE and next(iter(structures_of_label(label)), "") in _BESIDE_SIMPLE:
            continue  # past continuous and past simple with when: the one is known; not: past simple, past continuous
        patterns = patterns_that_teach(name, label)
        if (
            not patterns
            and shown is not None
            and (_is_of_others(name, label, *shown) or _asks_else(name, label, *shown))
        ):
            continue
        if not patterns or (shown is not None and stands_in(patterns, *shown)):
            return plan
    return None


def _is_of_others(name: str, label: str, text: str, start: int, end: int) -> bool:
    """Say whether a label speaks of he and she alone, and the words are those of others: `present simple: he, she, it`
    keeps back `she likes`, not `I like`."""
    only_third = _THIRD.search(label) is not None and _FIRST_AND_SECOND.search(label) is None
    return name in _WITH_S and only_third and _S_FORM.search(text[start:end]) is None


def _asks_else(name: str, label: str, text: str, start: int, end: int) -> bool:
    """Say whether a label names question words, and the words ask with another: `questions with whose` keeps back no
    `where`."""
    named = set(_ASKED_WITH.findall(label.casefold()))
    asked = _ASKED_WITH.findall(text[start:end].casefold())
    return name == "wh-question" and bool(named) and named.isdisjoint([*asked, *(one.split()[0] for one in asked)])


@memo
def _teachings(plans: tuple[UnitPlan, ...]) -> Mapping[str, tuple[tuple[UnitPlan, str], ...]]:
    """The units that teach each structure, in teaching order, with the labels in their front matter that say so."""
    found: dict[str, list[tuple[UnitPlan, str]]] = {}
    for plan in _in_teaching_order(plans):
        for label in plan.grammar:
            for name in _taught_by(label):
                found.setdefault(name, []).append((plan, label))
    return MappingProxyType({name: tuple(units) for name, units in found.items()})


def _taught_by(label: str) -> tuple[str, ...]:
    """What a label teaches: `past continuous with past simple and when` only puts the second beside the first."""
    head, beside = (*_WITH.split(label, maxsplit=1), "")[:2]
    known = set(structures_of_label(beside)) - set(structures_of_label(head))
    every = structures_of_label(label)
    return tuple(name for name in every if name not in known) or every


def _in_teaching_order(plans: tuple[UnitPlan, ...]) -> tuple[UnitPlan, ...]:
    return tuple(sorted(plans, key=lambda plan: (plan.level, plan.unit)))


def _source(source: str) -> str:
    """The source's name alone, as a message has room for."""
    return "CEFR-J Grammar Profile" if source.startswith("CEFR-J") else HOUSE_SAYS
