"""The rows that are put together word by word are those of the whole pipeline."""

import importlib
import subprocess
import sys
from pathlib import Path

import pytest

from lint_rules.course.folder import read_course_folder
from lint_rules.engine.check import requests_of
from lint_rules.language.grammar.labels import structures_of_label
from lint_rules.language.grammar.structures import STRUCTURE_NAMES
from lint_rules.language.parsing.parser import Parser, load_model
from lint_rules.language.parsing.prepare import prepare
from lint_rules.language.pipeline import MODEL
from lint_rules.language.tokens import Mode
from lint_rules.manuscript.reading import read_unit
from lint_rules.page.readings import readings_of

EXAMPLE = Path(__file__).parents[2] / "example_manuscript"
# Patterns of several words in the model's attribute ruler, and what stands beside them.
OTHERS = (
    "Let's go! Let us go.",
    "There is a cat. There's a dog. The cat is there.",
    "I'm gonna swim. I gotta go. Y'all come on. C'mon!",
    "It ain't me. He won't, she can't, they shan't.",
    "Better late than never. He is better than me.",
    "",
    "cats",
    "She likes her cat's red hat; its tail's long.",
)


@pytest.fixture(scope="module")
def nlp():
    return importlib.import_module(MODEL).load(exclude=["ner"])


def texts_of_the_example() -> list[str]:
    folder = read_course_folder(EXAMPLE, [], STRUCTURE_NAMES, structures_of_label)
    return [
        request.text for unit in folder.units for request in requests_of(readings_of(read_unit(unit)), folder.course)
    ]


def rows_of_the_whole_pipeline(nlp, words, spaces, starts):
    from spacy.tokens import Doc

    doc = nlp(Doc(nlp.vocab, words=words, spaces=spaces, sent_starts=starts))
    return [(t.lower_, t.lemma_, t.pos_, t.tag_, t.dep_, t.head.i - t.i) for t in doc]


def test_every_row_is_that_of_the_whole_pipeline(nlp):
    parser = Parser(load_model(MODEL))
    texts = list(dict.fromkeys((*OTHERS, *texts_of_the_example(), *OTHERS)))
    prepared = [prepare(text, Mode.TEXT, (), parser.tokenize) for text in texts]
    cut = [(one.words, one.spaces, one.starts) for one in prepared]
    wanted = [rows_of_the_whole_pipeline(nlp, *words) for words in cut]
    for _ in range(2):  # the second time, every word is known
        for text, rows, whole in zip(texts, parser.parse(cut), wanted, strict=True):
            assert [tuple(row) for row in rows] == whole, text


def test_a_model_that_is_built_otherwise_is_asked_for_everything(nlp):
    whole = importlib.import_module(MODEL).load(exclude=["ner", "lemmatizer"])
    (rows,) = Parser(whole).parse([(["Three", "cats", "sleep", "."], [True, True, False, False], [True] + [False] * 3)])
    assert [(row.lower, row.lemma, row.pos) for row in rows] == [
        ("three", "", "NUM"),
        ("cats", "", "NOUN"),
        ("sleep", "", "VERB"),
        (".", "", "PUNCT"),
    ]


def test_what_is_remembered_does_not_grow_without_end(nlp, monkeypatch):
    monkeypatch.setattr("lint_rules.language.parsing.parser._MOST", 3)
    parser = Parser(nlp)
    texts = [(["A", word, "sleeps", "."], [True] * 4, [True] + [False] * 3) for word in ("cat", "dog", "hen", "cat")]
    found = [[row.lemma for row in rows] for text in texts for rows in parser.parse([text])]
    assert found == [["a", word, "sleep", "."] for word in ("cat", "dog", "hen", "cat")]


def test_loading_a_model_leaves_the_command_line_of_spacy_out():
    code = (
        "import sys; from lint_rules.language.parsing.parser import load_model\n"
        f"nlp = load_model('{MODEL}')\n"
        "assert [t.lemma_ for t in nlp('Three cats sleep.')] == ['three', 'cat', 'sleep', '.']\n"
        "assert not {'spacy.cli', 'typer', 'httpx', 'requests'} & set(sys.modules), sorted(sys.modules)\n"
        "import spacy.cli.info\n"
        "assert spacy.info(silent=True)['spacy_version'] == spacy.__version__\n"
    )
    subprocess.run([sys.executable, "-c", code], check=True, timeout=120)
