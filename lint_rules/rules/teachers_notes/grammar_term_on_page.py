"""A term of grammar on the children's page, where it is for the teacher alone.

`Use the present continuous` tells a child of eight nothing, and frightens it a little. Terms belong in the teacher's
notes; the page shows sentences. Read is all that a pupil sees: titles, instructions, texts, tables. The terms stand in
lint_rules/language/grammar/data/grammar_terms.csv. Those that some primary books do show (noun, verb, adjective,
singular, plural) are only noted, once a course, and from A2 on not at all: on judged courses all of 15 authors
shrugged; at B1 none is more than a note. Everyday words that are terms as well are left alone: `a present`, `past the
shop`, `the third person in the line`.
"""

import re
from collections.abc import Iterator
from functools import cache

from lint_rules import lazy_re
from lint_rules.course.model import band_rank
from lint_rules.finding import Found, Severity
from lint_rules.language.grammar.labels import GrammarTerm, all_grammar_terms
from lint_rules.manuscript.model import Audience, Passage, Role
from lint_rules.rule import By, Example, Gather, Limit, Reading, Rule, Within

RULE = Rule(
    name="grammar-term-on-page",
    family="teacher's notes",
    severity=Severity.QUERY,
    cure="Show children a sentence to follow in place of the term, and keep the term for the teacher's notes.",
    passes=(
        Example("Here is a present for you. It's perfect!\n\nGo past the shop. What a simple present!\n"),
        Example("The third person in the line is Rafi. In the future I can fly.\n"),
        Example("::: teacher\n**Grammar:** present continuous\n**Aim:** practise the comparative\n:::\n"),
        Example("::: answers\n1 preposition\n:::\n\n![a table of pronouns](art/table.svg)\n", why="not on the page"),
        Example("Complete with the verb.\n", course="levels: [{cefr: A2}]", why="children of that level know the word"),
        Example("### 1 Write the answers to the questions. {.writing}\n\nRead the words. Learn the short answers.\n"),
    ),
    fails=(
        Example("### 1 Use the «present continuous». {.writing}\n\nThe wind is blowing.\n"),
        Example("## Lesson 2: «Comparatives» {.grammar}\n\n### 1 Read. {.reading}\n\nA cat is bigger.\n"),
        Example("| «Pronouns» | Boats |\n|---|---|\n| he, she | red |\n"),
        Example("Put a «pre**posi**tion» in each gap.\n"),
        Example("Write the «-ing form» of each word.\n"),
        Example("Complete with the «verb» be.\n", why="`verb` alone is only noted", weight=Severity.NOTE),
        Example("Use the «past simple» of the verb.\n", course="levels: [{cefr: A2}]"),
        Example("The «present perfect»\n", course="levels: [{cefr: B1}]", weight=Severity.NOTE, why="usual by then"),
        Example("Is it the «simple\npresent»?\n"),
    ),
    limits=(Limit("terms that are for the teacher alone", "grammar_terms.csv: common practice, no source"),),
    gathers=(
        Gather(
            Within.COURSE,
            By.ABOUT,
            "Terms of grammar stand on the children's pages: {words}. Do your children know them?",
            only="child",
        ),
        Gather(
            Within.UNIT,
            By.ABOUT,
            "Terms of grammar stand on the children's pages: {words}. Show children a sentence to follow instead, and "
            "name the grammar in the teacher's notes.",
        ),
    ),
)

_OLDER = "A2"  # children who know noun and verb from their own language at school: common practice, no source
_OLDEST = "B1"  # with verb tables the terms are usual: what judges of two B1 courses shrugged at
_NOT_ON_PAGE = frozenset({Role.ALT, Role.CODE})
_GIFT = lazy_re.compile(r"\b(?:an?|what|my|your|his|her|our|their|this|that|one|nice|for)\s+$", re.I)
_GIFTS = frozenset({"simple present", "present perfect"})
_IN_LINE = frozenset({"third person"})


def find(reading: Reading) -> Iterator[Found]:
    """Report terms of grammar on pupils' pages."""
    for passage in reading.unit.passages:
        if passage.audience is Audience.PUPIL and passage.role not in _NOT_ON_PAGE:
            yield from _in_passage(passage, band_rank(reading.level.cefr))


def _in_passage(passage: Passage, level: int) -> Iterator[Found]:
    for match in _pattern().finditer(passage.text):
        words = " ".join(match[0].casefold().split())
        if words in _IN_LINE or (words in _GIFTS and _GIFT.search(passage.text[: match.start()])):
            continue
        term = _terms().get(words)
        for_teacher = term is None or term.teacher_only
        if level >= band_rank(_OLDER) and not for_teacher:
            continue
        message = (
            f"“{match[0]}” is a term of grammar: it is for the teacher. Show children a sentence to follow instead, "
            "and name the grammar in the teacher's notes."
            if for_teacher
            else f"“{match[0]}” is a term of grammar. If your children do not know it, show them a sentence to follow."
        )
        about = "teacher" if for_teacher else "child"
        severity = None if for_teacher and level < band_rank(_OLDEST) else Severity.NOTE
        yield Found(
            passage.span(match.start(), match.end()),
            match[0],
            message,
            severity,
            about=about,
        )


@cache
def _terms() -> dict[str, GrammarTerm]:
    """The terms by their forms: those for the teacher alone, and those that children may have met."""
    return {
        form: term for term in all_grammar_terms() if term.page != "child" for form in (term.term, term.plural) if form
    }


@cache
def _pattern() -> "re.Pattern[str]":
    """Any of the terms as whole words, the longest first; over a line's end too."""
    forms = sorted(_terms(), key=lambda form: (-len(form), form))
    flexible = (r"[\s-]+".join(map(re.escape, re.split(r"[\s]+", form))) for form in forms)
    return re.compile(r"(?<![\w-])(?:" + "|".join(flexible) + r")(?![\w-])", re.I)
