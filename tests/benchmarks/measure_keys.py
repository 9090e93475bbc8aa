"""How long one key takes in the editor: a check of the whole unit after each, with what an open server has in memory.

    python tests/benchmarks/measure_keys.py COURSE UNIT

Prints the median and the 95th percentile of processor time a key (milliseconds), what bare `nlp.pipe` takes over the
same unit's texts in the same run, and the ratio of the two (aim: at most 0.4 for the 95th percentile).
"""

import argparse
import gc
import sys
import time
from dataclasses import replace
from pathlib import Path

from lint_rules.editor.checker import Checker
from lint_rules.editor.open_courses import OpenCourses
from lint_rules.editor.recent_language import RecentLanguage
from lint_rules.language.pipeline import MODEL
from lint_rules.manuscript.reading import read_unit
from lint_rules.session import tools
from lint_rules.source import Source

TYPED = " My friend has a little yellow boat. It is old, and it is not very fast."


def main() -> None:
    """Type a sentence or two into a unit, key by key."""
    unit = (Path(sys.argv[1]) / sys.argv[2]).resolve()
    text = unit.read_text(encoding="utf-8")
    line = [line for line in text.split("\n") if line[:1].isupper() and line.endswith(".")][3]
    gc.set_threshold(100_000, 50, 100)  # as the command line sets it
    with tools(argparse.Namespace(english=None, no_cache=True)) as kit:
        kit = replace(kit, language=RecentLanguage(kit.language))
        checker = Checker(kit, OpenCourses(kit.rules))
        checker.check(unit, text, {}, english=False)
        gc.collect()
        gc.freeze()
        keys = []
        for length in range(1, len(TYPED) + 1):
            typed = text.replace(line, line + TYPED[:length])
            start = time.process_time()
            checker.check(unit, typed, {}, english=False)
            keys.append(time.process_time() - start)
    import spacy  # only now: the language room imports it in its own way

    nlp = spacy.load(MODEL)
    texts = [passage.text for passage in read_unit(Source("unit.md", text)).passages if passage.text]
    bare = []
    for _ in range(6):
        start = time.process_time()
        list(nlp.pipe(texts))
        bare.append(time.process_time() - start)
    keys.sort()
    middle, late, whole = keys[len(keys) // 2], keys[int(len(keys) * 0.95)], sorted(bare[1:])[2]
    print(f"a key: median {middle * 1000:.0f} ms, 95th percentile {late * 1000:.0f} ms of processor time")
    print(f"bare nlp.pipe over the unit: {whole * 1000:.0f} ms; ratio {middle / whole:.2f}, {late / whole:.2f}")


if __name__ == "__main__":
    main()
