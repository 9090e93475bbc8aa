"""Where a line of a page that nothing numbers has something to do: its blanks, its choices.

A page is counted in several ways until one gives as many items as its key has answers; each line is looked at once.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from functools import cached_property
from itertools import chain, islice

from lint_rules import lazy_re
from lint_rules.page.exercises.choices import choices_in
from lint_rules.page.exercises.gaps import gaps_in
from lint_rules.page.exercises.key import ReadKey
from lint_rules.page.exercises.model import Choice, Place

WRITING_LINE = lazy_re.compile(r"[_\s]+")
_BLANK = lazy_re.compile(r"_{2,}")
_MOST_ENTRIES = 30


@dataclass
class Sites:
    """The sites of a page's lines, with the key that tells what is one."""

    read: ReadKey
    _found: dict[tuple[int, int, int], list[Place]] = field(default_factory=dict)

    def of(self, place: Place) -> list[Place]:
        """The sites of a line, in order."""
        at = (id(place.passage), place.start, place.end)
        if at not in self._found:
            self._found[at] = list(_apart(self._all(place)))
        return self._found[at]

    @cached_property
    def _said(self) -> str:
        return " ".join(line.text for line in self.read.lines)

    @cached_property
    def _entries(self) -> list[tuple[str, str]]:
        return [(entry.text, entry.text.casefold()) for entry in self.read.entries[:_MOST_ENTRIES]]

    def _all(self, place: Place) -> list[Place]:
        blanks = list(_BLANK.finditer(place.passage.text, place.start, place.end))
        if blanks and WRITING_LINE.fullmatch(place.text):
            return [Place(place.passage, *blank.span()) for blank in blanks]
        sites = [gap.place for gap in gaps_in(place, said=self._said)]
        sites += _inline(choices_in(place, ""))
        if not sites:  # what only the key shows to be options: `a goat, a sheep or a hen?`
            here = place.text.casefold()
            told = (choices_in(place, said) for said, lower in self._entries if lower in here)
            sites += islice(_inline(chain.from_iterable(told)), 1)
        return sites


def _inline(choices: Iterable[Choice]) -> Iterator[Place]:
    """Where choices stand inside their sentence."""
    for choice in choices:
        if choice.inline is not None:
            yield choice.inline


def _apart(sites: list[Place]) -> Iterator[Place]:
    """Sites in order, of those that overlap the first."""
    end = 0
    for site in sorted(sites, key=lambda site: site.start):
        if site.start >= end:
            end = site.end
            yield site
