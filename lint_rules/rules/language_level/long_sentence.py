"""A sentence longer than a child of this level can take in.

A child who reads word by word has forgotten the beginning of a long sentence when the end comes. So the course sets a
length (`sentence: {words: 8}` in course.yaml), and this rule counts: running text, what somebody says on the page or in
an audio script, captions, song lines, and items that are sentences. Titles, word panels, table heads, rows of options
and lists (You need: an egg, …; bread · milk) are no sentences. A hyphened word is one word, a gap, its number and a
letter that is spelt out none, and of a choice (is / are) only one word counts. After a colon a sentence with a capital
counts for itself (Ask: Where is it?); verse counts line by line as the page has it, a song in its script too. What
somebody only does (in brackets, in a script or before what is said) is not said. Left alone are activities about
sounds, where a tongue-twister is long, and sentences that grow in a game from child to child. A limit that the course
has not set is a rule of thumb: hardly over it is nothing, a little over it one note a unit.
"""

import re
from collections.abc import Iterator, Sequence

from lint_rules import lazy_re
from lint_rules.course.defaults import default_limits
from lint_rules.finding import Found, Severity
from lint_rules.language.tokens import Analysis, Sentence, Token
from lint_rules.manuscript.counting import (
    count_words,
    ends_sentence,
    has_sentences,
    is_placeholder,
    is_row_of_words,
    is_title,
    options_in,
    stage_directions,
    verse_ends,
    weight_over,
)
from lint_rules.manuscript.model import Audience, DivKind, Passage, Role, Unit
from lint_rules.rule import By, Example, Gather, Limit, Need, Reading, Rule, Within
from lint_rules.unit_language.sentence_cuts import place_to_cut

_LIMIT = "levels: [{sentence: {words: 8}}]"
_LITTLE = "a little long"

_ASKED = "rules: {long-sentence: query}\n"

RULE = Rule(
    name="long-sentence",
    family="language level",
    severity=Severity.QUERY,
    quiet=True,
    cure=(
        "Cut the sentence in two, or leave out what the picture shows. If your children read longer ones, set "
        "`sentence` for the level in course.yaml."
    ),
    passes=(
        Example(
            "::: {.audio track=1.1}\nMINA: The story as on the child's page, with the sounds of the street, the bell "
            "before each ride and an owl at the end of it.\n:::\n",
            why="for the studio",
        ),
        Example(
            "**quiet**: not loud. **remember**: have something in your head. **piece**: a small part of it.\n",
            why="a glossary: each word is explained in a sentence of its own",
        ),
        Example("The kite is in the big green tree.\n", course=_LIMIT, why="eight words"),
        Example("A kite ____ in the very big ____ tree ____ here.\n", course=_LIMIT, why="gaps are no words"),
        Example("The kite (1) ____ in the big green tree (2) ____.\n", course=_LIMIT, why="numbers of gaps"),
        Example(
            "Read and write. The man is cold and ____ (1). He likes ____ (2). He is ____ (3).\n\n"
            "::: answers\n1 hungry 2 peas 3 old\n:::\n",
            course=_LIMIT,
            why="a number behind a gap ends no sentence's stop",
        ),
        Example("Ask your friends: Where is the big red kite?\n", course=_LIMIT, why="after a colon it begins anew"),
        Example(
            "### 1 Sing. {.song audio=1.1}\n\nA cat, a cat,\\\na cat in a hat!\n\n"
            "::: {.audio track=1.1}\nALL: A cat, a cat, a cat in a hat!\n:::\n",
            course=_LIMIT,
            why="what is sung is on the page in lines",
        ),
        Example("You need: two eggs, a cup of milk, some butter, a bowl, a big spoon\n", course=_LIMIT, why="a list"),
        Example("Two eggs, a cup of milk, some butter, a bowl, a spoon.\n", course=_LIMIT, why="a list"),
        Example("Put these on a stick: red, orange, yellow, green, purple.\n", course=_LIMIT, why="a list at its end"),
        Example("eat – ate, find – found, give – gave, go – went, have – had\n", course=_LIMIT, why="pairs of words"),
        Example("**brave** not afraid of what is to come\\\n**damage** what is broken, torn or lost\n", course=_LIMIT),
        Example(
            "**People:** JUDGE (played by Tamika), MS SNAP, a lawyer, MR PLUM, who drives a bus, and THE JURY.\n",
            course=_LIMIT,
            why="who is in a play",
        ),
        Example("**You need:** a square of paper · a pencil (a short one) · a pin · some tape\n", course=_LIMIT),
        Example("- A: (moves the two hands of the clock) What time is it?\n- B: It's six.\n", course=_LIMIT),
        Example(
            "### 1 Play. {.game}\n\n- A: There is some bread in my bag.\n"
            "- B: There is some bread and there are two eggs in my bag.\n",
            course=_LIMIT,
            why="it grows from child to child",
        ),
        Example(
            '### 1 Say it. {.sounds sound="æ"}\n\nA black cat in a black hat has got a black bag.\n', course=_LIMIT
        ),
        Example("The red kite is in the big green tree.\n", course="levels: [{cefr: Pre-A1}]", why="hardly over"),
        Example(
            "MAMA DILO one cabbage R20, ten eggs R30, one bag of tomatoes R25\n", course=_LIMIT, why="a price list"
        ),
        Example("GOGO'S SALAD You need two tomatoes, one onion, one lemon and a bowl.\n", course=_LIMIT),
        Example("K, a, t! K, a, t! Say c, a, t, cat!\n", course=_LIMIT, why="letters spelt out"),
        Example(
            "a is sleeping behind the pot.\nb is wearing a green scarf.\nc is holding it.\n",
            course=_LIMIT,
            why="lettered lines",
        ),
        Example("The cat is on a mat,\\\nthe dog is in a hat,\\\nthe fox has got a bat.\n", course=_LIMIT, why="verse"),
        Example("A cat, a cat, a cat\nIs sitting on the mat\nBehind my hat\n", course=_LIMIT, why="lines of verse"),
        Example("**The kite in the tree and the dog in the boat**\n\nA cat.\n", course=_LIMIT, why="a title"),
        Example(
            "::: {.audio track=1.1}\nMINA: Oh no! (She looks at the kite, the tree and then the dog.)\n:::\n",
            course=_LIMIT,
            why="a direction that nobody says",
        ),
        Example(
            "### 1 Sing. {.song}\n\nThe kite is in the tree,\\\nthe dog is in the boat,\\\nand I am at the sea.\n\n"
            "## Audio script\n\n::: {.audio track=1.1}\n"
            "ALL: The kite is in the tree, The dog is in the boat, And I am at the sea.\n:::\n",
            course=_LIMIT,
            why="lines of verse, sung at the end of the unit",
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
        Example("We can see the kite · «the dog in the red boat is looking at it too.»\n", course=_LIMIT),
        Example(
            "### 1 Play. {.game}\n\n- A: There is some bread in my bag.\n"
            "- B: «The bread is in the bag and the eggs are in the box.»\n",
            course=_LIMIT,
            why="two sentences of a game, and none grows",
        ),
        Example(
            "«The old red kite is in the big green tree again, and so is Tom.»\n",
            course="levels: [{cefr: Pre-A1, sentence: {words: 8}}]",
            weight=Severity.QUERY,
        ),
        Example(
            "«The kite is in the big green tree in our old park.»\n",
            course="levels: [{cefr: A1}]" + "\n" + _ASKED,
            weight=Severity.NOTE,
        ),
        Example("1. «The _kite_ is in the ____ tree with my blue hat.» yes / no\n2. Yes.\n", course=_LIMIT),
        Example(
            "### 1 Sing. {.song}\n\nBlow, wind, blow!\n«Blow my kite and my hat up into the sky!»\n", course=_LIMIT
        ),
    ),
    needs=frozenset({Need.LANGUAGE}),
    limits=(
        Limit(
            "over a limit that is the house default: nothing up to 15 in 100, a note up to six words or half the limit",
            "what authors of 146 judged courses thanked for; no published source",
        ),
        Limit(
            "words in a sentence: the level's `sentence: {words: …}`",
            "house defaults; for their order of magnitude see lint_rules/course/data/defaults.csv",
        ),
    ),
    gathers=(
        Gather(
            Within.UNIT,
            By.ABOUT,
            "{count} sentences of this unit are a little long for the level ({key}). Read them aloud, and cut those "
            "that leave you out of breath.",
            only=_LITTLE,
        ),
        Gather(Within.UNIT, By.WORDS),
    ),
)

# What a child ticks or circles after a sentence: `The kite is red. yes / no`.
_OPTIONS_AFTER = lazy_re.compile(r"(?<=[.!?])[\"'”’)]*\s+[^\s.!?][^.!?]*?\s*/\s*[^.!?]*$")

_FAR, _MUCH = 7, 1.5  # words over a limit that is the house default, and times it
_HEAD_IN_CAPITALS = lazy_re.compile(r"^\W*(?:[A-Z][A-Z'’]+\s+){2,}(?=[A-Z][a-z])")  # MARKET SALAD You need …
_IN_CAPITALS = lazy_re.compile(r"(?:\b[A-Z]{2,}\b[ .]*)+")
_YOU_NEED = lazy_re.compile(r"\W*you(?: will|['’]ll)? need\b", re.I)
_LEAST = 3  # words of a turn that the next child adds to: common practice, no source
# A list after a colon: `You need: an egg, some milk`; it begins in lower case, for a sentence has a capital.
_LIST_AFTER = lazy_re.compile(r":\s+(?=[^:]*,[^:]*$)(?=[a-z0-9])")
_LIST_MARK = lazy_re.compile(r"\s+[·•|]\s+")  # a square of paper · a pencil · a pin
# What somebody does before what is said: `A: (moves the hands) What time is it?`
_DOES = lazy_re.compile(r"^\W*(?:[A-Z][\w ]{0,20}:\s*)?\([^()]*\)(?=\s*\S)")
# A letter by itself that is no word: `c, a, t`; a and I are words but for where they stand between commas or hyphens.
_SPELT = lazy_re.compile(r"(?<![\w'’-])(?:[b-hj-zB-HJ-Z]|[aAiI](?=[,-]))(?![\w'’])")
_UNREAL = frozenset({"second-or-third-conditional", "inverted-conditional"})

# A gap's number: `The sea is (1) ____.`
_GAP_NUMBER = lazy_re.compile(r"\(\d{1,2}\)\s*(?=_{2,})|(?<=_)\s*\(\d{1,2}\)")

# A sentence after a colon: `Ask eight friends: What do you wear?`
_AFTER_COLON = lazy_re.compile(r"(?<=\w):\s+(?=[\"'“‘]?[A-Z][\w’']* \w)")

# A second column of a matching task: `Dora is in the bathroom.   b) She's cleaning her teeth.`
_AFTER_QUOTE = lazy_re.compile(r"(?<=[.!?]['’\"”])\s+(?=[A-Z])")  # 'What happens?' Try it!
_LETTER_AFTER = lazy_re.compile(r"(?<=[.!?])\s+[a-z]\)\s+")


def find(reading: Reading) -> Iterator[Found]:
    """Report sentences over the level's limit, the whole of each."""
    limit = reading.level.limits.sentence_words
    sung, beside = _sung_turns(reading.read), _beside_pictures(reading.read)
    twisters, chains = _of_sounds(reading.read), _in_games(reading.read)
    said: dict[str, Audience] = {}  # what stands on the page is often heard as well: that is one fault
    for passage in reading.read.passages:
        if passage.audience is Audience.LISTENER and is_placeholder(passage.text):
            continue
        if not has_sentences(passage) or DivKind.WORDS in reading.unit.div_kinds(passage) or is_title(passage):
            continue
        if count_words(passage.text) <= limit or id(passage) in sung or id(passage) in twisters:
            continue
        analysis = reading.analyse(passage)
        directions = stage_directions(passage)
        for sentence in analysis.sentences:
            for start, end in _pieces(passage, sentence):
                text = passage.text[start:end]
                if any(left <= start < right for left, right in directions) or not _is_sentence(passage, text):
                    continue
                words = _counted(text, _tokens(analysis, start, end))
                weight = weight_over(words, limit, _usual(reading))
                if limit == _usual(reading) and words < max(limit + _FAR, limit * _MUCH):
                    weight = weight and Severity.NOTE
                if weight is None or _must_go(analysis, sentence, reading):
                    continue
                if not any(_grows(one, text) for one in chains.get(id(passage), ())):
                    if said.setdefault(_letters(text), passage.audience) is not passage.audience:
                        continue
                    cut = place_to_cut(analysis, sentence, passage.text)
                    message = _message(reading, words, cut, id(passage) in beside)
                    span = passage.span(start, end)
                    if weight is Severity.NOTE:
                        yield Found(span, text, message, weight, key=f"up to {limit} words", about=_LITTLE)
                    else:
                        yield Found(span, text, message)


def _must_go(analysis: Analysis, sentence: Sentence, reading: Reading) -> bool:
    """Say whether a sentence has to go anyway: an unreal condition is told again by what is really so, not cut."""
    own = (one for one in analysis.structures if sentence.start <= one.start < sentence.end)
    return reading.level.cefr in ("Pre-A1", "A1", "A2") and any(one.name in _UNREAL for one in own)


def _usual(reading: Reading) -> int:
    return default_limits(reading.level.cefr).sentence_words


def _tokens(analysis: Analysis, start: int, end: int) -> list[Token]:
    return [token for token in analysis.tokens if start <= token.start < end]


def _counted(text: str, tokens: Sequence[Token]) -> int:
    """The words of a sentence that a child has to hold together: none of a list, no letters spelt out."""
    if is_row_of_words(text):
        return 0  # go – went, see – saw
    if text.count(",") > 1 and len(_IN_CAPITALS.findall(text)) > text.count(",") // 2:
        return 0  # People: JUDGE (played by Tamika), MS SNAP, a lawyer, and THE JURY
    colon = _LIST_AFTER.search(text)
    verbs = [token for token in tokens if token.pos in {"VERB", "AUX"}]
    text = _HEAD_IN_CAPITALS.sub("", text)
    listed = not verbs or not ends_sentence(text) or _YOU_NEED.match(text)
    if colon is None and text.count(",") > 1 and listed:
        return 0  # two eggs, some flour, a bowl; one cabbage R20, ten eggs R30; You need an egg, a bowl and a spoon.
    if colon is not None:
        text = text[: colon.start()]
    text = _DOES.sub("", text)
    spelt = len(_SPELT.findall(text))
    return count_words(_GAP_NUMBER.sub("", text)) - options_in(text) - spelt


def _pieces(passage: Passage, sentence: Sentence) -> Iterator[tuple[int, int]]:
    """A sentence without the options after it, cut where a lettered one begins, a line with a word in bold, or the next
    word of a glossary (**quiet**: not loud. **piece**: a part)."""
    text = passage.text
    options = _OPTIONS_AFTER.search(text[sentence.start : sentence.end])
    end = sentence.end if options is None else sentence.start + options.start()
    start = sentence.start
    marks = [
        mark.span()
        for find in (_LETTER_AFTER, _AFTER_COLON, _AFTER_QUOTE, _LIST_MARK)
        for mark in find.finditer(text, start, end)
    ]
    inside = [bold for bold, _ in passage.strong if start < bold < end]
    marks += [
        (at - 1, at) for at in inside if text[at - 1] == "\n" or text[:at].rstrip().endswith((".", "!", "?", ";"))
    ]
    marks += [(at, at + 1) for at in verse_ends(text) if start < at < end]
    for left, right in sorted(marks):
        yield start, left
        start = right
    yield start, end


def _sung_turns(unit: Unit) -> frozenset[int]:
    """The turns of scripts that only sing what the page of a song has in lines, by identity: beside the page, or at the
    end of the unit with all scripts."""
    songs = (
        _letters(" ".join(passage.text for passage in activity.part.passages if passage.role is Role.LINE))
        for activity in unit.activities
    )
    pages = [song for song in songs if song]
    turns = (passage for passage in unit.passages if passage.role is Role.TURN) if pages else ()
    return frozenset(id(turn) for turn in turns if any(_is_sung_from(turn, page) for page in pages))


def _is_sung_from(turn: Passage, page: str) -> bool:
    """Say whether a turn sings what the page has, all of it or piece by piece, with slashes or directions between."""
    if _letters(turn.text) in page:
        return True
    pieces = map(_letters, re.split(r"\s/\s|\[[^\]]*\]|\([^)]*\)", turn.text))
    return all(piece in page for piece in pieces)


def _letters(text: str) -> str:
    return re.sub(r"[\W_]+", " ", text.casefold()).strip()


def _is_sentence(passage: Passage, text: str) -> bool:
    """An item or a caption counts only when it is a sentence: it ends as one, and it is no row of words or options."""
    return passage.role not in {Role.ITEM, Role.CAPTION} or (ends_sentence(text) and options_in(text) < 2)


def _message(reading: Reading, words: int, cut: str, pictured: bool) -> str:
    level = reading.level
    said = f"This sentence has {words} words; in {level.name} a sentence has up to {level.limits.sentence_words}."
    if cut:
        return f"{said} Cut it in two before “{cut}”."
    return f"{said} Make two of it{', or leave out what the picture shows' if pictured else ''}."


def _of_sounds(unit: Unit) -> frozenset[int]:
    """The passages of activities about sounds, by identity: a tongue-twister is long by design."""
    return frozenset(
        id(passage) for activity in unit.activities if "sounds" in activity.kinds for passage in activity.part.passages
    )


def _in_games(unit: Unit) -> dict[int, tuple[str, ...]]:
    """For each passage of a game, by identity, what stands before it there."""
    return {
        id(passage): tuple(one.text for one in activity.part.passages[:number])
        for activity in unit.activities
        if "game" in activity.kinds
        for number, passage in enumerate(activity.part.passages)
    }


def _grows(before: str, text: str) -> bool:
    """Say whether a sentence has all the words of one before it, in order: the next child's turn in a game of memory,
    or the same turn said again."""
    words, own = iter(_letters(text).split()), _letters(before.partition(":")[2] or before).split()
    return len(own) >= _LEAST and all(word in words for word in own)


def _beside_pictures(unit: Unit) -> frozenset[int]:
    """The passages of activities that have a picture, or will have one, by identity."""
    return frozenset(
        id(passage)
        for activity in unit.activities
        if activity.part.pictures or any(passage.role is Role.BRIEF for passage in activity.part.passages)
        for passage in activity.part.passages
    )
