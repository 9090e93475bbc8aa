"""A slip of grammar, spelling or punctuation, as a LanguageTool server sees it.

A slip in a children's book is taught to every child who uses it, and a parent who finds one doubts the rest. This
rule runs only when hornbook is given an English checker (`--english`, or the environment variable HORNBOOK_ENGLISH):
the address of a server, or `local` to start one on this machine.

Pupil's pages, audio scripts, answers and teacher's notes are checked. Gaps, choices (is / are), pictures, numbering
and speakers' names are hidden from the checker. Left alone are the course's names, known words and target words in all
their forms; noises (Ribbit! Whoo, whoo!); the letters of the unit's sounds; a word said twice for fun (a big big dog);
activities of the class `mistakes`, whose slips are deliberate; and all that is a matter of taste
(english/data/english_switched_off.csv gives the list and the reasons).

A few slips that the checker lets pass are looked for besides (can not, isn't there no more, wag it's tail, the baker's
hands was), and spaces between a gap or a picture and the mark after it: one point, with a mend. Words that no
dictionary has and that are no slip for a usual one (rooibos) are one point too. Only checks that were seen to be right
count (english/data/english_checks.csv); one that was seen wrong as well is a note, and so is a word that some write as
two. In the teacher's notes, which are written short, the checker is only heard on spelling. For all else there is no
mend: the checker guesses, and its guess is for the author to judge. It cannot know letters and words that the child is
to put in order (part them by slashes).
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace

from lint_rules import lazy_re
from lint_rules.english.alarms import is_listened_to, is_slip, weight_of
from lint_rules.english.left_alone import SPELLER, is_left_alone
from lint_rules.english.of_key import slips_of_key
from lint_rules.english.prepositions import wrong_prepositions
from lint_rules.english.said_twice import TWICE, may_stand_twice
from lint_rules.english.slips import Slip, is_cited, slips_in
from lint_rules.english.spellings import LETTERS, Spellings, doubtful, is_of_the_trade, spellings_for
from lint_rules.english.text import passages_to_check
from lint_rules.english.unknown_words import is_whole_word, names_among
from lint_rules.english.worded import A_NAME, WHERE, message_of, shown_words
from lint_rules.finding import Edit, Found, Mend, Severity
from lint_rules.language.service import EnglishMatch
from lint_rules.language.vocabulary.course_words import CourseWords
from lint_rules.language.vocabulary.house_words import spelling_of
from lint_rules.language.vocabulary.misspellings import meant_by
from lint_rules.language.vocabulary.noises import is_sound, noises
from lint_rules.manuscript.counting import has_sentences, is_for_children, is_title
from lint_rules.manuscript.model import PICTURE, Audience, Passage, Role
from lint_rules.page.exercises.edits import filled_ranges
from lint_rules.page.mentions import foreign_words, is_shown_as_wrong
from lint_rules.plain_words import PART
from lint_rules.rule import By, Example, Gather, Need, Reading, Rule, Within
from lint_rules.unit_language.page_slips import PageSlip, page_slips
from lint_rules.unit_language.unit_words import spellings_of

_SPELLING = ("TYPOS", "MORFOLOGIK_RULE_EN_GB", "Possible spelling mistake found.")

_SPACE = "space"
_NAME = "name"
_UNKNOWN = "unknown"
_WORDS = "In no dictionary: {words}. If they are right, add them to `known` in course.yaml."
_NAMES = "In no dictionary: {words}. If these are names, put them under `characters` or `places` in course.yaml."
_SPACES = "Spaces stand before {count} marks that follow a gap or a picture. In print there are none."


def _spelling(word: str, *proposed: str) -> tuple[str, ...]:
    return (word, *_SPELLING, *proposed)


RULE = Rule(
    name="english-error",
    family="correct English",
    severity=Severity.QUERY,
    cure=(
        "Mend the slip. If it is a name or a word of the course, list it in course.yaml under `characters`, "
        "`places` or `known`."
    ),
    needs=frozenset({Need.ENGLISH, Need.LANGUAGE}),
    passes=(
        Example(
            '### 1 Write ai. {.sounds sound="eɪ" spelling="ai"}\n\n1. r____n\n',
            english=(("ai", "TYPOS", "AI", "Use capital letters."),),
            why="the letters of the sound",
        ),
        Example(
            "### 1 Write a, an or the. {.writing}\n\n1. It's ____ kite.\n",
            english=(("a,", "GRAMMAR", "EN_A_VS_AN", "Use “an”."),),
            why="a word that is spoken of",
        ),
        Example("I can see a kite.\n", why="the checker has nothing to say"),
        Example(
            "The kite has got a fish tail.\n",
            english=(("fish tail", "MISC", "EN_COMPOUNDS_FISH_TAIL", "This word is normally spelled as one."),),
            why="a check that is often wrong",
        ),
        Example("Soup is [sopa]{lang=es}.\n", english=(_spelling("sopa"),), why="marked as another language"),
        Example(
            "This is Mina. I like Mina's hat.\n",
            course="characters: [Mina]",
            english=(_spelling("Mina"),),
            why="a character of the course",
        ),
        Example(
            "Look at the three quokkas!\n",
            words="quokka,noun,animals,1,say,\n",
            english=(_spelling("quokkas"),),
            why="a target word, in its plural",
        ),
        Example(
            "Woooow! Brrr, it's cold. Bzz!\n",
            english=(_spelling("Woooow"), _spelling("Brrr"), _spelling("Bzz")),
            why="drawn-out sounds",
        ),
        Example("My favorite toy is a kite.\n", english=(_spelling("favorite"),), why="spelling-variety says it"),
        Example(
            "It's a big big dog!\n",
            english=(("big big", "MISC", "ENGLISH_WORD_REPEAT_RULE", "Possible typo: you repeated a word."),),
            why="said twice for fun",
        ),
        Example(
            "The wind sings whoo, whoo! Pittle pattle, vwomp!\n",
            english=(_spelling("whoo"), _spelling("Pittle"), _spelling("pattle")),
            why="noises",
        ),
        Example(
            '### 1 Listen. {.sounds sound="iː" spelling="ee"}\n\nA tree.\n\n'
            "::: teacher\n**Steps:** Smile on the ee.\n:::\n",
            english=(_spelling("ee"),),
            why="letters of the sound",
        ),
        Example(
            "::: teacher\n**Steps:** At frame 5 stop and wait.\n:::\n",
            english=(("stop", "GRAMMAR", "HE_VERB_AGR", "Use a third-person verb."),),
            why="notes are written short",
        ),
        Example("I cannot stop. There isn't any more. It runs in the park. I'm ____. Can I go to bed?\n"),
        Example("I can't go, but no dog is here. Don't say no! It's not nothing, no!\n", why="said on purpose"),
        Example(
            "### 1 Test. {.test}\n\n**A Write.**\n\n1. I ____ a kite.\n\n**B Find the mistake. Write. (5 marks)**\n\n"
            "2. She must to go. → ____\n3. Did she went? → ____\n",
            english=(("must to", "GRAMMAR", "MD_BASEFORM", "Use a base form."),),
            why="deliberate, in a part of the page",
        ),
        Example(
            "### 1 Find the mistakes. {.mistakes}\n\nShe go to school.\n",
            english=(("go", "GRAMMAR", "HE_VERB_AGR", "Use a third-person verb."),),
            why="deliberate",
        ),
    ),
    fails=(
        Example("### 1 Ask three friends and write «there» answers. {.survey}\n", why="an instruction"),
        Example(
            "She «go» to school.\n",
            english=(("go", "GRAMMAR", "HE_VERB_AGR", "Use a third-person verb."),),
        ),
        Example(
            "«Its» raining.\n",
            words="its,determiner,,1,say,\n",
            english=(("Its", "TYPOS", "IT_IS", "Did you mean “it's”?"),),
            why="a word of the course in the wrong place",
        ),
        Example("The bun «can not» stop. The cat isn't there «no more». Pig runs «in» the bin.\n"),
        Example("The dog wags «it's» tail. Can you «to» swim?\n"),
        Example("I put «to» much salt in it. It came to much more, thanks to many friends.\n"),
        Example(
            "«Anvi and Rohan runs» to the house.\n",
            course="characters: [Anvi, Rohan]",
            english=(_spelling("Anvi"),),
            why="a name that the checker does not know",
        ),
        Example("The baker's hands «was» white. They «is» cold.\n", why="agreement"),
        Example("I'm ____ «.» He's ____ «!» She's ____ «,» too.\n", why="one point a course", weight=Severity.NOTE),
        Example(
            "The dog is «eat» a bone.\n",
            english=(("eat", "GRAMMAR", "BEEN_PART_AGREEMENT", "Consider “eating”."),),
            why="a doubtful check, and the language room says it too",
        ),
        Example(
            "### 1 Read. {.reading}\n\n**Dito's big mistake**\n\nDito is «hapy» today.\n",
            english=(_spelling("hapy", "happy"),),
            why="a title orders no mending",
        ),
        Example("I am «hapy» today.\n", english=(_spelling("hapy", "happy"),)),
        Example("::: teacher\n**Steps:** Children «colur» the kite.\n:::\n", english=(_spelling("colur", "colour"),)),
        Example("::: {.audio track=1.1}\nMINA: I'm very «hapy»!\n:::\n", english=(_spelling("hapy", "happy"),)),
        Example(
            "I like my «plimborg». It is a «tek».\n",
            english=(_spelling("plimborg"), _spelling("tek", "tea")),
            why="near no word; letters",
            weight=Severity.NOTE,
        ),
        Example(
            "Look at «the the» kite.\n",
            english=(("the the", "MISC", "ENGLISH_WORD_REPEAT_RULE", "Possible typo: you repeated a word."),),
            why="nobody says the twice for fun",
            weight=Severity.NOTE,
        ),
    ),
    gathers=(
        Gather(Within.COURSE, By.KEY, {_SPACE: _SPACES, _NAME: _NAMES, _UNKNOWN: _WORDS}),
        Gather(Within.COURSE, By.ABOUT),
    ),
    fault="a word",
)

# White space between a gap or a picture and the mark that ends what it stands in; no ellipsis.
_LOOSE = lazy_re.compile(rf"(?<=[_{PICTURE}])(\s+)([.,!?;:])(?![.\w])")
_STOP = lazy_re.compile(r"[.!?\n]")
_MARKS = " \"'“”‘’,.;:!?–—"


def find(reading: Reading) -> Iterator[Found]:
    """Report what the English checker says, less what a course vouches for, and what it lets pass."""
    letters = frozenset(spelling_of(one) for one in spellings_of(reading.unit))
    spellings = spellings_for(reading.course, (*letters, *foreign_words(reading.unit)))
    told, names, of_key = _own_slips(reading), names_among(reading.read.passages, reading.english), _of_key(reading)
    for passage in reading.unit.passages:
        yield from _loose_marks(passage)
    for passage in reading.read.passages:
        matches = [one for one in reading.english(passage) if not _is_let_alone(passage, one, reading, spellings)]
        own = [one for one in told.get(passage, []) if not (one[0].parsed and _is_heard(one[0], matches))]
        yield from (found for _, found in own)
        for match in matches:
            words = passage.text[match.start : match.end]
            spelt = match.rule.startswith(SPELLER)  # a word that no dictionary has is a slip of its own
            if any(_touch(match, slip) and not (spelt and slip.parsed) for slip, _ in own):
                continue
            at_its_place = (_activity(passage, reading), match.rule, words) if passage.audience is Audience.KEY else ()
            if (passage, match) in of_key or at_its_place in of_key:
                continue
            if words.strip(_MARKS).casefold() in letters:
                continue
            found = _found(passage, match, names)
            both = not spelt and any(one.parsed and _touch(match, one) for one, _ in told.get(passage, ()))
            yield replace(found, severity=_weight(passage)) if both else found  # two readers agree


def _is_let_alone(passage: Passage, match: EnglishMatch, reading: Reading, spellings: Spellings) -> bool:
    """Say whether an alarm is none here: its check is not listened to, or what it flags is meant so."""
    spelt = match.rule.startswith(SPELLER)
    if passage.audience is Audience.TEACHER and not spelt and match.rule != TWICE:
        return True  # notes are written short: of some forty judged alarms of its grammar there none was right
    return (
        not is_listened_to(match)
        or _is_noise(passage.text, match, reading)
        or is_left_alone(passage, match, spellings.vouch_for)
        or any(end + 1 == match.start and passage.text[start:end].isdigit() for start, end in filled_ranges(passage))
        or (spelt and _is_right(match, passage, reading, spellings))
        or (match.rule == TWICE and may_stand_twice(passage, match, spellings_of(reading.unit)))
    )


def _is_right(match: EnglishMatch, passage: Passage, reading: Reading, spellings: Spellings) -> bool:
    """Say whether what no dictionary has is right here: a word of the course, of the trade, or letters of sounds."""
    words = passage.text[match.start : match.end]
    unknown = doubtful(words)
    if spellings.vouch_for(words) or spellings.vouch_for(unknown):
        return True
    if passage.audience is Audience.TEACHER and is_of_the_trade(unknown.casefold()):
        return True
    if len(words) <= LETTERS and (match.start, match.end) in passage.strong:
        return True  # consonant and y: **ied**
    sounds = (activity.span for activity in reading.unit.activities if "sounds" in activity.kinds)
    return len(words) <= LETTERS and any(one.start <= passage.block.start < one.end for one in sounds)


def _found(passage: Passage, match: EnglishMatch, names: frozenset[str]) -> Found:
    words = passage.text[match.start : match.end]
    span = passage.span(match.start, match.end)
    if not match.rule.startswith(SPELLER):
        doubtful = is_title(passage) or _is_beside_key(passage, match)  # The Giant with One Cold Foot
        weight = Severity.NOTE if doubtful else weight_of(match)
        return Found(span, words, message_of(passage, match), _weight(passage, weight), about=_around(passage, match))
    slip, about = is_slip(words, match.replacements), spelling_of(words)
    if about in names or (words[:1].isupper() and words[1:].islower() and not slip):
        message = f"{WHERE[passage.audience]}: “{words}” is in no dictionary. {A_NAME}"
        return Found(span, words, message, Severity.NOTE, key=_NAME, about=_NAME)
    key = _UNKNOWN if words.islower() and not slip else ""
    weight = weight_of(match) if slip and is_whole_word(passage.text, match) else Severity.NOTE
    return Found(span, words, message_of(passage, match), weight, key=key, about=about)


def _is_beside_key(passage: Passage, match: EnglishMatch) -> bool:
    """Say whether a key has filled a gap of the sentence: what is wrong then may be how the key was read."""
    before, behind = _STOP.split(passage.text[: match.start])[-1], _STOP.split(passage.text[match.end :])[0]
    start, end = match.start - len(before), match.end + len(behind)
    return any(left < end and start < right for left, right in filled_ranges(passage))


def _around(passage: Passage, slip: Slip | EnglishMatch) -> str:
    """The sentence of a slip: where page and script say the same, it is one point."""
    before, behind = passage.text[: slip.start], passage.text[slip.end :]
    sentence = _STOP.split(before)[-1] + passage.text[slip.start : slip.end] + _STOP.split(behind)[0]
    return " ".join(sentence.casefold().split())


def _weight(passage: Passage, weight: Severity | None = None) -> Severity | None:
    """Grammar in notes and keys, which are written short, is a note."""
    return Severity.NOTE if passage.audience in (Audience.TEACHER, Audience.KEY) else weight


def _is_heard(slip: Slip, matches: Sequence[EnglishMatch]) -> bool:
    """Say whether the checker says it too, and more exactly; that it knows no name there says nothing."""
    return any(_touch(match, slip) and not match.rule.startswith(SPELLER) for match in matches)


def _touch(match: EnglishMatch, slip: Slip) -> bool:
    return match.start < slip.end and slip.start < match.end


def _is_open(passage: Passage, slip: PageSlip, reading: Reading) -> bool:
    """Say whether the sentence of a slip has a blank: what is wrong there may be what a pupil mends."""
    for sentence in reading.analyse(passage).sentences:
        if sentence.start <= slip.start < sentence.end:
            span = passage.span(sentence.start, sentence.end)
            return "__" in reading.unit.source.text[span.start : span.end]
    return False


def _is_told(passage: Passage) -> bool:
    """Say whether sentences stand in a passage: for children, or an instruction. The notes are written short: of
    thirteen judged alarms of grammar there one was right."""
    return has_sentences(passage) or passage.role is Role.INSTRUCTION


def _of_key(reading: Reading) -> set[tuple[object, ...]]:
    """What key-makes-bad-english says of blanks; and, by activity, rule and words, what the key says in its place."""
    found: set[tuple[object, ...]] = set()
    for passage in reading.read.passages:
        for match, _ in slips_of_key(passage, reading.english(passage)):
            words = passage.text[match.start : match.end]
            found |= {(passage, match), (_activity(passage, reading), match.rule, words)}
    return found


def _activity(passage: Passage, reading: Reading) -> int:
    """Where the activity begins that a passage stands in; -1 outside of all."""
    starts = (one.span.start for one in reading.unit.activities if one.span.start <= passage.block.start < one.span.end)
    return next(starts, -1)


def _own_slips(reading: Reading) -> dict[Passage, list[tuple[Slip, Found]]]:
    """What the checker lets pass, by passage."""
    found: dict[Passage, list[tuple[Slip, Found]]] = {}
    for passage, _ in passages_to_check(reading.read):
        if passage in reading.readings.unchecked:
            continue
        filled = filled_ranges(passage)  # what a key has put there is key-makes-bad-english's
        grammar = page_slips(reading.analyse(passage), reading.course.variety) if _is_told(passage) else []
        grammar = [one for one in grammar if not any(one.start < end and start < one.end for start, end in filled)]
        grammar = [one for one in grammar if one.of_subject or not _is_open(passage, one, reading)]
        sure = list(wrong_prepositions(passage.text))  # in notes, too: none was false in a judged course
        own = [*slips_in(passage.text), *sure]
        slips = [
            *(one for one in own if not any(one.start < end and start < one.end for start, end in filled)),
            *(Slip(one.start, one.end, one.message, one.better, parsed=True) for one in grammar),
        ]
        for number, slip in enumerate(slips):
            if any(slip.start < other.end and other.start < slip.end for other in slips[:number]):
                continue
            if is_shown_as_wrong(passage, slip.start, slip.end) or is_cited(passage, slip):
                continue
            words = passage.text[slip.start : slip.end]
            better = f" Perhaps “{slip.better}”?" if slip.better and f"“{slip.better}”" not in slip.message else ""
            shown = shown_words(passage.text, slip.start, slip.end)
            message = f"{WHERE[passage.audience]}{shown}: {slip.message}{better}"
            span, about = passage.span(slip.start, slip.end), _around(passage, slip)
            said = Found(span, words, message, None if slip in sure else _weight(passage), about=about)
            found.setdefault(passage, []).append((slip, said))
    return found


def _loose_marks(passage: Passage) -> Iterator[Found]:
    """A space between a gap or a picture and the mark after it; one point a unit, each with its mend."""
    for match in _LOOSE.finditer(passage.text) if is_for_children(passage) else ():
        mend = Mend("take out the space before the mark", (Edit(passage.span(*match.span(1)), ""),))
        message = "A space stands before the mark that follows a gap or a picture. In print there is none."
        yield Found(passage.span(*match.span(2)), match[2], message, Severity.NOTE, mend, key=_SPACE, about=_SPACE)


def _is_noise(text: str, match: EnglishMatch, reading: Reading) -> bool:
    """Say whether a word that no dictionary has is a noise (whoo, whoo!), and no known word with a slip in it."""
    shown = text[match.start : match.end].casefold()
    if "-" in shown and re.search(rf"\b{re.escape(shown)}\W+{re.escape(shown)}\b", text, re.I):
        return True  # Oom-pah, oom-pah!
    words = [one.span() for one in PART.finditer(text)]
    at = next((index for index, span in enumerate(words) if span == (match.start, match.end)), None)
    if at is None or at not in noises(words, text):
        return False
    word = text[match.start : match.end].casefold()
    again = sum(text[start:end].casefold() == word for start, end in words) > 1
    return again or is_sound(word) or not meant_by(word, (reading.lists or CourseWords(reading.course)).index)
