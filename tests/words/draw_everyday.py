"""Draw `everyday_words.txt`: graded words that are everyday English, by how common wordfreq 3.1.1 knows them.

    python tests/words/draw_everyday.py

Without the table each run would load all of wordfreq for them. Only run it when wordfreq or a limit below changes.
"""

import re
from pathlib import Path

from wordfreq import get_frequency_dict

from lint_rules.language.vocabulary.reference import common, lowest

DATA = Path(__file__).parents[2] / "lint_rules" / "language" / "vocabulary" / "data"
# House figures: so common (Zipf) a word of one syllable must be, and a longer one. On 146 judged courses they part the
# words that authors shrugged at from those that were too hard.
SHORT, LONGER = 3.7, 4.3
SYLLABLE = re.compile(r"[^aeiouy]*[aeiouy]+[^aeiouy]*e?")
HEAD = """\
# Words above A1 that are everyday English: of one syllable, or very common. Drawn by tests/words/draw_everyday.py from
# wordfreq 3.1.1 (its data and so this table: CC BY-SA 4.0) and cefrpy 1.0.3 (MIT).
"""


def main() -> None:
    """Write the table."""
    words = (word for word in get_frequency_dict("en") if word.isalpha() and word.isascii())
    kept = sorted(
        word
        for word in words
        if lowest(word) in {"A2", "B1", "B2", "C1"} and common(word) >= (SHORT if SYLLABLE.fullmatch(word) else LONGER)
    )
    (DATA / "everyday_words.txt").write_text(HEAD + "\n".join(kept) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
