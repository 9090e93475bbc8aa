"""Whether the answers of a key may not be for the items that they are held against."""

from collections.abc import Sequence

from lint_rules.page.exercises.answers import OWN, left_open
from lint_rules.page.exercises.model import Answer, Exercise, Exercises


def is_of_another(exercise: Exercise, read: Exercises, answers: Sequence[Answer]) -> bool:
    """Whether others have as many items as the key has answers, another exercise or lettered lines with blanks: the key
    is more likely theirs."""
    blanks = [option for option in exercise.column if "__" in option.text]
    others = [len(other.items) for other in read.exercises if other is not exercise]
    return len(answers) in (*others, len(blanks))


def leaves_to_children(read: Exercises) -> bool:
    """Whether the key leaves answers to the children beside those that it labels: `8–10 Children's own answers`."""
    open_ = {
        (id(answer.place.passage), answer.place.start)
        for exercise in read.exercises
        for answer in exercise.key.answers
        if left_open(answer.text)
    }
    return sum(1 for passage in read.keys for _ in OWN.finditer(passage.text)) > len(open_)
