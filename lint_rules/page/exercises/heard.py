"""Answers held against a script that numbers what is heard: *Number one. It's a frog. It's green.*

Only where the answers to all the others are words that the script says under their numbers is one that is not worth a
question; a key of letters, ticks or drawings says nothing here.
"""

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import cache

from lint_rules import lazy_re
from lint_rules.manuscript.model import Audience, Passage, Unit
from lint_rules.page.audio import heard_in, tracks_played
from lint_rules.page.exercises.answers import OWN, alternatives, face, is_verdict, yes_or_no
from lint_rules.page.exercises.completed import completed
from lint_rules.page.exercises.in_step import the_one_out_of_step
from lint_rules.page.exercises.model import Answer, Exercises, Option
from lint_rules.page.exercises.small_words import small_words
from lint_rules.page.heard_numbers import heard_numbers
from lint_rules.page.number_words import numbers_in, ordinals_in
from lint_rules.page.opposites import opposites_of
from lint_rules.plain_words import DENIED
from lint_rules.tables import words as word_table

_STEM = 4  # letters that a word begins with in another form
_LETTERS = 2  # of a sound that is heard within a word: ch in lunch
_FEW = 2  # words of an answer that is heard word for word
_FEWEST = 3  # answers that are heard under their numbers, before one that is not is a slip
# Picture 1: a leaf. 2 red onion. Not: numbered 1 to 6.
_DRAWN = lazy_re.compile(r"\b(?:picture\s+)?(\d{1,2})\b[.:)]?\s+(?!(?:to|and|or)\b)(?=[a-z])", re.I)
_VERDICT = lazy_re.compile(r"\W*(?:yes|no)\b[,.]", re.I)  # Yes, I do.
_WORD = lazy_re.compile(r"[^\W_]+")
_BRACKETED = lazy_re.compile(r"\([^()]*\)")
_ORDERS_NOT = lazy_re.compile(r"(?:^|[.!?]\s)\s*Don['’]t\s+(?!you\b)")
_ARTICLES = frozenset({"the", "a", "an", "his", "her", "their", "my", "your"})
_REPLY = lazy_re.compile(
    r"(?:^|(?<=\s))((?:Yes|No), (?:I|he|she|it|we|they) (?:don['’]t|doesn['’]t|can['’]t|do|does|can))\b"
)
# Is it green? Not: And the green bag?
_QUESTION = lazy_re.compile(
    r"(?:(?<=[.!?\n])|^)\W*(?:(?:and|but|so|or) |\w+, )?"
    r"(?:is|are|was|were|do|does|did|has|have|can)(?:n['’]t)?\b[^.!?\n]*\?",
    re.I,
)


def not_heard(read: Exercises, unit: Unit) -> Answer | None:
    """The one answer of a key that the script does not say under its number, where it says all the others."""
    said = _by_number(heard_in(read.activity, unit))
    answer = _not_among(said, read)
    behind = {str(one.number): one.behind for one in heard_numbers(heard_in(read.activity, unit))}
    there = behind.get(answer.label.key, "") if answer is not None and answer.label is not None else ""
    if answer is not None and (_ORDERS_NOT.search(there) or not _says_another_option(answer, said, read)):
        # Don't colour the hole!, for a white one; It's going to rain all day, for wet; It was Bobbin, for the donkey
        answer = None
    return answer or _other_option(said, read, pictured=True)


def _says_another_option(answer: Answer, said: Mapping[str, frozenset[str]], read: Exercises) -> bool:
    """Say whether an answer is no letter of an option, or another option of its item is said in its place."""
    item = next((item for one in read.exercises for item in one.items if item.answer is answer), None)
    if item is None or not item.choices:
        return True
    own = {word for other, ways in _answers(read) if other is answer for way in ways for word in way}
    offered = {word for choice in item.choices for option in choice.options for word in _words(_shown(option))}
    there = said[answer.label.key if answer.label else ""]
    return any(_is_heard(word, there) for word in offered - own - small_words())


def not_word_for_word(read: Exercises, unit: Unit) -> Answer | None:
    """The one answer of a few words of which one is not said under its number (*on the chair*, where *under the chair*
    is heard), where all words of the others are."""
    heard = heard_numbers(heard_in(read.activity, unit))
    if not heard or [one.number for one in heard] != list(range(1, len(heard) + 1)):
        return None
    said = {str(one.number): frozenset(_words(one.behind)) for one in heard}
    marked: list[tuple[bool, Answer]] = []
    for exercise in read.exercises:
        for item in exercise.items:
            if item.answer is None or item.example or item.label.key not in said:
                continue
            ways = [_words(text) for text in alternatives(_BRACKETED.sub("", item.answer.text))]
            if exercise.column or not all(len(words) >= _FEW for words in ways):
                return None
            own = said[item.label.key]
            marked.append((any(own.issuperset(words) or own >= {*words} - _ARTICLES for words in ways), item.answer))
    return the_one_out_of_step(marked, _FEWEST)


def not_drawn(read: Exercises, unit: Unit) -> Answer | None:
    """The one answer of a key that a picture of numbered things does not show under its number, where it shows all the
    others, and nothing is heard."""
    if heard_in(read.activity, unit):
        return None
    drawn = _drawn_by_number(one.text for one in read.activity.part.passages if one.audience is Audience.ARTIST)
    answer = _not_among(drawn, read)
    said = answer is not None and answer.text.rstrip().endswith(("!", "?"))  # Hello!, to somebody who waves
    if answer is not None and (said or not _is_rivalled(answer, drawn, read)):
        answer = None  # a wide smile, for happy
    return answer or _other_option(drawn, read)


def _is_rivalled(answer: Answer, drawn: Mapping[str, frozenset[str]], read: Exercises) -> bool:
    """Say whether something of an answer's kind is drawn in its place: another word of the box, another answer's,
    another colour or number, or beside the item's own words just one more (a green sock, where *a green ____* is)."""
    own = frozenset(_words(answer.text))
    there = drawn[answer.label.key if answer.label else ""]
    boxed = {word for one in read.exercises if one.box for entry in one.box.words for word in _words(entry.text)}
    answered = {word for other, ways in _answers(read) if other is not answer for way in ways for word in way}
    alike = (word_table("colours"), frozenset(word for word in there | own if word.isdigit()))
    same_kind = any(own & kind and (there & kind) - own for kind in alike)
    asked = next((item for one in read.exercises for item in one.items if item.answer is answer), None)
    prompt = frozenset(_words(asked.text)) - small_words() if asked is not None else frozenset()
    completed_otherwise = bool(prompt & there) and len(there - prompt) == len(own - small_words())
    return same_kind or completed_otherwise or bool(there & (boxed | answered) - own - small_words())


def _other_option(drawn: Mapping[str, frozenset[str]], read: Exercises, *, pictured: bool = False) -> Answer | None:
    """The one answer of whose options another is drawn under its number (eight eggs, and not nine), where two others
    are drawn as they are chosen; ``pictured``: only where the options are pictures."""
    marked: list[tuple[bool, Answer]] = []
    for exercise in read.exercises:
        for item in exercise.items:
            there = drawn.get(item.label.key)
            if item.answer is None or item.example or there is None or len(item.choices) != 1:
                continue
            chosen = [option for option in completed(item, exercise).chosen if option is not None]
            if pictured and any(_WORD.search(option.text) for option in item.choices[0].options):
                continue
            shown = [option for option in item.choices[0].options if _is_drawn(_shown(option), there)]
            if len(chosen) == len(shown) == 1:
                marked.append((chosen == shown, item.answer))
    return the_one_out_of_step(marked, _FEWEST - 1)


def _shown(option: Option) -> str:
    """The words of an option, or what its picture shows."""
    place = option.place
    pictures = [one.alt for one in place.passage.pictures if place.start <= one.at < place.end]
    return pictures[0] if len(pictures) == 1 and not _WORD.search(option.text) else option.text


def _is_drawn(text: str, drawn: frozenset[str]) -> bool:
    words = [word for word in _words(text) if word not in small_words() and (len(word) > 1 or word.isdigit())]
    return bool(words) and all(word in drawn for word in words)


def _not_among(said: Mapping[str, frozenset[str]], read: Exercises) -> Answer | None:
    """The one answer whose words are not among those of its number, where all the others are."""
    if not said:
        return None
    marked: list[tuple[bool, Answer]] = []
    for answer, ways in _answers(read):
        heard = said.get(answer.label.key if answer.label else "")
        if heard is None:
            return None
        missing = [[word for word in words if not _is_heard(word, heard)] for words in ways]
        # In other words, if heard in part (missed the bus: the bus had gone); not where a colour or number is missing,
        # or a word whose opposite is heard.
        in_part = any(
            0 < len(left) < len(words) and not any(_is_excluded(word, heard) for word in left)
            for left, words in zip(missing, ways, strict=True)
        )
        if not all(missing) or not in_part:
            marked.append((not all(missing), answer))
    return the_one_out_of_step(marked, _FEWEST)


def _is_excluded(word: str, heard: frozenset[str]) -> bool:
    return word.isdigit() or word in word_table("colours") or bool(opposites_of(word) & heard)


def verdict_out_of_step(read: Exercises, unit: Unit) -> tuple[Answer, bool] | None:
    """The one yes or no of a key that does not go with the picture and the script of its number (a red fish is drawn,
    and a blue one told of), where all the others do; and whether picture and script say the same there."""
    said = _by_number(heard_in(read.activity, unit))
    briefs = (one.text for one in read.activity.part.passages if one.audience is Audience.ARTIST)
    drawn = _drawn_by_number(_measured().sub("", brief) for brief in briefs)
    if not said or said.keys() != drawn.keys():
        return None
    marked: list[tuple[bool, tuple[Answer, bool]]] = []
    for item in (item for exercise in read.exercises for item in exercise.items if not item.example):
        answer = item.answer
        told = yes_or_no(answer.text) if answer is not None else None
        if answer is None or told is None or item.label.key not in said:
            return None
        same = all(_is_heard(word, said[item.label.key]) for word in drawn[item.label.key])
        marked.append((same is told, (answer, same)))
    return the_one_out_of_step(marked, _FEWEST)


@cache
def _measured() -> "re.Pattern[str]":
    """What a picture has of a stuff, and nobody says of it: a bar of soap."""
    return re.compile(rf"\b(?:an?|one)\s+(?:{'|'.join(sorted(word_table('measured_out')))})\s+of\s+", re.I)


def face_out_of_step(read: Exercises, unit: Unit) -> tuple[Answer, str] | None:
    """The one face or verdict of a key (☺, ☹, yes, no) that does not go with the only *Yes, I do* or *No, I don't*
    under its number, where all the others do; and what is replied there."""
    heard = heard_numbers(heard_in(read.activity, unit))
    replies = {str(one.number): [match[1] for match in _REPLY.finditer(one.behind)] for one in heard}
    asked = {str(one.number): frozenset(_words(f"{one.passage.speaker} {one.behind}")) for one in heard}
    stated = {id(item.answer): item.text for exercise in read.exercises for item in exercise.items}
    marked: list[tuple[bool, tuple[Answer, str]]] = []
    answers = [item.answer for exercise in read.exercises for item in exercise.items] + list(read.loose)
    for answer in answers:
        label = answer.label.key if answer is not None and answer.label is not None else ""
        said = {reply.casefold().startswith("y") for reply in replies.get(label, ())}
        called = face(answer.text) if answer is not None else None
        told = asked.get(label, frozenset())
        if answer is not None and called is None and _is_asked(stated.get(id(answer), ""), told):
            called = yes_or_no(answer.text)
        if answer is not None and called is not None and len(said) == 1:
            marked.append((said == {called}, (answer, replies[label][0])))
    return the_one_out_of_step(marked, _FEWEST)


def _is_asked(statement: str, words: frozenset[str]) -> bool:
    """Say whether all that an item names is asked under its number, and it denies nothing: Lili – milk."""
    own = [word for word in _words(statement) if word not in small_words() and len(word) > 1]
    return bool(own) and DENIED.search(statement) is None and all(_is_heard(word, words) for word in own)


def beyond_the_script(read: Exercises, unit: Unit) -> tuple[Answer, int] | None:
    """The last answer of a key, where the script is numbered from one on and ends one number before it; and where.

    Only the first activity that plays a track has the items that its script numbers."""
    marks = heard_numbers(heard_in(read.activity, unit))
    heard = [one.number for one in marks]
    tracks = set(tracks_played(read.activity))
    first = next((one for one in unit.activities if tracks & set(tracks_played(one))), read.activity)
    if len(heard) < _FEWEST or heard != list(range(1, len(heard) + 1)) or first.span != read.activity.span:
        return None
    if not all(one.spoken for one in marks):
        return None  # turns may be counted, and not items
    if str(len(heard) + 1) in _words(marks[-1].behind):
        return None  # And five: it's me!
    for exercise in read.exercises:
        numbers = {
            int(item.label.text): item.answer
            for item in exercise.items
            if item.answer is not None and item.label.text.isdecimal()
        }
        written = {
            int(item.answer.text): item.answer
            for item in exercise.items
            if item.answer is not None and item.answer.text.isdecimal()
        }
        in_order = dict(enumerate(exercise.key.order, 1)) if len(exercise.key.order) == len(exercise.items) else {}
        for answers in (numbers, in_order, written):
            if sorted(answers) == list(range(1, len(heard) + 2)):
                return answers[len(heard) + 1], len(heard)
    return None


def _drawn_by_number(texts: Iterable[str]) -> dict[str, frozenset[str]]:
    """What a brief draws under each number, in words that matter, where it numbers its pictures from 1 on."""
    found = {number: frozenset(_words(part)) - small_words() for number, part in drawn_parts("\n".join(texts)).items()}
    return found if all(found.values()) else {}


def drawn_parts(brief: str) -> dict[str, str]:
    """What a brief draws under each number, where it numbers its pictures from 1 on."""
    marks: list[re.Match[str]] = []
    for mark in _DRAWN.finditer(brief):
        if mark[1] == str(len(marks) + 1):
            marks.append(mark)
    ends = [*(mark.start() for mark in marks[1:]), len(brief)]
    return {mark[1]: re.split(r"[.;\n]", brief[mark.end() : end])[0] for mark, end in zip(marks, ends, strict=False)}


def _by_number(passages: Sequence[Passage]) -> dict[str, frozenset[str]]:
    """The words under each number, where they are numbered from 1 on."""
    heard = heard_numbers(passages)
    if not heard or [one.number for one in heard] != list(range(1, len(heard) + 1)):
        return {}
    # MRS DULL: Three. I was so proud! It is she who is proud there.
    return {
        str(one.number): frozenset(_words(f"{one.passage.speaker} {one.behind}")) - _only_asked(one.behind)
        for one in heard
    }


def _only_asked(text: str) -> frozenset[str]:
    """The colours that a text only asks about, where it tells another, and the words of whose opposites it tells: Are
    they black? No! They are yellow. · Has it got long arms? No! It's got short arms."""
    told = frozenset(_words(_QUESTION.sub(" ", text)))
    asked = frozenset(_words(text)) - told
    colours = asked & word_table("colours") if told & word_table("colours") else frozenset[str]()
    return colours | {word for word in asked if opposites_of(word) & told}


def _answers(read: Exercises) -> Iterator[tuple[Answer, Sequence[Sequence[str]]]]:
    """Each answer that is of words, with the ways to say it."""
    for exercise in read.exercises:
        for item in exercise.items:
            if item.answer is not None and not item.example and not OWN.search(item.answer.text):
                chosen = [option for option in completed(item, exercise).chosen if option is not None]
                texts = [option.text for option in chosen] if item.choices else alternatives(item.answer.text)
                yield from _ways(item.answer, texts)
    for answer in read.loose:  # nothing is numbered on the page: Listen and colour
        yield from _ways(answer, alternatives(answer.text))


def _ways(answer: Answer, texts: Iterable[str]) -> Iterator[tuple[Answer, Sequence[Sequence[str]]]]:
    told = [text for text in texts if text.strip().isdigit() or not (is_verdict(text) or _VERDICT.match(text))]
    ways = [[word for word in _words(text) if word not in small_words()] for text in told]
    ways = [[word for word in words if len(word) > 1 or word.isdigit()] for words in ways]
    ways = [words for words in ways if any(len(word) > _LETTERS or word.isdigit() for word in words)]
    if ways and answer.label is not None:
        yield answer, ways


def _is_heard(word: str, heard: frozenset[str]) -> bool:
    """Whether a word is heard, perhaps in another form: sleep, in sleeping; carry, in carries; hops, in I can hop."""
    if word.removesuffix("s") in heard:
        return True
    stem = word[:-1] if word.endswith(("y", "e")) and len(word) > _STEM else word
    return any(one.startswith(stem) or (len(one) >= _STEM and word.startswith(one)) for one in heard)


def _words(text: str) -> list[str]:
    """The words of a text, its numbers in figures: fifty metres, 50 metres."""
    ordinals = sorted(ordinals_in(text))
    for number, start, end, _ in reversed(list(numbers_in(text, parts=True))):
        text = f"{text[:start]} {number} {text[end:]}"
    return [*_WORD.findall(text.casefold()), *ordinals]
