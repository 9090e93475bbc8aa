"""Reading of times. The forms are those of the design, and those that teachers write (common practice, no source)."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lint_rules.page.times import Minutes, as_hours, read_time


@pytest.mark.parametrize(
    ("text", "low", "high", "words"),
    [
        ("10 minutes", 10, 10, "10 minutes"),
        ("10 min", 10, 10, "10 min"),
        ("10 min.", 10, 10, "10 min."),
        ("10 mins", 10, 10, "10 mins"),
        ("10min", 10, 10, "10min"),
        ("10'", 10, 10, "10'"),
        ("1 minute", 1, 1, "1 minute"),
        ("5–10 minutes", 5, 10, "5–10 minutes"),
        ("5-10 mins", 5, 10, "5-10 mins"),
        ("5 - 10 minutes", 5, 10, "5 - 10 minutes"),
        ("5 to 10 minutes", 5, 10, "5 to 10 minutes"),
        ("5 min – 10 min", 5, 10, "5 min – 10 min"),
        ("ten minutes", 10, 10, "ten minutes"),
        ("Twenty-five minutes", 25, 25, "Twenty-five minutes"),
        ("about 15 minutes", 15, 15, "15 minutes"),
        ("approx. 15 minutes", 15, 15, "15 minutes"),
        ("40 minutes (two short lessons)", 40, 40, "40 minutes"),
        ("40 minutes, or 50 with the song", 40, 40, "40 minutes"),
        ("1 hour", 60, 60, "1 hour"),
        ("an hour", 60, 60, "an hour"),
        ("half an hour", 30, 30, "half an hour"),
        ("1 h 30", 90, 90, "1 h 30"),
        ("1h30", 90, 90, "1h30"),
        ("1 h 30 min", 90, 90, "1 h 30 min"),
        ("1 hour and 15 minutes", 75, 75, "1 hour and 15 minutes"),
        ("1 hour 15 minutes", 75, 75, "1 hour 15 minutes"),
        ("1½ hours", 90, 90, "1½ hours"),
        ("1.5 hours", 90, 90, "1.5 hours"),
        ("an hour and a half", 90, 90, "an hour and a half"),
        ("one and a half hours", 90, 90, "one and a half hours"),
        ("1–2 hours", 60, 120, "1–2 hours"),
        ("2 x 20 minutes", 40, 40, "2 x 20 minutes"),
        ("2 × 20–25 min", 40, 50, "2 × 20–25 min"),
        ("20 minutes + 15 minutes", 35, 35, "20 minutes + 15 minutes"),
        ("10-5 minutes", 5, 10, "10-5 minutes"),
        ("45-minute lesson", 45, 45, "45-minute"),
        ("total 45 minutes", 45, 45, "45 minutes"),
        ("The whole lesson: forty-five minutes (with 5 for the register)", 45, 45, "forty-five minutes"),
        ("in all 20 minutes + 15 minutes", 35, 35, "20 minutes + 15 minutes"),
    ],
)
def test_reads_a_time_and_knows_its_words(text: str, low: float, high: float, words: str) -> None:
    found = read_time(text)
    assert found is not None
    assert found.minutes == Minutes(low, high)
    assert text[found.start : found.end] == words


@pytest.mark.parametrize(
    "text",
    [
        "",
        "40",
        "one lesson",
        "short",
        "as long as they like",
        "minutes",
        "10 more children",
        "10 metres",
        "page 10",
        "5-10",
        "at 10 o'clock",
        "warm-up 5 minutes, story 10 minutes",
        "3 groups, 5 minutes",
        "groups of three: 5 minutes each",
        "each pair 5 minutes",
        "Two lessons of 45 minutes",
        "three groups, five minutes",
        "until the bell (about 5 minutes before the end)",
        "the first 5 minutes of the lesson",
    ],
)
def test_what_is_no_time(text: str) -> None:
    assert read_time(text) is None


def test_ranges_add_up_and_print() -> None:
    assert Minutes(5, 10) + Minutes(15, 15) == Minutes(20, 25)
    assert str(Minutes(20, 25)) == "20–25 minutes"
    assert str(Minutes(1, 1)) == "1 minute"
    assert Minutes(20, 25).overlaps(Minutes(25, 40))
    assert not Minutes(20, 25).overlaps(Minutes(26, 40))


@pytest.mark.parametrize(
    ("minutes", "words"),
    [(45, "45 minutes"), (60, "1 hour"), (2310, "38 hours 30 minutes"), (61, "1 hour 1 minute"), (0, "0 minutes")],
)
def test_hours_for_people(minutes: float, words: str) -> None:
    assert as_hours(minutes) == words


@given(st.text(max_size=60))
def test_no_text_crashes_and_every_range_lies_in_it(text: str) -> None:
    found = read_time(text)
    if found is not None:
        assert 0 <= found.start < found.end <= len(text)
        assert found.minutes.low <= found.minutes.high


@given(st.integers(1, 600), st.sampled_from(["{} minutes", "{} min", "about {} mins"]))
def test_every_whole_number_of_minutes_is_read(number: int, form: str) -> None:
    found = read_time(form.format(number))
    assert found is not None
    assert found.minutes == Minutes(number, number)
