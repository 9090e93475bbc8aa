"""A sentence that is wrong once its gap is filled as the key has it: `An eagle is more big than a sparrow`.

The teacher reads the key aloud and thirty children learn it. Looked at are only the words that the key puts into a
sentence and what they must agree with: articles, agreement, forms of verbs, plurals, comparatives, adverbs. A sentence
that is to be wrong (`mistakes`) is left alone.
"""

import re
from collections.abc import Iterator
from dataclasses import replace

from lint_rules import lazy_re
from lint_rules.english.of_key import slips_of_key
from lint_rules.finding import Found, Severity
from lint_rules.manuscript.counting import is_row_of_words
from lint_rules.manuscript.model import Activity, Passage
from lint_rules.page.deliberate import is_wrong_on_purpose
from lint_rules.page.exercises.answers import letters_of
from lint_rules.page.exercises.completed import completed
from lint_rules.page.exercises.drafts import trimmed
from lint_rules.page.exercises.model import Exercise, Exercises, Item, Place
from lint_rules.page.exercises.small_words import small_words
from lint_rules.rule import Example, Need, Reading, Rule
from lint_rules.source import Span
from lint_rules.unit_language.hinted_forms import hinted_slip
from lint_rules.unit_language.key_sentence import PLURAL, SINGULAR
from lint_rules.unit_language.key_slips import key_slips
from lint_rules.unit_language.now_or_every_day import other_time

_SENTENCE = 3  # words
_WORD = 2  # words of an entry: bus stop
_FEW = 4  # words of a name: Mr and Mrs Tolk
_CAPITALS = frozenset({"I", "I'm", "I’m", "I've", "I’ve", "I'd", "I’d", "I'll", "I’ll"})
_HINT = lazy_re.compile(r"\(\s*([^\W\d_]+)\s*\)")
_HINT_BEHIND = lazy_re.compile(r"[.!?]\s*(?:/|[–—→:*]+)\s*([^\W\d_]+)\s*$")  # `It is ____ than a cat. / big`
_DENIED = lazy_re.compile(r"^(?:not|never)\s+", re.I)
_LAST_WORD = lazy_re.compile(r"[^\W\d_]+(?:['’][^\W\d_]+)?(?=\s*$)")
_FIRST_LETTERS = lazy_re.compile(r"[^\W\d_]{1,3}_{3,}")  # `c____`: the whole word is the key's
_FIRST_LETTER = lazy_re.compile(r"[A-Za-z]\s*_+\.?")  # a ____: arm
_LISTED = lazy_re.compile(r"[a-z][\w'’-]*(?:\s*,\s*[a-z][\w'’-]*)+")  # sea, read: words that are picked
_LETTER = lazy_re.compile(r"[^\W\d_]")
_LETTER_FIRST = lazy_re.compile(r"([A-Za-z])[).]?\s+(?=[A-Z])")


def _key(text: str) -> str:
    return f"\n::: answers\n{text}\n:::\n"


RULE = Rule(
    name="key-makes-bad-english",
    family="exercises",
    severity=Severity.QUERY,
    cure="Mend the answer in the key, or the sentence around the gap.",
    needs=frozenset({Need.LANGUAGE}),
    passes=(
        Example("1. If I had a boat, I ____ (sail).\n2. ____ boys swim.\n" + _key("1 would sail 2 Those")),
        Example("1. It is ____ than a duck. (big)\n2. It is ____ than a dog. (small)\n" + _key("1 bigger 2 smaller")),
        Example("1. The bus ____ at eight. (go)\n2. The buses ____ at nine. (go)\n" + _key("1 goes 2 go")),
        Example("1 ____ egg     2 ____ old hat     3 ____ hat\n" + _key("1 an 2 an 3 a")),
        Example("1. a ____\n2. l ____\n" + _key("1 arm 2 leg"), why="the letter is the word's first"),
        Example(
            "1. We … wait.  a) have to  b) has to\n2. … Tam have to wait?  a) Do  b) Does\n" + _key("1 a 2 b"),
            why="dots that open a question are its blank",
        ),
        Example("1. ____ your cat sleep here?\n2. ____ they like it?\n" + _key("1 Does 2 Do")),
        Example("1. I can ____.\n2. She didn't ____.\n" + _key("1 swim 2 go")),
        Example("1. Listen! It *rings / is ringing*.\n2. It *is / rings* every day.\n" + _key("1 is ringing\n2 rings")),
        Example("1. Look at the ____.\n2. They sing very ____.\n" + _key("1 mice 2 well")),
        Example(
            "### 1 Find the mistakes. {.mistakes}\n\n1. He ____ home.\n2. We ____ home.\n" + _key("1 go 2 goes"),
            why="on purpose",
        ),
    ),
    fails=(
        Example(
            "1. It is «____» than a cat. / dangerous\n2. It is ____ than a dog. / old\n"
            + _key("1 dangerouser 2 older"),
            why="the word behind the sentence",
        ),
        Example("1. It's an ~~«apple»~~. ____\n2. They ~~has~~ cats. ____\n" + _key("1 pear 2 have"), why="struck out"),
        Example(
            "1. Ida is ____ now.\n2. Bo and Ida «____» home now.\n" + _key("1 here 2 hurries"),
            english=(("hurries", "GRAMMAR", "AGREEMENT", "Use the base form."),),
            why="what a checker finds in a gap is the key's slip",
        ),
        Example("1. «____» lamp is far away.\n2. ____ hats are here.\n" + _key("1 Those 2 These")),
        Example(
            "1. If I ____ (have) a boat, I would sail.\n2. If she ____ (know), she would tell us.\n"
            + _key("1 «would have» 2 knew"),
            why="words that the key itself puts together",
        ),
        Example("1. I «____» (teach) him a song.\n2. We ____ (sing) it.\n" + _key("1 teached 2 sang")),
        Example("1. It is ____ than a duck. (big)\n2. It is ____ than a dog. (old)\n" + _key("1 «more big» 2 older")),
        Example("1. The bus «____» at eight. (go)\n2. The buses ____ at nine. (go)\n" + _key("1 go 2 go")),
        Example("1 ____ egg     2 «____» old hat     3 ____ hat\n" + _key("1 an 2 a 3 a")),
        Example("1. «____» your cat sleep here?\n2. ____ they like it?\n" + _key("1 Do 2 Do")),
        Example("1. She likes tea.\n2. It rains.\n" + _key("1. «She don't» like tea.\n2. It doesn't rain.")),
        Example("1. She didn't «____». (go)\n2. He can ____. (swim)\n" + _key("1 went 2 swim")),
        Example("1. I am «____» fast. (run)\n2. We ____ a whale. (see)\n" + _key("1 runing 2 have seen")),
        Example("1. I ____ fast. (run)\n2. We «____» a whale. (see)\n" + _key("1 am running 2 have saw")),
        Example(
            "1. Listen! It *rings / is ringing*.\n2. It *rings / is ringing* every day.\n" + _key("1 «rings»\n2 rings"),
            why="it is ringing now",
        ),
        Example("1. Look at the «____». (mouse)\n2. They sing very ____. (good)\n" + _key("1 mouses 2 well")),
    ),
)  # fmt: skip


def find(reading: Reading) -> Iterator[Found]:
    """Report the gaps and choices whose key makes a slip."""
    read_activities = {activity.span: activity for activity in reading.read.activities}
    for read in reading.readings.exercises:
        done = read_activities[read.activity.span]
        if is_wrong_on_purpose(read.activity):
            continue
        own = list(_activity(read, done, reading)) if not read.own else []
        yield from own
        yield from _unsure(list(_by_checker(done, reading, {found.span for found in own})))


def _by_checker(done: Activity, reading: Reading, told: set[Span]) -> Iterator[Found]:
    """What an English checker finds at the words of a gap, once a gap."""
    for passage in done.part.passages:
        if _LISTED.fullmatch(passage.text.strip()):
            continue
        for match, (start, end) in slips_of_key(passage, reading.english(passage)):
            span = passage.span(start, end)
            if span not in told and not _is_matched(passage, start, end):
                told.add(span)
                better = f" Perhaps “{match.replacements[0]}”?" if match.replacements else ""
                words = passage.text[match.start : match.end]
                whole = _around(passage.text, min(start, match.start), max(end, match.end))
                # None of the four that judges saw with a proposal was right: the gap was filled otherwise than meant.
                message = f"With the key this reads “{whole}”: “{words}” is wrong.{better}"
                yield Found(span, passage.text[start:end], message, Severity.NOTE)


def _activity(read: Exercises, done: Activity, reading: Reading) -> Iterator[Found]:
    for exercise in read.exercises:
        found: list[Found] = []
        for item in exercise.items:
            if item.answer is None or item.example or _FIRST_LETTER.fullmatch(item.text.strip()):
                continue
            if item.gaps or item.choices or item.jumble is not None or exercise.column:
                found += _item(item, exercise, done, reading)
            if not (item.gaps or item.choices or item.jumble is not None):
                found += _sentence(item, exercise, reading)
        yield from _unsure(found)


def _unsure(found: list[Found]) -> list[Found]:
    """Several slips at once are only noted: a key has one as a rule, and a key of another exercise many."""
    return found if len(found) == 1 else [replace(one, severity=Severity.NOTE) for one in found]


def _sentence(item: Item, exercise: Exercise, reading: Reading) -> Iterator[Found]:
    """A whole sentence that the key gives for an item without a gap."""
    assert item.answer is not None
    place = item.answer.place
    letter = _LETTER_FIRST.match(place.text)
    if letter and letter[1].casefold() in {option.label.key for option in exercise.column if option.label}:
        place = Place(place.passage, place.start + letter.end(), place.end)  # `a In it there is a map.`
    elif letters_of(place.text):
        return  # B – she says so: a reason for the teacher
    if len(place.text.split()) < _SENTENCE or place.text.rstrip()[-1:] not in (".", "!", "?"):
        return
    for slip in key_slips(reading.analyse(place.passage), place.start, place.end, reading.course.variety):
        if place.start <= slip.start and slip.end <= place.end:
            words = place.passage.text[slip.start : slip.end]
            better = f" Perhaps “{slip.better}”?" if slip.better else ""
            message = f"The key's sentence is wrong at “{words}”.{better}"
            yield Found(place.passage.span(slip.start, slip.end), words, message)
            return


def _hinted(item: Item, exercise: Exercise) -> Found | None:
    """A form that the verb in brackets has not."""
    filled = completed(item, exercise).filled
    for gap, text in zip(item.gaps, filled, strict=True):
        alone = [*_HINT.findall(item.text), *_HINT_BEHIND.findall(item.text)] if len(item.gaps) == 1 else []
        hint = gap.hint.text if gap.hint is not None else alone[0] if len(alone) == 1 else ""
        before = _LAST_WORD.search(gap.place.passage.text[: gap.place.start])
        word = before[0] if before is not None else ""
        verb = _DENIED.sub("", hint.strip("() "))
        better = hinted_slip(verb, text, word) if hint and text and gap.word is None else None
        if text and better is not None:
            perhaps = f" Perhaps “{better}”?" if better else ""
            return Found(gap.place.span, text, f"The key's form of “{hint.strip('() ')}”, “{text}”, is wrong.{perhaps}")
    return None


def _item(item: Item, exercise: Exercise, done: Activity, reading: Reading) -> Iterator[Found]:
    hinted = _hinted(item, exercise)
    if hinted is not None:
        yield hinted
        return
    right = other_time(item, exercise)
    if right and item.answer is not None:
        message = f"The words of this item ask for “{right}”, and the key has “{item.answer.text}”."
        yield Found(item.answer.place.span, item.answer.text, message)
        return
    for span in _spans(item, exercise):
        for passage in done.part.passages:
            found = _range_in_passage(passage, span)
            listed = is_row_of_words(passage.text) or _LISTED.fullmatch(passage.text.strip())
            if found is None or passage in reading.readings.unchecked or listed or _is_matched(passage, *found):
                continue
            if passage.text[slice(*found)].rstrip().endswith(":"):
                continue  # Rope pull, Crabs: what is said of it is no part of the sentence
            for slip in key_slips(reading.analyse(passage), *found, reading.course.variety):
                words = passage.text[slip.start : slip.end]
                better = f" Perhaps “{slip.better}”?" if slip.better else ""
                whole = _around(passage.text, slip.start, slip.end)
                message = f"With the key this reads “{whole}”: “{words}” is wrong.{better}"
                own = _in_key(item, words) if found[0] <= slip.start and slip.end <= found[1] else None
                filled = passage.text[found[0] : found[1]]
                inside = all(map(_LETTER.search, (passage.text[: found[0]], passage.text[found[1] :])))
                severity = None if own or inside or _is_form(filled, item) else Severity.NOTE
                yield Found(own.span if own else span, own.text if own else filled, message, severity)
                return


def _is_form(filled: str, item: Item) -> bool:
    """Say whether a key gives a form: one word, one that the item offers or asks for, small words (*has to*), a
    pronoun with others (*she is*); or a whole sentence.

    Others, with no words behind them, may stand beside the text, and not in it: a title, what somebody does, a
    picture's name. Those that judges saw at first sight were wrong (`Before the storm`, `bus stop`)."""
    offered = bool(item.choices) or any(gap.hint is not None for gap in item.gaps) or bool(_HINT.search(item.text))
    words = filled.casefold().split()
    verbal = words[0] in SINGULAR | PLURAL or filled.rstrip()[-1:] in (".", "!", "?")
    return offered or verbal or len(words) == 1 or all(word in small_words() for word in words)


def _is_matched(passage: Passage, start: int, end: int) -> bool:
    """Say whether a key's words only stand beside the text, as a heading or what somebody does: `Noon and after ____`
    and `Trouble in the tank`; `Mr Tolk ____` and `play the flute`. What goes on in a sentence has no capital."""
    before, filled = passage.text[:start].rstrip(), passage.text[start:end]
    words = filled.split()
    alone = before.endswith((".", "!")) and not passage.text[end:].strip() and filled[-1:] not in ".!?"
    if alone and len(words) <= _WORD and words[0].casefold() not in SINGULAR | PLURAL | {"i"}:
        return True  # You wait for the bus here. Bus stop
    inside = bool(before) and before[-1] not in '.!?:;–—-/"“‘(' and "\n" not in passage.text[len(before) : start]
    if inside and len(words) > 2 and words[0][:1].isupper() and words[1].islower() and words[0] not in _CAPITALS:
        return True
    names = re.findall(r"[\w'’]+", before)
    alone = bool(names) and all(name[:1].isupper() or name == "and" for name in names) and len(names) <= _FEW
    return alone and len(words) > 1 and not passage.text[end:].strip() and filled[-1:] not in ".!?" and filled.islower()


def _in_key(item: Item, words: str) -> Place | None:
    """Where the key itself puts words together that are wrong: `taller that`; None of one word: its gap shows it."""
    assert item.answer is not None
    place = item.answer.place
    at = place.text.casefold().find(words.casefold())
    if at < 0 or len(words.split()) < 2:
        return None
    return Place(place.passage, place.start + at, place.start + at + len(words))


def _spans(item: Item, exercise: Exercise) -> Iterator[Span]:
    """Where in the file the key puts words into an item: its gaps, the options that it chooses within the sentence."""
    result = completed(item, exercise)
    if item.jumble is not None and not item.gaps:
        yield item.jumble.span
    apart = any(choice.inline is None for choice in item.choices)
    if (result.matched is not None or apart) and not item.gaps and item.prompt:
        yield trimmed(item.prompt[-1]).span  # the halves of a sentence, what ends it
    for gap, text in zip(item.gaps, result.filled, strict=True):
        if text and (gap.word is None or _FIRST_LETTERS.fullmatch(gap.word.text)):
            yield gap.place.span
    for choice, chosen in zip(item.choices, result.chosen, strict=True):
        if choice.inline is not None and chosen is not None:
            yield chosen.place.span


def _range_in_passage(passage: Passage, span: Span) -> tuple[int, int] | None:
    """The range of a passage that stands at a place of the file."""
    if not passage.text or max(passage.starts) < span.start or span.end < min(passage.ends):
        return None
    inside = [
        at
        for at, (start, end) in enumerate(zip(passage.starts, passage.ends, strict=True))
        if span.start <= start and end <= span.end
    ]
    return (inside[0], inside[-1] + 1) if inside and passage.text[inside[0] : inside[-1] + 1].strip() else None


def _around(text: str, start: int, end: int) -> str:
    """A few words around a range."""
    left = text.rfind(" ", 0, max(0, start - 20)) + 1 if start > 20 else 0
    right = text.find(" ", end + 15)
    return ("… " if left else "") + text[left : right if right > 0 else len(text)] + (" …" if right > 0 else "")
