"""Findings carried over: the old ones stay quiet wherever they move, a new copy speaks, and the list only shrinks."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lint_rules.engine.suppression.carried import (
    BadCarried,
    Entry,
    apply_carried,
    carry_over,
    follow_renames,
    read_carried,
    write_carried,
)
from lint_rules.finding import Finding, Severity, Status
from lint_rules.source import Position, Span


def finding(words="moth", line=5, place="Lesson 1 / Look.", rule="word-above-level", path="level-1/unit-01.md", key=""):
    at = Position(line, 1)
    return Finding(rule, Severity.QUERY, path, Span(line, line + 1), at, at, words, "message", place=place, key=key)


def open_ones(findings):
    return [f for f in findings if f.status is Status.OPEN]


def test_a_finding_on_another_line_is_still_the_old_one():
    entries = carry_over([finding(line=5)])
    marked, kept, _ = apply_carried([finding(line=50)], entries)
    assert open_ones(marked) == []
    assert kept == entries


def test_a_second_copy_of_an_old_fault_is_new():
    marked, _, _ = apply_carried([finding(line=5), finding(line=6)], carry_over([finding()]))
    assert len(open_ones(marked)) == 1


def test_two_old_faults_alike_are_both_old():
    both = [finding(line=5), finding(line=6)]
    marked, _, _ = apply_carried(both, carry_over(both))
    assert open_ones(marked) == []


def test_a_paragraph_that_moves_to_another_activity_keeps_its_finding():
    marked, kept, _ = apply_carried([finding(place="Lesson 3 / Read.")], carry_over([finding()]))
    assert open_ones(marked) == []
    assert len(kept) == 1


def test_a_copy_in_another_activity_is_new_while_the_old_one_stands():
    marked, _, _ = apply_carried([finding(place="A new one.", line=2), finding(line=9)], carry_over([finding()]))
    assert [f.place for f in open_ones(marked)] == ["A new one."]


def test_what_is_missing_is_still_the_same_when_a_title_has_changed():
    old = [finding("A cake", 1, "", "target-word-not-taught", key=word) for word in ("basket", "kite")]
    new = [finding("The cake", 1, "", "target-word-not-taught", key=word) for word in ("kite", "moth")]
    marked, kept, gone = apply_carried(new, carry_over(old))
    assert [f.key for f in open_ones(marked)] == ["moth"]
    assert ([entry.key for entry in kept], [entry.key for entry in gone]) == (["kite"], ["basket"])


@pytest.mark.parametrize("other", [{"words": "moths"}, {"rule": "long-sentence"}, {"path": "level-1/unit-02.md"}])
def test_another_word_rule_or_file_is_another_finding(other):
    marked, kept, _ = apply_carried([finding(**other)], carry_over([finding()]))
    assert len(open_ones(marked)) == 1
    assert kept == ()


def test_what_cannot_be_read_is_never_carried():
    assert carry_over([finding(rule="unreadable-manuscript"), finding(rule="stet-lapsed")]) == ()


def test_the_file_says_what_was_written():
    entries = (
        Entry("long-text", "level-1/ünit.md", "Lesson: 1 / #Look", "It's\ta “moth”: yes", "x", 3, "A - b: #c"),
        Entry("a", "b", "", ""),
    )
    assert read_carried(write_carried(entries)) == entries


@pytest.mark.parametrize(
    "text",
    [
        "a: [",
        "just words",
        "- 3",
        "- {file: a, title: b}",
        "- {file: a, title: b, findings: [{rule: a, count: 0}]}",
        "- {file: a, title: b, findings: [{rule: a, line: 4}]}",
        "- {file: a, title: b, findings: [3]}",
        "[" * 900,
        "- file: a\n<<<<<<< HEAD\n  title: b\n=======\n  title: c\n>>>>>>> other\n",
    ],
)
def test_a_spoilt_file_is_an_error_that_names_it(text):
    with pytest.raises(BadCarried, match=r"carried\.yaml"):
        read_carried(text)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("- file: a\n<<<<<<< HEAD\n", "carried.yaml:2: git has left the marks of a merge"),
        ("- file: a\n>>>>>>> other\n", "carried.yaml:2: git has left the marks of a merge"),
        ("- file: a\n  title: [", "carried.yaml:2: this is not YAML"),
        ("a: 1", "carried.yaml:1: this should be a list"),
        ("- &a {file: x, title: y, findings: []}\n- *a\n", "YAML's aliases"),
        ("- {file: a, title: b, findings: [], more: 1}", "item 1 needs file, title and findings"),
        ("- {file: a, title: b, findings: []}\n- 3", "item 2 needs file, title and findings"),
        ("- {file: a, title: b, findings: [{words: x}]}", "a finding of a needs rule and words"),
        ("- {file: a, title: b, findings: [{rule: x, count: true}]}", "should be a whole number from 1"),
        ("- {file: a, title: b, findings: [{rule: x, count: two}]}", "should be a whole number from 1"),
    ],
)
def test_what_is_wrong_with_the_file_is_said(text, said):
    with pytest.raises(BadCarried) as error:
        read_carried(text)
    assert said in str(error.value)


def test_an_empty_file_carries_nothing_and_what_is_not_said_is_empty():
    assert read_carried("") == ()
    assert read_carried("# nothing\n") == ()
    assert read_carried("- {file: a, title: , findings: [{rule: long-text, words: 12}]}") == (
        Entry("long-text", "a", "", "12", "", 1, ""),
    )


def test_only_open_findings_are_carried():
    let_stand = replace(finding(), status=Status.LET_STAND)
    assert carry_over([let_stand]) == ()
    assert carry_over([finding(words="a\n moth")]) == (
        Entry("word-above-level", "level-1/unit-01.md", "Lesson 1 / Look.", "a moth", "", 1, ""),
    )
    marked, kept, _ = apply_carried([let_stand], carry_over([finding()]))
    assert (marked, kept) == ((let_stand,), ())


def test_the_place_of_an_entry_comes_before_one_that_has_moved():
    here, there = finding(place="Here."), finding(place="There.")
    marked, _, gone = apply_carried([finding(place="New."), there, here], carry_over([here, there]))
    assert [f.status for f in marked] == [Status.OPEN, Status.CARRIED, Status.CARRIED]
    assert gone == ()


def test_a_person_can_read_the_file():
    titles = {"level-1/unit-01.md": "A windy day", "level-1/unit-02.md": "At sea"}
    found = [
        finding(words="moth", place="Lesson 2 / Read."),
        finding(words="moth", place="Lesson 2 / Read."),
        finding(words="It is on the ferry.", rule="long-sentence", path="level-1/unit-02.md"),
    ]
    text = write_carried(carry_over(found, titles)).partition("itself.\n")[2]
    assert text == (
        "- file: level-1/unit-01.md\n"
        "  title: A windy day\n"
        "  findings:\n"
        "  - rule: word-above-level\n"
        "    words: moth\n"
        "    place: Lesson 2 / Read.\n"
        "    count: 2\n"
        "- file: level-1/unit-02.md\n"
        "  title: At sea\n"
        "  findings:\n"
        "  - rule: long-sentence\n"
        "    words: It is on the ferry.\n"
        "    place: Lesson 1 / Look.\n"
    )


def test_an_entry_that_a_merge_has_doubled_counts_twice_and_is_one_again_afterwards():
    twice = carry_over([finding()]) * 2
    marked, kept, _ = apply_carried([finding(line=5), finding(line=6)], twice)
    assert open_ones(marked) == []
    assert [entry.count for entry in kept] == [2]


def test_what_is_gone_is_told_and_only_that():
    entries = carry_over([finding(), finding(words="kite"), finding(words="kite", line=7)])
    _, kept, gone = apply_carried([finding(words="kite", line=70)], entries)
    assert [(entry.words, entry.count) for entry in kept] == [("kite", 1)]
    assert [(entry.words, entry.count) for entry in gone] == [("moth", 1), ("kite", 1)]


def test_what_this_run_did_not_judge_still_stands():
    entries = carry_over([finding(), finding(rule="english-error")])
    _, kept, gone = apply_carried([], entries, lambda entry: entry.rule != "english-error")
    assert [entry.rule for entry in kept] == ["english-error"]
    assert [entry.rule for entry in gone] == ["word-above-level"]


OLD, NEW = "level-1/unit-01.md", "level-1/unit-07.md"


def renamed(titles, *, title="A windy day"):
    return {entry.path for entry in follow_renames(carry_over([finding()], {OLD: title}), titles)}


def test_a_file_that_was_renamed_is_known_by_its_title():
    assert renamed({NEW: "A windy day", "level-1/unit-02.md": "At sea"}) == {NEW}


@pytest.mark.parametrize(
    "titles",
    [
        pytest.param({OLD: "Another title", NEW: "A windy day"}, id="the old file is still there"),
        pytest.param({NEW: "A windy day", "level-2/unit-01.md": "A windy day"}, id="two could be it"),
        pytest.param({NEW: "At sea"}, id="another title"),
    ],
)
def test_a_file_that_may_be_another_takes_nothing_over(titles):
    assert renamed(titles) == {OLD}


def test_a_unit_without_title_takes_nothing_over():
    assert renamed({NEW: ""}, title="") == {OLD}


WORDS = st.sampled_from(["moth", "kite", "an egg: 'x'", " - #", "1", "null", "😀\n\t~"])
FOUND = st.lists(
    st.builds(
        finding,
        words=WORDS,
        line=st.integers(1, 5),
        place=st.sampled_from(["", "Lesson 1 / Look.", "Lesson 2: / [x]"]),
        rule=st.sampled_from(["word-above-level", "long-sentence", "stet-unused"]),
        path=st.sampled_from([OLD, NEW]),
        key=st.sampled_from(["", "", "a", "b"]),
    ),
    max_size=8,
)


@given(FOUND, FOUND)
def test_it_never_grows_and_a_file_alone_is_judged_as_in_the_book(before, after):
    entries = read_carried(write_carried(carry_over(before)))
    assert open_ones(apply_carried(before, entries).findings) == [f for f in before if f.rule == "stet-unused"]
    marked, kept, gone = apply_carried(after, entries)
    assert sum(e.count for e in kept) + sum(e.count for e in gone) == sum(e.count for e in entries)
    assert apply_carried(after, kept).findings == marked
    for path in (OLD, NEW):
        alone = apply_carried([f for f in after if f.path == path], entries).findings
        assert list(alone) == [f for f in marked if f.path == path]
