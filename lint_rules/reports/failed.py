"""The files of a release that could not be made: whole, and saying why, so that none is left from before.

They are written when a run begins as well, so that a run that is killed leaves no file that looks like a pass.
"""

import json
import xml.etree.ElementTree as ET
from collections.abc import Sequence
from html import escape

from lint_rules import __version__
from lint_rules.reports.sarif import SCHEMA
from lint_rules.said import one_line

NOT_ENDED = "This run has not ended: it was stopped before it could say anything."
_NOTHING_FROM_OUTSIDE = "default-src 'none'"
_NO = "The release could not be checked"


def failed(option: str, why: Sequence[str], status: int) -> bytes:
    """A file that says why there is no release: `sarif`, `junit`, `record` or `report` (HTML)."""
    lines = [one_line(line) for line in why]
    made = {"sarif": _sarif, "junit": _junit, "record": _record, "report": _page}[option](lines, status)
    return made.encode("utf-8", "backslashreplace")


def _sarif(why: Sequence[str], status: int) -> str:
    notes = [{"level": "error", "message": {"text": line.replace("{", "{{").replace("}", "}}")}} for line in why]
    driver = {"name": "hornbook", "version": __version__, "semanticVersion": __version__}
    run = {
        "tool": {"driver": driver},
        "columnKind": "unicodeCodePoints",
        "invocations": [
            {"executionSuccessful": False, "exitCode": status, "toolExecutionNotifications": notes},
        ],
        "results": [],
    }
    return json.dumps({"$schema": SCHEMA, "version": "2.1.0", "runs": [run]}, ensure_ascii=False, indent=1) + "\n"


def _junit(why: Sequence[str], status: int) -> str:
    top = ET.Element("testsuites", {"name": "hornbook", "tests": "1", "failures": "0", "errors": "1"})
    counts = {"tests": "1", "failures": "0", "errors": "1", "skipped": "0", "time": "0"}
    suite = ET.SubElement(top, "testsuite", {"name": "the whole book", **counts})
    case = ET.SubElement(suite, "testcase", classname="book", name=_NO, time="0")
    error = ET.SubElement(case, "error", {"type": "could not run", "message": why[0] if why else _NO})
    error.text = "\n".join(why)
    ET.indent(top, " ")
    return '<?xml version="1.0" encoding="UTF-8"?>\n' + ET.tostring(top, encoding="unicode") + "\n"


def _record(why: Sequence[str], status: int) -> str:
    whole = {
        "hornbook": __version__,
        "finished": False,
        "exit_status": status,
        "verdict": {"can_go": False, "in_the_way": list(why)},
    }
    return json.dumps(whole, ensure_ascii=False, indent=1) + "\n"


def _page(why: Sequence[str], status: int) -> str:
    policy = f'<meta http-equiv="Content-Security-Policy" content="{_NOTHING_FROM_OUTSIDE}">'
    head = f'<meta charset="utf-8"><meta name="generator" content="hornbook">{policy}'
    said = "".join(f"<p>{escape(line)}</p>" for line in why)
    body = f"<head>{head}<title>hornbook: {_NO}</title></head><body><h1>{_NO}</h1>{said}</body>"
    return f'<!doctype html>\n<html lang="en-GB">{body}</html>\n'
