"""The large tables, loaded ahead: for a run that has to wait for its first analyses and has nothing else to do."""

from lint_rules.language.cue_index import cue_index
from lint_rules.language.named_grammar import terms, wordings
from lint_rules.language.pronunciation import pronunciations
from lint_rules.language.reference import common, graded
from lint_rules.language.word_index import childrens_words, near_words


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
