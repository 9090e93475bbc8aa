"""What follows a verb in -ing or with *to*: complements that the model takes for nouns or for something else."""

from lint_rules import tables
from lint_rules.language.parsing.words import VERB, Text
from lint_rules.language.vocabulary import verb_forms


def verbs_in_ing(text: Text) -> None:
    """`Do you like SWIMMING?`, `Keep CLAPPING.`: an -ing word right after a verb that takes one is a verb."""
    known = tables.words("verb_ing")
    for word in text.words:
        if word.tag not in ("NN", "VBG") or not word.index or not verb_forms.ing_base(word.lower):
            continue
        before = text.words[word.index - 1]
        if before.lemma in known and before.tag in VERB:
            after = text.after(word)
            compound = word.dep == "compound" or (after is not None and after.tag in ("NN", "NNS") and word.tag == "NN")
            if not compound and word.dep in ("dobj", "xcomp", "advmod", "acomp", "attr", "advcl", "npadvmod"):
                word.retag("VBG", "VERB")
                text.attach(word, before, "xcomp")


def heard_singing(text: Text) -> None:
    """`They heard a bird SINGING.`: after a verb of the senses, -ing belongs to the object."""
    known = tables.words("perception_verbs")
    for word in text.words:
        if not word.lower.endswith("ing") or word.dep not in ("dobj", "ccomp", "xcomp", "acl"):
            continue
        verb = text.words[word.head]
        if word.dep == "acl" or verb.lemma not in known or not verb_forms.ing_base(word.lower):
            continue
        noun = text.child(word, "compound", "nsubj")
        if noun is not None and noun.index == word.index - 1 and verb.index < noun.index:
            for index in [i for i in word.children if i < noun.index]:
                text.attach(text.words[index], noun, text.words[index].dep)
            word.retag("VBG", "VERB")
            text.attach(noun, verb, "dobj")
            text.attach(word, noun, "acl")


def wanna(text: Text) -> None:
    """`I wanna go.`: want to."""
    for word in text.words:
        if word.lower == "wanna" or (word.lower == "na" and word.index and text.words[word.index - 1].lower == "wan"):
            want = word if word.lower == "wanna" else text.words[word.index - 1]
            verb = text.after(word)
            if verb is None or verb.tag not in VERB:
                continue
            if want.head == verb.index:
                text.promote(want, verb, "xcomp")
            want.retag("VBP", "VERB", "want")
            verb.retag("VB", "VERB")
            if word is not want:
                word.retag("TO", "PART", "to")
                text.attach(word, verb, "aux")


STEPS = (verbs_in_ing, heard_singing, wanna)
