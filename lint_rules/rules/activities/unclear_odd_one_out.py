"""A set of words for `odd-one-out` in which two words could be the answer, or none is, and no key says which.

The child finds the one word that does not belong, and the key knows one answer. Where two words could be it, a child
who thinks well is marked wrong; where none is, the class is stuck. Words are compared by their topics in the word lists
and by their parts of speech. But topics are drawers, not a system of nature: a set is fine whose key names one word
with its reason (`1 wing: people have none`), or one that topics do not gainsay, and one for which children say why. A
word in no list might have any topic, so a set with such words is left alone unless it cannot work whatever they are.
"""

import re
from collections.abc import Iterator, Sequence

from lint_rules import lazy_re
from lint_rules.finding import Found, Severity
from lint_rules.language.vocabulary.topics import OddOnes, TopicList, odd_ones, topics_of
from lint_rules.manuscript.model import Activity, Audience, Unit
from lint_rules.page.exercises.model import Exercises
from lint_rules.page.word_sets import Listed, sets_of, shown
from lint_rules.plain_words import LETTERS
from lint_rules.rule import Example, Reading, Rule
from lint_rules.source import Span
from lint_rules.unit_language.unit_words import listed

_WORDS = (
    "apple,noun,food\nbanana,noun,food\nmilk,noun,food|drinks\ngoat,noun,animals\nhen,noun,animals\nduck,noun,animals\n"
    "cat,noun,pets\npet,noun,animals\nred,adjective,colours\norange,adjective,colours\norange,noun,food\n"
    "swim,verb,actions\ntractor,noun,farm\nfarm dog,noun,farm|animals\nsheep,noun,farm|animals\nfavourite,adjective,\n"
)
_HEAD = "### 1 Circle the odd one out. {.odd-one-out}\n\n"

RULE = Rule(
    name="unclear-odd-one-out",
    family="activities",
    severity=Severity.NOTE,
    cure=(
        "Change a word until just one differs from all the others. Or give in the key the answer and the "
        "reason that children should find."
    ),
    passes=(
        Example(_HEAD + "1. goat, hen, red, duck\n2. apple, swim, banana\n", words=_WORDS),
        Example(_HEAD + "1. goat / hens / an apple / ducks\n", words=_WORDS, why="slashes, plurals, articles"),
        Example(_HEAD + "1. red, orange, goat\n2. apple, banana, orange, hen\n", words=_WORDS, why="orange is both"),
        Example(_HEAD + "1. cat, goat, hen, red\n", words=_WORDS, why="the list says that pets are animals"),
        Example(_HEAD + "1. apple, banana, milk\n", words=_WORDS, why="milk is the only drink"),
        Example(_HEAD + "1. goat, wombat, red, hen\n", words=_WORDS, why="no list knows what a wombat is"),
        Example(_HEAD + "Circle one word in each line, then say why.\n\n1. goat, hen, red\n", words=_WORDS),
        Example(_HEAD + "1. goat · hen · red · duck\n", words=_WORDS, why="dots between"),
        Example(_HEAD + "1. swim, goat, eat, fly\n", words=_WORDS + "eat,verb,food\nfly,verb,air\n", why="three verbs"),
        Example(
            _HEAD + "1. goat, hen, swim, red\n\n::: answers\n1 red\n:::\n",
            words="goat,noun,farm\nhen,noun,farm\nswim,verb,water\nred,adjective,colours\n",
            why="no topic gainsays the key",
        ),
        Example(
            _HEAD + "1. goat, hen, red\n\n::: answers\n1 hen\n:::\n\n"
            "::: teacher\n**Support:** In number 1, count the legs.\n:::\n",
            words=_WORDS,
            why="the notes know the reason",
        ),
        Example(_HEAD + "1. goat, hen, duck\n\n::: answers\n1 goat (it has no wings)\n:::\n", words=_WORDS),
        Example(_HEAD + "1. goat, hen, duck\n\n::: answers\n1 goat\n:::\n", words=_WORDS, why="the key names one"),
        Example(
            _HEAD + "- goat, hen, duck\n- red, hen, duck\n\n::: answers\ngoat (no wings); red\n:::\n",
            words=_WORDS,
            why="a key in one line",
        ),
        Example(
            _HEAD + "(1) goat, hen, red\n(2) red, apple, banana\n\n::: answers\n1 red, 2 red\n:::\n",
            words=_WORDS,
            why="lines of one paragraph, each with its answer",
        ),
        Example(
            _HEAD.replace("one out.", "one out. Say why.") + "1. goat, hen, duck\n",
            words=_WORDS,
            why="any reason will do",
        ),
        Example(
            "### 1 Read and say. {.reading}\n\n1. apple, duck, banana, hen\n",
            words=_WORDS,
            why="no odd one is asked for",
        ),
        Example(
            "### 1 Circle the odd one out. {.odd-one-out .sounds}\n\n1. goat, apple, hen\n\n::: answers\n1 goat\n:::\n",
            words=_WORDS,
            why="told by its sound",
        ),
        Example(
            _HEAD + "| goat | red | hen | duck |\n|---|---|---|---|\n| apple | banana | swim | milk |\n", words=_WORDS
        ),
    ),
    fails=(
        Example(_HEAD + "1. «apple, duck, banana, hen»\n2. goat, hen, red\n", words=_WORDS, why="two and two"),
        Example(_HEAD + "1. «goat, hen, duck»\n", words=_WORDS, why="all are animals"),
        Example(
            _HEAD + "1. «apple, duck, banana, hen»\n\n::: answers\n1 duck\n:::\n", words=_WORDS, why="why not hen?"
        ),
        Example(_HEAD + "«goat / red / apple / hens / duck»\n", words=_WORDS, why="red or apple"),
        Example(_HEAD + "1. **«cat**, red, apple».\n", words=_WORDS, why="no two belong together"),
        Example(_HEAD + "1. «sheep, farm dog, tractor, hen»\n", words=_WORDS, why="no farm animal? no animal?"),
        Example(_HEAD + "1. «goat, apple, hen, wombat, banana»\n", words=_WORDS, why="whatever a wombat is"),
        Example(
            _HEAD + "1. «goat, hen, red»\n\n::: answers\n1 hen\n:::\n",
            words=_WORDS,
            why="the key says hen, the topics red",
        ),
        Example(_HEAD + "- «goat\n- hen\n- duck»\n", words=_WORDS, why="a list of single words is a set"),
    ),
)


_WHY = lazy_re.compile(r"\b(?:why|because|explain|reasons?)\b", re.I)
_NUMBERED = lazy_re.compile(r"\b(?:number|line|row|set|item) \d\b", re.I)
_LEAD = r"^\W*(?:\d+[.):]?\s*)?(?:[a-z][.)]\s+)?(?:(?:an?|the)\s+)?"


def find(reading: Reading) -> Iterator[Found]:
    """Report the sets without one clear answer, at their words."""
    topics = topics_of(reading.course)
    by_sound = {id(activity) for activity in _about_sounds(reading.unit)}
    for read in reading.readings.exercises:
        activity = read.activity
        if "odd-one-out" not in activity.kinds or _asks_why(activity) or id(activity) in by_sound:
            continue
        for words in sets_of(activity, reading.unit.source):
            if len(words) < 3:
                continue
            odd = odd_ones([word.word for word in words], topics)
            if odd.certain and not _is_clear(words, odd, read, topics):
                yield _found(words, _message(words, odd, topics))


def _about_sounds(unit: Unit) -> Iterator[Activity]:
    """The activities that are about how words are said or spelt: there the odd one is told by its sound."""
    for lesson in unit.lessons:
        for activity in lesson.activities:
            if "sounds" in (*activity.kinds, *lesson.classes) or {"sound", "spelling"} & {
                *activity.heading.attributes.values
            }:
                yield activity
    yield from (activity for activity in unit.opening_activities if "sounds" in activity.kinds)


def _asks_why(activity: Activity) -> bool:
    """Say whether children give a reason: then any word may be right."""
    texts = [p.text for p in activity.part.passages if p.audience is Audience.PUPIL]
    return any(_WHY.search(text) for text in (activity.heading.passage.text, *texts))


def _is_clear(words: Sequence[Listed], odd: OddOnes, read: Exercises, topics: TopicList) -> bool:
    """Say whether a set has one answer: the key gives a reason; or the topics allow one, and the key no other; or one
    alone is another part of speech; or the key names one where the topics are too wide to tell (a wing is body too)."""
    keyed = _keyed(words, read)
    if keyed is not None and not keyed[1] and (_is_spoken_of(read) or _is_alone(words, keyed[0], odd, topics)):
        return True
    if keyed is not None and (keyed[1] or (keyed[0] not in dict(odd.answers) and bool(odd.answers))):
        return keyed[1]
    if odd.answers:
        return len(odd.answers) == 1
    alike = frozenset.intersection(*(topics.of(word.word) for word in words))
    return _by_part_of_speech(words, topics) == 1 or (keyed is not None and bool(alike))


def _is_alone(words: Sequence[Listed], keyed: int, odd: OddOnes, topics: TopicList) -> bool:
    """Say whether the topics gainsay nothing: none of them gives another answer, and the word of the key shares none
    with a word beside it (of cat, dog, goose and lamp the lamp)."""
    own = topics.of(words[keyed].word)
    shared = any(own & topics.of(word.word) for at, word in enumerate(words) if at != keyed)
    others = [topics.of(word.word) for at, word in enumerate(words) if at != keyed]
    akin = any(one & two for at, one in enumerate(others) for two in others[at + 1 :])
    return not odd.answers and not shared and akin


def _is_spoken_of(read: Exercises) -> bool:
    """Say whether the notes help with the answers (in number 2, touch your hands and your feet): they know why."""
    notes = " ".join(p.text for p in read.activity.part.passages if p.audience is Audience.TEACHER)
    return _NUMBERED.search(notes) is not None or _WHY.search(notes) is not None


def _keyed(words: Sequence[Listed], read: Exercises) -> tuple[int, bool] | None:
    """The word of a set that the key names (its index), and whether the key says why; None where it names none."""
    passage = words[0].passage
    items = [item for exercise in read.exercises for item in exercise.items]
    own = [
        item
        for item in items
        if any(place.passage is passage and place.start <= words[0].start < place.end for place in item.prompt)
    ]
    if own and any(item.answer is not None for item in items):
        texts = [item.answer.text for item in own if item.answer is not None]
    else:
        texts = [key.text for key in read.keys]
    for said in (piece for text in texts for piece in re.split(r"[;\n]", text)):
        for at, word in enumerate(words):
            named = word.word.casefold() in said.casefold()  # else no pattern need be made
            match = re.match(_LEAD + re.escape(word.word) + r"\b", said, re.I) if named else None
            if match is not None:
                return at, len(LETTERS.findall(said[match.end() :])) > 1
    return None


def _by_part_of_speech(words: Sequence[Listed], topics: TopicList) -> int:
    """How many words of a set are another part of speech than all the others (that are more than nouns: what is no
    noun among nouns of all kinds is not seen to be odd)."""
    parts = [{entry.part_of_speech for entry in topics.entries(word.word)} - {""} for word in words]
    found = 0
    for at, own in enumerate(parts):
        shared = set.intersection(*(other for place, other in enumerate(parts) if place != at)) - {"noun"}
        found += bool(own and shared and not shared & own)
    return found


def _found(words: Sequence[Listed], message: str) -> Found:
    first, last = words[0], words[-1]
    if first.passage is last.passage:
        span = first.passage.span(first.start, last.end)
        return Found(span, shown(first.passage, first.start, last.end), message)
    begin, end = first.passage.span(first.start, first.end), last.passage.span(last.start, last.end)
    return Found(Span(begin.start, end.end), ", ".join(word.shown for word in words), message)


def _message(words: Sequence[Listed], odd: OddOnes, topics: TopicList) -> str:
    ask = "Change a word, or say in the key which one it is and why."
    if len(odd.answers) == 1:
        index, topic = odd.answers[0]
        return f"By the word lists the odd one is “{words[index].word}” (the others: {topics.name(topic)}). {ask}"
    if odd.answers:
        possible = " or ".join(
            f"“{words[at].word}” (the others: {topics.name(topic)})" for at, topic in odd.answers[:2]
        )
        return f"More than one answer is possible: {possible}. {ask}"
    groups = _groups(words, topics)
    (biggest, members), *_ = groups
    rest = [word.word for word in words if word.word not in members]
    if not rest:
        return f"No word is the odd one by the word lists: all are “{topics.name(biggest)}”. {ask}"
    if len(members) > 1 and len(members) > len(rest):
        return f"More than one answer is possible: {listed(rest)} (the others: {topics.name(biggest)}). {ask}"
    by_topic = "; ".join(f"{', '.join(found)} ({topics.name(topic)})" for topic, found in groups)
    return f"No word stands alone here: {by_topic}. {ask}"


def _groups(words: Sequence[Listed], topics: TopicList) -> list[tuple[str, list[str]]]:
    """Words by topic, the biggest groups first, until every known word has been named."""
    by_topic: dict[str, list[str]] = {}
    for word in words:
        for topic in sorted(topics.of(word.word)):
            by_topic.setdefault(topic, []).append(word.word)
    found: list[tuple[str, list[str]]] = []
    named: set[str] = set()
    for topic, members in sorted(by_topic.items(), key=lambda item: -len(item[1])):
        if not named.issuperset(members):
            found.append((topic, members))
            named.update(members)
    return found
