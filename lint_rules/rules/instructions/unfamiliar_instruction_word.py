"""A word in an instruction that children of this level cannot be expected to read.

An instruction is read alone, by a child with a pencil in hand. If one word of it is strange, the child does not do the
task, or does another one, and nobody sees why. Instructions have a small vocabulary of their own (listen, point,
match, circle, tick, colour, in pairs): a readable house table gives each word the band from which children can follow
it, and a simpler way to say the others. A course adds its own words (`instruction_words` in course.yaml).

Only the heading of an activity is read. Words of the course's lists at or below the level, words that the unit
presents, names, numbers and words within the band of a general reference pass; so do words that children meet early
(Make a mask) and things that the same activity shows. Kinds of text (recipe, postcard, comic) are in the table: one
lies before the child. The first words of the table (play) come when they like. Words of the activity's text are
word-above-level; a word that the children's texts of the unit have too is only noted here, for it is told there. One
word alone is noted, for the teacher shows it once; several of one instruction, or a word that a later level teaches,
are asked about.
"""

import re
from collections import Counter
from collections.abc import Iterator

from lint_rules import lazy_re
from lint_rules.course.model import CEFR_BANDS, band_rank
from lint_rules.finding import Found, Severity
from lint_rules.language.grammar.labels import all_grammar_terms
from lint_rules.language.vocabulary.reference import lowest
from lint_rules.language.vocabulary.word_index import Origin, canonical, classroom_bands
from lint_rules.manuscript.counting import ends_sentence, is_title
from lint_rules.manuscript.model import Passage, Role
from lint_rules.rule import By, Example, Gather, Limit, Need, Reading, Rule, Within
from lint_rules.unit_language.no_words import is_contracted, is_spelling
from lint_rules.unit_language.off_list import off_list_severity, what_the_reference_says
from lint_rules.unit_language.unit_words import Met, has_picture, listed

_AFFIX = 4  # letters that are no word by themselves have fewer
_MAKE = lazy_re.compile(r"\b(?:make|build)\b[^.!?]*$", re.I)
_NUMBERED = lazy_re.compile(r" (?:\d{1,2}(?:\.\d{1,2})?|[A-Z])\b(?!['’])")
_LETTERS = lazy_re.compile(
    r"\b(?:write|say|is it|letters|sounds?)\s+(?:[a-z]{2,3}(?:,| or| and|,? or)\s+)+[a-z]{2,3}\b", re.I
)
_QUOTED = lazy_re.compile(r"“[^”]+”|\"[^\"]+\"|(?<!\w)‘[^’]+’(?!\w)")
_PRE_A1 = "levels:\n  - cefr: Pre-A1\n"

RULE = Rule(
    name="unfamiliar-instruction-word",
    family="instructions",
    severity=Severity.QUERY,
    cure=(
        "Say it with a word that children read every day, or show it with a picture. If your children know "
        "the word, list it under `instruction_words` in course.yaml."
    ),
    needs=frozenset({Need.LANGUAGE}),
    passes=(
        Example("### 1 Write T (true) or NG (not given). {.reading}\n", why="what the capitals stand for is said"),
        Example("### 1 Listen. Write L or Q. {.listening}\n", why="letters to write"),
        Example("### 1 Listen and write. (5 merits) {.listening}\n", why="what there is to win"),
        Example("### 1 Write the adverbs. {.writing}\n\nA cat.\n", why="a term of grammar: another rule's"),
        Example("### 1 Listen and point. {.listening}\n\nA cat.\n", course=_PRE_A1),
        Example("### 1 Look, match and colour. Then work in pairs. {.make}\n\nA cat.\n", course=_PRE_A1),
        Example("### 1 Tick (✓) or cross (✗). {.reading}\n\nA cat.\n", course=_PRE_A1),
        Example("### 1 Circle the odd one out. {.odd-one-out}\n\nA cat.\n", course=_PRE_A1),
        Example("### 1 Color the picture. {.make}\n\nA cat.\n", course=_PRE_A1, why="the other spelling"),
        Example("### 1 Annotate the picture. {.make}\n\nA cat.\n", course="instruction_words: [annotate]"),
        Example("### 1 Point to the volcano. {.words}\n\nA cat.\n", words="volcano,noun,nature,1\n"),
        Example("### 1 Listen to Mina. {.listening}\n\nA cat.\n", course="characters: [Mina]"),
        Example("### 1 Read the sentences aloud. {.reading}\n\nA cat.\n"),
        Example("### 1 Read the clues. Write the crossword words. {.game}\n\nA cat.\n"),
        Example("### 1 Ask three wh- questions. {.speaking}\n\nA cat.\n", why="a part of a word"),
        Example('### 1 Write ow or ou. {.sounds sound="aʊ" spelling="ow"}\n\nAn ____l.\n', why="letters, and no word"),
        Example("### 1 Play the game! {.game}\n\nA cat.\n", course=_PRE_A1, later_words="play,verb,games,1\n"),
        Example("### 1 Play “Beat the monarch”. {.game}\n\nA cat.\n", why="the name of a game"),
        Example(
            '### 1 Say. {.sounds sound="iː" spelling="ee"}\n\nA bee.\n\n### 2 Circle *ee*. {.reading}\n\nA tree.\n',
            course=_PRE_A1,
            why="letters of a sound that the unit teaches",
        ),
        Example("### 1 Read. {.reading}\n\nNevertheless, compare the categories.\n", why="no instruction"),
        Example("### 1 Read.\n\n::: teacher\n**Steps:** Elicit the answers.\n:::\n", why="for the teacher"),
    ),
    fails=(
        Example("### 1 «Select» the «appropriate» picture. {.reading}\n\nA cat.\n"),
        Example("### 1 «Compare» the pictures. {.speaking}\n\nA cat.\n", course=_PRE_A1, weight=Severity.NOTE),
        Example("### 1 «Discuss» in pairs. {.speaking}\n\nA cat.\n", weight=Severity.NOTE, why="one word alone"),
        Example("### 1 «Summarise» the story. {.writing}\n\nA cat.\n", weight=Severity.NOTE),
        Example(
            "### 1 Make the «vendor»'s basket. {.make}\n\nA cat.\n", why="the basket is made", weight=Severity.NOTE
        ),
        Example(
            "### 1 Draw the «gadget». {.reading}\n\nA cat has a gadget.\n",
            why="word-above-level has it from the text",
            weight=Severity.NOTE,
        ),
        Example("### 1 Draw the «volcano». {.make}\n\nA cat.\n", later_words="volcano,noun,nature,1\n"),
        Example("### 1 «Identify» and **«under**line» it. {.reading}\n\nA cat.\n", course=_PRE_A1),
    ),
    limits=(Limit("the band of each word of instructions", "house table, common practice, no source"),),
    gathers=(
        Gather(
            Within.COURSE,
            By.RULE,
            "Instructions have words that children of the level may not know: {words}. Say them more simply, or add "
            "those that they know to `instruction_words` in course.yaml.",
        ),
    ),
    fault="a word",
)


def find(reading: Reading) -> Iterator[Found]:
    """Report the words of instructions above the level."""
    terms = {
        part for term in all_grammar_terms() for name in (term.term, term.plural) for part in (name, *name.split())
    }  # grammar-term-on-page has those
    in_texts = (met for met in reading.words.met(presented=True) if met.word.entry is None and _is_in_text(met))
    elsewhere = {canonical(met.word.lemma) for met in in_texts}
    hard = [
        (met, judged)
        for met in reading.words.met(_is_instruction, presented=True)
        if (judged := _judge(met, reading)) is not None
        and met.word.text.casefold() not in terms
        and not (_is_quoted(met) or _is_code(met))
    ]
    of_each = Counter(met.passage.span() for met, _ in hard)
    for met, judged in hard:
        span = met.passage.span(met.word.start, met.word.end)
        lemma = canonical(met.word.lemma)
        # Freeze!, the map: of 124 such points 42 were thanked for at first sight, of the last 32 eight.
        alone = met.word.entry is None and of_each[met.passage.span()] == 1
        told = Severity.NOTE if alone or lemma in elsewhere else None  # word-above-level has it
        yield Found(span, met.word.text, judged, told, key=lemma)


def _is_in_text(met: Met) -> bool:
    """Say whether a word stands in running text, where word-above-level asks about it."""
    return not met.place.sung and not is_title(met.passage) and ends_sentence(met.passage.text)


def _is_of_letters(met: Met) -> bool:
    """Say whether a word is letters that children write or read as a sound: Write ea or ee."""
    beside = _LETTERS.search(met.passage.text)
    return beside is not None and beside.start() <= met.word.start and met.word.end <= beside.end()


def _is_code(met: Met) -> bool:
    """Say whether a word is capitals that an instruction explains: NG (not given)."""
    return met.word.text.isupper() and met.passage.text[met.word.end :].lstrip().startswith(("(", "="))


def _is_quoted(met: Met) -> bool:
    """Say whether a word stands in quotation marks: the name of a game or a song (Play “Beat the clock”)."""
    return any(mark.start() < met.word.start < mark.end() for mark in _QUOTED.finditer(met.passage.text))


def _is_instruction(passage: Passage) -> bool:
    return passage.role is Role.INSTRUCTION


def _judge(met: Met, reading: Reading) -> str | None:
    word, level = met.word, reading.level
    if word.free or len(word.text.rstrip(".")) == 1 or _is_part_of_word(met) or _is_score(met):  # `Write L or Q.`
        return None
    if is_spelling(met) or _is_of_letters(met) or is_contracted(met):
        return None
    if word.part_of_speech == "noun" and _is_made(met):
        return None  # Make a wind spinner: the steps show what it is
    if word.part_of_speech == "noun" and _NUMBERED.match(met.passage.text, word.end):
        return None  # panels 1 to 3: the page says so beside each
    bands = (*classroom_bands(word.text), *classroom_bands(word.lemma))
    at_most = CEFR_BANDS[0] if word.entry is not None else level.cefr
    if any(band_rank(band) <= band_rank(at_most) for band in bands):
        return None
    said = f"“{word.text}” in an instruction"
    if word.entry is not None:
        if word.entry.level <= level.index:
            return None
        later = reading.course.levels[word.entry.level].name
        return f"{said}: {later} teaches it, and {level.name} does not. {_advice(met, reading)}"
    if word.origin is Origin.CLASSROOM:
        if band_rank(word.band) <= band_rank(level.cefr):
            return None
        return f"{said}: children can follow it from {word.band}; {level.name} is {level.cefr}. {_advice(met, reading)}"
    topics = {*reading.unit.front.topics, *(topic for entry in reading.course.words for topic in entry.topics)}
    if canonical(word.lemma) in {canonical(topic).removesuffix("s") for topic in topics}:
        return None  # what the unit is about
    family = word.part_of_speech == "noun" and reading.words.lists.has_family(word.lemma)
    weight = off_list_severity(word, level, "", pictured=has_picture(met.place, word), of_known=family)
    if weight in {None, Severity.NOTE}:  # a child's word, or a thing that can be shown: Make a mask
        return None
    what = what_the_reference_says(word)
    return f"{said} is in no list, and {what}; {level.name} is {level.cefr}. {_advice(met, reading)}"


def _is_score(met: Met) -> bool:
    """Say whether a word only says what there is to win: (5 marks)."""
    text = met.passage.text
    return (
        re.search(r"\(\s*\d{1,3}\s*$", text[: met.word.start]) is not None and text[met.word.end :].lstrip()[:1] == ")"
    )


def _is_made(met: Met) -> bool:
    activity = met.place.activity
    return (
        activity is not None
        and "make" in activity.kinds
        and _MAKE.search(met.passage.text[: met.word.start]) is not None
        and not met.passage.text.startswith(("'s", "’s"), met.word.end)  # whose it is must be read
    )


def _is_part_of_word(met: Met) -> bool:
    """Say whether letters are spoken of and no word is meant: wh- words; Write ow or ou, where sounds are practised."""
    word, text = met.word, met.passage.text
    if (
        word.text[-1:] in "-–"
        or text[word.end : word.end + 1] in ("-", "–")
        or text[word.start - 1 : word.start] in ("-", "–")
    ):
        return len(word.text) < _AFFIX
    activity = met.place.activity
    sounds = activity is not None and "sounds" in activity.kinds
    return sounds and len(word.text) < _AFFIX and word.entry is None and lowest(word.text) not in {"A1", "A2"}


def _advice(met: Met, reading: Reading) -> str:
    near = reading.words.lists.simpler(met.word, reading.level, reading.unit.front.unit)
    simpler = f"“{met.word.instead}”" if met.word.instead else listed(near) if near else "it more simply"
    return f"Say {simpler}, or add it to `instruction_words` if children know it."
