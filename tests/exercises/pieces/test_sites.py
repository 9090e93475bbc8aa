"""Where a line that nothing numbers has something to do."""

import pytest

from lint_rules.manuscript.model import Audience
from lint_rules.page.exercises.key import read_key
from lint_rules.page.exercises.model import Place
from lint_rules.page.exercises.sites import Sites
from lint_rules.page.exercises.stream import mended_passages, page_lines
from tests.exercises.test_layouts import ACTIVITY, unit_of


def sites_of(page: str, key: str = "") -> list[list[str]]:
    unit = unit_of(f"{ACTIVITY}{page}\n\n::: answers\n{key}\n:::\n")
    (activity,) = unit.activities
    passages = activity.part.passages
    read = read_key([one for one in passages if one.audience is Audience.KEY], (), unit.source)
    places = [
        Place(one.passage, one.start, one.end) for one in page_lines(activity, unit, mended_passages(activity, unit))
    ]
    sites = Sites(read)
    assert [sites.of(place) for place in places] == [sites.of(place) for place in places]
    return [[one.text for one in sites.of(place)] for place in places]


@pytest.mark.parametrize(
    ("line", "key", "sites"),
    [
        ("The hen ____ red and ____ old.", "", ["____", "____"]),
        ("The h_n is ____.", "", ["h_n", "____"]),
        ("____ ____", "", ["____", "____"]),  # two lines to write on
        ("____", "", ["____"]),
        ("a h_n and a c_w", "", ["h_n", "c_w"]),
        ("Is / Are the hens ____?", "", ["Is / Are", "____"]),
        ("The hens ____ (is / are) red.", "", ["____", "(is / are)"]),
        ("The hens ____(is / are) red.", "", ["____", "(is / are)"]),
        ("The hens (____ / are) red.", "", ["(____ / are)"]),  # of two readings the first
        ("The hen is red.", "", []),
        ("The sun is br _ ght.", "A hen\nbright", ["br _ ght"]),  # by any line of the key
        ("It lays eggs. a hen, a cow", "a hen", ["a hen, a cow"]),  # as the key shows
        ("It lays eggs. a hen, a cow", "a pig", []),
        ("It lays eggs. a hen, a cow", "a hen; a cow", ["a hen, a cow"]),
        ("*a hen, a cow* and *a goat, a pig*", "a pig; a hen", ["a goat, a pig"]),  # one alone is told so
        ("It is ____. a hen, a cow", "a hen", ["____"]),
    ],
)
def test_where_a_line_has_something_to_do(line, key, sites):
    assert sites_of(line, key) == [sites]


def test_each_line_has_its_own():
    assert sites_of("The hen is ____.\\\nThe cow is ____ and ____.\\\nI sing.") == [["____"], ["____", "____"], []]
