"""An item, and an exercise, in the making; and what is left of a place when some of it is cut away."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from lint_rules import lazy_re
from lint_rules.page.exercises.marks import Kind, Mark
from lint_rules.page.exercises.model import Label, Option, Place

_EDGE = " \t\n\u00a0,;/|·•–—☐□▢◯○◻⬜❏❑"
_LETTER = lazy_re.compile(r"[^\W\d_]")


@dataclass(slots=True)
class Draft:
    """An item in the making: its label, the places it takes up, its lettered options."""

    label: Label
    mark: Mark | None
    places: list[Place] = field(default_factory=list)
    options: list[Option] = field(default_factory=list)
    more: list[Label] = field(default_factory=list)  # the same label again, where its blanks or options stand

    @property
    def bare(self) -> bool:
        """Whether it has no words of its own, but blanks or options."""
        return not any(_LETTER.search(place.text) for place in self.places)


@dataclass(slots=True)
class DraftExercise:
    """Drafts that count on from each other, and what they count with; ``cloze``: they stand in a running text;
    ``behind``: their labels end the lines that they stand on, as letters of pictures do (`sp__n (A)`)."""

    drafts: list[Draft]
    kind: Kind
    column: list[Option] = field(default_factory=list)
    cloze: bool = False
    behind: bool = False


def trimmed(place: Place) -> Place:
    """A place without what only divides it from its neighbours."""
    text = place.text
    start = place.start + len(text) - len(text.lstrip(_EDGE))
    return Place(place.passage, start, max(start, place.end - (len(text) - len(text.rstrip(_EDGE)))))


def without(place: Place, cut: Sequence[Place]) -> Iterator[Place]:
    """What is left of a place without some others."""
    inside = sorted((one.start, one.end) for one in cut if one.passage is place.passage)
    at = place.start
    for start, end in (*inside, (place.end, place.end)):
        left = Place(place.passage, at, min(start, place.end))
        if left.text.strip(_EDGE):
            yield left
        at = max(at, end)
