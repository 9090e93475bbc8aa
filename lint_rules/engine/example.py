"""From a rule's example to a small course: what the tests run and `hornbook rules NAME` prints.

The words to be flagged stand in « » in an example's text; here they become spans of the file without the marks.
"""

from dataclasses import dataclass
from io import StringIO

from ruamel.yaml import YAML

from lint_rules.course.versions import CURRENT
from lint_rules.rule import Example
from lint_rules.source import Span

OPEN, CLOSE = "«", "»"
_COURSE = (
    f"title: The example course\nadopted: '{CURRENT}'\n"
    "levels:\n  - name: level-1\n    cefr: A1\n    words: words/level-1.csv\n"
)
_LATER = "  - name: level-2\n    cefr: A2\n    words: words/level-2.csv\n"
_WORDS = "word,part_of_speech,topic,unit,use,note\n"
_FRONT = "---\nlevel: level-1\nunit: 1\ntitle: Example\n---\n\n"
_TITLE = "# Example\n\n"
_LESSON = "## Lesson 1: Look {.words}\n\n"
_ACTIVITY = "### 1 Look and read. {.reading}\n\n"


@dataclass(frozen=True, slots=True)
class Assembled:
    """An example as the files of a course, by path, and the spans that should be flagged in each unit's file."""

    files: dict[str, str]
    flagged: dict[str, tuple[Span, ...]]


def assemble(example: Example) -> Assembled:
    """Supply what is missing around an example."""
    base = _COURSE + (_LATER if example.later_words else "")
    files = {"course.yaml": _merged_course(base, example.course), "words/level-1.csv": _WORDS + example.words}
    if example.later_words:
        files["words/level-2.csv"] = _WORDS + example.later_words
    flagged: dict[str, tuple[Span, ...]] = {}
    for index, text in enumerate((example.text, *example.others), start=1):
        path = f"level-1/unit-{index:02}.md"
        files[path], flagged[path] = unmark(_surround(text))
    return Assembled(files, flagged)


def unmark(text: str) -> tuple[str, tuple[Span, ...]]:
    """Take the marks out of a text: the text without them, and the spans that they stood around, in order."""
    plain: list[str] = []
    spans: list[Span] = []
    length, start = 0, 0
    for piece in _pieces(text):
        if piece == OPEN:
            start = length
        elif piece == CLOSE:
            spans.append(Span(start, length))
        else:
            plain.append(piece)
            length += len(piece)
    return "".join(plain), tuple(spans)


def _pieces(text: str) -> list[str]:
    return [piece for part in text.split(OPEN) for piece in (OPEN, *_split_keeping(part))][1:]


def _split_keeping(part: str) -> list[str]:
    first, *rest = part.split(CLOSE)
    return [first, *(piece for other in rest for piece in (CLOSE, other))]


def _surround(text: str) -> str:
    plain = text.lstrip(OPEN)
    for start, before in (
        ("---", ""),
        ("# ", _FRONT),
        ("## ", _FRONT + _TITLE),
        ("### ", _FRONT + _TITLE + _LESSON),
    ):
        if plain.startswith(start):
            return before + text
    return _FRONT + _TITLE + _LESSON + _ACTIVITY + text


def _merged_course(plain: str, extra: str) -> str:
    yaml = YAML(typ="safe")
    yaml.default_flow_style = False
    base = yaml.load(plain)
    if extra.strip():
        base = _merge(base, yaml.load(extra))
    out = StringIO()
    yaml.dump(base, out)
    return out.getvalue()


def _merge(base: object, extra: object) -> object:
    """Lay YAML over YAML: mappings key by key, lists of mappings item by item, all else replaced."""
    if isinstance(base, dict) and isinstance(extra, dict):
        return base | {key: _merge(base.get(key), value) for key, value in extra.items()}
    if isinstance(base, list) and isinstance(extra, list) and all(isinstance(item, dict) for item in base + extra):
        longest = max(len(base), len(extra))
        first = base[0] if base else {}
        padded = base + [{key: first[key] for key in ("cefr", "words") if key in first}] * (longest - len(base))
        return [_merge(*pair) for pair in zip(padded, extra + [{}] * (longest - len(extra)), strict=True)]
    return extra
