"""Where a key that puts things in order leaves a step out or has it twice: `b, d, a`, `a 3, b 1, c 1`, `4 – 1 – 2`."""

from collections.abc import Iterator

from lint_rules.page.exercises.answers import plain, range_of
from lint_rules.page.exercises.instructions import asks_for_order
from lint_rules.page.exercises.model import Exercise, Exercises, Place, Slip

_FEWEST = 3


def put_in_order(exercise: Exercise, instruction: str) -> Iterator[Slip]:
    """An order has each step once."""
    order = exercise.key.order
    if not order or not asks_for_order(instruction):
        return
    given = [answer.label.key for answer in order if answer.label]
    column = [option.label.key for option in exercise.column if option.label]
    labels = column if set(given) <= set(column) else [item.label.key for item in exercise.items]
    missing = [label for label in labels if label not in given]
    if not missing or len(missing) * 2 > len(labels):
        return
    first, last = order[0].place, order[-1].place
    message = f"The steps are {range_of(labels)}; the key leaves out {', '.join(missing)}. Give each step once."
    yield Slip(Place(first.passage, first.start, last.end), message)


def numbered(exercise: Exercise, instruction: str) -> Iterator[Slip]:
    """Lettered things that each get a number, `a 3, b 1, c 2`: no number twice, and none left out."""
    items = [item for item in exercise.items if not item.example]
    answers = [item.answer for item in items if item.answer is not None]
    numbers = [plain(answer.text) for answer in answers]
    if len(numbers) < _FEWEST or not asks_for_order(instruction) or any(item.choices for item in items):
        return
    if any(item.label.text.isdigit() for item in items):
        return
    missing = [str(at) for at in range(1, len(items) + 1) if str(at) not in numbers]
    if len(missing) != 1 or not set(numbers) <= {str(at) for at in range(1, len(items) + 1)}:
        return
    for at, answer in enumerate(answers):
        if numbers[at] in numbers[:at]:
            message = f"The key has {numbers[at]} twice, and no {missing[0]}. Give each step its number."
            yield Slip(answer.place, message)


def numbers_alone(read: Exercises, instruction: str) -> Iterator[Slip]:
    """A key of numbers for turns or pictures that have only boxes to write in: `4 – 1 – 5 – 2`, and no 3."""
    given = [plain(answer.text) for answer in read.loose]
    if len(given) < _FEWEST or not asks_for_order(instruction) or not all(one.isdigit() for one in given):
        return
    numbers = [int(one) for one in given]
    first, last = read.loose[0].place, read.loose[-1].place
    if first.passage is not last.passage:
        return
    place = Place(first.passage, first.start, last.end)
    missing = [number for number in range(1, max(numbers)) if number not in numbers]
    twice = [number for number in set(numbers) if numbers.count(number) > 1]
    if len(missing) == 1 and len(numbers) - len(set(numbers)) <= 1:
        message = f"The key has the numbers up to {max(numbers)}, but no {missing[0]}. Give each step its number."
        yield Slip(place, message)
    elif not missing and twice and len(numbers) == max(numbers) + 1:
        message = f"The key has {twice[0]} twice, and no {len(numbers)}. Give each step its number."
        yield Slip(place, message)
