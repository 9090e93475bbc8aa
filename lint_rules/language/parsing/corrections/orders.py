"""Orders: base forms at the start of a sentence, after *please*, after a name called out, and in a row."""

from lint_rules import tables
from lint_rules.language.inflection import verb_forms
from lint_rules.language.parsing.words import FINITE, NOUN, Text, Word

_DIRECTIONS = frozenset(
    [
        "for",
        "from",
        "under",
        "over",
        "through",
        "like",
        "until",
        "to",
        "onto",
        "into",
        "at",
        "up",
        "down",
        "out",
        "off",
        "on",
        "in",
        "with",
        "along",
        "around",
        "about",
        "again",
    ]
)
_SKIPPED = frozenset(
    {'"', "'", "(", "-", "now", "then", "and", "just", "also", "so", "well", "ok", "okay", "first", "next"}
)


def openers(text: Text) -> list[Word]:
    """The first word of each sentence, quotation marks, numbers, names called out and the like passed over."""
    found = []
    for start, end in text.sentences:
        at = start
        while at < end - 1:
            word, after = text.words[at], text.words[at + 1]
            adverb = word.tag == "RB" and after.lower in tables.words("never_orders")
            if (word.lower in _SKIPPED and word.tag != "VB") or adverb:
                at += 1
            elif (word.tag in ("CD", "LS") and after.lower in (".", ")")) or (
                after.lower == "," and at + 2 < end and _is_called(word, text.words[at + 2])
            ):
                at += 2
            else:
                break
        if at < end:
            found.append(text.words[at])
    return found


def _is_called(word: Word, following: Word) -> bool:
    """Say whether a word before a comma is a name or an exclamation, and not the first of a row (`Hop, hop, hop!`)."""
    orders = word.lower in tables.words("orders") and not word.name and following.tag in ("NN", "NNS")
    return (word.tag in ("NNP", "UH") or word.name) and word.lower != following.lower and not orders


def at_start(text: Text) -> None:
    """`Point to the cat.`, `Match the words.`, `Row, row, row!`: a noun by the model's book, an order by ours."""
    known = tables.words("orders")
    for word in openers(text):
        if word.dep in ("aux", "auxpass"):
            continue
        if word.tag == "VB" and word.lower not in verb_forms.bases() and _is_label(text, word):
            word.retag("JJ", "ADJ", word.lower)
        if word.tag == "VBP" and word.lower in verb_forms.bases() and _lacks_subject(text, word):
            _make_order(text, word)
        if word.lower not in known or word.mention or word.name or word.tag == "VB":
            continue
        if word.tag in FINITE and word.tag != "VBP" and word.lower not in verb_forms.like_base():
            continue
        after = text.after(word)
        if after is None or (after.tag in FINITE and after.lower not in ("and", ",")):
            continue
        if _is_paired(text, word):
            _make_order(text, word)
        if _has_other_verb(text, word):
            continue
        if any(one.tag in ("VBZ", "VBD") for one in text.words[word.index :]) and after.lower == ",":
            continue
        repeated = (
            after.lower == "," and word.index + 2 < len(text.words) and text.words[word.index + 2].lower == word.lower
        )
        if repeated:
            for one in text.words[word.index :]:
                if one.lower == word.lower:
                    _make_order(text, one)
        elif (
            after.lower in tables.group("objects")
            or (text.instruction and not _is_title(text, word, after))
            or _calls_somebody(text, word)
            or (after.lower == "!" and _is_called_out(text, word))
            or (after.lower in _DIRECTIONS and _is_stopped(text, word))
        ):
            _make_order(text, word)


def _is_called_out(text: Text, word: Word) -> bool:
    """`Jump!`, `“Rafi, stop!”`, `Run! Swim!`: an order of one word."""
    if word.index == 0 or text.words[word.index - 1].lower in (",", '"'):
        return True
    before = text.words[word.index - 2]
    return text.words[word.index - 1].lower == "!" and before.tag == "VB"


def _calls_somebody(text: Text, word: Word) -> bool:
    """`Swim, fish!`: an order, a comma, who is to do it."""
    rest = text.words[word.index + 1 : word.index + 4]
    return len(rest) > 2 and rest[0].lower == "," and rest[1].tag in NOUN and rest[2].lower == "!"


def _is_title(text: Text, word: Word, after: Word) -> bool:
    """`Number game`, `Time to play`: a line without a stop whose first word can be a noun."""
    start, end = next(pair for pair in text.sentences if pair[0] <= word.index < pair[1])
    short = end - start <= 3 and after.tag in NOUN
    return text.words[end - 1].tag != "." and (short or after.lower in ("to", "of", "for"))


def _is_label(text: Text, word: Word) -> bool:
    """`WET PAINT`: two words and no stop are a label."""
    start, end = next(pair for pair in text.sentences if pair[0] <= word.index < pair[1])
    return end - start == 2 and text.words[end - 1].tag in NOUN


def _lacks_subject(text: Text, word: Word) -> bool:
    """Say whether a present tense stands without a subject, an auxiliary and a question mark."""
    if word.mention or word.lower in tables.words("never_orders") or text.words[-1].lower == "?":
        return False
    return not any(text.words[i].dep in ("nsubj", "expl", "aux", "auxpass", "csubj") for i in word.children)


def _is_stopped(text: Text, word: Word) -> bool:
    end = next(end for start, end in text.sentences if start <= word.index < end)
    return text.words[end - 1].lower in (".", "!")


def _is_paired(text: Text, word: Word) -> bool:
    """Say whether a word and the next are two verbs of one object: `Colour and cut the arrow.`"""
    rest = [one.lower for one in text.words[word.index + 1 : word.index + 4]]
    paired = len(rest) > 2 and rest[0] in ("and", "or") and rest[1] in verb_forms.like_base()
    return paired and (rest[2] in tables.group("objects") or rest[2] in ("out", "up", "off"))


def _has_other_verb(text: Text, word: Word) -> bool:
    """Say whether the sentence has a finite verb of which the word is the subject: `Mime is a kind of acting.`"""
    head = text.words[word.head]
    return word.dep in ("nsubj", "nsubjpass") and head.tag in FINITE and head.index > word.index


def _make_order(text: Text, word: Word) -> None:
    word.retag("VB", "VERB", word.lower)
    text.detach(word)


_LINKS = frozenset({"and", "or", ",", "then", "&", "but"})
_COULD_BE_VERBS = frozenset({"NN", "NNP", "JJ", "RB", "VBP", "IN", "VB", "UH", "VBN", "VBD"})


def in_a_row(text: Text) -> None:
    """`Complete it and FORWARD it`, `listen, POINT and NAME`: what is coordinated with an order can be one."""
    known = verb_forms.bases()
    for word in openers(text):
        if word.tag != "VB" or word.mention or (word.dep in ("aux", "auxpass") and word.lower != "let"):
            continue
        if word.dep == "aux":
            verb = text.words[word.head]  # `Let go!`
            text.detach(word)
            text.attach(verb, word, "ccomp")
        if _calls_somebody(text, word):
            continue
        last = word
        end = next(end for start, end in text.sentences if start <= word.index < end)
        for link in text.words[word.index + 1 : end - 1]:
            after = text.words[link.index + 1]
            if link.lower not in _LINKS or after.tag not in _COULD_BE_VERBS or after.lower not in known:
                continue
            if _continues(text, link, after, last):
                after.retag("VB", "VERB", after.lower)
                for index in list(after.children):
                    if text.words[index].dep == "nsubj" and text.words[index].tag == "VB":
                        text.detach(text.words[index])
                text.attach(after, last, "conj")
                last = after
            elif after.tag == "VB" and after.dep == "conj":
                last = after


def _continues(text: Text, link: Word, word: Word, last: Word) -> bool:
    """Say whether a word that can be a verb goes on with the orders before it."""
    if word.tag == "VB" and word.dep in ("conj", "ROOT"):
        return False
    if any(text.words[i].dep in ("aux", "nsubj") and text.words[i].tag != "VB" for i in word.children):
        return False
    if any(text.words[i].dep in ("amod", "det", "poss", "nummod") for i in word.children):
        return False
    before, after = text.words[link.index - 1], text.after(word)
    if before.lower in (",", "and"):
        before = text.words[link.index - 2]
    if before is last or (link.lower == "then" and word.tag == "VBP"):
        return True
    listed = link.lower == "," and after is not None and after.lower in tables.group("objects") | _DIRECTIONS
    if (listed or word.dep == "conj") and word.lower in verb_forms.like_base():
        return True  # `Fold the paper, CUT along the line`
    if after is None or word.tag in ("JJ", "RB", "IN", "VBN", "VBD"):
        return False
    if after.lower in tables.group("objects") and after.lower not in ("that", "both"):
        return True
    stops = after.tag in (".", ",", "CC") or after.index + 1 == len(text.words)
    return text.instruction and stops and word.tag == "NN" and before.tag in ("NNS", "PRP", "RB", "RP")


STEPS = (at_start, in_a_row)
