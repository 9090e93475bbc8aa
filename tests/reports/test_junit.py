"""JUnit XML: junit-10.xsd (the Jenkins project's xunit plugin, MIT, from the sdist of pytest 9), and what readers do.

There is no official schema. Readers keep only the first of two cases of one class and name, and take an empty suite for
no tests at all (documentation of build servers, as of 2026).
"""

from collections import Counter
from pathlib import Path

import pytest
from junitparser import Error, Failure, JUnitXml, Skipped
from lxml import etree

from tests.reports.releases import Release, hornbook, release, unit, write_course

SCHEMA = etree.XMLSchema(etree.parse(str(Path(__file__).with_name("junit-10.xsd"))))


@pytest.fixture(scope="module")
def odd(tmp_path_factory: pytest.TempPathFactory) -> Release:
    """Control characters, two equal findings at one place, a clean unit, a stet, a finding carried over."""
    root = tmp_path_factory.mktemp("odd")
    title = "A \x0b\x01 & <kite> ]]> \u2028 “x”"
    old = unit("My color.", title=title)
    write_course(root / "book", {"level-1/unit-01.md": old, "level-1/unit-02.md": unit("A kite.", 2)})
    assert hornbook("carry", "book", cwd=root)[0] == 0
    stet = "\n\n<!-- stet spelling-variety: a sign \x0b abroad -->\n\nSee the color.\n"
    (root / "book" / "level-1" / "unit-01.md").write_text(f"{old}\n\nOne color.\n\nOne color.{stet}", "utf-8")
    return release("book", root, cwd=root)


def cases_of(released: Release) -> list[tuple[str, str]]:
    return [(case.get("classname") or "", case.get("name") or "") for case in released.junit.iter("testcase")]


@pytest.mark.parametrize("name", ["example", "draft", "odd"])
def test_it_fits_the_schema(name, request):
    released = request.getfixturevalue(name)
    tree = etree.parse(str(released.folder / "out.xml"))
    for case in tree.iter(
        "testcase"
    ):  # build servers read these two (pytest's first family has them); the schema has not
        for name in ("file", "line"):
            case.attrib.pop(name, None)
    SCHEMA.assertValid(tree)


@pytest.mark.parametrize("name", ["example", "draft", "odd"])
def test_no_two_cases_have_one_name(name, request):
    cases = cases_of(request.getfixturevalue(name))
    assert [case for case, count in Counter(cases).items() if count > 1] == []


@pytest.mark.parametrize("name", ["example", "draft", "odd"])
def test_a_reader_counts_what_the_record_counts(name, request):
    released = request.getfixturevalue(name)
    read = JUnitXml.fromfile(str(released.folder / "out.xml"))
    results = [result for suite in read for case in suite for result in case.result]
    counts = released.record["counts"]
    asked = sum(
        isinstance(result, Failure) and result.type == "release" for result in results
    )  # units that are missing
    assert read.failures == sum(isinstance(result, Failure) for result in results)
    assert read.failures - asked == counts["stop"] + counts["query"]
    unchecked = len(released.record["not_checked"]) - sum(
        row["what"] == "parts of the unit" for row in released.record["not_checked"]
    )
    switched_off = sum(row["why"].startswith("switched off") for row in released.record["not_checked"])
    assert sum(isinstance(result, Skipped) for result in results) == (
        counts["let_stand"] + counts["carried"] + unchecked - switched_off
    )
    assert not any(isinstance(result, Error) for result in results)


def test_a_clean_unit_has_one_case_that_passes(odd):
    (suite,) = [s for s in odd.junit.iter("testsuite") if s.get("name") == "level-1/unit-02.md"]
    assert [(case.get("name"), len(case)) for case in suite] == [("nothing to mend", 0)]


def test_a_finding_let_stand_or_carried_is_skipped_with_its_reason(odd):
    said = [skipped.get("message") for skipped in odd.junit.iter("skipped")]
    assert "let stand: a sign \ufffd abroad" in said or "let stand: a sign abroad" in said
    assert "carried over from before (carried.yaml)" in said


def test_a_moved_finding_keeps_its_name(tmp_path):
    names = []
    for at, body in enumerate(["My color.", "A kite.\n\nA kite.\n\nMy color."]):
        (tmp_path / str(at)).mkdir()
        write_course(tmp_path / "book", {"level-1/unit-01.md": unit(body)})
        names.append(cases_of(release("book", tmp_path / str(at), cwd=tmp_path)))
    assert names[0] == names[1]
    assert names[0][0][1].startswith("spelling-variety: color")


def test_a_failure_begins_with_the_place(draft):
    for failure in draft.junit.iter("failure"):
        assert (failure.text or "").startswith("example_manuscript/first_draft/level-1/unit-0")
