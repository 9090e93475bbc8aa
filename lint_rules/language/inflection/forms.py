"""Forms of a word, made from its dictionary form: what a table's entry looks like in a sentence.

Used where a table is searched for in a text and the parser's opinion is not wanted. A form too many does no harm here:
it is only ever looked for, never written.
"""

from functools import cache

from lint_rules.language.inflection.irregular import irregular_verb_forms, plural_only, plurals_of

_VOWELS = "aeiou"


@cache
def noun_forms(noun: str) -> frozenset[str]:
    """Singular and plural of a noun given in either (``scissors`` has one form)."""
    forms = {noun}
    if noun in plurals_of():
        forms.update(plurals_of()[noun])
    elif noun not in plural_only():
        forms.add(_with_s(noun))
    if noun.endswith(("fe", "lf", "af")):
        forms.add(noun.removesuffix("e").removesuffix("f") + "ves")
    return frozenset(forms)


@cache
def ing_form(verb: str) -> str:
    """The -ing form of a verb given in its base form (British doubling: ``travelling``)."""
    if verb.endswith("ie"):
        return verb[:-2] + "ying"
    if verb.endswith("e") and not verb.endswith(("ee", "oe", "ye")):
        return verb[:-1] + "ing"
    return (verb + verb[-1] if _doubles(verb) else verb) + "ing"


@cache
def every_form(word: str) -> frozenset[str]:
    """Every form a word may take as a noun or a verb: ``sit, sits, sitting, sat``."""
    past = [form for form, base in irregular_verb_forms().items() if base == word]
    forms = {word, _with_s(word), ing_form(word), *past, *noun_forms(word)}
    if not past:
        forms.add(regular_past(word))
    return frozenset(forms)


def _with_s(word: str) -> str:
    if word.endswith(("s", "x", "z", "ch", "sh")) or word in ("potato", "tomato", "hero", "echo", "go", "do", "mango"):
        return word + "es"
    if word.endswith("y") and word[-2:-1] not in _VOWELS:
        return word[:-1] + "ies"
    return word + "s"


def regular_past(verb: str) -> str:
    """The past form in -ed, whether the verb has one or not."""
    if verb.endswith("e"):
        return verb + "d"
    if verb.endswith("y") and verb[-2:-1] not in _VOWELS:
        return verb[:-1] + "ied"
    return (verb + verb[-1] if _doubles(verb) else verb) + "ed"


def _doubles(verb: str) -> bool:
    """Say whether the last letter doubles: one short vowel before one consonant, in a word of one syllable."""
    if len(verb) < 3 or verb[-1] in _VOWELS + "wxy" or verb[-2] not in _VOWELS or verb[-3] in _VOWELS:
        # 'quiz', 'squat': the u belongs to the q
        return len(verb) > 3 and verb[-4:-2] == "qu" and verb[-1] not in _VOWELS + "wxy"
    syllables = sum(
        letter in _VOWELS + "y" and (index == 0 or verb[index - 1] not in _VOWELS + "y")
        for index, letter in enumerate(verb)
    )
    return syllables == 1 or verb in ("begin", "travel", "label", "model")
