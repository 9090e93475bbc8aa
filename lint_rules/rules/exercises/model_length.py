"""A model answer that is longer or shorter than what children are asked to write.

A page says `Write 20–30 words`, and the model, in the key or on the page, has sixty: the teacher takes the model for
the measure, and children who have done what was asked seem to have done half. Where the page of a writing task says how
many words, the model is counted. A tenth more or less is near enough; a beginning that children finish (Dear Diary, …)
is no model, and neither are several answers side by side.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass

from lint_rules import lazy_re
from lint_rules.finding import Found, Severity
from lint_rules.manuscript.counting import count_words, ends_sentence, is_title
from lint_rules.manuscript.model import Activity, Audience, Passage, Role
from lint_rules.rule import Example, Limit, Reading, Rule

_TASK = "### 1 Write a postcard. {{.writing}}\n\nWrite {}.\n\n::: answers\n{}\n:::\n"
_MODEL = "Hello Mum! I am at the sea and it is very hot. I swim every day with my dog. "

RULE = Rule(
    name="model-length",
    family="exercises",
    severity=Severity.QUERY,
    since="0.2",
    cure="Give the model the length that children are asked for, or ask for what the model has.",
    limits=(Limit("a tenth more or less is near enough", "common practice, no source"),),
    passes=(
        Example(_TASK.format("15–20 words", "*Model:* " + _MODEL)),
        Example(_TASK.format("20 words or more", _MODEL * 3)),
        Example(_TASK.format("about 20 words", _MODEL)),
        Example(_TASK.format("five words", "sea, sun, dog, hot, swim")),
        Example(_TASK.format("20–30 words", "Children's own answers."), why="no model"),
        Example(
            "### 1 Write. {.writing}\n\n" + _MODEL + "\n\nWrite 15–20 words about your day.\n\n::: answers\n"
            "The model above is one possible answer. A good text has a day, a place, and at least two things that were "
            "seen there, one of them in the past.\n:::\n",
            why="a remark on the model",
        ),
        Example(
            "### 1 Write 40–50 words about a trip. {.writing}\n\n::: answers\nA good text says who went where, and it "
            "has two things that were seen there.\n:::\n",
            why="what a good one has",
        ),
        Example("### 1 Write a postcard. {.writing}\n\n::: answers\n" + _MODEL + "\n:::\n", why="no limit"),
        Example(_TASK.format("8–10 words", "1. I swim.\n2. I run with my dog.\n3. I eat fish and cake.")),
    ),
    fails=(
        Example(_TASK.format("«20–30 words»", "*Model:* " + _MODEL * 3)),
        Example("### 1 Write a postcard («up to 15 words»). {.writing}\n\n::: answers\n" + _MODEL * 2 + "\n:::\n"),
        Example(_TASK.format("«40 to 50 words»", "Sample answer: " + _MODEL)),
        Example(_TASK.format("«40–50 words»", "Children's own answers. Sample: " + _MODEL)),
        Example(
            "### 1 Write. {.writing}\n\n" + _MODEL + "\n\nWrite «40–50 words» about your day.\n\n::: answers\n"
            "The model above is one possible answer.\n:::\n"
        ),
        Example("### 1 Read the example. Write. {.writing}\n\n**The sea**\n\n" + _MODEL + "\n\nWrite «5–10 words».\n"),
    ),
)  # fmt: skip

_RANGE = lazy_re.compile(r"\b(\d{1,3})\s*(?:–|-|—|to|and)\s*(\d{1,3}) words\b", re.I)
_MOST = lazy_re.compile(
    r"\b(?:at most|up to|no more than|not more than|maximum(?: of)?|max\.?) (\d{1,3}) words\b", re.I
)
_LEAST = lazy_re.compile(r"\b(?:at least|more than) (\d{1,3}) words\b|\b(\d{1,3}) words or more\b", re.I)
_ABOUT = lazy_re.compile(r"\b(?:about |around )?(\d{1,3}) words\b", re.I)
_LABEL = lazy_re.compile(
    r"\b(?:(?:model|sample|example)(?: (?:text|answer|diary|story|email|e-mail|letter))?\s*[:–—]"
    r"|(?:possible|suggested|sample|model) answer\W|for example\s*:)\W*",
    re.I,
)
_OWN = lazy_re.compile(r"\b(?:own|vary|varies|various|open|free)\b", re.I)
# What is said of a model that stands on the page: The model above is one possible answer.
_REMARK = lazy_re.compile(
    r"\b(?:the|this) (?:model|text|example|report|story|letter|diary|e-?mail)\b"
    r"[^.!?]*\b(?:above|on the page|is (?:one|a) )"
    r"|\bone (?:possible |good )?(?:example|answer|way)\b"
    r"|\ba good (?:\w+ )?\w+ (?:has|says|gives|tells|needs|ends|begins|uses)\b",
    re.I,
)
_NUMBERED = lazy_re.compile(r"^\W*\d{1,2}[).\s]", re.M)
_READ_FIRST = lazy_re.compile(r"\bread (?:the|this|an?) (?:\w+ )?(?:example|model)\b", re.I)
_NEAR = 1.1
_AROUND = 1.25  # of `about 20 words`
_TEXT = 10  # words of the shortest model that is taken for a text


@dataclass(frozen=True, slots=True)
class _Asked:
    passage: Passage
    start: int
    end: int
    least: float
    most: float


def find(reading: Reading) -> Iterator[Found]:
    """Report tasks whose model has another length, at the length that is asked for."""
    for activity in reading.unit.activities:
        if "writing" not in activity.kinds:
            continue
        asked = [one for passage in _page(activity) for one in _asked_in(passage)]
        if len(asked) != 1:
            continue
        wanted = asked[0]
        model = _model(activity, wanted.passage)
        words = count_words(model)
        if "___" in model or words < _TEXT or wanted.least <= words <= wanted.most:
            continue
        text = wanted.passage.text[wanted.start : wanted.end]
        cure = "Shorten it, or ask for more." if words > wanted.most else "Write more of it, or ask for less."
        message = f"Children are to write {text}, and the model has {words}. {cure}"
        yield Found(wanted.passage.span(wanted.start, wanted.end), text, message)


def _page(activity: Activity) -> Iterator[Passage]:
    yield activity.heading.passage
    yield from (passage for passage in activity.part.passages if passage.audience is Audience.PUPIL)


def _asked_in(passage: Passage) -> Iterator[_Asked]:
    """What a passage says about the number of words, in the narrowest way that fits."""
    for pattern in (_RANGE, _MOST, _LEAST, _ABOUT):
        match = pattern.search(passage.text)
        if match is None:
            continue
        numbers = [int(group) for group in match.groups() if group]
        if pattern is _RANGE:
            yield _Asked(passage, *match.span(), numbers[0] / _NEAR, numbers[1] * _NEAR)
        elif pattern is _MOST:
            yield _Asked(passage, *match.span(), 0, numbers[0] * _NEAR)
        elif pattern is _LEAST:
            yield _Asked(passage, *match.span(), numbers[0] / _NEAR, float("inf"))
        else:
            yield _Asked(passage, *match.span(), numbers[0] / _AROUND, numbers[0] * _AROUND)
        return


def _model(activity: Activity, asked: Passage) -> str:
    """The one model of a writing task: in the key, or the example on the page that children are to read first."""
    page = [passage for passage in _page(activity) if passage.role is Role.TEXT and not is_title(passage)]
    if _READ_FIRST.search(activity.heading.passage.text):
        return " ".join(passage.text for passage in page if passage is not asked)
    key = [passage for passage in activity.part.passages if passage.audience is Audience.KEY and passage.text.strip()]
    if not key or any(passage.role not in (Role.TEXT, Role.LINE) for passage in key):
        return ""
    text = "\n".join(passage.text for passage in key)
    if _REMARK.search(text):
        return "\n".join(
            passage.text for passage in page if passage is not asked and count_words(passage.text) >= _TEXT
        )
    labels = list(_LABEL.finditer(text))
    if labels:
        text = text[labels[0].end() :]
    if len(labels) > 1 or (not labels and _OWN.search(text)) or _NUMBERED.search(text) or not ends_sentence(text):
        return ""
    return text
