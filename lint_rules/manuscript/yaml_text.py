"""YAML with places, by ruamel.yaml: the one node of a text, or its first fault with place and cure."""

import re

from ruamel.yaml import YAML
from ruamel.yaml.error import MarkedYAMLError, YAMLError
from ruamel.yaml.nodes import Node
from ruamel.yaml.reader import ReaderError

# What the YAML reader says → what an author can do about it.
_CURES = (
    (
        r"mapping values are not allowed",
        "a text with a colon and a space in it needs quotation marks, and keys that belong together must start in the"
        " same column",
    ),
    (r"found character '\\t'", "indent with spaces; YAML does not allow tabs"),
    (r"found character", "a text that begins with this character needs quotation marks"),
    (r"expected <block end>|did not find expected", "this does not line up with the lines above it"),
    (r"found undefined alias", "a text that begins with * needs quotation marks"),
    (r"but found another document", "a course file is one document; take out `---` and what is after it"),
    (r"found unknown escape", r"in double quotation marks a \ starts a code; use single ones"),
)
_CURES_WHERE_IT_OPENS = (
    (r"found unexpected (end of stream|document separator)", "a quotation mark opens here and is not closed"),
    (
        r"expected ',' or|expected the node content, but found '<stream end>'",
        "a bracket opens here and is not closed, or a comma is missing after it",
    ),
    (r"could not find expected ':'", "a key needs a colon and a space after it"),
)


class YamlFault(Exception):
    """A text is no YAML: ``at`` is an offset of it, ``cure`` the end of a sentence that says what to do."""

    def __init__(self, at: int, cure: str) -> None:
        super().__init__(cure)
        self.at = at
        self.cure = cure


def read_yaml(text: str) -> Node | None:
    """The one node of a text; None when it is empty. Raises YamlFault."""
    yaml = YAML(typ="safe", pure=True)
    yaml.composer.warn_double_anchors = False
    try:
        node: Node | None = yaml.compose(text)
    except MarkedYAMLError as error:
        raise _cured(error) from error
    except ReaderError as error:
        code = error.character if isinstance(error.character, int) else ord(error.character)
        raise YamlFault(error.position, f"the character U+{code:04X} is not allowed here; delete it") from error
    except RecursionError as error:
        raise YamlFault(0, "its brackets are nested hundreds deep") from error
    except (YAMLError, ValueError, OverflowError) as error:  # an odd escape gets through to int() and chr()
        raise YamlFault(0, _tidied(str(error))) from error
    return node


def _cured(error: MarkedYAMLError) -> YamlFault:
    """Where a fault lies, and what to do about it."""
    said = (error.problem or error.context or "it cannot be read").strip()
    mark = error.problem_mark or error.context_mark
    for cures, place in ((_CURES, mark), (_CURES_WHERE_IT_OPENS, error.context_mark or mark)):
        for fault, cure in cures:
            if re.match(fault, said):
                return YamlFault(place.index if place else 0, cure)
    return YamlFault(mark.index if mark else 0, _tidied(said))


def _tidied(said: str) -> str:
    first = said.strip().split("\n")[0].rstrip(".") or "it cannot be read"
    return first.replace("<block mapping start>", "indented keys").replace("<document start>", "a new document")
