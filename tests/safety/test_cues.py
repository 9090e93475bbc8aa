"""The hazard table and its reading: the table's own sentences, and as many of our own that fire or stay quiet."""

import re
import time
from pathlib import Path

import msgspec.yaml
import pytest
from hypothesis import given
from hypothesis import strategies as st

from lint_rules.safety import hazards
from lint_rules.safety.cue_lists import cues_in_materials, missing_topics
from lint_rules.safety.cues import cues_in_actions
from lint_rules.safety.hazards import hazard_table

HERE = Path(__file__).parent
HAZARDS = {hazard.id: hazard for hazard in hazard_table().hazards}
TABLE = msgspec.yaml.decode(hazards._TABLE.read_bytes())  # with its sources and test sentences
ROWS = TABLE["hazards"]


def lines(name: str) -> list[str]:
    text = (HERE / name).read_text(encoding="utf-8")
    return [line for line in text.splitlines() if line.strip() and not line.startswith("#")]


def unmarked(line: str) -> tuple[str, list[str]]:
    return line.replace("«", "").replace("»", ""), re.findall("«(.*?)»", line)


@pytest.mark.parametrize(("hazard", "sentence"), [(row["id"], s) for row in ROWS for s in row["test_fire"]])
def test_the_tables_own_sentences_fire(hazard: str, sentence: str) -> None:
    assert hazard in [cue.hazard.id for cue in cues_in_actions(sentence)]


@pytest.mark.parametrize(("hazard", "sentence"), [(row["id"], s) for row in ROWS for s in row["test_quiet"]])
def test_the_tables_own_sentences_stay_quiet(hazard: str, sentence: str) -> None:
    assert hazard not in [cue.hazard.id for cue in cues_in_actions(sentence)]


@pytest.mark.parametrize("line", lines("acts_quiet.txt"))
def test_classroom_sentences_stay_quiet(line: str) -> None:
    assert [(cue.hazard.id, line[cue.start : cue.end]) for cue in cues_in_actions(line)] == []


@pytest.mark.parametrize("line", lines("acts_fire.txt"))
def test_acts_fire_at_their_words(line: str) -> None:
    hazard, marked = line.split(": ", 1)
    sentence, words = unmarked(marked)
    assert [sentence[cue.start : cue.end] for cue in cues_in_actions(sentence) if cue.hazard.id == hazard] == words


@pytest.mark.parametrize("line", lines("materials.txt"))
def test_materials_fire_at_their_words(line: str) -> None:
    text, words = unmarked(line)
    places = sorted({(cue.start, cue.end) for cue in cues_in_materials(text)})
    assert [text[start:end] for start, end in places] == words


@pytest.mark.parametrize("line", lines("notes.txt"))
def test_what_a_note_must_say(line: str) -> None:
    hazard, verdict, where, note = line.split(": ", 3)
    row = HAZARDS[hazard]
    missing = missing_topics(row, [note], []) if where == "safety" else missing_topics(row, [], [note])
    assert ("enough" if not missing else "not enough") == verdict


@pytest.mark.parametrize("hazard", HAZARDS)
def test_every_draft_says_what_its_row_asks_and_defers_to_the_school(hazard: str) -> None:
    row = HAZARDS[hazard]
    draft = row.draft_note
    assert missing_topics(row, [draft], []) == ()
    assert "your school's" in draft.lower()


@pytest.mark.parametrize("hazard", HAZARDS)
def test_no_row_is_satisfied_by_a_steps_line_that_says_nothing_of_care(hazard: str) -> None:
    row = HAZARDS[hazard]
    steps = "Children stand in a line in small groups. The teacher plays the audio. Clear the board and count to three."
    assert missing_topics(row, [], [steps]) != ()


def test_every_source_says_how_far_it_was_confirmed() -> None:
    evidence = TABLE["meta"]["evidence"]
    assert all(source["evidence"] in evidence for row in ROWS for source in row["source"])
    assert len(ROWS) == 36


def test_words_that_raise_a_query_to_a_stop() -> None:
    (bag,) = [c for c in cues_in_actions("Put the bin bag over your head.") if c.hazard.id == "plastic-bags"]
    (shot,) = [c for c in cues_in_actions("Make a catapult from sticks.") if c.hazard.id == "catapults-darts-throwing"]
    (ball,) = [c for c in cues_in_actions("Throw the ball.") if c.hazard.id == "catapults-darts-throwing"]
    assert (bag.raised, shot.raised, ball.raised) == (True, True, False)


def test_flashcards_make_a_touched_dog_a_picture() -> None:
    assert [cue.hazard.id for cue in cues_in_actions("Run and touch the dog.")] == ["animals"]
    assert cues_in_actions("Run and touch the dog.", pictures=True) == []


@given(st.text(max_size=200))
def test_no_text_crashes_and_every_cue_lies_in_it(text: str) -> None:
    for cue in [*cues_in_actions(text), *cues_in_materials(text)]:
        assert 0 <= cue.start < cue.end <= len(text)


# fmt: off
WORDS = st.sampled_from([
    "cut", "out", "the", "paper", "scissors", "and", ",", ".", "don't", "never", "throw", "ball", "balloon", "draw",
    "a", "light", "candle", "eat", "fruit", "I", "run", "to", "board",
])
# fmt: on


@given(st.lists(WORDS, max_size=14).map(" ".join))
def test_a_question_is_never_an_act(text: str) -> None:
    one_sentence = text.replace(".", "").strip()
    assert cues_in_actions(one_sentence + "?") == []


@pytest.mark.parametrize(
    "piece",
    ["cut the paper ", "“eat 'the cake ", "do not cut paper and ", "Cut it out. ", "flashcards: milk ", "I I I "],
)
def test_a_huge_text_takes_no_longer_than_its_length(piece: str) -> None:
    """Long texts without an end of sentence, a closing mark or a comma: words must not be compared all with all."""
    text = piece * (200_000 // len(piece))
    started = time.perf_counter()
    cues_in_actions(text)
    cues_in_materials(text)
    assert time.perf_counter() - started < 20
