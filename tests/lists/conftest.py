"""The command line, as the tests of the commands have it."""

from tests.commands.conftest import hornbook

__all__ = ["hornbook"]
