"""What follows a verb in -ing or with *to*: complements that the model takes for nouns or for something else."""

from lint_rules import tables
from lint_rules.language.inflection import verb_forms
from lint_rules.language.parsing.words import VERB, Text


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


STEPS = (verbs_in_ing,)
