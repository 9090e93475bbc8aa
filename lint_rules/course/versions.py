"""Versions of hornbook as a course and a rule name them: `0.2`, or `0.2.1`."""

import re

from lint_rules import __version__

FIRST = "0.1"
CURRENT = ".".join(__version__.split(".")[:2])  # new rules come with a new minor version


def version_parts(written: str) -> tuple[int, ...] | None:
    """The numbers of a version, for comparing; None for what is none."""
    if not re.fullmatch(r"[0-9]{1,4}\.[0-9]{1,4}(\.[0-9]{1,4})?", written, re.ASCII):
        return None
    return tuple(int(part) for part in written.split("."))


def adopts(adopted: str, since: str) -> bool:
    """Say whether a course that has adopted one version has adopted the rules that came with another."""
    return (version_parts(adopted) or ()) >= (version_parts(since) or ())
