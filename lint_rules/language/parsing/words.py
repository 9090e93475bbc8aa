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
    capital: bool = False  # as the passage has it
    mention: bool = False  # it is only mentioned, or part of a set phrase, and shows no structure
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

    def promote(self, verb: Word, auxiliary: Word, dep: str) -> None:
        """Make ``verb`` the head of its group and ``auxiliary`` its auxiliary: `What WERE the seals DOING?`."""
        self._take_place(verb, auxiliary)
        self.attach(auxiliary, verb, dep)

    def demote(self, verb: Word, auxiliary: Word, dep: str) -> None:
        """Make ``auxiliary`` the full verb of which ``verb`` is only a complement: `the shop IS CLOSED`."""
        self._take_place(auxiliary, verb)
        self.attach(verb, auxiliary, dep)
        for child in (self.words[index] for index in auxiliary.children):
            if child.dep in ("nsubjpass", "csubjpass"):
                child.dep = child.dep.removesuffix("pass")

    def _take_place(self, new: Word, old: Word) -> None:
        """Put one word in the place of another: its head, its dependency, and what hangs under it."""
        if new.head != new.index:
            self.words[new.head].children.remove(new.index)
        is_root = old.head == old.index or old.head == new.index
        head = new.index if is_root else old.head
        dep = "ROOT" if is_root else old.dep
        if not is_root:
            self.words[old.head].children.remove(old.index)
        for index in list(old.children):
            child = self.words[index]
            if index != new.index and (
                index < old.index or index < new.index or child.dep in ("punct", "nsubj", "mark")
            ):
                old.children.remove(index)
                child.head = new.index
                new.children.append(index)
        new.head, new.dep = head, dep
        if not is_root:
            self.words[head].children.append(new.index)
        new.children.sort()

    def detach(self, word: Word) -> None:
        """Make a word a root of its own."""
        if word.head != word.index:
            self.words[word.head].children.remove(word.index)
        word.head, word.dep = word.index, "ROOT"

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
