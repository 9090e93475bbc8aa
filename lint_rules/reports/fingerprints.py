"""What a finding, or a point, is known by from one version of a book to the next."""

import hashlib
from collections import Counter
from collections.abc import Iterable, Sequence

from lint_rules.engine.gather import Point
from lint_rules.finding import Finding


def fingerprints(findings: Sequence[Finding]) -> list[str]:
    """A name for each finding, made from rule, file, place in the structure, words and key, and its number among equal
    ones; from no line number, so that a paragraph above changes nothing. 32 hexadecimal digits, each once."""
    return _digests(_parts_of(finding) for finding in findings)


def fingerprints_of_points(points: Sequence[Point], findings: Sequence[Finding]) -> list[str]:
    """A name for each point: where its rule gathers findings, what they have in common, whichever of its places are
    left; else that of its finding among all ``findings``."""
    own = {id(finding): name for finding, name in zip(findings, fingerprints(findings), strict=True)}
    gathered = _digests(("point", point.rule, *point.about) for point in points)
    return [name if point.about else own[id(point.lead)] for point, name in zip(points, gathered, strict=True)]


def _parts_of(finding: Finding) -> tuple[str, ...]:
    return (finding.rule, finding.path, finding.place, " ".join(finding.text.split()), finding.key)


def _digests(keys: Iterable[tuple[str, ...]]) -> list[str]:
    seen: Counter[tuple[str, ...]] = Counter()
    prints = []
    for key in keys:
        parts = "".join(f"{len(part)}:{part}" for part in (*key, str(seen[key])))
        prints.append(hashlib.sha256(parts.encode("utf-8", "surrogatepass")).hexdigest()[:32])
        seen[key] += 1
    return prints
