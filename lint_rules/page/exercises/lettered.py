"""Letters on a page: options within an item, columns of things to match, items that are nothing but options."""

from bisect import bisect_left
from collections.abc import Sequence
from itertools import pairwise, zip_longest

from lint_rules import lazy_re
from lint_rules.manuscript.model import PICTURE
from lint_rules.page.exercises.drafts import Draft, DraftExercise, trimmed, without
from lint_rules.page.exercises.marks import LINE, WEAK, Kind, Mark, chains, label_of
from lint_rules.page.exercises.model import Label, Option, Place
from lint_rules.page.exercises.stream import Line
from lint_rules.page.exercises.tables import same_row

_WORD = lazy_re.compile(r"[^\W\d_]{2}")
_FEWEST = 2
_SIGNS = tuple("–—-:?")  # options stand behind one
_TO_DO = lazy_re.compile(r"_|\w\s?/\s?\w")  # a blank, a choice, words to put in order


def lettered(rest: Sequence[Mark]) -> tuple[list[list[Mark]], Kind]:
    """The longest chains of letters, or of Roman numbers."""
    kinds = ((chains(rest, kind), kind) for kind in (Kind.LOWER, Kind.UPPER, Kind.ROMAN))
    several, kind = sorted(kinds, key=_links)[-1]
    return [chain for chain in several if len(chain) > 1], kind


def _links(pair: tuple[list[list[Mark]], Kind]) -> tuple[int, bool]:
    return sum(len(chain) for chain in pair[0] if len(chain) > 1), pair[1] is Kind.ROMAN


def parents(several: Sequence[list[Mark]], lines: Sequence[Line]) -> list[Draft]:
    """Items that are nothing but lettered options (`1. a) ship b) sheep`): numbered by the list that they stand in."""
    found: list[Draft] = []
    for chain in several:
        items = [lines[mark.line].passage.item for mark in chain if mark.own]
        parent = items[0].parent if items and items[0] is not None else None
        if parent is None or len(items) < len(chain) or any(item is None or item.parent != parent for item in items):
            return []
        first = label_of(chain[0], lines)
        found.append(Draft(Label(str(parent[1] + 1), first.span), None, [], options_of(chain, [chain], lines)))
    numbers = [int(draft.label.text) for draft in found]
    return found if numbers == list(range(1, len(numbers) + 1)) else []


def without_speakers(marks: Sequence[Mark], lines: Sequence[Line]) -> Sequence[Mark]:
    """Marks without the people who take turns within numbered items, `1. A: How ____ you? B: Fine.`: no option has
    something to fill in."""
    turns = [
        mark
        for mark in marks
        if mark.label.isalpha() and not mark.own and lines[mark.line].passage.text[mark.end : mark.end + 1] == ":"
    ]
    ends = [
        other.first if other is not None and other.line == one.line else lines[one.line].end
        for one, other in zip_longest(turns, turns[1:])
    ]
    said = [lines[one.line].passage.text[one.last : end] for one, end in zip(turns, ends, strict=True)]
    again = len({mark.label for mark in turns}) < len(turns)
    speaking = set(turns) if again and any(_TO_DO.search(words) for words in said) else set()
    return [mark for mark in marks if mark not in speaking]


def speaks(chain: Sequence[Mark], columns: Sequence[tuple[list[Mark], Kind]], lines: Sequence[Line]) -> bool:
    """Whether letters are people who take turns: `A: … B: … A: …`."""
    colons = all(lines[mark.line].passage.text[mark.end : mark.end + 1] == ":" for mark in chain)
    letters = [mark.label for other, _ in columns for mark in other]
    return colons and any(letters.count(mark.label) > 1 for mark in chain)


def in_one_line(free: Sequence[Mark], lines: Sequence[Line]) -> list[list[Mark]]:
    """Letters that begin what a line lists with strokes or dots: `a Sumi / b Mr Reed / c Dan`; pictures, too."""
    found = []
    for chain in chains(free, Kind.LOWER, WEAK):
        line = lines[chain[0].line]
        texts = [line.passage.text[one.last : other.first].strip() for one, other in pairwise(chain)]
        listed = all(mark.line == chain[0].line for mark in chain) and all(
            text.endswith(("/", "|", ",", ";", "·", "•")) and (_WORD.search(text) or PICTURE in text) for text in texts
        )
        if listed and chain[0].strength == LINE and len(chain) > _FEWEST:
            found.append(chain)
    return found


def heads_parts(chain: Sequence[Mark], numbers: Sequence[Sequence[Mark]], lines: Sequence[Line]) -> bool:
    """Whether letters only head the parts of a page: behind each but the last numbers begin (behind any, where the
    letters stand alone: A, B).
    """
    if _hold_numbers(chain, numbers, lines):
        return True
    alone = all(lines[mark.line].text.strip(" .:)") == mark.label and not mark.own for mark in chain)
    begun = [any(one.order < links[0].order < other.order for links in numbers) for one, other in pairwise(chain)]
    return all(begun) or (alone and any(begun))


def _hold_numbers(chain: Sequence[Mark], numbers: Sequence[Sequence[Mark]], lines: Sequence[Line]) -> bool:
    """Whether numbers that run through all parts stand behind each letter, two or more behind one: A 1 2 3, B 4 5."""
    links = sorted(mark.order for several in numbers for mark in several)
    starts = [mark.order for mark in chain]
    if not links or links[0] < starts[0] or any(lines[mark.line].passage.cell is not None for mark in chain):
        return False
    counts = [bisect_left(links, end) - bisect_left(links, start) for start, end in pairwise(starts)]
    counts.append(len(links) - bisect_left(links, starts[-1]))
    return min(counts) > 0 and max(counts) > 1


def owner_of(found: Sequence[DraftExercise], chain: Sequence[Mark]) -> DraftExercise:
    """The exercise that a column belongs to: the one that it stands behind, else the first."""
    before = [one for one in found if one.drafts[0].mark is not None and one.drafts[0].mark.order < chain[0].order]
    return before[-1] if before else found[0]


def take_options(draft: Draft, rest: Sequence[Mark], lines: Sequence[Line], numbers: Sequence[Mark]) -> None:
    """Lettered options within an item's own places: `a) yellow  b) pink`."""
    inside = [m for m in rest if not m.label.isdigit() and m is not draft.mark and _stands_in(m, draft.places, lines)]
    for kind in (Kind.LOWER, Kind.UPPER, Kind.ROMAN):
        for links in chains(inside, kind, WEAK):
            chain = _begun_at_sign(links, inside, lines)
            if _names_things(chain, lines):
                continue  # hive A … hive B
            passages = {id(lines[mark.line].passage) for mark in chain}
            if len(passages) > 1 and any(mark.strength == WEAK and not mark.dressed for mark in chain):
                continue  # `It's got a tail.` beside `b a rabbit`: the one is an article
            options = options_of(chain, [chain, numbers], lines)
            letters = all(len(word) == 1 and not word.isdigit() for option in options for word in option.text.split())
            if letters and not any(mark.dressed for mark in chain):
                continue  # `a e b d`: letters to put in order
            if len(options) > 1 and all(option.text for option in options):
                draft.options = options
                cut = [option.place for option in options]
                cut += [option.label.mark for option in options if option.label and option.label.mark]
                draft.places = [part for place in draft.places for part in without(place, cut)]
                return


def _begun_at_sign(chain: Sequence[Mark], inside: Sequence[Mark], lines: Sequence[Line]) -> Sequence[Mark]:
    """A chain that begins behind a sign with its letter, not with an article: `What? – a a cup · b …`, `There was …
    a a cup b …`."""
    first = chain[0]
    text = lines[first.line].passage.text
    for mark in inside:
        if mark.line != first.line or mark.label != first.label or mark.start >= first.start:
            continue
        before, between = text[: mark.first].rstrip(), text[mark.last : first.first]
        if before[-1:] in _SIGNS or (before[-1:] in ("…", "_") and not between.strip()):
            return [mark, *chain[1:]]
    return chain


def _names_things(chain: Sequence[Mark], lines: Sequence[Line]) -> bool:
    """Whether each letter names a thing of one kind, and begins no option: Hive A is small. Hive B is big."""
    before = [lines[mark.line].passage.text[: mark.first].split()[-1:] for mark in chain]
    words = {one[0].casefold() for one in before if one}
    return len(chain) > 1 and len(words) == 1 and all(before) and all(word.isalpha() for word in words)


def _stands_in(mark: Mark, places: Sequence[Place], lines: Sequence[Line]) -> bool:
    passage = lines[mark.line].passage
    return any(place.passage is passage and place.start <= mark.start <= place.end for place in places)


def options_of(
    chain: Sequence[Mark], cuts: Sequence[Sequence[Mark]], lines: Sequence[Line], *, across: bool = False
) -> list[Option]:
    """The options of a chain: each runs to the next label in its passage, or in a table stands in the next cell."""
    stops = sorted({mark.order: mark for cut in cuts for mark in cut}.values(), key=lambda mark: mark.order)
    found = []
    for mark in chain:
        line = lines[mark.line]
        start = line.start if mark.own else mark.last
        later = [stop.first for stop in stops if stop.line == mark.line and not stop.own and stop.start > mark.start]
        place = trimmed(Place(line.passage, start, max(start, min([*later, line.end]))))
        next_is_label = any(other.line == mark.line + 1 for other in chain)
        in_row = mark.line + 1 < len(lines) and same_row(line, lines[mark.line + 1])
        if across and not place.text and in_row and not next_is_label:
            other = lines[mark.line + 1]
            place = Place(other.passage, other.start, other.end)
        found.append(Option(place, label_of(mark, lines)))
    return found
