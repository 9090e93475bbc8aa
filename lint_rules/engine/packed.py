"""Outcomes of many units, packed: as objects, those of a thousand units would take more memory than the parser."""

from collections.abc import Iterator, Mapping

import msgspec

from lint_rules.engine.check import Outcome

_PACK = msgspec.msgpack.Encoder()
_OUTCOMES = msgspec.msgpack.Decoder(Outcome)


class PackedOutcomes(Mapping[str, Outcome]):
    """Outcomes by path; each is unpacked when it is looked at."""

    def __init__(self) -> None:
        self._packed: dict[str, bytes] = {}

    def add(self, outcomes: Mapping[str, Outcome]) -> None:
        """Take outcomes in."""
        self._packed |= {path: _PACK.encode(outcome) for path, outcome in outcomes.items()}

    def __getitem__(self, path: str) -> Outcome:
        return _OUTCOMES.decode(self._packed[path])

    def __iter__(self) -> Iterator[str]:
        return iter(self._packed)

    def __len__(self) -> int:
        return len(self._packed)
