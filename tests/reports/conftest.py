"""The releases that are made once for all tests of the reports."""

import json
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.reports.releases import DRAFT, EXAMPLE, REPOSITORY, Release, release, unit, write_course


@pytest.fixture(scope="session", autouse=True)
def _kept_for_these_tests(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """What is remembered from one run to the next is that of these tests alone."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("HORNBOOK_CACHE", str(tmp_path_factory.mktemp("kept")))
        yield


@pytest.fixture(scope="session")
def example(tmp_path_factory: pytest.TempPathFactory) -> Release:
    """The example course: nothing in the way."""
    return release(EXAMPLE, tmp_path_factory.mktemp("example"), html=True)


@pytest.fixture(scope="session")
def draft(tmp_path_factory: pytest.TempPathFactory) -> Release:
    """The example's first draft: a fault for nearly every rule."""
    return release(DRAFT, tmp_path_factory.mktemp("draft"), html=True)


@pytest.fixture(scope="session")
def large(tmp_path_factory: pytest.TempPathFactory) -> Release:
    """Forty-five units, six target words in each, and more than a thousand findings."""
    root = tmp_path_factory.mktemp("large")
    text = (REPOSITORY / DRAFT / "level-1" / "unit-01.md").read_text("utf-8")
    units = {
        f"level-1/unit-{n:03}.md": re.sub(r"^unit: \d+", f"unit: {n}", text, count=1, flags=re.MULTILINE)
        for n in range(1, LARGE + 1)
    }
    words = "".join(f"word{chr(97 + n % 26)}{chr(97 + n // 26)},noun,toys,{n % LARGE + 1}\n" for n in range(6 * LARGE))
    write_course(root / "book", units, words=words)
    return release("book", root, cwd=root, html=True)


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


LARGE = 45  # units
HOSTILE = '<script>window.hit=1</script>"><img src=x onerror="window.hit=2">\'</style></script><!--'


@pytest.fixture(scope="session")
def hostile(tmp_path_factory: pytest.TempPathFactory) -> Release:
    """A manuscript that would like to run a script: in titles, words, file names, reasons, settings."""
    root = tmp_path_factory.mktemp("hostile")
    body = (
        f"{HOSTILE} color\n\n<!-- stet spelling-variety: {HOSTILE.replace('--', '')} -->\n\nMy color {HOSTILE}\n\n"
        "</script><script>window.hit=3</script> The color.\n\n\u202eevil\u202c color \x07"
    )
    name = 'level-1/unit "<img src=x onerror=alert(1)>&.md'
    units = {name: unit(body, title=f"Kites {HOSTILE}"), "level-1/unit-02.md": unit("My color.", 2)}
    words = '"kite</script><script>window.hit=4</script>",noun,"<b>toys</b>",1\n'
    write_course(root / "book", units, ["word-not-tested: note", "target-word-not-taught: query"], words)
    course = root / "book" / "course.yaml"
    course.write_text(course.read_text("utf-8").replace("The Kite Shop", json.dumps(f"The Kite Shop {HOSTILE}")))
    return release("book", root, cwd=root, html=True)
