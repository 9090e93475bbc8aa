"""A key that nothing names as one: a line of an activity's notes that answers its items one by one, all of them and no
other (`What they say 1) c 2) a 3) b`, `Look for: 1 → red, 2 → blue`)."""

import re
from collections.abc import Iterator, Sequence

from lint_rules import lazy_re
from lint_rules.manuscript.field_names import field_key
from lint_rules.manuscript.model import Activity, Audience, Passage, Role
from lint_rules.page.exercises.key import read_key
from lint_rules.page.exercises.key_places import part_of
from lint_rules.page.exercises.marks import Kind
from lint_rules.source import Source

_FEWEST = 3  # items: two numbers in a row may be anything
_SHORT = 5  # words of an answer, one with another: steps are longer (common practice, no source)
_LABELS = lazy_re.compile(r"(?<!\w)(?:\d{1,2}|[A-Za-z])(?!\w)")
_FIRST = lazy_re.compile(r"(?<![\w.,:/–-])(1|a)[.):]?\s*(?:[=→–—-]+\s*)?(?=[^\W_])")
# What an author calls the key, in a paragraph behind the steps; said again and again: On the captain's card: 1 c, 2 a.
_HOUSE_NAME = lazy_re.compile(r"[^\W\d_][^:.!?\n]{2,40}:(?=\s+[1a]\b)", re.I)
_AGAIN = 3
# Fields that say something else in lines of their own.
_OTHERS = frozenset({"step", "aim", "material", "time", "safety", "support", "extra", "word", "grammar", "language"})


def key_by_shape(
    activity: Activity, labels: Sequence[str], kinds: Sequence[Kind], source: Source
) -> tuple[Passage, ...]:
    """The line of an activity's notes that has these labels, each with a short answer, as a passage of a key; nothing
    where no line has, or several have."""
    if len(labels) < _FEWEST:
        return ()
    found = [part for passage in activity.part.passages for part in _answers(passage, labels, kinds, source)]
    return (found[0],) if len(found) == 1 else ()


def _answers(passage: Passage, labels: Sequence[str], kinds: Sequence[Kind], source: Source) -> Iterator[Passage]:
    if passage.audience is not Audience.TEACHER or passage.role is Role.TITLE or passage.cell is not None:
        return
    if field_key(passage.field) in _OTHERS and not _begins_as_others_do(passage, source):
        return
    if not set(labels) <= {one.casefold() for one in _LABELS.findall(passage.text)}:
        return
    for start in (match.start() for match in _FIRST.finditer(passage.text) if match[1].casefold() == labels[0]):
        part = part_of(passage, start, len(passage.text))
        rows = read_key([part], kinds, source).rows
        answers = rows[0] if len(rows) == 1 else ()
        if [answer.label.key for answer in answers if answer.label is not None] != list(labels):
            continue
        words = sum(len(answer.text.split()) for answer in answers)
        if all(answer.text for answer in answers) and words <= _SHORT * len(labels):
            yield part
            return


def _begins_as_others_do(passage: Passage, source: Source) -> bool:
    """Say whether a paragraph of the steps begins with a name that the unit gives to keys."""
    name = _HOUSE_NAME.match(passage.text)
    return name is not None and source.text.count(name[0]) >= _AGAIN
