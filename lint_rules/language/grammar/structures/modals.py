"""Modal verbs and their like, orders, and let's."""

from collections.abc import Iterator

from lint_rules.language.grammar.structures.declaration import (
    Parsed,
    Range,
    StructureDeclaration,
    by_form,
    with_infinitive,
)
from lint_rules.language.grammar.structures.sources import pre_a1, profile


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
            if word.lower == "let" and after.lower in ("'s", "us", "s") and after.index + 1 < len(words):
                if words[word.index - 1].lower not in ("he", "she", "it", "to") and words[
                    after.index + 1
                ].lower not in ("the", "a", "an"):
                    yield word.index, after.index
            elif word.lower == "lets" and after.tag == "VB":
                yield word.index, word.index


DECLARATIONS = (
    StructureDeclaration(
        name="can",
        gloss="can, can't with a verb",
        level="Pre-A1",
        source=pre_a1("123 A1.2"),
        examples=("I «can swim».", "I «can't fly».", "«Can you hop»?", "Yes, I «can».", "My sister «can» ____ ."),
        decoys=("Open the can.", "I could swim.", "That can is empty.", "He opened a can of beans.", "The can is red."),
        find=by_form("can"),
    ),
    StructureDeclaration(
        name="could",
        gloss="could, couldn't with a verb",
        level="A2",
        higher="B1",
        source=profile("124 B1.1, EGP A2"),
        examples=("I «could swim» when I was three.", "«Could you help» me?"),
        decoys=("I can swim.", "It's cold."),
        find=by_form("could"),
    ),
    StructureDeclaration(
        name="must",
        gloss="must, mustn't with a verb",
        level="A2",
        higher="B1",
        source=profile("135 B1.1, EGP A2"),
        examples=("You «must stop».", "You «mustn't run»."),
        decoys=("You have to stop.", "You should stop."),
        find=by_form("must"),
    ),
    StructureDeclaration(
        name="should",
        gloss="should, ought to with a verb",
        level="A2",
        source=profile("139 A2.1"),
        examples=("You «should sleep».", "What «should I do»?"),
        decoys=("You must sleep.", "Shall we sleep?"),
        find=by_form("should"),
    ),
    StructureDeclaration(
        name="may-might",
        gloss="may, might with a verb",
        level="A2",
        higher="B1",
        source=profile("129, 132 B1.1, EGP A2"),
        examples=("It «might rain».", "«May I come» in?"),
        decoys=("My birthday is in May.", "May is my friend.", "He pushed with all his might."),
        find=by_form("may-might"),
    ),
    StructureDeclaration(
        name="would",
        gloss="would, 'd with a verb",
        level="A1",
        higher="A2",
        source=profile("142 A2.1, EGP A1"),
        examples=("I «would like» a drink.", "I«'d like» a drink.", "«Would you like» some milk?"),
        decoys=("I like milk.", "He'd eaten it.", "We had a drink."),
        find=by_form("would"),
    ),
    StructureDeclaration(
        name="have-to",
        gloss="have to, has to, had to, have got to with a verb",
        level="A2",
        source=profile("127 A2.2"),
        examples=("I «have to go».", "She «has to feed» the rabbits.", "We «had to wait».", "I«'ve got to go»."),
        decoys=("I have a cat.", "You must go.", "I have something to show you.", "I have two letters to post."),
        find=with_infinitive("have-to"),
    ),
    StructureDeclaration(
        name="imperative",
        gloss="an order: the bare verb, or don't with a verb",
        level="Pre-A1",
        source=pre_a1("117 A1.1"),
        examples=(
            "«Listen» and «point».",
            "«Don't run»!",
            "«Point» to the cat.",
            "«Match» the words and the pictures.",
            "«Row», «row», «row» across the bay!",
            "Please «ring» the bell.",
            "Tom, «come» here!",
            "«Let» me see.",
        ),
        decoys=(
            "You listen well.",
            "Let's go.",
            "Mime is a kind of acting.",
            "The match starts at three.",
            "A number game",
            "Thank you!",
            "See you later!",
            "I can hop and run.",
        ),
        find=find_imperative,
    ),
    StructureDeclaration(
        name="lets",
        gloss="let's with a verb: a suggestion",
        level="Pre-A1",
        higher="A2",
        source=pre_a1("120 A1.3, EGP A2"),
        examples=("«Let's» go.", "«Let's» not wake the baby."),
        decoys=("Let me see.", "He lets us play."),
        find=find_lets,
    ),
)
