"""The table of classroom hazards: what each is called, how it weighs, what care is usual, and a draft of a note.

People read and correct ``data/hazards.yaml``; it is read when the first unit asks for it.
"""

from collections.abc import Iterator, Mapping
from functools import cache
from pathlib import Path
from typing import Literal

import msgspec

_YAML = Path(__file__).parent / "data" / "hazards.yaml"


class Draft(msgspec.Struct, frozen=True):
    """A draft for acts that name one of these things (the beginnings of words)."""

    words: tuple[str, ...]
    note: str
    usual: str = ""  # the care that is usual with these, where it is not that of the hazard


class Hazard(msgspec.Struct, frozen=True):
    """A row of the table: what such an act is called in a message, and what care is usual."""

    id: str
    title: str
    severity: Literal["stop", "query", "note"]
    act: str
    usual: str
    draft_note: str
    drafts_for: tuple[Draft, ...] = ()

    def draft(self, text: str) -> str:
        """The draft that fits what a text says is done."""
        return next((one.note for one in self._fitting(text)), self.draft_note)

    def usual_for(self, text: str) -> str:
        """The care that is usual with what a text says is done."""
        return next((one.usual for one in self._fitting(text) if one.usual), self.usual)

    def _fitting(self, text: str) -> Iterator[Draft]:
        words = [word.strip("“\"'(") for word in text.casefold().replace("-", " ").split()]
        return (one for one in self.drafts_for if any(word.startswith(one.words) for word in words))


class _Table(msgspec.Struct, frozen=True):
    hazards: tuple[Hazard, ...]


@cache
def hazards() -> Mapping[str, Hazard]:
    """Id → row. Raises msgspec.ValidationError when a row lacks what a row must have."""
    # msgspec reads by PyYAML's parser in C: 0.03 s. By ruamel.yaml, which says where a fault is, it would be 0.2 s.
    return {row.id: row for row in msgspec.yaml.decode(_YAML.read_bytes(), type=_Table).hazards}
