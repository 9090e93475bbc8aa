"""Comparatives and superlatives."""

from collections.abc import Iterator

from lint_rules.language.structures.declaration import Parsed, Range, StructureDeclaration
from lint_rules.language.structures.sources import CEFR_J_AND_PROFILE

DEGREE = frozenset({"more", "less"})
HIGHEST = frozenset({"most", "least"})


def find_comparative(parsed: Parsed) -> Iterator[Range]:
    """An adjective or adverb in -er, or with more or less; *two more apples* is none."""
    words = parsed.text.words
    for word in words:
        if word.tag not in ("JJR", "RBR"):
            continue
        if word.lower in DEGREE:
            after = words[word.index + 1] if word.index + 1 < len(words) else None
            if after is None:
                continue
            if after.lower == "than":
                yield word.index, word.index
            elif after.tag in ("JJ", "RB", "VBN", "VBG") and (word.tag == "RBR" or word.head == after.index):
                yield word.index, after.index
        else:
            yield word.index, word.index


def find_superlative(parsed: Parsed) -> Iterator[Range]:
    """An adjective or adverb in -est, or with most or least."""
    words = parsed.text.words
    for word in words:
        if word.tag not in ("JJS", "RBS"):
            continue
        if word.lower in HIGHEST:
            after = words[word.index + 1] if word.index + 1 < len(words) else None
            if after is not None and after.tag in ("JJ", "RB") and word.head == after.index:
                yield word.index, after.index
        else:
            yield word.index, word.index


DECLARATIONS = (
    StructureDeclaration(
        name="comparative",
        gloss="bigger, more beautiful",
        level="A1",
        higher="A2",
        source=CEFR_J_AND_PROFILE,
        examples=("An elephant is «bigger» than a mouse.",),
        decoys=("I want two more apples.",),
        find=find_comparative,
    ),
    StructureDeclaration(
        name="superlative",
        gloss="the biggest, the most beautiful",
        level="A1",
        higher="A2",
        source=CEFR_J_AND_PROFILE,
        examples=("The blue whale is the «biggest» animal.",),
        decoys=("Most children like ice cream.",),
        find=find_superlative,
    ),
)
