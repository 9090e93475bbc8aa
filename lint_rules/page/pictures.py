"""What the pictures and art briefs of a unit say: whether an alternative text names anything, where its file must be,
and whether a brief says drawing or photo and what it must show."""

import posixpath
import re
from collections.abc import Iterable
from difflib import get_close_matches
from urllib.parse import unquote

from lint_rules import lazy_re
from lint_rules.manuscript.model import Part, Passage, Unit
from lint_rules.plain_words import LETTERS
from lint_rules.tables import words

_ELSEWHERE = lazy_re.compile(r"(?:[a-z][a-z0-9+.-]*:|//|#)", re.I)
_SUFFIX = lazy_re.compile(r"\.(?:svg|png|jpe?g|gif|tiff?|webp|pdf|eps|ai|psd|bmp|heic)$", re.I)
_PHOTO = lazy_re.compile(r"\b(?:photo|photograph|photographs|photos|photographic)\b", re.I)
_DRAWING = lazy_re.compile(
    r"\b(?:drawing|drawings|drawn|illustration|illustrations|illustrated|cartoon|cartoons|comic|sketch|painting|artwork|"
    r"line art|diagrams?|maps?|grids?|crosswords?|charts?|graphs?|mazes?|puzzles?|(?:speech|thought) bubbles?|"
    r"family trees?|floor plans?|time ?lines?|outlines?)\b",
    re.I,
)


_TAUGHT = frozenset(
    {"draw", "colour", "color", "black", "white", "large", "small", "new", "old", "line", "in", "on"}
)  # words to learn


def names_nothing(alt: str, target: str) -> bool:
    """Say whether an alternative text tells nobody what must be seen: `image`, `picture1`, a file's name."""
    text = alt.strip()
    if _SUFFIX.search(text):
        return True
    own = LETTERS.findall(text.casefold())
    if re.fullmatch(r"\d+|[^\W\d_]", text):
        return False  # a number or a letter to learn
    if own == ["fig"] and "." not in text:
        return False  # the fruit; Fig. 3 is none
    if len(own) == 1 and own[0] in _TAUGHT:
        return False
    if not own or all(word in words("empty_picture_words") for word in own):
        return True
    stem = posixpath.basename(unquote(target)).rpartition(".")[0].casefold()
    return bool(re.search(r"[\d_]", text)) and " " not in text and text.casefold() == stem


def is_photo(classes: Iterable[str]) -> bool:
    """Say whether classes ask for a photo."""
    return any(_PHOTO.fullmatch(name) for name in classes)


def says_how(text: str, classes: Iterable[str]) -> bool:
    """Say whether a brief asks for a drawing or a photo, in its classes or its words."""
    said = " ".join((text, *classes))
    return bool(_PHOTO.search(said) or _DRAWING.search(said))


def shows_nothing(text: str) -> bool:
    """Say whether a brief has no word left about what must be seen once `drawing`, `full page` and the like are out."""
    own = LETTERS.findall(text.casefold())
    return all(word in words("empty_picture_words") for word in own)


def asked_photo(text: str, classes: Iterable[str]) -> bool:
    """Say whether a brief asks for a photo and not for a drawing."""
    return (is_photo(classes) or bool(_PHOTO.search(text))) and not _DRAWING.search(" ".join((text, *classes)))


def file_of(target: str, unit_path: str) -> str | None:
    """The path inside the course of a picture's file, relative to the file of its unit; None for what is no file of
    the course: an address on the web, data, a place outside the course's folder."""
    if _ELSEWHERE.match(target):
        return None
    plain = unquote(re.split(r"[?#]", target, maxsplit=1)[0]).replace("\\", "/")
    if plain.startswith("/"):
        path = posixpath.normpath(plain.lstrip("/"))
    else:
        path = posixpath.normpath(posixpath.join(posixpath.dirname(unit_path), plain))
    return None if path.startswith("..") else path


def same_file(path: str, files: Iterable[str]) -> str | None:
    """A file of the course that must have been meant: the same name in another folder or in other capitals."""
    name = posixpath.basename(path).casefold()
    return min((file for file in files if posixpath.basename(file).casefold() == name), default=None)


def files_named_in(unit: Unit) -> set[str]:
    """Paths inside the course of the picture files that a unit names."""
    parts = (unit.opening, *(lesson.part for lesson in unit.lessons), *(activity.part for activity in unit.activities))
    holders: tuple[Passage | Part, ...] = (*unit.passages, *parts)
    paths = {file_of(picture.target, unit.path) for holder in holders for picture in holder.pictures}
    return {path for path in paths if path is not None}


def nearest_file(path: str, files: Iterable[str]) -> str | None:
    """A file of the course that was probably meant: the same name elsewhere or in other capitals, or a near name."""
    near = get_close_matches(path, sorted(files), n=1, cutoff=0.85)
    return same_file(path, files) or (near[0] if near else None)
