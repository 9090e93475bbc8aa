"""Of texts whose analysis has begun, none is asked for twice, whoever fetches first and whatever goes wrong."""

import re
from collections.abc import Callable, Sequence
from pathlib import Path

import pytest

from lint_rules.engine.cache.answers import RememberingLanguage
from lint_rules.engine.cache.key_value_store import KeyValueStore
from lint_rules.engine.registry import load_rules
from lint_rules.engine.run import UNITS_AT_ONCE
from lint_rules.language.service import LanguageUnavailable, Request
from lint_rules.language.tokens import Analysis, Mode, Structure
from tests.commands.world import COURSE, WORDS, unit
from tests.support import run_files


def request(text: str) -> Request:
    return Request(text, Mode.TEXT)


def answer(text: str) -> Analysis:
    return Analysis((), (), (Structure("imperative", 0, len(text)),))


class Room:
    """A language room that writes down what is begun and what is fetched."""

    version = "room 1"

    def __init__(self) -> None:
        self.log: list[str] = []
        self.down = False

    def expect(self) -> bool:
        return True

    def rest(self) -> None:
        self.log.append("rest")

    def begin(self, requests: Sequence[Request]) -> Callable[[], list[Analysis]]:
        texts = [one.text for one in requests]
        self.log.append(f"begin {' '.join(texts)}")

        def answers() -> list[Analysis]:
            self.log.append(f"fetch {' '.join(texts)}")
            if self.down:
                raise LanguageUnavailable("down")
            return [answer(text) for text in texts]

        return answers

    def analyse(self, requests: Sequence[Request]) -> list[Analysis]:
        return self.begin(requests)()


@pytest.mark.parametrize("kept", [True, False], ids=["with a store", "without"])
@pytest.mark.parametrize("first", [0, 1], ids=["in order", "the later one first"])
def test_a_text_that_has_begun_is_not_asked_for_again(kept: bool, first: int, tmp_path: Path) -> None:
    room = Room()
    language = RememberingLanguage(room, KeyValueStore(tmp_path if kept else None))
    wanted = ["a", "b", "a"], ["b", "c"]
    begun = [language.begin([request(text) for text in texts]) for texts in wanted]
    found = {at: begun[at]() for at in (first, 1 - first)}
    assert [found[0], found[1]] == [[answer(text) for text in texts] for texts in wanted]
    assert [line for line in room.log if "begin" in line] == ["begin a b", "begin c"]
    assert sorted(line for line in room.log if "fetch" in line) == ["fetch a b", "fetch c"]
    if kept:
        assert language.analyse([request("c"), request("a")]) == [answer("c"), answer("a")]
        assert len(room.log) == 4, "all of it is on the store"


def test_a_room_that_is_down_is_asked_again_the_next_time() -> None:
    room = Room()
    room.down = True
    language = RememberingLanguage(room, KeyValueStore(None))
    begun = [language.begin([request("a")]), language.begin([request("a"), request("b")])]
    for answers in (*begun, *begun):
        with pytest.raises(LanguageUnavailable):
            answers()
    room.down = False
    assert language.analyse([request("a")]) == [answer("a")]


@pytest.mark.parametrize("whole_book", [True, False])
def test_the_next_units_are_begun_before_the_rules_run_on_those_before(whole_book: bool) -> None:
    room = Room()
    paths = [f"level-1/unit-{number:02}.md" for number in range(1, 2 * UNITS_AT_ONCE + 2)]
    files = {path: unit(number, f"Kite{number}.") for number, path in enumerate(paths, start=1)}
    course = {"course.yaml": COURSE, "words/level-1.csv": WORDS} | files
    run_files(course, load_rules(), room, whole_book=whole_book)
    steps = [(line.split()[0], len(set(re.findall(r"Kite\d+", line)))) for line in room.log]
    many = UNITS_AT_ONCE
    assert steps[:4] == [("begin", many), ("begin", many), ("fetch", many), ("begin", 1)]
    assert steps[4:6] == [("fetch", many), ("fetch", 1)]
    assert steps[6:] == ([("rest", 0)] if whole_book else [])
