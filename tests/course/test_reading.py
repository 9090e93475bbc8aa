"""What course.yaml may say, and what it then means."""

import pytest

from lint_rules.course.defaults import LEVEL_BANDS, default_limits
from lint_rules.course.model import ACTIVITY_KINDS, Course, Level, RequiredNotes
from lint_rules.course.problem import nearest
from lint_rules.course.versions import adopts
from lint_rules.source import Source
from tests.course.support import read

FIVE_LINES = """\
title: The Tidewater Post
levels:
  - name: level-1
    cefr: {band}
    words: words/level-1.csv
"""
LIST = "word,part_of_speech,topic,unit\nkite,noun,toys,1\n"


def course(text: str, words: str = LIST) -> Course:
    """A course that has no problems."""
    result, problems = read({"course.yaml": text, "words/level-1.csv": words})
    assert problems == ()
    assert result is not None
    return result


def level(lines: str, above: str = "") -> Level:
    """The level of a course with these lines in it, and these above the levels."""
    indented = "".join(f"    {line}\n" for line in lines.splitlines())
    return course(f"title: T\n{above}levels:\n  - name: level-1\n    cefr: Pre-A1\n{indented}").levels[0]


def with_line(line: str) -> Course:
    return course(f"title: T\n{line}\nlevels:\n  - name: level-1\n    cefr: A1\n")


@pytest.mark.parametrize("band", LEVEL_BANDS)
def test_a_course_file_of_five_lines_works(band):
    small = course(FIVE_LINES.format(band=band))
    only = small.levels[0]
    assert (only.name, only.cefr, only.words_path) == ("level-1", band, "words/level-1.csv")
    assert only.limits == default_limits(band)
    assert (only.hours, only.units) == (40, 0)
    assert only.test_skills == (("listening",), ("reading", "writing"), ("speaking",))
    assert (small.variety, small.ages, small.survey_classmates) == ("en-GB", (6, 10), 3)
    assert [entry.word for entry in small.words] == ["kite"]


def test_a_level_without_a_list_has_no_words():
    assert course("title: T\nlevels:\n  - name: level-9\n    cefr: A1\n").words == ()


def test_a_list_where_lists_usually_are_is_found_without_being_named():
    found = course("title: T\nlevels:\n  - name: level-1\n    cefr: A1\n")
    assert found.levels[0].words_path == "words/level-1.csv"
    assert [entry.word for entry in found.words] == ["kite"]


def test_a_level_says_everything_itself():
    lines = """\
hours: 30
units: 6
lesson_minutes: [30, 40]
instruction: {words: 7, steps: 1}
sentence: {words: 6}
text: {words: 40}
recycle: 2
unit_pattern: [warm-up, words, test]
every_unit: [survey, story]
test_skills: [listening, speaking]"""
    said = level(lines)
    assert (said.hours, said.units, said.limits.lesson_minutes) == (30, 6, (30, 40))
    assert (said.limits.instruction_words, said.limits.instruction_steps) == (7, 1)
    assert (said.limits.sentence_words, said.limits.text_words, said.limits.recycle) == (6, 40, 2)
    assert (said.unit_pattern, said.every_unit) == (("warm-up", "words", "test"), ("survey", "story"))
    assert said.test_skills == (("listening",), ("speaking",))


def test_what_the_course_says_holds_for_levels_that_say_nothing():
    above = "units: 9\ninstruction: {words: 6, steps: 1}\nevery_unit: [survey]\n"
    said = level("instruction: {words: 7}\nevery_unit: []", above)
    assert said.units == 9
    assert (said.limits.instruction_words, said.limits.instruction_steps) == (7, 1)
    assert said.every_unit == ()


@pytest.mark.parametrize("written", ["[35, 45]", "35-45", "35–45", "35 to 45"])
def test_ranges_as_people_write_them(written):
    assert level(f"lesson_minutes: {written}").limits.lesson_minutes == (35, 45)


def test_one_number_is_a_range_too():
    assert level("lesson_minutes: 45").limits.lesson_minutes == (45, 45)


def test_a_key_with_nothing_after_it_is_as_good_as_none():
    assert level("hours:\nunit_pattern:\ninstruction:\n").hours == 40


@pytest.mark.parametrize(("written", "variety"), [("en-US", "en-US"), ("en-us", "en-US"), ("EN-AU", "en-AU")])
def test_varieties_in_any_case(written, variety):
    """RFC 5646, section 2.1.1: the case of a language tag carries no meaning."""
    assert with_line(f"variety: {written}").variety == variety


@pytest.mark.parametrize(
    ("written", "cure"),
    [
        ("en-UK", "'en-GB'"),
        ("en_GB", "'en-GB'"),
        ("British English", "'en-GB'"),
        ("American", "'en-US'"),
        ("en", "Say which English"),
        ("fr-FR", "Write one of"),
    ],
)
def test_other_varieties_are_named(written, cure):
    text = f"title: T\nvariety: {written}\nlevels:\n  - name: level-9\n    cefr: A1\n"
    _, problems = read({"course.yaml": text})
    assert len(problems) == 1
    assert (problems[0].line, problems[0].column) == (2, 10)
    assert cure in problems[0].message


@pytest.mark.parametrize(
    ("written", "structure"),
    [
        ("present-perfect", "present-perfect"),
        ("present perfect", "present-perfect"),
        ("Present Perfect", "present-perfect"),
        ("present progressive", "present-continuous"),
        ("simple past", "past-simple"),
        ("have got", "have-got"),
        ("can (ability)", "can"),
    ],
)
def test_structures_as_teachers_write_them(written, structure):
    assert with_line(f"structures: {{{written}: B1}}").structures == {structure: "B1"}


def test_rules_can_be_switched_off_without_quotation_marks():
    """In YAML 1.2 (section 10.2, core schema) `off` is a text, not a truth value."""
    assert with_line("rules: {long-sentence: off, long-text: query}").rules == {
        "long-sentence": "off",
        "long-text": "query",
    }


def test_words_that_look_like_truth_values_stay_words():
    assert with_line("known: [yes, no, on, true, 7]").known == ("yes", "no", "on", "true", "7")


def test_lists_and_small_settings():
    text = """\
title: "Tidewater: the post"
characters: [Odi, Nella, Odi]
places: [Gull Rock]
instruction_words: [trace]
note_fields: [Homework]
markets: [one]
sensitive_off: [ghosts]
off_list: picture
survey: {classmates: 6}
ages: [7, 9]
levels: [{name: level-1, cefr: A1}]
"""
    said = course(text)
    assert said.title == "Tidewater: the post"
    assert said.characters == ("Odi", "Nella")
    assert said.places == ("Gull Rock",)
    assert (said.instruction_words, said.note_fields) == (("trace",), ("Homework",))
    assert (said.markets, said.sensitive_off, said.off_list) == (("one",), ("ghosts",), "picture")
    assert (said.survey_classmates, said.ages) == (6, (7, 9))


def test_notes_and_art_are_asked_for_as_most_houses_do():
    small = course(FIVE_LINES.format(band="A1"))
    assert small.art == "briefs"
    assert small.required_notes == RequiredNotes(("Aim", "Time"), None)


def test_a_house_may_ask_for_more_or_for_less():
    said = with_line("art: files\nnote_fields: [Homework]\nrequired_notes: {activity: [time, Steps, Homework]}")
    assert said.art == "files"
    assert said.required_notes == RequiredNotes(("Aim", "Time"), ("Time", "Steps", "Homework"), of_course=True)
    assert with_line("required_notes: {lesson: [], activity: []}").required_notes == RequiredNotes(
        (), (), of_course=True
    )


@pytest.mark.parametrize("written", ["[listening, reading and writing]", "[listening, [reading, writing]]"])
def test_skills_tested_together(written):
    assert level(f"test_skills: {written}").test_skills == (("listening",), ("reading", "writing"))


def test_a_kind_of_the_courses_own_may_recur():
    assert level("every_unit: [dance, class-project]").every_unit == ("dance", "class-project")


def test_the_same_file_with_windows_line_ends_says_the_same():
    text = FIVE_LINES.format(band="A1") + "    hors: 3\n"
    for ending in ("\n", "\r\n"):
        _, problems = read({"course.yaml": text.replace("\n", ending), "words/level-1.csv": LIST})
        assert [(problem.line, problem.column) for problem in problems] == [(6, 5)]


def test_places_are_counted_in_characters_also_after_emoji():
    _, problems = read({"course.yaml": "title: T\nlevels: [{name: '\U0001f40c', cefr: A0}]\n"})
    assert [(problem.line, problem.column) for problem in problems] == [(2, 28)]


@pytest.mark.parametrize("written", ["../b.csv", "/b.csv", "C:/b.csv", "lists/../../b.csv"])
def test_a_list_outside_the_course_is_not_read(written):
    files = {"course.yaml": f"title: T\nlevels: [{{name: a, cefr: A1, words: '{written}'}}]\n"}
    _, problems = read(files | {written: LIST, "../b.csv": LIST})
    assert len(problems) == 1
    assert "inside the course" in problems[0].message


@pytest.mark.parametrize("text", ["[" * 3000, "{a: " * 3000, "- " * 3000, "a: " + "x" * 1_000_001])
def test_files_that_are_meant_to_break_a_reader(text):
    result, problems = read({"course.yaml": text})
    assert result is None
    assert len(problems) == 1
    assert (problems[0].line, problems[0].column) == (1, 1) or problems[0].line == 1


def test_aliases_that_hold_themselves_are_harmless():
    result, problems = read({"course.yaml": "title: T\nknown: &a [*a]\nlevels: &l [{name: x, cefr: A1, units: *l}]\n"})
    assert result is not None
    assert len(problems) == 2


def test_a_course_with_problems_can_still_be_looked_at():
    result, problems = read({"course.yaml": "title: T\nlevels: [{name: level-1, cefr: A0, hours: -1}]\n"})
    assert result is not None
    assert (result.levels[0].cefr, result.levels[0].hours) == ("A1", 40)
    assert all(problem.stops for problem in problems)


def test_plans_come_in_teaching_order():
    from lint_rules.course.reading import plans_of

    planned = course("title: T\nlevels: [{name: level-1, cefr: A1}, {name: level-2, cefr: A1}]\n")
    heads = [("level-2/a.md", "level-2", "1"), ("level-1/unit-10.md", "level-1", "10")]
    heads += [
        ("level-1/unit-9.md", "level-1", "9"),
        ("level-1/x.md", "nowhere", "2"),
        ("level-1/y.md", "level-1", "no"),
    ]
    units = [
        Source(path, f"---\nlevel: {name}\nunit: {unit}\ntitle: T\ngrammar: [can]\n---\n") for path, name, unit in heads
    ]
    plans = plans_of(planned, units).plans
    assert [(plan.level, plan.unit, plan.path) for plan in plans] == [
        (0, 2, "level-1/x.md"),
        (0, 9, "level-1/unit-9.md"),
        (0, 10, "level-1/unit-10.md"),
        (1, 1, "level-2/a.md"),
    ]
    assert plans[0].grammar == ("can",)


@pytest.mark.parametrize(
    ("path", "found"),
    [
        ("level-1/unit-01.md", "level-1"),
        ("level-1/notes/unit-01.md", None),
        ("level-1/.hidden.md", None),
        ("level-1/unit.txt", None),
        ("level-9/unit-01.md", None),
        ("README.md", None),
    ],
)
def test_which_paths_are_unit_files(path, found):
    named = course(FIVE_LINES.format(band="A1")).level_of(path)
    assert (named.name if named else None) == found


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ("making", "make"),
        ("songs", "song"),
        ("games", "game"),
        ("write", "writing"),
        ("storry", "story"),
        ("speeking", "speaking"),
        ("kite", None),
    ],
)
def test_the_name_that_was_meant_is_the_same_word_before_it_is_a_like_one(written, meant):
    assert nearest(written, ACTIVITY_KINDS) == meant


@pytest.mark.parametrize(
    ("written", "meant"),
    [("0.1", "0.1"), ("0.2", "0.2"), ("'0.2'", "0.2"), ("0.2.0", "0.2.0"), ("", "0.1"), ("~", "0.1")],
)
def test_the_version_a_course_has_adopted(written, meant):
    assert with_line(f"adopted: {written}").adopted == meant


@pytest.mark.parametrize(
    ("written", "said"),
    [
        ("yes", "'adopted' must be a version of hornbook, e.g. adopted: 0.2."),
        ("2", "'adopted' must be a version of hornbook, e.g. adopted: 0.2."),
        ("[0.2]", "'adopted' must be a version of hornbook, e.g. adopted: 0.2."),
        ("0.2-beta", "'adopted' must be a version of hornbook, e.g. adopted: 0.2."),
        ("0.0", "There is no hornbook 0.0; the first is 0.1."),
        ("0.2.1", "This is hornbook 0.2.0, and the course asks for 0.2.1. Install that, or write adopted: 0.2."),
        ("0.10", "This is hornbook 0.2.0, and the course asks for 0.10. Install that, or write adopted: 0.2."),
        ("1.0", "This is hornbook 0.2.0, and the course asks for 1.0. Install that, or write adopted: 0.2."),
    ],
)
def test_a_version_that_there_has_not_been(monkeypatch, written, said):
    monkeypatch.setattr("lint_rules.course.reading.__version__", "0.2.0")
    monkeypatch.setattr("lint_rules.course.reading.CURRENT", "0.2")
    _, problems = read({"course.yaml": f"title: T\nadopted: {written}\nlevels:\n  - name: level-1\n    cefr: A1\n"})
    assert [(p.line, p.column, p.message) for p in problems] == [(2, 10, said)]


def test_the_adopted_version_is_the_courses_not_a_levels():
    text = "title: T\nlevels:\n  - name: level-1\n    cefr: A1\n    adopted: 0.2\n"
    _, problems = read({"course.yaml": text})
    assert [p.message.split(",")[0] for p in problems] == ["'adopted' belongs to the whole course"]


def test_versions_are_compared_as_numbers():
    assert adopts("0.10", "0.9")
    assert adopts("0.2", "0.2")
    assert adopts("0.2.1", "0.2")
    assert not adopts("0.1", "0.2")
    assert not adopts("0.1.9", "0.2")


@pytest.mark.parametrize(("written", "hours"), [("12", 12), ("4.5", 4.5), ("10.75", 10.75)])
def test_hours_may_be_halves(written, hours):
    text = f"title: T\nlevels:\n  - {{name: level-1, cefr: A1, hours: {written}}}\n"
    course, problems = read({"course.yaml": text})
    assert course is not None
    assert problems == ()
    assert course.levels[0].hours == hours
