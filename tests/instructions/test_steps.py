"""Which steps an instruction has: counted and marked by hand, with the real parser and with what a parser may miss."""

import re
from pathlib import Path

import pytest

from lint_rules.language.grammar.steps import steps_of
from lint_rules.language.service import Language, Request
from lint_rules.language.tokens import Analysis, Mode, Reference, Sentence, Structure, Token

LINES = [
    line.split(" | ", 1)
    for line in (Path(__file__).parent / "steps.txt").read_text(encoding="utf-8").splitlines()
    if line.strip() and not line.startswith("#")
]


def marked(text: str, analysis: Analysis) -> str:
    for start, end in reversed(steps_of(text, analysis)):
        text = f"{text[:start]}«{text[start:end]}»{text[end:]}"
    return text


@pytest.mark.parametrize(("number", "steps"), LINES)
def test_steps_are_those_that_a_reader_marks(number: str, steps: str, language: Language) -> None:
    assert steps.count("«") == int(number)
    text = re.sub("[«»]", "", steps)
    assert marked(text, language.analyse([Request(text, Mode.INSTRUCTION)])[0]) == steps


# What a parser saw as orders, and the steps that there are.
SEEN = [
    ("«Cut», fold, colour and write.", "«Cut», «fold», «colour» and «write»."),
    ("«Cut» and then fold; now colour, also circle.", "«Cut» and then «fold»; now «colour», also «circle»."),
    ("«Cut», next trace, finally write.", "«Cut», next «trace», finally «write»."),
    ("«Look» at the cat, circle it and colour.", "«Look» at the cat, «circle» it and «colour»."),
    ("«Look» at the cat, circle and ring it.", "«Look» at the cat, circle and ring it."),
    ("«Cut», circle the cat, ring.", "«Cut», «circle» the cat, «ring»."),
    ("«Look», cat, circle the dog.", "«Look», cat, circle the dog."),
    ("«Colour» the square, star, and circle it.", "«Colour» the square, star, and circle it."),
    ("Cut, «fold» it, colour.", "Cut, «fold» it, colour."),
    ("«Cut», fold. Circle, ring it.", "«Cut», «fold». Circle, ring it."),
    ("«Cut» -, fold it.", "«Cut» -, «fold» it."),
    ("«Do» not «write».", "«Do not write»."),
    ("«Don’t» ever «write».", "«Don’t ever write»."),
    ("«Don» 't «write» it. «Look».", "«Don» 't «write» it. «Look»."),
    ("«Do» not ever «write».", "«Do not ever write»."),
    ("«Do» not ever, ever «write».", "«Do» not ever, ever «write»."),
    ("«Do» not look at it, «write».", "«Do» not look at it, «write»."),
    ("«Do» it and «write».", "«Do» it and «write»."),
    ("«Do» nothing. «Write».", "«Do» nothing. «Write»."),
    ("«Draw» not, «write».", "«Draw» not, «write»."),
    ("«Do» not.", "«Do» not."),
    ("«Go» «round», «ask».", "«Go» round, «ask»."),
    ("«Tick» or «cross» and «ask».", "«Tick» or cross and «ask»."),
    ("«Do» not «go» «out», «ask».", "«Do not go» out, «ask»."),
    ("", ""),
]


@pytest.mark.parametrize(("seen", "steps"), SEEN)
def test_what_a_parser_takes_for_a_list_of_things_is_read_by_the_table_of_orders(seen: str, steps: str) -> None:
    text = re.sub("[«»]", "", seen)
    analysis = analysis_of(seen)
    assert marked(text, analysis) == steps


def analysis_of(seen: str) -> Analysis:
    """Words, sentences, and the orders between « »."""
    tokens, orders, start = [], [], 0
    for match in re.finditer(r"[«»]|[\w’'-]*\w|[^\w\s]", seen):
        taken = seen.count("«", 0, match.start()) + seen.count("»", 0, match.start())
        at = match.start() - taken
        if match[0] == "«":
            start = at
        elif match[0] == "»":
            orders.append(Structure("imperative", start, at))
        else:
            pos = "X" if match[0][0].isalnum() else "PUNCT"
            tokens.append(Token(at, at + len(match[0]), match[0], "", pos, "", "", 0, Reference("", "")))
    ends = [index + 1 for index, token in enumerate(tokens) if token.text == "." or index == len(tokens) - 1]
    firsts = [0, *ends][: len(ends)]
    sentences = [Sentence(tokens[a].start, tokens[b - 1].end, a, b) for a, b in zip(firsts, ends, strict=True) if a < b]
    others = (Structure("can", 0, 1),)  # no order
    return Analysis(tuple(tokens), tuple(sentences), (*orders, *others))
