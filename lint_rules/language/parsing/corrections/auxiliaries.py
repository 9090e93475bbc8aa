"""What *'s*, *'d*, *got* and *be* are in front of a participle: has or is, had or would, passive or adjective."""

from lint_rules import tables
from lint_rules.language.inflection import verb_forms
from lint_rules.language.parsing.verb_groups import BE
from lint_rules.language.parsing.words import NOUN, VERB, Text, Word

_IS = frozenset({"'s", "s"})
_NOT_OBJECTS = frozenset({"call", "name", "give", "show", "teach", "tell"})


def possessive_is(text: Text) -> None:
    """`The shop's closed.`, `The baby's sleeping.`: a clitic taken for a possessive is a verb where no noun follows."""
    for word in text.words:
        if word.tag != "POS" or word.lower != "'s" or word.index + 1 >= len(text.words):
            continue
        after = text.words[word.index + 1]
        if after.tag == "VBG" or after.lower in ("got", "been", "not", "n't", "a", "an", "the", "my", "your", "going"):
            owner, head = text.words[word.head], text.words[word.head]
        elif (after.tag in ("JJ", "VBN") and after.dep == "ROOT") or _is_introduced(text, word, after):
            owner, head = text.words[word.index - 1], after
        else:
            continue
        word.retag("VBZ", "AUX", "be")
        if owner is head and word.dep == "aux":
            continue
        if after.tag == "VBG":
            text.attach(word, after, "aux")
            text.attach(text.words[word.index - 1], after, "nsubj")
        elif after.dep == "ROOT":
            text.attach(text.words[word.index - 1], after, "nsubj")
            if after.tag in NOUN:
                text.demote(after, word, "attr")
            elif after.tag == "JJ" or after.lower in tables.words("participial_adjectives"):
                text.demote(after, word, "acomp")
            else:
                text.attach(word, after, "auxpass")


def _is_introduced(text: Text, word: Word, after: Word) -> bool:
    """`My name's Mina.`: what the name belongs to is no owner."""
    owner = text.words[word.index - 1]
    return owner.lower in ("name", "birthday", "hobby", "number", "colour", "color") and after.dep == "ROOT"


def has_got(text: Text) -> None:
    """`She's got a bike.`: 's before got is has."""
    for word in text.words:
        if word.lower == "got" and word.tag in VERB:
            _join_have(text, word)
            for index in word.children:
                child = text.words[index]
                if child.dep in ("aux", "auxpass") and child.lower in _IS | {"'ve", "have", "has", "had", "ve"}:
                    child.retag("VBZ" if child.lower in _IS else child.tag, "AUX", "have")
                    child.dep = "aux"
                    word.retag("VBN", "VERB", "get")
                    _active(text, word)


def _join_have(text: Text, got: Word) -> None:
    """Put together the have and the got of `Have you got a torch?` where the model has not."""
    if any(text.words[index].dep in ("aux", "auxpass") for index in got.children):
        return
    for have in reversed(text.words[max(0, got.index - 5) : got.index]):
        if have.lower in ("have", "has", "'ve"):
            who = text.words[have.index + 1]
            if who.lower in ("n't", "not"):
                who = text.words[have.index + 2]
            have.retag("VBZ" if have.lower == "has" else "VBP", "AUX", "have")
            text.promote(got, have, "aux")
            if who.tag in ("PRP", "NNP"):
                text.attach(who, got, "nsubj")
            return
        if have.tag not in ("PRP", "RB", "NNP", "NN", "NNS", "DT", "PRP$"):
            return


def _active(text: Text, verb: Word) -> None:
    for index in verb.children:
        if text.words[index].dep == "nsubjpass":
            text.words[index].dep = "nsubj"


def _before_been(text: Text, word: Word) -> bool:
    """Say whether *been* follows, with nothing but adverbs and a subject between: `He's been sleeping`."""
    for after in text.words[word.index + 1 : word.index + 4]:
        if after.lower == "been":
            return True
        if after.tag not in ("RB", "PRP", "NNP"):
            return False
    return False


def is_or_has(text: Text) -> None:
    """`What's he done?`, `She's eaten my cake.`: 's before a participle with an object is has."""
    for word in text.words:
        if word.lower in _IS and word.dep in ("aux", "auxpass") and _before_been(text, word):
            word.retag("VBZ", "AUX", "have")
            word.dep = "aux"
            _active(text, text.words[word.head])
        if word.lower not in _IS or word.dep != "auxpass":
            continue
        verb = text.words[word.head]
        intransitive = verb.lower in ("been", "gone", "come", "finished", "started", "fallen", "arrived", "happened")
        if verb.lower in ("gone", "finished") and verb.index == word.index + 1 and len(text.words) - verb.index < 3:
            intransitive = False
        has_object = text.child(verb, "dobj") and verb.lemma not in _NOT_OBJECTS and not _asks_what_of(text, verb)
        if intransitive or has_object:
            word.retag("VBZ", "AUX", "have")
            word.dep = "aux"
            _active(text, verb)


def _asks_what_of(text: Text, verb: Word) -> bool:
    """`What's it made of?`, `What's it used for?`: the question word is the preposition's, and no object."""
    after = [word.lower for word in text.words[verb.index + 1 : verb.index + 3]]
    stranded = len(after) < 2 or not after[1][:1].isalnum()
    return stranded and (after[:1] in (["of"], ["from"]) or [verb.lower, *after[:1]] == ["used", "for"])


def had_or_would(text: Text) -> None:
    """`She'd eaten`, `he'd never seen`: 'd before a form that can only be a participle is had."""
    words = text.words
    for word in words:
        if word.lower != "'d" or word.tag not in ("MD", "VBD"):
            continue
        at = word.index + 1
        while at < len(words) - 1 and words[at].tag in ("RB", "PRP") and words[at].lower != "better":
            at += 1
        if at >= len(words):
            continue
        verb = words[at]
        if verb.lower == "better" or verb_forms.can_be_participle(verb.lower):
            word.retag("VBD", "AUX", "have")
            if verb.lower != "better":
                verb.retag("VBN", "VERB")
                if word.head != verb.index:
                    text.promote(verb, word, "aux") if verb.head == word.index else text.attach(word, verb, "aux")
        else:
            word.retag("MD", "AUX", "would")


def states(text: Text) -> None:
    """`I'm tired.`, `The shop is closed.`, `used to the dark`: participles that are adjectives after be."""
    results, feelings = tables.words("participial_adjectives"), tables.words("feelings") | tables.words("ed_adjectives")
    for word in text.words:
        if word.tag not in ("VBN", "VBD") or not word.children:
            continue
        helps = ("auxpass", "aux") if word.lower in feelings else ("auxpass",)
        be = next((text.words[i] for i in reversed(word.children) if text.words[i].dep in helps), None)
        if be is None or be.lower not in BE or be.lower == "being":
            continue
        used_to = word.lower == "used" and any(
            text.words[i].lower == "to" and text.words[i].dep == "prep" for i in word.children
        )
        known = word.lower in feelings or (word.lower in results and be.lower not in ("be", "been"))
        if used_to or (known and not text.child(word, "agent")) or _is_side(text, word):
            word.retag("JJ", "ADJ", word.lower)
            text.demote(word, be, "acomp")


def _is_side(text: Text, word: Word) -> bool:
    """`It isn't left. It is right.`: the side, at the end of its clause, and nothing that was left behind."""
    after = text.after(word)
    return word.lower == "left" and (after is None or after.pos == "PUNCT" or after.lower in ("and", "or"))


def taken_apart(text: Text) -> None:
    """`What WERE the seals DOING?`, `it'S RAINING`: be and a participle that the model has not put together."""
    words = text.words
    for verb in words:
        if verb.tag not in ("VBG", "VBN") or verb.mention:
            continue
        be = None
        if verb.dep in ("attr", "acomp"):
            head = words[verb.head]
            if head.lower in BE and head.index < verb.index and verb.tag == "VBG" and _adjacent(text, head, verb):
                be = head
        elif verb.dep == "advcl" and verb.tag == "VBG":
            head = words[verb.head]
            noun = next((words[i] for i in head.children if words[i].dep == "nsubj"), None)
            if noun is not None and _asks(text, head, noun, verb):
                be = head
        elif verb.dep in ("acl", "pobj"):
            noun = words[verb.head]
            while noun.dep in ("prep", "pobj"):
                noun = words[noun.head]
            head = words[noun.head]
            last = verb.index + 1 < len(words) and words[verb.index + 1].lower == "?"
            if _asks(text, head, noun, verb):
                be = head
                text.attach(noun, be, "nsubj")
                text.promote(verb, be, "aux")
                continue
            if (verb.dep == "pobj" or noun.index != verb.head) and not (last and verb.lower == "doing"):
                continue
            if (
                head.lower in BE
                and noun.dep == "nsubj"
                and head.index < noun.index < verb.index
                and not _has_complement(text, head, noun)
            ):
                be = head
                text.attach(noun, be, "nsubj")
        if be is not None:
            text.promote(verb, be, "aux" if verb.tag == "VBG" else "auxpass")


def _asks(text: Text, be: Word, noun: Word, verb: Word) -> bool:
    """Say whether a sentence opens with be, who it asks about, and what they are doing: Was the captain working?"""
    start, end = next((pair for pair in text.sentences if pair[0] <= verb.index < pair[1]), (0, 0))
    opens = be.lower in BE and be.index == start and be.index < noun.index < verb.index
    inside = text.words[noun.index + 1 : verb.index]
    return verb.tag == "VBG" and opens and text.words[end - 1].lower == "?" and not inside


def _adjacent(text: Text, be: Word, verb: Word) -> bool:
    return all(word.tag.startswith(("RB", "PRP")) for word in text.words[be.index + 1 : verb.index])


def _has_complement(text: Text, be: Word, noun: Word) -> bool:
    """Say whether be has a complement of its own, so that the participle belongs to the noun."""
    for index in be.children:
        child = text.words[index]
        if index > noun.index and child.dep in ("attr", "acomp", "nsubj"):
            return True
        if index < be.index and child.lower in ("where", "who", "whose"):
            return True
    return any(text.words[index].lower == "there" for index in be.children)


def no_continuous(text: Text) -> None:
    """`The film is interesting.`, `My favourite sport is swimming.`: -ing words that are complements of be."""
    adjectives, activities = tables.words("ing_adjectives"), tables.words("activities")
    for word in text.words:
        if word.tag != "VBG":
            continue
        be = next((text.words[i] for i in reversed(word.children) if text.words[i].dep == "aux"), None)
        if be is None or be.lower not in BE:
            continue
        who = text.child(word, "nsubj")
        if word.lower in adjectives and not text.child(word, "dobj"):
            word.retag("JJ", "ADJ", word.lower)
            text.demote(word, be, "acomp")
        elif who is not None and who.lower in activities:
            word.retag("NN" if not text.child(word, "dobj") else "VBG", "NOUN", word.lower)
            text.demote(word, be, "attr")


STEPS = (
    possessive_is,
    has_got,
    is_or_has,
    had_or_would,
    taken_apart,
    states,
    no_continuous,
)
