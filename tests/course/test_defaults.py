"""The table of defaults: complete, each with its basis, and growing with the band."""

import pytest

from lint_rules.course.defaults import LEVEL_BANDS, default_limits, default_number, default_range, defaults
from lint_rules.course.model import CEFR_BANDS

NO_SOURCE = "common practice, no source"


def test_the_bands_are_the_councils_in_its_order():
    """Council of Europe, CEFR Companion Volume (2020): Pre-A1, A1, A2, B1, B2, C1, C2."""
    assert CEFR_BANDS == ("Pre-A1", "A1", "A2", "B1", "B2", "C1", "C2")
    assert CEFR_BANDS[: len(LEVEL_BANDS)] == LEVEL_BANDS


def test_every_default_says_where_it_is_from():
    starts = (NO_SOURCE, "house default")
    assert [row.key for row in defaults().values() if not row.basis.startswith(starts)] == []


def test_every_key_of_a_course_file_has_a_row():
    keys = (
        "lesson_minutes hours units instruction.words instruction.steps sentence.words text.words recycle unit_pattern"
        " every_unit test_skills variety ages characters places known off_list instruction_words note_fields markets"
        " sensitive_off survey.classmates rules structures art required_notes.lesson required_notes.activity"
    )
    assert set(defaults()) == set(keys.split())


@pytest.mark.parametrize("band", LEVEL_BANDS)
def test_lessons_and_hours_are_common_practice(band):
    """A lesson of 35 to 45 minutes, at least 40 hours a level: common practice, no source."""
    assert default_range("lesson_minutes", band) == (35, 45)
    assert default_number("hours", band) == 40
    assert defaults()["lesson_minutes"].basis == defaults()["hours"].basis == NO_SOURCE


def test_lengths_name_the_councils_descriptors_and_say_that_the_figures_are_ours():
    for key in ("instruction.words", "instruction.steps", "sentence.words", "text.words"):
        assert defaults()[key].basis.startswith("house default; order of magnitude: Council of Europe")


def test_lengths_never_shrink_as_levels_rise():
    for name in ("instruction_words", "instruction_steps", "sentence_words", "text_words"):
        figures = [getattr(default_limits(band), name) for band in LEVEL_BANDS]
        assert figures == sorted(figures)
        assert figures[0] < figures[-1]
