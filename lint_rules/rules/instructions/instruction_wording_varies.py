"""The same task is worded in several ways across the book.

A child who has learnt that `Circle the odd one out` means ‘find the one that does not fit’ has to learn it anew when
the next unit says `Find the word that is different`. Sameness is a kindness here, and every translator of the
instructions will thank for it. Shown is the wording that most activities have. Two instructions set the same task when
they ask for the same steps with the same things, in other words (data/task_wordings.csv); any two odd-one-out
activities with as many steps do. `Listen and point` and `Listen and point to the boats` are two tasks. Nothing is said
of tasks that come once, nor where no wording is in the majority.
"""

from collections import Counter, defaultdict
from collections.abc import Iterator

from lint_rules.facts import Instruction, UnitFacts
from lint_rules.finding import Found, Severity
from lint_rules.rule import Book, By, Example, Gather, Limit, Rule, Within
from lint_rules.source import Span
from lint_rules.unit_language.task_wording import task_of, wording_of


def _lesson(*instructions: str) -> str:
    """Lessons with nothing but instructions, for the examples."""
    return "## Lesson 1: Look {.words}\n\n" + "\n\n".join(f"### 1 {text}" for text in instructions) + "\n"


RULE = Rule(
    name="instruction-wording-varies",
    family="instructions",
    severity=Severity.NOTE,
    cure=("Take the wording that the book has most often. Where the task is another one, say what is different in it."),
    passes=(
        Example(
            _lesson(
                "Listen and point. {.listening}",
                "Listen and point to the boats. {.listening}",
                "Listen and point to the ducks. {.listening}",
                "Listen and point. {.listening}",
            ),
            why="other things to point to are other tasks",
        ),
        Example(
            _lesson("Listen, and point! {.listening}", "Listen and point. {.listening}", "Listen and point {.song}"),
            why="marks and capitals do not matter",
        ),
        Example(
            _lesson(
                "Ring the answers. {.reading}",
                "Circle the answers. {.reading}",
                "Circle the answers. {.test}",
                "Ring the answers. {.test}",
            ),
            why="no wording is in the majority",
        ),
        Example(
            _lesson(
                "Circle the odd one out. {.odd-one-out}",
                "Circle the odd one out. {.odd-one-out}",
                "Circle the odd one out. Say why. {.odd-one-out}",
                "Circle the kites. {.reading}",
            ),
            why="one step more is another task",
        ),
        Example(
            _lesson(
                "Circle the odd one out. {.odd-one-out}",
                "Say. Which sound is different? {.odd-one-out .sounds}",
                "Circle the odd one out. {.odd-one-out}",
            ),
            why="the one that is odd by its sound is another task",
        ),
    ),
    fails=(
        Example(
            _lesson(
                "Circle the odd one out. {.odd-one-out}",
                "«Find the word that is different.» {.odd-one-out}",
                "Circle the odd one out. {.odd-one-out}",
            )
        ),
        Example(
            _lesson("Listen and circle. {.listening}", "Listen and circle. {.test}", "«Listen and ring.» {.listening}")
        ),
        Example(
            _lesson("Complete the sentences. {.writing}", "Complete the sentences. {.writing}"),
            others=(
                "---\nlevel: level-1\nunit: 2\ntitle: Two\n---\n\n# Two\n\n## Lesson 1: Look\n\n"
                "### 1 «Fill in the sentences.» {.writing}\n",
            ),
            why="in another unit",
        ),
    ),
    limits=(Limit("which wordings set the same task", "task_wordings.csv: common practice, no source"),),
    gathers=(Gather(Within.COURSE, By.ABOUT),),
)


def find_in_book(book: Book) -> Iterator[Found]:
    """Report instructions that say the same as most others in other words."""
    tasks: dict[str, list[tuple[UnitFacts, Instruction]]] = defaultdict(list)
    for facts in book.units:
        for instruction in facts.instructions:
            task = task_of(instruction.spot.text, instruction.kinds)
            if task:
                tasks[task].append((facts, instruction))
    for same in tasks.values():
        yield from _in_task(same)


def _in_task(same: list[tuple[UnitFacts, Instruction]]) -> Iterator[Found]:
    counts = Counter(wording_of(instruction.spot.text) for _, instruction in same)
    (usual, often), *rest = counts.most_common()
    if often < 2 or (rest and rest[0][1] == often):
        return
    shown = next(i.spot.text for _, i in same if wording_of(i.spot.text) == usual)
    for facts, instruction in same:
        spot = instruction.spot
        if wording_of(spot.text) != usual:
            message = (
                f"The same task is worded “{shown}” in {often} activities of this book. One task, one wording: "
                "children follow it sooner."
            )
            yield Found(Span(spot.start, spot.end), spot.text, message, path=facts.path, about=usual)
