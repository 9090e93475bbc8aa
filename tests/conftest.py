"""Fixtures that many tests share."""

from collections.abc import Iterator

import pytest

from lint_rules.language.service import Language


@pytest.fixture(scope="session")
def language() -> Language:
    """The real language room, loaded once."""
    from tests.support import RememberingLanguage

    return RememberingLanguage()


@pytest.fixture(scope="session", autouse=True)
def _one_language_room(language: Language) -> Iterator[None]:
    """Every command that a test runs in this process asks this room: it would load the model anew each time."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("lint_rules.session.language_room", lambda: language)
        yield
