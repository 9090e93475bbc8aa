"""The tenses, the passive, and what stands for a tense: going to, have got, used to, there is."""

from collections.abc import Iterator

from lint_rules.language.grammar.structures.declaration import (
    Parsed,
    Range,
    StructureDeclaration,
    by_form,
    with_infinitive,
    with_not,
)
from lint_rules.language.grammar.structures.sources import HOUSE, pre_a1, profile


def find_there_is(parsed: Parsed) -> Iterator[Range]:
    """*there* as the subject of a form of be."""
    for group in parsed.groups:
        if group.subject >= 0 and group.verb.lemma == "be":
            subject = parsed.text.words[group.subject]
            if subject.lower == "there" and subject.dep == "expl":
                yield min(subject.index, group.first), with_not(parsed, max(subject.index, group.last))


DECLARATIONS = (
    StructureDeclaration(
        name="present-simple-be",
        gloss="am, is, are as a full verb",
        level="Pre-A1",
        source=pre_a1("58 A1.1"),
        examples=(
            "The kite «is» red.",
            "«Are» you happy?",
            "They«'re» in the park.",
            "There «are» two cats.",
            "I«'m» tired.",
            "The shop «is» closed.",
            "My favourite sport «is» swimming.",
        ),
        decoys=(
            "The wind is blowing.",
            "Cheese is made from milk.",
            "She's got a bike.",
            "It was cold.",
            "It's raining.",
            "What's he done?",
            "Be careful!",
        ),
        find=by_form("present-simple-be"),
    ),
    StructureDeclaration(
        name="past-simple-be",
        gloss="was, were as a full verb",
        level="A1",
        source=profile("64 A1.3"),
        examples=("The kite «was» red.", "Where «were» you?", "There «was» a king.", "They «weren't» hungry."),
        decoys=("The wind was blowing.", "The castle was built here.", "The kite is red.", "It has been a long day."),
        find=by_form("past-simple-be"),
    ),
    StructureDeclaration(
        name="present-simple",
        gloss="a full verb in the present, with do in questions and negatives",
        level="Pre-A1",
        source=pre_a1("59, 60 A1.1"),
        examples=(
            "I «like» kites.",
            "She «doesn't like» rain.",
            "«Do you like» rain?",
            "No, he «doesn't».",
            "They «read» a book every day.",
            "Most fish «lay» eggs.",
        ),
        decoys=(
            "The kite is red.",
            "I can fly.",
            "Let's go.",
            "Listen and point.",
            "Thank you!",
            "I have to go.",
        ),
        find=by_form("present-simple"),
    ),
    StructureDeclaration(
        name="past-simple",
        gloss="a full verb in the past, with did in questions and negatives",
        level="A1",
        source=profile("65 A1.3"),
        examples=(
            "We «played» in the park.",
            "«Did you see» the kite?",
            "He «put» the hat on.",
            'Tom «said», "Hello!"',
            "This is the boat my grandpa «built».",
        ),
        decoys=(
            "The kite was red.",
            "I have seen it.",
            "The door is closed.",
            "We used to live here.",
            "I put my bag here every day.",
        ),
        find=by_form("past-simple"),
    ),
    StructureDeclaration(
        name="present-continuous",
        gloss="am, is, are with a verb in -ing",
        level="Pre-A1",
        higher="A1",
        source=pre_a1("61 A1.3, courses often start it later than the rest of A1"),
        examples=(
            "The wind «is blowing».",
            "What «are you doing»?",
            "«Is the boy wearing» a hat?",
            "We«'re going» to the park.",
        ),
        decoys=(
            "I am going to swim.",
            "The film is interesting.",
            "There is a swimming pool.",
            "My hobby is painting.",
        ),
        find=by_form("present-continuous"),
    ),
    StructureDeclaration(
        name="past-continuous",
        gloss="was, were with a verb in -ing",
        level="A2",
        source=profile("66 A2.1"),
        examples=("«Was the captain working»?", "The wind «was blowing».", "What «were the seals doing»?"),
        decoys=("Was the working day long?", "The film was interesting.", "The wind is blowing."),
        find=by_form("past-continuous"),
    ),
    StructureDeclaration(
        name="present-perfect",
        gloss="have, has with a past participle",
        level="A2",
        higher="B1",
        source=profile("62 A2.1, EGP B1"),
        examples=("I «have seen» a whale.", "«Have you ever eaten» snails?", "What«'s he done»?", "She«'s gone» home."),
        decoys=("She has got a bike.", "I have a cat.", "She had seen it.", "The shop's closed."),
        find=by_form("present-perfect"),
    ),
    StructureDeclaration(
        name="past-perfect",
        gloss="had with a past participle",
        level="B1",
        source=profile("67 B1.2"),
        examples=("The train «had left».", "He«'d never seen» the sea."),
        decoys=("She had a cat.", "He'd like a cat."),
        find=by_form("past-perfect"),
    ),
    StructureDeclaration(
        name="perfect-continuous",
        gloss="have been, had been with a verb in -ing",
        level="B1",
        higher="B2",
        source=profile("63 B2.1, EGP B1"),
        examples=("It «has been raining» all day.",),
        decoys=("It has been fun.", "It is raining."),
        find=by_form("perfect-continuous"),
    ),
    StructureDeclaration(
        name="future-will",
        gloss="will, 'll, won't with a verb",
        level="A2",
        source=profile("69 A2.1"),
        examples=("It «will rain» tomorrow.", "I«'ll help» you.", "«Will you come»?"),
        decoys=("Will is my brother.", "I am going to help.", "Will, come here!"),
        find=by_form("future-will"),
    ),
    StructureDeclaration(
        name="going-to-future",
        gloss="be going to with a verb",
        level="A2",
        source=profile("122 A2.2"),
        examples=("I «am going to swim».", "What «are you going to do»?"),
        decoys=("I am going to the park.", "She is going to school."),
        find=with_infinitive("going-to-future"),
    ),
    StructureDeclaration(
        name="passive",
        gloss="be with a past participle that says what is done to something",
        level="A2",
        higher="B1",
        source=profile("76 A2.1, its column Core Inventory B1"),
        examples=("Cheese «is made» from milk.", "The castle «was built» by a king.", "What «is this game called»?"),
        decoys=(
            "It isn't left. It is right.",
            "I'm tired.",
            "The shop is closed.",
            "The pitch is waterlogged.",
            "She has made a cake.",
            "He's eaten the cake.",
        ),
        find=by_form("passive"),
    ),
    StructureDeclaration(
        name="used-to",
        gloss="used to with a verb: past habits",
        level="B1",
        source=profile("140 B1.1"),
        examples=("We «used to live» here.",),
        decoys=("We used a pencil.", "He used a stick to reach it.", "I am used to the dark."),
        find=with_infinitive("used-to"),
    ),
    StructureDeclaration(
        name="have-got",
        gloss="have got, has got: possession",
        level="Pre-A1",
        source=HOUSE,
        examples=("She «has got» a bike.", "«Have you got» a pen?", "He«'s got» a hat.", "I «haven't got» a dog."),
        decoys=("I have a cat.", "We got a letter.", "I've got to go.", "He hasn't got up yet."),
        find=by_form("have-got"),
    ),
    StructureDeclaration(
        name="there-is",
        gloss="there is, there are: what exists somewhere",
        level="Pre-A1",
        source=pre_a1("146 A1.2"),
        examples=(
            "«There is» a cat.",
            "«Are there» any apples?",
            "How many chairs «are there»?",
            "«There isn't» a shop.",
        ),
        decoys=("The cat is there.", "Put it there.", "There goes the bus!", "They're there."),
        find=find_there_is,
    ),
)
