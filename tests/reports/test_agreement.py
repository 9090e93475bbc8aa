"""All outputs say the same: the points of the example and of its draft, in each format, from runs of `release`; and,
where each finding is shown on its own (a pipe, JSON, the places of a point), the same findings.
"""

import json
import re
from collections import Counter
from urllib.parse import unquote

import pytest

from tests.reports.releases import DRAFT, EXAMPLE, Release, hornbook, page_of

Seen = tuple[str, str, str, int, int, str]  # path, rule, severity, line, column, message
GNU = re.compile(r"(?P<path>[^:]+):(?P<line>\d+):(?P<column>\d+): (?P<severity>stop|query|note): (?P<rest>.*)")
LEVELS = {"error": "stop", "warning": "query", "note": "note"}


def plain(message: str) -> str:
    """A message without what a format may set in its own way: white space, and code in backquotes."""
    return " ".join(message.replace("`", "").split())


def in_gnu_lines(said: str) -> list[Seen]:
    found = []
    for line in said.splitlines():
        match = GNU.fullmatch(line)
        if match:
            message, _, rule = match["rest"].removesuffix("]").rpartition(" [")
            place = int(match["line"]), int(match["column"])
            found.append((match["path"], rule, match["severity"], *place, plain(message)))
    return found


def in_json(course: str) -> tuple[list[Seen], list[Seen], list[list[int]]]:
    """The findings; the points, each at its heaviest finding of its rule; the findings of each point, by number."""
    said = json.loads(hornbook("release", course, "--format", "json")[1])
    findings = [
        (f["path"], f["rule"], f["severity"], f["line"], f["column"], plain(f["message"])) for f in said["findings"]
    ]
    points = []
    for point in said["points"]:
        own = [findings[at] for at in point["findings"] if findings[at][1:3] == (point["rule"], point["severity"])]
        points.append((*own[0][:5], plain(point["message"])))
    return findings, points, [point["findings"] for point in said["points"]]


def in_sarif(released: Release, *, suppressed: bool = False) -> list[Seen]:
    found = []
    for result in released.run["results"]:
        if bool(result["suppressions"]) is suppressed:
            physical = result["locations"][0]["physicalLocation"]
            region, path = physical["region"], unquote(physical["artifactLocation"]["uri"])
            place = region["startLine"], region["startColumn"]
            severity = LEVELS[result["level"]]
            message = result["message"]["text"].replace("{{", "{").replace("}}", "}")  # SARIF 2.1.0 §3.11.5
            found.append((path, result["ruleId"], severity, *place, plain(message)))
    return found


def in_junit(released: Release, *, skipped: bool = False) -> list[Seen]:
    found = []
    for case in released.junit.iter("testcase"):
        for child in case:
            if (child.tag == "skipped") is skipped and child.text:
                found += in_gnu_lines(child.text.replace("`", ""))
    return found


def in_page(released: Release, *, settled: bool = False) -> list[Seen]:
    page = page_of(released)
    found = []
    for item in page.xpath("//li[@data-status]" if settled else "//li[contains(@class, 'point')]"):
        path = item.get("data-path")
        line, column = item.get("data-at").split("-")[0].split(":")
        message = plain(item.xpath("string(.//span[@class='text'])"))
        found.append((path, item.get("data-rule"), item.get("data-severity"), int(line), int(column), message))
    return found


@pytest.mark.parametrize(("course", "name"), [(EXAMPLE, "example"), (DRAFT, "draft")])
def test_every_format_has_the_same_points_and_findings(course, name, request):
    released = request.getfixturevalue(name)
    findings, points, numbers = in_json(course)
    assert name == "example" or len(findings) > len(points) > 40
    assert sorted(at for some in numbers for at in some) == list(range(len(findings)))
    assert Counter(in_gnu_lines(released.said)) == Counter(findings)
    assert Counter(in_junit(released)) == Counter(findings)
    assert Counter(in_sarif(released)) == Counter(points)
    assert Counter(in_page(released)) == Counter(points)
    assert len(points) == sum(released.record["counts"][name] for name in ("stop", "query", "note"))


def test_a_point_has_all_its_places_in_sarif_and_on_the_page(draft):
    _, points, numbers = in_json(DRAFT)
    places = Counter(len(some) for some in numbers)
    assert max(places) > 3
    open_ones = [result for result in draft.run["results"] if not result["suppressions"]]
    assert Counter(1 + len(result.get("relatedLocations", ())) for result in open_ones) == places
    shown = [len(item.xpath(".//*[contains(@class, 'finding')]")) for item in page_of(draft).xpath("//li[@data-units]")]
    assert len(shown) == len(points)
    assert max(shown) > 3


@pytest.mark.parametrize("name", ["example", "draft"])
def test_every_format_has_the_same_findings_that_do_not_count(name, request):
    released = request.getfixturevalue(name)
    wanted = Counter(in_sarif(released, suppressed=True))
    assert Counter(in_junit(released, skipped=True)) == wanted
    assert Counter(in_page(released, settled=True)) == wanted
    assert sum(wanted.values()) == released.record["counts"]["let_stand"] + released.record["counts"]["carried"]


@pytest.mark.parametrize("name", ["example", "draft"])
def test_findings_stand_in_one_order(name, request):
    released = request.getfixturevalue(name)
    order = [(path, line, column, rule) for path, rule, _, line, column, _ in in_gnu_lines(released.said)]
    assert order == sorted(order)
    points = [(p, ln, c, r) for p, r, _, ln, c, _ in in_sarif(released)]
    assert points == sorted(points)
    assert set(points) <= set(order)
