"""One key for several activities, as houses set it (common practice, no source)."""

import pytest

from lint_rules.engine.example import assemble
from lint_rules.engine.registry import load_rules
from lint_rules.manuscript.reading import read_unit
from lint_rules.page.exercises.reading import exercises_in
from lint_rules.page.exercises.shared_keys import keys_of, lesson_of_key
from lint_rules.page.readings import readings_of
from lint_rules.rule import Example
from lint_rules.source import Source
from tests.support import run_files

FRONT = "---\nlevel: level-1\nunit: 1\ntitle: A\n---\n\n# A\n\n"
FIRST = "### 1 Write. {.writing}\n\n1. The hen is ____.\n2. The owl is ____.\n\n"
SECOND = "### 2 Choose. {.reading}\n\n1. A hen can a) fly b) read.\n2. An owl can a) sing b) see.\n\n"
EXPECTED = [[("1", "red"), ("2", "brown")], [("1", "a"), ("2", "b")]]


def answers(notes: str = "", between: str = "", end: str = "") -> list[list[tuple[str, str]]]:
    text = f"{FRONT}## Lesson 1: A {{.words}}\n\n{notes}{FIRST}{between}{SECOND}{end}"
    unit = read_unit(Source("level-1/unit-01.md", text))
    read = [exercises_in(activity, unit) for activity in unit.activities]
    found = []
    for one in read:
        items = [item for exercise in one.exercises for item in exercise.items]
        found.append([(item.label.text, item.answer.text.rstrip(".")) for item in items if item.answer is not None])
        for item in items:
            if item.answer is not None:
                assert unit.source.slice(item.answer.place.span) == item.answer.text
    return found


def key(text: str) -> str:
    return f"::: answers\n{text}\n:::\n\n"


@pytest.mark.parametrize(
    "text",
    [
        "Activity 1: 1 red, 2 brown\n\nActivity 2: 1 a, 2 b",
        "**Activity 1** 1 red, 2 brown\n\n**Activity 2** 1 a, 2 b",
        "**1** 1 red, 2 brown.\n\n**2** 1 a, 2 b.",
        "- Activity 1: 1 red, 2 brown\n- Activity 2: 1 a, 2 b",
        "Activity 1\n\n1 red\n\n2 brown\n\nActivity 2\n\n1 a\n\n2 b",
        "Activity 1\n:   1 red, 2 brown\n\nActivity 2\n:   1 a, 2 b",
        "Exercise 1: 1 red, 2 brown. Exercise 2: 1 a, 2 b.",
        "1: 1 red, 2 brown. 2: 1 a, 2 b.",
        "*Turn the page on its head!* **1** 1 red · 2 brown. **2** 1 a · 2 b.",
        "| Activity | Answers |\n|---|---|\n| 1 | 1 red; 2 brown |\n| 2 | 1 a; 2 b |",
        "| Activity | 1 | 2 |\n|---|---|---|\n| 1 | red | brown |\n| 2 | a | b |",
        "|   | Task 1 | Task 2 |\n|---|---|---|\n| 1 | red | a |\n| 2 | brown | b |",
        "| No. | Activity 2 | Activity 1 |\n|---|---|---|\n| 1 | a | red |\n| 2 | b | brown |",
    ],
)
def test_a_key_at_the_end_of_a_lesson_is_shared_out(text: str) -> None:
    assert answers(end=key(text)) == EXPECTED


def test_an_empty_cell_is_an_item_that_an_activity_has_not() -> None:
    page = FIRST.replace("2. The owl", "2. The cat is ____.\n3. The owl")
    table = "|   | Task 1 | Task 2 |\n|---|---|---|\n| 1 | red | a |\n| 2 | grey | b |\n| 3 | brown |   |"
    text = f"{FRONT}## Lesson 1: A {{.words}}\n\n{page}{SECOND}{key(table)}"
    unit = read_unit(Source("level-1/unit-01.md", text))
    read = [exercises_in(activity, unit).exercises for activity in unit.activities]
    assert [[item.answer.text for one in each for item in one.items if item.answer] for each in read] == [
        ["red", "grey", "brown"],
        ["a", "b"],
    ]


def test_lines_of_lessons_name_their_exercises() -> None:
    third, fourth = FIRST.replace("### 1", "### 3"), SECOND.replace("### 2", "### 4")
    page = f"{FRONT}## Lesson 1: A {{.words}}\n\n{FIRST}{SECOND}## Lesson 2: B {{.words}}\n\n"
    page += third.replace("### 3", "### 1") + fourth.replace("### 4", "### 2")
    told = "Exercise 1: 1 red, 2 brown\nExercise 2: 1 a, 2 b"
    unit = read_unit(Source("level-1/unit-01.md", page + key(f"**Lesson 1.** {told}\n\n**Lesson 2.** {told}")))
    read = [exercises_in(activity, unit).exercises for activity in unit.activities]
    items = [[item for one in each for item in one.items if item.answer is not None] for each in read]
    assert [[(item.label.text, item.answer.text) for item in each] for each in items] == [*EXPECTED, *EXPECTED]


def test_a_line_of_a_key_may_be_for_several_activities() -> None:
    more = "".join(f"### {number} Sing. {{.song}}\n\nLa la.\n\n" for number in (3, 4, 5))
    told = "- Activity 1: 1 red, 2 brown\n- Activity 2: 1 a, 2 b\n"
    for several in ("Activities 3 and 4: their own. 5 words.", "Exercises 3, 4 and 5: their own answers, 3 more."):
        assert answers(end=more + key(f"{told}- {several}"))[:2] == EXPECTED


def test_a_list_with_an_item_for_each_activity_may_have_remarks_among_them() -> None:
    told = "1. 1 red, 2 brown\n2. 1 a, 2 b\n3. The children sing; no written answers.\n4. A game.\n5. The same."
    more = "".join(f"### {number} Sing. {{.song}}\n\nLa la.\n\n" for number in (3, 4, 5))
    assert answers(end=more + key(told))[:2] == EXPECTED


def test_figures_in_the_columns_of_a_key_are_answers() -> None:
    table = "| Activity | 1 | 2 |\n|---|---|---|\n| 1 | 4 | 12 |\n| 2 | a | b |"
    assert answers(end=key(table)) == [[("1", "4"), ("2", "12")], EXPECTED[1]]


@pytest.mark.parametrize(
    "notes",
    [
        "::: teacher\n**Aim:** look\n\n**Key:**\n\n- Activity 1: 1 red, 2 brown\n- Activity 2: 1 a, 2 b\n:::\n\n",
        "::: teacher\n**Answers:** Activity 1: 1 red, 2 brown. Activity 2: 1 a, 2 b.\n:::\n\n",
        "::: teacher\n**Keys:**\n\n- Task 1: 1 red, 2 brown\n- Task 2: 1 a, 2 b\n:::\n\n",
    ],
)
def test_a_key_in_the_lessons_notes_is_shared_out(notes: str) -> None:
    assert answers(notes) == EXPECTED


@pytest.mark.parametrize(
    "text",
    [
        "1 a\n\n2 b",
        "| Number | Answer |\n|---|---|\n| 1 | a |\n| 2 | b |",
        "**1** a\n\n**2** b",
        "1 a (see Activity 1)\n\n2 b (see Activity 2)",
        "**1** a **2** b",
    ],
)
def test_the_key_of_one_activity_stays_its_own(text: str) -> None:
    assert answers(between=key("1 red\n\n2 brown"), end=key(text))[0] == EXPECTED[0]
    assert [label for label, _ in answers(end=key(text))[1]] == ["1", "2"]


@pytest.mark.parametrize(
    ("own", "other"),
    [
        ("**1** the red kite\n\n**2** the brown hat", "1 a 2 b"),
        ("**1.** It is red.\n\n**2.** It is brown.", "**1.** a\n\n**2.** b"),
        ("Task 1: red\n\nTask 2: brown", "1 a 2 b"),
    ],
)
def test_no_activity_takes_from_a_key_while_it_has_its_own(own: str, other: str) -> None:
    text = f"{FRONT}## Lesson 1: A {{.words}}\n\n{FIRST}{key(own)}{SECOND}{key(other)}"
    unit = read_unit(Source("level-1/unit-01.md", text))
    first, second = (keys_of(activity, unit) for activity in unit.activities)
    assert "red" in first[0].text
    assert "brown" in first[-1].text
    assert not any("brown" in passage.text for passage in second)


def test_activities_that_the_lesson_does_not_have_share_nothing() -> None:
    assert answers(end=key("Activity 7: 1 red, 2 brown\n\nActivity 8: 1 a, 2 b"))[0] == []


@pytest.mark.parametrize(
    "text",
    [
        "## Lesson 1: A\n\n### 1 Write it with capital letters. {.writing}\n\n"
        "1. rexina has sharp teeth\n2. lorna is big\n\n"
        "### 2 Put it right. {.writing}\n\n1. he is run\n2. they is big\n\n"
        "::: teacher\n**Answers:** Activity 1: 1 Rexina has got sharp teeth. 2 Lorna is very big. "
        "Activity 2: 1 He is running now. 2 They is very big.\n:::\n",
        "### 1 Write. {.writing}\n\n#### A Choose.\n\n1. He is / are big.\n2. We is / are big.\n\n"
        "#### B Write sentences.\n\n1. a goat / a mouse / big\n2. they / be / big\n\n"
        "::: answers\nA 1 is 2 are\n\nB 1 A goat is bigger than a mouse. 2 They is very big.\n:::\n",
    ],
    ids=["for a lesson", "in parts"],
)
def test_sentences_of_a_key_that_is_cut_up_are_checked(text, language):
    rules = [module for module in load_rules() if module.rule.name == "key-makes-bad-english"]
    result = run_files(assemble(Example(text)).files, rules, language)
    assert result.broken == ()
    assert [finding.text for finding in result.open] == ["They is"]


def keyed_at_the_end(first: str, second: str, heads: tuple[str, str] = ("Lesson 1", "Lesson 2")) -> list[list[str]]:
    """The answers of two lessons whose keys both stand at the end of the unit."""
    lessons = "".join(f"## Lesson {number}: A {{.words}}\n\n{FIRST}{SECOND}" for number in (1, 2))
    keys = "".join(key(f"**Key to {head}**\n\n{text}") for head, text in zip(heads, (first, second), strict=True))
    unit = read_unit(Source("level-1/unit-01.md", f"{FRONT}{lessons}{keys}"))
    read = [exercises_in(activity, unit) for activity in unit.activities]
    return [
        [item.answer.text for one in each.exercises for item in one.items if item.answer is not None] for each in read
    ]


def test_keys_at_the_end_of_a_unit_go_to_the_lessons_that_they_name():
    one, two = "Activity 1: 1 red; 2 brown\n\nActivity 2: 1 a; 2 b", "Activity 1: 1 old; 2 new\n\nActivity 2: 1 b; 2 a"
    assert keyed_at_the_end(one, two) == [["red", "brown"], ["a", "b"], ["old", "new"], ["b", "a"]]


def test_a_key_to_a_lesson_that_is_not_there_answers_nothing_elsewhere():
    one, two = "Activity 1: 1 red; 2 brown\n\nActivity 2: 1 a; 2 b", "Activity 1: 1 old; 2 new\n\nActivity 2: 1 b; 2 a"
    assert keyed_at_the_end(one, two, ("Lesson 9", "Lesson 1")) == [["old", "new"], ["b", "a"], [], []]


def at_the_end_of_the_unit(end: str, numbers: tuple[int, ...] = (1, 2, 3, 4)) -> list[list[str]]:
    first, second, third, fourth = numbers
    pages = [
        FIRST.replace("### 1", f"### {first}") + SECOND.replace("### 2", f"### {second}"),
        FIRST.replace("### 1", f"### {third}") + SECOND.replace("### 2", f"### {fourth}"),
    ]
    lessons = "".join(f"## Lesson {at}: A {{.words}}\n\n{page}" for at, page in enumerate(pages, 1))
    unit = read_unit(Source("level-1/unit-01.md", FRONT + lessons + end))
    assert len(unit.lessons) == 2
    read = [exercises_in(activity, unit) for activity in unit.activities]
    return [
        [item.answer.text for one in each.exercises for item in one.items if item.answer is not None] for each in read
    ]


NAMED = "**Activity 1:** 1 red; 2 brown\n\n**Activity 2:** 1 a; 2 b\n\n"
MORE = "**Activity 3:** 1 old; 2 new\n\n**Activity 4:** 1 b; 2 a"


@pytest.mark.parametrize("title", ["Lesson {}", "Lesson {}: Which boat?", "Lesson {}: The race."])
def test_a_key_at_the_end_goes_by_the_names_of_lessons_in_bold(title: str) -> None:
    parts = ["Activity 1: 1 red; 2 brown\n\nActivity 2: 1 a; 2 b", "Activity 1: 1 old; 2 new\n\nActivity 2: 1 b; 2 a"]
    text = "\n\n".join(f"**{title.format(number)}**\n\n{part}" for number, part in enumerate(parts, 1))
    expected = [["red", "brown"], ["a", "b"], ["old", "new"], ["b", "a"]]
    assert at_the_end_of_the_unit(f"## Keys\n\n{key(text)}", (1, 2, 1, 2)) == expected


@pytest.mark.parametrize("dot", [";", "."])
def test_a_line_of_a_key_begins_with_its_lesson_in_bold(dot: str) -> None:
    text = f"**Lesson 1** 1: 1 red 2 brown{dot} 2: 1 a 2 b\n\n**Lesson 2** 1: 1 old 2 new{dot} 2: 1 b 2 a"
    found = at_the_end_of_the_unit(f"## Keys\n\n{key(text)}", (1, 2, 1, 2))
    assert [[answer.rstrip(".") for answer in several] for several in found] == [
        ["red", "brown"],
        ["a", "b"],
        ["old", "new"],
        ["b", "a"],
    ]


def test_a_line_that_only_speaks_of_a_lesson_is_no_key_of_it() -> None:
    text = "**Lesson 1** was long: 1 red 2 brown\n\n**Lesson 2** is short: 1 a 2 b"
    assert at_the_end_of_the_unit(f"## Keys\n\n{key(text)}", (1, 2, 1, 2)) == [[], [], [], []]


@pytest.mark.parametrize("heading", ["## Answers", "## Answers {.notes}", "## Key to all lessons", "### Answers"])
@pytest.mark.parametrize("text", [NAMED + MORE, "**Lesson 1**\n\n" + NAMED + "**Lesson 2**\n\n" + MORE])
def test_activities_numbered_through_the_unit_are_named_at_its_end(heading: str, text: str) -> None:
    expected = [["red", "brown"], ["a", "b"], ["old", "new"], ["b", "a"]]
    assert at_the_end_of_the_unit(f"{heading}\n\n{key(text)}") == expected


@pytest.mark.parametrize(
    "rows",
    [
        "| Lesson 1 | 1 | 1 red · 2 brown |\n| Lesson 2 | 1 | 1 a · 2 b |",
        "| Lesson 1 test | 1 | 1 red · 2 brown |\n| Lesson 2 test | 1 | 1 a · 2 b |",
        "| Test | 1 | 1 sun |\n| 1 | Activity 1 | 1 red, 2 brown |\n| 2 | 1 | 1 a, 2 b |",
        "| Lesson 1 | 1 | 1 red; 2 brown |\n| | 2–3 | Children's own answers |\n| Lesson 2 | Ex. 1 | 1 a; 2 b |",
    ],
)
def test_a_table_at_the_end_of_a_unit_names_lessons_and_activities(rows: str) -> None:
    table = "## Answers\n\n" + key("| Lesson | Activity | Answers |\n|---|---|---|\n" + rows)
    second = SECOND.replace("### 2", "### 1")
    text = f"{FRONT}## Lesson 1: A {{.words}}\n\n{FIRST}## Lesson 2: B {{.words}}\n\n{second}## Test {{.test}}\n\n"
    unit = read_unit(Source("level-1/unit-01.md", text + table))
    read = [exercises_in(activity, unit).exercises for activity in unit.activities]
    items = [[item for one in each for item in one.items if item.answer is not None] for each in read]
    assert [[(item.label.text, item.answer.text) for item in each] for each in items] == EXPECTED
    second_answers = [passage for passage in unit.passages if passage.text.startswith("1 a")]
    assert [lesson_of_key(passage, unit) for passage in second_answers] == [unit.lessons[1]]


def test_numbers_that_two_activities_have_name_nothing_at_the_end_of_a_unit() -> None:
    found = at_the_end_of_the_unit(f"## Answers\n\n{key(NAMED)}", (1, 2, 1, 2))
    assert found[:2] == [[], []]


def told(steps: str) -> list[tuple[str, str]]:
    notes = f"::: teacher\n**Steps:** {steps}\n:::\n\n"
    return answers(
        between=notes.join(["### 3 Write it. {.writing}\n\n1. It is ____.\n2. It is ____.\n3. It is ____.\n\n", ""])
    )[1]


@pytest.mark.parametrize(
    "steps",
    [
        "Compare in pairs. Check (1 milk, 2 eggs, 3 salt). Clap.",
        "They write. Check together (answers: 1 milk; 2 eggs; 3 salt).",
        "They write alone. Answers: 1 milk, 2 eggs, 3 salt",
        "Sing it up and down. It goes *1 milk, 2 eggs, 3 salt*.",
    ],
)
def test_answers_that_the_steps_tell_on_the_way_are_a_key(steps: str) -> None:
    assert told(steps) == [("1", "milk"), ("2", "eggs"), ("3", "salt")]


@pytest.mark.parametrize(
    "steps", ["Check. Key: a milk, b eggs, c salt. (2 min)", "They compare (a milk; b eggs; c salt)."]
)
def test_letters_label_answers_in_the_steps_too(steps: str) -> None:
    page = "### 3 Write it. {.writing}\n\na. It is ____.\nb. It is ____.\nc. It is ____.\n\n"
    between = f"{page}::: teacher\n**Steps:**\n\n1. They write. (2 min)\n2. {steps}\n:::\n\n"
    assert answers(between=between)[1] == [("a", "milk"), ("b", "eggs"), ("c", "salt")]


@pytest.mark.parametrize(
    "steps",
    [
        "Put them in groups (1 boy, 2 girls).",
        "Count (1, 2, 3) and clap.",
        "Check (see 1 milk, 2 eggs) later.",
        "Show (a hat, a bag, a pen).",
        "They clap and say *1 potato, 2 potato, 3 potato*.",
    ],
)
def test_numbers_in_brackets_that_answer_nothing_are_no_key(steps: str) -> None:
    assert told(steps) == []


GAPS = "### 1 Write. {.writing}\n\n1. The hen is ____.\n2. The owl is ____.\n3. The fox is ____.\n\n"


@pytest.mark.parametrize(
    "text",
    [
        "The hen is *red* in the morning, the owl is *brown* and the fox is *old*.",
        "In the first one the hen is **red**; then we see a **brown** owl, and last an **old** fox.",
    ],
)
def test_a_key_in_prose_sets_its_answers_off(text: str) -> None:
    unit = read_unit(Source("level-1/unit-01.md", f"{FRONT}## Lesson 1: A {{.words}}\n\n{GAPS}{key(text)}"))
    (one,) = exercises_in(next(iter(unit.activities)), unit).exercises
    assert [item.answer.text for item in one.items if item.answer] == ["red", "brown", "old"]


@pytest.mark.parametrize(
    "text",
    [
        "From left to right, there is a red hen on the wall, a brown owl and an old fox.",  # no list of answers
        "Free, e.g. red, brown, old",
        "The hen is *red* in the morning, and the owl is *brown*, as everybody can see.",  # one too few
    ],
)
def test_prose_that_lists_nothing_fills_no_blank(text: str) -> None:
    unit = read_unit(Source("level-1/unit-01.md", f"{FRONT}## Lesson 1: A {{.words}}\n\n{GAPS}{key(text)}"))
    (one,) = exercises_in(next(iter(unit.activities)), unit).exercises
    assert [item.answer for item in one.items] == [None, None, None]


def test_a_row_of_answers_goes_on_where_it_stands() -> None:
    items = "".join(f"{at}. We see ____.\n" for at in range(1, 7))
    notes = "::: teacher\n**Answers:** 4 to 6 points: very good; 3 to 4: good; under 3: again.\n:::\n"
    page = f"{FRONT}## Lesson 1: A {{.words}}\n\n### 1 Write. {{.test}}\n\n{items}\n"
    unit = read_unit(Source("level-1/unit-01.md", page + key("1 ash, 2 lid, 3 sun, 4 hat, 5 foil, 6 a pen") + notes))
    (one,) = exercises_in(next(iter(unit.activities)), unit).exercises
    assert [item.answer.text for item in one.items if item.answer] == ["ash", "lid", "sun", "hat", "foil", "a pen"]


@pytest.mark.parametrize(
    "plan",
    [
        "| Minutes | Corner | What to do | Answers |\n|---|---|---|---|\n| 5 | Hello | Sing. | – |\n"
        "| 8 | 1 Words | Check in pairs. | 1 red; 2 brown |\n| 9 | 2 Talk | Say it. | 1 a; 2 b |",
        "| Time | Activity | Key |\n|---|---|---|\n| 2 minutes | 1 Write | 1 red, 2 brown |\n"
        "| 1 min | 2 Say | 1 a, 2 b |",
        "| Stage | Minutes | Answers |\n|---|---|---|\n| Activity 1: write | 8 | 1 red, 2 brown |\n"
        "| Activity 2: say | 9 | 1 a, 2 b |",
    ],
)
def test_a_lessons_plan_has_the_answers_of_its_activities(plan: str) -> None:
    assert answers(f"::: teacher\n**Time:** 45 minutes\n\n{plan}\n:::\n\n") == EXPECTED


@pytest.mark.parametrize(
    "text",
    [
        "### Lesson 1, Activity 1\n\n1 red; 2 brown\n\n### Lesson 2, Activity 1\n\n1 a; 2 b",
        "**Lesson 1, Activity 1:** 1 red, 2 brown\n\n**Lesson 2, Activity 1:** 1 a, 2 b",
        "- Lesson 1 – Exercise 1: 1 red, 2 brown\n- Lesson 2 – Exercise 1: 1 a, 2 b",
    ],
)
def test_heads_at_the_end_of_a_unit_name_lessons_and_activities(text: str) -> None:
    second = SECOND.replace("### 2", "### 1")
    page = f"{FRONT}## Lesson 1: A {{.words}}\n\n{FIRST}## Lesson 2: B {{.words}}\n\n{second}"
    unit = read_unit(Source("level-1/unit-01.md", page + key(text)))
    read = [exercises_in(activity, unit).exercises for activity in unit.activities]
    items = [[item for one in each for item in one.items if item.answer is not None] for each in read]
    assert [[(item.label.text, item.answer.text) for item in each] for each in items] == EXPECTED


def test_fields_named_for_an_activity_are_its_key() -> None:
    rows = "| **Time** | 40 min |\n| **Answers 1** | 1 red; 2 brown |\n| **Answers 2** | 1 a; 2 b |"
    notes = f"| Aim | Write. |\n|---|---|\n{rows}"
    assert answers(f"::: teacher\n{notes}\n:::\n\n") == EXPECTED
    prose = "**Answers 1:** 1 red; 2 brown\n\n**Key to Activity 2:** 1 a; 2 b"
    assert answers(f"::: teacher\n{prose}\n:::\n\n") == EXPECTED


def test_no_item_runs_over_the_head_of_a_part() -> None:
    page = (
        f"{FRONT}## Lesson 1: A {{.words}}\n\n### 1 Check. {{.test}}\n\n"
        "**Part 1** Write the word.\n\n1. a ____\n2. the ____\n\n"
        "**Part 2** Write *is* or *are*.\n\n3. It ____ red.\n4. They ____ old.\n\n"
    )
    unit = read_unit(Source("level-1/unit-01.md", page + key("1 hen, 2 fox, 3 is, 4 are")))
    (one,) = exercises_in(next(iter(unit.activities)), unit).exercises
    assert [(item.text, item.choices) for item in one.items][1] == ("the ____", ())


@pytest.mark.parametrize(
    ("line", "answers"),
    [
        ("Check: **i hat, ii bag, iii dog**", ["hat", "bag", "dog"]),
        ("Check: *i hat; ii bag; iii dog*", ["hat", "bag", "dog"]),
        ("Check: a friend reads it.", []),
        ("Check: i hat, ii bag, iii dog, **together**", []),
    ],
)
def test_what_the_notes_check_by_is_a_key_where_it_is_set_off(line: str, answers: list[str]) -> None:
    page = f"i. a red ____\nii. a blue ____\niii. a big ____\n\n::: teacher\n**Steps:** They write.\n\n{line}\n:::\n"
    unit = read_unit(
        Source("level-1/unit-01.md", f"{FRONT}## Lesson 1: A {{.words}}\n\n### 1 Write. {{.writing}}\n\n{page}")
    )
    (one,) = exercises_in(next(iter(unit.activities)), unit).exercises
    assert [item.answer.text for item in one.items if item.answer] == answers


@pytest.mark.parametrize(
    ("line", "answers"),
    [
        ("- **Check it** 1 hat, 2 bag, 3 dog.", ["hat", "bag", "dog"]),
        ("- **Check it** in pairs, then together.", []),
        ("They work alone, in pencil. They write: 1 hat, 2 bag, 3 dog.", ["hat", "bag", "dog"]),
        ("They write: a letter, and two cards.", []),
    ],
)
def test_what_the_notes_have_children_write_is_a_key(line: str, answers: list[str]) -> None:
    page = f"1. a red ____\n2. a blue ____\n3. a big ____\n\n::: teacher\n{line}\n:::\n"
    text = f"{FRONT}## Lesson 1: A {{.words}}\n\n### 1 Write. {{.writing}}\n\n{page}"
    unit = read_unit(Source("level-1/unit-01.md", text))
    (one,) = exercises_in(next(iter(unit.activities)), unit).exercises
    assert [item.answer.text.rstrip(".") for item in one.items if item.answer] == answers


@pytest.mark.parametrize(
    ("step", "read"),
    [
        (
            "1 hat · 2 bag (it is blue; the others are red) · 3 dog",
            ["hat", "bag (it is blue; the others are red)", "dog"],
        ),
        ("in pairs, then together", []),
        ("1 person at a time", []),
    ],
)
def test_a_step_that_checks_by_a_key(step: str, read: list[str]) -> None:
    page = "1. a red ____\n2. a blue ____\n3. a big ____\n\n::: teacher\n**Steps:**\n\n1. They write.\n2. Play it.\n"
    text = f"{FRONT}## Lesson 1: A {{.words}}\n\n### 1 Write. {{.writing}}\n\n{page}3. **Check**: {step}.\n:::\n"
    unit = read_unit(Source("level-1/unit-01.md", text))
    (one,) = exercises_in(next(iter(unit.activities)), unit).exercises
    assert [item.answer.text.rstrip(".") for item in one.items if item.answer] == read


@pytest.mark.parametrize("lead", ["Check", "Check, and let three of them read with the right voice and a loud one"])
def test_a_key_in_the_last_of_some_steps_has_the_labels_of_the_items(lead: str) -> None:
    steps = "**Steps:**\n\n1. They write.\n2. Play it.\n3. {}: 1 hat · 2 bag · 3 dog (or cat) · 4 owl.\n"
    page = "1. a red ____\n2. a blue ____\n3. a big ____\n4. an old ____\n\n"
    text = (
        f"{FRONT}## Lesson 1: A {{.words}}\n\n### 1 Write. {{.writing}}\n\n{page}::: teacher\n{steps.format(lead)}:::\n"
    )
    unit = read_unit(Source("level-1/unit-01.md", text))
    (one,) = exercises_in(next(iter(unit.activities)), unit).exercises
    assert [item.answer.text for item in one.items if item.answer] == ["hat", "bag", "dog (or cat)", "owl"]


def answered(page: str) -> list[list[str]]:
    """The answers of each activity of a lesson, as they are read."""
    unit = read_unit(Source("level-1/unit-01.md", f"{FRONT}## Lesson 1: A {{.words}}\n\n{page}"))
    read = [exercises_in(activity, unit) for activity in unit.activities]
    return [[item.answer.text for one in each.exercises for item in one.items if item.answer] for each in read]


THREE = "### {} Write. {{.writing}}\n\n1. a red ____\n2. a blue ____\n3. a big ____\n\n"


@pytest.mark.parametrize(
    ("line", "answers"),
    [
        ("Key: 1 red [hat] 2 blue [bag] 3 big [dog]", ["hat", "bag", "dog"]),
        ("Key: 1 red [hat] 2 blue [bag] 3 big [dog] [7 min]", ["hat", "bag", "dog"]),
        ("Key: 1 hat, 2 bag, 3 dog (about 7 minutes)", ["hat", "bag", "dog"]),
        ("Key: 1 hat, 2 bag, 3 dog [or cat]", ["hat", "bag", "dog [or cat]"]),
    ],
)
def test_answers_in_square_brackets_and_times_at_the_end_of_a_key(line: str, answers: list[str]) -> None:
    assert answered(THREE.format(1) + f"::: teacher\n{line}\n:::\n") == [answers]


def test_a_key_of_tasks_with_their_marks_is_shared_out() -> None:
    table = "| Task | Key | Marks |\n|---|---|---|\n| 1 | 1 hat, 2 bag, 3 dog | 3 |\n| 2 | 1 cap, 2 box, 3 pig | 3 |\n"
    page = THREE.format(1) + THREE.format(2) + key(table)
    assert answered(page) == [["hat", "bag", "dog"], ["cap", "box", "pig"]]


def test_activities_with_letters_head_the_lines_of_a_key() -> None:
    lines = "1A Pupils' own answers, for example: a hat\n\n1B 1 hat 2 bag 3 dog\n\n1C 1 cap 2 box 3 pig"
    page = "### 1A Draw. {.writing}\n\n" + THREE.format("1B") + THREE.format("1C") + key(lines)
    assert answered(page) == [[], ["hat", "bag", "dog"], ["cap", "box", "pig"]]


def test_a_key_with_several_answers_too_many_fills_nothing() -> None:
    assert answered(THREE.format(1) + key("1 c 2 a 3 b 4 e")) == [["c", "a", "b"]]
    assert answered(THREE.format(1) + key("1 c 2 a 3 b 4 e 5 d")) == [[]]


@pytest.mark.parametrize(
    ("line", "answers"),
    [
        ("What they say 1) hat 2) bag 3) dog", ["hat", "bag", "dog"]),
        ("**Look for:** 1 → hat, 2 → bag, 3 → dog", ["hat", "bag", "dog"]),
        ("The children colour in pairs. 1 hat, 2 bag, 3 dog", ["hat", "bag", "dog"]),
        ("What they say 1) hat 2) bag", []),  # of two of three items
        ("**Look for:** 1 → hat, 2 → bag, 3 → dog, 4 → pig", []),
        ("**Steps:** 1 Look. 2 Write. 3 Check.", []),
        ("**Materials:** 1 hat, 2 bags, 3 dogs", []),
        ("1 They look at all of the pictures 2 They write a word in each line 3 They read it to a friend", []),
    ],
)
def test_a_line_that_answers_each_item_is_a_key_whatever_it_is_called(line: str, answers: list[str]) -> None:
    assert answered(THREE.format(1) + f"::: teacher\n{line}\n:::\n") == [answers]


def test_parts_of_a_test_that_are_activities_head_its_key() -> None:
    lines = "- Part 1: 1 hat, 2 bag, 3 dog\n- Part 2: 1 cap, 2 box, 3 pig"
    page = THREE.format(1) + THREE.format(2) + key(lines)
    assert answered(page) == [["hat", "bag", "dog"], ["cap", "box", "pig"]]


@pytest.mark.parametrize("hint", ["[is/are]", "(is/are)"])
def test_options_in_square_brackets_are_options(hint: str) -> None:
    page = f"### 1 Write. {{.writing}}\n\n1. The wind ____ {hint} strong.\n2. The clouds ____ {hint} dark.\n\n"
    text = f"{FRONT}## Lesson 1: A {{.words}}\n\n{page}{key('1 is 2 are')}"
    unit = read_unit(Source("level-1/unit-01.md", text))
    read = [passage.text for passage in readings_of(unit).done.passages]
    assert "The wind is strong." in read
    assert "The clouds are dark." in read


def test_a_number_that_the_sentence_goes_on_from_is_filled_in() -> None:
    items = "1. a dime and a nickel ____ cents\n2. two dimes ____ cents\n3. a quarter ____ cents\n\n"
    page = f"### 1 Count the money. {{.writing}}\n\n{items}{key('1 15, 2 20, 3 25')}"
    unit = read_unit(Source("u.md", f"{FRONT}## Lesson 1: A {{.words}}\n\n{page}"))
    read = [passage.text for passage in readings_of(unit).done.passages]
    assert "a dime and a nickel 15 cents" in read


LETTERED = (
    "### A Write. {.writing}\n\n1. The hen is ____.\n2. The owl is ____.\n\n"
    "### B Choose. {.reading}\n\n1. A hen can a) fly b) read.\n2. An owl can a) sing b) see.\n\n"
    "### C Ask a friend. {.speaking}\n\nWhat can you do?\n\n"
)


def lettered(key_of_c: str) -> list[list[tuple[str, str]]]:
    text = f"{FRONT}## Lesson 1: A {{.words}}\n\n{LETTERED}::: answers\n{key_of_c}\n:::\n"
    unit = read_unit(Source("level-1/unit-01.md", text))
    return [
        [(item.label.text, item.answer.text.rstrip(".")) for one in read.exercises for item in one.items if item.answer]
        for read in (exercises_in(activity, unit) for activity in unit.activities)
    ]


@pytest.mark.parametrize(
    "text",
    [
        "**A** 1 red, 2 brown\n\n**B** 1 a, 2 b",
        "**Key to page 4**\n\n**A** 1 red, 2 brown\n\n**B** 1 a, 2 b\n\n**C** The children's own answers.",
        "A: 1 red, 2 brown\\\nB: 1 a, 2 b",
        "A 1 red, 2 brown\\\nB 1 a, 2 b",
        "Activity A: 1 red, 2 brown\n\nActivity B: 1 a, 2 b",
    ],
)
def test_a_key_under_the_letters_of_activities_is_shared_out(text: str) -> None:
    assert lettered(text) == [*EXPECTED, []]


def test_two_who_talk_are_no_parts_of_a_page() -> None:
    talk = LETTERED.replace("What can you do?", "A: What can you do?\n\nB: I can swim.")
    text = f"{FRONT}## Lesson 1: A {{.words}}\n\n{talk}::: answers\n**A** 1 red, 2 brown\n\n**B** 1 a, 2 b\n:::\n"
    unit = read_unit(Source("level-1/unit-01.md", text))
    keys = [" ".join(one.text.strip() for one in keys_of(activity, unit)) for activity in unit.activities]
    assert keys == ["1 red, 2 brown", "1 a, 2 b", ""]


def test_a_letter_alone_may_be_an_article() -> None:
    assert lettered("A cat is an animal. B is a letter.") == [[], [], []]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("**7** red, brown\n**8** a go · b see", [[("1", "red"), ("2", "brown")], []]),
        ("7. 1 red, 2 brown\n8. 1 a, 2 b", EXPECTED),
        ("7. 1 red · 2 brown\n8. 1 a · 2 b", EXPECTED),
    ],
)
def test_a_list_of_keys_that_counts_on_is_shared_out(text: str, expected: list[list[tuple[str, str]]]) -> None:
    first, second = FIRST.replace("### 1", "### 7"), SECOND.replace("### 2", "### 8")
    unit = read_unit(Source("u.md", f"{FRONT}## Lesson 1: A {{.words}}\n\n{first}{second}{key(text)}"))
    read = [exercises_in(activity, unit) for activity in unit.activities]
    found = [
        [(item.label.text, item.answer.text.rstrip(".")) for one in each.exercises for item in one.items if item.answer]
        for each in read
    ]
    assert found[0] == expected[0]
    assert not expected[1] or found[1] == expected[1]


def test_an_item_that_begins_with_its_options_counts() -> None:
    page = (
        "### 1 Choose. {.reading}\n\n1. I (a) was (b) were in bed.\n2. Oma (a) not went (b) didn't go.\n"
        "3. (a) Did you see (b) Did you saw (c) Saw you the sea?\n4. We (a) was (b) were cold.\n\n"
    )
    unit = read_unit(Source("u.md", f"{FRONT}## Lesson 1: A {{.words}}\n\n{page}{key('1 a, 2 b, 3 a, 4 b')}"))
    (one,) = exercises_in(next(iter(unit.activities)), unit).exercises
    assert [(item.label.text, item.answer.text) for item in one.items if item.answer] == [
        ("1", "a"),
        ("2", "b"),
        ("3", "a"),
        ("4", "b"),
    ]
    assert len(one.items[2].choices[0].options) == 3
