"""For the tests of a house's own rules: run the examples that a rule carries.

import our_rules.no_shouting
from lint_rules.house_rules import check_examples

def test_its_examples():
check_examples(our_rules.no_shouting)
"""

from collections.abc import Iterator, Sequence
from datetime import date
from functools import cache
from types import ModuleType

from lint_rules.course.problem import CourseProblem
from lint_rules.course.reading import plans_of, read_course
from lint_rules.engine.example import assemble
from lint_rules.engine.registry import load_rules
from lint_rules.engine.run import Job, run
from lint_rules.finding import Finding
from lint_rules.language.grammar.structures import STRUCTURE_NAMES
from lint_rules.language.service import EnglishMatch, Language
from lint_rules.rule import Example, RuleModule, from_module
from lint_rules.source import Source


class ToldEnglish:
    """Says of every text what an example says that an English checker would say of certain words."""

    version = "told"

    def __init__(self, told: Sequence[tuple[str, ...]]) -> None:
        self._told = told

    def check(self, texts: Sequence[str], variety: str) -> list[tuple[EnglishMatch, ...]]:
        """One tuple of matches a text, in order."""
        return [
            tuple(
                EnglishMatch(
                    text.index(words), text.index(words) + len(words), rule, category, message, tuple(proposed)
                )
                for words, category, rule, message, *proposed in self._told
                if words in text
            )
            for text in texts
        ]


def check_examples(module: ModuleType, language: Language | None = None) -> None:
    """Run every example of a rule. Raises AssertionError, saying which examples do not hold and why.

    An example that passes must be left alone; one that fails must be found at the words in « », at nothing else, and
    weigh what the rule does (or its own ``weight``). ``language`` is only for who has a loaded model at hand.
    """
    loaded = from_module(module)
    rule = loaded.rule
    faults = [f"it has no example that {kind}" for kind in ("passes", "fails") if not getattr(rule, kind)]
    for kind, examples in (("passes", rule.passes), ("fails", rule.fails)):
        for number, example in enumerate(examples, start=1):
            said = _faults_of(loaded, example, language or _usual_language(), flagged=kind == "fails")
            faults += [f"{kind}, example {number}: {fault}" for fault in said]
    if faults:
        raise AssertionError("\n  ".join((f"{rule.name} does not keep to its examples:", *faults)))


@cache
def _usual_language() -> Language:
    from lint_rules.language.pipeline import SpacyLanguage

    return SpacyLanguage()


def _faults_of(module: RuleModule, example: Example, language: Language, *, flagged: bool) -> Iterator[str]:
    marked = [(path, span) for path, spans in assemble(example).flagged.items() for span in spans]
    if bool(marked) != flagged:
        yield "its words to be found must stand in « »" if flagged else "nothing may stand in « »"
        return
    files, found = _found(module, example, language)
    for path, span in marked:
        if (path, span) not in [(finding.path, finding.span) for finding in found]:
            yield f"not found: {files[path].slice(span)!r} in {path}"
    for finding in found:
        if (finding.path, finding.span) not in marked:
            yield f"found, though it should not be: {finding.text!r} in {finding.path}, line {finding.start.line}"
        elif finding.severity != (example.weight or module.rule.severity):
            yield f"{finding.text!r} weighs {finding.severity}, not {example.weight or module.rule.severity}"


def _found(module: RuleModule, example: Example, language: Language) -> tuple[dict[str, Source], list[Finding]]:
    """What the rule finds in an example. Raises AssertionError when the example is no course, or the rule breaks."""
    files = {path: Source(path, text) for path, text in assemble(example).files.items()}

    def load(path: str) -> Source | CourseProblem:
        return files[path]

    rules = {one.rule.name: one for one in load_rules()} | {module.rule.name: module}
    course, problems = read_course(files["course.yaml"], load, list(rules), STRUCTURE_NAMES)
    assert course is not None, problems
    assert not problems, problems
    units = [source for path, source in files.items() if path.endswith(".md")]
    course = plans_of(course, units)
    english, art = ToldEnglish(example.english), frozenset(example.files)
    result = run(Job(course, units, list(rules.values()), language, date(2026, 11, 25), True, english, art))
    broke = [note.why for note in result.broken if note.rule == module.rule.name]
    assert not broke, f"{module.rule.name} broke: {broke[0]}"
    return files, [finding for finding in result.open if finding.rule == module.rule.name]
