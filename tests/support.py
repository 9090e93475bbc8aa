"""What several tests use: a course in memory, and a run over it."""

from collections.abc import Mapping, Sequence
from datetime import date

from lint_rules.course.model import Course
from lint_rules.course.reading import CourseProblem, plans_of, read_course
from lint_rules.engine.check import Result
from lint_rules.engine.example import assemble
from lint_rules.engine.run import Job, Memory, run
from lint_rules.house_rules import ToldEnglish
from lint_rules.language.grammar.structures import STRUCTURE_NAMES
from lint_rules.language.pipeline import SpacyLanguage
from lint_rules.language.service import English, EnglishMatch, Language, Request
from lint_rules.language.tokens import Analysis
from lint_rules.manuscript.model import Passage
from lint_rules.rule import Example, RuleModule
from lint_rules.source import Source

TODAY = date(2026, 11, 25)


class RememberingLanguage:
    """The real language room, asked for each text once: many tests read the same courses."""

    def __init__(self) -> None:
        self.room = SpacyLanguage()
        self._known: dict[Request, Analysis] = {}

    @property
    def version(self) -> str:
        return self.room.version

    def analyse(self, requests: Sequence[Request]) -> list[Analysis]:
        new = [request for request in dict.fromkeys(requests) if request not in self._known]
        self._known |= zip(new, self.room.analyse(new), strict=True)
        return [self._known[request] for request in requests]


def no_english(_: Passage) -> tuple[EnglishMatch, ...]:
    """Stand in for an English checker that nobody asked for."""
    return ()


def no_analysis(_: Passage) -> Analysis:
    """Stand in for the language room where a rule does not need it."""
    return Analysis((), (), ())


def course_of(files: Mapping[str, str], rule_names: Sequence[str] = ()) -> Course:
    """Read a course from files in memory; its problems are the test's problems."""

    def load(path: str) -> Source | CourseProblem:
        return Source(path, files[path])

    course, problems = read_course(Source("course.yaml", files["course.yaml"]), load, rule_names, STRUCTURE_NAMES)
    assert course is not None, problems
    assert not problems, problems
    return plans_of(course, unit_sources(files))


def unit_sources(files: Mapping[str, str]) -> list[Source]:
    return [Source(path, text) for path, text in files.items() if path.endswith(".md")]


def run_files(
    files: Mapping[str, str],
    rules: Sequence[RuleModule],
    language: Language,
    *,
    whole_book: bool = True,
    english: English | None = None,
    art: frozenset[str] = frozenset(),
    memory: Memory | None = None,
    known: Sequence[RuleModule] = (),
) -> Result:
    """Run rules over a course in memory, which may name those and what is ``known`` besides."""
    course = course_of(files, [module.rule.name for module in (*rules, *known)])
    job = Job(course, unit_sources(files), rules, language, TODAY, whole_book, english, art, memory=memory)
    return run(job)


def run_example(module: RuleModule, example: Example, rules: Sequence[RuleModule], language: Language) -> Result:
    """Run a rule over one of its examples, with the other ``rules`` only where it looks at what they say."""
    needed = [module] if module.find_in_stets is None else rules
    english, art = ToldEnglish(example.english), frozenset(example.files)
    return run_files(assemble(example).files, needed, language, english=english, art=art, known=rules)
