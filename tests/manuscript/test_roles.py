"""What a text is on the page and for whom, case by case; as many cases that must be left alone as that are caught."""

import pytest

from lint_rules.manuscript.model import Audience, DivKind, Role, Unit
from lint_rules.manuscript.reading import read_unit
from lint_rules.source import Source

HEAD = "---\nlevel: level-1\nunit: 1\ntitle: T\n---\n\n# T\n\n## Lesson 1: L\n\n"


def unit_of(text: str, heading: str = "### 1 Read.") -> Unit:
    return read_unit(Source("level-1/unit-01.md", f"{HEAD}{heading}\n\n{text}\n"))


def said(text: str, heading: str = "### 1 Read.") -> list[tuple[str, str]]:
    """Speaker or role, and text, of everything in an activity."""
    (activity,) = unit_of(text, heading).activities
    return [(passage.speaker or passage.role.value, passage.text) for passage in activity.part.passages]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("MINA: Hi!\nRAFI: Hello!", [("MINA", "Hi!"), ("RAFI", "Hello!")]),
        ("**Mina:** Hi!\n\n**Rafi**: Hello!", [("Mina", "Hi!"), ("Rafi", "Hello!")]),
        ("CHILD 1: Hi!\nMum and Dad: Hello!", [("CHILD 1", "Hi!"), ("Mum and Dad", "Hello!")]),
        ("MINA: Hi! My hat\nis flying.", [("MINA", "Hi! My hat is flying.")]),
        ("(Bells.)\nMINA: Hi!", [("running text", "(Bells.)"), ("MINA", "Hi!")]),
        ("- MINA: Hi!\n- RAFI: Bye!", [("MINA", "Hi!"), ("RAFI", "Bye!")]),
        # left alone
        ("It is 10:30 now.", [("running text", "It is 10:30 now.")]),
        ("Mina says this: hello.", [("running text", "Mina says this: hello.")]),
        ("look: a kite", [("running text", "look: a kite")]),
        ("The wind blows.", [("running text", "The wind blows.")]),
        ("http://a.b", [("running text", "http://a.b")]),
    ],
)
def test_turns_of_an_audio_script(text: str, expected: list[tuple[str, str]]) -> None:
    assert said(f"::: audio\n{text}\n:::") == expected


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("**Mina:** Hi!", [("Mina", "Hi!")]),
        ("**Mina**: Hi!\n**Rafi:** Bye!", [("Mina", "Hi!"), ("Rafi", "Bye!")]),
        ("- **Mina:** Hi!", [("Mina", "Hi!")]),
        # left alone: on a pupil's page only bold names a speaker
        ("TIP: look up!", [("running text", "TIP: look up!")]),
        ("Mina: Hi!", [("running text", "Mina: Hi!")]),
        ("**Now** look: a kite", [("running text", "Now look: a kite")]),
        ("I **love**: kites", [("running text", "I love: kites")]),
        ("**look at this:** a kite", [("running text", "look at this: a kite")]),
        ("**Activity 2:** sky, light", [("running text", "Activity 2: sky, light")]),
        ("Yours truly,\\\n____", [("running text", "Yours truly,"), ("running text", "____")]),
    ],
)
def test_speakers_on_a_pupils_page(text: str, expected: list[tuple[str, str]]) -> None:
    assert said(text) == expected


@pytest.mark.parametrize(
    ("text", "labels"),
    [
        ("a) blue\nb) red", "ab"),
        ("(a) blue\n(b) red", "ab"),
        ("A) blue", "A"),
        ("a) blue   b) red   c) green", "abc"),
        ("1 I am ____.\n2 You are ____.", "12"),
        ("3 He is ____.\n4 She is ____.\n5 It is ____.", "345"),
        ("a No, I don't!\nb Here you are.", "ab"),
        ("A It's red.\nB It's blue.\nC It's green.", "ABC"),
        # left alone
        ("a cat is here\nc is a letter", ""),
        ("A cat is here.\nIt is big.", ""),
        ("I can see a kite (red) and a hat (blue).", ""),
        ("a kite\nb) no", "b"),
        ("3 kites are red.", ""),
        ("2 hats\n5 coats", ""),
        ("a)blue", ""),
        ("abc) blue", ""),
    ],
)
def test_lettered_and_numbered_lines(text: str, labels: str) -> None:
    (activity,) = unit_of(text).activities
    assert "".join(passage.item.label for passage in activity.part.passages if passage.item) == labels


@pytest.mark.parametrize(
    ("text", "lines"),
    [
        ("The snow is on the hill\nMy hat is in the tree\nI'm sitting very still", 3),
        ("“Oh no!”\n“Look!”", 2),
        # left alone: wrapped in an editor's window
        ("The snow is on the hill and my hat\nis in the tree.", 1),
        ("This is a line of running text that goes on and on until the window ends, and\nMina looks at it.", 1),
    ],
)
def test_lines_of_verse_are_kept(text: str, lines: int) -> None:
    (activity,) = unit_of(text).activities
    (passage,) = activity.part.passages
    assert len(passage.text.split("\n")) == lines
    assert len(passage.text) == len(text)


@pytest.mark.parametrize(
    ("heading", "number", "text"),
    [
        ("### 1 Listen.", "1", "Listen."),
        ("### 1. Listen.", "1.", "Listen."),
        ("### 1) Listen.", "1)", "Listen."),
        ("### 12b Listen.", "12b", "Listen."),
        ("### **1** Listen.", "1", "Listen."),
        ("### Activity 3: Listen.", "Activity 3:", "Listen."),
        # left alone
        ("### Listen.", "", "Listen."),
        ("### 1st, listen.", "", "1st, listen."),
        ("### 10:30 is the time.", "", "10:30 is the time."),
        ("### 3", "3", "3"),
    ],
)
def test_the_number_of_an_activity(heading: str, number: str, text: str) -> None:
    (activity,) = unit_of("", heading).activities
    assert (activity.heading.number, activity.heading.passage.text) == (number, text)


@pytest.mark.parametrize(
    ("heading", "number", "text"),
    [
        ("## Lesson 1: Kites", "Lesson 1:", "Kites"),
        ("## Lesson 2 - Kites", "Lesson 2 -", "Kites"),
        ("## LESSON 3. Kites", "LESSON 3.", "Kites"),
        ("## Lesson two: Kites", "Lesson two:", "Kites"),
        # left alone
        ("## Kites", "", "Kites"),
        ("## Lessons from kites", "", "Lessons from kites"),
        ("## Lesson plans: kites", "", "Lesson plans: kites"),
        ("## Lesson 4", "Lesson 4", "Lesson 4"),
    ],
)
def test_the_number_of_a_lesson(heading: str, number: str, text: str) -> None:
    unit = read_unit(Source("u.md", f"---\nlevel: l\nunit: 1\ntitle: T\n---\n# T\n{heading} {{.story}}\n"))
    (lesson,) = unit.lessons
    assert (lesson.heading.number, lesson.heading.passage.text, lesson.classes) == (number, text, ("story",))


@pytest.mark.parametrize(
    ("title", "number", "text"),
    [
        ("# Unit 4: A windy day", "Unit 4:", "A windy day"),
        ("# Unit four – A windy day", "Unit four –", "A windy day"),
        # left alone
        ("# A windy day", "", "A windy day"),
        ("# Unit 4", "", "Unit 4"),
        ("# Units: a windy day", "", "Units: a windy day"),
    ],
)
def test_the_number_of_a_unit(title: str, number: str, text: str) -> None:
    unit = read_unit(Source("u.md", f"---\nlevel: l\nunit: 4\ntitle: T\n---\n{title}\n## L\n"))
    assert unit.heading is not None
    assert (unit.heading.number, unit.heading.passage.text) == (number, text)


def test_fields_run_until_the_next_one_or_the_end_of_the_div() -> None:
    unit = unit_of(
        "::: teacher\nFirst of all.\n\n**Steps:** Hold up a card.\n\nChildren name it.\n\n- one\n- two\n\n"
        "**Time**: 5–10 minutes **or** more: see below.\n**Extra:**\n:::\n\n::: teacher\nNot extra.\n:::"
    )
    (activity,) = unit.activities
    assert [(field.name, field.text) for field in activity.part.fields] == [
        ("Steps", "Hold up a card.\nChildren name it.\none\ntwo"),
        ("Time", "5–10 minutes or more: see below."),
        ("Extra", ""),
    ]
    notes = [passage.text for passage in activity.part.passages if passage.role is Role.NOTE]
    assert notes == ["First of all.", "Not extra."]
    assert unit.source.slice(activity.part.fields[1].name_span) == "Time"


def test_fields_in_a_list() -> None:
    (activity,) = unit_of("::: teacher\n- **Aim:** say hello\n- **Time:** 5 minutes\n  or more\n:::").activities
    assert [(field.name, field.text) for field in activity.part.fields] == [
        ("Aim", "say hello"),
        ("Time", "5 minutes or more"),
    ]


@pytest.mark.parametrize(
    ("text", "fields"),
    [
        (
            "**Time.** 8 minutes. **Steps.** Play it once. Let them say it. **Support.** Write the letter.",
            [("Time", "8 minutes."), ("Steps", "Play it once. Let them say it."), ("Support", "Write the letter.")],
        ),
        ("**Aim**. Say hello. **Material**: cards.", [("Aim", "Say hello."), ("Material", "cards.")]),
        ("**Aim:** say hello. **Time:** 5 minutes", [("Aim", "say hello."), ("Time", "5 minutes")]),
        ("**Steps.** Call the **words.** They point.", [("Steps", "Call the words. They point.")]),
        ("**Steps.** They say **Time.** They sit.", [("Steps", "They say Time. They sit.")]),
        ("**Steps.** Look. **Good.** Sit down.", [("Steps", "Look. Good. Sit down.")]),
    ],
)
def test_a_usual_field_may_be_a_lead_in_bold_that_runs_on(text: str, fields: list[tuple[str, str]]) -> None:
    unit = unit_of(f"::: teacher\n{text}\n:::")
    (activity,) = unit.activities
    assert [(field.name, field.text) for field in activity.part.fields] == fields
    assert [unit.source.slice(field.name_span) for field in activity.part.fields] == [name for name, _ in fields]


@pytest.mark.parametrize(
    ("table", "fields"),
    [
        (
            "| Lesson card | |\n|:--|:--|\n| **Aim** | say hello |\n| Materials: | cards |\n| **Time** | 40 minutes |",
            [("Aim", "say hello"), ("Materials", "cards"), ("Time", "40 minutes")],
        ),
        ("| **Aim** | say hello |\n|---|---|\n| **Time** | 5 minutes |", [("Aim", "say hello"), ("Time", "5 minutes")]),
        ("| Aim | Materials |\n|---|---|\n| say hello | cards |", [("Aim", "say hello"), ("Materials", "cards")]),
        ("| Time | What we do |\n|---|---|\n| 5 minutes | We sing. |", [("What we do", "We sing.")]),
        (
            "| Stage | Time | Steps |\n|---|---|---|\n| 1 | 50 minutes | Sing. |\n| 2 | 10 minutes | Act. |",
            [("Steps", "Sing."), ("Steps", "Act.")],
        ),
        (
            "| | |\n|---|---|\n| **Goal** | say hello |\n| **Points** | one each |\n| Step 1 | Sing. |",
            [("Goal", "say hello"), ("Points", "one each"), ("Step 1", "Sing.")],
        ),
        (
            "| Activity | Minutes | Needs |\n|---|---|---|\n| 1 | 15 | cards |\n| 2 | 25 | |",
            [("Needs", "cards")],
        ),
        ("| Aim |\n|---|\n| say hello |", [("Aim", "say hello")]),
        ("| Stage | Minutes |\n|---|---|\n| Song | 5 |\n| Story | 10 |", []),
    ],
)
def test_notes_may_be_a_table_of_fields(table: str, fields: list[tuple[str, str]]) -> None:
    (activity,) = unit_of(f"::: teacher\n{table}\n:::").activities
    assert [(field.name, field.text) for field in activity.part.fields] == fields


@pytest.mark.parametrize(
    "text",
    [
        "**Hold** up a card: red.",
        "**Time** is short.",
        "Say **Time.** Then go.",
        "Say **now:** go.",
        "**" + "A long bold sentence that goes on and on and on" + ":** x",
    ],
)
def test_bold_that_names_no_field(text: str) -> None:
    (activity,) = unit_of(f"::: teacher\n{text}\n:::").activities
    assert activity.part.fields == ()


@pytest.mark.parametrize(
    ("fence", "kind", "audience"),
    [
        ("teacher", DivKind.TEACHER, Audience.TEACHER),
        ("{.audio track=1.1}", DivKind.AUDIO, Audience.LISTENER),
        ("answers", DivKind.ANSWERS, Audience.KEY),
        ("{.art .photo}", DivKind.ART, Audience.ARTIST),
        ("{.photo .art}", DivKind.ART, Audience.ARTIST),
        ("words", DivKind.WORDS, Audience.PUPIL),
        ("pattern", DivKind.PATTERN, Audience.PUPIL),
        ("speech", DivKind.PAGE, Audience.PUPIL),
        ("{.teachers}", DivKind.PAGE, Audience.PUPIL),
        ("{#teacher}", DivKind.PAGE, Audience.PUPIL),
    ],
)
def test_who_reads_a_div(fence: str, kind: DivKind, audience: Audience) -> None:
    unit = unit_of(f"::: {fence}\nHello there\n:::\n\nAfter it.")
    inside, after = list(unit.passages)[-2:]
    assert (unit.divs[0].kind, inside.audience, inside.div) == (kind, audience, 0)
    assert (after.audience, after.div) == (Audience.PUPIL, None)


def test_a_box_in_the_notes_is_for_the_teacher_and_a_script_in_them_for_listeners() -> None:
    unit = unit_of("::: teacher\n::: box\nBoxed.\n:::\n::: audio\nMINA: Hi!\n:::\n:::")
    assert [passage.audience for passage in unit.passages][-2:] == [Audience.TEACHER, Audience.LISTENER]


def test_lessons_and_activities_may_stand_in_a_box_but_not_in_notes() -> None:
    unit = unit_of("::: spread\n### 2 Say.\n:::\n\n::: teacher\n### Not an activity\n:::\n\n> ### Nor this")
    assert [activity.heading.passage.text for activity in unit.activities] == ["Read.", "Say."]
    assert [passage.text for passage in unit.passages if passage.role is Role.TITLE] == ["Not an activity", "Nor this"]


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        ("kite, hat\nscarf", ["kite", "hat", "scarf"]),
        ("- kite\n- ice cream, coat", ["kite", "ice cream", "coat"]),
        ("**kite**,hat;coat", ["kite", "hat", "coat"]),
        ("| kite | hat |\n|---|---|\n| coat | boots |", ["coat", "boots"]),
        ("next to", ["next to"]),
    ],
)
def test_entries_of_a_words_panel(text: str, entries: list[str]) -> None:
    unit = unit_of(f"::: words\n{text}\n:::")
    assert [passage.text for passage in unit.passages if passage.role is Role.PANEL] == entries


@pytest.mark.parametrize(
    ("heading", "text", "lines"),
    [
        ("### 1 Sing. {.song}", "Blow, wind,\nblow!\n\nFly!", 3),
        ("### 1 Sing. {.listening .song}", "::: audio\nBlow, wind,\nblow!\n:::", 2),
        ("### 1 Read.", "::: {.song}\nBlow, wind,\nblow!\n:::", 2),
        # left alone
        ("### 1 Read.", "Blow, wind,\nblow!", 0),
        ("### 1 Sing. {.song}", "::: teacher\nPlay it\ntwice.\n:::", 0),
        ("### 1 Sing. {.song}", "::: answers\nwind\nkite\n:::", 0),
    ],
)
def test_song_lines(heading: str, text: str, lines: int) -> None:
    assert [role for role, _ in said(text, heading)].count("song line") == lines


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("![kite](k.svg)\n\n*A red kite*", [("alternative text", "kite"), ("caption", "A red kite")]),
        ("![kite](k.svg)\n*A red kite*", [("alternative text", "kite"), ("caption", "A red kite")]),
        ("| a |\n|---|\n| b |\n\nTable: Who?", [("table head", "a"), ("table cell", "b"), ("caption", "Who?")]),
        ("| a |\n|---|\n| b |\n: Who?", [("table head", "a"), ("table cell", "b"), ("caption", "Who?")]),
        # left alone
        ("![kite](k.svg)\n\nA *red* kite", [("alternative text", "kite"), ("running text", "A red kite")]),
        ("*A red kite*", [("running text", "A red kite")]),
        ("Text.\n\n*A red kite*", [("running text", "Text."), ("running text", "A red kite")]),
        ("Look: ![kite](k.svg)", [("running text", "Look: \ufffc")]),
        ("![](k.svg)", []),
        ("- ![kite](k.svg)", [("list item", "\ufffc")]),
        ("![a](a.svg) ![b](b.svg)", [("running text", "\ufffc \ufffc")]),
    ],
)
def test_pictures_and_captions(text: str, expected: list[tuple[str, str]]) -> None:
    assert said(text) == expected


def test_a_pictures_attributes_and_places() -> None:
    unit = unit_of('![a &quot;kite&quot;](art/kite.svg "title"){.drawing width=3cm}\n\nSee ![hat](h.svg).')
    (activity,) = unit.activities
    alone, inline = activity.part.pictures
    assert (alone.alt, alone.target, alone.at, alone.attributes.classes) == (
        'a "kite"',
        "art/kite.svg",
        -1,
        ("drawing",),
    )
    assert unit.source.slice(alone.span).endswith("{.drawing width=3cm}")
    assert unit.source.slice(alone.alt_span) == "a &quot;kite&quot;"
    assert unit.source.slice(alone.attributes.span) == "{.drawing width=3cm}"
    assert inline.at == 4
    assert unit.source.slice(inline.span) == "![hat](h.svg)"


def test_gaps_are_blanks_of_any_length() -> None:
    (activity,) = unit_of("The __ is ____ and snake_case is not, nor \\_\\_ but k__e.").activities
    (passage,) = activity.part.passages
    assert [passage.text[start:end] for start, end in passage.gaps] == ["__", "____", "__", "__"]


@pytest.mark.parametrize(
    ("text", "gaps"),
    [
        ("It's ____y. He's play____.", 2),
        ("(____) and (____)", 2),
        ("'____' or '____'", 2),
        ("____is____", 2),
        ("**____** and *a ____*", 2),
        ("1. ____\n2. ____", 2),
        ("____", 1),
        ("> ______", 1),
        # left alone
        ("- - -\n\n***\n\n_ _ _", 0),
        ("__strong__ and ___both___", 0),
        ("a_b_c", 0),
    ],
)
def test_a_gap_is_a_gap_wherever_it_stands(text: str, gaps: int) -> None:
    (activity,) = unit_of(text).activities
    found = [passage.text[start:end] for passage in activity.part.passages for start, end in passage.gaps]
    assert len(found) == gaps
    assert all(set(gap) == {"_"} for gap in found)


def test_text_in_html_is_read() -> None:
    assert said("<div>\n<p>Tom <b>is</b> here.</p>\n</div>\n\n<script>\nvar x;\n</script>") == [
        ("running text", "Tom is here.")
    ]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("| A cat on a mat\n| and a dog in a hat", "A cat on a mat\nand a dog in a hat"),
        ("| **Mina:** Open it!\n|\n| *No!*", "Open it!\n\nNo!"),
        # left alone: a table without its second line, a bar in a text
        ("| a | b |\n| c | d |", "| a | b | | c | d |"),
        ("red | blue\ngreen | grey", "red | blue green | grey"),
        ("| a cat\nand a dog", "| a cat and a dog"),
    ],
)
def test_line_blocks_are_read_without_their_bars(text: str, expected: str) -> None:
    """Pandoc User's Guide, 'Line blocks'."""
    assert "\n".join(piece for _, piece in said(text)) == expected


def test_what_stands_behind_a_bar_is_found_in_its_place() -> None:
    text = "| A **big** cat\n| and a *small* dog [perro]{lang=es}"
    (activity,) = unit_of(text).activities
    (passage,) = activity.part.passages
    source = unit_of(text).source
    shown = [passage.text[start:end] for ranges in (passage.strong, passage.emphasis) for start, end in ranges]
    assert shown == ["big", "small"]
    assert [passage.text[start:end] for start, end in passage.foreign] == ["perro"]
    at = passage.text.index("dog")
    assert source.slice(passage.span(at, at + 3)) == "dog"


def test_words_of_another_language_are_known_by_their_mark() -> None:
    (passage,) = (
        unit_of("Soup is [sopa]{lang=es}, [soup]{lang=en-GB}, [soup]{.big}.").activities.__next__().part.passages
    )
    assert [passage.text[start:end] for start, end in passage.foreign] == ["sopa"]
