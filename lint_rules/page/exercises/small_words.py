"""Words that begin or join a phrase and are no pieces of another word: `two ____`, `an ____`, `I ____ it`."""

from functools import cache

from lint_rules.tables import alternatives, rows, words


@cache
def small_words() -> frozenset[str]:
    """Function words and numbers, in lower case."""
    listed = (word for _, cell in rows("function_words.csv") for word in alternatives(cell))
    return frozenset(word.lower() for word in listed) | words("numbers")
