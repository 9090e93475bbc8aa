"""The three rules about words: how much each word weighs, and what an author reads of it."""

from pathlib import Path

import pytest

from lint_rules.engine.example import assemble
from lint_rules.engine.registry import load_rules
from lint_rules.finding import Finding
from lint_rules.language.vocabulary.word_index import Origin
from lint_rules.language.vocabulary.word_level import WordLevel
from lint_rules.rule import Example
from lint_rules.unit_language.off_list import is_always_capital
from tests.support import run_files

HERE = Path(__file__).parent
NAMES = {"word-above-level", "word-before-taught", "unfamiliar-instruction-word"}
RULES = [module for module in load_rules() if module.rule.name in NAMES]
PRE_A1 = "levels:\n  - cefr: Pre-A1\n"


def findings(files: dict[str, str], language) -> list[Finding]:
    result = run_files(files, RULES, language)
    assert not result.broken
    return list(result.open)


def read(text: str, language, course: str = PRE_A1, **example: str) -> list[Finding]:
    return findings(assemble(Example(text, course=course, **example)).files, language)


def weights(text: str, language, course: str = PRE_A1, **example: str) -> dict[str, str]:
    return {finding.text: str(finding.severity) for finding in read(text, language, course, **example)}


@pytest.mark.parametrize("word", ["jellyfish", "hippo", "giraffe", "puppy", "pirate", "balloon", "snowman", "unicorn"])
def test_a_childs_concrete_word_is_no_more_than_a_note_in_a_first_course(word, language):
    assert weights(f"Look! I can see a {word}.\n", language).get(word, "note") == "note"


@pytest.mark.parametrize("word", ["triangle", "rectangle", "cube", "sphere", "metal", "plastic", "litre"])
def test_what_mathematics_and_science_name_in_the_first_two_years_stops_nobody(word, language):
    """Shapes, materials, measures: National curriculum in England, key stage 1 (2013); from memory."""
    assert weights(f"Look at the {word}.\n", language).get(word, "note") == "note"


@pytest.mark.parametrize(
    "sentence",
    ["The bear is sleepy.", "A duck can waddle and hop.", "The frog jumps and splashes.", "It is fluffy and yummy!"],
)
def test_childrens_verbs_and_adjectives_stop_nobody(sentence, language):
    assert "stop" not in weights(sentence + "\n", language).values()


@pytest.mark.parametrize(
    ("word", "sentence"),
    [
        ("Nevertheless", "Nevertheless, it is red."),
        ("economy", "The economy is big."),
        ("assistance", "He has assistance."),
        ("obtain", "I can obtain a dog."),
        ("development", "Look at the development."),
        ("photosynthesis", "This is photosynthesis."),
        ("furious", "The cat is furious."),
    ],
)
def test_an_advanced_word_is_a_stop_in_a_first_course(word, sentence, language):
    expected = "query" if word == "photosynthesis" else "stop"  # nobody has graded it: asked about, not stopped
    assert weights(sentence + "\n", language) == {word: expected}


def test_everyday_words_of_a_first_course_are_left_alone(language):
    page = """
This is my house. It's big and white. The door is red.

My mum and dad are in the kitchen. My sister has got a doll. It's on the chair.

- I like apples and bananas.
- He doesn't like milk.
- Can you swim? Yes, I can!
- Where's the ball? It's under the table.

Hello! What's your name? I'm seven. Happy birthday! Here you are. Thank you!

Splash! The fish jumps. "Woof, woof!" says the dog. "Miaow!" says the cat.
"""
    assert weights(page, language) == {}


@pytest.mark.parametrize(("policy", "weight"), [("stop", "stop"), ("query", "query"), ("note", "note")])
def test_a_course_can_settle_how_words_off_its_list_weigh(policy, weight, language):
    found = weights("The economy has a jellyfish.\n", language, PRE_A1 + f"off_list: {policy}\n")
    assert found == {"economy": weight, "jellyfish": weight}


@pytest.mark.parametrize(
    "picture",
    [
        "![a big jellyfish](art/one.svg){.drawing}",
        "![](art/two-jellyfish.svg){.drawing}",
        "::: art\ndrawing: three jellyfish in the sea\n:::",
    ],
)
def test_a_picture_in_the_same_activity_carries_a_concrete_word(picture, language):
    course = PRE_A1 + "off_list: picture\n"
    assert weights(f"{picture}\n\nThis is a jellyfish.\n", language, course) == {}
    assert weights(f"{picture}\n\nThis is the economy.\n", language, course) == {"economy": "stop"}
    elsewhere = f"### 1 Look. {{.words}}\n\n{picture}\n\n### 2 Read. {{.reading}}\n\nThis is a jellyfish.\n"
    assert set(weights(elsewhere, language, course)) == {"jellyfish"}


def test_the_lists_word_of_a_later_level_is_a_stop_whatever_the_policy(language):
    found = weights(
        "I can see a volcano.\n", language, "off_list: note\n", words="cat,noun,,1\n", later_words="volcano,noun,,1\n"
    )
    assert found == {"volcano": "stop"}


def test_a_spelling_that_children_know_as_another_part_of_speech_is_let_alone(language):
    assert read("Please document it.\n", language, words="document,noun,,1\n") == []


def test_a_spelling_that_a_later_level_teaches_as_another_part_of_speech_is_at_most_a_query(language):
    found = weights("Please document it.\n", language, words="cat,noun,,1\n", later_words="document,noun,,1\n")
    assert set(found.values()) <= {"query", "note"}


CRIES = "Tac tac tac!|Whoo, whoo, whoo!|Pitter patter!|Hip hooray!|Vwomp!|Thud!|Tiddly om pom pom!|Wiggle waggle!"


@pytest.mark.parametrize("cry", CRIES.split("|"))
def test_noises_are_no_words_above_the_level(cry, language):
    assert read(f"Look at the cat. {cry}\n", language) == []


def test_a_word_said_again_and_again_is_still_a_word(language):
    assert set(weights("The economy, the economy! Evaluate, evaluate, evaluate!\n", language)) == {
        "economy",
        "Evaluate",
    }


def test_a_misspelt_cry_is_no_noise(language):
    assert weights("Look at the cat. I can see it. beutiful!\n", language, words="beautiful,adjective,,1\n") == {
        "beutiful": "query"
    }


@pytest.mark.parametrize(
    ("text", "always"), [("Ana has a banana.", True), ("Ana has an apple.", True), ("Ana is an ana.", False)]
)
def test_a_name_is_no_part_of_a_longer_word(text, always):
    assert is_always_capital(WordLevel(0, 3, "Ana", "Ana", "noun", Origin.NAME), text) == always


def test_a_name_in_capitals_and_a_word_in_lower_case_are_two_things(language):
    page = "This is the Tall Kettle. It's a boat. Look at the kettle!\n"
    assert weights(page, language, later_words="kettle,noun,home,1\n") == {"kettle": "stop"}


@pytest.mark.parametrize("line", ["**The volcano**\n", "#### The volcano\n", "A volcano (a hill with a fire in it).\n"])
def test_titles_and_words_that_are_explained_stop_nobody(line, language):
    assert weights(f"{line}\nA cat.\n", language, later_words="volcano,noun,,1\n") == {"volcano": "query"}


def test_a_word_is_told_once_in_an_activity_with_its_count(language):
    found = read("The economy is big. I like the economy.\n\nThe economy!\n", language)
    assert [finding.text for finding in found] == ["economy"]
    assert "(3 times here)" in found[0].message


def test_a_note_is_told_once_in_a_unit(language):
    text = "### 1 Look. {.words}\n\nA hippo.\n\n### 2 Read. {.reading}\n\nThe hippo is big.\n"
    assert [finding.text for finding in read(text, language)] == ["hippo"]


def test_an_instruction_and_its_activity_are_read_by_different_rules(language):
    found = read("### 1 Evaluate the economy. {.reading}\n\nThe economy is big.\n", language)
    assert [(finding.rule, finding.text) for finding in found] == [
        ("unfamiliar-instruction-word", "Evaluate"),
        ("unfamiliar-instruction-word", "economy"),
        ("word-above-level", "economy"),
    ]


RUBRICS = [line for line in (HERE / "rubrics.txt").read_text(encoding="utf-8").splitlines() if line[0] != "#"]


def test_the_usual_instructions_are_left_alone(language):
    page = "".join(f"### {number} {line} {{.game}}\n\nA cat.\n\n" for number, line in enumerate(RUBRICS, start=1))
    assert weights(page, language) == {}


def test_an_instruction_with_a_word_of_a_later_level(language):
    (finding,) = read("### 1 Draw the volcano. {.make}\n\nA cat.\n", language, "", later_words="volcano,noun,,1\n")
    assert finding.message.startswith("“volcano” in an instruction: level-2 teaches it, and level-1 does not.")


def test_titles_and_songs_stop_nobody(language):
    titles = "## Lesson 1: The economy {.words}\n\n### 1 Sing. {.song}\n\nTwinkle, furious star!\n"
    assert set(weights(titles, language).values()) <= {"query", "note"}


def test_a_word_that_the_unit_presents_is_its_own_business(language):
    assert weights("::: words\neconomy, harbour\n:::\n\nThe economy! The harbour!\n", language) == {}
    assert weights("::: teacher\n**Words:** economy\n:::\n\nThe economy!\n", language) == {}


def test_messages_claim_no_more_than_is_known(language):
    by_text = {finding.text: finding.message for finding in read("A hippo, an economy and a selfie.\n", language)}
    assert "C2" not in by_text["hippo"]  # the reference has not graded it
    assert "a general reference puts it at B1; level-1 is Pre-A1" in by_text["economy"]
    assert "no reference grades it" in by_text["selfie"]
    assert "words/level-1.csv" in by_text["economy"]


def test_words_of_the_course_that_could_serve_are_offered(language):
    words = "big,adjective,size,1\nbag,noun,things,1\n"
    (enormous, rucksack) = read("An enormous rucksack.\n", language, words=words)
    assert "“big”" in enormous.message
    assert "“bag”" in rucksack.message
    (none,) = read("It's enormous.\n", language, words="bag,noun,things,1\n")
    assert "Say “" not in none.message


def test_the_messages_on_a_draft(language):
    """Golden: what an author reads of a draft that is far above its level. To be read by people."""
    draft = HERE / "draft"
    files = {str(path.relative_to(draft)): path.read_text(encoding="utf-8") for path in draft.rglob("*.*")}
    told = [
        f"{finding.severity}, line {finding.start.line}: {finding.message}" for finding in findings(files, language)
    ]
    assert "\n".join(told) + "\n" == (HERE / "messages.txt").read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("script", "told"),
    [
        ("TOM: Gadd. That's G, A, double D.", []),
        ("TOM: Vozz. It's V, O, Z, Z.", []),
        ("TOM: Gadd. That's V, O, Z.", ["Gadd"]),
        ("TOM: Gadd. Look!", ["Gadd"]),
    ],
)
def test_what_is_spelt_out_is_a_name(script, told, language):
    page = f"### 1 Listen. {{.listening audio=1.1}}\n\n::: {{.audio track=1.1}}\n{script}\n:::\n"
    assert [one.text for one in read(page, language) if one.text in ("Gadd", "Vozz")] == told


def test_a_listed_word_is_known_by_its_plural_whatever_the_parser_takes_it_for(language):
    page = "Nube is big. The other llamas ____ (follow) her.\n\n- [ ] tortillas / ten cents\n"
    found = read(page, language, words="llama,noun,animals,1\ntortilla,noun,food,1\n")
    assert not {one.text for one in found} & {"llamas", "tortillas"}
