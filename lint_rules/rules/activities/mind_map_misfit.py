"""A branch of a mind map whose word is not of the map's topic.

A mind map is how children file new words: what hangs under *food* will be remembered as food. A word that strayed in,
often when a list was cut and pasted, is learnt in the wrong drawer, and the child who knows better doubts the rest.
Words are judged by their topics in the word lists, under the branch they hang on; a branch or a word that the lists do
not have is left alone, and so is a branch itself, and a word that the lists give several topics, if one of them fits.
"""

from collections.abc import Iterator

from lint_rules.finding import Found, Severity
from lint_rules.language.vocabulary.topics import TopicList, plain_word, topic_key, topics_of
from lint_rules.page.mind_maps import Branch, branches_of
from lint_rules.rule import Example, Reading, Rule
from lint_rules.tables import alternatives, rows

_WORDS = (
    "bread,noun,food\ncheese,noun,food\nmilk,noun,food|drinks\njuice,noun,drinks\nfrog,noun,animals\n"
    "goat,noun,farm animals\nhen,noun,farm animals\ncat,noun,pets\npet,noun,animals\nfavourite,adjective,\n"
    "swim,verb,actions\nkite,noun,toys\norange,noun,food\norange,adjective,colours\nred,adjective,colours\n"
    "sun,noun,sea and sky\n"
)
_HEAD = "### 1 Look and say. {.mind-map}\n\n"

RULE = Rule(
    name="mind-map-misfit",
    family="activities",
    severity=Severity.NOTE,
    cure=(
        "Move the word to the branch where children will look for it. If the word belongs to both topics, "
        "write both in its row of the word list, with | between."
    ),
    passes=(
        Example(_HEAD + "- food\n  - bread\n  - some cheese\n  - milk\n- animals\n  - frogs\n", words=_WORDS),
        Example(
            _HEAD + "**Animals**\n\n- frog\n- goat\n- cat\n", words=_WORDS, why="farm animals and pets are animals"
        ),
        Example(_HEAD + "My colours:\n\n- red\n- orange\n", words=_WORDS, why="a plain topic; orange is both"),
        Example(
            _HEAD + "- animals\n  - frog\n  - crab\n",
            words=_WORDS + "crab,noun,seaside\n",
            why="a theme of the course is no kind of thing",
        ),
        Example(_HEAD + "- food\n  - bread\n  - pickle\n  - ____\n", words=_WORDS, why="no list has pickle"),
        Example(_HEAD + "- on my desk\n  - bread\n  - frog\n", words=_WORDS, why="no topic of the course"),
        Example(_HEAD + "- food and drinks\n  - bread\n  - juice\n- sea and sky\n  - sun\n", words=_WORDS),
        Example(
            _HEAD + "- farm animals\n  - hen\n  - frog\n", words=_WORDS, why="the list does not say where frogs live"
        ),
        Example(_HEAD + "- food\n  - for a frog\n    - swim\n", words=_WORDS, why="another branch stands between"),
        Example(
            _HEAD + "- animals\n  - red\n    - hen\n", words=_WORDS, why="a branch says what its words have in common"
        ),
        Example("### 1 Look and say. {.speaking}\n\n- food\n  - bread\n  - frog\n", words=_WORDS, why="no mind map"),
    ),
    fails=(
        Example(_HEAD + "- food\n  - bread\n  - «frog»\n- animals\n  - goat\n  - «cheese»\n", words=_WORDS),
        Example(_HEAD + "**Animals**\n\n- frog\n- «kites»\n", words=_WORDS),
        Example(_HEAD + "The food:\n\n- bread, «red», cheese\n", words=_WORDS),
        Example(_HEAD + "- food and drinks\n  - juice\n  - «a hen»\n", words=_WORDS),
        Example(_HEAD + "- pet\n  - cat\n  - «s**w**im»\n", words=_WORDS),
    ),
)


# What any noun may be, whatever theme of the course the lists give it: a keeper is one of the people.
_KINDS = frozenset({"people", "person", "thing", "place"})  # as topic_key writes them


def find(reading: Reading) -> Iterator[Found]:
    """Report the branches that have topics, none of which is their map's, at their words."""
    topics = topics_of(reading.course)
    for activity in reading.unit.activities:
        if "mind-map" not in activity.kinds:
            continue
        for branch in branches_of(activity, reading.unit.source):
            wanted, own = _topic_of(branch, topics), topics.of(branch.word.word)
            fits = bool(own & wanted) or _is_wider(branch, wanted, topics) or _is_known_as(branch, wanted)
            if wanted and own and not fits and not wanted <= _KINDS:
                listed = branch.word
                span = listed.passage.span(listed.start, listed.end)
                yield Found(span, listed.shown, _message(branch, wanted, topics))


def _topic_of(branch: Branch, topics: TopicList) -> frozenset[str]:
    """The topic that a branch hangs under; none where one that is no topic stands between (weather, rainy, hat)."""
    return topics.named(branch.topics[0]) if branch.topics else frozenset()


def _is_known_as(branch: Branch, wanted: frozenset[str]) -> bool:
    """Say whether any child would put a word there, whatever theme of the course the lists give it: a crab is an
    animal, though it is listed under the seaside."""
    word, table = plain_word(branch.word.word), rows("childrens_words.csv")
    return any(topic_key(topic) in wanted and word in alternatives(words) for topic, _, words in table)


def _is_wider(branch: Branch, wanted: frozenset[str], topics: TopicList) -> bool:
    """Say whether the list gives a word only a wider topic than the map's: animals, which may be farm animals."""
    return bool(topics.stated(branch.word.word) & topics.with_wider(wanted))


def _message(branch: Branch, wanted: frozenset[str], topics: TopicList) -> str:
    mine = " and ".join(sorted(topics.name(topic) for topic in topics.stated(branch.word.word)))
    theirs = " and ".join(sorted(topics.name(topic) for topic in wanted))
    return (
        f"“{branch.word.word}” stands under {theirs}, but the word lists have it under {mine}. "
        "Move it, or add the topic to its row if it belongs here too."
    )
