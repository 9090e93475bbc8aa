"""The structures of English grammar that hornbook knows, each one small declaration."""

from functools import cache

from lint_rules.language.grammar.structures import clauses, comparison, modals, questions, tenses, verb_patterns
from lint_rules.language.grammar.structures.declaration import Parsed, StructureDeclaration

_ROOMS = (tenses, modals, comparison, clauses, verb_patterns, questions)


@cache
def structures() -> tuple[StructureDeclaration, ...]:
    """Every structure, in the order of a grammar book."""
    return tuple(declaration for room in _ROOMS for declaration in room.DECLARATIONS)


STRUCTURE_NAMES: tuple[str, ...] = tuple(declaration.name for declaration in structures())


def structure(name: str) -> StructureDeclaration:
    """The structure of that name. Raises KeyError when there is none."""
    return _by_name()[name]


@cache
def _by_name() -> dict[str, StructureDeclaration]:
    return {declaration.name: declaration for declaration in structures()}


__all__ = ["STRUCTURE_NAMES", "Parsed", "StructureDeclaration", "structure", "structures"]
