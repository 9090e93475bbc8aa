"""Fixtures that many tests share."""

from collections.abc import Iterator

import pytest

from lint_rules.language.service import Language


@pytest.fixture(scope="session", autouse=True)
def one_room() -> Iterator[Language]:
    """Every command that a test runs in this process asks this room: it would load the model anew each time."""
    from tests.support import RememberingLanguage

    room = RememberingLanguage()
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("lint_rules.session.language_room", lambda: room)
        yield room


@pytest.fixture(scope="session")
def language(one_room: Language) -> Language:
    """The real language room, loaded once."""
    return one_room
