"""The large tables, loaded ahead: for a run that has to wait for its first analyses and has nothing else to do."""

from lint_rules.language.sounds.pronunciation import pronunciations
from lint_rules.language.vocabulary.reference import common, graded
from lint_rules.language.vocabulary.word_index import childrens_words, near_words
from lint_rules.safety.cue_index import cue_index
from lint_rules.unit_language.named_grammar import terms, wordings


def load_tables() -> None:
    """Load what most units need, and would load by themselves. Loading twice costs nothing."""
    common("a")
    graded("a", "DET")
    pronunciations("a", "en-US")
    cue_index()
    childrens_words()
    near_words()
    terms()
    wordings()
