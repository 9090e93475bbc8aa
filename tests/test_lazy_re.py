"""Patterns that are compiled when they are first used. Standard: Python's own ``re``."""

import importlib
import pickle
import pkgutil
import re
import subprocess
import sys
from collections.abc import Iterator, Mapping
from pathlib import Path

import pytest

import lint_rules
from lint_rules import lazy_re


def test_a_pattern_answers_as_re_does():
    text = "Ten red apples, two Pears"
    for pattern, flags in ((r"[a-z]+s\b", 0), (r"(?P<fruit>apples|pears)", re.I)):
        ours, theirs = lazy_re.compile(pattern, flags), re.compile(pattern, flags)
        assert ours.findall(text) == theirs.findall(text)
        assert [m.span() for m in ours.finditer(text)] == [m.span() for m in theirs.finditer(text)]
        assert ours.sub("…", text) == theirs.sub("…", text)
        assert ours.split(text, maxsplit=1) == theirs.split(text, maxsplit=1)
        assert (ours.pattern, ours.groupindex) == (theirs.pattern, theirs.groupindex)


def test_a_pattern_can_be_sent_to_another_process():
    used = lazy_re.compile("pear", re.I)
    assert used.search("A Pear")
    assert pickle.loads(pickle.dumps(used)).search("A PEAR")


def test_a_faulty_pattern_is_told_when_it_is_used():
    faulty = lazy_re.compile("(pear")
    with pytest.raises(re.error):
        faulty.search("pear")


def patterns_in(value: object) -> Iterator[object]:
    if isinstance(value, type(lazy_re.compile(""))):
        yield value
    elif isinstance(value, Mapping):
        yield from (one for held in value.values() for one in patterns_in(held))
    elif isinstance(value, list | tuple | frozenset):
        yield from (one for held in value for one in patterns_in(held))


def test_every_pattern_of_the_house_can_be_compiled():
    seen = 0
    for module in pkgutil.walk_packages(lint_rules.__path__, "lint_rules."):
        if module.name.endswith("__main__"):
            continue
        for name, value in vars(importlib.import_module(module.name)).items():
            for one in patterns_in(value):
                seen += 1
                assert one.groups >= 0, f"{module.name}.{name}"
    source = "".join(path.read_text("utf-8") for path in Path(lint_rules.__file__).parent.rglob("*.py"))
    assert seen >= source.count("lazy_re.compile("), "a pattern is held where this test does not look"


def test_what_a_commit_imports_compiles_nothing():
    counting = """
import re, sys
made = []
compile_one = re._compile
def compile(pattern, flags):
    if sys._getframe(1).f_code.co_name == "compile":  # no call of re's own functions, which keep what they compile
        made.append((sys._getframe(2).f_code.co_filename, pattern))
    return compile_one(pattern, flags)
re._compile = compile
from lint_rules.engine.registry import load_rules
load_rules()
print([one for one in made if "lint_rules" in one[0]])
"""
    counted = subprocess.run([sys.executable, "-c", counting], capture_output=True, text=True, check=True)
    assert counted.stdout.strip() == "[]"
