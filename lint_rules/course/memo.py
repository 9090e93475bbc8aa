"""Working out once what every unit of a course asks for."""

from collections.abc import Callable
from functools import wraps
from typing import TypeVar

Thing = TypeVar("Thing")
Answer = TypeVar("Answer")


def memo(work: Callable[[Thing], Answer]) -> Callable[[Thing], Answer]:
    """Remember what a function made of the last thing it was given, as long as it is given the very same object.

    For word lists and plans of a whole course, never changed in place: to hash or compare their tens of thousands of
    rows at every question, as ``functools.cache`` does, costs more than most answers.
    """
    last: list[tuple[Thing, Answer]] = []

    @wraps(work)
    def ask(thing: Thing) -> Answer:
        for known, answer in tuple(last):
            if known is thing:
                return answer
        answer = work(thing)
        last[:] = [(thing, answer)]
        return answer

    return ask
