"""What follows a verb: to with a verb, a verb in -ing, an object and to with a verb; and infinitives of purpose."""

from collections.abc import Iterator

from lint_rules import tables
from lint_rules.language.grammar.structures.declaration import Parsed, Range, StructureDeclaration
from lint_rules.language.grammar.structures.sources import HOUSE, profile
from lint_rules.language.parsing.verb_groups import Group
from lint_rules.language.parsing.words import Word

_PHRASES = frozenset({"going-to-future", "have-to", "used-to"})  # they have taken their infinitive
_SET_PHRASES = frozenset({("go", "sleep"), ("get", "sleep")})  # to sleep is where one goes
_QUESTION_WORDS = frozenset({"how", "what", "where", "when", "who", "which", "whether", "why"})


def _infinitives(parsed: Parsed) -> Iterator[tuple[Group, Group, str]]:
    """Every to-infinitive under a verb: that verb's group, its own, and what it is: complement, object or purpose."""
    for group in parsed.groups:
        verb = group.verb
        if group.to < 0 or verb.index == verb.head or verb.dep not in ("advcl", "xcomp", "ccomp"):
            continue
        other = parsed.by_verb.get(verb.head)
        before = other is not None and (other.verb.index < verb.index or (verb.dep == "advcl" and not other.imperative))
        if other is not None and before and not _PHRASES.intersection(other.names):
            kind = _kind(parsed, other, group)
            if kind:
                yield other, group, kind


def _kind(parsed: Parsed, other: Group, group: Group) -> str:
    """What a to-infinitive is to the verb before it; '' where it is none of them (*how to play*, *easy to make*)."""
    words = parsed.text.words
    head, verb = other.verb, group.verb
    asked = any(words[index].lower in _QUESTION_WORDS for index in verb.children if head.index < index < group.to)
    if head.tag == "MD":
        return ""  # I can to turn: a slip, and no structure
    if asked or head.lemma in ("take", "ought") or (head.lemma == "be" and parsed.text.child(head, "acomp", "attr")):
        return ""
    if (head.lemma, verb.lemma) in _SET_PHRASES and group.to == head.index + 1:
        return ""
    if head.index > verb.index:
        return "purpose"  # `To make a kite, you need paper.`
    between = [words[index] for index in head.children if head.index < index < group.to]
    persons = [word for word in between if word.dep in ("dobj", "dative") and _is_person(word)]
    has_object = any(word.dep in ("dobj", "dative") for word in between) or group.subject > head.index
    rubric = head.lemma == "order" and other.imperative and not persons  # `Order the letters to make words.`
    takes_object = (not rubric and head.lemma in tables.words("object_to_infinitive")) or (
        head.lemma in tables.words("person_to_infinitive")
        and (bool(persons) or (group.subject > head.index and _is_person(words[group.subject])))
    )
    if other.passive and head.lower != "used":
        told = verb.dep == "xcomp" or takes_object or head.lemma in ("make", "see")
        return "" if told else "purpose"
    if has_object:
        return "object" if takes_object else "purpose"
    if verb.dep == "advcl":
        return "complement" if head.lemma in tables.words("verb_to_infinitive") and not between else "purpose"
    if head.lemma in tables.words("motion_verbs") or head.lower == "used":
        return "purpose"
    # Point to green: no verb that takes one.
    return "complement" if head.gap or head.lemma in tables.words("verb_to_infinitive") else ""


def _is_person(word: Word) -> bool:
    people = tables.group("anybody") | tables.group("persons")
    return (word.tag == "PRP" and word.lower != "it") or word.tag == "NNP" or word.name or word.lower in people


def find_verb_to_infinitive(parsed: Parsed) -> Iterator[Range]:
    """A verb with a to-infinitive as its complement."""
    for head, group, kind in _infinitives(parsed):
        if kind == "complement":
            yield head.verb.index, group.to if group.verb.gap else group.verb.index


def find_object_to_infinitive(parsed: Parsed) -> Iterator[Range]:
    """A verb with an object and a to-infinitive."""
    for head, group, kind in _infinitives(parsed):
        if kind == "object":
            yield head.verb.index, group.to if group.verb.gap else group.verb.index


def find_infinitive_of_purpose(parsed: Parsed) -> Iterator[Range]:
    """A to-infinitive that says what something is done for."""
    for _, group, kind in _infinitives(parsed):
        before = parsed.text.words[group.to - 1] if group.to > 0 else None
        if before is not None and before.lower == group.verb.lower:
            continue  # corner to corner, face to face
        if kind == "purpose" and not group.verb.gap:
            yield group.to, group.verb.index


def find_verb_ing(parsed: Parsed) -> Iterator[Range]:
    """A verb with a verb in -ing as its complement."""
    known = tables.words("verb_ing")
    for group in parsed.groups:
        verb = group.verb
        if verb.tag != "VBG" or verb.dep not in ("xcomp", "ccomp", "dobj"):
            continue
        other = parsed.by_verb.get(verb.head)
        if other is not None and other.verb.index < verb.index and other.verb.lemma in known:
            yield other.verb.index, verb.index


DECLARATIONS = (
    StructureDeclaration(
        name="verb-to-infinitive",
        gloss="a verb with to and a verb: want to go",
        level="A1",
        source=profile("101 A1.2"),
        examples=("I «want to go» home.", "Would you «like to fly» my kite?", "Nela «wants to» ____ a doctor."),
        decoys=("Point to green.", "I go to school.", "I have to go.", "It is easy to make.", "I know how to play."),
        find=find_verb_to_infinitive,
    ),
    StructureDeclaration(
        name="object-to-infinitive",
        gloss="a verb with an object, to and a verb: ask him to go",
        level="B1",
        source=profile("209 B1.1"),
        examples=("She «asked him to go» home.", "I «want you to help»."),
        decoys=("I want to go.", "He used a stick to reach the apple."),
        find=find_object_to_infinitive,
    ),
    StructureDeclaration(
        name="infinitive-of-purpose",
        gloss="to with a verb that says what for",
        level="A2",
        source=HOUSE,
        examples=("We went to the park «to play» football.", "He climbed the tower «to see» the stars."),
        decoys=(
            "Fold it corner to corner.",
            "I want to play.",
            "It's time to go.",
            "I have two letters to post.",
            "She went to sleep.",
        ),
        find=find_infinitive_of_purpose,
    ),
    StructureDeclaration(
        name="verb-ing",
        gloss="a verb with a verb in -ing: like swimming",
        level="A1",
        higher="A2",
        source=profile("112 A1.2; A2 by its column Core Inventory (A1-A2)"),
        examples=("I «like swimming».", "She «hates getting» up early.", "«Keep clapping»!"),
        decoys=("I am swimming.", "I like the morning.", "She is good at drawing."),
        find=find_verb_ing,
    ),
)
