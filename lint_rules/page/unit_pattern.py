"""Holding a unit's lessons against the course's unit pattern."""

from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Fit:
    """How lessons fit a pattern: for each lesson its place in the pattern (None: it fits nowhere in this order), and
    the places that no lesson fills."""

    places: tuple[int | None, ...]
    missing: tuple[int, ...]


def fit(lessons: Sequence[Sequence[str]], pattern: Sequence[str]) -> Fit:
    """Put as many lessons as can be in the pattern's order. A lesson has one or more classes; several lessons in a row
    may fill the same place. The fewest lessons are left out; among equals, the later ones."""
    # best[i] for each last place: (lessons placed, places filled so far); few lessons, so plain dynamic programming.
    best: dict[int, tuple[int, tuple[int | None, ...]]] = {-1: (0, ())}
    for classes in lessons:
        after: dict[int, tuple[int, tuple[int | None, ...]]] = {}
        for last, (count, places) in best.items():
            options: list[tuple[int, int | None]] = [(last, None)]
            options += [(at, at) for at, name in enumerate(pattern) if name in classes and at >= max(last, 0)]
            for now, place in options:
                entry = (count + (place is not None), (*places, place))
                if now not in after or _is_better(entry, after[now]):
                    after[now] = entry
        best = after
    _, places = max(best.values(), key=lambda entry: (entry[0], len({p for p in entry[1] if p is not None})))
    filled = {place for place in places if place is not None}
    return Fit(places, tuple(at for at in range(len(pattern)) if at not in filled))


def _is_better(new: tuple[int, tuple[int | None, ...]], old: tuple[int, tuple[int | None, ...]]) -> bool:
    return (new[0], len({*new[1]} - {None})) > (old[0], len({*old[1]} - {None}))
