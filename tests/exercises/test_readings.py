# ruff: noqa: E501 - each row is one exercise
"""What a child ends up reading of an exercise, and where in the file each word of it is found."""

import pytest

from lint_rules.manuscript.model import Passage, Role
from lint_rules.page.readings import Readings, readings_of
from tests.exercises.measure import exercises
from tests.exercises.test_layouts import ACTIVITY, unit_of


def read(page: str, heading: str = ACTIVITY) -> Readings:
    return readings_of(unit_of(heading + page))


def page_of(readings: Readings) -> list[Passage]:
    (activity,) = readings.done.activities
    return [passage for passage in activity.part.passages if passage.audience.value == "pupil"]


def key(text: str) -> str:
    return f"\n::: answers\n{text}\n:::\n"


@pytest.mark.parametrize(
    ("page", "sentences"),
    [
        ("1. The kite ____ red.\n2. The kites ____ blue.\n" + key("1 is 2 are"), ["The kite is red.", "The kites are blue."]),
        ("1. We *is / are* here.\n2. I (am / is) seven.\n" + key("1 are 2 am"), ["We are here.", "I am seven."]),
        ("1. She … a cat.  a) have  b) has\n2. I … a dog.  a) have  b) has\n" + key("1 b 2 a"), ["She has a cat.", "I have a dog."]),
        ("1 g\\_\\_t   2 sh\\_\\_p\n" + key("1 goat 2 sheep"), ["goat", "sheep"]),
        ("1. m____n\n2. tr____\n" + key("1 oo 2 ee"), ["moon", "tree"]),
        ("1 has / a / dog / Mina\n2 you / do / swim / ?\n" + key("1 Mina has a dog.\n2 Do you swim?"), ["Mina has a dog.", "Do you swim?"]),
        ("1. If it rains,\n2. When I sing,\n\na) my dog sings.  b) we stay in.\n" + key("1 b 2 a"), ["If it rains, we stay in.", "When I sing, my dog sings."]),
        ("1. It is red. ____\n2. It is blue. ____\n" + key("1 T 2 F"), ["It is red.", "It is blue."]),
        ("1. The sky is red ____\n2. The sky is blue ____\n" + key("1 false 2 true"), ["The sky is red", "The sky is blue"]),
        ("1. The cork floats ____\n2. The stone floats ____\n" + key("1 tick 2 cross"), ["The cork floats", "The stone floats"]),
        ("I live (1) ____ a house. My bed (2) ____ red.\n" + key("1 in 2 is"), ["I live in a house. My bed is red."]),
        ("1. An eagle is ____ than a duck. (big)\n2. A bus is ____ than a car. (long)\n" + key("1 bigger 2 longer"), ["An eagle is bigger than a duck.", "A bus is longer than a car."]),
    ],
)  # fmt: skip
def test_an_item_is_read_as_its_key_completes_it(page, sentences):
    found = read(page)
    assert [p.text for p in page_of(found) if p.role is not Role.OPTION and p not in found.unchecked] == sentences


def test_what_stands_in_a_blank_is_found_at_the_blank():
    found = read("1. The kite is ____ the tree.\n2. The dog is ____ the box.\n" + key("1 behind 2 in"))
    first = page_of(found)[0]
    at = first.text.index("behind")
    assert found.unit.source.slice(first.span(at, at + len("behind"))) == "____"
    tree = first.text.index("tree")
    assert found.unit.source.slice(first.span(tree, tree + len("tree"))) == "tree"


def test_one_word_and_a_blank_are_two_words_and_no_sentence():
    found = read("1. build ____\n2. carry ____\n" + key("1 built 2 carried"))
    assert [passage.text for passage in page_of(found)] == ["build", "built", "carry", "carried"]
    found = read("1. two ____\n2. an ____\n" + key("1 mice 2 owl"))
    assert [passage.text for passage in page_of(found)] == ["two mice", "an owl"]


def test_the_head_of_the_next_part_is_no_answer():
    page = (
        "**A Write *am* or *are*.**\n\n1. I ____ here.\n2. You ____ late.\n\n"
        "**B Circle.**\n\n1. It is *Ann / Ann's*.\n2. *Whose / Who* are you?\n\n"
        "**C Write the time.**\n\n1. It's ____.\n2. Now it's ____.\n"
    )
    answers = "A\n1 am\n2 are\nB\n1 Ann's\n2 Who\nC\n1 noon\n2 late"
    found = [passage.text for passage in page_of(read(page + key(answers))) if passage.role is Role.ITEM]
    assert found == ["I am here.", "You are late.", "It is Ann's.", "Who are you?", "It's noon.", "Now it's late."]


def test_each_option_is_read_on_its_own_and_not_held_against_grammar():
    found = read(
        "1. She … a cat.  a) have  b) has  c) having\n2. I … a dog.  a) have  b) has  c) am\n" + key("1 b 2 a")
    )
    apart = [passage for passage in page_of(found) if passage.role is Role.OPTION]
    assert [passage.text for passage in apart] == ["have", "having", "has", "am"]
    assert all(passage in found.unchecked for passage in apart)


def test_without_a_key_the_first_option_stands_in_and_proves_nothing():
    found = read("1. Circle the word: The kite *are / is* red.\n2. The dog *is / are* big.\n")
    assert [(p.text, p in found.unchecked) for p in page_of(found) if p.role is not Role.OPTION] == [
        ("Circle the word: The kite are red.", True),
        ("The dog is big.", True),
    ]


def test_a_mistake_is_read_with_the_words_that_the_key_has_for_the_wrong_ones():
    heading = "### 1 Find the mistakes. {.mistakes}\n\n"
    page = "1. She were here.\n2. We walks.\n3. He was was ill.\n4. I seed it.\n"
    found = read(page + key("1 were: was; 2 walks → walk; 3 was: is; 4 go: went"), heading)
    assert [passage.text for passage in page_of(found)] == ["She was here.", "We walk."]
    assert found.unit.source.slice(page_of(found)[0].span(4, 7)) == "were"


def test_a_mistake_is_read_as_the_key_corrects_it():
    heading = "### 1 Find the mistakes. {.mistakes}\n\n"
    found = read("1. He don't like tea.\n2. I has a dog.\n" + key("1. He doesn't like tea.\n2. has – have"), heading)
    assert [p.text for p in page_of(found)] == ["He doesn't like tea."]


def test_prose_is_read_as_it_stands():
    found = read("Mina has a kite. It is red.\n\nThe sea is blue.\n")
    assert page_of(found) == [p for a in found.unit.activities for p in a.part.passages]


@pytest.mark.parametrize("one", list(exercises("tuned")), ids=lambda one: one.id)
def test_every_word_that_is_read_has_its_place_in_the_file(one):
    found = readings_of(unit_of(one.activity))
    size = len(found.unit.source.text)
    for passage in found.done.passages:
        assert len(passage.text) == len(passage.starts) == len(passage.ends)
        for at in range(len(passage.text)):
            assert 0 <= passage.starts[at] < passage.ends[at] <= size


@pytest.mark.parametrize(
    ("page", "answers", "sentence"),
    [
        pytest.param("We like ____.", "cake.", "We like cake.", id="one full stop"),
        pytest.param("Is it a ____?", "cake.", "Is it a cake?", id="the mark of the sentence"),
        pytest.param("I have a ____, and a dog.", "cat.", "I have a cat, and a dog.", id="no full stop in the middle"),
        pytest.param("I see a cat.____ is here.", "it", "I see a cat. It is here.", id="a space and a capital"),
        pytest.param("____ you swim?", "can", "Can you swim?", id="a capital where a sentence begins"),
        pytest.param("Yes,____ can.", "I", "Yes, I can.", id="a space after a comma"),
        pytest.param(
            "The kite ____ red and ____ .", "is, big", "The kite is red and big.", id="no space before a mark"
        ),
        pytest.param("The kite ____ red.", "The kite is red.", "The kite is red.", id="a key of whole sentences"),
        pytest.param("The ____ is ____.", "The kite is red.", "The kite is red.", id="two blanks in a whole sentence"),
        pytest.param(
            "The kite ____ (be) red.", "The kite is red.", "The kite is red.", id="a hint in a whole sentence"
        ),
    ],
)
def test_an_answer_stands_in_its_sentence_as_a_child_writes_it(page, answers, sentence):
    found = read(f"1. {page}\n2. {page}\n" + key(f"1 {answers}\n2 {answers}"))
    assert [passage.text for passage in page_of(found) if passage.role is not Role.OPTION] == [sentence, sentence]


def test_a_sentence_whose_letters_no_key_gives_is_not_checked_without_its_words():
    found = read("There's a m____se in a h____se.\n", "### 1 Write ou or ow. Then sing. {.song .writing}\n\n")
    assert [
        passage.text for passage in page_of(found) if passage not in found.unchecked and "There" in passage.text
    ] == []


def test_a_first_letter_behind_what_a_word_means_is_no_article():
    page = "1. It shows the way. a ____\n2. Bats live in it. c ____\n" + key("1 arrow\n2 cave")
    texts = [passage.text for passage in page_of(read(page))]
    assert "arrow" in " ".join(texts).casefold()
    assert not any("a arrow" in text for text in texts)


def test_an_option_that_is_a_sentence_is_read_as_one_and_a_word_is_not():
    found = read("1. Do you sing?\n   a) Yes, I do.\n   b) Yes.\n   c) blue\n   d) No!\n   e) Can I?\n" + key("1 a"))
    roles = {passage.text: passage.role for passage in page_of(found)}
    assert {text for text, role in roles.items() if role is Role.OPTION} >= {"Yes.", "blue", "No!"}
    assert {text for text, role in roles.items() if role is Role.ITEM} >= {"Yes, I do.", "Can I?"}
