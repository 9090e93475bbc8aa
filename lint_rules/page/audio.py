"""Tracks and scripts of a unit: which tracks its activities play, and which its audio scripts have."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

from lint_rules.manuscript.counting import is_placeholder
from lint_rules.manuscript.model import Activity, Audience, Div, DivKind, Passage, Unit


@dataclass(frozen=True, slots=True)
class Script:
    """An audio script: its div, its track ('' when it names none), whether it is empty, the activity it is in.

    A script that only says where its words are (``elsewhere``: `the story as printed`) is empty too.
    """

    div: Div
    track: str
    empty: bool
    activity: Activity | None
    elsewhere: bool = False


def scripts_of(unit: Unit) -> Iterator[Script]:
    """The audio scripts of a unit, in file order."""
    written = {passage.div for passage in unit.passages if passage.text.strip()}
    spoken = {passage.div for passage in unit.passages if passage.text.strip() and not is_placeholder(passage.text)}
    inside = {index: activity for activity in unit.activities for index in activity.part.divs}
    for index, div in enumerate(unit.divs):
        if div.kind is DivKind.AUDIO:
            track = _track(div)
            yield Script(div, track, index not in spoken, inside.get(index), index in written - spoken)


def tracks_played(activity: Activity) -> tuple[str, ...]:
    """The tracks that an activity plays: `audio=4.1`, or several with spaces or commas between."""
    written = activity.heading.attributes.values.get("audio", "")
    return tuple(written.replace(",", " ").split())


@lru_cache(maxsize=4)  # a key is held against it in many ways, one after the other
def heard_in(activity: Activity, unit: Unit) -> tuple[Passage, ...]:
    """What is heard in an activity, in file order: the scripts of the tracks it plays, wherever in the unit they stand,
    and those that stand in it and that no other activity plays (a lesson's scripts may all stand at its end)."""
    played = tracks_played(activity)
    own = {id(passage) for passage in activity.part.passages if passage.audience is Audience.LISTENER}
    if not played and not own:  # most activities
        return ()
    of_others = {track for one in unit.activities for track in tracks_played(one)}.difference(played)
    tracks = {at: _track(div) for at, div in enumerate(unit.divs) if div.kind is DivKind.AUDIO}
    found: list[Passage] = []
    for passage in unit.passages if played else activity.part.passages:
        track = tracks.get(passage.div, "") if passage.div is not None else ""
        stands_here = id(passage) in own and track not in of_others
        if passage.audience is Audience.LISTENER and (stands_here or track in played):
            found.append(passage)
    return tuple(found)


def _track(div: Div) -> str:
    return div.attributes.values.get("track", "").strip()


def scripted_tracks(unit: Unit) -> frozenset[str]:
    """The tracks that a unit has scripts for."""
    return frozenset(script.track for script in scripts_of(unit) if script.track)


def is_own_track(number: str, unit: int) -> bool:
    """Say whether a track is one of this unit's by its number: `4.1` is unit 4's, and so is a plain `7`."""
    before, dot, _ = number.partition(".")
    return not dot or before == str(unit)
