"""Tags that the spelling or the neighbours of a verb form decide: past forms, base forms, verbs tagged as nouns."""

from lint_rules import tables
from lint_rules.language.inflection import verb_forms
from lint_rules.language.inflection.lemmas import lemma
from lint_rules.language.parsing.words import FINITE, NOUN, VERB, Text, Word

SUBJECTS = ("nsubj", "nsubjpass", "expl", "csubj")
_DO = frozenset({"do", "does", "did"})
_THIRD = frozenset({"he", "she", "it", "this", "that", "everyone", "everybody", "someone", "somebody", "nobody", "who"})
_PAST_HINTS = frozenset({"yesterday", "last", "ago", "once", "then", "suddenly"})
_PRESENT_HINTS = frozenset({"every", "always", "usually", "often", "sometimes", "never", "most", "all", "now", "today"})


def subject(text: Text, verb: Word) -> Word | None:
    """The subject of a verb, or None."""
    return text.child(verb, *SUBJECTS)


def has_auxiliary(text: Text, verb: Word) -> bool:
    """Say whether a verb has an auxiliary or *to*."""
    return any(text.words[index].dep in ("aux", "auxpass") for index in verb.children)


def what_the_form_can_carry(text: Text) -> None:
    """A tag that a form cannot carry is not believed: `took` is a past tense, `mop` is none, `sailing` no base form."""
    for word in text.words:
        if word.tag in VERB and any(char.isdigit() for char in word.lower):
            word.retag("NN", "NOUN")  # You have R4.
        elif word.tag in VERB and not any(char.isalpha() for char in word.lower):
            word.retag("SYM", "SYM")  # It is black. 🙂 ☹
        if word.tag not in VERB or word.tag == "MD" or word.pos == "AUX" or not word.lower.isalpha():
            continue
        if word.lower in verb_forms.only_past() and word.tag != "VBD":
            word.retag("VBD", "VERB")
        elif word.tag in ("VBD", "VBN") and not verb_forms.can_be_past(word.lower):
            word.retag("VBP" if word.tag == "VBD" else "VB", "VERB", word.lower)
        elif word.tag in ("VB", "VBP") and verb_forms.ing_base(word.lower):
            word.retag("VBG", "VERB")


def supported_by_do(text: Text) -> None:
    """`Do you LIKE swimming?`: what do supports is a base form, whatever the model takes it for."""
    for word in text.words:
        if word.lower in _DO and word.dep == "aux":
            head = text.words[word.head]
            if head.tag not in ("VB", "VBG", "VBN") and head.index > word.index:
                head.retag("VB", "VERB", head.lower)
            if word.tag == "VB":
                word.retag("VBP", "AUX", "do")


def past_by_spelling(text: Text) -> None:
    """A form like `built`, `played` with a subject and no auxiliary is a past tense."""
    for word in text.words:
        if word.tag == "VBD" and _opens_by(text, word):
            word.retag("VBN", "VERB")
        elif word.tag == "VBN" and not has_auxiliary(text, word) and _lacks_auxiliary(text, word):
            word.retag("VBD", "VERB")


def _opens_by(text: Text, word: Word) -> bool:
    """`Posted by Tom`, `Made in the hills`: a line that opens with a participle."""
    after = text.after(word)
    return (
        any(start == word.index for start, _ in text.sentences)
        and after is not None
        and after.lower in ("by", "via", "for")
        and subject(text, word) is None
    )


def _lacks_auxiliary(text: Text, word: Word) -> bool:
    """Say whether a participle without auxiliary is in truth a past tense."""
    if word.lower in verb_forms.only_participle():
        return False
    who = text.child(word, "nsubj", "nsubjpass")
    if who is not None:
        if text.words[word.head].lemma in ("have", "get") and word.dep == "ccomp":
            return False
        return who.index < word.index and word.dep in ("ROOT", "relcl", "ccomp", "advcl", "conj")
    opens = any(start == word.index for start, _ in text.sentences)
    return opens and word.dep == "ROOT" and text.child(word, "dobj", "npadvmod", "prt", "acomp") is not None


def base_with_subject(text: Text) -> None:
    """`The birds BUILD nests.`: a base form with a subject and no auxiliary is a present tense."""
    bare = tables.words("bare_infinitive_verbs")
    for word in text.words:
        if word.tag not in ("VB", "VBP") or has_auxiliary(text, word):
            continue
        who = text.child(word, "nsubj")
        if word.tag == "VBP":
            if who is not None and who.lower in tables.group("anybody") and text.words[-1].lower != "?":
                word.retag("VB", "VERB")
            continue
        if who is None or who.index > word.index or who.tag == "CD" or word.lower == "be":
            continue
        head = text.words[word.head]
        if word.dep in ("ccomp", "xcomp") and (head.lemma in bare or head.lower in ("let", "'s")):
            continue
        if who.lower in tables.group("anybody") or (text.words[-1].lower == "?" and who.tag == "NN"):
            continue  # `Everybody sit down.` is an order, `Anyone know a story?` has lost its do
        after = text.words[who.index + 1]
        if after.lower == "," and after.index < word.index:
            continue  # `Tom, come here`: somebody is called
        word.retag("VBP", "VERB")


def past_like_base(text: Text) -> None:
    """`put`, `cut`, `read`: present or past, judged by subject, adverbs and the other verbs."""
    known = verb_forms.like_base()
    for word in text.words:
        if word.lower in known and word.tag == "VBD" and word.dep == "conj" and text.words[word.head].tag == "VB":
            word.retag("VB", "VERB")  # `Take it and PUT it down.`
        elif word.lower in known and word.tag in ("VBD", "VBP") and not has_auxiliary(text, word):
            past = _is_past(text, word)
            if past is not None:
                word.retag("VBD" if past else "VBP", "VERB")
        elif word.lower == "lay" and word.tag == "VBD" and text.child(word, "dobj"):
            who = subject(text, word)
            if who is not None and (who.tag == "NNS" or who.lower in ("they", "we", "i", "you", "fish", "sheep")):
                word.retag("VBP", "VERB", "lay")


def _is_past(text: Text, word: Word) -> bool | None:
    who = subject(text, word)
    if who is not None and who.index < word.index:
        joined = any(text.words[index].dep == "conj" for index in who.children)
        if (who.lower in _THIRD or who.tag in ("NN", "NNP")) and not joined and who.lower not in ("fish", "sheep"):
            return True
    elif word.dep == "conj":
        head = text.words[word.head]
        return head.tag == "VBD" if head.tag in FINITE else None
    elif who is None:
        return None
    lowered = {one.lower for one in text.words}
    if lowered & _PAST_HINTS:
        return True
    if lowered & _PRESENT_HINTS:
        return False
    others = {one.tag for one in text.words if one is not word and one.lower not in verb_forms.like_base()}
    return "VBD" in others


def existential(text: Text) -> None:
    """`How many chairs are THERE?`: the subject of be, not a place."""
    for word in text.words:
        if word.tag == "EX" and word.dep != "expl" and text.words[word.head].lemma == "be":
            word.dep = "expl"
        after = text.words[word.index + 1] if word.index + 1 < len(text.words) else None
        before = text.words[word.index - 1].lower if word.index else ""
        if word.tag == "EX" and before in ("are", "were") and after is not None and after.tag == "VBZ":
            after.retag("NNS", "NOUN", lemma(after.lower, "NNS", "NOUN", after.lower))  # Are there LEAVES here?


def verb_lemmas(text: Text) -> None:
    """The lemma of every verb, from the tables of the lemma room: the structures ask for it."""
    for word in text.words:
        if word.tag in VERB and word.tag != "MD":
            word.lemma = lemma(word.lower, word.tag, word.pos, word.lemma)


_CLAUSE_OPENERS = frozenset({"until", "till", "while", "when", "if", "because"})


def plural_or_verb(text: Text) -> None:
    """`Wait until the bell RINGS.`: a verb in -s that the model joins to its subject as a plural noun."""
    words = text.words
    for word in words:
        if word.tag not in ("NNS", "NN") or word.index < 2 or word.dep not in ("pobj", "advcl"):
            continue
        who, opener = words[word.index - 1], words[word.head]
        if word.dep == "advcl":
            opener = next((words[i] for i in word.children if words[i].lower in _CLAUSE_OPENERS), word)
        as_soon = opener.lower == "as" and words[opener.head].lower == "soon"
        if opener.lower not in _CLAUSE_OPENERS and not as_soon:
            continue
        past = word.lower in verb_forms.only_past()
        base = "" if word.tag == "NN" else verb_forms.s_base(word.lower)
        if who.dep != "compound" or who.head != word.index or not (base or past):
            continue
        word.retag("VBD" if past else "VBZ", "VERB", base)
        for index in [i for i in word.children if opener.index < i < who.index]:
            text.attach(words[index], who, words[index].dep)
        who.dep = "nsubj"
        if word.dep == "pobj":
            text.attach(word, words[opener.head], "advcl")
            text.attach(opener, word, "mark")


def same_again(text: Text) -> None:
    """`colder and COLDER`: a word said twice is the same both times."""
    for word in text.words[2:]:
        before = text.words[word.index - 2]
        if word.lower == before.lower and before.tag in ("JJR", "RBR", "JJ", "RB", "VBD") and word.tag != before.tag:
            word.retag(before.tag, before.pos, before.lemma)


def verbless_sentences(text: Text) -> None:
    """`Dogs BARK.`, `The bird SINGS.`: where a whole sentence has no verb, the noun that can be one is."""
    for start, end in text.sentences:
        words = text.words[start:end]
        if text.instruction or len(words) < 3 or not any(word.lower in (".", "!", "?") for word in words[-2:]):
            continue
        if any(word.tag in VERB and word.dep in _MAIN for word in words):
            continue
        for word in reversed(words[1:]):
            who = text.words[word.index - 1]
            if who.dep == "compound" and who.head == word.index and _can_say(text, who, word):
                _give_subject(text, who, word)
                text.detach(word)
                break


def participles_as_main_verbs(text: Text) -> None:
    """`The cork FLOATED on the water.`, `Are batteries RECYCLED?`: where a sentence has no other verb, what the model
    takes for a participle after a noun is its verb."""
    for start, end in text.sentences:
        words = text.words[start:end]
        for word in words:
            who = text.words[word.head]
            if word.tag != "VBN" or word.dep != "acl" or who.tag not in NOUN or who.index >= word.index:
                continue
            others = [one for one in words if one.tag in FINITE and one is not word]
            if not others and words[-1].lower in (".", "!") and word.lower not in verb_forms.only_participle():
                word.retag("VBD", "VERB")
                text.promote(word, who, "nsubj")
            elif [one.lemma for one in others] == ["be"] and words[-1].lower == "?" and others[0].index < who.index:
                text.promote(word, others[0], "auxpass")
                text.attach(who, word, "nsubjpass")


def verbless_questions(text: Text) -> None:
    """`Can a duck SWIM?`: where a modal has no verb, the noun that can be one is."""
    for modal in text.words:
        if modal.tag != "MD" or text.words[modal.head].tag in VERB - {"MD"}:
            continue
        end = next(end for start, end in text.sentences if start <= modal.index < end)
        for word in text.words[modal.index + 2 : end]:
            who = text.words[word.index - 1]
            joined = who.dep == "compound" and who.head == word.index
            if word.tag == "NN" and joined and word.lower in verb_forms.bases() and _ends_phrase(text, word):
                _give_subject(text, who, word)
                word.retag("VB", "VERB", word.lower)
                text.promote(word, modal, "aux")
                break


def _ends_phrase(text: Text, word: Word) -> bool:
    after = text.after(word)
    return after is None or after.tag not in NOUN


_MAIN = frozenset({"ROOT", "conj", "ccomp", "parataxis"})


def _can_say(text: Text, who: Word, word: Word) -> bool:
    """Say whether two nouns can be a subject and its verb."""
    after = text.after(word)
    if (after is not None and after.tag in NOUN) or any(text.words[i].dep == "nummod" for i in word.children):
        return False
    if word.tag == "NNS" and who.tag in ("NN", "NNP"):
        return bool(verb_forms.s_base(word.lower))
    plural = who.tag in ("NNS", "NNPS") or who.lower in ("fish", "sheep") or (who.tag == "NNP" and who.lower[-1] == "s")
    return word.tag == "NN" and plural and word.lower in verb_forms.bases()


def _give_subject(text: Text, who: Word, word: Word) -> None:
    """Make a noun and the noun before it a verb and its subject."""
    if word.tag == "NNS":
        word.retag("VBZ", "VERB", verb_forms.s_base(word.lower))
    else:
        word.retag("VBP", "VERB", word.lower)
    for index in [i for i in word.children if i < who.index]:
        text.attach(text.words[index], who, text.words[index].dep)
    who.dep = "nsubj"


STEPS = (
    what_the_form_can_carry,
    same_again,
    verbless_sentences,
    participles_as_main_verbs,
    verbless_questions,
    plural_or_verb,
    existential,
    supported_by_do,
    past_by_spelling,
    base_with_subject,
    past_like_base,
    verb_lemmas,
)
