"""The notes name a structure that the lesson's pattern sentences do not contain.

A teacher who reads `Grammar: present continuous` prepares for it, and then finds `Can a frog jump?` on the children's
page. Mostly the pattern was changed and the label was not. Labels are read as teachers write them: `present
progressive`, `be: present simple`, `can (questions)`, `comparatives and superlatives`. A label that names no structure
hornbook knows (`plurals`, `in, on, under`), what a sentence only tells or denies (there is no *did*), a lesson without
pattern sentences, and a structure that children meet at least twice elsewhere on its pages are left alone.
"""

import re
from collections import Counter
from collections.abc import Iterator

from lint_rules import lazy_re
from lint_rules.finding import Found, Severity
from lint_rules.language.grammar.grammar_levels import names
from lint_rules.language.grammar.labels import all_grammar_terms
from lint_rules.manuscript.counting import is_for_children
from lint_rules.manuscript.field_names import field_key
from lint_rules.manuscript.model import Audience, Passage, Role
from lint_rules.rule import Example, Need, Reading, Rule
from lint_rules.unit_language.named_grammar import is_shown, labels_in, main_structures, practised

_SENTENCE = 6  # words of what is told in prose: common practice, no source
_SENTENCE_END = lazy_re.compile(r"[.;](?=\s|$)|\n")
_DENIED = lazy_re.compile(r"\b(?:no|not|never|without|nor|yet)\b|n['’]t yet\b")
_SET_APART = lazy_re.compile(r"[“”\"‘…/?]|\(")  # a pattern, and no sentence about one
_OFTEN = 2  # passages: common practice, no source


def _lesson(label: str, *sentences: str) -> str:
    """A small lesson for the examples."""
    return (
        f"## Lesson 2: Look {{.grammar}}\n\n::: teacher\n**Aim:** talk about pets\n**Grammar:** {label}\n:::\n\n"
        "### 1 Listen and say. {.listening}\n\n::: pattern\n" + "\n\n".join(sentences) + "\n:::\n"
    )


RULE = Rule(
    name="grammar-label-mismatch",
    family="teacher's notes",
    severity=Severity.NOTE,
    cure=(
        "Change the label to what the pattern sentences show, or add a pattern sentence that shows what the label says."
    ),
    passes=(
        Example(_lesson("present continuous", "The wind is blowing.", "Is it raining?")),
        Example(_lesson("Present progressive (affirmative)", "The wind is blowing.")),
        Example(_lesson("can: questions and short answers", "Can a frog jump?", "Yes, it can.")),
        Example(_lesson("comparatives and superlatives", "A cat is bigger than a frog.", "The dog is the biggest.")),
        Example(_lesson("present simple: be", "I am happy.", "They are sad.")),
        Example(
            _lesson("plural nouns; in, on, under", "Two frogs are in the box."), why="no structures, so no judgement"
        ),
        Example(_lesson("present continuous", "| I | am | running. |\n|---|---|---|\n| You | are | running. |")),
        Example(_lesson("The word order is that of a statement, and there is no do or did.", "Can a frog jump?")),
        Example(_lesson("There are two new things in this lesson, so go gently.", "Can a frog jump?")),
        Example(_lesson("Let the children feel it with real things: three raisins", "Can a frog jump?")),
        Example(
            "## Lesson 2: Look {.grammar}\n\n::: teacher\n**Grammar:** past simple\n:::\n\n"
            "### 1 Read. {.reading}\n\nThe wind is blowing.\n",
            why="no pattern sentences",
        ),
        Example(
            _lesson("can; present continuous", "Can a frog jump?")
            + "\n### 2 Read. {.reading}\n\nThe wind is blowing.\n\nThe kite is flying.\n",
            why="children read it twice on another page",
        ),
    ),
    fails=(
        Example(_lesson("«present continuous»", "Can a frog jump?", "A cat can't swim.")),
        Example(_lesson("can, «past simple»", "Can a frog jump?", "A cat can't swim.")),
        Example(_lesson("«Practise the past simple with all the verbs of the story».", "Can a frog jump?")),
        Example(_lesson("«present simple»", "The wind is blowing.", "Are you running? Yes, I am.")),
        Example(_lesson("«have got (questions)»", "There is a frog.", "There are two cats.")),
    ),
    needs=frozenset({Need.LANGUAGE}),
)


def find(reading: Reading) -> Iterator[Found]:
    """Report labels in Grammar fields that no pattern sentence of the lesson bears out."""
    for lesson in reading.unit.lessons:
        passages = tuple(lesson.passages)
        fields = [p for p in passages if p.audience is Audience.TEACHER and field_key(p.field) == "grammar"]
        shown = practised(reading.unit, passages, reading.analyse) if fields else ()
        if not shown:
            continue
        called = " and ".join(names()[name].called for name in main_structures(shown)[:3])
        for passage in fields:
            for label in labels_in(passage.text):
                if _is_told(passage.text, label.start, label.end):
                    continue
                if not is_shown(label, shown) and not is_shown(label, _often(passages, reading)):
                    text = passage.text[label.start : label.end]
                    message = (
                        f"The notes promise “{text}”, but no pattern sentence of this lesson contains it; "
                        f"they show {called}. Mend the label, or the pattern."
                    )
                    yield Found(passage.span(label.start, label.end), text, message)


def _is_told(text: str, start: int, end: int) -> bool:
    """Say whether a field tells something there and names nothing: a denial (there is no *did*), or a sentence without
    a term of grammar (Let the children feel it with real things)."""
    before = max((mark.end() for mark in _SENTENCE_END.finditer(text, 0, start)), default=0)
    after = next((mark.start() for mark in _SENTENCE_END.finditer(text, end)), len(text))
    words = text[before:after].casefold()
    if _DENIED.search(words):
        return True
    named = any(re.search(rf"\b{re.escape(term.term)}", words) for term in all_grammar_terms())
    return len(words.split()) >= _SENTENCE and not named and not _SET_APART.search(words)


def _often(passages: tuple[Passage, ...], reading: Reading) -> tuple[str, ...]:
    """The structures that children read or hear at least twice in a lesson, outside its instructions."""
    counts: Counter[str] = Counter()
    for passage in passages:
        if is_for_children(passage) and passage.role is not Role.INSTRUCTION:
            counts.update({one.name for one in reading.analyse(passage).structures})
    return tuple(name for name, many in counts.items() if many >= _OFTEN)
