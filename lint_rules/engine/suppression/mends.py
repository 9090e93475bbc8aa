"""Applying mends to the text of one file: those that do not touch one another."""

from collections.abc import Iterable

from lint_rules.finding import Edit, Mend


def apply_mends(text: str, mends: Iterable[Mend]) -> tuple[str, tuple[Mend, ...]]:
    """Apply mends in order; give back the new text and the mends that were applied.

    A mend whose edits overlap those of an earlier one, or insert at the same place, waits: it was worked out on other
    words. (The notes may say all that is missing once the first draft of two is in.) Everything else stays as it is,
    character for character.
    """
    taken: list[Edit] = []
    applied: list[Mend] = []
    for mend in mends:
        if not any(_clash(new, old) for new in mend.edits for old in taken):
            taken += mend.edits
            applied.append(mend)
    for edit in sorted(taken, key=lambda edit: edit.span, reverse=True):
        text = text[: edit.span.start] + edit.text + text[edit.span.end :]
    return text, tuple(applied)


def _clash(new: Edit, old: Edit) -> bool:
    if new.span.start == new.span.end or old.span.start == old.span.end:
        return new.span.start <= old.span.end and old.span.start <= new.span.end
    return new.span.start < old.span.end and old.span.start < new.span.end
