"""What can be eaten, as courses name it, and whether it is real, or only on cards, of paper or a toy."""

import re
from collections.abc import Sequence
from functools import cache

from lint_rules import lazy_re
from lint_rules.language.inflection.forms import noun_forms
from lint_rules.plain_words import WORD
from lint_rules.tables import words

# What the list of foods has not, for it names no food by itself.
_OF_FOOD = ("food", "fruit", "nut", "seed", "berry", "snack", "sweet", "meal", "recipe", "drink", "kitchen")
_OF_EATING = ("feast", "mouth")
_DONE_WITH_FOOD = frozenset(["chew", "bite", "swallow"])  # in the list as sweets and mouthfuls
_LISTED = lazy_re.compile(r"[,;:\n]|\band\b")
_ASKED = lazy_re.compile(
    r"allerg|intoleran|\bdiet|nut[- ]free|\bmedical\b"
    r"|\b(?:ask|asks|asked|check|checks|checked|read|tell|tells|told|inform|know|with)\b[^.!?]*\b(?:famil(?:y|ies)|parents?|labels?|packets?)\b"
    r"|\b(?:famil(?:y|ies)|parents?)\b[^.!?]*\b(?:know|agree|asked|told|say|confirm)"
    r"|\b(?:may|can|must|should)(?: ?not|n['’]t) eat\b"
    r"|\bschool(?:['’]s)?\s+(?:\w+\s+)?(?:policy|rules|list|records)\b",
    re.I,
)
_NOT_THERE = lazy_re.compile(r"\b(?:no|not|never|without|instead of|nobody|don['’]t|free of|free from)\b", re.I)
_IMITATION = lazy_re.compile(
    r"\b(?:cards?|pictures?|photos?|toys?|plastic|cardboard|clay|dough|paper|felt|play|pretend|empty|box(?:es)?|cartons?)\b",
    re.I,
)


@cache
def foods() -> frozenset[str]:
    """The words for food, in every form."""
    return frozenset(form for word in (*words("foods"), *_OF_FOOD, *_OF_EATING) for form in {word, *noun_forms(word)})


@cache
def _severe_allergens() -> "re.Pattern[str]":
    forms = {form.casefold() for word in words("severe_allergens") for form in {word, *noun_forms(word)}}
    return re.compile(rf"\b(?:{'|'.join(sorted(forms, key=len, reverse=True))})\b", re.I)


def leaves_allergens_open(done: Sequence[str], said: Sequence[str]) -> bool:
    """Whether what is done and listed in an activity names nuts or sesame that are there (not: Bring no nuts), and
    nothing that a teacher is told speaks of who may not eat them."""
    there = any(
        _severe_allergens().search(part) and not _IMITATION.search(part) and not _NOT_THERE.search(part)
        for one in done
        for part in _LISTED.split(one)
    )
    return there and not any(_ASKED.search(one) for one in said)


def has_real_food(text: str) -> bool:
    """Whether a list of things has food among them that is no picture, no toy and no empty box: bread, a tomato."""
    return any(
        not foods().isdisjoint({*WORD.findall(part.casefold())} - _DONE_WITH_FOOD) and _IMITATION.search(part) is None
        for part in _LISTED.split(text)
    )
