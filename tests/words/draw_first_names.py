"""Draw `first_names.txt` from the first names of the United States Census of 1990.

    python tests/words/draw_first_names.py FOLDER

FOLDER holds the Census Bureau's files dist.female.first and dist.male.first (in the public domain), for example from
the package names 0.3.0. Names that a reference grades A1 or A2 as words are left out. Run it when the choice changes.
"""

import sys
from pathlib import Path

from lint_rules.language.vocabulary.reference import lowest

DATA = Path(__file__).parents[2] / "lint_rules" / "language" / "vocabulary" / "data"
HEAD = """\
# First names, from the Census of the United States of 1990 (Census Bureau, dist.female.first and dist.male.first, in
# the public domain, as the package names 0.3.0 has them), by tests/words/draw_first_names.py; without A1 and A2 words.
"""


def main(folder: Path) -> None:
    """Write the table."""
    lines = [line for part in ("female", "male") for line in (folder / f"dist.{part}.first").read_text().splitlines()]
    names = {line.split()[0].casefold() for line in lines}
    kept = sorted(name for name in names if len(name) > 1 and lowest(name) not in {"A1", "A2"})
    (DATA / "first_names.txt").write_text(HEAD + "\n".join(kept) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main(Path(sys.argv[1]))
