"""Fixtures that many tests share."""

import pytest

from lint_rules.language.service import Language


@pytest.fixture(scope="session")
def language() -> Language:
    """The real language room, loaded once."""
    from tests.support import RememberingLanguage

    return RememberingLanguage()
