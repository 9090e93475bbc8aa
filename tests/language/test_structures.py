"""Every structure finds the words that its examples mark, and nothing in its decoys."""

import re

import pytest

from lint_rules.course.model import CEFR_BANDS, band_rank
from lint_rules.language.grammar.structures import STRUCTURE_NAMES, StructureDeclaration, structure, structures
from lint_rules.language.pipeline import SpacyLanguage
from lint_rules.language.service import Request
from lint_rules.language.tokens import Mode

# The names of the design, section 6.
NAMES = """
present-simple-be past-simple-be present-simple past-simple present-continuous past-continuous present-perfect
past-perfect perfect-continuous future-will going-to-future passive can could must should may-might would have-to
have-got used-to imperative lets there-is comparative superlative relative-clause if-clause time-clause
because-clause infinitive-of-purpose verb-to-infinitive verb-ing object-to-infinitive reported-clause tag-question
wh-question yes-no-question participle-clause second-or-third-conditional inverted-conditional"""


@pytest.fixture(scope="module")
def found() -> dict[str, dict[str, list[str]]]:
    """The words that show each structure, by text and by structure, for all examples and decoys."""
    marked = (text for one in structures() for text in (*one.examples, *one.decoys))
    texts = list(dict.fromkeys(text.replace("«", "").replace("»", "") for text in marked))
    analyses = SpacyLanguage().analyse([Request(text, Mode.TEXT) for text in texts])
    shown: dict[str, dict[str, list[str]]] = {}
    for text, analysis in zip(texts, analyses, strict=True):
        for one in analysis.structures:
            shown.setdefault(text, {}).setdefault(one.name, []).append(text[one.start : one.end])
    return shown


def test_all_structures_are_there_once() -> None:
    assert sorted(STRUCTURE_NAMES) == sorted(NAMES.split())


@pytest.mark.parametrize("declaration", structures(), ids=lambda one: one.name)
def test_examples_are_found_where_they_are_marked(
    declaration: StructureDeclaration, found: dict[str, dict[str, list[str]]]
) -> None:
    for example in declaration.examples:
        marked = re.findall("«(.*?)»", example)
        assert marked, example
        assert found.get(example.replace("«", "").replace("»", ""), {}).get(declaration.name) == marked, example


@pytest.mark.parametrize("declaration", structures(), ids=lambda one: one.name)
def test_decoys_are_left_alone(declaration: StructureDeclaration, found: dict[str, dict[str, list[str]]]) -> None:
    assert len(declaration.decoys) >= len(declaration.examples)
    for decoy in declaration.decoys:
        assert declaration.name not in found.get(decoy, {}), decoy


@pytest.mark.parametrize("declaration", structures(), ids=lambda one: one.name)
def test_levels_are_bands_with_a_source(declaration: StructureDeclaration) -> None:
    assert declaration.level in CEFR_BANDS
    assert declaration.source
    if declaration.higher:
        assert band_rank(declaration.higher) > band_rank(declaration.level)


def test_a_structure_is_found_by_its_name() -> None:
    assert structure("have-got").name == "have-got"
    with pytest.raises(KeyError):
        structure("have-gotten")


def test_names_need_no_spacy() -> None:
    """The course room asks for the names alone."""
    import subprocess
    import sys

    code = (
        "import sys; from lint_rules.language.grammar.structures import STRUCTURE_NAMES; "
        "assert 'spacy' not in sys.modules"
    )
    subprocess.run([sys.executable, "-c", code], check=True)
