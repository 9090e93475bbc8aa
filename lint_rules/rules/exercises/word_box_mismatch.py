"""A word box that does not fit the gaps: a word too few where each is used once, or one that no gap takes.

A child crosses out each word as it is used. With a word too few the last gap cannot be filled; with one left over that
should have been used, the child looks for a mistake of its own. Looked at only where the instruction says that each
word is used once, or all of them.
"""

from collections import Counter
from collections.abc import Iterator, Sequence

from lint_rules.finding import Found, Severity
from lint_rules.language.inflection.forms import every_form
from lint_rules.page.exercises.answers import alternatives, plain
from lint_rules.page.exercises.completed import key_texts
from lint_rules.page.exercises.instructions import each_once, instruction_of
from lint_rules.page.exercises.model import Answer, Exercise, Item, Place
from lint_rules.rule import Example, Reading, Rule
from lint_rules.source import Span

_ONCE = "### 1 Write. Use each word once. {.writing}\n\n"
_KEY = "\n\n::: answers\n1 hat 2 kite 3 bird\n:::\n"
_PAGE = "1. He has a ____.\n2. She flies a ____.\n3. It is a ____."
_DOUBLED = f"### 1 Write. {{.writing}}\n\nWord box: hat, hat, kite\n\n{_PAGE}\n\n::: answers\n"

RULE = Rule(
    name="word-box-mismatch",
    family="exercises",
    severity=Severity.QUERY,
    cure="Put the missing word into the box, take the spare one out, or say that there is one word too many.",
    passes=(
        Example(f"{_ONCE}Word box: bird, hat, kite\n\n{_PAGE}{_KEY}"),
        Example(
            f"### 1 Write. There is one extra word. {{.writing}}\n\nWord box: bird, hat, kite, cat\n\n{_PAGE}{_KEY}"
        ),
        Example(f"### 1 Write. {{.writing}}\n\nWord box: bird, hat, kite, cat\n\n{_PAGE}{_KEY}", why="not said"),
        Example(
            f"{_DOUBLED}1 hat 2 kite 3 hat\n:::\n",
            why="a word twice, for two gaps",
        ),
        Example(f"{_ONCE}::: words\nbird, hat, kite\n:::\n\n{_PAGE}{_KEY}", why="a words panel"),
    ),
    fails=(
        Example(
            "### 1 Use all the words. {.writing}\n\n| get | have | go |\n|---|---|---|\n| wash | «watch» | see |\n\n"
            "1. I ____ up.\n2. I ____ my face.\n3. I ____ bread.\n4. I ____ out.\n5. I ____ Ed.\n\n"
            "::: answers\n1. I get up.\n2. I wash my face.\n3. I have bread.\n4. I go out.\n5. I see Ed.\n:::\n",
            why="a table, and whole sentences in the key",
        ),
        Example(
            f"{_ONCE}Word box: «bird, hat»\n\n{_PAGE}\n\n::: answers\n1 hat 2 kite 3 bird\n:::\n",
            why="three gaps, two words",
        ),
        Example(
            f"{_DOUBLED}1 hat 2 kite 3 «kite»\n:::\n",
            why="a word twice in the box, and another used twice",
        ),
        Example(f"{_ONCE}Word box: bird, hat, kite, «cat»\n\n{_PAGE}{_KEY}", why="a word that no gap takes"),
        Example(f"{_ONCE}Word box: «bird, hat»\n\n{_PAGE}\n", why="no key, but a gap too many"),
    ),
)


def find(reading: Reading) -> Iterator[Found]:
    """Report boxes with a word too few or too many."""
    for read in reading.readings.exercises:
        once = each_once(instruction_of(read.activity))
        for exercise in read.exercises:
            if exercise.box is None or exercise.key.own:
                continue
            words = exercise.box.words
            if once:
                yield from _compare(exercise, words)
            elif len({plain(word.text) for word in words}) < len(words):  # hers, hers, his: one for each gap
                said = [(item.answer, _used(item)) for item in exercise.items if item.answer is not None]
                gaps = sum(len(item.gaps) for item in exercise.items if not item.example)
                yield from _twice(said, words) if len(said) == gaps == len(words) else ()


def _compare(exercise: Exercise, words: tuple[Place, ...]) -> Iterator[Found]:
    gaps = sum(len(item.gaps) for item in exercise.items if not item.example)
    box = {plain(word.text) for word in words}
    said = [(item.answer, _used(item)) for item in exercise.items if item.answer is not None]
    used = {form for _, forms in said for form in forms} | {plain(item.text) for item in exercise.items if item.example}
    if gaps > len(words):
        outside = [answer for answer, forms in said if not forms & box]
        message = f"There are {gaps} gaps and {len(words)} words in the box, each to be used once."
        if outside and len(outside) <= gaps - len(words):
            listed = ", ".join(f"“{answer.text}”" for answer in outside)
            missing = f"{listed} {'is' if len(outside) == 1 else 'are'} missing."
            yield Found(*_whole(words), f"{message} {missing}")
        elif not said:
            yield Found(*_whole(words), message)
        elif not outside and len(said) == len(exercise.items):
            taken = Counter(next(form for form in forms if form in box) for _, forms in said)
            again = [word for word, count in taken.items() if count > 1]
            if len(again) == gaps - len(words):
                listed = ", ".join(f"“{word}”" for word in again)
                yield Found(*_whole(words), f"{message} {listed} {'is' if len(again) == 1 else 'are'} needed twice.")
    elif len(words) > gaps > 0 and len(said) == len(exercise.items) and len(words) - gaps <= gaps:
        made = {word: form for word in box for form in every_form(word) if form in used and word.isalpha()}
        spare = [word for word in words if plain(word.text) not in used and plain(word.text) not in made]
        fits = sum(bool(forms & (box | set(made.values()))) for _, forms in said)
        if len(spare) == len(words) - gaps and fits == len(said):
            for word in spare:
                message = f"No gap takes “{word.text}”, though every word of the box is to be used."
                yield Found(word.span, word.text, f"{message} Take it out, or say that one is extra.")
    elif len(words) == gaps == len(said):
        yield from _twice(said, words)


def _whole(words: Sequence[Place]) -> tuple[Span, str]:
    """Where a box stands, and what it says; of a table its last cell, behind which the missing word goes."""
    first, last = words[0], words[-1]
    if first.passage is not last.passage:
        return last.span, last.text
    return first.passage.span(first.start, last.end), first.passage.text[first.start : last.end]


def _twice(said: Sequence[tuple[Answer | None, set[str]]], words: Sequence[Place]) -> Iterator[Found]:
    """As many words as gaps, and yet one is used once too often and one once too seldom."""
    forms = [plain(word.text) for word in words]
    used = [next((form for form in forms if form in texts), "") for _, texts in said]
    spare, again = Counter(forms) - Counter(used), Counter(used) - Counter(forms)
    if "" in used or sum(spare.values()) != 1 or sum(again.values()) != 1:
        return
    (left,), (over,) = spare, again
    answer = [answer for (answer, _), form in zip(said, used, strict=True) if form == over][-1]
    word = next(word for word, form in zip(words, forms, strict=True) if form == left)
    if answer is not None:
        gaps = {2: "two gaps", 3: "three gaps"}.get(used.count(over), "several gaps")
        few = "none" if forms.count(left) == 1 else f"one too few for the {forms.count(left)} in the box"
        message = f"“{answer.text}” fills {gaps}, and “{word.text}” {few}, though each word is to be used once."
        yield Found(answer.place.span, answer.text, message)


def _used(item: Item) -> set[str]:
    """What an item's answer takes from the box; where the key gives the whole sentence, what it has at the gaps."""
    whole = item.answer.text if item.answer is not None else ""
    return _forms(whole) | {form for text in key_texts(item) for form in _forms(text)}


def _forms(said: str) -> set[str]:
    return {plain(one) for one in alternatives(said)} | {plain(one) for one in said.split(",")}
