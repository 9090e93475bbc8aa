"""What the corrections and the structures work on: the words of one passage as the parser reads them, made mutable."""

from dataclasses import dataclass, field

# The Penn Treebank's finite verb tags, and all its verb tags.
FINITE = frozenset({"VBZ", "VBP", "VBD", "MD"})
VERB = frozenset({"VB", "VBZ", "VBP", "VBD", "VBN", "VBG", "MD"})
NOUN = frozenset({"NN", "NNS", "NNP", "NNPS"})
GAP = "GAP"  # the tag of a gap to fill in


@dataclass(slots=True)
class Word:
    """One word or mark. ``start``, ``end`` are offsets into the passage's text; ``lower`` is what the parser read."""

    index: int
    lower: str
    start: int
    end: int
    lemma: str
    pos: str
    tag: str
    dep: str
    head: int
    gap: bool = False
    name: bool = False
    capital: bool = False
    spaced: bool = True  # white space stands before it
    children: list[int] = field(default_factory=list)

    def retag(self, tag: str, pos: str, lemma: str = "") -> None:
        """Give the word another tag, part of speech and, if one is given, lemma."""
        self.tag, self.pos = tag, pos
        if lemma:
            self.lemma = lemma


@dataclass(slots=True)
class Text:
    """The words of one passage and where its sentences start and end (word indices, half-open)."""

    words: list[Word]
    sentences: list[tuple[int, int]]
    instruction: bool = False

    def link(self) -> None:
        """Fill in every word's children from the heads."""
        words = self.words
        for word in words:
            word.children = []
        for word in words:
            if word.head != word.index:
                words[word.head].children.append(word.index)

    def child(self, word: Word, *deps: str) -> Word | None:
        """The first child of a word with one of these dependencies."""
        for index in word.children:
            if self.words[index].dep in deps:
                return self.words[index]
        return None

    def before(self, word: Word) -> Word | None:
        """The word before this one, or None."""
        return self.words[word.index - 1] if word.index else None

    def after(self, word: Word) -> Word | None:
        """The word after this one, or None."""
        return self.words[word.index + 1] if word.index + 1 < len(self.words) else None

    def attach(self, word: Word, head: Word, dep: str) -> None:
        """Hang a word under another head."""
        if word.head != word.index and word.index in self.words[word.head].children:
            self.words[word.head].children.remove(word.index)
        word.head, word.dep = head.index, dep
        if head.index != word.index:
            head.children.append(word.index)
            head.children.sort()

    def reach(self, word: Word) -> tuple[int, int]:
        """First and last index of a word and all that hangs under it."""
        first = last = word.index
        stack, seen = [word.index], set()
        while stack:
            index = stack.pop()
            if index in seen:
                continue
            seen.add(index)
            first, last = min(first, index), max(last, index)
            stack.extend(self.words[index].children)
        return first, last
