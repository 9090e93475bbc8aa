"""What came and went between two releases of a book: this one's record against that of an earlier one."""

from collections.abc import Iterator, Mapping
from typing import Any

import msgspec

_SHOWN = 5


class BadRecord(Exception):
    """An earlier record cannot be read; the message is the end of a sentence that begins with its name."""


class _Unit(msgspec.Struct):
    path: str
    words: int = 0


class _Stet(msgspec.Struct):
    rule: str
    path: str
    reason: str = ""
    place: str = ""


class _Git(msgspec.Struct):
    commit: str = ""


class Earlier(msgspec.Struct):
    """What of an earlier record is compared."""

    hornbook: str
    date: str = ""
    git: _Git | None = None
    units: list[_Unit] = []
    target_words: int = 0
    stets: list[_Stet] = []
    carried: int = 0
    rules: dict[str, dict[str, int]] = {}
    weakened: dict[str, str] = {}
    part: str = ""
    finished: bool = True


def read_record(data: bytes) -> Earlier:
    """Read a release record. Raises BadRecord."""
    try:
        earlier = msgspec.json.decode(data, type=Earlier)
    except (msgspec.MsgspecError, UnicodeDecodeError, RecursionError) as error:
        raise BadRecord(f"is no release record ({' '.join(str(error).split())[:120]}).") from error
    if not earlier.finished or not earlier.units:
        raise BadRecord("is the record of a run that could not be done; name one of a book that was read.")
    return earlier


def changes(before: Earlier, now: Mapping[str, Any]) -> dict[str, Any]:
    """The changes from an earlier record to this one, as plain data (for the record)."""
    after = msgspec.convert(now, Earlier)
    old, new = ({unit.path: unit.words for unit in record.units} for record in (before, after))
    stets_before, stets_now = (
        [f"{stet.rule}, {stet.path}, {stet.place}: {stet.reason}" for stet in record.stets]
        for record in (before, after)
    )
    found_before, found_now = ({rule: sum(row.values()) for rule, row in r.rules.items()} for r in (before, after))
    rules = sorted({*found_before, *found_now})
    return {
        "date": before.date,
        "commit": before.git.commit if before.git else "",
        "units_gone": [path for path in old if path not in new],
        "units_new": [path for path in new if path not in old],
        "words": [sum(old.values()), sum(new.values())],
        "target_words": [before.target_words, after.target_words],
        "stets_gone": _less(stets_before, stets_now),
        "stets_new": _less(stets_now, stets_before),
        "carried": [before.carried, after.carried],
        "findings": {
            rule: [found_before.get(rule, 0), found_now.get(rule, 0)]
            for rule in rules
            if found_before.get(rule, 0) != found_now.get(rule, 0)
        },
        "weakened": {
            rule: [before.weakened.get(rule, ""), after.weakened.get(rule, "")]
            for rule in sorted({*before.weakened, *after.weakened})
            if before.weakened.get(rule) != after.weakened.get(rule)
        },
    }


def _less(some: list[str], others: list[str]) -> list[str]:
    left = list(others)
    gone = []
    for one in some:
        if one in left:
            left.remove(one)
        else:
            gone.append(one)
    return gone


def changes_in_words(found: Mapping[str, Any]) -> Iterator[str]:
    """The changes for a person, a line each."""
    commit = f", commit {found['commit'][:12]}" if found["commit"] else ""
    since = f"since the release of {found['date'][:10] or 'an unknown day'}{commit}"
    lines = [
        *_named("units gone", found["units_gone"]),
        *_named("units new", found["units_new"]),
        *_counted("words in the units", found["words"]),
        *_counted("target words", found["target_words"]),
        *_named("stets gone", found["stets_gone"]),
        *_named("stets new", found["stets_new"]),
        *_counted("carried findings", found["carried"]),
        *(f"{rule}: {before} before, {after} now" for rule, (before, after) in found["findings"].items()),
        *(
            f"{rule} weighed {before or 'as usual'} in course.yaml, now {after or 'as usual'}"
            for rule, (before, after) in found["weakened"].items()
        ),
    ]
    if not lines:
        yield f"{since} nothing has come or gone"
    for line in lines:
        yield f"{since}: {line}"


def _named(what: str, names: list[str]) -> Iterator[str]:
    if names:
        more = f" and {len(names) - _SHOWN} more" if len(names) > _SHOWN else ""
        yield f"{len(names)} {what} ({'; '.join(names[:_SHOWN])}{more})"


def _counted(what: str, pair: list[int]) -> Iterator[str]:
    before, after = pair
    if before != after:
        yield f"{what}: {before:,} before, {after:,} now ({after - before:+,})"
