"""Counting what a child has to read: words, and the passages whose sentences count."""

import re

from lint_rules import lazy_re
from lint_rules.finding import Severity
from lint_rules.manuscript.model import Audience, Passage, Role
from lint_rules.plain_words import WORD

SENTENCE_ROLES = frozenset({Role.TEXT, Role.TURN, Role.CAPTION, Role.ITEM, Role.LINE})
TEXT_ROLES = frozenset({Role.TEXT, Role.TURN})
_NOT_RUNNING = frozenset({Role.INSTRUCTION, Role.ALT, Role.CODE, Role.BRIEF})
_TITLES = frozenset({Role.UNIT_TITLE, Role.LESSON_TITLE, Role.TITLE})
_SENTENCE_END = lazy_re.compile(r"[.!?…][\"'”’)\]]*\s*$")
_IN_BRACKETS = lazy_re.compile(r"\([^()]*\)|\[[^\[\]]*\]")
# How much longer than a rule of thumb a text may be before anybody minds, and before it is asked about. On twelve
# judged courses none of 67 authors thanked for what was up to 15 in 100 over, and 5 of 32 for what was up to 25 over.
_HARDLY, _SOMEWHAT = 1.15, 1.25
_BETWEEN_WORDS = lazy_re.compile(r"\s*(?:[,;:·•|/→⇒≠=+]|\s[–—-]+\s|\s(?:and|or)\s)\s*|[.!?…]+(?:\s+|$)|\n")
_LINE_END = lazy_re.compile(r"\n+")
_SLASH_END = lazy_re.compile(r"\s+/\s+")
_LONGEST_LINE = 9  # words of a line of verse: common practice, no source
# A script that stands for a text elsewhere, or one that is still to come: a sentence that begins with the text or with
# its parts, and says where it stands or that it is read: The story as it is printed above, with street sounds.
_TEXT = r"(?:talk|text|story|song|chant|poem|rhyme|dialogue|words?|script|comic|play)"
_ELSEWHERE = (
    r"\bas\s+(?:(?:it|they)\s+(?:is|are|stands?)\s+)?"
    r"(?:printed|written|above|below|before|(?:on|in)\s+(?:(?:the|this)\s+)?(?:\w+['’]s?\s+)?(?:page|book|activity))\b"
    r"|\bon\s+(?:the|this)\s+page\b(?=\s*[,.;]|\s+with\b|\W*$)"
    r"|\b(?:is|are)\s+(?:read|sung|said|spoken|told|acted)(?:\s+(?:aloud|out|twice|once|again|slowly))*"
    r"(?=\s*[,.;]|\s+from\s+(?:the\s+)?(?:page|book)|\s+as\b"
    r"|\s+with\b[^.!?]*\b(?:pause|sound|music|drum|bell|effect|beat|tap|click|silence|gong|note|voice)s?\b)"
    r"|\bto\s+(?:come|follow|be\s+(?:written|added|confirmed))\W*$"
)
_PLACEHOLDER = lazy_re.compile(
    r"\W*(?:the\s+(?:\w+\s+)?|(?:this|same|full|whole)\s+)*(?:(?:text|words)\s+of\s+the\s+)?"
    rf"(?:{_TEXT}|frames?|parts?|pictures?|scenes?|verses?)\b(?=[^.!?]*(?:{_ELSEWHERE}))"
    rf"|\W*the\s+(?:text|words)\s+of\s+the\s+{_TEXT}\s*,\s"
    r"|\W*(?:the\s+)?(?:actors?|cast|narrators?|readers?|voices|speakers?)\s+(?:reads?|says?|sings?|tells?|acts?)\b"
    r"[^.!?]*\b(?:frames?|page|story|text|parts?|verses?)\b"
    r"|\W*as\s+(?:printed|written)\s+(?:on|in)\s+(?:the\s+)?(?:page|book)\W*$"
    r"|\W*(?:tbc|tbd|to be (?:written|confirmed|added))\W*$",
    re.I,
)
_OF_STUDIO = lazy_re.compile(r"\b(?:read|sung|played|acted|spoken) by\b|\b(?:activity|page|track) \d", re.I)
_SENTENCE = lazy_re.compile(r"[^.!?]+[.!?]*")
_SLASH = lazy_re.compile(r"(?<=\S)\s*/\s*(?=\S)")


def word_ranges(text: str) -> list[tuple[int, int]]:
    """Where the words of a text stand, as half-open ranges."""
    return [match.span() for match in WORD.finditer(text)]


def first_words(text: str, most: int = 6) -> str:
    """A text to quote: whole, or its first words and an ellipsis."""
    words = text.split()
    return text if len(words) <= most else f"{' '.join(words[:most])} …"


def count_words(text: str) -> int:
    """How many words a text has."""
    return len(WORD.findall(text))


def is_for_children(passage: Passage) -> bool:
    """Say whether a child reads or hears a passage."""
    return passage.audience in (Audience.PUPIL, Audience.LISTENER)


def has_sentences(passage: Passage) -> bool:
    """Say whether the sentences of a passage count: running text, turns, captions, items, song lines for children."""
    return is_for_children(passage) and passage.role in SENTENCE_ROLES


def read_by_children(passage: Passage) -> bool:
    """Say whether children read or hear a passage as a text: no instruction, alternative text, note or answer."""
    return is_for_children(passage) and passage.role not in _NOT_RUNNING


def is_title(passage: Passage) -> bool:
    """Say whether a passage is a title: of a unit, a lesson or a story, or a line of its own in bold."""
    if passage.role in _TITLES:
        return True
    bold = passage.role is Role.TEXT and passage.strong == ((0, len(passage.text)),)
    return bold and not ends_sentence(passage.text)


def is_placeholder(text: str) -> bool:
    """Say whether a script's text stands for one that is elsewhere or still to come: `(The chant as on the page.)`."""
    return _PLACEHOLDER.match(text) is not None


def stage_directions(passage: Passage) -> list[tuple[int, int]]:
    """What stands in brackets in an audio script, and sentences for a text that is elsewhere (The story as on the page,
    with street sounds), as ranges: nobody says it, so no child hears it."""
    if passage.audience is not Audience.LISTENER:
        return []
    italics = passage.role is not Role.TURN and passage.emphasis == ((0, len(passage.text)),)
    if italics and _OF_STUDIO.search(passage.text):
        return [(0, len(passage.text))]  # *The play of Activity 22, read by the actors.*
    brackets = [match.span() for match in _IN_BRACKETS.finditer(passage.text)]
    elsewhere = [match.span() for match in _SENTENCE.finditer(passage.text) if is_placeholder(match[0])]
    apart = [one for one in elsewhere if not any(one[0] < end and start < one[1] for start, end in brackets)]
    return sorted((*brackets, *apart))


def ends_sentence(text: str) -> bool:
    """Say whether a text ends as a sentence does."""
    return _SENTENCE_END.search(text) is not None


def weight_over(count: int, limit: int, usual: int) -> Severity | None:
    """How much it weighs that a count is over a limit; None where it is not, or so hardly that nobody minds.

    A limit that nobody set, the house default for the band (``usual``), is a rule of thumb; one that a course states is
    meant.
    """
    if count <= limit * (_HARDLY if limit == usual else 1):
        return None
    return Severity.NOTE if limit == usual and count <= limit * _SOMEWHAT else Severity.QUERY


def verse_ends(text: str) -> list[int]:
    """Where the lines of a verse end: lines broken on the page, or parted by slashes in a script; none in prose."""
    for parted in (_LINE_END, _SLASH_END):
        parts = [match.span() for match in parted.finditer(text)]
        if len(parts) < 2:  # a verse has three lines
            continue
        ends, starts = [start for start, _ in parts], [0, *(end for _, end in parts)]
        lines = [text[start:end] for start, end in zip(starts, [*ends, len(text)], strict=True)]
        longest = max(map(count_words, lines))
        open_ones = sum(bool(line.strip()) and not ends_sentence(line) for line in lines)
        if longest <= _LONGEST_LINE and open_ones * 3 >= len(lines):
            return ends
    return []


def is_verse(text: str) -> bool:
    """Say whether a text is a verse: three short lines or more, and not each of them a sentence."""
    return bool(verse_ends(text))


def is_row_of_words(text: str) -> bool:
    """Say whether a text is words one after another and no sentence: washed, chopped, looked; go – went, see – saw."""
    members = [member.strip("\"'“”‘’()*") for member in _BETWEEN_WORDS.split(text) if member and member.strip()]
    if len(members) <= 2:
        return False
    counts = [count_words(member) for member in members]
    longer = sum(count > 1 for count in counts)  # have got among see, hear and find
    return max(counts) <= 2 and longer * 4 <= len(members)


def options_in(text: str) -> int:
    """How many choices with a slash between them a text offers beyond the first (`is / are`: 1)."""
    return len(_SLASH.findall(text))
