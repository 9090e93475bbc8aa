"""What a text asks of a child, against what does not come from hornbook: graded stories and plain counts."""

import json
import re
import time
from itertools import pairwise
from pathlib import Path

import pytest

from lint_rules.course.model import CEFR_BANDS
from lint_rules.language.vocabulary.which_language import other_language
from lint_rules.reports.level_page import run_level
from tests.words.course import course

HERE = Path(__file__).parent
STORIES = sorted((HERE / "stories").glob("*.txt"))


def page_of(text: str, language, **kwargs) -> list[str]:
    return run_level(text, language, lines=False, as_json=False, **kwargs).splitlines()


def marked(page: list[str]) -> list[str]:
    """The words above the marks of a page."""
    found = []
    for above, marks in pairwise(page):
        if marks.strip() and not marks.strip(" ~"):
            found += [above[match.start() : match.end()] for match in re.finditer("~+", marks)]
    return found


@pytest.mark.parametrize("path", STORIES, ids=[path.stem for path in STORIES])
def test_the_page_is_the_text_itself(path, language):
    text = path.read_text(encoding="utf-8")
    page = page_of(text, language)
    rows = [row[6:] for row in page[2 : page.index("Structures")] if row[:6].strip().isdigit() or row[6:7] not in " ~"]
    assert " ".join(" ".join(rows).split()) == " ".join(text.split())
    words, sentences = map(int, re.match(r"(\d+) words in (\d+) sentences", page[0]).groups())
    assert words == len(re.findall(r"[^\W_]+(?:['’-][^\W_]+)*", text))
    assert sentences == sum(row[:6].strip().isdigit() for row in page[2:])
    assert words == sum(int(row[:6]) for row in page[2:] if row[:6].strip().isdigit())


def test_what_asks_most_is_marked_and_explained(language):
    text = "I like cats.\nNevertheless, the economy had grown, and I like dogs.\nThe economy is big.\n"
    page = page_of(text, language)
    assert {"economy", "Nevertheless", "had grown"} <= set(marked(page))
    assert not {"cats", "dogs", "big", "like"} & set(" ".join(marked(page)).split())
    assert sum("“economy”, a word of B1" in row for row in page) == 1, "explained where it comes first"
    assert any("past perfect" in row for row in page)


def test_an_easy_text_has_no_marks(language):
    page = page_of("I like cats. The dog is big.\n", language)
    assert marked(page) == []
    assert "Nothing in it is marked." in page


def test_in_a_course_its_level_says_what_is_marked(language):
    one = course()
    text = "A volcano! I can see a cat and a dog and a hen and a fish and a bird and a cow.\n"
    page = page_of(text, language, course=one, level=one.levels[0])
    assert "volcano" in marked(page)
    assert any("“volcano”, taught in level-2" in row for row in page)
    assert any("a sentence of level-1 has up to" in row for row in page)
    assert "volcano" not in marked(page_of(text, language, course=one, level=one.levels[1]))


# Sentences of our own, for a language each; none was used to set a figure.
FOREIGN = [
    ("Der Hund spielt im Garten und die Katze schläft auf dem Sofa.", "German"),
    ("Le chat dort sur le canapé et le chien joue dans le jardin.", "French"),
    ("El perro juega en el jardín y el gato duerme.", "Spanish"),
    ("Kot śpi na kanapie, a pies bawi się w ogrodzie.", "Polish"),
    ("Kedi kanepede uyuyor ve köpek bahçede oynuyor.", "Turkish"),
    ("De hond speelt in de tuin en de kat slaapt.", "Dutch"),
    ("Собака играет в саду, а кошка спит.", "another script"),
]
ENGLISH = [
    "Zofi, Bram, Rafi and Dot!",
    "Squeak, squeak, squeak, squeak!",
    "pizza, robot, taxi, hotel, piano",
    "aardvark, wombat, quokka, echidna",
    "I like gelato, spaghetti and tiramisu.",
    "Splish splash splosh! Zip zap zoom!",
    "Guten Tag!",
    "",
]


@pytest.mark.parametrize(("text", "name"), FOREIGN)
def test_a_text_that_is_not_english_is_said_to_be_so(text, name, language):
    page = page_of(text, language)
    assert len(page) == 1
    assert page[0].startswith("This text is not English.")
    assert name in page[0]
    assert json.loads(run_level(text, language, lines=False, as_json=True))["english"] is False


@pytest.mark.parametrize("text", [*ENGLISH, *(path.read_text(encoding="utf-8") for path in STORIES)])
def test_names_noises_and_loan_words_are_no_other_language(text):
    assert other_language(text) == ""


def test_a_passage_in_another_language_is_pointed_out(language):
    english = "The dog is in the garden. It is a big dog and it likes to play with the cat.\n" * 3
    page = page_of(english + FOREIGN[0][0] + "\n", language)
    assert sum("not English? it looks like German" in row for row in page) == 1


def test_graded_stories_are_within_a_band_of_theirs(language):
    """Six stories written to a band each, by a hand that did not write the program."""
    assert len(STORIES) == 6
    for path in STORIES:
        band = "Pre-A1" if path.name.startswith("pre_a1") else path.name[:2].upper()
        said = json.loads(run_level(path.read_text(encoding="utf-8"), language, lines=False, as_json=True))
        assert abs(CEFR_BANDS.index(said["cefr"]) - CEFR_BANDS.index(band)) <= 1, (path.name, said["cefr"])


def test_one_object_a_line_with_the_agreed_keys(language):
    text = "The kite is flying.\n\nNevertheless, we've got two cats.\n   \n____\n"
    rows = [json.loads(row) for row in run_level(text, language, lines=True, as_json=True).splitlines()]
    assert len(rows) == 5
    for row in rows:
        assert list(row) == ["structures", "words", "cefr", "english"]
        assert row["cefr"] in CEFR_BANDS
        assert all(list(item) == ["name", "start", "end"] for item in row["structures"])
        assert all(list(word) == ["text", "lemma", "part_of_speech", "level", "source"] for word in row["words"])
    assert {"name": "present-continuous", "start": 9, "end": 18} in rows[0]["structures"]
    kite = {"text": "kite", "lemma": "kite", "part_of_speech": "noun", "level": "A1", "source": "cefrpy"}
    assert kite in rows[0]["words"]
    for empty in (rows[1], rows[3], rows[4]):
        assert (empty["structures"], empty["words"], empty["cefr"], empty["english"]) == ([], [], "Pre-A1", True)


@pytest.mark.parametrize(
    ("text", "count"), [("", 0), ("\n", 1), ("Hello!", 1), ("Hello!\n", 1), ("a\r\nb\r\n", 2), ("a\u2028b\n", 1)]
)
def test_lines_of_the_input_are_lines_of_the_output(text, count, language):
    assert len(run_level(text, language, lines=True, as_json=True).splitlines()) == count


def test_a_course_says_which_of_its_levels_teaches_a_word(language):
    row = json.loads(run_level("A volcano!", language, lines=True, as_json=True, course=course()))
    words = {word["text"]: (word["level"], word["source"]) for word in row["words"]}
    assert words["volcano"] == ("level-2", "course")


@pytest.mark.parametrize("text", ["", "\n \n", "____\n"])
def test_no_text_is_said_plainly(text, language):
    assert page_of(text, language) == ["There is no text to read."]


def test_thousands_of_lines_are_read_in_seconds(language):
    text = "".join(f"The little dog is looking for its ball under table {number}.\n" for number in range(2000))
    start = time.perf_counter()
    assert len(run_level(text, language, lines=True, as_json=True).splitlines()) == 2000
    assert time.perf_counter() - start < 60  # about 4 s on two quiet cores
