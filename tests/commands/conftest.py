"""Fixtures of the tests of the commands."""

import pytest

from tests.commands.world import Hornbook


@pytest.fixture
def hornbook(capsys, monkeypatch, tmp_path_factory) -> Hornbook:
    """The command line, with a cache of its own and the model that all tests share."""
    monkeypatch.setenv("HORNBOOK_CACHE", str(tmp_path_factory.getbasetemp() / "cache"))
    monkeypatch.delenv("HORNBOOK_ENGLISH", raising=False)
    monkeypatch.delenv("PRE_COMMIT", raising=False)
    return Hornbook(capsys)
