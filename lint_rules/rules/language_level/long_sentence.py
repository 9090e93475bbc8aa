"""A sentence longer than a child of this level can take in.

A child who reads word by word has forgotten the beginning of a long sentence when the end comes. So the course sets a
length (`sentence: {words: 8}` in course.yaml), and this rule counts: running text, what somebody says on the page or in
an audio script, captions, song lines, and items that are sentences. Word panels, table heads and rows of options are no
sentences. A hyphened word is one word, a gap and its number none, and of a choice (is / are) only one word counts.
After a colon a sentence with a capital counts for itself (Ask: Where is it?); what is sung counts line by line as the
page has it, in its script too.
"""

import re
from collections.abc import Iterator, Sequence

from lint_rules.finding import Found, Severity
from lint_rules.language.tokens import Analysis, Sentence, Token
from lint_rules.manuscript.counting import count_words, ends_sentence, has_sentences, options_in
from lint_rules.manuscript.model import Audience, DivKind, Passage, Role, Unit
from lint_rules.rule import By, Example, Gather, Limit, Need, Reading, Rule, Within

_LIMIT = "levels: [{sentence: {words: 8}}]"

RULE = Rule(
    name="long-sentence",
    family="language level",
    severity=Severity.QUERY,
    passes=(
        Example("The kite is in the big green tree.\n", course=_LIMIT, why="eight words"),
        Example("A kite ____ in the very big ____ tree ____ here.\n", course=_LIMIT, why="gaps are no words"),
        Example("The kite (1) ____ in the big green tree (2) ____.\n", course=_LIMIT, why="numbers of gaps"),
        Example("Ask your friends: Where is the big red kite?\n", course=_LIMIT, why="after a colon it begins anew"),
        Example(
            "### 1 Sing. {.song audio=1.1}\n\nA cat, a cat,\\\na cat in a hat!\n\n"
            "::: {.audio track=1.1}\nALL: A cat, a cat, a cat in a hat!\n:::\n",
            course=_LIMIT,
            why="what is sung is on the page in lines",
        ),
        Example("She is / isn't in the old red boat.\n", course=_LIMIT, why="a choice is one word"),
        Example(
            "1. apple, banana, orange, egg, milk, bread, cheese, cake, juice\n"
            "2. in the park / in the garden / in the house / at school\n",
            course=_LIMIT,
            why="lists and rows of options are no sentences",
        ),
        Example("I can see a well-known round-ended ice-cream.\n\nThe end.\n", course=_LIMIT),
        Example(
            "::: words\nthe boy who lives in the next house to mine\n:::\n",
            course=_LIMIT,
            why="an entry of a word panel",
        ),
        Example(
            "::: teacher\n**Steps:** Play the audio twice and let the children point to each of the pictures.\n:::\n",
            course=_LIMIT,
            why="the teacher reads this",
        ),
        Example(
            "### 1 Listen to the story two times and then say who has got the kite. {.listening}\n",
            course=_LIMIT,
            why="an instruction has its own rule",
        ),
    ),
    fails=(
        Example(
            "«The kite is in the tree and the dog is in the boat.»\n\n::: {.audio track=1.1}\n"
            "MINA: The kite is in the tree and the dog is in the boat!\n:::\n",
            course=_LIMIT,
            why="read and heard: once",
        ),
        Example("Look! «The kite is in the tree and the dog is in the boat.» Oh no!\n", course=_LIMIT),
        Example(
            "::: {.audio track=1.1}\nMINA: «My hat is in the big tree and I am sad.»\n:::\n",
            course=_LIMIT,
            why="children hear it",
        ),
        Example("1. «The _kite_ is in the ____ tree with my blue hat.» yes / no\n2. Yes.\n", course=_LIMIT),
        Example(
            "### 1 Sing. {.song}\n\nBlow, wind, blow!\n«Blow my kite and my hat up into the sky!»\n", course=_LIMIT
        ),
    ),
    needs=frozenset({Need.LANGUAGE}),
    limits=(
        Limit(
            "words in a sentence: the level's `sentence: {words: …}`",
            "house defaults; for their order of magnitude see lint_rules/course/data/defaults.csv",
        ),
    ),
    gathers=(Gather(Within.UNIT, By.WORDS),),
)

# What a child ticks or circles after a sentence: `The kite is red. yes / no`.
_OPTIONS_AFTER = re.compile(r"(?<=[.!?])[\"'”’)]*\s+[^\s.!?][^.!?]*?\s*/\s*[^.!?]*$")

_SHOWN = 3  # words of a place to cut at that a message shows

# A gap's number: `The sea is (1) ____.`
_GAP_NUMBER = re.compile(r"\(\d{1,2}\)\s*(?=_{2,})|(?<=_)\s*\(\d{1,2}\)")

# A sentence after a colon: `Ask eight friends: What do you wear?`
_AFTER_COLON = re.compile(r"(?<=\w):\s+(?=[\"'“‘]?[A-Z][\w’']* \w)")

# A second column of a matching task: `Dora is in the bathroom.   b) She's cleaning her teeth.`
_LETTER_AFTER = re.compile(r"(?<=[.!?])\s+[a-z]\)\s+")


def find(reading: Reading) -> Iterator[Found]:
    """Report sentences over the level's limit, the whole of each."""
    limit = reading.level.limits.sentence_words
    sung = _sung_turns(reading.unit)
    said: dict[str, Audience] = {}  # what stands on the page is often heard as well: that is one fault
    for passage in reading.unit.passages:
        if not has_sentences(passage) or DivKind.WORDS in reading.unit.div_kinds(passage):
            continue
        if count_words(passage.text) <= limit or id(passage) in sung:
            continue
        analysis = reading.analyse(passage)
        for sentence in analysis.sentences:
            for start, end in _pieces(passage.text, sentence):
                text = passage.text[start:end]
                words = count_words(_GAP_NUMBER.sub("", text)) - options_in(text)
                if words > limit and _is_sentence(passage, text):
                    if said.setdefault(_letters(text), passage.audience) is not passage.audience:
                        continue
                    cut = _cut(analysis, sentence, passage.text)
                    yield Found(passage.span(start, end), text, _message(reading, words, cut))


def _pieces(text: str, sentence: Sentence) -> Iterator[tuple[int, int]]:
    """A sentence without the options after it, cut where a lettered one begins on the same line."""
    options = _OPTIONS_AFTER.search(text[sentence.start : sentence.end])
    end = sentence.end if options is None else sentence.start + options.start()
    start = sentence.start
    marks = [*_LETTER_AFTER.finditer(text, start, end), *_AFTER_COLON.finditer(text, start, end)]
    for mark in sorted(marks, key=lambda mark: mark.start()):
        yield start, mark.start()
        start = mark.end()
    yield start, end


def _sung_turns(unit: Unit) -> frozenset[int]:
    """The turns of scripts that only sing what the page of their song has in lines, by identity."""
    found: set[int] = set()
    for activity in unit.activities:
        passages = activity.part.passages
        page = _letters(" ".join(passage.text for passage in passages if passage.role is Role.LINE))
        turns = (passage for passage in passages if passage.role is Role.TURN)
        found.update(id(turn) for turn in turns if page and _letters(turn.text) in page)
    return frozenset(found)


def _letters(text: str) -> str:
    return re.sub(r"[\W_]+", " ", text.casefold()).strip()


def _is_sentence(passage: Passage, text: str) -> bool:
    """An item counts only when it is a sentence: it ends as one, and it is no row of words or options."""
    return passage.role is not Role.ITEM or (ends_sentence(text) and options_in(text) < 2)


def _message(reading: Reading, words: int, cut: str) -> str:
    level = reading.level
    advice = f"It can be cut in two before “{cut}”." if cut else "Make two of it, or leave out what the picture shows."
    return (
        f"This sentence has {words} words; in {level.name} ({level.cefr}) a sentence has up to "
        f"{level.limits.sentence_words}. {advice}"
    )


def _cut(analysis: Analysis, sentence: Sentence, text: str) -> str:
    """The words before which a sentence can be cut: `and`, `but` or `so`, and what else its subject or another does."""
    tokens = analysis.tokens
    for index in range(sentence.first + 1, sentence.last):
        word = tokens[index]
        if word.pos != "CCONJ" or word.text.casefold() not in ("and", "but", "so"):
            continue
        for other in range(index + 1, sentence.last):
            is_verb = tokens[other].pos in ("VERB", "AUX") and tokens[other].dep == "conj"
            if is_verb and tokens[other].head == word.head and _is_main(tokens, word.head):
                marks = (at for at in range(index, sentence.last) if tokens[at].pos == "PUNCT")
                end = min(next(marks, sentence.last), index + _SHOWN)
                return text[word.start : tokens[end - 1].end]
    return ""


def _is_main(tokens: Sequence[Token], verb: int) -> bool:
    """Say whether a verb is the sentence's own, or joined to it by `and`: no cut inside `when it was dark and …`."""
    while tokens[verb].dep == "conj":
        verb = tokens[verb].head
    return tokens[verb].head == verb
