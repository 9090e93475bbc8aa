"""What is left of a place when some of it is cut away."""

import pytest

from lint_rules.page.exercises.drafts import trimmed, without
from lint_rules.page.exercises.model import Place
from tests.exercises.pieces.places import place_of


@pytest.mark.parametrize(
    ("cut", "left"),
    [
        ([], ["one two three"]),
        (["two"], ["one ", " three"]),
        (["one"], [" two three"]),
        (["three"], ["one two "]),
        (["one", "three"], [" two "]),
        (["three", "one"], [" two "]),  # in whatever order they come
        (["one two", "two"], [" three"]),  # the one within the other
        (["one two", "two three"], []),
        (["one", "two", "three"], []),  # spaces are nothing to read
    ],
)
def test_what_is_left(cut, left):
    place = place_of("one two three")
    places = [Place(place.passage, at := place.text.index(words), at + len(words)) for words in cut]
    assert [one.text for one in without(place, places)] == left


def test_only_what_stands_within_a_place_is_cut_from_it():
    whole = place_of("one two three")
    middle = Place(whole.passage, 4, 7)
    outside = [Place(whole.passage, 0, 3), Place(whole.passage, 8, 13), place_of("one two three")]
    assert [one.text for one in without(middle, outside)] == ["two"]
    assert [one.text for one in without(middle, [Place(whole.passage, 2, 5)])] == ["wo"]
    assert [one.text for one in without(middle, [Place(whole.passage, 6, 9)])] == ["tw"]


@pytest.mark.parametrize(
    ("page", "bare"),
    [("/ two ,", "two"), ("☐ a hen;", "a hen"), ("a hen", "a hen"), ("/ , ;", ""), ("“Hen.”", "“Hen.”")],
)
def test_a_place_without_what_divides_it_from_its_neighbours(page, bare):
    place = trimmed(place_of(page))
    assert place.text == bare
    assert place.start <= place.end
