"""Numbers in words and figures (common practice, no source)."""

import pytest

from lint_rules.page.number_words import clock_times_in, numbers_in, ordinals_in


@pytest.mark.parametrize(
    ("text", "number", "thing"),
    [
        ("There are twelve eggs.", 12, "eggs"),
        ("forty-two boats", 42, "boats"),
        ("A hundred and twenty kilos!", 120, "kilos"),
        ("It has three hundred rooms.", 300, "rooms"),
        ("nine hundred and ninety-nine steps", 999, "steps"),
        ("the 120 steps", 120, "steps"),
        ("fourteen thousand books", 14000, "books"),
        ("two thousand six hundred years", 2600, "years"),
        ("one thousand, two hundred and fifty-six", 1256, ""),
        ("two hundred thousand and five", 200005, ""),
        ("14,000 books", 14000, "books"),
        ("There are four: the queen and the bear.", 4, ""),
    ],
)
def test_numbers_and_what_they_count(text: str, number: int, thing: str) -> None:
    ((told, start, end, of),) = numbers_in(text)
    assert (told, of) == (number, thing)
    assert not text[:start].endswith("hundred ")
    assert text[end:].lstrip().startswith(thing)


@pytest.mark.parametrize(
    "text",
    [
        "sıx cats",
        "SİX cats",
        "² hats",
        "It is a cat.",
        "Look at page 12.",
        "At 9:30 we go.",
        "hundreds of birds",
        "Two: a bag.",
        "A hen. 3: a fox",
        "Scene 4: a hen",
        "Player 1: go",
    ],
)
def test_what_is_no_number(text: str) -> None:
    assert list(numbers_in(text)) == []


@pytest.mark.parametrize(
    ("text", "times"),
    [
        ("It stopped at twenty to eight.", {"7:40"}),
        ("A 7.20   B 7.40", {"7:20", "7:40"}),
        ("half past five, a quarter to one", {"5:30", "12:45"}),
        ("at 15:30", {"3:30"}),
        ("at five o'clock", set()),
        ("It costs £2.50. We need 1.755 kilos.", set()),
    ],
)
def test_times_of_day_have_one_form(text: str, times: set[str]) -> None:
    assert clock_times_in(text) == times


@pytest.mark.parametrize(
    ("text", "days"),
    [
        ("The party is on the thirtieth of June.", {"30", "30th"}),
        ("It begins on 3rd May and ends on the twenty-first of August.", {"3", "3rd", "21", "21st"}),
        ("The first duck is in the second picture.", {"1st", "2nd"}),
        ("It may be the third.", {"3rd"}),
        ("Thirty ducks, and 3 threads.", set()),
    ],
)
def test_ordinals_and_the_days_that_they_name(text: str, days: set[str]) -> None:
    assert ordinals_in(text) == days


@pytest.mark.parametrize(
    ("text", "times"),
    [
        ("It is ready at seven fifteen.", {"7:15"}),
        ("At half past nine.", {"9:30"}),
        ("Seven ducks and fifteen hens.", set()),
    ],
)
def test_times_that_are_spoken(text: str, times: set[str]) -> None:
    assert clock_times_in(text) == times
