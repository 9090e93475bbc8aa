"""What the timing rules say, word for word, and at which weight."""

from lint_rules.engine.extract_facts import facts_of
from lint_rules.finding import Found, Severity
from lint_rules.manuscript.reading import read_unit
from lint_rules.rule import Book, Reading
from lint_rules.rules.timing import course_hours, lesson_length, lesson_time_mismatch, missing_time, unlikely_time
from lint_rules.source import Source
from tests.support import course_of, no_analysis, no_english

WORDS = "word,part_of_speech,topic,unit\n"


def reading_of(body: str, level: str = "", unit: int = 1) -> Reading:
    course = course_of(
        {
            "course.yaml": "title: T\nlevels:\n  - {name: level-1, cefr: A1, words: words/level-1.csv" + level + "}\n",
            "words/level-1.csv": WORDS,
        }
    )
    front = f"---\nlevel: level-1\nunit: {unit}\ntitle: Kites\n---\n\n# Kites\n\n"
    read = read_unit(Source(f"level-1/unit-{unit:02}.md", front + body))
    return Reading(read, course, course.levels[0], no_analysis, no_english)


def lesson(total: str, *times: str) -> str:
    notes = f"::: teacher\n**Time:** {total}\n:::\n\n" if total else ""
    activities = "".join(
        f"### {number} Say. {{.song}}\n\n" + (f"::: teacher\n**Time:** {time}\n:::\n\n" if time else "")
        for number, time in enumerate(times, 1)
    )
    return f"## Lesson 1: Up\n\n{notes}{activities}"


def only(found: list[Found]) -> Found:
    assert len(found) == 1
    return found[0]


def hours(level: str, *units: str) -> list[Found]:
    readings = [reading_of(body, level, number) for number, body in enumerate(units, 1)]
    return list(course_hours.find_in_book(Book(readings[0].course, tuple(facts_of(reading) for reading in readings))))


def test_mismatch_shows_the_sum() -> None:
    found = only(list(lesson_time_mismatch.find(reading_of(lesson("45 minutes", "10 minutes", "5–10 min", "20'")))))
    assert found.text == "45 minutes"
    assert found.message == (
        "The lesson says 45 minutes, but its activities add up to 35–40 minutes (10 + 5–10 + 20). "
        "Change the total, or the time of an activity."
    )


def test_length_names_the_level_and_what_to_do() -> None:
    found = only(list(lesson_length.find(reading_of(lesson("1 hour")))))
    assert found.message == (
        "This lesson takes 60 minutes; a lesson of level-1 takes 35–45 minutes. "
        "Shorten an activity, or move one to another lesson."
    )
    short = only(list(lesson_length.find(reading_of(lesson("", "10 minutes", "10 minutes")))))
    assert (short.text, short.severity) == ("Up", None)
    assert short.message.endswith("Add an activity, or give one more time.")


def test_a_total_that_may_run_over_is_a_note() -> None:
    found = only(list(lesson_length.find(reading_of(lesson("40–50 minutes")))))
    assert found.severity is Severity.NOTE


def test_what_cannot_be_read_is_quoted() -> None:
    found = only(list(missing_time.find(reading_of(lesson("a short lesson")))))
    assert found.text == "a short lesson"
    assert found.message == ("“a short lesson” cannot be read as a time. Write it as “10 minutes” or “5–10 minutes”.")


def test_a_lesson_without_a_time_is_named_and_an_activity_where_most_others_have_theirs() -> None:
    def missing(*times: str) -> list[str]:
        return [found.text for found in missing_time.find(reading_of(lesson(*times)))]

    assert missing("", "5 min", "5 min", "") == ["Up", "Say."]
    assert missing("40 minutes", "", "5 min", "") == []
    assert missing("40 minutes", "", "", "") == []


def test_the_time_to_write_is_one_that_a_lesson_or_an_activity_may_have() -> None:
    whole, part = missing_time.find(reading_of(lesson("", "5 min", "")))
    assert whole.message.endswith("**Time:** 40 minutes.")
    assert part.message.endswith("**Time:** 10 minutes.")


def test_an_unlikely_time_is_explained() -> None:
    body = "### 1 Make a kite. {.make}\n\n1. Fold.\n2. Draw.\n\n::: teacher\n**Time:** 2 minutes\n:::\n"
    found = only(list(unlikely_time.find(reading_of(body))))
    assert found.message == (
        "2 minutes looks short for this (make, 2 items): about 5–57 minutes is usual, with setting up and looking "
        "at the answers. That is a rough estimate: let it stand if you know better."
    )


def test_hours_once_all_units_are_there() -> None:
    found = only(hours(", hours: 2, units: 2", lesson("40 minutes"), lesson("", "20 minutes", "10–15 minutes")))
    assert found.path == "level-1/unit-01.md"
    assert found.severity is None
    assert found.message == (
        "level-1 promises 2 hours of classwork and is 45 minutes short, with 1 hour 10 minutes to 1 hour 15 minutes "
        "in 2 units. Add lessons, or promise fewer hours."
    )


def test_hours_are_a_forecast_until_then() -> None:
    found = only(hours(", hours: 2, units: 4", lesson("20 minutes"), lesson("")))
    assert found.severity is Severity.NOTE
    assert found.message == (
        "level-1 promises 2 hours of classwork, and at the pace so far (20 minutes in 2 units, 1 lesson without a "
        "time) its 4 units come to about 40 minutes. Plan more lessons, or set fewer hours."
    )


def test_hours_that_suffice_are_left_alone() -> None:
    assert hours(", hours: 1, units: 1", lesson("1 hour")) == []
    assert hours(", hours: 1, units: 2", lesson("30 minutes")) == []
    assert hours(", hours: 1", lesson("90 minutes")) == []
    assert hours(", hours: 1, units: 1", lesson("30 minutes"), lesson("30 minutes")) == []
