"""The tenses, the passive, and what stands for a tense: going to, have got, used to, have to, there is."""

from collections.abc import Iterator

from lint_rules.language.structures.declaration import Parsed, Range, StructureDeclaration, by_first_word, by_form
from lint_rules.language.structures.sources import CEFR_J_AND_PROFILE, HOUSE, HOUSE_PRE_A1
from lint_rules.language.verb_groups import infinitive


def find_there_is(parsed: Parsed) -> Iterator[Range]:
    """*there* as the subject of a form of be."""
    for group in parsed.groups:
        if group.subject >= 0 and group.verb.lemma == "be":
            subject = parsed.text.words[group.subject]
            if subject.lower == "there" and subject.dep == "expl":
                yield min(subject.index, group.first), max(subject.index, group.last)


def find_going_to(parsed: Parsed) -> Iterator[Range]:
    """*going to* with the verb that follows it."""
    for group in parsed.groups:
        if "going-to-future" in group.names:
            last = infinitive(parsed.text, group.verb) or group.verb
            yield group.first, last.index - 1 if last.gap else last.index


DECLARATIONS = (
    StructureDeclaration(
        name="present-simple-be",
        gloss="am, is, are as a full verb",
        level="Pre-A1",
        source=HOUSE_PRE_A1,
        examples=("The kite «is» red.", "«Are» you happy?", "They «'re» in the park.", "There «are» two cats."),
        decoys=("The wind is blowing.", "Cheese is made from milk.", "She's got a bike."),
        find=by_form("present-simple-be"),
    ),
    StructureDeclaration(
        name="past-simple-be",
        gloss="was, were as a full verb",
        level="A1",
        source=CEFR_J_AND_PROFILE,
        examples=("The kite «was» red.", "Where «were» you?"),
        decoys=("The wind was blowing.", "The cheese was made here."),
        find=by_form("past-simple-be"),
    ),
    StructureDeclaration(
        name="present-simple",
        gloss="a full verb in the present, with do in questions and negatives",
        level="Pre-A1",
        source=HOUSE_PRE_A1,
        examples=("I «like» kites.", "She «doesn't like» rain.", "«Do» you «like» rain?"),
        decoys=("The kite is red.", "I can fly.", "Let's go.", "Listen and point."),
        find=by_form("present-simple"),
    ),
    StructureDeclaration(
        name="past-simple",
        gloss="a full verb in the past, with did in questions and negatives",
        level="A1",
        source=CEFR_J_AND_PROFILE,
        examples=("We «played» in the park.", "«Did» you «see» the kite?", "He «put» the hat on."),
        decoys=("The kite was red.", "I have seen it.", "The door is closed."),
        find=by_form("past-simple"),
    ),
    StructureDeclaration(
        name="present-continuous",
        gloss="am, is, are with a verb in -ing",
        level="Pre-A1",
        higher="A1",
        source=HOUSE_PRE_A1,
        examples=("The wind «is blowing».", "What «are» you «doing»?"),
        decoys=("I am going to swim.", "The film is interesting.", "There is a swimming pool."),
        find=by_form("present-continuous"),
    ),
    StructureDeclaration(
        name="past-continuous",
        gloss="was, were with a verb in -ing",
        level="A2",
        source=CEFR_J_AND_PROFILE,
        examples=("The wind «was blowing».",),
        decoys=("The film was interesting.", "The wind is blowing."),
        find=by_form("past-continuous"),
    ),
    StructureDeclaration(
        name="present-perfect",
        gloss="have, has with a past participle",
        level="A2",
        higher="B1",
        source=CEFR_J_AND_PROFILE,
        examples=("I «have seen» a whale.", "«Have» you ever «eaten» snails?"),
        decoys=("She has got a bike.", "I have a cat.", "She had seen it."),
        find=by_form("present-perfect"),
    ),
    StructureDeclaration(
        name="past-perfect",
        gloss="had with a past participle",
        level="B1",
        source=CEFR_J_AND_PROFILE,
        examples=("The train «had left».",),
        decoys=("She had a cat.", "I have seen it."),
        find=by_form("past-perfect"),
    ),
    StructureDeclaration(
        name="perfect-continuous",
        gloss="have been, had been with a verb in -ing",
        level="B1",
        higher="B2",
        source=CEFR_J_AND_PROFILE,
        examples=("It «has been raining» all day.",),
        decoys=("It has been fun.", "It is raining."),
        find=by_form("perfect-continuous"),
    ),
    StructureDeclaration(
        name="future-will",
        gloss="will, 'll, won't, shall with a verb",
        level="A2",
        source=CEFR_J_AND_PROFILE,
        examples=("It «will rain» tomorrow.", "I «'ll help» you."),
        decoys=("Will is my brother.", "I am going to help."),
        find=by_first_word("future-will"),
    ),
    StructureDeclaration(
        name="going-to-future",
        gloss="be going to with a verb",
        level="A2",
        source=CEFR_J_AND_PROFILE,
        examples=("I «am going to swim».",),
        decoys=("I am going to the park.", "We go to school."),
        find=find_going_to,
    ),
    StructureDeclaration(
        name="passive",
        gloss="be with a past participle that says what is done to something",
        level="A2",
        higher="B1",
        source=CEFR_J_AND_PROFILE,
        examples=("Cheese «is made» from milk.", "The castle «was built» by a king."),
        decoys=("I'm tired.", "The shop is closed.", "She has made a cake."),
        find=by_form("passive"),
    ),
    StructureDeclaration(
        name="used-to",
        gloss="used to with a verb: past habits",
        level="B1",
        source=CEFR_J_AND_PROFILE,
        examples=("We «used to live» here.",),
        decoys=("We used a pencil.",),
        find=by_form("used-to"),
    ),
    StructureDeclaration(
        name="have-got",
        gloss="have got, has got: possession",
        level="Pre-A1",
        source=HOUSE,
        examples=("She «has got» a bike.", "«Have» you «got» a pen?", "He «'s got» a hat."),
        decoys=("I have a cat.", "We got a letter.", "I've got to go."),
        find=by_form("have-got"),
    ),
    StructureDeclaration(
        name="there-is",
        gloss="there is, there are: what exists somewhere",
        level="Pre-A1",
        source=HOUSE_PRE_A1,
        examples=("«There is» a cat.", "«Are there» any apples?"),
        decoys=("The cat is there.", "Put it there."),
        find=find_there_is,
    ),
)
