"""Items made of their drafts: blanks, choices and jumbles found in each, with its answer at hand.

What one item alone does not show its company does: where most items of an exercise are a choice, a row of words is one
too, though the key takes none of them; where most are jumbled words, so is the one that does not make its answer.
"""

import re
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace

from lint_rules import lazy_re
from lint_rules.page.exercises import jumbles
from lint_rules.page.exercises.answers import alternatives, letters_of, plain
from lint_rules.page.exercises.choices import choices_in
from lint_rules.page.exercises.completed import chosen_option
from lint_rules.page.exercises.drafts import Draft, DraftExercise, trimmed
from lint_rules.page.exercises.gaps import cut_up_word, gaps_in
from lint_rules.page.exercises.model import Answer, Choice, Gap, Item, Option, Place
from lint_rules.plain_words import WORD

_EXAMPLE = lazy_re.compile(r"\s*(?:example|e\.g\.|model)\b", re.I)
_JUMBLED = lazy_re.compile(
    r"\b(?:un)?jumbled?\b|\bmixed\b|\bscrambled?\b|\banagrams?\b|\bletters?\b[^.!?]*\border\b", re.I
)
_LETTERS_ASKED = lazy_re.compile(r"\bletters?\b", re.I)
_LETTERS = lazy_re.compile(r"[^\W\d_]{3,}")
_BEHIND = lazy_re.compile(r"\s*(?:→|=>|->|=|:)?\s*_*\s*")
_BRACKETED = lazy_re.compile(r"\([ \u00a0]*[^\W\d_]{3,}[ \u00a0]*\)(?=[ .]*$)")
_ODD = lazy_re.compile(r"\bodd\b|\bdifferent\b|\bbelong\b", re.I)
_TWO = lazy_re.compile(r"\s(?:…|\.{3})\s")  # `Did … do`: an answer for two blanks
_BOX = lazy_re.compile(r"[☐□▢◯○◻⬜❏❑][ \u00a0]*")
_FEWEST = 2
_MOST_WORDS = 6  # of an option
_SENTENCE = 3  # words


def items_of(one: DraftExercise, answers: Sequence[Answer | None], instruction: str) -> tuple[Item, ...]:
    """The items of drafts, with the answers that belong to them."""
    answers = [_said_in_bold(draft, answer, one) for draft, answer in zip(one.drafts, answers, strict=True)]
    said = [answer.text if answer is not None else "" for answer in answers]
    cut_up = [_is_cut_up(draft, text) for draft, text in zip(one.drafts, said, strict=True)]
    company = sum(cut_up) >= _FEWEST and sum(cut_up) * 2 >= len(cut_up)
    offered = _offered(one, said, instruction) if not one.cloze else [()] * len(said)
    items = [
        _with_word_alone(_item(draft, answer, one, instruction, cut_up=company, below=options))
        for draft, answer, options in zip(one.drafts, answers, offered, strict=True)
    ]
    return tuple(_in_company(items, one))


def _with_word_alone(item: Item) -> Item:
    """An item whose key gives the whole sentence, with the words for the blank in bold: `I went **to** the office.`"""
    if item.answer is None or len(item.gaps) != 1:
        return item
    place = item.answer.place
    bold = [one for one in place.passage.strong if place.start < one[0] and one[1] < place.end]
    if not bold or place.passage.text[slice(*bold[0])].isdigit():
        return item
    return replace(item, answer=replace(item.answer, place=Place(place.passage, *bold[0])))


def _said_in_bold(draft: Draft, answer: Answer | None, one: DraftExercise) -> Answer | None:
    """What a key has in bold, where the rest of it only repeats the item or its options: `1 a boat – **d**`,
    `**a red** / b blue`, `He **hasn't got** a hat.`"""
    if answer is None:
        return None
    place = answer.place
    bold = [at for at in place.passage.strong if place.start <= at[0] and at[1] <= place.end]
    if len(bold) != 1 or place.passage.text[slice(*bold[0])].strip().isdigit() or bold[0] == (place.start, place.end):
        return answer
    inner = Place(place.passage, *bold[0])
    labels = {option.label.key for option in one.column if option.label is not None}
    offered = [(option.label.text, option.text) for option in draft.options if option.label is not None]
    told = any(plain(inner.text) in map(plain, (*pair, " ".join(pair))) for pair in offered)
    told = told or (plain(inner.text) in labels and draft.label.key not in labels)
    return replace(answer, place=inner) if told or _repeats(draft, place, inner) else answer


def _repeats(draft: Draft, said: Place, bold: Place) -> bool:
    """Whether an answer is the item's own words, in their order, with or without those in bold among them."""
    text = said.passage.text
    before, inside, after = (
        [plain(word) for word in WORD.findall(text[start:end])]
        for start, end in ((said.start, bold.start), (bold.start, bold.end), (bold.end, said.end))
    )
    prompt = [plain(word) for place in draft.places for word in WORD.findall(place.text)]
    return len(prompt) > 1 and prompt in ([*before, *after], [*before, *inside, *after])


def _is_cut_up(draft: Draft, said: str) -> bool:
    return any(cut_up_word(place, said) is not None for place in draft.places)


def _item(
    draft: Draft,
    answer: Answer | None,
    one: DraftExercise,
    instruction: str,
    *,
    cut_up: bool,
    below: tuple[Option, ...],
) -> Item:
    said = answer.text if answer is not None else ""
    ticked = (_ticked(draft, said) or below) if not draft.options else ()
    lettered = (Choice(tuple(draft.options) or ticked),) if draft.options or ticked else ()
    if ticked:
        apart = [place for place in draft.places if not any(place.holds(option.place) for option in ticked)]
        draft = replace(draft, places=apart)
    inline = tuple(choice for place in draft.places for choice in choices_in(place, said))
    if one.cloze:
        inline = inline[:1]
    dots = bool(lettered or one.column)
    gaps = tuple(gap for place in draft.places for gap in gaps_in(place, dots=dots, said=said, in_company=cut_up))
    gaps = _struck_out(draft, gaps, said) or gaps
    if one.cloze:
        gaps = gaps[: 1 + len(_TWO.findall(said))]
    if inline and said and not any(chosen_option(choice, said) for choice in inline):
        pieces = [piece for choice in inline for piece in (option.place for option in choice.options)]
        if len(pieces) > 2 and made_of(pieces, said):
            inline = ()  # `(is / name / my / Ola)`: words to put in order
    jumble = None if inline or lettered else _jumble(draft, gaps, said, instruction)
    example = draft.label.text == "0" or any(_EXAMPLE.match(place.text) for place in draft.places[:1])
    more = tuple(draft.more)
    return Item(draft.label, tuple(draft.places), gaps, (*inline, *lettered), jumble, answer, example, more)


def _struck_out(draft: Draft, gaps: Sequence[Gap], said: str) -> tuple[Gap, ...]:
    """The one stretch of a sentence that is struck out, where the key's words go in its place: `an ~~apple~~`, key
    `egg`. None where the key gives the whole sentence, or nothing."""
    struck = [
        Place(place.passage, start, end)
        for place in draft.places
        for start, end in place.passage.struck
        if place.start <= start and end <= place.end
    ]
    beside = [one for one in struck if gaps and not _between(one, gaps[0].place).strip()]
    struck = beside if len(beside) == 1 else struck
    whole = said.rstrip()[-1:] in (".", "!", "?") and len(said.split()) >= _SENTENCE
    if len(struck) != 1 or len(gaps) != 1 or gaps[0].word is not None or not said or whole:
        return ()
    return (Gap(struck[0]),)


def _between(one: Place, other: Place) -> str:
    """What stands between two places of a passage; something, where they do not follow each other in one."""
    return one.passage.text[one.end : other.start] if one.passage is other.passage and one.end <= other.start else "…"


def _ticked(draft: Draft, said: str) -> tuple[Option, ...]:
    """Options that stand below an item, a box before each: `☐ calf`, `☐ lamb`; the key must take one of them."""
    found = []
    for place in draft.places:
        match = _BOX.match(place.passage.text, place.start, place.end)
        if match is not None and match.end() < place.end and place.start == 0:
            found.append(Option(Place(place.passage, match.end(), place.end)))
    words = {plain(one) for one in alternatives(said)}
    taken = not said or any(plain(option.text) in words for option in found)
    return tuple(found) if len(found) > 1 and taken else ()


def _offered(one: DraftExercise, said: Sequence[str], instruction: str) -> list[tuple[Option, ...]]:
    """The options below each item, where most keys take one of them; then those too of which the key takes none."""
    below = [_below(draft, instruction) for draft in one.drafts]
    told = [
        any(plain(option.text) in {plain(one) for one in alternatives(text)} for option in options) if text else False
        for options, text in zip(below, said, strict=True)
    ]
    sizes = {len(options) for options, taken in zip(below, told, strict=True) if taken}
    if sum(told) < _FEWEST or sum(told) * 3 < 2 * len(told):
        return [()] * len(below)
    return [
        options if taken or (text and sizes == {len(options)}) else ()
        for options, taken, text in zip(below, told, said, strict=True)
    ]


def _below(draft: Draft, instruction: str) -> tuple[Option, ...]:
    """Options that nothing labels, each on a line, in a list's entry or in a cell of its own behind an item; all cells
    of a row of which one is the odd one out."""
    places = [place for place in draft.places if place.text.strip()]
    if not places or draft.options or not any(char.isalpha() for char in places[0].text):
        return ()
    whole = _ODD.search(instruction) is not None and all(place.passage.cell is not None for place in places)
    found = [Option(trimmed(place)) for place in places[0 if whole else 1 :]]
    short = all(0 < len(one.text.split()) <= _MOST_WORDS and "_" not in one.text for one in found)
    return tuple(found) if len(found) > 1 and short else ()


def _jumble(draft: Draft, gaps: Sequence[Gap], said: str, instruction: str, *, sure: bool = False) -> Place | None:
    """What an item has to put in order: letters beside a blank, letters one by one, words; ``sure``: its company has
    such things where it has them."""
    asked = _LETTERS_ASKED.search(instruction) is not None
    for gap in gaps:
        one_word = gap.hint is not None and gap.word is None and " " not in plain(gap.hint.text)
        if gap.hint is not None and one_word and (asked or sure or _is_anagram(gap.hint.text, said)):
            return gap.hint
    if len(gaps) == 1 and gaps[0].word is None:
        token = _in_brackets_behind(draft.places)
        if token is not None and (asked or sure or _is_anagram(token.text, said)):
            return token
    for place in draft.places:
        token = _set_off(place, said, sure=sure) if gaps else None
        if token is not None:
            return token
        letters_place = jumbles.letters_in(place)
        if letters_place is not None and not any(gap.word is not None for gap in gaps):
            spelt_out = gaps and said and not _is_nearly(letters_place.text, said) and _is_within(letters_place, place)
            if not spelt_out:
                return letters_place
        token = _token(place) if len(draft.places) == 1 or _fills_cell(place) else None
        told = sure or _JUMBLED.search(instruction)
        if token is not None and (_is_anagram(token.text, said) or (told and _another_word(token.text, said))):
            return token
        parts = jumbles.parts_in(place)
        if parts is not None and _makes_one_word(parts.text, said, sure=sure):
            return parts
        pieces = jumbles.words_in(place, said)
        if pieces and (sure or jumbles.asks_for_order(instruction) or made_of(pieces, said)):
            return Place(place.passage, pieces[0].start, pieces[-1].end)
    return None


def _token(place: Place) -> Place | None:
    """A word that is all an item has, or all that stands before its blank: `ATOC → ____`."""
    match = _LETTERS.match(place.text.lstrip(" \t\u00a0[("))
    if match is None:
        return None
    start = place.start + place.text.index(match[0])
    behind = place.passage.text[start + len(match[0]) : place.end]
    return Place(place.passage, start, start + len(match[0])) if _BEHIND.fullmatch(behind.strip("])")) else None


def _in_brackets_behind(places: Sequence[Place]) -> Place | None:
    """The one word in brackets behind a sentence: `We sit on a ____. (RIHCA)`."""
    match = _BRACKETED.search(places[-1].text) if places else None
    return Place(places[-1].passage, *(places[-1].start + at for at in match.span())) if match else None


def _set_off(place: Place, said: str, *, sure: bool) -> Place | None:
    """The one word in bold or italics of a sentence, where its letters are the answer's: `my **drangap** ____`."""
    ranges = {*place.passage.strong, *place.passage.emphasis}
    inside = [Place(place.passage, *one) for one in ranges if place.start <= one[0] and one[1] <= place.end]
    words = [one for one in inside if _LETTERS.fullmatch(one.text)]
    if len(words) != 1 or len(inside) > 1:
        return None
    near = sure and jumbles.letters_of(words[0].text).keys() & jumbles.letters_of(said).keys()
    return words[0] if _is_anagram(words[0].text, said) or (near and len(said.split()) == 1) else None


def _is_nearly(text: str, said: str) -> bool:
    """Whether letters are most of an answer's."""
    given = jumbles.letters_of(text)
    return any(
        (given & jumbles.letters_of(one)).total() * 2 >= max(1, jumbles.letters_of(one).total())
        for one in alternatives(said)
    )


def _is_within(letters: Place, place: Place) -> bool:
    """Whether letters one by one are a word of a sentence: `Can you ____ that? R-O-B-I-N.`"""
    outside = place.passage.text[place.start : letters.start] + place.passage.text[letters.end : place.end]
    return len(_LETTERS.findall(outside)) > 1


def _is_spelt(text: str, said: str) -> bool:
    """Whether letters one by one are an answer as it is."""
    joined = "".join(char for char in text.casefold() if char.isalpha())
    return any("".join(char for char in plain(one) if char.isalpha()) == joined for one in alternatives(said))


def _fills_cell(place: Place) -> bool:
    return place.passage.cell is not None and place.passage.text.rstrip().endswith(place.text.strip())


def _is_anagram(text: str, said: str) -> bool:
    letters = jumbles.letters_of(text)
    return any(jumbles.letters_of(one) == letters and plain(one) != plain(text) for one in alternatives(said))


def _makes_one_word(parts: str, said: str, *, sure: bool) -> bool:
    """Whether parts, put in order, are one word of the key; in the company of such (``sure``), most of one."""
    given = jumbles.letters_of(parts)
    for one in alternatives(said):
        if not one.isalpha():
            continue
        wanted = jumbles.letters_of(one)
        joined = "".join(char for char in parts.casefold() if char.isalpha())
        if (given == wanted and joined != plain(one)) or (sure and (given & wanted).total() * 3 > wanted.total()):
            return True
    return False


def _another_word(text: str, said: str) -> bool:
    return any(one.isalpha() and plain(one) != plain(text) for one in alternatives(said))


def made_of(pieces: Sequence[Place], said: str) -> bool:
    """Whether most of an answer's words are among some pieces, and it has as many words or nearly so."""
    given = jumbles.words_of(" ".join(piece.text for piece in pieces))
    answer = jumbles.words_of(("", *alternatives(said))[-1])  # '/' says none
    shared = (given & answer).total()
    return len(answer) > 1 and shared * 3 >= 2 * max(given.total(), answer.total())


def _in_company(items: Sequence[Item], one: DraftExercise) -> Iterator[Item]:
    """The items, each read as most of the others are."""
    tasks = [item for item in items if not item.example]
    sizes = Counter(len(item.choices[0].options) for item in tasks if len(item.choices) == 1)
    chosen = sizes.total() >= _FEWEST and sizes.total() * 2 >= len(tasks)
    jumbled = sum(item.jumble is not None for item in tasks)
    mixed = jumbled >= _FEWEST and jumbled * 2 >= len(tasks)
    cut_up = sum(any(gap.word is not None for gap in item.gaps) for item in tasks)
    for item, draft in zip(items, one.drafts, strict=True):
        said = item.answer.text if item.answer is not None else ""
        if item.jumble is not None and cut_up > jumbled and _is_spelt(item.jumble.text, said):
            yield replace(item, jumble=None)  # `m a n g o` among words with letters to fill in: nothing is left out
        elif item.choices or item.jumble is not None or item.example or letters_of(said):
            yield item
        elif chosen:
            found = [choice for place in item.prompt for choice in choices_in(place, said, sure=True)]
            fitting = [choice for choice in found if len(choice.options) in sizes]
            yield replace(item, choices=tuple(fitting)) if len(fitting) == 1 else item
        elif mixed:
            yield replace(item, jumble=_jumble(draft, item.gaps, said, "", sure=True))
        else:
            yield item
