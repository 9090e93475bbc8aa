"""Fixtures that many tests share."""

import gc
from collections.abc import Iterator

import pytest

from lint_rules.language.parsing.parser import import_numpy
from lint_rules.language.service import Language

import_numpy()  # as hornbook does; where a test module imports it first, all cores wait for each other at every product
gc.set_threshold(100_000, 50, 100)  # likewise


def pytest_collection_finish() -> None:
    """Thousands of tests stay until the end: there is no garbage among them."""
    gc.freeze()


@pytest.fixture(scope="session", autouse=True)
def one_room() -> Iterator[Language]:
    """Every command that a test runs in this process asks this room: it would load the model anew each time."""
    from tests.support import RememberingLanguage

    room = RememberingLanguage()
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("lint_rules.session.language_room", lambda: room)
        patch.setattr("lint_rules.engine.pool_start.cores", lambda: 1)  # processes of a pool would load it again
        yield room


@pytest.fixture(scope="session")
def language(one_room: Language) -> Language:
    """The real language room, loaded once."""
    return one_room


@pytest.fixture(scope="session")
def warm() -> Iterator[None]:
    """The process that ``tests.warm.command`` calls copies of."""
    from tests.warm import started

    with started():
        yield
