"""How the time of a run grows with the size of a page: runs of every printable character and of each mark of Markdown.

    python tests/benchmarks/growth.py [MARK…]

doubles each run (4,000, 8,000, 16,000 characters) and names those whose time grows more than 3.4 times at the last
doubling, or that take more than ten seconds. Exit status 1 when there is one.
"""

import string
import sys
import time
from collections.abc import Callable, Iterator
from datetime import date
from functools import cache

from lint_rules.course.reading import read_course
from lint_rules.engine.registry import load_rules
from lint_rules.engine.run import Job, run
from lint_rules.language.pipeline import SpacyLanguage
from lint_rules.language.service import Language
from lint_rules.source import Source

SIZES = (4_000, 8_000, 16_000)
PRINTABLE = tuple(char for char in string.printable if not char.isspace())
MARKS = (
    "![", "](", "[a](", "![a](", "[a]{.b} ", "[", "[[", "[]", "** ", "**a", "a**", "*a ", "_a ", "__", "____ ",
    "`", "``a` ", "<a ", "<b>", "<!--", "<!-- a --> ", "{.a ", "::: a\n", "::: a\n\n:::\n\n", "> ", "- ",
    "- a\n", "1. a\n", "| a ", "a|b\n", "# a\n\n", "---\n", "***\n", "```\n", "~~~\n", "\\", "&amp;", "a\n",
    "a  \n", "    a\n\n", "NAME: a\n", "1 a ", "a / ", "zxq vbn ", "é", "🪁", "\u0301", "“a” ", "…", "a) b\n",
    "kite ",
)  # fmt: skip
_HEAD = "---\nlevel: level-1\nunit: 1\ntitle: T\n---\n\n# T\n\n## Lesson 1: L {.words}\n\n### 1 Look. {.reading}\n\n"
_FILES = {
    "course.yaml": "title: K\nlevels:\n  - name: level-1\n    cefr: A1\n",
    "words/level-1.csv": "word,part_of_speech,topic,unit\n",
}


def timer(language: Language) -> Callable[[str], float]:
    """A function that says how many seconds of a processor a run over a page with this text takes."""
    rules = load_rules()
    settings = Source("course.yaml", _FILES["course.yaml"])
    course, _ = read_course(settings, lambda path: Source(path, _FILES[path]), [m.rule.name for m in rules], [])
    assert course is not None

    def seconds(text: str) -> float:
        job = Job(course, [Source("level-1/unit-01.md", _HEAD + text)], rules, language, date(2026, 1, 1), False)
        began = time.process_time()
        run(job)
        return time.process_time() - began

    seconds("The kite is red.")  # loads what is loaded once
    return seconds


def times_of(mark: str, seconds: Callable[[str], float], sizes: tuple[int, ...] = SIZES) -> Iterator[float]:
    """The time for each size, up to one that takes too long."""
    for size in sizes:
        took = seconds(mark * (size // len(mark)))
        yield took
        if took > 10:
            return


@cache
def _language() -> Language:
    return SpacyLanguage()


def main(marks: tuple[str, ...]) -> int:
    """Measure, and name what grows too fast."""
    seconds = timer(_language())
    slow = 0
    for mark in marks or (*PRINTABLE, *MARKS):
        times = list(times_of(mark, seconds))
        grows = times[-1] > 10 or (len(times) > 1 and times[-1] > 0.5 and times[-1] > 3.4 * times[-2])
        slow += grows
        print(f"{mark!r:14} {' '.join(f'{took:6.2f}' for took in times)}{'  too fast' if grows else ''}", flush=True)
    return 1 if slow else 0


if __name__ == "__main__":
    sys.exit(main(tuple(sys.argv[1:])))
