"""Modal verbs and their like, orders, and let's."""

from collections.abc import Iterator

from lint_rules.language.structures.declaration import Parsed, Range, StructureDeclaration, by_first_word
from lint_rules.language.structures.sources import CEFR_J_AND_PROFILE, HOUSE_PRE_A1


def find_imperative(parsed: Parsed) -> Iterator[Range]:
    """A verb group that gives an order."""
    for group in parsed.groups:
        if group.imperative:
            yield group.first, group.last


def find_lets(parsed: Parsed) -> Iterator[Range]:
    """*Let's* or *let us* before a verb."""
    words = parsed.text.words
    for word in words[:-1]:
        if word.lower in ("let", "lets"):
            after = words[word.index + 1]
            if word.lower == "let" and after.lower in ("'s", "us", "s"):
                yield word.index, after.index
            elif word.lower == "lets" and after.tag == "VB":
                yield word.index, word.index


DECLARATIONS = (
    StructureDeclaration(
        name="can",
        gloss="can, can't with a verb",
        level="Pre-A1",
        source=HOUSE_PRE_A1,
        examples=("I «can swim».", "I «can't fly»."),
        decoys=("Open the can.", "I could swim."),
        find=by_first_word("can"),
    ),
    StructureDeclaration(
        name="could",
        gloss="could, couldn't with a verb",
        level="A2",
        higher="B1",
        source=CEFR_J_AND_PROFILE,
        examples=("I «could swim» when I was three.",),
        decoys=("I can swim.",),
        find=by_first_word("could"),
    ),
    StructureDeclaration(
        name="must",
        gloss="must, mustn't with a verb",
        level="A2",
        higher="B1",
        source=CEFR_J_AND_PROFILE,
        examples=("You «must stop».",),
        decoys=("You have to stop.",),
        find=by_first_word("must"),
    ),
    StructureDeclaration(
        name="should",
        gloss="should, ought to with a verb",
        level="A2",
        source=CEFR_J_AND_PROFILE,
        examples=("You «should sleep».",),
        decoys=("You must sleep.",),
        find=by_first_word("should"),
    ),
    StructureDeclaration(
        name="may-might",
        gloss="may, might with a verb",
        level="A2",
        higher="B1",
        source=CEFR_J_AND_PROFILE,
        examples=("It «might rain».", "«May» I «come» in?"),
        decoys=("My birthday is in May.",),
        find=by_first_word("may-might"),
    ),
    StructureDeclaration(
        name="would",
        gloss="would, 'd with a verb",
        level="A1",
        higher="A2",
        source=CEFR_J_AND_PROFILE,
        examples=("I «would like» a drink.",),
        decoys=("I like milk.",),
        find=by_first_word("would"),
    ),
    StructureDeclaration(
        name="have-to",
        gloss="have to, has to, had to, have got to with a verb",
        level="A2",
        source=CEFR_J_AND_PROFILE,
        examples=("I «have to» go.",),
        decoys=("I have a cat.", "You must go."),
        find=by_first_word("have-to"),
    ),
    StructureDeclaration(
        name="imperative",
        gloss="an order: the bare verb, or don't with a verb",
        level="Pre-A1",
        source=HOUSE_PRE_A1,
        examples=("«Listen» and «point».", "«Don't run»!"),
        decoys=("You listen well.", "Let's go."),
        find=find_imperative,
    ),
    StructureDeclaration(
        name="lets",
        gloss="let's with a verb: a suggestion",
        level="Pre-A1",
        higher="A2",
        source=CEFR_J_AND_PROFILE,
        examples=("«Let's» go.",),
        decoys=("Let me see.",),
        find=find_lets,
    ),
)
