"""Findings carried over: the old ones stay quiet wherever they move, a new copy speaks, and the list only shrinks."""

import pytest

from lint_rules.finding import Finding, Severity, Status
from lint_rules.letstand.carried import BadCarried, Entry, apply_carried, carry_over, read_carried, write_carried
from lint_rules.source import Position, Span


def finding(words="moth", line=5, place="Lesson 1 / Look.", rule="word-above-level", path="level-1/unit-01.md"):
    at = Position(line, 1)
    return Finding(rule, Severity.QUERY, path, Span(line, line + 1), at, at, words, "message", place=place)


def open_ones(findings):
    return [f for f in findings if f.status is Status.OPEN]


def test_a_finding_on_another_line_is_still_the_old_one():
    entries = carry_over([finding(line=5)])
    marked, kept = apply_carried([finding(line=50)], entries)
    assert open_ones(marked) == []
    assert kept == entries


def test_a_second_copy_of_an_old_fault_is_new():
    marked, _ = apply_carried([finding(line=5), finding(line=6)], carry_over([finding()]))
    assert len(open_ones(marked)) == 1


def test_two_old_faults_alike_are_both_old():
    both = [finding(line=5), finding(line=6)]
    marked, _ = apply_carried(both, carry_over(both))
    assert open_ones(marked) == []


def test_a_paragraph_that_moves_to_another_activity_keeps_its_finding():
    marked, kept = apply_carried([finding(place="Lesson 3 / Read.")], carry_over([finding()]))
    assert open_ones(marked) == []
    assert len(kept) == 1


def test_a_copy_in_another_activity_is_new_while_the_old_one_stands():
    marked, _ = apply_carried([finding(place="A new one.", line=2), finding(line=9)], carry_over([finding()]))
    assert [f.place for f in open_ones(marked)] == ["A new one."]


@pytest.mark.parametrize("other", [{"words": "moths"}, {"rule": "long-sentence"}, {"path": "level-1/unit-02.md"}])
def test_another_word_rule_or_file_is_another_finding(other):
    marked, kept = apply_carried([finding(**other)], carry_over([finding()]))
    assert len(open_ones(marked)) == 1
    assert kept == ()


def test_what_cannot_be_read_is_never_carried():
    assert carry_over([finding(rule="unreadable-manuscript"), finding(rule="stet-lapsed")]) == ()


def test_the_file_says_what_was_written():
    entries = (
        Entry("long-text", "level-1/ünit.md", "Lesson: 1 / #Look", "It's\ta “moth”: yes", "x", 3),
        Entry("a", "b", "", ""),
    )
    assert read_carried(write_carried(entries)) == entries


@pytest.mark.parametrize(
    "text", ["a: [", "just words", "- 3", "- {rule: a, path: b, count: 0}", "- {rule: a, path: b, line: 4}"]
)
def test_a_spoilt_file_is_an_error_that_names_it(text):
    with pytest.raises(BadCarried, match=r"carried\.yaml"):
        read_carried(text)
