"""What the frames of sentences share that say as well the one as the other: somebody, an owner, tables of rows."""

import re
from functools import cache

from lint_rules import lazy_re
from lint_rules.tables import entries, words

OWNER = r"(?:my|our|his|her|their|your)"
# No big sister, no twin, no teacher: of them everybody knows how old they are.
KIN = r"(?:(?:best|new)\s+)?(?:sister|brother|friend|cousin|neighbour|classmate|partner)"
SOMEBODY = rf"(?:I|we|you|{OWNER}\s+{KIN}s?(?:['’]s\s+{KIN})?)"
VERY = r"(?:\s+(?:very|so|really|quite|too|much|always|often|usually|a\s+(?:bit|little)))?"
ENDS = lazy_re.compile(r"[.!]?")
GOER = rf"(?:{SOMEBODY}|he|she|they|(?:{OWNER}\s+)?(?:mum|dad|gran|grandad)|{OWNER}\s+(?:aunt|uncle|parents|class))"
NOUN = lazy_re.compile(r"([\w-]+)\s*(?:,?\s*please)?\s*[.!?]?", re.I)
FEELS = lazy_re.compile(rf"(?:{SOMEBODY}|they|he|she|{OWNER}\s+(?:mum|dad|gran|granny|grandad|parents))", re.I)


@cache
def rows(table: str) -> tuple[tuple[frozenset[str], frozenset[str]], ...]:
    """The rows of a table: some words, ` = `, others, each by commas."""
    halves = (row.partition(" = ") for row in entries(f"{table}.txt"))
    return tuple((listed(left), listed(right)) for left, _, right in halves)


def listed(text: str) -> frozenset[str]:
    """What a text lists by commas."""
    return frozenset(part.strip() for part in text.split(","))


def things() -> frozenset[str]:
    """What somebody may own."""
    return words("belongings") | words("things_of_any_colour")
