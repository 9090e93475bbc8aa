"""Which structures count as met in a unit: what children read and hear, and nothing that only looks like it."""

import pytest

from lint_rules.language.service import Request
from lint_rules.language.tokens import Mode
from lint_rules.manuscript.reading import read_unit
from lint_rules.source import Source
from lint_rules.unit_language.grammar_uses import SHORT_ANSWER, grammar_uses, is_carried

HEAD = "---\nlevel: level-1\nunit: 1\ntitle: Unit\n---\n\n# Unit\n\n"


def places(language, text):
    def analyse(passage):
        mode = Mode.INSTRUCTION if passage.role.value == "instruction" else Mode.TEXT
        return language.analyse([Request(passage.text, mode)])[0]

    return list(grammar_uses(read_unit(Source("level-1/unit-01.md", HEAD + text)), analyse))


def met(language, page, kinds=""):
    """The structures of one activity with the words that show them, but for those of its instruction."""
    (*_, place) = places(language, f"## Lesson 1: Look\n\n### 1 Read.{kinds}\n\n{page}\n")
    return [(use.structure.name, use.text) for use in place.uses if not use.in_instruction]


@pytest.mark.parametrize(
    ("page", "found"),
    [
        pytest.param("I can swim.", [("can", "can swim")], id="a page"),
        pytest.param("- I can swim.\n- Kit can run.", [("can", "can swim"), ("can", "can run")], id="items"),
        pytest.param("1. I can swim", [("can", "can swim")], id="an item of three words without a full stop"),
        pytest.param("1. Run!", [("imperative", "Run")], id="an item of one word that is a sentence"),
        pytest.param("1. I swim", [], id="an item of two words is no sentence"),
        pytest.param("1. I swim, run, can", [], id="a row of words"),
        pytest.param("1. can run / can swim / can fly", [], id="a row of options"),
        pytest.param(
            "| I can swim. | red |\n|---|---|\n| He can run. | blue |",
            [("can", "can swim"), ("can", "can run")],
            id="a table",
        ),
        pytest.param("::: {.audio track=1.1}\nZOFI: I can swim.\n:::", [("can", "can swim")], id="a script"),
        pytest.param("::: teacher\n**Steps:** They can swim.\n:::", [], id="notes"),
        pytest.param("::: answers\n1 I can swim.\n:::", [], id="a key"),
        pytest.param("::: words\nI can swim.\n:::", [], id="a panel"),
        pytest.param("![I can swim.](swim.svg)", [], id="what a picture shows"),
        pytest.param("Hello! How are you? What's your name?", [], id="set phrases"),
        pytest.param("How are you today, Kit? I can swim.", [("can", "can swim")], id="a set phrase and more"),
        pytest.param("Miss a turn.", [("imperative", "Miss")], id="a word that is also a greeting's"),
        pytest.param("Listen for *jumped, walked, played*.", [("imperative", "Listen")], id="words told as words"),
        pytest.param("The forms: is – was", [], id="forms side by side"),
        pytest.param("These fit: **has**, **hasn't**, **has got**.", [], id="forms in bold, one by one"),
        pytest.param(
            "I **have** always **liked** it.", [("present-perfect", "have always liked")], id="a form in bold"
        ),
    ],
)
def test_what_children_read_and_hear(language, page, found):
    assert met(language, page) == found


@pytest.mark.parametrize(
    ("page", "found"),
    [
        ("Can you swim? Yes, I can.", ["Can you swim", "Can you swim"]),
        ("Can you swim? Yes, I can swim.", ["Can you swim", "Can you swim", "can swim"]),
        ("No, she hasn't. Kit can run.", ["can run"]),
        ("Oh no, it isn't!", []),
        ("No, it is not.", []),
        ("Yes, Grandma Bee does.", []),
        ("Yes, the cat is here.", ["is"]),
    ],
)
def test_a_short_answer_shows_nothing_of_its_own(language, page, found):
    assert [words for _, words in met(language, page)] == found


@pytest.mark.parametrize(
    "text", ["Yes, I am.", "no, they weren’t", "Sorry, I can't.", "She does.", "No, Bee won’t.", "Yes, my mum has."]
)
def test_short_answers(text):
    assert SHORT_ANSWER.fullmatch(text)


@pytest.mark.parametrize("text", ["Yes, I am here.", "Yes!", "Is she?", "Can Kit", "Yes, my very old mum does."])
def test_no_short_answers(text):
    assert not SHORT_ANSWER.fullmatch(text)


@pytest.mark.parametrize(
    ("page", "found"),
    [
        ("I've ____ a kite.", []),
        ("She isn't ____ now.", []),
        ("____ you got a kite?", []),
        ("____ Dad row a boat?", []),
        ("Kit is not ____ now.", []),
        ("____. The dog runs.", ["runs"]),
        ("The dog runs ____.", ["runs"]),
        ("Kit can run to ____.", ["can run"]),
        ("____ and his two old dogs. He runs.", ["runs"]),
        ("She is ____ to the zoo.", []),
        ("They are ____.", []),
        ("Kit has ____ two dogs.", []),
    ],
)
def test_a_verb_whose_rest_may_be_in_a_gap_is_not_judged(language, page, found):
    assert [words for _, words in met(language, page)] == found


@pytest.mark.parametrize(
    ("kinds", "found"),
    [
        ("", ["can swim", "runs"]),
        (" {.story}", ["can swim", "runs"]),
        (" {.mistakes}", []),
        (" {.odd-one-out}", ["runs"]),
        (" {.mind-map}", ["runs"]),
        (" {.sounds}", ["runs"]),
    ],
)
def test_what_is_written_to_be_wrong_or_to_be_a_word_is_not_read(language, kinds, found):
    assert [words for _, words in met(language, "1. I can swim.\n\nThe dog runs.", kinds)] == found


def test_in_a_search_for_mistakes_the_instruction_is_read(language):
    (*_, place) = places(language, "## Lesson 1: Look\n\n### 1 Find what is wrong. {.mistakes}\n\nKit run.\n")
    assert ("imperative", "Find") in [(use.structure.name, use.text) for use in place.uses if use.in_instruction]


def test_stage_directions_are_not_heard(language):
    page = "::: {.audio track=1.1}\nZOFI: (She is running.) I can swim. [He jumps.]\n:::"
    assert met(language, page) == [("can", "can swim")]


BOOK = """\
I can swim.

### 1 Look. {.reading}

I can run.

## Lesson 1: Kit is here {.story}

I can jump.

### 1 Look. {.song}

I can sing.

### 2 Look. {.reading .test}

I can write.

## Lesson 2: Kit can {.test}

I can hop.

### 1 Look.

I can fly.
"""


def test_a_unit_is_met_place_by_place_and_a_test_is_told(language):
    found = [
        ([use.text for use in place.uses if "I" in use.passage.text], place.is_test) for place in places(language, BOOK)
    ]
    assert found == [
        (["can swim"], False),
        (["can run"], False),
        (["can jump"], False),
        (["can sing"], False),
        (["can write"], True),
        (["can hop"], True),
        (["can fly"], True),
    ]


def test_a_use_knows_how_it_stands(language):
    uses = {use.text: use for place in places(language, BOOK) for use in place.uses}
    assert [words for words, use in uses.items() if use.sung] == ["can sing"]
    assert [words for words, use in uses.items() if use.in_title] == ["is"]
    assert {words for words, use in uses.items() if use.in_instruction} == {"Look"}
    text, start, end = uses["can run"].shown
    assert (text, text[start:end]) == ("I can run.", "can run")


def test_a_line_of_verse_is_sung(language):
    (*_, place) = places(
        language, "## Lesson 1: Look\n\n### 1 Look.\n\n::: song\nI can swim.\nThe dog runs.\n:::\n\nMum can fly.\n"
    )
    assert [use.text for use in place.uses if use.sung] == ["can swim", "runs"]


@pytest.mark.parametrize(
    ("page", "known", "carried"),
    [
        ("Can you swim?", {"can"}, {"yes-no-question"}),
        ("Can you swim?", set(), set()),
        ("Can you swim?", {"yes-no-question"}, set()),
        ("I run. Can you swim?", {"present-simple"}, set()),
        ("Can you swim? I run.", {"present-simple"}, set()),
        ("There is a cat.", set(), {"present-simple-be"}),
        ("The cat is here.", {"can", "there-is"}, set()),
        ("Kit can swim.", {"can"}, set()),
        ("Can you swim? The cat is here.", {"present-simple-be"}, set()),
    ],
)
def test_a_question_comes_with_its_verb_and_be_with_there_is(language, page, known, carried):
    (*_, place) = places(language, f"## Lesson 1: Look\n\n### 1 Read.\n\n{page}\n")
    uses = [use for use in place.uses if not use.in_instruction]
    assert {use.structure.name for use in uses if is_carried(use, known.__contains__)} == carried
