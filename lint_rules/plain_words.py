"""What a word is in plain text, for everything that looks at a text without its parse. Four ways to cut one,
and what a sentence is:

``WORD``: as children's words are counted. An apostrophe or a hyphen inside joins: `don't` and `round-ended` are one
word each; so is a figure like 7.30 or 1,000. A gap (`____`) is none.
``PART``: the same, but a hyphened word is its parts, and letters and digits part: round, ended; 20, cm.
``LETTERS``: runs of letters and nothing else: don, t.
``TOGETHER``: what stands together, gaps and marks of a word among it: k_te, -ing.
``SENTENCE``: what runs to a full stop, a question or exclamation mark, those included, or to the end of a line.
``DENIED``: a word that denies what its sentence says.
"""

import re

from lint_rules import lazy_re

_MARKS = "[\u0300-\u036f]+"  # combining, as some editors write é
_RUN = rf"[^\W_]+(?:{_MARKS}[^\W_]*)*"
_LETTERS = rf"[^\W\d_]+(?:{_MARKS}[^\W\d_]*)*"

WORD = lazy_re.compile(rf"\d+(?:[.,:]\d+)+[^\W\d_]*|{_RUN}(?:['’ʼ‐‑-]{_RUN})*")
PART = lazy_re.compile(rf"{_LETTERS}(?:['’ʼ]{_LETTERS})*|\d+")
LETTERS = lazy_re.compile(r"[^\W\d_]+")
TOGETHER = lazy_re.compile(r"[\w’'-]+")
SENTENCE = lazy_re.compile(r"(?:[^.!?\n]|(?<=\d)\.(?=\d))+[.!?]*")  # at 6.45 is one
DENIED = lazy_re.compile(r"n['’]t\b|\b(?:not|no|never|nobody|nothing|cannot|without)\b", re.I)
