"""Whatever is in course.yaml and the word lists: no crash, and every problem has a place in its file and a cure."""

import csv
import io
import json
import string

from hypothesis import given
from hypothesis import strategies as st

from lint_rules.course.folder import decode
from lint_rules.course.problem import CourseProblem
from lint_rules.source import Source
from tests.course.support import is_inside, read, read_list

GOOD = """\
title: The Tidewater Post
variety: en-GB
ages: 6-10
characters: [Odi, Nella]
known: [pizza]
structures: {present perfect: B1}
rules: {long-sentence: note}
survey: {classmates: 8}
levels:
  - name: level-1
    cefr: Pre-A1
    words: words/level-1.csv
    lesson_minutes: [35, 45]
    instruction: {words: 8, steps: 2}
    unit_pattern: [warm-up, words]
    test_skills: [listening, [reading, writing]]
"""
LIST = 'word,part_of_speech,topic,unit,use,note\nkite,noun,toys|weather,1,say,"a, b"\nice cream,noun,food,2,,\n'

characters = st.sampled_from("abeorx019 \n\r\t:-,;[]{}#&*!|>'\"%@`~?.\\/\u2028\ufeffé\U0001f600\x00\x85")
scraps = st.one_of(
    st.text(characters, max_size=6),
    st.sampled_from(
        [
            "\n",
            "  ",
            "- ",
            ": ",
            "name",
            "levels:\n",
            "<<: ",
            "&a ",
            "*a",
            "!!int ",
            "- - ",
            '"',
            "1e9",
            "-3",
            "[[",
            "|\n",
        ]
    ),
)


@st.composite
def edited(draw: st.DrawFn, text: str) -> str:
    """A good file with a few pieces taken out and a few scraps put in."""
    for _ in range(draw(st.integers(1, 4))):
        start = draw(st.integers(0, len(text)))
        end = min(len(text), start + draw(st.integers(0, 12)))
        text = text[:start] + draw(scraps) + text[end:]
    return text


# JSON is YAML: any nest of values, keys of the course among them.
keys = st.sampled_from([*(line.split(":")[0].strip(" -") for line in GOOD.splitlines()), "words", "steps", "x", ""])
values = st.recursive(
    st.one_of(st.none(), st.booleans(), st.integers(-5, 200), st.floats(), st.text(string.printable, max_size=8), keys),
    lambda inner: st.one_of(st.lists(inner, max_size=3), st.dictionaries(keys, inner, max_size=6)),
    max_leaves=20,
)


def check(files: dict[str, str]) -> None:
    course, problems = read(files)
    assert course is not None or any(problem.stops for problem in problems)
    for problem in problems:
        assert is_inside(problem, Source(problem.path, files[problem.path])), problem
        assert len(problem.message.splitlines()) == 1, problem.message
        assert problem.message.strip().endswith((".", "?", "…")), problem.message


@given(edited(GOOD))
def test_a_course_file_with_slips_never_crashes(text):
    check({"course.yaml": text, "words/level-1.csv": LIST})


@given(values)
def test_a_course_file_of_any_values_never_crashes(value):
    text = _as_flow(value)
    check({"course.yaml": text, "words/level-1.csv": LIST})


@given(st.text(characters, max_size=40))
def test_any_text_as_course_file_never_crashes(text):
    check({"course.yaml": text})


@given(st.one_of(edited(LIST), st.text(characters, max_size=60)))
def test_any_text_as_word_list_never_crashes(text):
    check({"course.yaml": GOOD, "words/level-1.csv": text})


@given(st.binary(max_size=40))
def test_bytes_are_read_or_have_a_place(data):
    read_bytes = decode("words/level-1.csv", data)
    if isinstance(read_bytes, CourseProblem):
        assert read_bytes.line >= 1
        assert read_bytes.column >= 1
    else:
        assert read_bytes.encode() == data


cells = st.text(st.sampled_from("abc ,;\"'\n|é-"), max_size=8)


@given(
    rows=st.lists(st.tuples(st.integers(0, 10**6), cells), max_size=5),
    separator=st.sampled_from(",;"),
    line_end=st.sampled_from(["\n", "\r\n"]),
    order=st.permutations(["word", "part_of_speech", "topic", "unit", "note"]),
    quoting=st.sampled_from([csv.QUOTE_MINIMAL, csv.QUOTE_ALL]),
)
def test_what_the_csv_module_writes_is_read_back(rows, separator, line_end, order, quoting):
    out = io.StringIO()
    writer = csv.DictWriter(out, order, delimiter=separator, lineterminator=line_end, quoting=quoting)
    writer.writeheader()
    for number, note in rows:
        writer.writerow({"word": f"w{number}", "part_of_speech": "noun", "topic": "a|b", "unit": "3", "note": note})
    course, problems = read_list(out.getvalue())
    distinct = list(dict.fromkeys(f"w{number}" for number, _ in rows))
    assert [entry.word for entry in course.words] == distinct
    assert all("the same in every way" in problem.message for problem in problems)
    first_notes = {f"w{number}": " ".join(note.split()) for number, note in reversed(rows)}
    assert {entry.word: entry.note for entry in course.words} == first_notes


@given(notes=st.lists(cells, min_size=1, max_size=4), separator=st.sampled_from(",;"))
def test_a_problem_points_at_its_own_cell(notes, separator):
    out = io.StringIO()
    writer = csv.writer(out, delimiter=separator, lineterminator="\n")
    writer.writerow(["note", "word", "part_of_speech", "topic", "unit"])
    for index, note in enumerate(notes):
        writer.writerow([note, f"w{index}", f"nuon{index}", "", ""])
    text = out.getvalue()
    course, problems = read_list(text)
    source = Source("words/level-1.csv", text)
    assert len(problems) == len(notes)
    for problem in problems:
        assert source.line_text(problem.line)[problem.column - 1 :].startswith("nuon")
    assert [source.line_starts[entry.row - 1] for entry in course.words] == _row_starts(notes, text)


def _row_starts(notes, text):
    starts, at = [], text.index("\n") + 1
    for index in range(len(notes)):
        starts.append(at)
        at = text.index("\n", text.index(f"w{index}", at)) + 1
    return starts


def _as_flow(value):
    """A value as a flow collection that YAML reads."""
    if isinstance(value, dict):
        return "{" + ", ".join(f"{_as_flow(key)}: {_as_flow(item)}" for key, item in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(map(_as_flow, value)) + "]"
    return json.dumps(value)
