"""Sentences that led the model astray: a participle or a relative clause after the subject, taken for the main verb."""

from lint_rules import tables
from lint_rules.language.parsing.corrections.forms import SUBJECTS
from lint_rules.language.parsing.words import FINITE, Text, Word
from lint_rules.language.vocabulary import verb_forms


def _participle(word: Word) -> bool:
    return word.tag == "VBD" and verb_forms.can_be_participle(word.lower) and word.lower not in verb_forms.only_past()


def participles_after_nouns(text: Text) -> None:
    """`The bag LEFT on the bus was mine.`, `The dog LOST in the wood was found.`: the second verb is the main one."""
    words = text.words
    for main in words:
        if main.tag not in FINITE and main.tag != "VBN":
            continue
        if text.child(main, *SUBJECTS, "mark", "cc") is not None or main.dep in ("conj", "relcl", "aux", "auxpass"):
            continue
        other = words[main.head] if main.dep == "ccomp" else text.child(main, "ccomp")
        if other is None or other.index > main.index or not _participle(other) or _speaks(other):
            continue
        noun = text.child(other, "nsubj")
        between = words[other.index + 1 : main.index]
        if noun is None or noun.index != other.index - 1 or any(word.lower in (",", '"', "and") for word in between):
            continue
        text.detach(main)
        other.retag("VBN", "VERB")
        text.attach(noun, main, "nsubj")
        text.attach(other, noun, "acl")


def _speaks(word: Word) -> bool:
    return word.lower in tables.words("speech_verbs") or word.lemma in tables.words("reporting_verbs")


def verbs_after_relative_clauses(text: Text) -> None:
    """`Everything she said WAS true.`: the verb right after a relative clause belongs to the noun before it."""
    words = text.words
    for main in words:
        if main.tag not in FINITE or main.dep != "ccomp" or text.child(main, *SUBJECTS) is not None:
            continue
        other = words[main.head]
        if other.dep != "relcl" or main.index != other.index + 1:
            continue
        noun = words[other.head]
        text.attach(main, noun, "ROOT")
        text.detach(main)
        if noun.dep == "ROOT":
            text.attach(noun, main, "nsubj")


def reduced_clauses(text: Text) -> None:
    """`The bag LEFT on the bus`: what hangs on a noun without a subject of its own is a participle."""
    for word in text.words:
        if word.dep == "acl" and _participle(word) and text.child(word, *SUBJECTS) is None:
            word.retag("VBN", "VERB")


STEPS = (participles_after_nouns, verbs_after_relative_clauses, reduced_clauses)
