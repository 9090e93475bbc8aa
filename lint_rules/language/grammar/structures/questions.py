"""Questions: with a question word, with yes or no for an answer, and tags."""

from collections.abc import Iterator

from lint_rules.language.grammar.structures.clauses import inverted_condition
from lint_rules.language.grammar.structures.declaration import Parsed, Range, StructureDeclaration
from lint_rules.language.grammar.structures.sources import pre_a1, profile
from lint_rules.language.parsing.verb_groups import AUXILIARIES, Group
from lint_rules.language.parsing.words import VERB

WH = frozenset({"what", "who", "where", "when", "why", "how", "which", "whose", "whom"})
_SUBORDINATE = frozenset({"relcl", "advcl", "acl", "pcomp", "csubj"})


def _asks(parsed: Parsed, group: Group) -> bool:
    """Say whether an auxiliary (or be) stands before its subject."""
    return group.finite and group.subject > group.first and parsed.text.words[group.first].lower in AUXILIARIES


def _question_word(parsed: Parsed, group: Group) -> int:
    """Index of the question word in front of a group in its clause, or -1."""
    words = parsed.text.words
    start = next(start for start, end in parsed.text.sentences if start <= group.first < end)
    for index in range(group.first - 1, start - 1, -1):
        word = words[index]
        if (word.lower in WH and word.tag != "WDT") or word.lower in ("which", "what"):
            return index
        if word.lower in (",", ".", ":", '"', "(") or word.tag == "CC" or (word.tag in VERB and not word.gap):
            return -1
    return -1


def find_wh_question(parsed: Parsed) -> Iterator[Range]:
    """A main clause that opens with a question word, which stands before the auxiliary or is the subject."""
    words = parsed.text.words
    for group in parsed.groups:
        if not group.finite or group.tag:
            continue
        at = _question_word(parsed, group)
        if at < 0:
            continue
        if _asks(parsed, group):
            if group.verb.dep not in _SUBORDINATE or _opens(parsed, at):
                yield at, _end(group)
        elif (group.verb.dep not in _SUBORDINATE or words[at - 1].lower == ":") and _is_subject(parsed, group, at):
            told = group.verb.dep == "ccomp" and group.verb.head < at and words[at - 1].lower not in (":", '"', ",")
            adverb = words[at].lower in ("where", "when", "why", "how") and at + 1 == group.first
            if not told and not adverb:
                yield at, _end(group)


def _end(group: Group) -> int:
    """The last word that shows a question: its verb, or the subject after it; before a gap, the auxiliary."""
    return group.first if group.verb.gap else group.last


def _opens(parsed: Parsed, index: int) -> bool:
    """Say whether a word is the first of a sentence, or follows its opening quotation mark or a comma."""
    before = parsed.text.words[index - 1].lower if index else ""
    return before in ("", '"', ",", "'", "and", "so", "but") or any(
        index == start for start, _ in parsed.text.sentences
    )


def _is_subject(parsed: Parsed, group: Group, at: int) -> bool:
    """Say whether a question word is the subject of a group, or its sentence asks without one."""
    end = next(end for start, end in parsed.text.sentences if start <= at < end)
    asks = any(word.lower == "?" for word in parsed.text.words[at:end])
    if group.subject < 0:
        return asks
    opens = _opens(parsed, at) and (at == 0 or parsed.text.words[at - 1].lower not in ("and", "but", ","))
    return (asks or opens) and _covers(parsed, group.subject, at)


def _covers(parsed: Parsed, subject: int, index: int) -> bool:
    """Say whether a word belongs to the phrase of a subject."""
    first, last = parsed.text.reach(parsed.text.words[subject])
    return first <= index <= last


def find_yes_no_question(parsed: Parsed) -> Iterator[Range]:
    """A clause that opens with its auxiliary, or with be, before the subject."""
    words = parsed.text.words
    for group in parsed.groups:
        if group.tag or not group.finite or _question_word(parsed, group) >= 0:
            continue
        if inverted_condition(parsed, group.first) is not None:
            continue
        if _asks(parsed, group):
            before = words[group.first - 1].lower if group.first else ""
            if before not in _INVERTERS and (group.verb.dep not in _SUBORDINATE or _opens(parsed, group.first)):
                yield group.first, max(group.subject, _end(group))
        elif _opens(parsed, group.first) and words[group.first].lower in AUXILIARIES and _is_asked(parsed, group):
            yield group.first, group.first


_INVERTERS = frozenset(["so", "neither", "nor", "here", "there", "than", "as", "never"])


def _is_asked(parsed: Parsed, group: Group) -> bool:
    """Say whether a sentence that opens with an auxiliary ends with a question mark and has a word for its subject."""
    words = parsed.text.words
    _start, end = next(pair for pair in parsed.text.sentences if pair[0] <= group.first < pair[1])
    after = words[group.first + 1 : group.first + 2]
    return (
        any(word.lower == "?" for word in words[end - 2 : end])
        and bool(after)
        and (after[0].tag.startswith(("NN", "PRP", "DT", "JJ")) or after[0].lower in ("n't", "there"))
    )


def find_tag_question(parsed: Parsed) -> Iterator[Range]:
    """A tag at the end of a sentence."""
    for group in parsed.groups:
        if group.tag:
            yield group.first, max(group.last, group.subject)


DECLARATIONS = (
    StructureDeclaration(
        name="wh-question",
        gloss="a question with what, who, where, when, why, how, which, whose",
        level="Pre-A1",
        source=pre_a1("239, 246 A1.1, 235 A1.2, 245 A1.3"),
        examples=(
            "«Where is» my hat?",
            "«Who wants» a cake?",
            "«What do you like»?",
            "«How many chairs are» there?",
            '"«Whose boots are» these?" asked Tom.',
        ),
        decoys=(
            "I know what you like.",
            "Guess who stole the cheese.",
            "When it snows, we build a fort.",
            "What a lovely day!",
            "How about you?",
        ),
        find=find_wh_question,
    ),
    StructureDeclaration(
        name="yes-no-question",
        gloss="a question that yes or no answers",
        level="Pre-A1",
        source=pre_a1("59-2 A1.2, 2-2 A1.3"),
        examples=("«Do you like» rain?", "«Is it» a cat?", "«Can May come» too?", "«Have you got» a pen?"),
        decoys=("What do you like?", "It's windy, isn't it?", '"Come here!" said Pilo.', "Here is the bus."),
        find=find_yes_no_question,
    ),
    StructureDeclaration(
        name="tag-question",
        gloss="a tag: isn't it?",
        level="A2",
        higher="B1",
        source=profile("193 B1 by its frequency, EGP A2"),
        examples=("It's windy, «isn't it»?", "You can't swim, «can you»?"),
        decoys=("Isn't it windy?", "Is it?"),
        find=find_tag_question,
    ),
)
