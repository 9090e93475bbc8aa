"""The forms that no spelling rule gives: the tables of irregular verbs, nouns and comparison, read in one place."""

from collections.abc import Mapping
from functools import cache
from typing import NamedTuple

from lint_rules.tables import alternatives, entries, rows


class IrregularVerb(NamedTuple):
    """A verb and its forms; the first of several is the usual one."""

    base: str
    pasts: tuple[str, ...]
    participles: tuple[str, ...]


class IrregularDegrees(NamedTuple):
    """An adjective or adverb and its comparatives and superlatives."""

    base: str
    comparatives: tuple[str, ...]
    superlatives: tuple[str, ...]
    is_adjective: bool


@cache
def irregular_verbs() -> tuple[IrregularVerb, ...]:
    """The irregular verbs that children meet."""
    return tuple(
        IrregularVerb(base, alternatives(past), alternatives(participle))
        for base, past, participle in rows("irregular_verbs.csv")
    )


@cache
def irregular_degrees() -> tuple[IrregularDegrees, ...]:
    """Comparison that no spelling rule gives: good, better, best."""
    return tuple(
        IrregularDegrees(base, alternatives(comparative), alternatives(superlative), part == "adjective")
        for base, comparative, superlative, part in rows("irregular_degrees.csv")
    )


@cache
def plurals_of() -> Mapping[str, tuple[str, ...]]:
    """Singular → its irregular plurals."""
    return {singular: alternatives(plural) for singular, plural in rows("irregular_nouns.csv")}


@cache
def irregular_verb_forms() -> Mapping[str, str]:
    """Past form or participle → base form; a form of two verbs (``lay``) goes by its past tense."""
    forms: dict[str, str] = {}
    for verb in irregular_verbs():
        for form in (*verb.pasts, *verb.participles):
            forms.setdefault(form, verb.base)
    return forms


@cache
def irregular_noun_forms() -> Mapping[str, str]:
    """Plural → singular."""
    return {form: singular for singular, plurals in plurals_of().items() for form in plurals}


@cache
def irregular_plurals() -> frozenset[str]:
    """Plurals that differ from their singular: mice, children."""
    return frozenset(plural for plural, singular in irregular_noun_forms().items() if plural != singular)


@cache
def plural_only() -> frozenset[str]:
    """Nouns that keep their plural form."""
    return frozenset(entries("plural_only.txt"))
