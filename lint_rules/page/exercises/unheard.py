"""The one person whom an exercise asks about and of whom its script says nothing, where it speaks of all the others.

Mr Finn is item 2, and what he sent stands in the key; in the recording nobody names him. A script that is cut for time
loses a turn like that, and no class can answer.
"""

from collections.abc import Collection, Iterator

from lint_rules import lazy_re
from lint_rules.manuscript.model import Audience, Unit
from lint_rules.page.audio import heard_in
from lint_rules.page.exercises.in_step import the_one_out_of_step
from lint_rules.page.exercises.model import Exercise, Exercises, Item, Place
from lint_rules.page.heard_numbers import number_left_out
from lint_rules.page.number_words import numbers_in
from lint_rules.plain_words import WORD
from lint_rules.tables import words

_THING = lazy_re.compile(r"\W*(?:(?:the|a|an|my|your|his|her)\s+)?(?P<thing>[a-z]+(?: [a-z]+)?|[A-Z][a-z]+day)[\s_:]*")
_FEWEST = 3  # items of whom the script speaks
_NAME = lazy_re.compile(r"(?<![\w’'-])[A-Z][\w-]+")


def never_heard(read: Exercises, unit: Unit, names: Collection[str]) -> Place | None:
    """The name of the one person of an activity's items whom its script neither names nor lets speak, or of the one
    thing, where each item is one; ``names`` are those of the course. None where there is none, or the page or its
    picture tells of the person."""
    heard = heard_in(read.activity, unit)
    if not heard or len(read.exercises) != 1 or number_left_out(heard) is not None:
        return None  # of a test's parts only one is heard; a number that is left out is told as such
    said = frozenset(_low(" ".join(f"{passage.speaker or ''} {passage.text}" for passage in heard)))
    persons = _persons([*names, *(passage.speaker for passage in unit.passages if passage.speaker)])
    (exercise,) = read.exercises
    things = list(_things(exercise, said))
    whole = len(things) == sum(not item.example for item in exercise.items)  # each item is a thing and no more
    found = the_one_out_of_step(things if whole else _marked(exercise, persons, said), _FEWEST)
    return found if found is not None and not _stands_elsewhere(found, read, exercise.items) else None


def _persons(names: Collection[str]) -> dict[str, frozenset[str]]:
    """Each word of a name but a short title, and all words that somebody is called who has it: Grandpa Biju, Biju."""
    called: dict[str, frozenset[str]] = {}
    for name in names:
        own = frozenset(_low(name)) - words("titles_of_persons")
        called |= {word: called.get(word, frozenset()) | own for word in own}
    return called


def _marked(
    exercise: Exercise, persons: dict[str, frozenset[str]], said: frozenset[str]
) -> Iterator[tuple[bool, Place]]:
    """The items that name somebody, and whether the script speaks of any of them."""
    for item in exercise.items:
        named = [] if item.example or item.answer is None else list(_named(item, persons))
        if named:
            yield any(persons[_low(one.text)[0]] & said for one in named), named[0]


def _things(exercise: Exercise, said: frozenset[str]) -> Iterator[tuple[bool, Place]]:
    """The items that are the name of a thing, or of a day, and a blank, and whether the script has its word; numbers
    are held against the script by others."""
    stems = {word.removesuffix("s") for word in said}
    for item in exercise.items:
        asked = item.answer is not None and not item.example and not list(numbers_in(item.answer.text))
        match = _THING.fullmatch(item.text) if asked and len(item.prompt) == 1 else None
        start = item.prompt[0].text.find(match["thing"]) if match is not None else -1
        if match is not None and start >= 0:
            (place,) = item.prompt
            thing = Place(place.passage, place.start + start, place.start + start + len(match["thing"]))
            yield match["thing"].split()[-1].casefold().removesuffix("s") in stems, thing


def _named(item: Item, persons: dict[str, frozenset[str]]) -> Iterator[Place]:
    for place in item.prompt:
        for match in _NAME.finditer(place.text):
            if _low(match[0])[0] in persons:
                yield Place(place.passage, place.start + match.start(), place.start + match.end())


def _stands_elsewhere(name: Place, read: Exercises, items: Collection[Item]) -> bool:
    """Say whether the page, or what is drawn on it, tells of somebody outside the items."""
    asked = {id(place.passage) for item in items for place in item.prompt}
    return any(
        name.text.casefold() in _low(passage.text)
        for passage in read.activity.part.passages
        if passage.audience in (Audience.PUPIL, Audience.ARTIST) and id(passage) not in asked
    )


def _low(text: str) -> list[str]:
    return [word.casefold().removesuffix("'s").removesuffix("’s") for word in WORD.findall(text)]
