"""Measure sensitive-topic on passages that were written and labelled by hand: found and false.

python -m tests.safety.measure_topics [FILE.jsonl …]     by default those held back
"""

import json
import sys
from collections import Counter
from pathlib import Path

from lint_rules.safety.sensitive_topics import listed, touches

HELD_BACK = Path(__file__).parent / "topics" / "held_back.jsonl"


def main(paths: list[Path]) -> None:
    """Print how many touched topics are found and how many passages have a false one: by the list alone, and by all."""
    rows = [json.loads(line) for path in paths for line in path.read_text("utf-8").splitlines()]
    for name, find in (("the list of words alone", listed), ("list and tables", lambda text: touches([text])[0])):
        count: Counter[str] = Counter()
        for row in rows:
            labels = {one["topic"] for one in row["touches"]}
            found = {touch.topic.name for touch in find(row["text"])}
            count.update(touched=len(labels), found=len(labels & found), false=bool(found - labels))
        print(
            f"{name}: found {count['found']} of {count['touched']}, false in {count['false']} of {len(rows)} passages"
        )


if __name__ == "__main__":
    main([Path(name) for name in sys.argv[1:]] or [HELD_BACK])
