"""Answers that the key's own words speak against: *5 C (“Every week we recycle twenty tons.”)*, where C is thirty tons.

A careful author quotes the text behind each answer; the letter before the quotation is what slips. Nothing is
understood: the quotation has the words of one other option and not those of the chosen one, or another number of the
very thing of which a statement that is called true tells. Told is the one answer of an exercise where two others at
least go with what is quoted there.
"""

from collections.abc import Iterator

from lint_rules import lazy_re
from lint_rules.page.exercises.answers import yes_or_no
from lint_rules.page.exercises.completed import completed
from lint_rules.page.exercises.in_step import the_one_out_of_step
from lint_rules.page.exercises.model import Exercise, Item, Place
from lint_rules.page.number_words import numbers_in
from lint_rules.unit_language.told_words import told_words

_FEWEST = 2  # answers that go with their quotation
_QUOTED = lazy_re.compile(r"^\W*(?P<said>\w{1,5})\W*?[(–—:-]\s*[“\"‘](?P<quoted>[^”\"]{8,})[”\"’]")


def against_its_quotation(exercise: Exercise) -> tuple[Item, Place, str] | None:
    """The one item whose answer does not go with what the key quotes for it, the answer without the quotation, and the
    words quoted; None otherwise."""
    return the_one_out_of_step(_by_quotation(exercise), _FEWEST)


def _by_quotation(exercise: Exercise) -> Iterator[tuple[bool, tuple[Item, Place, str]]]:
    for item in exercise.items:
        if item.answer is None or item.example:
            continue
        place = item.answer.place
        match = _QUOTED.match(place.passage.text[place.start :])  # what stands behind a dash is no answer
        if match is None:
            continue
        goes = _option_goes(item, exercise, match["quoted"])
        goes = _statement_goes(item, match["said"], match["quoted"]) if goes is None else goes
        if goes is not None:
            said = Place(place.passage, place.start + match.start("said"), place.start + match.end("said"))
            yield goes, (item, said, match["quoted"])


def _option_goes(item: Item, exercise: Exercise, quoted: str) -> bool | None:
    """Whether the chosen option is quoted, or one other alone; None where neither or several are."""
    if len(item.choices) != 1:
        return None
    chosen, options = completed(item, exercise).chosen[0], item.choices[0].options
    there = told_words(quoted)
    whole = [told_words(option.text) for option in options]
    own = [words - frozenset.intersection(*whole) for words in whole]
    found = [option for option, words in zip(options, own, strict=True) if words and words <= there]
    return found[0] is chosen if chosen is not None and len(found) == 1 else None


def _statement_goes(item: Item, said: str, quoted: str) -> bool | None:
    """Whether a statement that is called true has the numbers of its quotation; None where it has none, or is false."""
    if yes_or_no(said) is not True:
        return None
    stated = {thing: number for number, *_, thing in numbers_in(item.text) if thing}
    told = {thing: number for number, *_, thing in numbers_in(quoted) if thing}
    both = stated.keys() & told.keys()
    if not both:
        shared = told_words(item.text) & told_words(quoted)
        return True if len(shared) > 1 else None
    return all(stated[thing] == told[thing] for thing in both)
