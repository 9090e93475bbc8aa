"""Comparatives and superlatives."""

from collections.abc import Iterator

from lint_rules.language.grammar.structures.declaration import Parsed, Range, StructureDeclaration
from lint_rules.language.grammar.structures.sources import profile
from lint_rules.language.parsing.words import Word

_DEGREE = frozenset({"more", "less"})
_HIGHEST = frozenset({"most", "least"})
_SET_PHRASES = frozenset({"regards", "wishes", "seller", "sellers", "friend", "friends"})
_GRADED = frozenset({"JJ", "RB", "VBN", "VBG"})


def _compares(after: Word | None) -> bool:
    return after is not None and after.lower in ("than", "and")


def find_comparative(parsed: Parsed) -> Iterator[Range]:
    """An adjective or adverb in -er, or with more or less; *two more apples*, *more than ten* are none."""
    text = parsed.text
    for word in text.words:
        if word.tag not in ("JJR", "RBR"):
            continue
        after = text.after(word)
        verb = text.before(word)
        if word.lower == "better" and verb is not None and verb.lemma in ("feel", "get") and not _compares(after):
            continue  # I'm feeling better: well again
        if word.lower not in _DEGREE:
            alone = word.lower == "later" and (after is None or after.lower != "than")
            if not alone and word.lower not in ("rather", "former", "upper", "inner", "outer", "elder"):
                yield word.index, word.index
        elif after is not None and after.lower == "than":
            number = text.after(after)
            before = text.before(word)
            counted = number is not None and (number.tag == "CD" or number.lower in ("a", "an", "one"))
            if not counted and (before is None or before.lower != "no"):
                yield word.index, word.index
        elif after is not None and after.tag in _GRADED and (word.tag == "RBR" or word.head == after.index):
            number = text.before(word)
            if number is not None and (number.tag == "CD" or number.lower in ("some", "any", "many")):
                continue  # one more beat
            yield word.index, after.index


def find_superlative(parsed: Parsed) -> Iterator[Range]:
    """An adjective or adverb in -est, or with most or least; *at best*, *best wishes* are none."""
    text = parsed.text
    for word in text.words:
        before, after = text.before(word), text.after(word)
        first = before is None or before.lower in (".", "!")
        if (word.lower in ("best", "worst") and (first or word.tag not in ("VB", "NNP"))) or word.tag in ("JJS", "RBS"):
            if before is not None and before.lower in ("at", "all", "a"):
                continue
            if word.lower in _HIGHEST:
                if after is not None and after.tag in ("JJ", "RB") and word.head == after.index:
                    if after.lower != "likely":
                        yield word.index, after.index
                elif word.dep in ("dobj", "advmod") and before is not None and before.lower == "the":
                    yield word.index, word.index
            elif word.lower != "best" or after is None or after.lower not in _SET_PHRASES:
                yield word.index, word.index


DECLARATIONS = (
    StructureDeclaration(
        name="comparative",
        gloss="bigger, more beautiful",
        level="A1",
        higher="A2",
        source=profile("38 A1.3, 39 A2.2, EGP A2"),
        examples=(
            "An elephant is «bigger» than a mouse.",
            "Speak «more slowly».",
            "I like tea «more» than milk.",
            "I feel «better» than you.",
        ),
        decoys=(
            "I want two more apples.",
            "Say it with one more beat.",
            "It isn't raining any more.",
            "There are more than ten cats.",
            "The bird is feeling better.",
        ),
        find=find_comparative,
    ),
    StructureDeclaration(
        name="superlative",
        gloss="the biggest, the most beautiful",
        level="A1",
        higher="A2",
        source=profile("40 A1.1, 41 A2.1, EGP A2"),
        examples=(
            "The blue whale is the «biggest» animal.",
            "The «most beautiful» flower",
            "Choose the «best» ending.",
        ),
        decoys=("Most children like ice cream.", "He is my best friend.", "I have at least two cats."),
        find=find_superlative,
    ),
)
