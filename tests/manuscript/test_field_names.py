"""Names of fields in teacher's notes, set off in the ways that houses do (common practice, no source)."""

import pytest

from lint_rules.manuscript.field_names import field_key, is_usual
from lint_rules.manuscript.reading import read_unit
from lint_rules.source import Source

FRONT = "---\nlevel: level-1\nunit: 1\ntitle: A\n---\n\n# A\n\n## Lesson 1: A {.words}\n\n"


def fields_of(notes: str) -> list[tuple[str, list[str]]]:
    unit = read_unit(Source("level-1/unit-01.md", f"{FRONT}::: teacher\n{notes}\n:::\n"))
    fields = unit.lessons[0].part.fields
    assert [unit.source.slice(field.name_span) for field in fields] == [field.name for field in fields]
    return [(field.name, [passage.text for passage in field.passages]) for field in fields]


@pytest.mark.parametrize(
    "notes",
    [
        "**Aim:** Name things.\n**Time:** 40 minutes",
        "**Aim**\n\n- Name things.\n\n**Time**\n\n- 40 minutes",
        "**Aim**\n\nName things.\n\n*Time*\n\n40 minutes",
        "Aim: Name things.\nTime: 40 minutes",
        "*Aim:* Name things.\n\n*Time:* 40 minutes",
        "**Aim** – Name things.\n\n**Time** – 40 minutes",
        "- **Aim:** Name things.\n- **Time:** 40 minutes",
        "- **Aim** — Name things.\n- **Time** — 40 minutes",
        "#### Aim\n\nName things.\n\n#### Time\n\n40 minutes",
        "Aim\n\nName things.\n\nTime:\n\n40 minutes",
        "| Aim | Name things. |\n|---|---|\n| Time | 40 minutes |",
        "Aim\n:   Name things.\n\nTime\n:   40 minutes",
        "**Aim.** Name things. **Time.** 40 minutes",
        "*Aim* Name things. *Time* 40 minutes",
        "- Aim - Name things.\n- Time - 40 minutes",
        "- Aim\n    - Name things.\n- Time\n    - 40 minutes",
        "| Aim: Name things.\n| Time: 40 minutes",
        "- **Aim** Name things.\n- **Time** 40 minutes",
        "**Aim:** Name things.\n\n**Time:** 40 minutes",
        "**Aim** –\n\n1. Name things.\n\n**Time** –\n\n1. 40 minutes",
        "**Aim** | Name things.\n\n**Time** | 40 minutes",
        "| | |\n|---|---|\n| **Aim** | Name things. |\n| **Time** | 40 minutes |",
    ],
)
def test_a_field_is_read_however_its_name_is_set_off(notes):
    assert fields_of(notes) == [("Aim", ["Name things."]), ("Time", ["40 minutes"])]


@pytest.mark.parametrize(
    "notes",
    [
        "Time is short here.",
        "Say the words - slowly.",
        "*Words* are for the board.",
        "Time - and patience.",
        "Our aim: Name things.",
        "Take your time:\n40 minutes",
        "Write WORDS on the board.",
        "TIME! Stop now.",
        "- Say **Time** to stop them.",
    ],
)
def test_a_word_in_a_sentence_is_no_field(notes):
    assert fields_of(notes) == []


@pytest.mark.parametrize(
    "steps",
    [
        "1. Children look.\n2. Answers: children check in pairs.\n3. Words: they say two.",
        "Children look.\nAnswers: in pairs.",
        "Children look.\n\n- Words: write two of them.\n- Time: they look at the clock.",
    ],
)
def test_a_bare_name_among_names_in_bold_is_a_word_of_the_text(steps):
    (aim, rest) = fields_of(f"**Aim:** Name things.\n\n**Steps:**\n\n{steps}")
    assert (aim[0], rest[0]) == ("Aim", "Steps")
    assert any("Answers" in text or "Words" in text for text in rest[1])


@pytest.mark.parametrize(
    ("name", "key"),
    [
        ("Goal", "aim"), ("You need", "material"), ("Timing", "time"), ("Procedure", "step"), ("Step 2", "step"),
        ("Take care", "safety"), ("Helping hand", "support"), ("Early finishers", "extra"), ("Solutions", "answer"),
        ("Key vocabulary", "word"), ("Structures", "grammar"), ("Mats", "material"), ("Time (minutes)", "time"),
        ("Time and grouping", "time"), ("Materials and preparation", "material"), ("Health and safety", "safety"),
    ],
)  # fmt: skip
def test_other_houses_names_are_the_usual_fields(name, key):
    assert field_key(name) == key
    assert fields_of(f"**{name}:** Name things.") == [(name, ["Name things."])]


@pytest.mark.parametrize("name", ["Homework", "Warm-up", "Classroom language", "Timid children", "Key ring"])
def test_a_name_of_the_houses_own_is_no_usual_field(name):
    assert not is_usual(name)


@pytest.mark.parametrize(
    ("notes", "names"),
    [
        ("45'. Aim: name things. Mats: paper.", ["Aim", "Mats"]),
        ("20'. (1) Look at the kites. (2) Fly them. Extra: draw one.", ["Extra"]),
        ("**Words** gate, tower\n**Materials** a map\n**Time** 40 minutes", ["Words", "Materials", "Time"]),
        ("**Time** 8 minutes\n**How** Play it twice.", ["Time", "How"]),
        ("Say it with\n**patience** and\n**words** of your own.", []),
        ("*Time* 10 minutes. *You need* a ball and *patience*.", ["Time", "You need"]),
        ("**Time:** 10 min **Steps:** 1) Play it. 2) Sing it.", ["Time", "Steps"]),
        ("**Time:** 10 min. See the **steps** and **Aim** of lesson 2.", ["Time"]),
        ("AIM Name things. TIME 40 minutes", ["AIM", "TIME"]),
        ("STEPS Sing it twice. Sing it again? EXTRA They dance. TIME 8 minutes.", ["STEPS", "EXTRA", "TIME"]),
    ],
)
def test_fields_run_on_in_a_paragraph(notes, names):
    assert [name for name, _ in fields_of(notes)] == names


@pytest.mark.parametrize(
    ("notes", "names"),
    [
        (
            "**RESOURCES**\n\n- Paper.\n\n**LEAD-IN**\n\n- Look.\n\n**ROUND-UP**\n\n- Sing.",
            ["RESOURCES", "LEAD-IN", "ROUND-UP"],
        ),
        ("PURPOSE — Name things.\\\nPROPS — A kite.\\\nRUNNING TIME — 40'", ["PURPOSE", "PROPS", "RUNNING TIME"]),
        ("CUE 1 — Show the kite.\\\nCUE 2 — Fly it.", ["CUE 1", "CUE 2"]),
        ("[Aim: Name things. | Materials: a kite. | 40 min]", ["Aim", "Materials"]),
        ("**Task –** Look.\n\n**Bring along –** A kite.", ["Task", "Bring along"]),
        ("::: box\n*Kit:* A kite.\n:::\n\n::: box\nLook at it for a while.\n:::", ["Kit"]),
    ],
)
def test_houses_set_their_own_names_off_as_well(notes, names):
    fields = fields_of(notes)
    assert [name for name, _ in fields] == names
    assert all("Look at it" not in text for _, texts in fields for text in texts if len(texts) > 1)


def test_the_heads_of_a_table_of_fields_are_none():
    table = "| What | How |\n|---|---|\n| **Aim** | Name toys. |\n| **Time** | 40 minutes |"
    assert [name for name, _ in fields_of(table)] == ["Aim", "Time"]


@pytest.mark.parametrize("notes", ["**Well done!**\n\nThey clap.", "**Hello, kite**\n\nThey clap.", "TV — no, a kite."])
def test_a_cry_in_bold_is_no_field(notes):
    assert fields_of(notes) == []


def lesson_of(text: str):
    return read_unit(Source("level-1/unit-01.md", FRONT + text)).lessons[0]


ONE, TWO = "### 1 Look. {.reading}\n\nA kite.\n\n", "### 2 Sing. {.song}\n\nA song.\n\n"
NOTES = "::: teacher\n**Aim:** Name things.\n\n**Time:** 40 minutes\n:::\n"


def test_notes_behind_the_last_activity_are_the_lessons_where_they_are_its_only_ones():
    lesson = lesson_of(ONE + TWO + NOTES)
    assert [field.name for field in lesson.part.fields] == ["Aim", "Time"]
    assert lesson.activities[-1].part.fields == ()


@pytest.mark.parametrize(
    "text",
    [
        ONE + NOTES + TWO + NOTES,
        NOTES.replace("Aim", "Words") + ONE + TWO + NOTES,
        ONE + NOTES,
        ONE + TWO + NOTES + "Bye.\n",
    ],
)
def test_notes_of_an_activity_stay_its_own(text):
    assert [field.name for field in lesson_of(text).activities[-1].part.fields] == ["Aim", "Time"]


def test_a_time_in_italics_at_the_start_of_a_paragraph_ends_the_field_before():
    ((name, texts),) = fields_of("*You will need.* A sock.\n\n*Forty-five minutes.* There are seven activities.")
    assert (name, texts) == ("You will need", ["A sock."])
    ((_, texts),) = fields_of("*You will need.* A sock.\n\n*A ball* for each child.")
    assert len(texts) == 2


@pytest.mark.parametrize("head", ["### Key to Lesson 1", "### Answers", "### Answer key for activities 1 and 2"])
def test_a_heading_over_nothing_but_a_key_is_no_activity(head):
    lesson = lesson_of(f"{ONE}{TWO}{head}\n\n::: answers\nActivity 1: 1 a 2 b\n:::\n")
    assert [activity.heading.number for activity in lesson.activities] == ["1", "2"]
    assert any(passage.text.startswith("Activity 1") for passage in lesson.part.passages)


@pytest.mark.parametrize(
    "activity",
    [
        "### Key to Lesson 1\n\nFind the key.\n\n::: answers\n1 a 2 b\n:::\n",
        "### Answers {.game}\n\n::: answers\n1 a\n:::\n",
        "### The key to the door\n\n::: answers\n1 a\n:::\n",
        "### Answers\n",
    ],
)
def test_an_activity_with_a_page_or_a_kind_is_one_whatever_its_name(activity):
    assert len(lesson_of(ONE + TWO + activity).activities) == 3


def test_a_lesson_that_is_all_key_is_none():
    unit = read_unit(Source("u.md", f"{FRONT}{ONE}## Answer key\n\n::: answers\nLesson 1: 1 a\n:::\n"))
    assert len(unit.lessons) == 1


@pytest.mark.parametrize("head", ["Audio script", "Audioscripts", "Scripts", "Transcript", "Tapescript"])
def test_a_section_that_is_all_scripts_is_no_lesson(head):
    script = "::: {.audio track=1.1}\nMINA: Hello!\n:::\n"
    unit = read_unit(Source("u.md", f"{FRONT}{ONE}## {head}\n\n{script}"))
    assert len(unit.lessons) == 1
    assert any(passage.text == "Hello!" for passage in unit.lessons[0].part.passages)
    assert len(read_unit(Source("u.md", f"{FRONT}{ONE}## {head}\n\nWe read it.\n\n{script}")).lessons) == 2


EACH = (
    "::: teacher\n**Time:** 1 – 8 min; 2 – 10 min\n\n**Steps:**\n\n1. Look.\n2. Sing.\n\n**Safety:** Take care.\n:::\n"
)


def test_notes_with_a_time_for_each_activity_are_the_lessons_though_it_has_notes_before():
    lesson = lesson_of(NOTES + ONE + TWO + EACH)
    assert [field.name for field in lesson.part.fields] == ["Aim", "Time", "Time", "Steps", "Safety"]
    assert lesson.activities[-1].part.fields == ()


@pytest.mark.parametrize(
    "text",
    [
        NOTES + ONE + TWO + EACH.replace("; 2 – 10 min", ""),  # of the last one alone
        NOTES + ONE + TWO + EACH.replace("2 – 10", "3 – 10"),
        NOTES + ONE + NOTES + TWO + EACH,
        NOTES + ONE + TWO + EACH + "Bye.\n",
    ],
)
def test_a_time_for_other_activities_makes_no_notes_of_a_lesson(text):
    assert [field.name for field in lesson_of(text).activities[-1].part.fields] == ["Time", "Steps", "Safety"]
