"""Target words where children meet them, however the parser takes them there.

A child who reads `Granny's lap`, `What's your name?` or `clap, clap, clap` has met *granny*, *name* and *clap*, be it a
name, a set phrase or a noise to the parser; a picture in a sentence is read as the word it stands for; and who learns
*boots* meets one in `my boot`.
"""

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from lint_rules.course.memo import memo
from lint_rules.course.model import WordEntry
from lint_rules.language.inflection.forms import every_form, noun_forms
from lint_rules.language.inflection.lemmas import lemma
from lint_rules.language.tokens import Analysis, Token
from lint_rules.language.vocabulary.word_index import canonical, parts_of
from lint_rules.language.vocabulary.word_level import WordLevel
from lint_rules.language.vocabulary.word_shapes import READ_AS
from lint_rules.manuscript.model import Activity, Picture
from lint_rules.page.number_words import spellings_of_figure
from lint_rules.unit_language.picture_sentences import nouns_of_picture

_MOST_WORDS_OF_A_THING = 3


@dataclass(frozen=True, slots=True)
class Spelt:
    """A target word by its spelling: its row of the list (index in ``Course.words``) and where it stands."""

    row: int
    start: int
    end: int


@memo
def rows_by_form(words: tuple[WordEntry, ...]) -> Mapping[str, tuple[int, ...]]:
    """The rows of the word lists by every form of their words, as they are compared."""
    found: defaultdict[str, list[int]] = defaultdict(list)
    for row, entry in enumerate(words):
        *first, last = parts_of(entry.word) or ("",)
        for form in _forms(last, entry.part_of_speech):
            found[" ".join((*first, form))].append(row)
    return {form: tuple(rows) for form, rows in found.items()}


def _forms(word: str, part_of_speech: str) -> frozenset[str]:
    if part_of_speech == "noun":
        return noun_forms(word) | noun_forms(lemma(word, "NNS", "NOUN", word)) | {word}
    return every_form(word) if part_of_speech in {"verb", ""} else frozenset({word})


def spelt_in(analysis: Analysis, words: Sequence[WordLevel], lists: tuple[WordEntry, ...]) -> Iterator[Spelt]:
    """The target words of a text that its listed words (``words``) do not show: in names, set phrases, noises."""
    rows = rows_by_form(lists)
    shown = {at for word in words if word.entry or word.elsewhere for at in range(word.start, word.end)}
    for token in analysis.tokens:
        if token.start in shown:
            continue
        parts = [canonical(part) for part in token.text.split("-") if part] if "-" in token.text else []
        # A kitchen-table robot has a kitchen; who reads 40 has met forty.
        keys = (canonical(token.text), canonical(token.lemma), *parts, *spellings_of_figure(token.text))
        found = {row: None for key in keys for row in rows.get(key, ())}
        of_kind = [row for row in found if token.pos in READ_AS.get(lists[row].part_of_speech, ())]
        for row in of_kind or found:
            if _may_be(token, lists[row]):
                yield Spelt(row, token.start, token.end)


def _may_be(token: Token, entry: WordEntry) -> bool:
    """May and may, English and english: a word listed with a capital has one."""
    return token.text[:1].isupper() or not entry.word[:1].isupper()


def spelt_as_words(text: str, lists: tuple[WordEntry, ...]) -> Iterator[int]:
    """The rows of the target words that stand in a text nobody has parsed (an alternative text, a brief)."""
    rows = rows_by_form(lists)
    words = parts_of(text)
    for start in range(len(words)):
        for end in (start + 1, start + 2):
            yield from rows.get(" ".join(words[start:end]), ()) if end <= len(words) else ()


def words_of_picture(picture: Picture, activity: Activity, lists: tuple[WordEntry, ...]) -> Iterator[int]:
    """The rows of the target words that a picture stands for: all in a picture sentence, else where it is one thing."""
    things = nouns_of_picture(picture.alt)
    if "picture-sentence" not in activity.kinds and not _is_one_thing(picture.alt, things):
        return
    rows = rows_by_form(lists)
    for phrase in things:
        names = (" ".join(map(canonical, phrase[at:])) for at in range(len(phrase)))
        yield from next((rows[name] for name in names if name in rows), ())


def _is_one_thing(alt: str, things: Sequence[Sequence[str]]) -> bool:
    """`a red apple`, and not `a girl with a dog`."""
    words = [word for word in parts_of(alt) if word not in {"a", "an", "the", "some"}]
    return len(things) == 1 and len(things[0]) == len(words) <= _MOST_WORDS_OF_A_THING
