"""Gathers findings into points: what one decision of the author answers is one point, at all of its places.

A rule says how its findings gather (``Rule.gathers``). Besides, rules of one ``Rule.fault`` that point at the very same
words have found one fault. Findings keep their places, stets and carried entries; people see and count points.
"""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from lint_rules.finding import Finding, Severity
from lint_rules.rule import By, Gather, Rule, Within

_MOST = 6  # words that a gathered message names


@dataclass(frozen=True, slots=True)
class Point:
    """What one decision answers: the rule that leads, the weight and message, and its findings in order.

    ``lead`` is the place where it is shown: the first of its heaviest findings. ``about`` is what it is known by from
    one version of a book to the next, where its rule gathers findings.
    """

    severity: Severity
    message: str
    lead: Finding
    findings: tuple[Finding, ...]
    about: tuple[str, ...] = ()

    @property
    def rule(self) -> str:
        """The rule that leads."""
        return self.lead.rule

    @property
    def rules(self) -> tuple[str, ...]:
        """The rules that have found it, the one that leads first."""
        return tuple(dict.fromkeys((self.rule, *(finding.rule for finding in self.findings))))

    @property
    def others(self) -> tuple[Finding, ...]:
        """Its findings but for the one where it is shown, in order."""
        return tuple(finding for finding in self.findings if finding is not self.lead)

    @property
    def paths(self) -> tuple[str, ...]:
        """The units it stands in, in order."""
        return tuple(dict.fromkeys(finding.path for finding in self.findings))

    @property
    def other_places(self) -> tuple[Finding, ...]:
        """A finding for each further place, in order."""
        places = {(finding.path, finding.span): finding for finding in reversed((*self.others, self.lead))}
        del places[self.lead.path, self.lead.span]
        return tuple(finding for finding in self.others if places.get((finding.path, finding.span)) is finding)


def gather(findings: Sequence[Finding], rules: Mapping[str, Rule]) -> tuple[Point, ...]:
    """The points that findings make, in the order of where they are shown. A rule that is not known gathers nothing."""
    groups: dict[tuple[str, ...], list[int]] = defaultdict(list)
    at_words: dict[tuple[str, str, int, int], list[int]] = defaultdict(list)
    ways = [_way(finding, rules.get(finding.rule)) for finding in findings]
    for index, finding in enumerate(findings):
        rule = rules.get(finding.rule)
        if rule and rule.fault:
            at_words[(rule.fault, finding.path, *finding.span)].append(index)
    elsewhere = {index for members in at_words.values() for index in _said_elsewhere(members, findings, ways)}
    for index, (finding, way) in enumerate(zip(findings, ways, strict=True)):
        about = _about(finding, way) if index not in elsewhere else ()
        groups[(_asks(rules.get(finding.rule), way, finding), *about) if about else (str(index),)].append(index)
    joined = _joined(len(findings), [*groups.values(), *at_words.values()])
    points = (_point([findings[index] for index in sorted(members)], rules) for members in joined)
    return tuple(sorted(points, key=lambda point: point.lead.order))


def _asks(rule: Rule | None, way: Gather | None, finding: Finding) -> str:
    """Who asks what a point answers: its rule, or all rules of a fault where one word of the course is meant."""
    of_course = way is not None and way.within is Within.COURSE and way.by is By.KEY
    return rule.fault if of_course and rule is not None and rule.fault else finding.rule


def _said_elsewhere(
    members: Sequence[int], findings: Sequence[Finding], ways: Sequence[Gather | None]
) -> Iterator[int]:
    """Of findings at the very same words those that leave a list of their rule (hard words of a unit) for the point of
    another: else that point would draw in all the words of the list."""
    if len({findings[index].rule for index in members}) < 2:
        return
    lists = [index for index in members if (way := ways[index]) is not None and way.by in {By.ABOUT, By.RULE}]
    others = [index for index in members if index not in lists]
    lead = max(others or lists, key=lambda index: findings[index].severity.weight)
    yield from (index for index in lists if index != lead)


def _way(finding: Finding, rule: Rule | None) -> Gather | None:
    """How a finding gathers; None where it is a point of its own."""
    ways = rule.gathers if rule else ()
    return next((way for way in ways if _fits(finding, way)), None)


def _fits(finding: Finding, way: Gather) -> bool:
    return (not way.only or way.only == finding.about) and (way.by is By.RULE or bool(_what(finding, way)))


def _what(finding: Finding, way: Gather) -> str:
    if way.by is By.WORDS:
        return " ".join(finding.text.casefold().split())
    return {By.RULE: "", By.KEY: finding.key, By.ABOUT: finding.about}[way.by]


def _about(finding: Finding, way: Gather | None) -> tuple[str, ...]:
    """What the findings of one point have in common; nothing where a finding is a point of its own."""
    if way is None:
        return ()
    where = {
        Within.ACTIVITY: (finding.path, finding.place),
        Within.UNIT: (finding.path,),
        Within.COURSE: ("",),
    }[way.within]
    return (*where, way.by.value, _what(finding, way))


def _joined(count: int, groups: Iterable[Sequence[int]]) -> Iterable[list[int]]:
    """Numbers up to a count, joined where a group holds them both."""
    leader = list(range(count))

    def find(one: int) -> int:
        while leader[one] != one:
            leader[one] = leader[leader[one]]
            one = leader[one]
        return one

    for first, *rest in groups:
        for other in rest:
            leader[find(other)] = find(first)
    sets: dict[int, list[int]] = defaultdict(list)
    for one in range(count):
        sets[find(one)].append(one)
    return sets.values()


def _point(members: Sequence[Finding], rules: Mapping[str, Rule]) -> Point:
    severity = max((finding.severity for finding in members), key=lambda s: s.weight)
    lead = next(finding for finding in members if finding.severity is severity)
    # What is only noted beside it is shown with it, and not named as what the point asks about.
    own = [finding for finding in members if finding.rule == lead.rule and finding.severity is severity]
    way = _way(lead, rules.get(lead.rule))
    return Point(severity, _message(lead, own, way), lead, tuple(members), _about(lead, way))


def _message(lead: Finding, own: Sequence[Finding], way: Gather | None) -> str:
    if len(own) == 1 or way is None:
        return lead.message
    says = way.says if isinstance(way.says, str) else way.says.get(lead.about, "")
    if not says:
        return lead.message
    # A word is named and counted once, in however many places and forms it was found.
    words: dict[str, str] = {}
    for finding in own:
        words.setdefault(finding.key or finding.text.casefold(), finding.text)
    named = list(words.values())
    if len(named) == 1 and "{words}" in says:
        return lead.message
    count = len(named) if "{words}" in says else len(own)
    keys = dict.fromkeys(finding.key for finding in own)
    return says.format(count=count, words=_listed(named), keys=_listed(keys), key=lead.key, about=lead.about)


def _listed(words: Iterable[str]) -> str:
    """Words as a list in a sentence, the first of them where there are many: `“a”, “b” and 3 more`."""
    quoted = [f"“{' '.join(word.split())}”" for word in words]
    if len(quoted) > _MOST:
        return f"{', '.join(quoted[: _MOST - 1])} and {len(quoted) - _MOST + 1} more"
    *most, last = quoted
    return f"{', '.join(most)} and {last}" if most else last
