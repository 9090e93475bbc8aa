"""A word that a lesson's notes promise (Words) and nothing in the lesson has.

The teacher writes the Words on the board, brings the cards, and then no page, picture or script of the lesson asks for
one of them: children learn a word that they never use, or the story that should have had it was cut. Looked for are
single words and pairs, in every form, anywhere in the lesson: pages, pictures and what the artist draws, scripts,
answers, and the teacher's steps, for what is only said is there too. Left alone are kinds of words (colours, all the
words of the unit, numbers), and lists of which most is not there: they are meant otherwise.
"""

import re
from collections.abc import Iterator, Set

from lint_rules import lazy_re
from lint_rules.finding import Found, Severity
from lint_rules.language.inflection.forms import every_form, noun_forms
from lint_rules.language.vocabulary.reference import is_a
from lint_rules.language.vocabulary.word_index import canonical, parts_of
from lint_rules.language.vocabulary.word_shapes import positive
from lint_rules.manuscript.field_names import field_key
from lint_rules.manuscript.model import Lesson, Passage
from lint_rules.rule import Example, Gather, Reading, Rule, Within
from lint_rules.tables import entries


def _lesson(words: str, page: str) -> str:
    return (
        f"## Lesson 1: Boats {{.words}}\n\n::: teacher\n**Aim:** name things\n\n**Words:** {words}\n:::\n\n"
        f"### 1 Read. {{.reading}}\n\n{page}\n"
    )


_PAGE = "A boat goes along the canal. Look at the locks and the bridge!"

RULE = Rule(
    name="promised-word-missing",
    family="teacher's notes",
    severity=Severity.QUERY,
    cure="Bring the word in (a page, a picture, a script), or take it off the lesson's Words.",
    passes=(
        Example(_lesson("boat, canal, lock, bridge", _PAGE), why="lock stands there as locks"),
        Example(_lesson("boat, canal, towpath", _PAGE + "\n\n![a towpath](art/path.svg){.drawing}")),
        Example(_lesson("boat, canal, rope", _PAGE + "\n\n::: teacher\n**Steps:** Show a rope.\n:::")),
        Example(_lesson("boat, canal, colours, one to ten", _PAGE), why="kinds of words"),
        Example(_lesson("boat, canal, long", _PAGE + "\n\nThe longest boat!"), why="long stands there as longest"),
        Example(_lesson("all the words of the unit", _PAGE)),
        Example(_lesson("Teach *boat*, *canal*, *lock* and *bridge* from the panel; others can be guessed.", _PAGE)),
        Example(_lesson("teach boat, canal, lock", _PAGE)),
        Example(_lesson("boat, canal; also bridge, lock", _PAGE)),
        Example(_lesson("new: boat, canal; passive: lock", _PAGE), why="labels"),
        Example(_lesson("plum, pear, apple, boat", _PAGE), why="most is not there: meant otherwise"),
    ),
    fails=(
        Example(_lesson("boat, canal, «towpath», bridge", _PAGE)),
        Example(_lesson("Teach *boat*, *canal*, *lock* and *«towpath»* before the reading.", _PAGE)),
        Example(_lesson("a boat (n), the canal, «get up», lock", _PAGE)),
        Example(_lesson("boat; canal; to «sail»; bridges.", _PAGE)),
    ),
    gathers=(
        Gather(
            Within.UNIT,
            says="Lessons promise words that nothing in them has: {words}. Bring them in, or take them off the "
            "lesson's Words.",
        ),
    ),
)  # fmt: skip

_ITEM = lazy_re.compile(r"[^,;·•\n]+")
_LABEL = lazy_re.compile(r"^[^:]*:\s*")
_ASIDE = lazy_re.compile(r"\([^()]*\)|[.…!?\"“”]+$")
_ARTICLE = lazy_re.compile(
    r"^(?:(?:and|also|again|plus)\s+)?(?:(?:(?:pre-?)?teach|explain|introduce|present|practise|revise|review|elicit)\s+)?(?:(?:an?|the|to|some)\s+)?",
    re.I,
)
_PLAIN = lazy_re.compile(r"[^\W\d_]+(?:['’-][^\W\d_]+)*(?: [^\W\d_]+(?:['’-][^\W\d_]+)*)?")
_LEAST = 3  # promised words that make a list: common practice, no source


def find(reading: Reading) -> Iterator[Found]:
    """Report the promised words of each lesson that it does not have."""
    topics = {canonical(topic) for entry in reading.course.words for topic in entry.topics}
    listed = {canonical(entry.word) for entry in reading.course.words}
    for lesson in reading.unit.lessons:
        promised = [one for passage in _lists(lesson) for one in _items(passage)]
        if len(promised) < _LEAST:
            continue
        there = _all_words(lesson)
        missing = [one for one in promised if not _stands(one[0].text[one[1] : one[2]], there)]
        if len(missing) * 2 > len(promised):
            continue
        for passage, start, end in missing:
            word = passage.text[start:end]
            key = canonical(word)
            if key in topics or word.casefold() in entries("numbers.txt") or (word.endswith("s") and key not in listed):
                continue
            message = (
                f"“{word}” is among the Words of this lesson, and nothing in it has it. Bring it in, or take it "
                "off the list."
            )
            yield Found(passage.span(start, end), word, message)


def _lists(lesson: Lesson) -> Iterator[Passage]:
    field = lesson.part.field("Words")
    yield from field.passages if field is not None else ()


def _items(passage: Passage) -> Iterator[tuple[Passage, int, int]]:
    """The words of a list, as ranges of its text: no label, no article, nothing in brackets. Of a list in prose (Teach
    *bell*, *marsh* and *shore* before the reading) the words in italics."""
    items = [match.span() for match in _ITEM.finditer(passage.text)]
    if len(passage.emphasis) > 1 and len(passage.emphasis) * 2 >= len(items):
        items = list(passage.emphasis)
    for start, end in items:
        label = _LABEL.match(passage.text[start:end])
        start += label.end() if label else 0
        aside = _ASIDE.search(passage.text[start:end].rstrip())
        end = start + aside.start() if aside else end
        text = passage.text[start:end]
        start += len(text) - len(text.lstrip())
        article = _ARTICLE.match(passage.text[start:end])
        start += article.end() if article and article.end() < end - start else 0
        word = passage.text[start:end].rstrip()
        if _PLAIN.fullmatch(word):
            yield passage, start, start + len(word)


def _all_words(lesson: Lesson) -> frozenset[str]:
    """Every word of a lesson but for its list of Words: texts, pictures by alternative text and file."""
    parts = (lesson.part, *(activity.part for activity in lesson.activities))
    texts = [passage.text for passage in lesson.passages if field_key(passage.field) != "word"]
    for picture in (picture for part in parts for picture in part.pictures):
        texts += [picture.alt, re.sub(r"[_/.-]+", " ", picture.target)]
    plain = {word for text in texts for word in parts_of(text)}
    return frozenset(plain | {positive(word) for word in plain})


def _stands(word: str, there: Set[str]) -> bool:
    return all(_forms(part) & there for part in parts_of(word))


def _forms(word: str) -> Set[str]:
    single = word.removesuffix("s") if is_a(word.removesuffix("s"), "NOUN") else word  # socks, where a sock is seen
    return {word, single, *every_form(word), *noun_forms(word)}
