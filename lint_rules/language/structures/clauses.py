"""Subordinate clauses: relative, if, time, because, reported, participle; second and third conditionals."""

from collections.abc import Iterator

from lint_rules.language import tables
from lint_rules.language.structures.declaration import Parsed, Range, StructureDeclaration
from lint_rules.language.structures.sources import CEFR_J_AND_PROFILE
from lint_rules.language.verb_groups import AUXILIARIES, Group
from lint_rules.language.words import Word

TIME = frozenset({"when", "whenever", "while", "whilst", "before", "after", "until", "till", "since", "once", "as"})
BECAUSE = frozenset({"because", "cos", "coz", "'cause", "cause", "b/c", "'cos", "bc"})
INDIRECT = frozenset({"what", "who", "where", "when", "why", "how", "which", "whose", "whether", "if", "whom"})


def _conjunction(parsed: Parsed, group: Group, choice: frozenset[str]) -> Word | None:
    """The word of ``choice`` that opens the clause of a verb group."""
    for index in group.verb.children:
        word = parsed.text.words[index]
        if word.index > group.first:
            return None
        if word.dep in ("mark", "advmod", "prep", "dep") and word.lower in choice:
            return word
    return None


_TIME_NOUNS = frozenset({"time", "day", "moment", "way", "year", "minute", "week"})


def find_relative_clause(parsed: Parsed) -> Iterator[Range]:
    """A clause that says more about a noun; after *time*, *day* and the like it can do without a pronoun."""
    words = parsed.text.words
    for group in parsed.groups:
        if not group.finite:
            continue
        verb = group.verb
        if verb.dep == "relcl" and not (group.subject > group.first and words[group.first].lower in AUXILIARIES):
            first, last = parsed.text.reach(verb)
            if first > verb.head:
                yield first, last
        elif verb.dep in ("ccomp", "advcl", "parataxis") and group.subject > 0:
            who = parsed.text.reach(words[group.subject])[0]
            noun = words[who - 1]
            if noun.lower in _TIME_NOUNS and noun.head == verb.index and noun.dep == "npadvmod":
                yield who, group.last


def find_if_clause(parsed: Parsed) -> Iterator[Range]:
    """A condition that opens with if."""
    for group in parsed.groups:
        mark = _condition(parsed, group)
        if mark is not None:
            yield mark.index, group.last


def _condition(parsed: Parsed, group: Group) -> Word | None:
    """The *if* of a condition; `ask if`, `know if` open no condition."""
    mark = _conjunction(parsed, group, frozenset({"if"}))
    if mark is None or group.verb.dep == "ccomp":
        return None
    head = parsed.text.words[group.verb.head]
    asks = head.lemma in tables.words("asking_verbs") and head.index < mark.index and head is not group.verb
    return None if asks else mark


def find_time_clause(parsed: Parsed) -> Iterator[Range]:
    """A clause that says when."""
    for group in parsed.groups:
        if group.verb.dep in ("advcl", "pcomp", "ccomp"):
            mark = _conjunction(parsed, group, TIME - {"as", "since"})
            head = parsed.text.words[group.verb.head]
            if mark is not None and mark.lower == "when" and head.lemma in tables.words("when_questions"):
                continue
            if mark is None and group.verb.dep == "pcomp":
                head = parsed.text.words[group.verb.head]
                mark = head if head.lower in ("before", "after", "while", "since", "until") else None
            if mark is not None:
                yield mark.index, group.last


def find_because_clause(parsed: Parsed) -> Iterator[Range]:
    """A clause that says why."""
    for group in parsed.groups:
        mark = _conjunction(parsed, group, BECAUSE)
        if mark is not None:
            yield mark.index, group.last


def find_reported_clause(parsed: Parsed) -> Iterator[Range]:
    """What somebody says or thinks, told as a clause."""
    words = parsed.text.words
    for group in parsed.groups:
        verb = group.verb
        if verb.dep not in ("ccomp", "parataxis") or not group.finite:
            continue
        if verb.dep == "parataxis" and (group.subject < 0 or words[verb.head].index != group.subject - 1):
            continue
        head = words[verb.head]
        first, last = parsed.text.reach(verb)
        if head.index > first or head.lemma not in tables.words("reporting_verbs"):
            continue
        if any(words[i].lower in INDIRECT for i in range(first, group.first)):
            continue
        if any(words[i].tag in ("``", "''") or words[i].lower in ('"', ":") for i in range(head.index, group.first)):
            continue
        yield head.index, group.last


def find_participle_clause(parsed: Parsed) -> Iterator[Range]:
    """A clause that rests on a participle alone."""
    words = parsed.text.words
    for group in parsed.groups:
        verb = group.verb
        if verb.tag not in ("VBG", "VBN") or group.first != verb.index or group.shares:
            continue
        loose = verb.dep == "xcomp" and verb.tag == "VBG" and words[verb.head].lemma not in tables.words("verb_ing")
        if verb.dep not in ("acl", "advcl") and not (loose and words[verb.head].lemma not in ("be", "get")):
            continue
        if verb.lower in tables.words("participle_prepositions"):
            continue
        if any(words[i].dep in ("mark", "advmod") and words[i].lower in TIME for i in verb.children if i < verb.index):
            continue
        yield verb.index, parsed.text.reach(verb)[1]


def find_unreal_conditional(parsed: Parsed) -> Iterator[Range]:
    """An if-clause in the past with would, could or might in the main clause."""
    by_verb = {group.verb.index: group for group in parsed.groups}
    for group in parsed.groups:
        mark = _condition(parsed, group)
        other = by_verb.get(group.verb.head)
        if mark is None or other is None or not (group.past or group.modal == "could"):
            continue
        if other.modal in ("would", "could", "may-might"):
            yield min(mark.index, other.first), max(group.last, other.last)


DECLARATIONS = (
    StructureDeclaration(
        name="relative-clause",
        gloss="a clause that says which one: the girl who lives here",
        level="A2",
        higher="B1",
        source=CEFR_J_AND_PROFILE,
        examples=("This is the girl «who lives here».",),
        decoys=("Who lives here?",),
        find=find_relative_clause,
    ),
    StructureDeclaration(
        name="if-clause",
        gloss="a condition: if it rains",
        level="A2",
        source=CEFR_J_AND_PROFILE,
        examples=("«If it rains», we stay at home.",),
        decoys=("Let me know if you come.",),
        find=find_if_clause,
    ),
    StructureDeclaration(
        name="time-clause",
        gloss="a clause with when, while, before, after, until",
        level="A1",
        higher="A2",
        source=CEFR_J_AND_PROFILE,
        examples=("«When I wake» up, I wash my face.",),
        decoys=("When is your birthday?",),
        find=find_time_clause,
    ),
    StructureDeclaration(
        name="because-clause",
        gloss="a clause with because",
        level="A1",
        higher="A2",
        source=CEFR_J_AND_PROFILE,
        examples=("I am happy «because it is» sunny.",),
        decoys=("I am sad because of you.",),
        find=find_because_clause,
    ),
    StructureDeclaration(
        name="reported-clause",
        gloss="what somebody says or thinks: I think it's a cat",
        level="A1",
        higher="A2",
        source=CEFR_J_AND_PROFILE,
        examples=("I «think it is» a cat.", "He «said that he was» tired."),
        decoys=("I know where it is.",),
        find=find_reported_clause,
    ),
    StructureDeclaration(
        name="participle-clause",
        gloss="a clause that rests on a participle: the boy wearing a hat",
        level="B1",
        higher="B2",
        source=CEFR_J_AND_PROFILE,
        examples=("The boy «wearing a hat» is my brother.",),
        decoys=("The boy is wearing a hat.",),
        find=find_participle_clause,
    ),
    StructureDeclaration(
        name="second-or-third-conditional",
        gloss="an unreal condition: if I had wings, I would fly",
        level="B1",
        source=CEFR_J_AND_PROFILE,
        examples=("«If I had wings, I would fly».",),
        decoys=("If it rains, we stay at home.",),
        find=find_unreal_conditional,
    ),
)
