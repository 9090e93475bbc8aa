"""A meeting is what children read, hear, say or write, wherever it stands; and what they do not see is none."""

import pytest

from lint_rules.engine.example import assemble
from lint_rules.engine.registry import load_rules
from lint_rules.rule import Example
from tests.support import run_files

UNIT = """\
## Lesson 1: Look {{.words}}

### 1 Look.

{first}

## Lesson 2: Again {{.story}}

{later}
"""
COURSE = "characters: [Granny Wick]\nlevels:\n  - recycle: 1\n    units: 1\n"


def found(language, words, first, later):
    example = Example(UNIT.format(first=first, later=later), words=words, course=COURSE)
    return [(one.rule, one.message) for one in run_files(assemble(example).files, load_rules(), language).open]


MET = [
    pytest.param("kite,noun,,1\n", "A kite!", "### 1 Colour the kite.", id="an instruction"),
    pytest.param(
        "kite,noun,,1\n", "A kite!", "### 1 Read. {.picture-sentence}\n\nMy ![kite](k.svg) is red.", id="a picture"
    ),
    pytest.param("kite,noun,,1\n", "A kite!", "### 1 Look.\n\n![a red kite](k.svg)", id="a picture of one thing"),
    pytest.param("granny,noun,,1\n", "My granny!", "### 1 Read.\n\n‘Six?’ says Granny.", id="a name"),
    pytest.param("name,noun,,1\n", "My name!", "### 1 Say.\n\nWhat's your name?", id="a set phrase"),
    pytest.param("boots,noun,,1\n", "My boots!", "### 1 Read.\n\nThere is a cat in my boot.", id="one of a pair"),
    pytest.param("clap,verb,,1\n", "I clap.", "### 1 Say.\n\nClap, clap, clap!", id="a chant"),
    pytest.param("kite,noun,,1\n", "A kite!", "### 1 Write. {.test}\n\n::: answers\n1 kite\n:::", id="an answer"),
    pytest.param("kite,noun,,1\n", "A kite!", "### 1 Write.\n\n::: answers\n1 kite\n:::", id="an answer, in no test"),
    pytest.param(
        "kite,noun,,1\n",
        "A kite!\n\n::: {.audio track=1.1}\nMINA: A kite!\n:::",
        "### 1 Sing it again. {.song audio=1.1}",
        id="a track that is played again",
    ),
]
NOT_MET = [
    pytest.param("kite,noun,,1\n", "A kite!", "### 1 Look.\n\n::: teacher\n**Steps:** Show a kite.\n:::", id="notes"),
    pytest.param("kite,noun,,1\n", "A kite!", "### 1 Look.\n\n::: art\nDrawing: a girl and a kite\n:::", id="a brief"),
    pytest.param("kite,noun,,1\n", "A kite!", "### 1 Look.\n\n![a girl with a kite](k.svg)", id="a part of a picture"),
    pytest.param("May,noun,,1\n", "It is May.", "### 1 Read.\n\nYou may sit.", id="another word without its capital"),
    pytest.param("kite,noun,,1\n", "A kite!", "### 1 Read.\n\nA kitten!", id="another word"),
    pytest.param(
        "kite,noun,,1\n",
        "A kite!\n\n::: {.audio track=1.1}\nMINA: A hat!\n:::",
        "### 1 Sing it again. {.song audio=1.1}",
        id="a track without it",
    ),
]


@pytest.mark.parametrize(("words", "first", "later"), MET)
def test_a_meeting(language, words, first, later):
    assert "word-not-recycled" not in dict(found(language, words, first, later))


@pytest.mark.parametrize(("words", "first", "later"), NOT_MET)
def test_no_meeting(language, words, first, later):
    assert "word-not-recycled" in dict(found(language, words, first, later))


def test_an_instruction_teaches_a_word_of_instructions_and_no_other(language):
    words = "circle,verb,,1\nbuy,verb,,1\n"
    said = dict(found(language, words, "A kite!", "### 1 Circle what they buy."))
    assert "“buy”" in said["target-word-not-taught"]
    assert "“circle”" not in said["target-word-not-taught"]


def test_the_art_of_a_test_asks_for_its_words(language):
    later = "### 1 Tell the story. {.test .speaking}\n\n::: art\nDrawing: a big wave comes\n:::"
    assert "word-not-tested" not in dict(found(language, "wave,noun,,1\n", "A wave!", later))


def test_a_level_is_named_with_its_unit(language):
    words = "kite,noun,,1\n"
    more = "\n\n## Lesson 3: More {.story}\n\n### 1 Look.\n\n## Lesson 4: More {.story}\n\n### 1 Look."
    later = "### 1 Read.\n\nA kite!" + more
    example = Example(
        UNIT.format(first="A kite!", later=later), words=words, course="levels:\n  - recycle: 2\n    units: 1\n"
    )
    said = {one.rule: one.message for one in run_files(assemble(example).files, load_rules(), language).open}
    assert "(level-1 unit 1 lesson 2)" in said["word-not-recycled"]
