"""Verb groups: a verb with its auxiliaries, its subject, and the tense or mood that its form shows."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from itertools import pairwise
from types import MappingProxyType

from lint_rules import tables
from lint_rules.language.parsing.words import FINITE, VERB, Text, Word

BE = frozenset({"be", "am", "is", "are", "was", "were", "been", "being", "'s", "'m", "'re", "m", "re", "s"})
MODALS: Mapping[str, str] = MappingProxyType(
    {
        "can": "can",
        "ca": "can",
        "could": "could",
        "must": "must",
        "should": "should",
        "ought": "should",
        "may": "may-might",
        "might": "may-might",
        "would": "would",
        "'d": "would",
        "will": "future-will",
        "wo": "future-will",
        "'ll": "future-will",
        "ll": "future-will",
    }
)
# What can stand before its subject in a question.
AUXILIARIES = BE | MODALS.keys() | {"do", "does", "did", "have", "has", "had", "shall", "'ve"}
_SUBJECTS = frozenset({"nsubj", "nsubjpass", "expl", "csubj", "csubjpass"})
_TAG_PRONOUNS = frozenset({"i", "you", "he", "she", "it", "we", "they", "there"})
_NO_ORDERS = frozenset(["xcomp", "pcomp", "csubj", "acl", "relcl", "amod", "compound", "pobj", "dobj", "aux", "nsubj"])
_CLOSING = frozenset({"?", "!", '"', "”"})


@dataclass(slots=True)
class Group:
    """One verb group of a text.

    ``members`` are the indices of the auxiliaries and the verb, in order; ``to`` is the index of an infinitive's *to*;
    ``subject`` that of its subject's head; -1 where there is none. ``shares`` says that it is coordinated with a group
    whose auxiliary it shares. ``names`` are the structures that it shows by its form.
    """

    verb: Word
    members: list[int]
    to: int = -1
    subject: int = -1
    finite: bool = False
    past: bool = False
    modal: str = ""
    perfect: bool = False
    continuous: bool = False
    passive: bool = False
    imperative: bool = False
    shares: bool = False
    tag: bool = False  # a tag question
    names: list[str] = field(default_factory=list)

    @property
    def first(self) -> int:
        """Index of the group's first word (its *to* not counted)."""
        return self.members[0]

    @property
    def last(self) -> int:
        """Index of the group's last word."""
        return self.members[-1]


def verb_groups(text: Text) -> list[Group]:
    """The verb groups of a text, in order; verbs that are only mentioned have none."""
    words = text.words
    groups: list[Group] = []
    by_verb: dict[int, Group] = {}
    for word in words:
        if word.tag not in VERB or word.mention:
            continue
        if word.dep in ("aux", "auxpass") and words[word.head].tag in VERB and not words[word.head].mention:
            continue
        by_verb[word.index] = group = _group(text, word)
        groups.append(group)
    for group in groups:
        _share(text, group, by_verb)
        _name(text, group, by_verb)
    return groups


def _is_parted(text: Text, helper: int, verb: Word) -> bool:
    """Say whether somebody's words end between a helping verb and a verb: "Are you ready?" whispered the cat."""
    return any(word.lower in _CLOSING for word in text.words[helper + 1 : verb.index])


def _group(text: Text, verb: Word) -> Group:
    """Collect the members and the subject of a verb, and read its forms."""
    words = text.words
    group = Group(verb, [verb.index])
    for index in verb.children:
        child = words[index]
        if child.dep in ("aux", "auxpass"):
            if child.tag == "TO":
                group.to = index
            elif child.tag in VERB and index < verb.index and not child.mention and not _is_parted(text, index, verb):
                group.members.insert(len(group.members) - 1, index)
        elif child.dep in _SUBJECTS and (
            group.subject < 0 or child.dep == "expl" or (index < verb.index and words[group.subject].dep != "expl")
        ):
            group.subject = index
    first = words[group.first]
    group.finite = group.to < 0 and first.tag in FINITE
    group.past = first.tag == "VBD"
    if group.finite and first.tag == "MD":
        group.modal = MODALS.get(first.lower, "shall" if first.lower in ("shall", "sha") else "")
        after = [word.lower for word in words[first.index + 1 : first.index + 2]]
        if first.lower in ("ca", "wo") and after not in (["n't"], ["not"], ["nt"]):
            group.modal, group.finite = "", False
    for left, right in pairwise(words[index] for index in group.members):
        if left.lemma == "have" and right.tag in ("VBN", "VBD"):
            group.perfect = first.lemma != "do"  # What did it have round its neck?
        elif left.lower in BE:
            group.continuous = group.continuous or right.tag == "VBG"
            group.passive = group.passive or right.tag in ("VBN", "VBD")
    return group


def _share(text: Text, group: Group, by_verb: dict[int, Group]) -> None:
    """A bare form after *and*, *or*, *but* shares the auxiliary (and the kind) of the verb that it follows."""
    verb = group.verb
    if verb.dep != "conj" or group.subject >= 0 or len(group.members) > 1 or group.to >= 0:
        return
    other = by_verb.get(verb.head)
    if other is None:
        return
    carried = len(other.members) > 1 or other.to >= 0 or other.shares
    if verb.tag in ("VB", "VBP") and other.verb.tag == "VB" and carried:
        if not other.imperative:
            group.shares, group.finite = True, False
    elif verb.tag in ("VBN", "VBG") and other.verb.tag == verb.tag:
        group.shares, group.passive = True, other.passive
    elif verb.tag == "VBP" and other.imperative:
        group.imperative = True
        group.finite = False


def _name(text: Text, group: Group, by_verb: dict[int, Group]) -> None:
    """Find the names of the tense, mood or voice that the group shows. They exclude each other, but for the passive."""
    group.tag = _is_tag(text, group)
    if group.verb.gap or _follows_gap(text, group):
        _name_before_gap(text, group)
        return
    if group.tag or _whole_phrase(text, group):
        return
    names = group.names
    if _so_do_i(text, group):
        names.append("present-simple")
        return
    if not (group.finite or group.shares or group.passive):
        group.imperative = group.imperative or (group.verb.tag == "VB" and _orders(text, group, by_verb))
        return
    if group.passive:
        names.append("passive")
    if group.shares or not group.finite:
        return
    tense = "past" if group.past else "present"
    if group.modal:
        if group.modal != "shall":
            names.append(group.modal)
    elif group.perfect:
        names.append("perfect-continuous" if group.continuous else f"{tense}-perfect")
    elif group.passive:
        pass
    elif group.continuous:
        names.append(f"{tense}-continuous")
    elif group.verb.lower in BE and len(group.members) == 1:
        names.append(f"{tense}-simple-be")
    elif _is_short_answer(text, group):
        names.extend(_answered(text, group))
    elif text.words[group.first].lower == "do" and group.subject < 0 and group.verb.tag == "VB":
        thinks = group.verb.lower == "think" and text.child(group.verb, "ccomp")
        group.imperative = group.verb.lower not in tables.words("never_orders") and not thinks
        if not group.imperative:
            names.append("present-simple")
    elif tense == "past" and group.subject < 0 and group.verb.dep == "ROOT" and _is_late(text, group):
        pass
    else:
        names.append(f"{tense}-simple")


def _follows_gap(text: Text, group: Group) -> bool:
    """Say whether a participle (or what looks like a past) stands right after a gap: `The cat ____ got it`."""
    before = text.before(group.verb)
    return before is not None and before.gap and group.verb.tag in ("VBN", "VBG", "VBD") and len(group.members) == 1


def _name_before_gap(text: Text, group: Group) -> None:
    """Of a group whose verb is left out, only what a modal or do shows by itself."""
    if group.modal and group.modal != "shall":
        group.names.append(group.modal)
    elif text.words[group.first].lower in ("do", "does", "did") and group.subject >= 0:
        group.names.append("past-simple" if group.past else "present-simple")


def _is_short_answer(text: Text, group: Group) -> bool:
    """Say whether *have* stands alone, as in `No, he hasn't.`: it can be have got as well as a perfect."""
    verb = group.verb
    if verb.lower not in ("have", "has", "had", "'ve") or len(group.members) > 1 or group.subject < 0:
        return False
    at = verb.index + 1
    while at < len(text.words) and text.words[at].lower in ("n't", "not"):
        at += 1
    return at >= len(text.words) or text.words[at].lower in (".", "!", ",")


def _answered(text: Text, group: Group) -> list[str]:
    """What a short answer with *have* shows, judged by what stands before it; nothing if nothing does."""
    before = [word for word in text.words[: group.first] if word.tag in ("VBN", "VBD")]
    if not before:
        return []
    return ["have-got" if before[-1].lower == "got" else "past-perfect" if group.past else "present-perfect"]


def _is_late(text: Text, group: Group) -> bool:
    """Say whether other words than `just`, `then` open the sentence of a past form without subject: a participle."""
    start = next(start for start, end in text.sentences if start <= group.first < end)
    between = text.words[start : group.first]
    return any(
        word.tag[:2] in ("RB", "NN", "JJ", "DT") and word.lower not in ("just", "then", "also") for word in between
    )


def _is_tag(text: Text, group: Group) -> bool:
    """Say whether a group is a tag: comma, auxiliary, pronoun, question mark."""
    words = text.words
    at = group.first
    if at == 0 or words[at - 1].lower != "," or words[at].lower not in AUXILIARIES:
        return False
    rest = [word.lower for word in words[at + 1 : at + 4]]
    if rest and rest[0] in ("n't", "not"):
        del rest[0]
    return len(rest) > 1 and rest[0] in _TAG_PRONOUNS and rest[1] == "?"


def infinitive(text: Text, verb: Word) -> Word | None:
    """The verb that follows *to* as a complement of ``verb``: `want to SWIM`."""
    for index in verb.children:
        word = text.words[index]
        if word.tag != "VB" or index < verb.index or word.dep not in ("xcomp", "advcl", "ccomp", "aux"):
            continue
        if any(text.words[child].tag == "TO" and child > verb.index for child in word.children):
            return word
    return None


def _whole_phrase(text: Text, group: Group) -> bool:
    """Name the groups that a grammar book treats as one phrase: going to, have to, used to, have got, supposed to."""
    verb, names = group.verb, group.names
    if verb.tag == "VB" and _had_better(text, group):
        return True
    if verb.lower not in _PHRASE_VERBS:
        return False
    to = infinitive(text, verb)
    next_to = to is not None and _next_to(text, verb, to)
    modal = [group.modal] if group.modal and group.modal != "shall" else []
    somewhere = _goes_somewhere(text, verb)  # he is going back to help
    if verb.lower in ("going", "gon") and next_to and not somewhere and (group.continuous or len(group.members) == 1):
        names.append("going-to-future")
    elif verb.lemma == "have" and next_to:
        names.extend([*modal, "have-to"])
    elif verb.lower == "got" and text.words[group.first].lemma == "have" and len(group.members) == 2:
        moved = text.child(verb, "prt", "acomp", "prep", "advmod") and not text.child(verb, "dobj")
        asked = any(word.lower in _ASKED_FOR for word in text.words[max(0, group.first - 3) : group.first])
        names.append("have-to" if next_to else "present-perfect" if moved and not asked else "have-got")
    elif verb.lower in ("used", "use") and verb.tag in ("VBD", "VB") and next_to and not text.child(verb, "dobj"):
        names.append("used-to")
    else:
        return verb.lower == "supposed" and group.passive
    return True


_PHRASE_VERBS = frozenset(
    {"going", "gon", "have", "has", "had", "'ve", "got", "used", "use", "supposed", "having", "'s"}
)


_ASKED_FOR = frozenset({"what", "which", "many", "much"})  # What have you got in there? asks for the object


def _had_better(text: Text, group: Group) -> bool:
    first = group.first
    return text.words[first].lower in ("'d", "had") and text.words[first + 1].lower == "better"


_STILL_FUTURE = frozenset({"not", "n't", "just", "never"})


def _goes_somewhere(text: Text, verb: Word) -> bool:
    """Say whether an adverb right behind a verb says where somebody goes: back, out, home."""
    behind = next((word for word in text.words[verb.index + 1 :] if not word.gap), None)
    return behind is not None and behind.tag in ("RB", "RP", "NN") and behind.lower not in _STILL_FUTURE


def _next_to(text: Text, verb: Word, to: Word) -> bool:
    """Say whether nothing but adverbs stands between a verb and the *to* of its infinitive."""
    between = text.words[verb.index + 1 : to.index]
    return all(word.tag in ("TO", "RB", "VB") or word.gap for word in between)


def _so_do_i(text: Text, group: Group) -> bool:
    """`So do I.`, `Neither do I.`: do stands for a present tense."""
    before = text.before(group.verb)
    return group.verb.lower == "do" and before is not None and before.lower in ("so", "neither", "nor")


def _orders(text: Text, group: Group, by_verb: dict[int, Group]) -> bool:
    """Say whether a base form without subject or *to* is an order."""
    verb = group.verb
    if group.to >= 0 or (verb.lower in ("let", "lets") and _let_us(text, verb)):
        return False
    opens = any(start == group.first for start, _ in text.sentences)
    if group.first > 1 and text.words[group.first - 1].lower == "not" and text.words[group.first - 2].lower == "why":
        return False
    if len(group.members) > 1:
        return text.words[group.first].lower == "do"
    if opens:
        return True
    if group.subject >= 0 and not _called(text, group):
        who = text.words[group.subject]
        return who.lower in tables.group("anybody") and verb.dep == "ROOT" and text.words[-1].lower != "?"
    head = text.words[verb.head]
    if head.index > verb.index + 1 and head.lower in tables.words("speech_verbs"):
        return True  # `"Come here!" said Tom`
    if verb.dep in _NO_ORDERS:
        return False
    if verb.dep == "ccomp":  # direct speech (`"Come here!" said Tom`) or a bare complement (`let it dry`)
        return head.index > verb.index or head.lemma not in tables.words("bare_infinitive_verbs")
    if verb.dep in ("conj", "dep"):
        other = by_verb.get(verb.head)
        if other is None:
            return head.tag not in ("NN", "NNS", "JJ", "NNP")
        linked = text.words[verb.index - 1].lower in ("so", "but", ",", "please", "or", "n't", "then")
        told = other.subject >= 0 and text.words[verb.index - 1].lower in (",", "or", "then")
        return other.imperative or (linked and not told and other.verb.tag != "VB")
    return True


def _called(text: Text, group: Group) -> bool:
    """Say whether what looks like a subject is somebody called: `One, two, three, come with me!`, `Tom, stop!`"""
    return text.words[group.verb.index - 1].lower == ","


def _let_us(text: Text, verb: Word) -> bool:
    after = text.after(verb)
    return after is not None and after.lower in ("'s", "us", "s")
