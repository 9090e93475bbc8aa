"""What an English checker says, and what a course page does not mean that way.

A checker takes every word for a word of its sentence. On a course page many are only spoken of: letters (*a* as in
hat; the signs t, d, id), words in italics (one sentence with *the*), wrong forms that a teacher listens for (not
*heevy*), words cut into beats (par-cel, DA-da), cries (it says *hoo*). Each reason below is one way in which they
stand; none is a list of words that are let alone.
"""

import re
from collections.abc import Callable

from lint_rules import lazy_re
from lint_rules.english.counted import is_a_sum, is_counted_elsewhere, is_hour, is_no_bigger
from lint_rules.english.named import names_somebody
from lint_rules.language.inflection.irregular import plurals_of
from lint_rules.language.service import EnglishMatch
from lint_rules.language.vocabulary.noises import DRAWN_OUT, is_coded
from lint_rules.language.vocabulary.reference import common, is_a, lowest
from lint_rules.language.vocabulary.varieties import out_of_place
from lint_rules.language.vocabulary.word_index import function_bands
from lint_rules.manuscript.model import Audience, Passage, Role
from lint_rules.page.mentions import is_made_up, is_shown_as_wrong, spoken_of
from lint_rules.plain_words import PART
from lint_rules.tables import entries
from lint_rules.tables import words as words_in

SPELLER = "MORFOLOGIK"  # the dictionary's own alarms; others of its category are grammar (its for it's)

_WELL_KNOWN = 4.0  # Zipf frequency: common practice, no source (checks has 4.2)
_UNCOUNTED = "A_UNCOUNTABLE"
# Zipf frequencies, by what the checker was seen to propose: haves has 2.7 and have 6.8, offs 2.3; kites 3.2.
_WRITTEN, _RARER = 3.0, 2.0
_BEFORE = 40  # characters around something that say how it is meant
_NO_VERB = frozenset({"PRP_THE"})
_CUT_SHORT = lazy_re.compile(r"\.(?:\s*[:,;)]|\s+[a-z/*(])")  # Pron.: /skweə/
_ENDING = lazy_re.compile(r"\s['’](?:s|m|re|ve|ll|d)$")  # write 's with a name
_SHORT = 5  # letters of a word cut short
_TEXTED = lazy_re.compile(r"(?<![\w'’-])[ru](?![\w'’-])")
_LONGEST = 18  # letters of a word: longer ones are words run together, to be found
_MOST_WORDS = 3  # of something that is spoken of as a word: in front of
_PATTERN = 4  # letters of a spelling pattern: eigh
_NAMES_WORDS = lazy_re.compile(r"\b(?:words?|use|with)\b(?: \w+,?){0,4} (?:and |or )?$", re.I)
_TO_CHOOSE = lazy_re.compile(r"\b(?:circle|choose|write|underline|tick) (?:[\w’']+,? ){0,3}?(?P<or>or )?$", re.I)
_LETTERS = 3  # of a sound, an ending, a sign
_AS_WORD = lazy_re.compile(
    r"\b(?:words?|letters?|say|says|use|uses|write|with|to|of|or|and|spell|than|after|before|say the word)\s+[\"“‘']?$",
    re.I,
)
_ARTICLES = frozenset(("a", "an", "the"))
_LETTER = lazy_re.compile(r"\s*(?:as in|as for|is|says|for|goes|like in)\b", re.I)  # a as in hat; a is number four
_INITIAL = lazy_re.compile(r"\s[A-Z]s?\b(?!['’.]\w)")  # a S, an S1: a pupil, in a teacher's shorthand
_CRIES = lazy_re.compile(
    r"\b(?:say|says|said|go|goes|went|cry|cries|cried|call|calls|called|sing|sings|sang)\s*[,:]?\s*[\"“‘']?$", re.I
)
_AMONG = lazy_re.compile(
    r"(?:^|[\s(:])(?:-?\w{1,2},\s*(?:and\s+|or\s+)?)$|^\s*,?\s*(?:and\s+|or\s+|,\s*)-?\w{1,2}\b(?![\w'’])"
)
_SHORT_DATES = frozenset(
    {"mon", "tue", "tues", "wed", "thu", "thur", "thurs", "fri", "sat", "sun", "jan", "feb", "mar", "apr", "jun", "jul"}
    | {"aug", "sep", "sept", "oct", "nov", "dec"}
)
_DAYS_AND_MONTHS = (
    *("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday", "january", "february", "march"),
    *("april", "june", "july", "august", "september", "october", "november", "december"),
)
_PREPOSITIONS = frozenset(
    {"in", "on", "with", "of", "under", "behind", "over", "from", "round", "to", "at", "by", "for", "into"}
)
_LANGUAGE = lazy_re.compile(
    r"\b(?:Spanish|French|German|Polish|Turkish|Portuguese|Italian|Russian|Arabic|Chinese|Japanese|Greek|Dutch|Hindi|"
    r"Swahili|Danish|Swedish|Czech|Welsh|Irish|(?:home|own|first|mother)[ -](?:language|tongue)s?|languages?)\b"
)
_ANY = "IS_THERE_ANY"
_OF_ANY = lazy_re.compile(r"Is there any ([^\W\d_]+)", re.I)
_MANY_DO = lazy_re.compile(
    r"(?:.*\W)?(?:[Ww]here|[Ww]hen|[Ww]hy|[Hh]ow|[Ww]hat)\s+do\s+(?:the\s+)?(?!this\b)[a-z]+(?<!s)s", re.S
)
_TO_A_PLACE = (" in", " out", " up", " down", " over", " back", " from")
_AT_A_TIME = lazy_re.compile(r"\s+(?:the\s+)?(?:start|end|beginning|moment|first|night|morning|evening)\b", re.I)
_MENTION = lazy_re.compile(r"[\"“‘'][^\W\d_]+[\"”’']\s+$")
_YOUR = "YOUR_YOU_RE"
_THING_ALONE = lazy_re.compile(r"\s+([a-z]+)\s*[.!?,;]")
_OWNER = lazy_re.compile(r"\b(?:is|was|isn['’]t|wasn['’]t)\s+[A-Z][a-z]+['’]s$")
_SYMBOL = lazy_re.compile(r"[a-z]{1,2}[A-Z][A-Za-z]?")
_BEATS = lazy_re.compile(r"[^\W\d_]{1,4}(?:-[^\W\d_]{1,4})+")


def is_left_alone(passage: Passage, match: EnglishMatch, is_ours: Callable[[str], bool]) -> bool:
    """Say whether what a checker flags is no slip on a course page; ``is_ours`` says whether the course has a word."""
    named = not match.rule.startswith(SPELLER) and names_somebody(passage, match, is_ours)
    return named or any(one(passage, match) for one in _REASONS) or _is_cut_up(passage, match, is_ours)


def _words(passage: Passage, match: EnglishMatch) -> str:
    return passage.text[match.start : match.end]


def _before(passage: Passage, at: int) -> str:
    return passage.text[max(0, at - _BEFORE) : at]


def _is_spoken_of(passage: Passage, match: EnglishMatch) -> bool:
    """One sentence with *the*; What happens to *I*? Complete with *who* or *which*; not 'we goed'."""
    if is_shown_as_wrong(passage, match.start, match.end) or is_made_up(passage, match.start, match.end):
        return True
    for start, end in spoken_of(passage):
        if match.end <= start or end <= match.start:
            continue
        words = passage.text[start:end].split()
        if len(words) > _MOST_WORDS or match.rule.startswith(SPELLER):
            continue
        alone = len(words) == 1 and (start, end) == (match.start, match.end)  # a third *s* for each *likes*
        if _is_word_by_itself(passage, start, end) or (alone and passage.audience is Audience.TEACHER):
            return True
    return passage.audience is Audience.KEY and (match.start, match.end) in passage.strong  # the odd one is **ignore**


def _is_named_in_rubric(passage: Passage, match: EnglishMatch) -> bool:
    """Use one word and than. Circle its or it's.: a rubric that names a word without italics."""
    if passage.role is not Role.INSTRUCTION or not function_bands(_words(passage, match).casefold()):
        return False
    before, behind = passage.text[: match.start], passage.text[match.end :]
    named = _NAMES_WORDS.search(before) is not None and re.match(r"\s*(?:[.,;]|and\b|or\b|/)", behind) is not None
    chosen = _TO_CHOOSE.search(before)  # Circle its or it's; not: Write about he.
    return named or (chosen is not None and (chosen["or"] is not None or re.match(r",?\s+or\b", behind) is not None))


def _is_word_by_itself(passage: Passage, start: int, end: int) -> bool:
    """Say whether what is spoken of is a word or two: all small words, or where words are what is spoken about."""
    parts = [part.casefold() for part in PART.findall(passage.text[start:end])]
    if parts and all(function_bands(part) for part in parts):
        return True
    by_the_teacher = passage.audience in (Audience.TEACHER, Audience.KEY) or passage.role is Role.INSTRUCTION
    return by_the_teacher and len(parts) < _MOST_WORDS and _AS_WORD.search(_before(passage, start)) is not None


def _crosses_italics(passage: Passage, match: EnglishMatch) -> bool:
    """*There's going to be* comes again: what is cited makes no sense with the words beside it."""
    return any(
        (start < match.start < end < match.end) or (match.start < start < match.end < end)
        for start, end in passage.emphasis
    )


def _is_foreign(passage: Passage, match: EnglishMatch) -> bool:
    """You are [a avó]{lang=pt}: what is marked as another language; in notes that name one, a word in italics too."""
    cited = passage.audience is Audience.TEACHER and (match.start, match.end) in passage.emphasis
    if cited and _LANGUAGE.search(passage.text):
        return True
    return any(match.start < end and start < match.end for start, end in passage.foreign)


def _is_letter(passage: Passage, match: EnglishMatch) -> bool:
    """A as in hat; Write: a or an? the signs t, d, id; wh- words."""
    words, after = _words(passage, match), passage.text[match.end : match.end + _BEFORE]
    before = _before(passage, match.start)
    plain = words.strip(" \"'“”‘’,.;:!?–—").casefold()
    if len(plain) == 1 and plain.isalpha() and _LETTER.match(after):
        return True
    if plain == "a" and passage.audience is Audience.KEY and re.match(r"\s+[A-Z]", after):
        return True  # 3 a She pushed the lid.
    if words.startswith("A ") and (before[-2:-1].isalnum() or passage.audience is Audience.KEY):
        return True  # Child A presses the button; A roots, B leaves
    if words == "A" and re.match(r"[^.!?\n]*, (?:and |or )?B \w", after):
        return True  # A on a plate, B with salt
    if plain in _ARTICLES and (words[-1:] in ",.;:!?–—" or re.match(r"\s*(?:,|[.?!]|or\b|/)", after)):
        return True
    if not plain.isalpha() or len(plain) > _LETTERS:
        return False
    if after[:1] in {"-", "–"} or before[-1:] in {"-", "–", "…"}:
        return True
    among = _AMONG.search(before) or _AMONG.match(after)
    return among is not None and (passage.audience is not Audience.PUPIL or passage.role is Role.INSTRUCTION)


def _is_shorthand(passage: Passage, match: EnglishMatch) -> bool:
    """T points to a S: letters for teacher and students have whatever article their author says. You a line, they a
    line, pron.: notes leave verbs out and cut words short. And where r u? is how people text."""
    by_the_teacher = passage.audience is Audience.TEACHER
    if (by_the_teacher and match.rule in _NO_VERB) or _TEXTED.search(_words(passage, match)):
        return True
    if by_the_teacher and _ENDING.search(_words(passage, match)):
        return True
    if by_the_teacher and _CUT_SHORT.match(passage.text, match.end) and len(_words(passage, match)) <= _SHORT:
        return True
    article = _words(passage, match).casefold() in _ARTICLES
    return by_the_teacher and article and _INITIAL.match(passage.text, match.end) is not None


def _is_spelling_pattern(passage: Passage, match: EnglishMatch) -> bool:
    """| ay, as in *say* | eigh, as in *sleigh* |: letters that head a column or a part of a key, and no word."""
    word = _words(passage, match)
    letters = match.rule.startswith(SPELLER) and word.isalpha() and word.islower() and len(word) <= _PATTERN
    heads = passage.role in (Role.HEAD, Role.CELL) or passage.audience is Audience.KEY
    behind = re.match(r"\s*(?:$|[:,;–—(]|as in\b)", passage.text[match.end :]) is not None
    return letters and heads and behind and lowest(word) in ("", "C2")


def _is_date(passage: Passage, match: EnglishMatch) -> bool:
    """Mon, Tu, Sept at the head of a timetable: days and months cut short in a chart."""
    word = _words(passage, match).strip(" .").casefold()
    if word in _SHORT_DATES and match.rule.startswith(SPELLER):
        return True
    in_chart = passage.role in (Role.HEAD, Role.CELL)
    return in_chart and len(word) > 1 and any(name.startswith(word) for name in _DAYS_AND_MONTHS)


def _is_run_together(passage: Passage, match: EnglishMatch) -> bool:
    """T checks *ee*: a word that everybody knows, which a checker has put together with the letters behind it."""
    words = _words(passage, match)
    joined = match.rule.startswith(SPELLER) and any(" " in other for other in match.replacements)
    return joined and words.isalpha() and common(words.casefold()) >= _WELL_KNOWN


_MET = 3.0  # Zipf frequency: common practice, no source
_LONG = 6  # letters: shorter spellings may be slips for other words


def _is_in_the_reference(passage: Passage, match: EnglishMatch) -> bool:
    """A draught: a word that the reference of levels has is a word, unless another variety spells it so."""
    word = _words(passage, match)
    if len(word) < _LONG or not word.islower():
        return False  # ad for and; Prom
    variety = match.rule[-5:].replace("_", "-").replace("EN", "en")  # MORFOLOGIK_RULE_EN_GB
    known = bool(lowest(word)) and common(word) >= _MET and word.removesuffix("s") not in plurals_of()  # childs
    return match.rule.startswith(SPELLER) and known and word not in out_of_place(variety)


def _is_a_kind(passage: Passage, match: EnglishMatch) -> bool:
    """A number or a food: most nouns that are not counted are when a kind is meant."""
    if match.rule != _UNCOUNTED:
        return False
    return not any(word.casefold() in entries("never_counted.txt") for word in _words(passage, match).split())


def _makes_no_word(passage: Passage, match: EnglishMatch) -> bool:
    """All have had a turn ("haves"?), just off the boil ("offs"?): who proposes what nobody writes has misread."""
    if match.rule.startswith(SPELLER) or not match.replacements or " " in _words(passage, match):
        return False
    usual = common(_words(passage, match).casefold())
    return all(
        word.isalpha() and common(word.casefold()) < min(_WRITTEN, usual - _RARER) for word in match.replacements
    )


def _is_of_a_row(passage: Passage, match: EnglishMatch) -> bool:
    """| What | were | you doing? |: a sentence that goes through the cells of a row begins in another one."""
    inside = passage.cell is not None and passage.cell.column > 0 and match.start == 0
    return inside and passage.text[:1].islower() and not match.rule.startswith(SPELLER)


def _is_signal(passage: Passage, match: EnglishMatch) -> bool:
    """Green is go! Red is stop: what a light or a card means."""
    before = passage.text[: match.start].casefold().split()[-2:]
    return len(before) > 1 and before[1] == "is" and before[0].strip("“\"‘'") in words_in("colours")


def _is_done(passage: Passage, match: EnglishMatch) -> bool:
    """Do steps 1, 2 and 3: things that are done, by their numbers, and no question."""
    ordered = re.search(r"(?:^|[.!?:]\s+)Do\s+$", passage.text[: match.start]) is not None
    return ordered and re.match(r"\s+\d", passage.text[match.end :]) is not None


def _is_owned(passage: Passage, match: EnglishMatch) -> bool:
    """It looks round with its big eyes: behind a preposition stands what belongs to it, never `it's`."""
    before = passage.text[: match.start].split()
    return _words(passage, match).casefold() == "its" and bool(before) and before[-1].casefold() in _PREPOSITIONS


def _is_somebodys(passage: Passage, match: EnglishMatch) -> bool:
    """It is Nilly's birthday: whose it is, by a name that no checker knows, and no verb."""
    owner = _OWNER.search(_words(passage, match))
    return owner is not None and re.match(r"\s+[a-z]", passage.text[match.end :]) is not None


def _is_only_somebodys(passage: Passage, match: EnglishMatch) -> bool:
    """And now your coat! Your, where only a thing follows, is never "you're"."""
    thing = _THING_ALONE.match(passage.text, match.end)
    own = match.rule.startswith(_YOUR) and _words(passage, match).casefold() == "your"
    return own and thing is not None and is_a(thing[1].casefold(), "NOUN") and not is_a(thing[1].casefold(), "ADJ")


def _is_of_a_mention(passage: Passage, match: EnglishMatch) -> bool:
    """“does” has got it: a word that is spoken of is one thing, whatever it says by itself."""
    return _MENTION.search(passage.text[: match.start]) is not None and not match.rule.startswith(SPELLER)


def _is_symbol(passage: Passage, match: EnglishMatch) -> bool:
    """980 hPa: a unit of measure, with a capital inside."""
    return match.rule.startswith(SPELLER) and _SYMBOL.fullmatch(_words(passage, match)) is not None


def _is_drawn_out(passage: Passage, match: EnglishMatch) -> bool:
    """Sssss–iii–t: sit! And words run together, for children to find."""
    if len(_words(passage, match)) > _LONGEST and _words(passage, match).isalpha():
        return True
    return DRAWN_OUT.search(_words(passage, match)) is not None


def _is_rest_of_a_word(passage: Passage, match: EnglishMatch) -> bool:
    """`____ rown`: what a gap leaves of a word, alone beside it."""
    if not match.rule.startswith(SPELLER) or not passage.gaps:
        return False
    shown = re.sub(r"[_\s]+|^\W*\d+\W", "", passage.text).strip(".")
    return shown == _words(passage, match)


def _is_cry(passage: Passage, match: EnglishMatch) -> bool:
    """It flies at night and says *hoo*."""
    if not match.rule.startswith(SPELLER):
        return False
    unknown = [
        part.span() for part in PART.finditer(_words(passage, match)) if lowest(part[0].casefold()) in {"", "C2"}
    ]
    alone = " " not in _words(passage, match)
    at = match.start if alone else match.start + unknown[0][0] if len(unknown) == 1 else 0
    return _CRIES.search(_before(passage, at)) is not None


def _is_cut_up(passage: Passage, match: EnglishMatch, is_ours: Callable[[str], bool]) -> bool:
    """Par-cel, O-tto, HEL-LO; or beats: DA-da; o·pened."""
    words = _words(passage, match)
    if "·" in (passage.text[match.start - 1 : match.start], passage.text[match.end : match.end + 1]):
        return True
    if "-" not in words or not match.rule.startswith(SPELLER):
        return False
    solid = words.replace("-", "").casefold()
    beats = _BEATS.fullmatch(words) is not None and words not in {words.casefold(), words.upper(), words.capitalize()}
    return beats or is_ours(solid) or lowest(solid) not in {"", "C2"}


def _is_coded(passage: Passage, match: EnglishMatch) -> bool:
    """MPPL VOEFS UIF TIFMG: a message in a code, in capitals, most of whose words nobody has."""
    return match.rule.startswith(SPELLER) and _words(passage, match).isupper() and is_coded(passage.text)


def _is_asked_about(passage: Passage, match: EnglishMatch) -> bool:
    """Is there any tuna? A noun without -s may be one that nobody counts, one with -s no verb: When do bats hunt?"""
    if match.rule.startswith("AUXILIARY_DO"):
        return _MANY_DO.fullmatch(passage.text[: match.end].rpartition(".")[2][-_BEFORE:]) is not None
    noun = _OF_ANY.match(passage.text, match.start) if match.rule.startswith(_ANY) else None
    return noun is not None and not noun[1].casefold().endswith("s")


def _is_where_or_when(passage: Passage, match: EnglishMatch) -> bool:
    """Then she went in there; who was afraid at the start: a place and a time, no "their" and no other preposition."""
    words = _words(passage, match).casefold().split()
    if words == ["there"]:
        return passage.text[: match.start].casefold().rstrip().endswith(_TO_A_PLACE)
    return words[-1:] in (["at"], ["in"]) and _AT_A_TIME.match(passage.text, match.end) is not None


def _is_filled(passage: Passage, match: EnglishMatch) -> bool:
    """Fill the jar half full with water."""
    return match.rule == "FULL_WITH_OF" and "fill" in _before(passage, match.start).casefold()


_REASONS: tuple[Callable[[Passage, EnglishMatch], bool], ...] = (
    _is_filled,
    _is_spoken_of,
    _is_named_in_rubric,
    _is_foreign,
    _crosses_italics,
    _makes_no_word,
    is_counted_elsewhere,
    is_a_sum,
    is_no_bigger,
    is_hour,
    _is_letter,
    _is_shorthand,
    _is_date,
    _is_spelling_pattern,
    _is_a_kind,
    _is_run_together,
    _is_in_the_reference,
    _is_cry,
    _is_rest_of_a_word,
    _is_of_a_row,
    _is_done,
    _is_signal,
    _is_owned,
    _is_somebodys,
    _is_only_somebodys,
    _is_of_a_mention,
    _is_symbol,
    _is_drawn_out,
    _is_where_or_when,
    _is_asked_about,
    _is_coded,
)
