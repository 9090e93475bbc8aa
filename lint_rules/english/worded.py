"""What is said to an author of an alarm of the English checker: where it stands, what is wrong, what would be right."""

import re

from lint_rules import lazy_re
from lint_rules.english.left_alone import SPELLER
from lint_rules.language.service import EnglishMatch
from lint_rules.manuscript.model import Audience, Passage

WHERE = {
    Audience.PUPIL: "On the pupil's page",
    Audience.LISTENER: "In the audio script",
    Audience.KEY: "In the answers",
    Audience.TEACHER: "In the teacher's notes",
}
A_NAME = "A name? Put it under `characters` or `places`."
_IF_RIGHT = "If it is right, add it to `known` in course.yaml."
_SENTENCE_END = lazy_re.compile(r"(?<=[.!?])\s+|,? (?=e\.g\.)")
_SAID_SECOND = frozenset({"INFORMATIONS"})  # the first sentence of their message is about another sense
_JUST_BEFORE = lazy_re.compile(r"(?:[\w'’-]+ ){1,2}$")
_SHORT = 8  # words of an explanation that is kept beside a proposal
_LONGEST = 7  # words that a message shows
# Sentences of a checker that only lead to its proposals, or say no more than that something is wrong.
_ONLY_PROPOSES = lazy_re.compile(r"(?:did you mean|you should probably use|use|consider|possible)\b", re.I)
_MOST = 3  # proposals


def message_of(passage: Passage, match: EnglishMatch) -> str:
    """The message of an alarm. One that names a single word shows it with those before it: The strawberries is."""
    where, words = WHERE.get(passage.audience, "Here"), passage.text[match.start : match.end]
    said = _SENTENCE_END.split(match.message.strip())  # a checker may explain at length, and not for every eye
    first = said[1] if match.rule in _SAID_SECOND and len(said) > 1 else said[0]
    better = [f"“{word}”" for word in match.replacements[:_MOST] if word and word not in first]
    perhaps = f" Perhaps {' or '.join(better)}?" if better else ""
    if match.rule.startswith(SPELLER):
        meant = f": {' or '.join(better)}?" if better else "."
        return f"{where}: “{words}” is in no dictionary{meant} {A_NAME if words[:1].isupper() else _IF_RIGHT}"
    if _ONLY_PROPOSES.match(first) or (better and len(first.split()) > _SHORT):
        better = [f"“{word}”" for word in match.replacements[:_MOST] if word]
        first = "" if better else "Something is wrong here."
        perhaps = f"Perhaps {' or '.join(better)}?" if better else ""
    return f"{where}{shown_words(passage.text, match.start, match.end)}: {first}{perhaps}"


def shown_words(text: str, start: int, end: int) -> str:
    """The words of a slip as a message shows them, one with those before it: `, “The strawberries is”`."""
    words = text[start:end]
    if "\n" in words or len(words.split()) > _LONGEST:
        return ""
    before = _JUST_BEFORE.search(text, 0, start) if len(words.split()) == 1 else None
    return f", “{before[0] if before is not None else ''}{words}”"
