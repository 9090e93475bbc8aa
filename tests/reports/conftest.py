"""The releases that are made once for all tests of the reports."""

from pathlib import Path

import pytest

from tests.reports.releases import DRAFT, EXAMPLE, Release, release


@pytest.fixture(scope="session")
def example(tmp_path_factory: pytest.TempPathFactory) -> Release:
    """The example course: nothing in the way."""
    return release(EXAMPLE, tmp_path_factory.mktemp("example"))


@pytest.fixture(scope="session")
def draft(tmp_path_factory: pytest.TempPathFactory) -> Release:
    """The example's first draft: a fault for nearly every rule."""
    return release(DRAFT, tmp_path_factory.mktemp("draft"))


@pytest.fixture(params=["example", "draft"])
def released(request: pytest.FixtureRequest) -> Release:
    """Each of the two."""
    made: Release = request.getfixturevalue(request.param)
    return made


@pytest.fixture(autouse=True)
def _no_settings_of_this_machine(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.delenv("SOURCE_DATE_EPOCH", raising=False)
    monkeypatch.delenv("HORNBOOK_ENGLISH", raising=False)
    monkeypatch.delenv("PRE_COMMIT", raising=False)
