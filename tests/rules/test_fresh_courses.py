"""What the authors of fresh courses denied or shrugged at, and beside each what must still be found.

Each case is a rule, a manuscript as in the rules' examples, the words found there (all of them, in order) and their
weight.
"""

from dataclasses import dataclass, field

import pytest

from lint_rules.engine.example import assemble
from lint_rules.engine.registry import load_rules
from lint_rules.rule import Example
from tests.support import run_files


@dataclass(frozen=True)
class Case:
    rule: str
    text: str
    found: tuple[tuple[str, str], ...] = ()
    course: str = ""
    words: str = ""
    others: tuple[str, ...] = field(default=())
    points: int | None = None


A1, A2, B1 = (f"levels: [{{cefr: {band}}}]" for band in ("A1", "A2", "B1"))
_TABLE = "| | Regular | Irregular |\n|---|---|---|\n| + | I carried it. | She saw it. |\n"
_NOTES = "\n::: teacher\n**Words:** {}\n:::\n"

WORDS = [
    # a word that the notes explain, or that speaks in the scripts, is at most a note
    Case("word-above-level", "The narrator is here.\n", (("query", "narrator"),), A2),
    Case(
        "word-above-level",
        "The narrator is here.\n" + _NOTES.format("Tell the class that the *narrator* is the teller."),
        (("note", "narrator"),),
        A2,
    ),
    Case("word-above-level", "Where is the narrator?\n\n**Narrator:** It is cold.\n", (("note", "narrator"),), A2),
    # what only the key fills in may be misread: it stops nobody
    Case("word-above-level", "She is reluctant.\n", (("stop", "reluctant"),), A1),
    Case("word-above-level", "1. She is ____.\n\n::: answers\n1 reluctant\n:::\n", (("query", "reluctant"),), A1),
    Case("word-above-level", "1. The reluctant ____ runs.\n\n::: answers\n1 king\n:::\n", (("stop", "reluctant"),), A1),
    Case("word-above-level", "The narrator is here.\n" + _NOTES.format("Say *crew*."), (("query", "narrator"),), A2),
    # labels of a comic
    Case("word-above-level", "**Panel 1**\n\nA cat.\n\nWho is in Panel 2? Draw a panel.\n", (), A1),
    Case("word-above-level", "**Grammar panel 1.1** Two cats\n\nLook at the panel.\n", (), A2),
    Case("word-above-level", "Draw a panel of the comic.\n", (("query", "panel"),), A2),
    # a term of grammar in a table of grammar
    Case("word-above-level", f"::: pattern\n{_TABLE}:::\n", (), A2),
    Case("word-above-level", "His steps are irregular.\n", (("query", "irregular"),), A2),
    # hard: nobody grades it, and it is rare, long and made of no easier word
    Case("word-above-level", "The jetty is old and dilapidated.\n", (("stop", "dilapidated"),), A1, "jetty,noun,,1\n"),
    Case("word-above-level", "He gave a perfunctory smile.\n", (("stop", "perfunctory"),), B1, "smile,noun,,1\n"),
    Case("word-above-level", "The goat was nonchalant.\n", (("stop", "nonchalant"),), A2, "goat,noun,,1\n"),
    Case("word-above-level", "It was obstinately cold.\n", (("stop", "obstinately"),), A2),
    # easy: made of an easy word with a usual ending, or of two
    Case("word-above-level", "The baker has a cake.\n", (("note", "baker"),), A1, "bakery,noun,,1\n"),
    Case("word-above-level", "The baker has a cake.\n", (("query", "baker"),), A1),
    Case("word-above-level", "The ferryman is old.\n", (("note", "ferryman"),), B1, "ferry,noun,,1\n"),
    Case("word-above-level", "The rider is on the horse.\n", (("note", "rider"),), A2),
    Case("word-above-level", "Draw a timeline.\n", (), A2),
    Case(
        "word-above-level",
        "A wobbly, twinkling, multicoloured snowflake.\n",
        (("note", "wobbly"), ("query", "twinkling"), ("query", "multicoloured"), ("note", "snowflake")),
        A2,
    ),
    Case("word-above-level", "The orchard is near.\n", (("query", "orchard"),), A1),
    # short words of everyday English weigh a step less
    Case("word-above-level", "This is a knot. The van is here.\n", (("query", "knot"), ("note", "van")), A2),
    Case("word-above-level", "She sang gently.\n", (("stop", "gently"),), A2),
    Case("word-above-level", "The soldiers reluctantly left.\n", (("query", "reluctantly"),), A2, "soldier,noun,,1\n"),
    # the first of two words that are one thing; a usual first name
    Case("word-above-level", "It is upside down. The polar bears!\n", (("note", "upside"), ("note", "polar")), A1),
    Case("word-above-level", "Emma said that she was here.\n", (("note", "Emma"),), A1),
    # wrong on purpose
    Case("word-above-level", "### 1 Find the mistakes. {.mistakes}\n\n1. The beautifullest key.\n", (), A2),
    # a past form of an easy verb, a contraction that goes behind a name
    Case("word-above-level", "He ____ a cat.   A found   B finds   C find\n", (), A2),
    Case("word-above-level", "*'ve got · 's got*\n\nI ____ a cat.\n", (), A1),
    # a spelling that instructions use as a verb is a note
    Case("word-above-level", "Is it a carrot stick?\n", (("note", "stick"),), A1, "carrot,noun,,1\n"),
    Case("word-above-level", "It is a good grid.\n", (("query", "grid"),), A2),
]  # fmt: skip


def _unit(number: int, body: str) -> str:
    return (
        f"---\nlevel: level-1\nunit: {number}\ntitle: Unit {number}\n---\n\n# Unit {number}\n\n"
        f"## Lesson 1: Look {{.words}}\n\n{body}"
    )


_BREAD = "bread,noun,food,3\nstart,verb,,2\n"
_TEST = "### 2 Write the words. {.test .writing}\n\n1. Bread and cakes are here.\n"
_GAME = (
    "\n## Lesson 2: Test {.test}\n\n### 3 Read. {.test .reading}\n\nIt's a cat.\n\n### 4 Play. {.game}\n\n"
    "| START → | 1 Say three words. |\n|---|---|\n| **2** Bread! | **FINISH** |\n"
)

TESTS = [
    Case("unfamiliar-instruction-word", "### 1 Make a wind spinner. {.make}\n\nCut.\n", (), A1),
    Case("unfamiliar-instruction-word", "### 1 Read the ballad. {.reading}\n\nA cat.\n", (("note", "ballad"),), A1),
    # what the notes call new is a note
    Case(
        "word-before-taught",
        _unit(
            1, "### 1 Read. {.reading}\n\nI like bread.\n\n::: teacher\n**Steps:** New word: bread (show it).\n:::\n"
        ),
        (("note", "bread"),),
        words=_BREAD,
    ),
    # a label of the page may be named in an instruction
    Case("unfamiliar-instruction-word", "### 1 Read panels 1 to 3. {.reading}\n\nA cat.\n", (), A2),
    Case("unfamiliar-instruction-word", "### 1 Read the panel. {.reading}\n\nA cat.\n", (("note", "panel"),), A2),
    Case("unfamiliar-instruction-word", "### 1 Help the baker. {.reading}\n\nA cat.\n", (), A1, "bakery,noun,,1\n"),
    Case(
        "word-before-taught",
        _unit(1, "### 1 Read. {.reading}\n\n1. I like bread.\n"),
        (("query", "bread"), ("query", "bread")),
        words=_BREAD,
        others=(_unit(2, "### 1 Read. {.reading}\n\n1. More bread!\n"),),
        points=1,
    ),
    Case("test-beyond-unit", _unit(1, _TEST), (("note", "Bread"),), words=_BREAD),
    Case("test-beyond-unit", _unit(1, "### 1 Read. {.reading}\n\nA cat.\n" + _GAME), (), words=_BREAD),
]

_THIRD = "If Gus hadn't eaten our tickets, we would have got on."


def _taught(number: int, grammar: str, page: str) -> str:
    return (
        f"---\nlevel: level-1\nunit: {number}\ntitle: Unit {number}\ngrammar: ['{grammar}']\n---\n\n# Unit {number}\n\n"
        f"## Lesson 1: Look {{.words}}\n\n### 1 Read. {{.reading}}\n\n{page}"
    )


_SIMPLE = _taught(2, "present simple", "")
_SHE = _taught(2, "present simple: he and she", "")

GRAMMAR = [
    # one sentence with an unreal condition is one point, by its name; with or without if
    Case("grammar-above-level", _THIRD + "\n", (("stop", "If Gus hadn't eaten our tickets, we would have got"),), A1),
    Case(
        "grammar-above-level", "1. Gus ____ our bun.\n\n::: answers\n1 had eaten\n:::\n", (("query", "had eaten"),), A1
    ),
    Case("grammar-above-level", "Gus hadn't eaten our tickets.\n", (("stop", "hadn't eaten"),), A1),
    Case(
        "grammar-above-level",
        "Had he read the packet, he would never have made a cake.\n",
        (("stop", "Had he read the packet, he would never have made"),),
        A2,
    ),
    Case(
        "grammar-above-level",
        "Had the council listened to her, the bridge would be there now.\n",
        (("stop", "Had the council listened to her, the bridge would be"),),
        B1,
    ),
    Case("grammar-above-level", "Had he read it? He had a cold, and I would like some tea.\n", (), B1),
    # words that are known before their structure
    Case("grammar-above-level", "It's called the Gull. She was born in May. This is our best cake.\n", (), A1),
    Case("grammar-above-level", "Best Biscuits: Tam.\n", (), A1),
    Case("grammar-above-level", "Best of all, it was the best day.\n", (), A1),
    Case("grammar-above-level", "The hat was eaten by Gus.\n", (("stop", "was eaten"),), A1),
    Case("grammar-above-level", "The fields are covered with snow. We make the Best Biscuits.\n", (), A1),
    Case(
        "grammar-above-level",
        "The fields are watered at six. She is the tallest.\n",
        (("query", "are watered"),),
        A1,
    ),
    # a label for he and she keeps back their forms alone
    Case(
        "grammar-before-taught", _taught(1, "can", "I like my hat. You wear it. Do you like it?\n"), (), others=(_SHE,)
    ),
    Case(
        "grammar-before-taught",
        _taught(1, "can", "She likes my hat. He doesn't wear it.\n"),
        (("query", "likes"),),
        others=(_SHE,),
    ),
    # what a clue asks for is no sentence
    Case("grammar-before-taught", _taught(1, "can", "1. A boat for people and cars: ferry\n"), (), others=(_SIMPLE,)),
    Case(
        "grammar-before-taught", _taught(1, "can", "1. For you: I like it.\n"), (("note", "like"),), others=(_SIMPLE,)
    ),
    Case(
        "grammar-before-taught",
        _taught(1, "can", "I like my hat.\n"),
        (("note", "like"),),
        others=(_SIMPLE,),
    ),
    Case(
        "grammar-before-taught",
        _taught(1, "can", "Do you like my hat?\n"),
        (("query", "Do you like"),),
        others=(_SIMPLE,),
    ),
    Case(
        "grammar-above-level",
        "She could swim. I was ill, because I was cold. He must go.\n",
        (),
        A2,
    ),
]

_PANEL = (
    "### 1 Look. {.words}\n\n::: words\n| People | What they do |\n|---|---|\n| baker | interview |\n"
    "| interview | ask |\n:::\n"
)
_TWO = "interview,noun,,1\ninterview,verb,,1\n"
_ONE = "levels:\n  - units: 1\n"
_UNITS = "levels:\n  - units: 2\n"
_NO = "yes,interjection,,1\n"
_YES = "## Lesson 1: Test {.test}\n\n### 1 Write. {.test .writing}\n\nYes!\n"


def _title(body: str) -> str:
    return f"---\nlevel: level-1\nunit: 1\ntitle: Cats\n---\n\n# Cats\n\n{body}"


_PHRASE = _title("## Lesson 1: A {.words}\n\n### 1 Read.\n\nI go to school at half past eight.\n")

LISTS = [
    # a word that children need only know is met in a listed phrase too
    Case("target-word-not-taught", _PHRASE, (), words="go to school,verb,,1,say,\nschool,noun,,1,know,\n"),
    Case(
        "target-word-not-taught",
        _PHRASE,
        (("query", "Cats"),) * 2,
        words="go to bed,verb,,1,say,\nbed,noun,,1,know,\n",
        points=1,
    ),
    # what a panel spells is taught, as whatever part of speech the list has it
    Case("target-word-not-taught", _title("## Lesson 1: A {.words}\n\n" + _PANEL), (), words=_TWO),
    Case(
        "target-word-not-taught",
        _title("## Lesson 1: A {.words}\n\n### 1 Look.\n\n::: words\nTown: council, bridge, warning\n:::\n"),
        (),
        words="warn,verb,,\nwarning,noun,,1\n",
    ),
    Case(
        "target-word-not-taught",
        _title("## Lesson 1: A {.words}\n\n### 1 Look.\n\n::: words\nTown: council, bridge\n:::\n"),
        (("query", "Cats"),),
        words="warning,noun,,1\n",
    ),
]
_THREE = "".join(f"## Lesson {n}: A {{.words}}\n\n### 1 Look.\n\n{text}\n\n" for n, text in enumerate(
    ("::: words\ninterview, ask\n:::", "She interviewed Tom.", "It was a good interview.", "A cat."), 1))  # fmt: skip

LISTS += [
    # a word listed as noun and verb comes back as either
    Case("word-not-recycled", _title(_THREE), (), "levels:\n  - units: 1\n", _TWO),
    Case(
        "word-not-recycled",
        _title(_THREE.replace("She interviewed", "I saw")),
        (("note", "interview"),) * 2,
        _ONE,
        _TWO,
    ),
]

_THROUGH = "## Lesson 1: A {.words}\n\n### 1 Look.\n\n## Lesson 2: B {.words}\n\n### 2 Look.\n\n### 3 Read.\n\n"
_SECOND = _title(_THROUGH).replace("unit: 1", "unit: 2")

REFERENCES = [
    Case("broken-reference", _title(_THROUGH + "Look at activity 1 again.\n"), ()),
    Case("broken-reference", _title(_THROUGH + "Look at activity 34 again.\n"), (("query", "activity 34"),)),
    # an activity of another unit
    Case("broken-reference", _SECOND + "As in Unit 1, activity 3.\n", (), others=(_title(_THROUGH),)),
    Case(
        "broken-reference",
        _SECOND + "As in Unit 1, activity 31.\n",
        (("query", "Unit 1, activity 31"),),
        others=(_title(_THROUGH),),
    ),
    Case(  # numbered lesson by lesson: nobody can tell
        "broken-reference",
        _SECOND + "As in Unit 1, activity 31.\n",
        (),
        others=(_title(_THROUGH.replace("### 2 Look", "### 1 Look").replace("### 3 Read", "### 2 Read")),),
    ),
]


def test_a_broken_reference_names_the_range_of_the_unit(language):
    files = assemble(Example(_title(_THROUGH + "Look at activity 34 again.\n"))).files
    modules = [one for one in load_rules() if one.rule.name == "broken-reference"]
    (found,) = run_files(files, modules, language).open
    assert found.message == "This unit has no activity 34: it has activities 1 to 3."


LABELS = [
    Case(
        "unreadable-manuscript",
        f"---\nlevel: level-1\nunit: 1\ntitle: Cats\ngrammar: [{label}]\n---\n\n# Cats\n\n{_THROUGH}",
        found,
    )
    for label, found in (
        ("a and an", ()),
        ("'The van is red.'", ()),
        ("reported questions", ()),
        ("comparitives", (("query", "comparitives"),)),
        ("wobbly glumph", (("note", "wobbly glumph"),)),
    )
]


def test_only_a_test_of_its_own_unit_is_told_of(language):
    def said(text: str, others: tuple[str, ...] = ()) -> str:
        files = assemble(Example(text, words=_NO, others=others, course=_UNITS)).files
        modules = [one for one in load_rules() if one.rule.name == "target-word-not-taught"]
        (found,) = run_files(files, modules, language).open
        return found.message

    plain = "## Lesson 1: A {.words}\n\n### 1 Look.\n\nA cat.\n"
    assert "only a test" in said(_title(_YES))
    assert "nothing there" in said(_title(plain), (_title(_YES).replace("unit: 1", "unit: 2"),))


@pytest.mark.parametrize(
    "case",
    [*LISTS, *REFERENCES, *LABELS, *WORDS, *GRAMMAR, *TESTS],
    ids=lambda case: f"{case.rule}: {case.text.strip()[-50:]}",
)
def test_it_is_found_or_left_alone_as_authors_would(case, language):
    example = Example(case.text, course=case.course, words=case.words, others=case.others)
    modules = [module for module in load_rules() if module.rule.name == case.rule]
    result = run_files(assemble(example).files, modules, language)
    assert [(str(one.severity), one.text) for one in result.open] == list(case.found)
    assert case.points is None or len(result.points) == case.points


def test_one_word_is_one_point_for_all_rules(language):
    files = assemble(Example(_unit(1, "### 1 Read. {.reading}\n\nI like bread.\n\n" + _TEST), words=_BREAD)).files
    modules = [one for one in load_rules() if one.rule.name in {"test-beyond-unit", "word-before-taught"}]
    (point,) = run_files(files, modules, language).points
    assert set(point.rules) == {"test-beyond-unit", "word-before-taught"}
