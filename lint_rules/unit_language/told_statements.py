"""Statements that the key calls true or false, held against what the texts of the lesson tell of the same thing.

*Fenna can jump* is called true, and the story has *she can't jump*; *The flower is yellow* is called false, and there
is *a big yellow flower*; *Tocko's bag is small*, and he has a big one. Nothing is understood: a clause tells what a
statement says where it has its words in their order, and the contrary where it denies them, or has another colour,
number or opposite in the place of one, or somebody else who does it; so does a thing that the texts give one other
colour or size alone. On the 711 statements of judged courses of which that can be said 51 keys differ (`python -m
tests.judged.statements`). Of the first 26 of these 23 are wrong, two are one misread key, and one is right; of those
that came since all are wrong of which the authors' lists tell. So only the one answer of an exercise that differs is
told; where a sentence says only he or she, another answer must go with the texts.
"""

import re
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise, takewhile

from lint_rules import lazy_re
from lint_rules.language.vocabulary.word_index import function_bands
from lint_rules.manuscript.model import Audience, Passage
from lint_rules.page.exercises.answers import face, yes_or_no
from lint_rules.page.exercises.in_step import the_one_out_of_step
from lint_rules.page.exercises.model import Item
from lint_rules.page.exercises.statements import bare_statement
from lint_rules.page.number_words import numbers_in
from lint_rules.page.opposites import opposites_of, with_opposites
from lint_rules.plain_words import DENIED, SENTENCE
from lint_rules.tables import words
from lint_rules.unit_language.option_support import content_in_order
from lint_rules.unit_language.places import places_in

_FEWEST = 3  # statements of an exercise
_LEAST = 2  # words of a statement that mean something
_EXTRA = 2  # words of a clause that a statement of more may leave out
_CLAUSE = lazy_re.compile(
    r"[;:–—“”\"]|(?<!\s),?\s+\b(?:and|but|because|so|while|when|who|which|that|than|before|after|until)\b\s+|,\s+", re.I
)
_NAME = lazy_re.compile(r"(?<![^\W_])[A-Z][a-z][\w’']*")
_SMALL = lazy_re.compile(r"(?<![\w’'])[a-z]{3,}(?![\w’'])")
_OFTEN = 2  # times that a name is said
_FIRST = lazy_re.compile(r"\W*(?:\d{1,2}[.:)]?\s+)?(?:(?:and|but|so|then|now|oh|yes|no)\b\W*)*([\w’']+)", re.I)
_FRAME = lazy_re.compile(r"^\W*\d{1,2}[.:)]?\s+(?=[A-Z])")  # 3: Mina in a red hat
_UNSURE = lazy_re.compile(
    r"\b(?:if|perhaps|maybe|thinks?|thought|wants?|wanted|would|pretend|dreams?|wish|than|or|can you|always|never"
    r"|sometimes|often|usually|in picture \w+)\b"
    r"|/|(?<!n['’]t )(?<!\bnot )(?<!\bI )(?<!\bwe )(?<!\byou )(?<!\bthey )\blike\b",
    re.I,
)
_LABEL = lazy_re.compile(r"([A-Z][a-z]+): ")  # Goat: I like bees.
_LIKE = lazy_re.compile(r"(?:(?<=n['’]t )|(?<=\bnot )|(?<=\bI )|(?<=\bwe )|(?<=\byou )|(?<=\bthey ))like\b", re.I)
_SIZES = frozenset(["big", "small", "little", "large"])
_SEVERAL = lazy_re.compile(r"\b(?:another|other|others|more|second|some|two|three|four|five|six)\b", re.I)
_ONLY_THING = lazy_re.compile(
    r"\W*(?:(?:look at|(?:this|that|here|it)(?: is|['’]s)|I(?: have|['’]ve)(?: got)?|(?:he|she) has(?: got)?)\s+)?"
    r"(?:an?|the|my|your|his|her)\s+([a-z]+)\W*",
    re.I,
)  # Look at my hat. My hat!
_OF_ANOTHER = lazy_re.compile(r"\W*(?:my|his|her)\s+[a-z]+['’]s\s", re.I)
_POINTED = lazy_re.compile(r"(?<![\d.:])(\d{1,3})[.:](\d\d)(?![\d.:])")  # a time, a price: one number
_IT_IS = lazy_re.compile(r"\W*(?:it|they)(?:['’]s|['’]re| is| are| was| were)\b", re.I)
_AT_LENGTH = lazy_re.compile(r"\s[(–—-]\s*(?:[\w’']+\W+){2}[\w’']+")
_NOT_TOLD = lazy_re.compile(r"\W*(?:NG|N/?M|DS|not given|doesn['’]t say|not mentioned)\b", re.I)
_SHORT = lazy_re.compile(r"\W*(yes|no), (?:[a-z]+ ){1,3}[a-z'’]+\W*$", re.I)  # Yes, she can.
_ASKED = lazy_re.compile(r"\W*(?:is|are|was|were|can|could|has|have|does|do|did)(?:n['’]t)?\s+", re.I)
_SHORTENED = lazy_re.compile(r"['’](?:s|ve|re|m|ll|d)\b|\b(?:[a-z]{2,5}n['’]t|cannot)\b", re.I)
_HAS_GOT = lazy_re.compile(r"(?:\bha(?:ve|s|d)|['’](?:ve|s|d)) got\b", re.I)
_OWNER = lazy_re.compile(
    r"\b(?!(?:He|She|It|That|There|Here|What|Who|Where|Let)\b)([A-Z][a-z]+)['’]s (?=[a-z])"
)  # Tocko's bag
_OWNING = "zx"  # behind a name: what is his
_COUNTED = "number"  # before a figure: single figures are no words
_FIRST_PERSON = frozenset(["i", "i'm", "i've"])
_THIRD_PERSON = frozenset(["he", "she"])
_OWNERS = frozenset(["my", "his", "her"])
_POINTING = (
    _FIRST_PERSON
    | _THIRD_PERSON
    | _OWNERS
    | {"it", "its", "it's", "he's", "she's", "they", "they're", "their", "we", "our", "you", "your"}
    | {"this", "that", "these", "those"}
)
_GOES_ON = frozenset(["a", "an", "two", "three", "four", "some"])  # I have a hat and a bag
_I_AM = lazy_re.compile(r"\bI(?:['’]m| am) ([A-Z][a-z]+)\b")
_SAYING = (
    r"(?:says?|said|asks?|asked|shouts?|shouted|calls?|called|whispers?|whispered)\s+(?:(?:Mr|Mrs|Miss|Ms|Dr)\.?\s+)?"
    r"([A-Z][a-z]+)\b"
)
_SAYS = lazy_re.compile(rf"\b{_SAYING}")
_SAID_BEHIND = lazy_re.compile(rf"\s*[\"”’']\s*{_SAYING}")  # "I like rain!" says Nia.


@dataclass(frozen=True, slots=True)
class Contrary:
    """A statement whose answer does not go with the texts, and the sentence that tells the contrary."""

    item: Item
    sentence: str
    drawn: bool = False  # a picture's brief has it


@dataclass(frozen=True, slots=True)
class _Told:
    """What a clause tells: its words in their order, whom it is about first; whether it denies it; its sentence."""

    words: tuple[str, ...]
    denied: bool
    sentence: str
    after: frozenset[str] = frozenset()  # the words of its text behind it: She has a blue kite, too
    points: bool = False  # it says he or she, who is most likely the one named before
    drawn: bool = False  # in a picture's brief


def told_otherwise(items: Sequence[Item], texts: Sequence[Passage]) -> Contrary | None:
    """The one statement of an exercise whose answer does not go with the texts; None where there is none."""
    marked = held_against(items, texts)
    contrary, points = the_one_out_of_step(marked, 0) or (None, False)
    # She may be somebody else (That isn't Lou! It's a goat in a coat): then another answer must go with the texts.
    return None if points and len(marked) == 1 else contrary


def held_against(items: Sequence[Item], texts: Sequence[Passage]) -> list[tuple[bool, tuple[Contrary, bool]]]:
    """The statements of an exercise of which the texts tell something: whether the key goes with that, and the
    sentence that tells it, with whether it says only he or she."""
    statements = list(_statements(items))
    if len(statements) < _FEWEST:
        return []
    told = _Texts.of([text for _, text, _ in statements], texts)
    marked = []
    for item, statement, called in statements:
        found = told.tell(statement)
        if found is not None:
            is_so, one = found
            marked.append((is_so is called, (Contrary(item, one.sentence, one.drawn), one.points)))
    return marked


def _statements(items: Sequence[Item]) -> Iterator[tuple[Item, str, bool]]:
    """The statements of an exercise whose answers all say yes or no: `f` among `a` and `b` is no false."""
    answered = [
        (item, item.answer)
        for item in items
        if item.answer is not None and not item.example and not _NOT_TOLD.match(item.answer.text)
    ]
    called = [_is_yes(answer.text) for _, answer in answered]
    for (item, answer), is_so in zip(answered, called, strict=True):
        statement = bare_statement(item.text).partition("☐")[0].strip()
        # What is only a name states nothing: who is for it, and who against?
        stated = any(word[:1].islower() for word in statement.split())
        # What is explained is no slip of the pen: F (It was an echo.).
        if is_so is not None and None not in called and stated and not _AT_LENGTH.search(answer.text):
            yield item, statement, is_so


def _is_yes(answer: str) -> bool | None:
    """Whether an answer is a yes or a no, perhaps a whole one: Yes, she can."""
    glad = face(answer)
    said = yes_or_no(answer) if glad is None else glad
    short = _SHORT.match(answer) if said is None else None
    return said if short is None else short[1].casefold() == "yes"


@dataclass(frozen=True)
class _Texts:
    """What texts tell, clause by clause and sentence by sentence, and the names in them."""

    told: Sequence[_Told]
    sentences: Sequence[frozenset[str]]
    names: frozenset[str]

    @classmethod
    def of(cls, statements: Sequence[str], texts: Sequence[Passage]) -> "_Texts":
        """What some texts tell."""
        speakers = {passage.speaker.casefold() for passage in texts if passage.speaker}
        labels = {match[1].casefold() for one in statements if (match := _LABEL.match(one)) is not None}
        names = _names([*statements, *(passage.text for passage in texts)]) | (speakers & labels)
        told = [one for passage in texts for one in _clauses(passage, names)]
        sentences = [frozenset(_words(one)) for passage in texts for one in _sentences(passage)]
        return cls(told, sentences, names)

    def tell(self, statement: str) -> tuple[bool, _Told] | None:
        """Whether the texts tell what a statement says (True) or the contrary (False), and the clause that does; None
        where neither or both."""
        asked = _ASKED.match(statement)
        first = _FIRST.match(statement, asked.end() if asked is not None else 0)
        points = first is not None and first[1].replace("’", "'").casefold() in _POINTING
        wanted, denied = _words(statement), DENIED.search(statement) is not None
        open_question = statement.rstrip().endswith("?") and asked is None
        if len(wanted) < _LEAST or _UNSURE.search(statement) or points or open_question:
            return None
        ways = list(_ways(wanted))
        said = {
            one.denied is denied: one
            for one in self.told
            if any(_has(one.words, way) for way in ways) and _same_place(statement, one.sentence)
        }
        together = {word.removesuffix(_OWNING) for word in wanted} - self.names
        around = [sentence for sentence in self.sentences if together <= sentence]
        if not said and not denied and len(around) <= 1:
            affirmed = [one for one in self.told if not one.denied]
            tells = self._is_of_another if around else _replaces
            other = [one for one in affirmed if any(tells(one, way) for way in ways)]
            other = other or list(self._of_another_quality(wanted, affirmed))
            said = {False: other[0]} if other else {}
        return said.popitem() if len(said) == 1 else None

    def _of_another_quality(self, wanted: tuple[str, ...], affirmed: Sequence[_Told]) -> Iterator[_Told]:
        """What gives a thing a quality that excludes the one of a statement, where the texts give it no other of that
        kind: *The train is big*, and there is a small blue train; *He falls into the green paint*, which is pink."""
        stated = (wanted[0], wanted[-1]) if len(wanted) == _LEAST and _is_lasting(wanted[-1]) else None
        coloured = ((thing, word) for word, thing in pairwise(wanted) if word in words("colours"))
        thing, own = stated or next(coloured, ("", ""))
        if not own or _is_quality(thing) or thing in self.names or any(word.endswith(_OWNING) for word in wanted):
            return
        several = re.compile(rf"{_SEVERAL.pattern}(?:\s+[\w-]+){{0,2}}\s+{re.escape(thing)}\w*", re.I)
        if any(thing in one.words and several.search(one.sentence) for one in self.told):
            return  # another train is in the box
        of_thing = [(quality, one) for one in affirmed for quality in _qualities(one.words, thing)]
        against = [(quality, one) for quality, one in of_thing if _exclude_each_other(own, quality)]
        if len({quality for quality, _ in against}) == 1 and own not in {quality for quality, _ in of_thing}:
            who = self.names.intersection(wanted)
            yield from (one for _, one in against if not self.names.intersection(one.words) - who)

    def _is_of_another(self, one: _Told, wanted: tuple[str, ...]) -> bool:
        """Whether somebody else does the very thing: Teo pushed the green button. What one likes, others may."""
        who, told = wanted[0], one.words[0]
        return (
            "like" not in wanted
            and len(wanted) > _LEAST + 1
            and {who, told} <= self.names
            and who != told
            and one.words[1:] == wanted[1:]
        )


def _same_place(statement: str, sentence: str) -> bool:
    """Say whether a sentence may tell of the place of a statement: not on the box, where that has in the box."""
    own, there = (set(places_in(text)) for text in (statement, sentence))
    return not own or not there or bool(own & there)


def _replaces(one: _Told, wanted: tuple[str, ...]) -> bool:
    """Whether all words of a statement but one are told, and in the place of that one another of its kind, or its thing
    with another for each of the others (*small and white*, of a big black cat); not where the text goes on to tell of
    it as well."""
    missing = [at for at, word in enumerate(wanted) if word not in one.words]
    if len(missing) == len(wanted) - 1 >= _LEAST and wanted[0] in one.words:
        alone = all(word == wanted[0] or _is_quality(word) for word in one.words)  # not: the dog chased a big cat
        return alone and all(any(_exclude_each_other(wanted[at], other) for other in one.words) for at in missing)
    if len(wanted) <= _LEAST or len(missing) != 1 or wanted[missing[0]] in one.after:
        return False
    (at,) = missing
    others = (other for other in one.words if other not in wanted and _exclude_each_other(wanted[at], other))
    return any(_has(one.words, (*wanted[:at], other, *wanted[at + 1 :])) for other in others)


def _is_lasting(quality: str) -> bool:
    """Whether a thing keeps a quality through a story: its colour, its size; a full bag may be empty later."""
    return quality in words("colours") or quality in _SIZES


def _qualities(told: tuple[str, ...], thing: str) -> Iterator[str]:
    """The qualities that stand before a thing, or behind it and end the clause."""
    for at, word in enumerate(told):
        if word == thing:
            yield from takewhile(_is_quality, reversed(told[:at]))
            if all(map(_is_quality, told[at + 1 :])):
                yield from told[at + 1 :]


def _exclude_each_other(one: str, other: str) -> bool:
    if one.isdigit() and other.isdigit():
        return True
    return other in opposites_of(one) or (one in words("colours") and other in words("colours"))


def _ways(wanted: tuple[str, ...]) -> Iterator[tuple[str, ...]]:
    """The words of a statement in their order; what a thing is like before the thing as well (the yellow flower), and
    what is somebody's as a thing that he has."""
    for way in (wanted, (*wanted[:-2], wanted[-1], wanted[-2])) if _is_quality(wanted[-1]) else (wanted,):
        yield way
        yield tuple(word.removesuffix(_OWNING) for word in way)


def _has(told: tuple[str, ...], wanted: tuple[str, ...]) -> bool:
    """Whether words are told in their order, with hardly any others between them, and of nothing else: the bag of the
    old woman is heavy, and not she."""
    at, first = -1, -1
    for word in wanted:
        if word not in told[at + 1 :]:
            return False
        at = told.index(word, at + 1)
        first = at if first < 0 else first
    of_it = all(_is_quality(word) or word.isdigit() for word in told[:first])
    return of_it and at - first + 1 - len(wanted) <= (_EXTRA if len(wanted) > _LEAST else 0)


def _is_quality(word: str) -> bool:
    return word in words("colours") or bool(opposites_of(word))


def _clauses(passage: Passage, names: frozenset[str]) -> Iterator[_Told]:
    """What the clauses of a text tell; questions and what is only thought tell nothing."""
    about = own = says = ""
    of_turn = next((one for one in passage.speaker.casefold().split() if one in names), "")
    sentences = _sentences(passage)
    behind = _behind(sentences)
    last = ""  # the one thing of the sentence before: Look at my hat. It's yellow.
    for sentence, after, following in zip(sentences, behind, [*sentences[1:], ""], strict=False):
        said, i_am = _SAYS.search(sentence) or _SAID_BEHIND.match(following), _I_AM.search(sentence)
        own = i_am[1].casefold() if i_am is not None else own
        says, before = (said[1].casefold() if said is not None else ""), says
        clauses = list(_with_subjects(sentence, names, of_turn or says or before or own, about))
        named = [one for one in _named(sentence) if one in names]
        about = named[0] if len(named) == 1 else about if not named else ""
        if sentence.rstrip().endswith("?") or _UNSURE.search(sentence):
            last = ""
            continue
        for clause, who, points in clauses:
            content = _words(clause)
            if content and last and not who and _IT_IS.match(clause) and all(map(_is_quality, content)):
                content = (last, *content)
            if content:
                told = (who, *content) if who and who not in content else content
                said_so = sentence.strip(" “\"‘'*_")
                drawn = passage.audience is Audience.ARTIST
                yield _Told(told, DENIED.search(clause) is not None, said_so, after, points, drawn)
        only = _ONLY_THING.fullmatch(sentence.strip())
        last = _words(only[1])[-1] if only is not None and _words(only[1]) else ""


def _sentences(passage: Passage) -> list[str]:
    """The sentences of a text; those of a brief without the number of their picture."""
    found = SENTENCE.findall(passage.text)
    return [_FRAME.sub("", one) for one in found] if passage.audience is Audience.ARTIST else found


def _behind(sentences: Sequence[str]) -> list[frozenset[str]]:
    """The words of all sentences behind each."""
    found: list[frozenset[str]] = [frozenset()]
    for sentence in reversed(sentences[1:]):
        found.append(found[-1].union(_words(sentence)))
    return found[::-1][: len(sentences)]


def _with_subjects(sentence: str, names: frozenset[str], speaker: str, about: str) -> Iterator[tuple[str, str, bool]]:
    """The clauses of a sentence, each with whom it is about where it names nobody: I, he, my, and what goes on."""
    who, points = "", False
    for clause in _CLAUSE.split(sentence):
        match = _FIRST.match(clause)
        word = match[1].replace("’", "'").removesuffix("'s").casefold() if match is not None else ""
        if word in names:
            who, points = word, False
        elif word in _FIRST_PERSON or word == "my":
            who, points = speaker, False
        elif _OF_ANOTHER.match(clause):
            who, points = "", False  # his sister's boat
        elif word in _THIRD_PERSON or word in _OWNERS:
            who, points = about, bool(about)
        elif word not in _GOES_ON and not word.endswith(("ing", "ed")):
            who, points = "", False
        yield clause, "" if word in names else f"{who}{_OWNING}" if who and word in _OWNERS else who, points


def _names(texts: Sequence[str]) -> frozenset[str]:
    """The names of some texts: what has a capital within a sentence, or whenever it is said, twice or more; and never
    none (the River Tumba, the river)."""
    found: set[str] = set()
    for text in texts:
        for match in _NAME.finditer(text):
            before = text[: match.start()].rstrip(" “‘\"'*")
            if before and before[-1] not in ".!?:\n…":
                found.update(_named(match[0]))
    small = {word for text in texts for word in _SMALL.findall(text)}
    often = Counter(word for text in texts for word in _named(text))
    found |= {word for word, count in often.items() if count >= _OFTEN and not function_bands(word)}
    return frozenset(found) - small - _POINTING - {"the", "it"} - with_opposites()


def _named(text: str) -> list[str]:
    named = (match[0].replace("’", "'").removesuffix("'s").casefold() for match in _NAME.finditer(text))
    return [name for name in named if name not in words("titles_of_persons")]


def _words(text: str) -> tuple[str, ...]:
    """The words that mean something, in their order, numbers in figures."""
    liked = _LIKE.sub("likes", text)  # the verb: like alone is a small word
    rest = _SHORTENED.sub("", _HAS_GOT.sub("have", _OWNER.sub(rf"\1{_OWNING} ", liked)))
    rest = _POINTED.sub(r"\1\2", rest)
    for number, start, end, _ in reversed(list(numbers_in(rest, parts=True))):
        rest = f"{rest[:start]}{_COUNTED}{number}{rest[end:]}"
    found = (word.removeprefix(_COUNTED) for word in content_in_order(rest))
    return tuple(word for word in found if word not in words("titles_of_persons"))
