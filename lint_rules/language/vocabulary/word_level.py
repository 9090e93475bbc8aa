"""A word of a text with what is known of its level: what the look-up gives and the rules about words see."""

from functools import cache

import msgspec

from lint_rules.course.model import WordEntry
from lint_rules.language.vocabulary.word_index import Origin, childrens_words, picturable_nouns, solid
from lint_rules.tables import words as word_table


class WordLevel(msgspec.Struct, frozen=True):
    """A word of a text (or an entry of several words) and its level.

    ``start``, ``end`` are offsets into the text; ``part_of_speech`` is a word list's name for it; ``band`` the CEFR
    band ('' where nobody gives one) and ``level`` what to print (for a word of the course, its level's name); ``entry``
    the row of the course's list; ``elsewhere`` a row that has the spelling as another part of speech (the same row,
    where a noun stands as an adjective or the other way round); ``free`` says that every child knows the word from the
    first page, ``noise`` that it stands for a noise here (Splash!).
    """

    start: int
    end: int
    text: str
    lemma: str
    part_of_speech: str
    origin: Origin
    band: str = ""
    level: str = ""
    entry: WordEntry | None = None
    elsewhere: WordEntry | None = None
    free: bool = False
    instead: str = ""
    noise: bool = False

    @property
    def actable(self) -> bool:
        """A verb for something that a teacher can act."""
        return self.part_of_speech == "verb" and solid(self.lemma) in word_table("actable_verbs")

    @property
    def young(self) -> bool:
        """A word that children meet early and that the general reference rates too high or does not grade.

        Its part of speech is not asked: the parser is least sure of it in such words (a jellyfish stings).
        """
        return not childrens_spellings().isdisjoint((solid(self.lemma), solid(self.text)))

    @property
    def picturable(self) -> bool:
        """A noun (or what may be one before another) that names something that can be drawn."""
        return self.part_of_speech in {"noun", "adjective"} and solid(self.lemma) in picturable_nouns()


@cache
def childrens_spellings() -> frozenset[str]:
    """Words that children meet early, whatever their part of speech."""
    return frozenset(word for word, _ in childrens_words())
