"""Slips of verbs that a key makes: agreement (`the bus go`), forms (`didn't went`), times (`yesterday we go`)."""

import re
from collections.abc import Iterator, Set

from lint_rules import lazy_re
from lint_rules.language.inflection.forms import ing_form
from lint_rules.language.inflection.irregular import irregular_plurals
from lint_rules.language.inflection.verb_forms import (
    bases,
    can_be_participle,
    is_its_own_participle,
    only_participle,
    only_past,
    pasts,
)
from lint_rules.language.tokens import Token
from lint_rules.language.vocabulary.misspellings import past_meant
from lint_rules.language.vocabulary.reference import is_a, lowest
from lint_rules.tables import words
from lint_rules.unit_language.key_sentence import (
    MANY,
    MODALS,
    ONE,
    PLURAL,
    SINGULAR,
    KeySentence,
    KeySlip,
    either_number,
)

_PASTS = lazy_re.compile(
    r"\b(?:yesterday|last\s+(?:night|week|month|year|summer|winter|monday|friday|weekend)|\w+\s+ago)\b", re.I
)
_BE = ("am", "is", "are", "was", "were", "'m", "'re")
_SAME_PAST = frozenset({"is", "are", "read", "put", "cut", "let", "hit"})


def agreement(sentence: KeySentence) -> Iterator[KeySlip]:
    """A verb of another number than its subject."""
    tokens = sentence.tokens
    for at in range(len(tokens)):
        number = _number_of_verb(sentence, at)
        if number is None:
            continue
        and_i = sentence.low(at - 1) == "i" and sentence.low(at - 2) == "and"
        if number == "singular" and and_i and sentence.touches(at):
            yield sentence.slip(at - 1, at)  # My sister and I likes
            continue
        subject = _subject(sentence, at)
        denied = sentence.low(at + 1) == "n't" and sentence.touches(at + 1)
        if subject is None or not (sentence.touches(at, subject) or denied) or _is_unsure(sentence, subject, at):
            continue
        of_subject = _number_of_subject(sentence, subject)
        if of_subject is not None and not _agree(of_subject, number, sentence.low(at)):
            last = max(at, subject)
            yield sentence.slip(min(at, subject), last + (sentence.low(last + 1) == "n't"))


def _is_unsure(sentence: KeySentence, subject: int, at: int) -> bool:
    """Whether subject and verb may agree in a way that they do not show: an amount (twenty degrees is warm), a piece of
    a question whose do stands elsewhere (… the guest bring?), a letter (B Come in!), what is not real (If I were), a
    sum (ninety coins is a lot)."""
    if sentence.low(at) == "were" and {"if", "wish", "though"} & {sentence.low(subject - 1), sentence.low(subject - 2)}:
        return True
    amount = sentence.low(subject).removesuffix("s") in words("measures") and sentence.low(at) in ("is", "was")
    counted = amount and sentence.low(subject - 1) not in ("the", "these", "those", "my", "your", "our", "their")
    numbered = subject > 0 and sentence.tokens[subject - 1].tag == "CD"
    counted = counted or (numbered and sentence.low(at) in ("is", "was") and sentence.low(at + 1) in _IN_ONE)
    piece = sentence.tokens[-1].text == "?" and sentence.low(at) not in _BE_HAVE_DO and subject < at
    letter = len(sentence.tokens[subject].text) == 1 and sentence.low(subject) != "i"
    return counted or piece or letter


def _agree(subject: str, number: str, verb: str) -> bool:
    if subject == "I":
        return number == "I" or verb == "was" or (number == "plural" and verb not in ("are", "were"))
    return number == subject


_IN_ONE = frozenset({"a", "enough", "too", "not", "much", "more", "less", "all"})  # what a sum of money is
_PLURAL_IN_ANY_FORM = frozenset({"people", "police"})
_BE_HAVE_DO = {
    "is": "singular", "was": "singular", "has": "singular", "does": "singular", "isn't": "singular",
    "are": "plural", "were": "plural", "have": "plural", "do": "plural", "am": "I",
}  # fmt: skip


def _number_of_verb(sentence: KeySentence, at: int) -> str | None:
    """The number that a finite verb shows, None where it shows none or is none."""
    token, low = sentence.tokens[at], sentence.low(at)
    before = sentence.low(at - 1)
    if low in _BE_HAVE_DO:
        if before == "to" or before in MODALS or (before in ("n't", "not") and sentence.low(at - 2) in MODALS):
            return None
        if low in ("do", "have") and _helped(sentence, at):
            return None
        return _BE_HAVE_DO[low]
    if token.pos != "VERB" and not (at in sentence.filled and low in bases()):
        return None
    if token.tag == "VBZ" and low.endswith("s"):
        return "singular"
    if before.endswith("ing") and sentence.low(at - 2) in (*_BE, "'s", "'re", "'m"):
        return None  # she's drinking water
    if low in bases() and token.tag in ("VB", "VBP", "NN") and not _helped(sentence, at) and before != "to":
        return "plural"
    if is_rarer_base(token) and before in ("he", "she", "it") and not _helped(sentence, at):
        return "plural"
    return None


def is_rarer_base(token: Token) -> bool:
    """Say whether a word is the base form of a verb that courses use less: weigh."""
    return token.tag == "VBP" and token.text.casefold() == token.lemma and is_a(token.lemma, "VERB")


def _helped(sentence: KeySentence, at: int) -> bool:
    """Whether a helping verb belongs to a verb: `does … sleep`, `can swim`."""
    return any(
        token.head == at and index != at and token.dep in ("aux", "auxpass")
        for index, token in enumerate(sentence.tokens)
    ) or any(
        sentence.low(index) in {*MODALS, "do", "does", "did", "to", "let", "let's", "please"}
        for index in range(max(0, at - 4), at)
    )


def _subject(sentence: KeySentence, at: int) -> int | None:
    """The subject of a verb or of the verb that it helps: the one word before it (behind it in a question)."""
    tokens = sentence.tokens
    heads = {at}
    if tokens[at].dep in ("aux", "auxpass", "cop"):
        heads.add(tokens[at].head)
    main = tokens[at].head if tokens[at].dep in ("aux", "auxpass") else at
    denied = sentence.low(at) == "do" and sentence.low(at + 1) == "n't" and tokens[at - 1].head == main  # but Ana don't
    under = tokens[main].dep in ("advcl", "ccomp") and sentence.low(at) in ("is", "was")  # When the socks is
    under = under and tokens[at - 1].dep in ("nsubj", "nsubjpass") and tokens[at - 1].head in heads
    own = tokens[main].dep == "ROOT" or (tokens[main].dep == "conj" and (main == at or denied))
    if not own and not under:
        return None
    found = [index for index, token in enumerate(tokens) if token.head in heads and token.dep in ("nsubj", "nsubjpass")]
    if any(token.dep == "expl" and token.head in heads for token in tokens):  # there is: what there is
        found = [index for index, token in enumerate(tokens) if token.head in heads and token.dep == "attr"]
    if len(found) != 1:
        return None
    behind = sentence.tokens[at + 1].pos if at + 1 < len(tokens) else ""
    counted = sentence.low(found[0] - 1) in ("many", "much") and sentence.low(found[0] - 2) == "how"
    if counted and found[0] < at and behind in ("DET", "PRON", "NOUN", "PROPN"):
        return None  # How many legs has a crab?
    # Only what is near: a subject with a clause or a phrase of its own may be misread.
    reach = 5 if sentence.low(found[0] + 1) == "of" else 3
    return found[0] if abs(found[0] - at) <= reach else None


def _are_of_something(sentence: KeySentence, at: int, under: Set[str]) -> bool:
    """Whether a plural subject is one with its own article and a short `of` behind it, no amount (lots of water)."""
    token = sentence.tokens[at]
    of = [index for index, other in enumerate(sentence.tokens) if other.head == at and other.dep == "prep"]
    return (
        token.tag == "NNS"
        and token.text.islower()
        and sentence.low(at - 1) in ("the", "these", "those", "my", "your", "his", "her", "our", "their")
        and not under & {"cc", "conj", "relcl", "appos"}
        and [sentence.low(index) for index in of] == ["of"]
        and of[0] == at + 1
    )


def _number_of_subject(sentence: KeySentence, at: int) -> str | None:
    token, low = sentence.tokens[at], sentence.low(at)
    under = {other.dep for other in sentence.tokens if other.head == at}
    joined = any(other.head == at and other.dep == "conj" and other.tag == "NNP" for other in sentence.tokens)
    if joined and token.text[:1].isupper() and sentence.low(at + 1) == "and" and at == 0:
        return "plural"  # Tom and Ben
    if "conj" in under and _is_there(sentence) and token.tag == "NNS" and sentence.low(at - 1) in MANY:
        return "plural"  # There are two windows and a door: what stands next to it decides
    if _are_of_something(sentence, at, under):
        return "plural"  # the pages of my notebook
    if under & {"cc", "conj", "relcl", "appos"} or ("prep" in under and not _is_there(sentence)):
        return None
    if low in _PLURAL_IN_ANY_FORM and sentence.low(at - 1) in ("the", "these", "those", "many", ""):
        return "plural"
    if low in either_number() or not token.text.isalpha() or sentence.low(at - 1) in ("and", "or", "nor"):
        return None
    if low == "i":
        return "I"
    if low in SINGULAR or low in PLURAL:
        return "singular" if low in SINGULAR else "plural"
    determiners = {
        sentence.low(index) for index, other in enumerate(sentence.tokens) if other.head == at and index < at
    }
    if token.text[:1].isupper() and low.endswith("s") and {lowest(low), lowest(low.removesuffix("s"))} <= {"", "C2"}:
        return None  # Ines, Cerys
    if token.tag == "NNS" and low.endswith("s") and not determiners & ONE:
        return "plural"
    if low in irregular_plurals():
        return "plural"
    ends_in_s = low.endswith("s") and not low.endswith(("us", "ss", "is"))
    if token.tag == "NN" and not ends_in_s and not determiners & MANY:
        return "singular"
    if token.tag == "NNP" and not low.endswith("s"):
        return "singular"
    return None


def _is_there(sentence: KeySentence) -> bool:
    """Whether a sentence says or asks what there is."""
    return "there" in (sentence.low(0), sentence.low(1))


def verb_forms(sentence: KeySentence) -> Iterator[KeySlip]:
    """A form that its helping verb does not allow, and pasts that there are not."""
    tokens = sentence.tokens
    for at in range(1, len(tokens)):
        low, before = sentence.low(at), sentence.low(at - 1)
        helper = sentence.low(at - 2) if before in ("n't", "not") else before
        helped_by = at - 2 if before in ("n't", "not") else at - 1
        if not sentence.touches(at, helped_by, at - 1):
            continue
        if (
            helper in MODALS
            and tokens[helped_by].tag == "MD"
            and (low == "to" or low in only_past() or (tokens[at].tag == "VBZ" and low not in bases()))
            and not (tokens[at].tag == "VBZ" and sentence.low(at + 1) in bases())  # Can seals climb?
        ):
            yield sentence.slip(helped_by, at)
        regular = low.endswith("ed") and low not in bases() and tokens[at].tag in ("VBD", "VBN") and helper == "did"
        if helper in ("do", "does", "did") and (
            regular or low in _pasts_of_children() or low in words("third_persons")
        ):
            yield sentence.slip(helped_by, at)
        plain = low in bases() and tokens[at].tag == "VB" and not can_be_participle(low)
        plain = plain and not is_its_own_participle(low) and not tokens[at].text.isupper()  # the answer is LOOK UP
        plain = plain and sentence.low(helped_by - 1) != "where"  # Where is sign A?
        plain = plain and not sentence.names_words(helped_by)
        if helper in (*_BE, "have", "has", "'ve") and plain and tokens[at].head != helped_by:
            going_on = f"{tokens[helped_by].text} {ing_form(low)}" if helper in _BE and helped_by == at - 1 else ""
            yield sentence.slip(helped_by, at, going_on)
        if helper in ("have", "has", "'ve") and low == "saw" and before != helper:
            yield sentence.slip(helped_by, at)
        if helper in ("have", "has", "had", "'ve") and low in only_past() - {"had", "got"}:
            yield sentence.slip(helped_by, at)
        if before in ("ever", "never", "just", "already") and sentence.low(at - 2) in (
            "have",
            "has",
            "'ve",
            "you",
            "i",
        ):
            earlier = {sentence.low(index) for index in range(max(0, at - 5), at)}
            if earlier & {"have", "has", "'ve"} and low in only_past() - {"had"}:
                yield sentence.slip(at - 1, at)
        if (
            helper in ("am", "is", "are", "was", "were", "'m", "'re")
            and low in only_past()
            and tokens[at].pos == "VERB"
        ):
            yield sentence.slip(helped_by, at)
        if before == "to" and (low in only_past() or low in words("third_persons")) and sentence.touches(at):
            yield sentence.slip(at - 1, at)
    for at in range(2, len(tokens)):
        helped = [index for index in range(at - 1) if tokens[index].head == at and tokens[index].dep == "aux"]
        asked = any(sentence.low(index) in ("do", "does", "did") for index in helped) and sentence.touches(at, *helped)
        low = sentence.low(at)
        regular = low.endswith("ed") and low not in bases()  # What time did it all started?
        if asked and (regular or low in _pasts_of_children() or low in words("third_persons")):
            yield sentence.slip(helped[0], at)
    for at in sentence.filled:
        low = sentence.low(at)
        if past := past_meant(low):
            yield sentence.slip(at, at, past)
        if low in only_participle() - {"been", "done", "gone", "seen"} and not _has_helper(sentence, at):
            subject = at and sentence.low(at - 1) in {*SINGULAR, *PLURAL, "i"} - {"this", "that", "these", "those"}
            if subject:
                yield sentence.slip(at - 1, at)
        bare = low in ("done", "gone", "seen") and not _has_helper(sentence, at)
        if bare and at and sentence.low(at - 1) in ("i", "he", "she", "it", "we", "they"):
            yield sentence.slip(at - 1, at)


def _pasts_of_children() -> frozenset[str]:
    """Pasts behind did and do: nobody in a children's course founds a town or fells a tree."""
    return pasts() | {"found", "fell"}


def conditions(sentence: KeySentence) -> Iterator[KeySlip]:
    """`If I would have a boat, …`, `If it will rain, …`: no would and no will in the clause with if."""
    if sentence.low(0) != "if" or sentence.low(1) == "you":
        return
    for at in range(2, min(4, len(sentence.tokens) - 1)):
        between = [sentence.tokens[index].pos for index in range(1, at)]
        after, plain = sentence.low(at + 1), set(between) <= {"PRON", "DET", "NOUN", "PROPN"}
        told = plain and sentence.low(at) in ("would", "will") and sentence.touches(at)
        if told and after != "like" and after in bases():
            yield sentence.slip(at, at + 1)


def _has_helper(sentence: KeySentence, at: int) -> bool:
    helpers = {"have", "has", "had", "am", "is", "are", "was", "were", "be", "been", "being", "get", "got"}
    return any(
        sentence.low(index) in helpers or sentence.low(index) in ("'s", "'ve", "'d", "'re", "'m")
        for index in range(max(0, at - 6), at)
    )


def times(sentence: KeySentence) -> Iterator[KeySlip]:
    """A time that does not go with since, for or a present verb."""
    tokens = sentence.tokens
    for at in range(len(tokens) - 1):
        low, after = sentence.low(at), sentence.low(at + 1)
        units = {"years", "months", "weeks", "days", "hours", "minutes"}
        counted = (after in MANY or (after.isdigit() and len(after) < 3)) and sentence.low(at + 2) in units
        if low == "since" and sentence.touches(at) and counted and sentence.low(at + 3) != "ago":
            yield sentence.slip(at, at + 2)
        if low == "for" and sentence.touches(at) and re.fullmatch(r"(?:19|20)\d\d", after):
            yield sentence.slip(at, at + 1)
    text = " ".join(token.text for token in tokens)
    if _PASTS.search(text):
        for at in sentence.filled:
            present = tokens[at].tag in ("VBZ", "VBP") and sentence.low(at) not in _SAME_PAST
            if present and tokens[at].dep == "ROOT" and tokens[at].pos == "VERB" and not _helped(sentence, at):
                yield sentence.slip(at, at)
