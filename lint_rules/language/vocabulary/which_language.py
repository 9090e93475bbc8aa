"""Whether a text is English, by how common its words are in English and in other languages (package wordfreq).

Its answer is for a text of some length: a name, a shout, a list of loan words say nothing about a language. Languages
are told apart by their words; a text in another script than Latin needs no words.
"""

import unicodedata
from functools import cache
from statistics import fmean

from lint_rules.plain_words import PART

_NAMES = {
    "ca": "Catalan", "cs": "Czech", "da": "Danish", "de": "German", "es": "Spanish", "fi": "Finnish", "fil": "Filipino",
    "fr": "French", "hu": "Hungarian", "id": "Indonesian", "is": "Icelandic", "it": "Italian", "lt": "Lithuanian",
    "lv": "Latvian", "nb": "Norwegian", "nl": "Dutch", "pl": "Polish", "pt": "Portuguese", "ro": "Romanian",
    "sh": "Croatian, Bosnian or Serbian", "sk": "Slovak", "sl": "Slovene", "sv": "Swedish", "tr": "Turkish",
    "vi": "Vietnamese",
}  # fmt: skip
_LEAST = 4  # words, or nothing is said
_AT_HOME = 4.0  # mean of the Zipf frequencies of a text's words: English texts for children have more than 5
_IN_IT = 3.0  # the least of that mean in the language that a text is said to be in
_CLEARLY = 0.5  # how much more common, on that scale, the words must be in the other language


def other_language(text: str) -> str:
    """What a text seems to be in, where it is not English: `German`, `another script`, `another language`; else ''."""
    letters = [char for char in text if char.isalpha()]
    if len(letters) >= 2 * _LEAST and sum(_is_latin(char) for char in letters) < len(letters) / 2:
        return "another script"
    words = [word.replace("’", "'") for word in PART.findall(text) if word.islower()]  # a name is in no language
    if len(words) < _LEAST:
        return ""
    english = _commonness(words, "en")
    if english >= _AT_HOME:
        return ""
    best, language = max((_commonness(words, code), code) for code in _NAMES)
    return _NAMES[language] if best > max(_IN_IT, english + _CLEARLY) else ""


def _commonness(words: list[str], language: str) -> float:
    known = _frequencies(language)
    return fmean(known.get(word, 0.0) for word in words)


@cache
def _frequencies(language: str) -> dict[str, float]:
    """Zipf frequencies of a language's common words."""
    from wordfreq import freq_to_zipf, get_frequency_dict

    return {word: freq_to_zipf(frequency) for word, frequency in get_frequency_dict(language, "small").items()}


def _is_latin(char: str) -> bool:
    return unicodedata.name(char, "").startswith(("LATIN", "MODIFIER", "FEMININE", "MASCULINE"))
