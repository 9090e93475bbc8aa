"""Verb groups: a verb with its auxiliaries, its subject, and the one tense label that the group carries."""

from dataclasses import dataclass, field

from lint_rules.language.words import FINITE, VERB, Text, Word

BE = frozenset({"be", "am", "is", "are", "was", "were", "been", "being", "'s", "'m", "'re", "ai", "m", "re", "s"})
MODALS = {
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
    "shall": "future-will",
    "sha": "future-will",
    "ll": "future-will",
}
_SUBJECTS = ("nsubj", "nsubjpass", "expl", "csubj", "csubjpass")


@dataclass(slots=True)
class Group:
    """One verb group of a text.

    ``members`` are the indices of the auxiliaries and the verb, in order; ``to`` is the index of an infinitive's *to*;
    ``subject`` that of its subject's head; -1 where there is none. ``shares`` says that it is coordinated with a group
    whose auxiliary it shares.
    """

    verb: Word
    members: list[int]
    to: int = -1
    negation: int = -1
    subject: int = -1
    finite: bool = False
    modal: str = ""
    past: bool = False
    perfect: bool = False
    continuous: bool = False
    passive: bool = False
    imperative: bool = False
    shares: bool = False
    names: list[str] = field(default_factory=list)  # the structures that it shows by its form

    @property
    def first(self) -> int:
        """Index of the group's first word (its *to* not counted)."""
        return self.members[0]

    @property
    def last(self) -> int:
        """Index of the group's last word."""
        return self.members[-1]


def verb_groups(text: Text) -> list[Group]:
    """The verb groups of a text, in order."""
    groups: list[Group] = []
    by_verb: dict[int, Group] = {}
    for word in text.words:
        if word.tag in VERB and not (word.dep in ("aux", "auxpass") and text.words[word.head].tag in VERB):
            group = _group(text, word)
            groups.append(group)
            by_verb[word.index] = group
    for group in groups:
        _share(text, group, by_verb)
        _name(text, group)
    return groups


def _group(text: Text, verb: Word) -> Group:
    members = [verb.index]
    group = Group(verb, members)
    for index in verb.children:
        child = text.words[index]
        dep = child.dep
        if dep in ("aux", "auxpass"):
            if child.tag == "TO":
                group.to = index
            elif child.tag in VERB:
                members.append(index)
        elif dep in _SUBJECTS:
            if group.subject < 0 or dep == "expl":
                group.subject = index
        elif dep == "neg":
            group.negation = index
    if len(members) > 1:
        members.sort()
        if members[-1] != verb.index:  # an auxiliary after its verb is no auxiliary of it
            del members[members.index(verb.index) + 1 :]
    first = text.words[members[0]]
    group.finite = group.to < 0 and first.tag in FINITE
    if group.finite and first.tag == "MD":
        group.modal = MODALS.get(first.lower, "")
    group.past = first.tag == "VBD"
    _aspects(text, group)
    return group


def _aspects(text: Text, group: Group) -> None:
    """Read perfect, continuous and passive off the chain of forms."""
    chain = [text.words[index] for index in group.members]
    for left, right in zip(chain, chain[1:], strict=False):
        if left.lemma == "have" and right.tag in ("VBN", "VBD"):
            group.perfect = True
        elif left.lemma in ("be", "get") or left.lower in BE:
            if right.tag == "VBG":
                group.continuous = True
            elif right.tag in ("VBN", "VBD"):
                group.passive = True


def _share(text: Text, group: Group, by_verb: dict[int, Group]) -> None:
    """A bare form after *and*, *or*, *but* shares the auxiliary (and the kind) of the verb that it follows."""
    verb = group.verb
    if verb.dep != "conj" or group.subject >= 0 or len(group.members) > 1 or group.to >= 0:
        return
    other = by_verb.get(verb.head)
    if other is None:
        return
    same = other.verb.tag == verb.tag or (verb.tag == "VBP" and other.verb.tag == "VB")
    carried = len(other.members) > 1 or other.to >= 0 or other.shares
    if verb.tag in ("VB", "VBP") and other.verb.tag == "VB" and carried and text.words[other.first].lower != "do":
        group.shares, group.finite = True, False
    elif verb.tag in ("VBN", "VBG") and same:
        group.shares = True
        group.passive = other.passive
    elif verb.tag == "VBP" and other.imperative:
        group.finite = False


def _name(text: Text, group: Group) -> None:
    """Find the names of the tenses and moods that the group shows."""
    verb = group.verb
    names = group.names
    if _whole_phrase(text, group):
        return
    if group.shares:
        if group.passive:
            names.append("passive")
        return
    if group.modal:
        names.append(group.modal)
        if group.passive:
            names.append("passive")
        return
    if not group.finite:
        if group.passive:
            names.append("passive")
        elif verb.tag == "VB" and group.to < 0:
            group.imperative = _orders(text, group)
        return
    if group.perfect and group.continuous:
        names.append("perfect-continuous")
    elif group.perfect:
        names.append("past-perfect" if group.past else "present-perfect")
        if group.passive:
            names.append("passive")
    elif group.passive:
        names.append("passive")
    elif group.continuous:
        names.append("past-continuous" if group.past else "present-continuous")
    elif verb.lemma == "be":
        names.append("past-simple-be" if group.past else "present-simple-be")
    elif text.words[group.first].lower in ("do", "don't") and group.subject < 0 and verb.tag == "VB":
        group.imperative = True
    else:
        names.append("past-simple" if group.past else "present-simple")


def _orders(text: Text, group: Group) -> bool:
    """Say whether a base form without subject or *to* is an order."""
    verb = group.verb
    if group.subject >= 0 or (verb.lower in ("let", "lets") and _let_us(text, verb)):
        return False
    if len(group.members) > 1:
        return text.words[group.first].lower == "do"
    if verb.dep in ("ccomp", "xcomp", "pcomp", "csubj", "acl", "relcl", "amod", "compound", "pobj", "dobj"):
        start = next(start for start, end in text.sentences if start <= verb.index < end)
        return verb.index == start
    return True


def _let_us(text: Text, verb: Word) -> bool:
    after = text.after(verb)
    return after is not None and after.lower in ("'s", "us")


def infinitive(text: Text, verb: Word) -> Word | None:
    """The verb that follows *to* as a complement of ``verb``: `want to SWIM`."""
    for index in verb.children:
        word = text.words[index]
        if word.dep in ("xcomp", "advcl", "ccomp", "aux") and index > verb.index and word.tag == "VB":
            if any(text.words[child].tag == "TO" and child > verb.index for child in word.children):
                return word
    return None


def _whole_phrase(text: Text, group: Group) -> bool:
    """Name the groups that a grammar book treats as one phrase: going to, have to, used to, have got, supposed to."""
    verb, names = group.verb, group.names
    to = infinitive(text, verb)
    if to is not None and to.index - verb.index > 5:
        to = None
    if verb.lower in ("going", "gon") and group.continuous and to is not None:
        names.append("going-to-future")
    elif verb.lemma == "have" and to is not None and _next_to(text, verb, to):
        if group.modal:
            names.append(group.modal)
        names.append("have-to")
    elif verb.lower == "got" and text.words[group.first].lemma == "have" and len(group.members) == 2:
        names.append("have-to" if to is not None and _next_to(text, verb, to) else "have-got")
    elif verb.lower in ("used", "use") and verb.tag in ("VBD", "VB") and to is not None and not group.passive:
        names.append("used-to")
    elif verb.lower == "supposed" and group.passive:
        pass
    else:
        return False
    return True


def _next_to(text: Text, verb: Word, to: Word) -> bool:
    """Say whether nothing but adverbs stands between a verb and the *to* of its infinitive."""
    between = text.words[verb.index + 1 : to.index]
    return all(word.tag in ("TO", "RB", "VB") for word in between)
