"""The steps of an instruction: what it tells a child to do, one thing after another."""

import re
from collections.abc import Iterator, Sequence

from lint_rules import lazy_re
from lint_rules.language.tokens import Analysis, Token
from lint_rules.tables import words

_ALSO = frozenset({"then", "also", "now", "next", "finally"})
# What stands after a verb in an instruction, and hardly after a noun in a list.
_AFTER_VERB = frozenset(
    {"the", "a", "an", "your", "their", "it", "them", "this", "that", "these", "those", "each"}
    | {"two", "three", "four", "five", "six", "along", "out", "up", "about"}
)
_DO = frozenset({"do", "don", "don't", "don’t"})
_CHOICE = lazy_re.compile(
    r"\s*(?:(?:\w+\s+)?or\s+)?"
)  # nothing, or one word at most before the other choice: stand up or sit
_NOT = lazy_re.compile(r"(?:n['’]t|\s+not)\b", re.I)


def steps_of(text: str, analysis: Analysis) -> list[tuple[int, int]]:
    """Where the imperatives of an instruction stand in its text, in order; `don't write` is one.

    The analysis names them. What a parser takes for a list of things (`Cut, fold, colour and write.`) is read by the
    table of orders.
    """
    found = {one.start: one.end for one in analysis.structures if one.name == "imperative"}
    for sentence in analysis.sentences:
        for token in _listed(analysis.tokens[sentence.first : sentence.last], found):
            found[token.start] = token.end
    return list(_joined(text, sorted(found.items())))


def is_among_orders(analysis: Analysis, start: int) -> bool:
    """Say whether a word stands in a row of single words most of which can be orders: Read, practise, show."""
    sentence = next((one for one in analysis.sentences if one.start <= start < one.end), None)
    if sentence is None:
        return False
    members = list(_members(analysis.tokens[sentence.first : sentence.last]))
    if any(len(member) > 1 for member in members):
        return False
    orders = [member[0].start for member in members if member[0].text.casefold() in words("orders")]
    return start in orders and len(orders) > 1 and len(orders) * 2 > len(members)


def _listed(tokens: Sequence[Token], known: dict[int, int]) -> Iterator[Token]:
    """Further orders of a list: a member that begins with one and has an object, or that follows nothing but orders."""
    orders = words("orders")
    run = True  # so far every member of the list began with an order
    bare = True  # … and was that one word
    for number, member in enumerate(_members(tokens)):
        first = member[0]
        is_order = any(first.start <= start < first.end for start in known)
        if not is_order and number and run and first.text.casefold() in orders:
            with_object = len(member) > 1 and member[1].text.casefold() in _AFTER_VERB
            is_order = with_object or bare or number > 1
            if is_order:
                yield first
        run = run and is_order
        bare = bare and len(member) == 1


def _members(tokens: Sequence[Token]) -> Iterator[list[Token]]:
    """The members of a list: what stands between commas and `and`, without `then`."""
    member: list[Token] = []
    for token in tokens:
        word = token.text.casefold()
        if word in (",", ";", "and"):
            if member:
                yield member
            member = []
        elif token.pos != "PUNCT" and not (word in _ALSO and not member):
            member.append(token)
    if member:
        yield member


def _joined(text: str, steps: Sequence[tuple[int, int]]) -> Iterator[tuple[int, int]]:
    """The steps, with `don't` and its verb as one; no particle (`go round`), no second choice (`tick or cross`)."""
    index = before = 0
    while index < len(steps):
        start, end = steps[index]
        index += 1
        if index > 1 and _CHOICE.fullmatch(text[before:start]):
            continue
        if text[start:end].casefold() in _DO and _NOT.match(text, start + 2) and index < len(steps):
            following, last = steps[index]
            if len(text[end:following].split()) <= 2:
                end = last
                index += 1
        before = end
        yield start, end
