"""``hornbook rules``: the rules by family, or the page of one, from its own docstring, declaration and examples."""

import argparse
import inspect
import json
import re
from collections.abc import Iterator, Sequence
from difflib import get_close_matches
from textwrap import fill
from typing import Any

from rich.markup import escape

from lint_rules.commands.output import forget_output, write_text
from lint_rules.course.versions import FIRST
from lint_rules.engine.registry import first_line, load_rules
from lint_rules.exit_status import CLEAN, CannotRun
from lint_rules.reports.terminal_page import console
from lint_rules.rule import Example, RuleModule

_SHOWN = 2  # examples of each kind on a page; the others are the rule's tests
_SCOPE = {True: "a unit on its own", False: "the whole book"}


def run(arguments: argparse.Namespace) -> int:
    """Print the list, a family of it, or one rule's page."""
    page = console(forget_output, markup=True)
    page.soft_wrap = not page.is_terminal
    chosen = _chosen(arguments.rule, load_rules())
    if arguments.format == "json":
        write_text(json.dumps([_as_dict(module) for module in chosen], ensure_ascii=False, indent=1) + "\n")
    else:
        is_page = len(chosen) == 1 and chosen[0].rule.name == arguments.rule
        for line in _page(chosen[0]) if is_page else _listing(chosen):
            page.print(line)
    return CLEAN


def _chosen(name: str | None, rules: Sequence[RuleModule]) -> Sequence[RuleModule]:
    """The rule of a name, the rules of a family (`teachers-notes` or `teacher's notes`), or all. Raises CannotRun."""
    if name is None:
        return rules
    chosen = [module for module in rules if module.rule.name == name]
    chosen = chosen or [module for module in rules if _plain(module.rule.family) == _plain(name)]
    if not chosen:
        known = [module.rule.name for module in rules] + [_plain(module.rule.family) for module in rules]
        near = get_close_matches(name.casefold(), known, n=1)
        meant = f"Did you mean {near[0]}?" if near else "`hornbook rules` lists them."
        raise CannotRun(f"No rule is called {name}, and no family. {meant}")
    return chosen


def _plain(family: str) -> str:
    """A family's name without what a shell would trip over: `teachers-notes`."""
    return re.sub(r"[\s_]+", "-", re.sub("['’]", "", family.casefold()))


def _listing(rules: Sequence[RuleModule]) -> Iterator[str]:
    width = max(len(module.rule.name) for module in rules)
    families = sorted({module.rule.family for module in rules})
    for family in families:
        yield f"[bold]{escape(family)}[/bold]"
        for module in rules:
            if module.rule.family == family:
                name = module.rule.name.ljust(width)
                yield f"  {name}  {module.rule.severity.value:5}  {escape(first_line(module))}"
        yield ""
    yield "`hornbook rules RULE` shows one rule's page. stop blocks a commit, query a release, note nothing."


def _page(module: RuleModule) -> Iterator[str]:
    rule = module.rule
    yield f"[bold]{rule.name}[/bold]  ({escape(rule.family)}; usually a {rule.severity.value})"
    if rule.since != FIRST:
        named = f"adopts {rule.since} (adopted: {rule.since}) or names the rule in its `rules`"
        yield f"New in {rule.since}: it only advises, as a note, until the course {named}."
    if rule.quiet:
        yield "Its mildest cases, the notes, are told only to a course that names it in its `rules`."
    yield f"It is judged on {_SCOPE[module.find is not None or module.find_in_stets is not None]}."
    what, *why = inspect.cleandoc(module.page).split("\n\n")
    for heading, paragraphs in (("What it catches", [what]), ("Why", why), ("What to do", [fill(rule.cure, 120)])):
        if any(paragraphs):
            yield ""
            yield f"[bold]{heading}[/bold]"
            yield escape("\n\n".join(paragraphs))
    for heading, examples in (("Passes", rule.passes), ("Found, at the words in « »", rule.fails)):
        yield ""
        yield f"[bold]{heading}[/bold]"
        for example in examples[:_SHOWN]:
            yield from _example(example)
    if rule.limits:
        yield ""
        yield "[bold]Limits and where they are from[/bold]"
        for limit in rule.limits:
            yield f"  {escape(limit.what)}: {escape(limit.source)}"
    yield ""
    yield f"To let one place stand, put before it: {escape(f'<!-- stet {rule.name}: why it should stand -->')}"
    yield f"To weigh it otherwise in a whole course, in course.yaml: rules: {{{rule.name}: stop | query | note | off}}"


def _example(example: Example) -> Iterator[str]:
    yield ""
    if example.why:
        yield f"  [italic]{escape(example.why)}[/italic]"
    for what, text in (
        ("course.yaml", example.course),
        ("word list", example.words),
        ("word list of level-2", example.later_words),
    ):
        if text.strip():
            yield f"  ({what})"
            for line in text.strip("\n").splitlines():
                yield f"    {_as_it_is(line)}"
    for text in (example.text, *example.others):
        for line in text.strip("\n").splitlines():
            yield f"  | {_as_it_is(line)}"


def _as_dict(module: RuleModule) -> dict[str, Any]:
    rule = module.rule
    return {
        "rule": rule.name,
        "family": rule.family,
        "severity": rule.severity.value,
        "since": rule.since,
        "catches": first_line(module),
        "page": inspect.cleandoc(module.page),
        "cure": rule.cure,
        "limits": [{"what": limit.what, "source": limit.source} for limit in rule.limits],
    }


def _as_it_is(line: str) -> str:
    """A line of Markdown as markup that prints it: a backslash at its end would be doubled, if nothing followed it."""
    return escape(f"{line} ").removesuffix(" ")
