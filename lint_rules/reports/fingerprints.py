"""What a finding is known by from one version of a book to the next."""

import hashlib
from collections import Counter
from collections.abc import Sequence

from lint_rules.finding import Finding


def fingerprints(findings: Sequence[Finding]) -> list[str]:
    """A name for each finding, made from rule, file, place in the structure, words and key, and its number among equal
    ones; from no line number, so that a paragraph above changes nothing. 32 hexadecimal digits, each once."""
    seen: Counter[tuple[str, ...]] = Counter()
    prints = []
    for finding in findings:
        key = (finding.rule, finding.path, finding.place, " ".join(finding.text.split()), finding.key)
        parts = "".join(f"{len(part)}:{part}" for part in (*key, str(seen[key])))
        prints.append(hashlib.sha256(parts.encode("utf-8", "surrogatepass")).hexdigest()[:32])
        seen[key] += 1
    return prints
