"""Make one word of what the tokenizer takes apart at hyphens: `T-shirt`, `ice-cream`, `twenty-one`."""

from lint_rules.language.parsing.words import Word

HYPHENS = "-\u2010\u2011"  # not the dashes: they stand between words


def merge_hyphened(words: list[Word], shown: str) -> tuple[list[Word], list[int]]:
    """The words with hyphened ones merged, and for each old word the index of its new one.

    A merged word takes tag and head of the part on which the others hang, and the lemma of its last part.
    """
    runs = _runs(words, shown)
    if not runs:
        return words, list(range(len(words)))
    merged: list[Word] = []
    numbers: list[int] = []
    at = 0
    while at < len(words):
        end = runs.get(at, at + 1)
        numbers.extend([len(merged)] * (end - at))
        merged.append(words[at] if end == at + 1 else _merge(words[at:end], shown))
        at = end
    for index, word in enumerate(merged):
        word.index, word.head = index, numbers[word.head]
    return merged, numbers


def _runs(words: list[Word], shown: str) -> dict[int, int]:
    """Where hyphened words start, and one past where they end."""
    runs: dict[int, int] = {}
    start = 0
    for index in range(1, len(words) - 1):
        word = words[index]
        if word.lower != "-" or shown[word.start] not in HYPHENS:
            continue
        before, after = words[index - 1], words[index + 1]
        joined = before.end == word.start and after.start == word.end
        if joined and before.lower[-1:].isalnum() and after.lower[:1].isalnum() and not (before.gap or after.gap):
            if runs.get(start) != index:
                start = index - 1
            runs[start] = index + 2
    return runs


def _merge(parts: list[Word], shown: str) -> Word:
    inside = {part.index for part in parts}
    top = next((part for part in reversed(parts) if part.head not in inside or part.head == part.index), parts[-1])
    first, last = parts[0], parts[-1]
    whole = shown[first.start : last.end].lower()
    lemma = whole[: last.start - first.start] + last.lemma.lower()
    head = first.index if top.head == top.index else top.head
    tag, pos = (last.tag, last.pos) if top.lower == "-" else (top.tag, top.pos)
    return Word(
        first.index, whole, first.start, last.end, lemma, pos, tag, top.dep, head, name=last.name, capital=first.capital
    )
