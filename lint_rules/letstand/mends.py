"""Applying mends to the text of one file: all edits that do not touch one another, or those of none that clash."""

from collections.abc import Iterable

from lint_rules.finding import Edit, Mend


def apply_mends(text: str, mends: Iterable[Mend]) -> tuple[str, tuple[Mend, ...]]:
    """Apply mends in order; give back the new text and the mends that were applied.

    A mend whose edits overlap those of an earlier one is left for the next run: it was worked out on other words.
    Insertions at the same place are kept in order. Everything else stays as it is, character for character.
    """
    taken: list[Edit] = []
    applied: list[Mend] = []
    for mend in mends:
        if not any(_clash(new, old) for new in mend.edits for old in taken):
            taken += mend.edits
            applied.append(mend)
    in_order = sorted(enumerate(taken), key=lambda pair: (pair[1].span, pair[0]), reverse=True)
    for _, edit in in_order:
        text = text[: edit.span.start] + edit.text + text[edit.span.end :]
    return text, tuple(applied)


def _clash(new: Edit, old: Edit) -> bool:
    if new == old:
        return True
    return new.span.start < old.span.end and old.span.start < new.span.end
