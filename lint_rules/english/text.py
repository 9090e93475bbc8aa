"""What an English checker is shown of a manuscript, and what its answers mean for it.

A course page is full of what no checker knows: gaps, choices (``is / are``), pictures in place of words, numbered
answers. Hidden from the checker, they raise no false alarm. Where any word may stand in a gap, the text is shown with
several different words in it, and where the child has a choice, once with each: only what is wrong in every wording is
wrong with the text. So ``a apple`` is found beside a gap, and the gap itself never is.

Pure: ``wordings`` makes the texts, ``agreed`` turns the answers into ranges of the passage's own text.
"""

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from lint_rules import lazy_re
from lint_rules.language.service import English, EnglishMatch
from lint_rules.manuscript.field_names import field_key
from lint_rules.manuscript.model import PICTURE, Audience, Passage, Role, Unit
from lint_rules.page.deliberate import is_wrong_on_purpose
from lint_rules.page.readings import Readings
from lint_rules.plain_words import TOGETHER

# Words as different as can be: a verb or noun, an article that begins with a vowel, an auxiliary, a question word.
# Measured on clean sentences with each word in turn left out (tests/english): no false alarm in 864.
ANY_WORD = ("play", "an", "does", "what")
_MOST_WORDINGS = 4

_IN_ROWS = frozenset({Role.PANEL, Role.ITEM, Role.CELL})
_HIDDEN_ROLES = frozenset({Role.ALT, Role.BRIEF, Role.CODE})
_LABELS = "grammar"  # the field that names structures: labels, no sentences, read by rules of their own
_DELIBERATE = "mistakes"
_SOUNDS = "sounds"
_SPELT_IN_PICTURES = "picture-sentence"
_DETERMINERS = frozenset(("a", "an", "the", "my", "your", "his", "her", "its", "our", "their", "this", "that"))
_ARTICLE = lazy_re.compile(r"^(?:an?|the)\s+", re.IGNORECASE)

# A word with a blank in it is all blank (`k_te`); a hint after a blank goes with it (`____ (go)`).
_HINT = lazy_re.compile(r"\s*\([^()\n]{1,40}\)")
_CHOICE = lazy_re.compile(rf"(?<![\w’'/|-]){TOGETHER.pattern}(?:\s*[/|]\s*{TOGETHER.pattern})+(?![\w/|])")
_DETERMINER = r"(?:the|an?|my|your|his|her)\s+"
# next to the box / the light: each with its own article
_CHOICE_OF_THINGS = lazy_re.compile(
    rf"(?<![\w’'/|-]){_DETERMINER}{TOGETHER.pattern}(?:\s*[/|]\s*{_DETERMINER}{TOGETHER.pattern})+(?![\w/|])", re.I
)
# /eɪ/, -ing; and how a word is spelt with it: + ed; y → ier, iest
_SOUND = lazy_re.compile(r"(?<!\w)(?:/[^\s/]{1,12}/|[-–][^\W\d_]{1,6}|[+→]\s?[a-z]{1,4}(?:,\s[a-z]{1,4})*)(?!\w)")
_LETTERS = 3  # a word picked out of at most so many letters is a spelling, a sound or an ending: `the *ai* of *rain*`
_LETTER = lazy_re.compile(
    r"(?<=[a-z,;] )A(?= )|(?<=: )A(?= [^.!?]* B )"
)  # in picture A the queue; nicer: A a hot day, or B
_HEAD_LETTER = lazy_re.compile(r"[A-H][.):]?\s+(?=[A-Z])")
_BETWEEN = lazy_re.compile(r"\s*[/|]\s*")
_NUMBER = lazy_re.compile(
    r"(?:^|(?<=\s))(\d{1,2})"
    r"(?:[a-z][.,;]?(?=\s|$)|(?:[.)]\s*|\s*[–—=-]\s*|\s+|$)(?:[a-z](?:[.),;]|(?=\s|$))(?=\s|$))?)"
)
_PART = lazy_re.compile(r"(?:^|\s+)(?:Part\s+)?[A-Z][.):]?\s+\Z")
_NUMBER_BEHIND = lazy_re.compile(r"(?<=[^\W\d_])\s+(\d{1,2})(?=\s|[,;]|$)[,;]?")
_ANSWER_LETTER = lazy_re.compile(r"(?:^|(?<=\s))([a-j])[.):]?\s+(?=\S)")
_ACTIVITY = lazy_re.compile(r"\s*(?:activity|exercise|task|part)\s+\w+\s*[:.–—-]\s*", re.I)
_BETWEEN_ENTRIES = lazy_re.compile(r"\s+[-–—·•|/]\s+")  # red - blue - green


@dataclass(frozen=True, slots=True)
class Wording:
    """A text for the checker. Each of its characters stands for a range of the passage's text (``starts``, ``ends``);
    ``shown`` says whether it is a character of the passage itself."""

    text: str
    starts: tuple[int, ...]
    ends: tuple[int, ...]
    shown: tuple[bool, ...]


_LETTERED = "lettered"  # no kind of an activity: an answer behind a letter
_FIRST_LETTER = lazy_re.compile(r"([a-j])\s+(?=\S)")
_LETTERS_ALONE = lazy_re.compile(r"\s*[A-Za-z](?:\s+[A-Za-z])+\s*")  # c d b a e: a key, and no sentence with an article


@dataclass(frozen=True, slots=True)
class _Hidden:
    """A range of a passage's text that the checker does not see, and what it sees there, wording by wording."""

    start: int
    end: int
    instead: tuple[str, ...]


def matches_of(english: English, units: Iterable[Readings], variety: str) -> dict[Passage, tuple[EnglishMatch, ...]]:
    """What the checker says of every passage that is for it, in one call. Raises EnglishUnavailable."""
    shown = {
        passage: wordings(passage, kinds)
        for unit in units
        for passage, kinds in passages_to_check(unit.done)
        if passage not in unit.unchecked
    }
    texts = list(dict.fromkeys(wording.text for several in shown.values() for wording in several))
    answers = dict(zip(texts, english.check(texts, variety), strict=True))
    return {
        passage: agreed(several, [answers[wording.text] for wording in several]) for passage, several in shown.items()
    }


def passages_to_check(unit: Unit) -> Iterator[tuple[Passage, tuple[str, ...]]]:
    """The passages whose English is checked, each once, with the kinds of the activity they stand in (every activity of
    a lesson about sounds is one about sounds).

    Not what is for the artist, nor grammar labels. Of an activity with deliberate mistakes only the instruction
    and the notes.
    """
    sounds = {id(activity) for lesson in unit.lessons if _SOUNDS in lesson.classes for activity in lesson.activities}
    kinds = {
        id(passage): (
            *activity.kinds,
            *((_SOUNDS,) if id(activity) in sounds else ()),
            *((_DELIBERATE,) if is_wrong_on_purpose(activity) else ()),
        )
        for activity in unit.activities
        for passage in (activity.heading.passage, *activity.part.passages)
    }
    lettered = {id(passage) for passage in _lettered_answers(unit)}
    for passage in unit.passages:
        around = (*kinds.get(id(passage), ()), *((_LETTERED,) if id(passage) in lettered else ()))
        if passage.audience is Audience.ARTIST or passage.role in _HIDDEN_ROLES or not passage.text.strip():
            continue
        told_to_teacher = passage.audience is Audience.TEACHER or passage.role is Role.INSTRUCTION
        if _DELIBERATE in around and not told_to_teacher:
            continue
        if field_key(passage.field) == _LABELS or _LETTERS_ALONE.fullmatch(passage.text):
            continue
        yield passage, around


def _lettered_answers(unit: Unit) -> Iterator[Passage]:
    """The answers of a key that begin with letters in order, a paragraph each (`a It is a plan.` `b is going to`)."""
    before: Passage | None = None
    last = ""
    for passage in (one for one in unit.passages if one.audience is Audience.KEY):
        match = _FIRST_LETTER.match(passage.text)
        letter = match[1] if match else ""
        if before is not None and letter and last and ord(letter) == ord(last) + 1:
            yield before
            yield passage
        before, last = passage, letter


def wordings(passage: Passage, kinds: Sequence[str] = ()) -> tuple[Wording, ...]:
    """The texts that a passage is shown as: one, or several where it holds gaps, pictures or choices."""
    hidden = _without_overlap(
        [
            *_pictures(passage, _SPELT_IN_PICTURES in kinds),
            *_gaps(passage.text),
            *_sounds(passage, kinds),
            *(_cited(passage) if _DELIBERATE in kinds and passage.audience is Audience.TEACHER else ()),
            *_choices(passage.text),
            *_labels(passage.text, passage.strong),
            *(_numbers(passage.text) if passage.audience is Audience.KEY else ()),
            *(_lettered(passage.text) if passage.audience is Audience.KEY else ()),
            *([_Hidden(0, 1, ("",))] if _LETTERED in kinds else ()),
            *(_separators(passage.text) if passage.role in _IN_ROWS else ()),
        ]
    )
    count = min(max((len(one.instead) for one in hidden), default=1), _MOST_WORDINGS)
    return tuple(dict.fromkeys(_worded(passage.text, hidden, index) for index in range(count)))


def agreed(several: Sequence[Wording], answers: Sequence[Sequence[EnglishMatch]]) -> tuple[EnglishMatch, ...]:
    """The matches that every wording got, as ranges of the passage's text; none that is about hidden words alone."""
    found = [
        {(match.start, match.end, match.rule): match for match in _in_passage(wording, matches)}
        for wording, matches in zip(several, answers, strict=True)
    ]
    if not found:
        return ()
    return tuple(match for key, match in sorted(found[0].items()) if all(key in other for other in found[1:]))


def _in_passage(wording: Wording, matches: Iterable[EnglishMatch]) -> Iterator[EnglishMatch]:
    for match in matches:
        own = [i for i in range(match.start, match.end) if wording.shown[i] and not wording.text[i].isspace()]
        if own:
            yield EnglishMatch(
                wording.starts[own[0]],
                wording.ends[own[-1]],
                match.rule,
                match.category,
                match.message,
                match.replacements,
            )


def _worded(text: str, hidden: Sequence[_Hidden], index: int) -> Wording:
    pieces: list[str] = []
    starts: list[int] = []
    ends: list[int] = []
    shown: list[bool] = []
    at = 0
    for one in (*hidden, _Hidden(len(text), len(text), ("",))):
        pieces += [text[at : one.start], one.instead[index % len(one.instead)]]
        starts += [*range(at, one.start), *[one.start] * len(pieces[-1])]
        ends += [*range(at + 1, one.start + 1), *[one.end] * len(pieces[-1])]
        shown += [True] * (one.start - at) + [False] * len(pieces[-1])
        at = one.end
    return Wording("".join(pieces), tuple(starts), tuple(ends), tuple(shown))


def _without_overlap(hidden: Iterable[_Hidden]) -> list[_Hidden]:
    kept: list[_Hidden] = []
    for one in sorted(hidden, key=lambda h: (h.start, -h.end)):
        if not kept or one.start >= kept[-1].end:
            kept.append(one)
    return kept


def _pictures(passage: Passage, spelt: bool) -> Iterator[_Hidden]:
    """A picture is any word; in a picture sentence it is the word that its alternative text gives."""
    words: Mapping[int, str] = {picture.at: picture.alt.strip() for picture in passage.pictures}
    for match in re.finditer(PICTURE, passage.text):
        word = words.get(match.start(), "") if spelt else ""
        if not _DETERMINERS.isdisjoint(TOGETHER.findall(passage.text[: match.start()].casefold())[-3:]):
            word = _ARTICLE.sub("", word)  # 'on the big ![the boat]': the sentence has its article
        yield _Hidden(match.start(), match.end(), (word,) if word else ANY_WORD)


def _gaps(text: str) -> Iterator[_Hidden]:
    for token in TOGETHER.finditer(text):
        if "_" in token[0]:
            hint = _HINT.match(text, token.end())
            yield _Hidden(token.start(), hint.end() if hint else token.end(), ANY_WORD)


def _sounds(passage: Passage, kinds: Sequence[str]) -> Iterator[_Hidden]:
    """Sounds, endings and letters that are talked about; letters only where a teacher's note or a sounds activity
    picks them out."""
    for match in _SOUND.finditer(passage.text):
        yield _Hidden(match.start(), match.end(), ANY_WORD)
    for start, end in (*passage.emphasis, *passage.strong):
        if end - start == 1 and passage.text[end : end + 1] == "s":  # two *p*s
            yield _Hidden(start, end + 1, ANY_WORD)
    if _SOUNDS in kinds and (passage.audience is Audience.KEY or passage.role in _IN_ROWS):
        for token in TOGETHER.finditer(passage.text):  # what is read and written here is letters: tr ____
            if len(token[0]) <= _LETTERS and token[0].isalpha():
                yield _Hidden(token.start(), token.end(), ANY_WORD)
    if passage.audience is Audience.TEACHER or _SOUNDS in kinds:
        for start, end in (*passage.emphasis, *passage.strong):
            letters = passage.text[start:end].strip("-–…")
            alone = not (passage.text[start - 1 : start].isalnum() or passage.text[end : end + 1].isalnum())
            if alone and 0 < len(letters) <= _LETTERS and letters.isalpha():
                yield _Hidden(start, end, ANY_WORD)


def _separators(text: str) -> Iterator[_Hidden]:
    """Dashes between the entries of a row part them, as commas would."""
    for match in _BETWEEN_ENTRIES.finditer(text):
        yield _Hidden(match.start(), match.end(), (", ",))


def _cited(passage: Passage) -> Iterator[_Hidden]:
    """What notes say in italics about mistakes to find: say *I am gooder than you*."""
    for start, end in passage.emphasis:
        yield _Hidden(start, end, ("this",))


def _labels(text: str, bold: Sequence[tuple[int, int]]) -> Iterator[_Hidden]:
    """A letter that names something inside a sentence (in picture A the queue …) is no article."""
    for match in _LETTER.finditer(text):
        yield _Hidden(match.start(), match.end(), ("B",))
    head = _HEAD_LETTER.match(text)
    if head is not None and any(start == 0 for start, _ in bold):
        yield _Hidden(0, head.end(), ("",))  # **A** Write the words.


def _choices(text: str) -> Iterator[_Hidden]:
    things = list(_CHOICE_OF_THINGS.finditer(text))
    plain = (
        one
        for one in _CHOICE.finditer(text)
        if not any(one.start() < it.end() and it.start() < one.end() for it in things)
    )
    for match in (*things, *plain):
        words = [ANY_WORD[0] if "_" in word else word for word in _BETWEEN.split(match[0])]
        yield _Hidden(match.start(), match.end(), tuple(words[:_MOST_WORDINGS]))


def _lettered(text: str) -> Iterator[_Hidden]:
    """The letters of a run of answers (``a the star b Fern c Mum``) part them too, where there are three in order."""
    found: list[re.Match[str]] = []
    head = _ACTIVITY.match(text)
    first = head.end() if head is not None else 0
    for match in _ANSWER_LETTER.finditer(text, first):
        if match[1] == "abcdefghij"[len(found) : len(found) + 1]:
            found.append(match)
    for match in found if len(found) > 2 and found[0].start() == first else ():
        yield _Hidden(match.start(), match.end(), ("\n\n" if match.start() else "",))


def _numbers(text: str) -> Iterator[_Hidden]:
    """The numbers of a run of answers (``1 is 2 are``) part them: 1, 2, 3 in order, so that ``12 apples`` is none.

    Behind the head of a part they begin anew: ``A 1 crown 2 mask B 1 is 2 are``.
    """
    expected = None
    for match in _NUMBER.finditer(text):
        number = int(match[1])
        head = _PART.search(text, 0, match.start()) if number == 1 else None
        if head is not None or (expected is None and match.start() == 0) or number == expected:
            expected = number + 1
            start = head.start() if head is not None else match.start()
            yield _Hidden(start, match.end(), ("\n\n" if start else "",))
    behind = list(_NUMBER_BEHIND.finditer(text)) if expected is None else []
    if len(behind) > 2 and {int(match[1]) for match in behind} == set(range(1, len(behind) + 1)):
        for match in behind:  # potatoes 1 onions 2 carrots 3
            yield _Hidden(match.start(), match.end(), ("\n\n",))
