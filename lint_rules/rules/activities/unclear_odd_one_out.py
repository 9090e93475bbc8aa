"""A set of words for `odd-one-out` in which two words could be the answer, or none is.

The child finds the one word that does not belong, and the key knows one answer. Where two words could be it, a child
who thinks well is marked wrong; where none is, the class is stuck and the teacher has no way out. Words are judged by
their topics in the word lists: all but one must share a topic that this one has not. A word in no list might have any
topic, so a set with such words is left alone unless it cannot work whatever they are.
"""

from collections.abc import Iterator, Sequence

from lint_rules.finding import Found, Severity
from lint_rules.language.vocabulary.topics import OddOnes, TopicList, odd_ones, topics_of
from lint_rules.page.word_sets import Listed, sets_of, shown
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
    severity=Severity.QUERY,
    passes=(
        Example(_HEAD + "1. goat, hen, red, duck\n2. apple, swim, banana\n", words=_WORDS),
        Example(_HEAD + "1. goat / hens / an apple / ducks\n", words=_WORDS, why="slashes, plurals, articles"),
        Example(_HEAD + "1. red, orange, goat\n2. apple, banana, orange, hen\n", words=_WORDS, why="orange is both"),
        Example(_HEAD + "1. cat, goat, hen, red\n", words=_WORDS, why="the list says that pets are animals"),
        Example(_HEAD + "1. apple, banana, milk\n", words=_WORDS, why="milk is the only drink"),
        Example(_HEAD + "1. goat, wombat, red, hen\n", words=_WORDS, why="no list knows what a wombat is"),
        Example(_HEAD + "Circle one word in each line, then say why.\n\n1. goat, hen, red\n", words=_WORDS),
        Example(
            "### 1 Read and say. {.reading}\n\n1. apple, duck, banana, hen\n",
            words=_WORDS,
            why="no odd one is asked for",
        ),
        Example(
            _HEAD + "| goat | red | hen | duck |\n|---|---|---|---|\n| apple | banana | swim | milk |\n", words=_WORDS
        ),
    ),
    fails=(
        Example(_HEAD + "1. «apple, duck, banana, hen»\n2. goat, hen, red\n", words=_WORDS, why="two and two"),
        Example(_HEAD + "1. «goat, hen, duck»\n", words=_WORDS, why="all are animals"),
        Example(_HEAD + "«goat / red / apple / hens / duck»\n", words=_WORDS, why="red or apple"),
        Example(_HEAD + "1. **«cat**, red, apple».\n", words=_WORDS, why="no two belong together"),
        Example(_HEAD + "1. «sheep, farm dog, tractor, hen»\n", words=_WORDS, why="no farm animal? no animal?"),
        Example(_HEAD + "1. «goat, apple, hen, wombat, banana»\n", words=_WORDS, why="whatever a wombat is"),
        Example(_HEAD + "- «goat\n- hen\n- duck»\n", words=_WORDS, why="a list of single words is a set"),
    ),
)


def find(reading: Reading) -> Iterator[Found]:
    """Report the sets without one clear answer, at their words."""
    topics = topics_of(reading.course)
    for activity in reading.unit.activities:
        if "odd-one-out" not in activity.kinds:
            continue
        for words in sets_of(activity, reading.unit.source):
            if len(words) < 3:
                continue
            odd = odd_ones([word.word for word in words], topics)
            if odd.certain and len(odd.answers) != 1:
                yield _found(words, _message(words, odd, topics))


def _found(words: Sequence[Listed], message: str) -> Found:
    first, last = words[0], words[-1]
    if first.passage is last.passage:
        span = first.passage.span(first.start, last.end)
        return Found(span, shown(first.passage, first.start, last.end), message)
    begin, end = first.passage.span(first.start, first.end), last.passage.span(last.start, last.end)
    return Found(Span(begin.start, end.end), ", ".join(word.shown for word in words), message)


def _message(words: Sequence[Listed], odd: OddOnes, topics: TopicList) -> str:
    ask = "By the topics in the word lists, exactly one word must differ from all the others. Change a word of the set."
    if odd.answers:
        possible = " or ".join(
            f"“{words[index].word}” (all the others: {topics.name(topic)})" for index, topic in odd.answers
        )
        return f"More than one answer is possible: {possible}. {ask}"
    groups = _groups(words, topics)
    (biggest, members), *_ = groups
    rest = [word.word for word in words if word.word not in members]
    if not rest:
        return f"There is no odd one: all of these have the topic “{topics.name(biggest)}”. {ask}"
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
