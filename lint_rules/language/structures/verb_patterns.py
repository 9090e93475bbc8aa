"""What follows a verb: to with a verb, a verb in -ing, an object and to with a verb; and infinitives of purpose."""

from collections.abc import Iterator

from lint_rules.language import tables
from lint_rules.language.structures.declaration import Parsed, Range, StructureDeclaration
from lint_rules.language.structures.sources import CEFR_J_AND_PROFILE, HOUSE
from lint_rules.language.verb_groups import Group

_QUESTION_WORDS = frozenset("how what where when who which whether why".split())
PHRASES = frozenset({"going-to-future", "have-to", "used-to"})


def _heads(parsed: Parsed) -> dict[int, Group]:
    return {group.verb.index: group for group in parsed.groups}


def _infinitives(parsed: Parsed) -> Iterator[tuple[Group, Group, str]]:
    """Every to-infinitive under a verb, with that verb's group and what it is: complement, object or purpose."""
    by_verb = _heads(parsed)
    words = parsed.text.words
    for group in parsed.groups:
        verb = group.verb
        if group.to < 0 or verb.index == verb.head:
            continue
        other = by_verb.get(verb.head)
        if other is None or other.verb.index > verb.index or PHRASES & set(other.names):
            continue
        head = other.verb
        between = [words[i] for i in head.children if head.index < i < group.to]
        has_object = any(word.dep in ("dobj", "dative") for word in between) or group.subject > head.index
        if any(words[i].lower in _QUESTION_WORDS for i in verb.children if head.index < i < group.to):
            continue
        if head.lemma == "take" or (head.lemma == "be" and parsed.text.child(head, "acomp", "attr")):
            continue
        if other.passive and head.lower != "used":
            if verb.dep == "xcomp" or head.lemma in tables.words("object_to_infinitive") | {"make", "see"}:
                continue
        if verb.dep == "advcl":
            if has_object and head.lemma in tables.words("object_to_infinitive"):
                yield other, group, "object"
            elif head.lemma in tables.words("verb_to_infinitive") and not between:
                yield other, group, "complement"
            else:
                yield other, group, "purpose"
        elif verb.dep in ("xcomp", "ccomp"):
            if has_object:
                yield other, group, "object" if head.lemma in tables.words("object_to_infinitive") else "purpose"
            elif head.lemma in tables.words("motion_verbs"):
                yield other, group, "purpose"
            elif not (head.lemma == "be" or head.lower == "supposed" or other.passive):
                yield other, group, "complement"


def find_verb_to_infinitive(parsed: Parsed) -> Iterator[Range]:
    """A verb with a to-infinitive as its complement."""
    for head, group, kind in _infinitives(parsed):
        if kind == "complement":
            yield head.verb.index, group.to if group.verb.gap else group.verb.index


def find_object_to_infinitive(parsed: Parsed) -> Iterator[Range]:
    """A verb with an object and a to-infinitive."""
    for head, group, kind in _infinitives(parsed):
        if kind == "object":
            yield head.verb.index, group.verb.index


def find_infinitive_of_purpose(parsed: Parsed) -> Iterator[Range]:
    """A to-infinitive that says what something is done for."""
    for _, group, kind in _infinitives(parsed):
        if kind == "purpose":
            yield group.to, group.verb.index


def find_verb_ing(parsed: Parsed) -> Iterator[Range]:
    """A verb with a verb in -ing as its complement."""
    by_verb = _heads(parsed)
    for group in parsed.groups:
        verb = group.verb
        other = by_verb.get(verb.head)
        if verb.tag != "VBG" or other is None or other is group or other.verb.index > verb.index:
            continue
        if verb.dep in ("xcomp", "ccomp", "dobj") and other.verb.lemma in tables.words("verb_ing"):
            yield other.verb.index, verb.index


DECLARATIONS = (
    StructureDeclaration(
        name="verb-to-infinitive",
        gloss="a verb with to and a verb: want to go",
        level="A1",
        source=CEFR_J_AND_PROFILE,
        examples=("I «want to go» home.",),
        decoys=("I go to school.", "I have to go."),
        find=find_verb_to_infinitive,
    ),
    StructureDeclaration(
        name="object-to-infinitive",
        gloss="a verb with an object, to and a verb: ask him to go",
        level="B1",
        source=CEFR_J_AND_PROFILE,
        examples=("She «asked him to go» home.",),
        decoys=("I want to go.",),
        find=find_object_to_infinitive,
    ),
    StructureDeclaration(
        name="infinitive-of-purpose",
        gloss="to with a verb that says what for",
        level="A2",
        source=HOUSE,
        examples=("We went to the park «to play» football.",),
        decoys=("I want to play.",),
        find=find_infinitive_of_purpose,
    ),
    StructureDeclaration(
        name="verb-ing",
        gloss="a verb with a verb in -ing: like swimming",
        level="A1",
        higher="A2",
        source=CEFR_J_AND_PROFILE,
        examples=("I «like swimming».",),
        decoys=("I am swimming.",),
        find=find_verb_ing,
    ),
)
