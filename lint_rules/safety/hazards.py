"""The table of classroom hazards: what children do that can hurt someone, and what a safety note must say then.

People read and correct ``data/hazards.yaml``; it is read when the first unit asks for it.
"""

from functools import cache
from pathlib import Path
from typing import Literal

import msgspec

_TABLE = Path(__file__).parent / "data" / "hazards.yaml"


class Topic(msgspec.Struct, frozen=True):
    """Something a note must speak of: what, for people (``gist``), and the lemmas that show it does."""

    key: str
    gist: str
    words: tuple[str, ...]


class NoteDemand(msgspec.Struct, frozen=True):
    """What a note must address: ``any`` or ``all`` of its topics."""

    require: Literal["any", "all"]
    topics: tuple[Topic, ...]


class CueGroup(msgspec.Struct, frozen=True):
    """Words that give a hazard away: phrases alone, nouns alone, or a verb with a noun (and a preposition between)."""

    phrases: tuple[str, ...] = ()
    verbs: tuple[str, ...] = ()
    preps: tuple[str, ...] = ()
    nouns: tuple[str, ...] = ()


class Cues(msgspec.Struct, frozen=True):
    """All the cues of a hazard; ``materials`` are things that give it away in a materials list, unless ``harmless``
    verbs say what is done with them (`roll the ball`)."""

    any_of: tuple[CueGroup, ...]
    materials: tuple[str, ...] = ()
    harmless: tuple[str, ...] = ()


class Decoys(msgspec.Struct, frozen=True):
    """What looks like a cue and is none: ``idioms``, and which frames make a hit talk or drawing (or a list of such),
    and verbs that on a page mean a picture (`Listen and touch the dog`)."""

    idioms: tuple[str, ...] = ()
    frames: Literal["default", "none"] | tuple[str, ...] = "default"
    page_verbs: tuple[str, ...] = ()


class Hazard(msgspec.Struct, frozen=True):
    """A row of the table; ``listed`` is what it weighs where a materials list alone gives it away."""

    id: str
    title: str
    severity: Literal["stop", "query", "note"]
    cues: Cues
    decoys: Decoys
    note_must_address: NoteDemand
    draft_note: str
    escalate_to_stop_if: tuple[str, ...] = ()
    listed: Literal["stop", "query", "note", ""] = ""


class Matching(msgspec.Struct, frozen=True):
    """The word lists by which cues are read; ``meta.how_cues_are_read`` of the table says what each is for."""

    negators: tuple[str, ...]
    real_object_prepositions: tuple[str, ...]
    frames_pretend: tuple[str, ...]
    shown_after: tuple[str, ...]
    frames_adjacent: tuple[str, ...]
    frames_before: tuple[str, ...]
    frames_between: tuple[str, ...]
    frames_place: tuple[str, ...]
    picture_heads: tuple[str, ...]
    picture_words: tuple[str, ...]
    before_a_noun: tuple[str, ...]
    page_openers: tuple[str, ...]
    page_marks: tuple[str, ...]
    page_things: tuple[str, ...]
    class_verbs: tuple[str, ...]
    breaks: tuple[str, ...]
    particles: tuple[str, ...]
    determiners: tuple[str, ...]
    prepositions: tuple[str, ...]
    after_a_noun: tuple[str, ...]
    children: tuple[str, ...]
    talk_verbs: tuple[str, ...]
    caution_marks: tuple[str, ...]
    sure_words: tuple[str, ...]


class HazardTable(msgspec.Struct, frozen=True):
    """The table: how to read it, and its rows in order."""

    matching: Matching
    hazards: tuple[Hazard, ...]


class _Meta(msgspec.Struct, frozen=True):
    matching: Matching


class _File(msgspec.Struct, frozen=True):
    meta: _Meta
    hazards: tuple[Hazard, ...]


@cache
def hazard_table() -> HazardTable:
    """The table as the program uses it. Raises msgspec.ValidationError when a row lacks what a row must have."""
    # msgspec reads by PyYAML's parser in C: 0.03 s. By ruamel.yaml, which says where a fault is, it would be 0.2 s.
    read = msgspec.yaml.decode(_TABLE.read_bytes(), type=_File)
    return HazardTable(read.meta.matching, read.hazards)
