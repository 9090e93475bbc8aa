"""The command line: arguments in, exit status out. What a command does stands in ``lint_rules/commands/``."""

import argparse
import atexit
import gc
import importlib
import io
import os
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import NoReturn

from lint_rules import __version__
from lint_rules.engine.pool_start import make_ready
from lint_rules.exit_status import CANNOT_RUN, RULE_BROKE, CannotRun

LIST_NAMES = (
    "contents",
    "grammar",
    "wordlist",
    "script",
    "art",
    "materials",
    "safety",
    "keys",
    "stets",
    "brief",
    "changes",
)
_WHOLE_BOOKS = ("book", "carry", "release", "words")  # commands that read every unit of one course
_DESCRIPTION = "Proofs the manuscripts of English courses for children aged 6 to 10."
_EPILOG = """\
exit status: 0 nothing that blocks, 1 findings that block, 2 the run could not be done, 3 a rule or a checker broke
"""
_EPILOG_OF_SERVE = """\
settings:
  course.yaml        what a course is held to; a change counts as soon as it is typed
  HORNBOOK_ENGLISH   an English checker's address, or local, where --english names none
  HORNBOOK_MODEL     another English pipeline of spaCy's than the usual one
There are no others: what the editor declares decides what it is sent. What is typed is kept nowhere.
README.md sets up three editors. Exit status: 0 after a goodbye in order, 1 without.
"""


class _Parser(argparse.ArgumentParser):
    """Prints one plain sentence for a wrong argument, and where help is."""

    def error(self, message: str) -> NoReturn:
        print(f"hornbook: {message}. `{self.prog} --help` shows what it takes.", file=sys.stderr)
        raise SystemExit(CANNOT_RUN)


def _reading(parser: argparse.ArgumentParser) -> None:
    """Options common to the commands that read a manuscript."""
    parser.add_argument("--format", choices=("terminal", "json"), default="terminal", help="how findings are shown")
    parser.add_argument("--no-cache", action="store_true", help="analyse everything afresh and keep nothing")
    parser.add_argument(
        "--english",
        metavar="URL",
        default=os.environ.get("HORNBOOK_ENGLISH") or None,
        help="an English checker's server, or the word 'local' to start one (also HORNBOOK_ENGLISH)",
    )


def _all(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--all", action="store_true", help="on a terminal: show every point, not one screen of them")


def _number(text: str) -> int:
    try:
        return int(text)
    except ValueError:
        raise argparse.ArgumentTypeError(f"a number is wanted, not {text!r}") from None


def build_parser() -> argparse.ArgumentParser:
    """Every command and its options."""
    parser = _Parser(
        prog="hornbook",
        description=_DESCRIPTION,
        epilog=_EPILOG,
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    parser.add_argument("--version", action="version", version=f"hornbook {__version__}")
    commands = parser.add_subparsers(dest="command", metavar="COMMAND", required=True)

    def command(name: str, help_: str) -> argparse.ArgumentParser:
        return commands.add_parser(name, help=help_, description=help_[0].upper() + help_[1:] + ".", allow_abbrev=False)

    proof = command("proof", "check units by the rules that one unit can be judged by (what the commit hook runs)")
    proof.add_argument(
        "files", nargs="*", metavar="FILE", help="unit files; without any, every unit of the course here"
    )
    _all(proof)
    _reading(proof)

    book = command("book", "read every unit, and check what needs the whole book")
    book.add_argument("dir", nargs="?", default=".", metavar="DIR", help="the course (default: where you are)")
    book.add_argument(
        "--report",
        metavar="FILE",
        help="also write the whole book as a marked proof, one HTML file; into a folder (proof/) a page a unit",
    )
    book.add_argument("--unit", metavar="LEVEL/N", help="show only the points of a unit, such as level-1/4")
    book.add_argument("--rule", metavar="RULE", help="show only the points of a rule")
    book.add_argument("--only", choices=("stops", "queries", "notes"), help="show only the points of a weight")
    _all(book)
    _reading(book)

    release = command("release", "gate a release: queries block too, and every check must have run")
    release.add_argument("dir", nargs="?", default=".", metavar="DIR", help="the course (default: where you are)")
    release.add_argument("--sarif", metavar="FILE", help="also write the findings as SARIF 2.1.0")
    release.add_argument("--junit", metavar="FILE", help="also write the findings as JUnit XML")
    release.add_argument("--record", metavar="FILE", help="also write the release record, JSON")
    release.add_argument("--report", metavar="FILE", help="also write the editor's report, one HTML file")
    release.add_argument("--require", action="append", choices=("english",), default=[], help="a check that must run")
    release.add_argument("--house", metavar="FILE", help="the house's policy, from outside the book")
    release.add_argument("--since", metavar="RECORD", help="an earlier release's record: say what came and went")
    release.add_argument("--part", metavar="LEVEL", help="release one level of the course, not the whole of it")
    _all(release)
    _reading(release)

    words = command("words", "show where each target word is taught, met again and tested")
    words.add_argument("dir", nargs="?", default=".", metavar="DIR", help="the course (default: where you are)")
    words.add_argument("--csv", metavar="FILE", help="write the map as CSV (- is standard output)")
    words.add_argument("--xlsx", metavar="FILE", help="write the map as a spreadsheet, one sheet a level")
    words.add_argument("--topic", help="only target words of this topic")
    words.add_argument("--unit", type=_number, help="only target words taught in units of this number")
    words.add_argument("--gaps", action="store_true", help="only the words that something is missing of")
    words.add_argument("--sort", choices=("word", "topic", "unit", "met"), default="unit", help="order of the rows")
    _reading(words)

    lists = command("lists", "write a list that a house compiles by hand: words, script, art, materials, keys …")
    lists.add_argument("name", choices=LIST_NAMES, metavar="NAME", help=", ".join(LIST_NAMES))
    lists.add_argument("dir", nargs="*", metavar="DIR", help="the course (default: where you are); changes: OLD NEW")
    lists.add_argument("--unit", metavar="LEVEL/N", help="brief: the unit to be written, such as level-1/4")
    lists.add_argument("--csv", metavar="FILE", help="write the list as CSV (- is standard output)")
    lists.add_argument("--xlsx", metavar="FILE", help="write the list as a spreadsheet")
    lists.add_argument("--markdown", metavar="FILE", help="write the list as Markdown (- is standard output)")
    _reading(lists)

    level = command("level", "say what a text asks of a child: structures, words by level, sentence length")
    level.add_argument("file", nargs="?", default="-", metavar="FILE", help="a text file; - is standard input")
    level.add_argument("--lines", action="store_true", help="take every line of the input as a text of its own")
    _reading(level)

    outline = command("outline", "show how each activity of a unit was read: items, options, gaps, keys, times")
    outline.add_argument("file", metavar="FILE", help="a unit file")
    outline.add_argument("--format", choices=("terminal", "json"), default="terminal", help="how it is shown")

    carry = command("carry", "take the findings of an existing book into carried.yaml: then only new ones count")
    carry.add_argument("dir", nargs="?", default=".", metavar="DIR", help="the course (default: where you are)")
    _reading(carry)

    mend = command("mend", "apply the safe mends")
    mend.add_argument("files", nargs="*", metavar="FILE", help="unit files; without any, every unit of the course here")
    mend.add_argument("--show", action="store_true", help="print the changes as a unified diff and write nothing")
    _reading(mend)

    rules = command("rules", "list the rules by family, or show one rule's page")
    rules.add_argument("rule", nargs="?", metavar="RULE", help="a rule's name, or a family's (safety)")
    rules.add_argument("--format", choices=("terminal", "json"), default="terminal")

    start = command("start", "write a small course to begin from")
    start.add_argument("dir", metavar="DIR", help="a folder that does not exist yet, or is empty")

    serve = command("serve", "a language server (LSP) over standard input and output, for a writer's editor")
    serve.add_argument("--stdio", action="store_true", help="speak over standard input and output (it always does)")
    serve.add_argument(
        "--english",
        metavar="URL",
        default=os.environ.get("HORNBOOK_ENGLISH") or None,
        help="an English checker's server, or the word 'local' to start one (also HORNBOOK_ENGLISH)",
    )
    serve.epilog, serve.formatter_class = _EPILOG_OF_SERVE, argparse.RawDescriptionHelpFormatter
    return parser


def _parsed(argv: Sequence[str] | None) -> argparse.Namespace:
    """Arguments. Folders may also stand behind the options of `lists`, where argparse leaves them over."""
    parser = build_parser()
    arguments, left = parser.parse_known_args(argv)
    if left and (arguments.command != "lists" or any(word.startswith("-") for word in left)):
        parser.error(f"unrecognized arguments: {' '.join(left)}")
    if left:
        arguments.dir = [*arguments.dir, *left]
    return arguments


def main(argv: Sequence[str] | None = None) -> int:
    """Run a command and give its exit status."""
    gc.set_threshold(100_000, 50, 100)  # we make much and drop it whole: looking for cycles cost a tenth of a run
    atexit.register(gc.freeze)  # nor are they looked for when Python ends: with a model in memory that took 0.2 s
    _steady_output()
    arguments = _parsed(argv)
    try:
        if arguments.command in _WHOLE_BOOKS and not arguments.english:
            remembers = arguments.command != "release" and not arguments.no_cache
            make_ready(Path(arguments.dir), remembers=remembers)
        module = importlib.import_module(f"lint_rules.commands.{arguments.command}")
        status: int = module.run(arguments)
        _finish_output()
    except CannotRun as error:
        _complain(*error.lines)
        return CANNOT_RUN
    except KeyboardInterrupt:
        _complain("stopped.")
        return CANNOT_RUN
    except OSError as error:
        if os.environ.get("HORNBOOK_DEBUG"):
            raise
        if error.filename is None:
            _forget_output()
        where = error.filename or "what was found could not be written"
        _complain(f"{where}: {error.strerror or error}.")
        return CANNOT_RUN
    except Exception as error:  # a bug of ours: say so plainly, never pass for a clean run
        if os.environ.get("HORNBOOK_DEBUG"):
            raise
        _complain(
            f"hornbook itself broke ({type(error).__name__}: {error}). No file was left half written. "
            "Run it again with HORNBOOK_DEBUG=1 and send us what it prints."
        )
        return RULE_BROKE
    return status


def _complain(*lines: str) -> None:
    from lint_rules.said import harmless

    for line in lines:
        print(harmless(f"hornbook: {line}"), file=sys.stderr)


def _steady_output() -> None:
    """Show a character that a terminal lacks as an escape, so that none stops a run; do without a closed output."""
    for name in ("stdout", "stderr"):
        stream = getattr(sys, name)
        if stream is None:
            setattr(sys, name, open(os.devnull, "w", encoding="utf-8"))  # noqa: SIM115 - for as long as we run
        elif isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="backslashreplace")


def _finish_output() -> None:
    """Write what still waits."""
    try:
        if not sys.stdout.closed:  # the language server closes it
            sys.stdout.flush()
    except BrokenPipeError:  # the reader has seen enough (`hornbook book | head`)
        _forget_output()


def _forget_output() -> None:
    from lint_rules.commands.output import forget_output

    forget_output()
