"""Questions: with a question word, with yes or no for an answer, and tags."""

from collections.abc import Iterator

from lint_rules.language.structures.declaration import Parsed, Range, StructureDeclaration
from lint_rules.language.structures.sources import CEFR_J_AND_PROFILE, HOUSE_PRE_A1
from lint_rules.language.verb_groups import Group

WH = frozenset({"what", "who", "where", "when", "why", "how", "which", "whose", "whom"})
PRONOUNS = frozenset({"i", "you", "he", "she", "it", "we", "they", "there"})


def _asks(parsed: Parsed, group: Group) -> bool:
    """Say whether the first auxiliary (or be) of a group stands before its subject."""
    return group.finite and group.subject > group.first


def _is_tag(parsed: Parsed, group: Group) -> bool:
    """Say whether a group is a tag: comma, auxiliary, pronoun, question mark."""
    words = parsed.text.words
    at = group.first
    if at == 0 or words[at - 1].lower != ",":
        return False
    rest = [word.lower for word in words[at + 1 : at + 4]]
    if rest and rest[0] in ("n't", "not"):
        del rest[0]
    return len(rest) > 1 and rest[0] in PRONOUNS and rest[1] == "?"


def _question_word(parsed: Parsed, group: Group) -> int:
    """Index of the question word of a group's clause, or -1."""
    words = parsed.text.words
    start = next(start for start, end in parsed.text.sentences if start <= group.first < end)
    for index in range(group.first - 1, start - 1, -1):
        word = words[index]
        if word.lower in WH:
            return index
        if word.tag in (",", ":", ".", "``", "CC") or word.tag.startswith("VB"):
            return -1
    return -1


def find_wh_question(parsed: Parsed) -> Iterator[Range]:
    """A main clause that opens with a question word."""
    words = parsed.text.words
    for group in parsed.groups:
        if not group.finite or group.verb.dep in ("relcl", "advcl", "acl"):
            continue
        at = _question_word(parsed, group)
        if at < 0:
            continue
        wh_subject = group.subject >= 0 and at <= group.subject < group.first
        if _asks(parsed, group) or (wh_subject and _is_wh_phrase(parsed, group.subject)) or group.subject < 0:
            if group.verb.dep in ("ccomp", "pcomp") and not _asks(parsed, group) and words[-1].lower != "?":
                continue
            yield at, group.first


def _is_wh_phrase(parsed: Parsed, index: int) -> bool:
    words = parsed.text.words
    return words[index].lower in WH or any(words[i].lower in WH for i in words[index].children)


def find_yes_no_question(parsed: Parsed) -> Iterator[Range]:
    """A main clause that opens with its auxiliary, or with be, before the subject."""
    words = parsed.text.words
    for group in parsed.groups:
        if not _asks(parsed, group) or _is_tag(parsed, group) or _question_word(parsed, group) >= 0:
            continue
        before = words[group.first - 1] if group.first else None
        if before is not None and before.lower in ("so", "neither", "nor", "here", "there", "than", "as"):
            continue
        if (
            words[group.subject].lower == "there"
            or group.first == 0
            or before is None
            or before.tag in (",", ".", ":", "``", "CC", "UH", "RB", "-LRB-", "NNP", "HYPH", "''")
        ):
            yield group.first, group.subject


def find_tag_question(parsed: Parsed) -> Iterator[Range]:
    """A tag at the end of a sentence."""
    for group in parsed.groups:
        if _is_tag(parsed, group):
            yield group.first, max(group.last, group.subject)


DECLARATIONS = (
    StructureDeclaration(
        name="wh-question",
        gloss="a question with what, who, where, when, why, how, which, whose",
        level="Pre-A1",
        source=HOUSE_PRE_A1,
        examples=("«Where is» my hat?", "«Who» wants a cake?", "«What do» you like?"),
        decoys=("I know what you like.",),
        find=find_wh_question,
    ),
    StructureDeclaration(
        name="yes-no-question",
        gloss="a question that yes or no answers",
        level="Pre-A1",
        source=HOUSE_PRE_A1,
        examples=("«Do you» like rain?", "«Is it» a cat?"),
        decoys=("What do you like?", "It's windy, isn't it?"),
        find=find_yes_no_question,
    ),
    StructureDeclaration(
        name="tag-question",
        gloss="a tag: isn't it?",
        level="A2",
        higher="B1",
        source=CEFR_J_AND_PROFILE,
        examples=("It's windy, «isn't it»?",),
        decoys=("Isn't it windy?",),
        find=find_tag_question,
    ),
)
