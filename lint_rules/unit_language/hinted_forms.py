"""A verb given in brackets, and the form of it that a key has: `(run) runing`, `(see) have saw`, `(go) didn't went`.

Only forms that the verb cannot have, or cannot have behind its helping verb, whatever the sentence is. Pure: words in,
what would be right out.
"""

import re
from collections.abc import Iterator, Sequence
from functools import cache

from lint_rules import lazy_re
from lint_rules.language.inflection.forms import every_form, ing_form, regular_past
from lint_rules.language.inflection.irregular import IrregularVerb, irregular_verbs
from lint_rules.language.inflection.verb_forms import bases
from lint_rules.language.vocabulary.reference import lowest

_WORD = lazy_re.compile(r"[^\W\d_]+(?:['’][^\W\d_]+)?")
_HAVE = frozenset({"have", "has", "haven't", "hasn't", "'ve", "hadn't"})
_BE = frozenset({"am", "is", "are", "was", "were", "isn't", "aren't", "wasn't", "weren't", "'m", "'re"})
_DO = frozenset({"do", "does", "did", "don't", "doesn't", "didn't"})
_MODALS = frozenset(
    {
        "can",
        "can't",
        "could",
        "couldn't",
        "will",
        "won't",
        "would",
        "wouldn't",
        "must",
        "mustn't",
        "should",
        "shouldn't",
    }
)
_BETWEEN = frozenset({"not", "never", "just", "already", "ever", "always", "often", "also"})
# Forms that are right beside those of the table: of a second verb that is written alike, or another participle.
_ALSO = {"lie": {"lied"}, "hang": {"hanged"}, "show": {"showed"}}
# Verbs that are adjectives too: The door is open. From memory.
_ADJECTIVES = frozenset(
    {
        "open",
        "close",
        "clean",
        "clear",
        "cool",
        "correct",
        "dry",
        "empty",
        "free",
        "light",
        "live",
        "warm",
        "welcome",
        "wet",
    }
)
_ENDINGS = ("ing", "ed", "s", "es")


def hinted_slip(hint: str, said: str, before: str = "") -> str | None:
    """The form that would be right, where a key's form of the verb in brackets is wrong; None where it is not, and ''
    where several would do. ``before`` is the word that stands before the gap: `While I was ____ (sleep)`."""
    verb = hint.casefold().strip()
    words = [word.casefold().replace("’", "'") for word in _WORD.findall(said)]
    if verb not in bases() or verb == "be" or not words:
        return _longer_adjective(verb, words)
    main = words[-1]
    if main in _misspelt(verb):
        return _misspelt(verb)[main]
    if main not in every_form(verb) | _participles(verb):
        return None
    ahead = [word for word in (before.casefold().replace("’", "'"), *words[:-1]) if word and word not in _BETWEEN]
    helper = _helper(ahead[-1]) if ahead else ""
    if helper in _HAVE and main not in _participles(verb):
        return min(_participles(verb))
    if (
        helper in _BE
        and not (main == verb and verb in _ADJECTIVES)
        and main not in _participles(verb) | {ing_form(verb)}
    ):
        return ""
    if helper in _DO | _MODALS and main != verb:
        return verb
    return None


def _longer_adjective(hint: str, said: Sequence[str]) -> str | None:
    """`dangerouser`: no adjective of three beats and more takes an ending; a photographer is somebody."""
    beats = len(re.findall(r"[aeiouy]+", hint.removesuffix("e")))
    for ending, instead in (("er", "more"), ("est", "most")):
        made = hint.removesuffix("e") + ending
        if said and beats > 2 and said[-1] == made and lowest(made) in {"", "C2"}:
            return f"{instead} {hint}"
    return None


def _helper(word: str) -> str:
    """A helping verb, out of a pronoun with it: `I've` is 've."""
    at = word.find("'")
    short = word[at:] if at > 0 else word
    return short if short in ("'ve", "'m", "'re") else word


@cache
def _verb(base: str) -> IrregularVerb | None:
    return next((verb for verb in irregular_verbs() if verb.base == base), None)


@cache
def _participles(base: str) -> frozenset[str]:
    verb = _verb(base)
    participles = set(verb.participles) if verb is not None else {regular_past(base)}
    return frozenset(participles | _ALSO.get(base, set()))


@cache
def _misspelt(base: str) -> dict[str, str]:
    """Forms that a verb has not, made as those of others are: runing, makeing, studyed, goed."""
    right = every_form(base) | _participles(base)
    verb = _verb(base)
    past = verb.pasts[0] if verb is not None else regular_past(base)
    better = {"ing": ing_form(base), "ed": past, "s": "", "es": ""}
    found = {}
    for stem in _stems(base):
        for ending in _ENDINGS:
            made = stem + ending
            third = ending in ("s", "es")
            if made not in right and not (third and not (base.endswith(("y", "s", "x", "ch", "sh")) and stem == base)):
                found[made] = better[ending]
    return found


def _stems(base: str) -> Iterator[str]:
    if not ing_form(base).startswith(base + base[-1]) or len(re.findall(r"[aeiou]+", base)) == 1:
        yield base  # traveling is right elsewhere
    if base.endswith("e"):
        yield base[:-1]
    elif base[-1] not in "aeiouwxy" and len(re.findall(r"[aeiou]+", base)) == 1:
        yield base + base[-1]
