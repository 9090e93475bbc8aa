"""What an item says once it is done as the key has it: which options are chosen, and what stands in each blank."""

import re
from collections.abc import Collection, Sequence
from dataclasses import dataclass

from lint_rules import lazy_re
from lint_rules.page.exercises.answers import alternatives, first_text, is_verdict, letters_of, plain
from lint_rules.page.exercises.choices import TICKED
from lint_rules.page.exercises.gaps import fits, shown_letters
from lint_rules.page.exercises.model import Choice, Exercise, Gap, Item, Option
from lint_rules.page.exercises.small_words import small_words
from lint_rules.page.exercises.sums import sum_in

# The child's own answer; any room.
_OPEN = lazy_re.compile(
    r"^\W*open\s*[.:;(]|\b(?:child|children|pupil|student|learner)s?['’]?s?['’]? own\b"
    r"|\bown (?:\w+ )?(?:answers?|ideas?|words?|names?|choice|sentences?|examples?|opinions?)\b"
    r"|^\W*any (?!more\b|time\b)\w+|^\W*(?:any|some)(?:thing|body|one)\s+(?:\w+\s+){1,}\w+",
    re.I,
)
_NUMBER_OF_GAP = lazy_re.compile(r"[(\[]?\b\d{1,2}[)\].]?\s*$")
_PARTS = lazy_re.compile(r"\s*(?:,|;|/|\||…|\.\.\.|\s[–—-]\s|\band\b)\s*")
_VERDICT = lazy_re.compile(r"\s*(?:[TF]|true|false|right|wrong|✓|✗)\s*[–—:;.,-]\s*(?=\S)", re.I)
_CAPITAL = lazy_re.compile(r"[A-Z]{1,2}")
_WORD = lazy_re.compile(r"[\w’']+")
_GOES_ON = lazy_re.compile(r"[ \u00a0][a-z]{2,}")
_A_TEXT = 15  # words that nobody writes into a gap
_REASON = lazy_re.compile(r",?\s+because$", re.I)  # the scale, because 1 cm is 20 m: for *the ____: 1 cm is 20 m*
SHORT_FORM = lazy_re.compile(r"['’](?:m|s|re|ve|ll|d)|n['’]t", re.I)
_BLANK = lazy_re.compile(r"_+(?:\s*_{2,})*")


@dataclass(frozen=True, slots=True)
class Completed:
    """An item done: the option chosen of each choice (None: the key does not say), and the text for each blank: ''
    where nothing that is read goes in (a tick, a letter), None where nobody knows."""

    chosen: tuple[Option | None, ...]
    filled: tuple[str | None, ...]
    matched: Option | None = None  # of the exercise's column

    @property
    def known(self) -> bool:
        """Whether the key says all of it."""
        return None not in self.chosen and None not in self.filled


def completed(item: Item, exercise: Exercise) -> Completed:
    """An item as its key completes it; a key that leaves the answer open says nothing."""
    said = item.answer.text if item.answer is not None else ""
    if _OPEN.search(said):
        said = ""
    chosen = tuple(chosen_option(choice, said, crossed=exercise.key.crossed) for choice in item.choices)
    matched = _by_letter(exercise.column, said) if exercise.column else None
    lettered = [option for choice, option in zip(item.choices, chosen, strict=True) if choice.inline is None]
    if not item.gaps:
        return Completed(chosen, (), matched)
    beside = [option.text for option in chosen if option is not None] if letters_of(said) and not lettered else []
    if len(beside) == len(item.gaps) == len(item.choices):
        texts: tuple[str | None, ...] = tuple(beside)  # ____ [A is / B are]: the blank before its options
    elif lettered:
        texts = _several(lettered[0].text if lettered[0] is not None else None, item)
    elif matched is not None:
        texts = _several(matched.text, item)
    else:
        texts = _from_key(item, said, exercise)
    return Completed(chosen, texts, matched)


def _several(text: str | None, item: Item) -> tuple[str | None, ...]:
    if text is not None and len(text.split()) > _A_TEXT:
        return ("",) * len(item.gaps)  # a card, a paragraph: only its letter is written
    if text is None or len(item.gaps) == 1:
        return (text,) * len(item.gaps)
    parts = [part for part in _PARTS.split(text) if part]
    return tuple(parts) if len(parts) == len(item.gaps) else (None,) * len(item.gaps)


def completed_sentence(item: Item, exercise: Exercise) -> str:
    """An item of one place as the key completes it; '' where it is not known, or nothing is said in its blanks."""
    done = completed(item, exercise)
    if len(item.prompt) != 1 or not done.known or not any(map(_is_of_sentence, done.filled)):
        return ""
    (place,) = item.prompt
    sentence = place.text
    for gap, text in reversed(list(zip(item.gaps, done.filled, strict=True))):
        start, end = gap.place.start - place.start, gap.place.end - place.start
        if gap.place.passage is not place.passage or start < 0 or end > len(place.text):
            return ""
        sentence = f"{sentence[:start]}{text}{sentence[end:]}"
    return sentence.strip()


def _is_of_sentence(text: str | None) -> bool:
    """Say whether what fills a blank is part of the sentence, and no verdict or letter behind it."""
    return text is not None and len(text) > 1 and not is_verdict(text)


def chosen_option(choice: Choice, said: str, *, crossed: bool = False) -> Option | None:
    """The option that an answer chooses, by its letter or its words; None where it chooses none or several."""
    if not said:
        return None
    found = _by_letter(choice.options, said)
    if found is None:
        texts = {plain(one) for one in alternatives(said)}
        named = [option for option in choice.options if texts & {plain(option.text), _with_label(option)}]
        found = named[0] if named else _begun(choice, texts)
    if crossed and found is not None:
        others = [option for option in choice.options if option is not found]
        return others[0] if len(others) == 1 else None
    return found


def _begun(choice: Choice, texts: Collection[str]) -> Option | None:
    """The last box to tick, where an answer begins it: the sentence goes on, ☐ next to ☐ opposite the library."""
    last = choice.options[-1]
    ticked = choice.inline is not None and TICKED.match(choice.inline.text) is not None
    begins = ticked and any(text and plain(last.text).startswith(f"{text} ") for text in texts)
    return last if begins else None


def _by_letter(options: Sequence[Option], said: str) -> Option | None:
    letters = letters_of(said)
    if len(letters) != 1:
        return None
    return next((option for option in options if option.label is not None and option.label.key == letters[0]), None)


def _with_label(option: Option) -> str:
    """An option as a key may repeat it: `b blue`."""
    return plain(f"{option.label.text} {option.text}") if option.label is not None else plain(option.text)


def _from_key(item: Item, said: str, exercise: Exercise) -> tuple[str | None, ...]:
    none = (None,) * len(item.gaps)
    if not said:
        return none
    if len(item.gaps) > 1 and any(sum_in(place) is not None for place in item.prompt):
        return (*([""] * (len(item.gaps) - 1)), _one(item.gaps[-1], said, exercise))
    if len(item.gaps) > 1:
        inner = _within_sentence(item, said)
        parts = inner or [part for part in _PARTS.split(first_text(said)) if part]
        if len(parts) != len(item.gaps):
            return none
        return tuple(_one(gap, part, exercise) for gap, part in zip(item.gaps, parts, strict=True))
    inner = _within_sentence(item, said)
    return (_one(item.gaps[0], inner[0] if inner else said, exercise),)


def _one(gap: Gap, said: str, exercise: Exercise) -> str | None:
    if gap.word is not None:
        return word_with(gap.word.text, said)
    verdict = _VERDICT.match(said)
    text = _without_repeated(gap, first_text(said[verdict.end() :] if verdict else said))
    if text.isdecimal() and _GOES_ON.match(gap.place.passage.text, gap.place.end):
        return text  # a dime and a nickel ____ cents
    if is_verdict(text) or (_CAPITAL.fullmatch(text) and text not in ("I", "A")):
        return ""
    labels = {item.label.key for item in exercise.items} | {
        option.label.key for option in exercise.column if option.label
    }
    return "" if len(text) == 1 and plain(text) in labels and text != "a" else text


def key_texts(item: Item) -> tuple[str, ...]:
    """What the key has for each blank of an item: a part of it each, or the words that its whole sentence has there."""
    said = item.answer.text if item.answer is not None else ""
    inner = _within_sentence(item, said) if said else []
    if inner:
        return tuple(inner)
    if len(item.gaps) == 1:
        return (said if item.gaps[0].word is not None else _without_repeated(item.gaps[0], said),)
    for parts in ([part for part in _PARTS.split(said) if part], said.split()):
        if len(parts) == len(item.gaps):
            return tuple(parts)
    return ()


def _within_sentence(item: Item, said: str) -> list[str]:
    """The words for the blanks, where the key gives the whole sentence; none where it does not."""
    pieces: list[str | None] = []  # None: a blank
    for place in item.prompt:
        at = place.start
        for gap in item.gaps:
            if place.holds(gap.place):
                pieces += [place.passage.text[at : gap.place.start], None]
                at = max(at, gap.hint.end if gap.hint and gap.hint.start >= gap.place.end else gap.place.end)
        pieces.append(place.passage.text[at : place.end])
    words = [word for piece in pieces if piece for word in _WORD.findall(piece)]
    if not any(re.search(r"\w\w", word) for word in words) or sum(map(len, words)) > len(said):
        return []
    blanks = [at for at, piece in enumerate(pieces) if piece is None]
    pattern = "".join(
        r"(.+?)" if piece is None else _between(piece) if blanks and blanks[0] < at < blanks[-1] else _loose(piece)
        for at, piece in enumerate(pieces)
    )
    match = re.fullmatch(pattern, said.strip(), re.I)
    return [group.strip() for group in match.groups()] if match else []


def _without_repeated(gap: Gap, said: str) -> str:
    """What goes into a blank, where the key repeats words that stand around it: `with her` for `I play with ____`."""
    text = gap.place.passage.text
    behind = gap.hint.end if gap.hint is not None and gap.hint.start >= gap.place.end else gap.place.end
    before = _plain_words(_NUMBER_OF_GAP.sub("", text[: gap.place.start]))
    after = _plain_words(text[behind:])
    words = list(_WORD.finditer(said))
    plain_words = _plain_words(said)
    left = next((n for n in range(len(words) - 1, 0, -1) if plain_words[:n] == before[-n:]), 0)
    rest = plain_words[left:]
    right = next((n for n in range(len(rest) - 1, 0, -1) if rest[-n:] == after[:n]), 0)
    if not left and not right:
        return said
    end = words[len(words) - right - 1].end() if right else len(said)
    return _REASON.sub("", said[words[left].start() : end]).rstrip(" .,;")


def _plain_words(text: str) -> list[str]:
    return [plain(word) for word in _WORD.findall(text)]


def _between(text: str) -> str:
    """What stands between two blanks: a comma by itself parts them, and nothing less."""
    return _loose(text) if _WORD.search(text) else rf"\s*{re.escape(text.strip())}\s*" if text.strip() else r"\s+"


def _loose(text: str) -> str:
    words = (re.sub("['’]", "['’]", re.escape(word)) for word in _WORD.findall(text))
    return "".join(rf"\W*(?<!\w){word}(?!\w)" for word in words) + r"\W*"


def word_with(word: str, said: str) -> str | None:
    """A word with blanks once an answer is in it: the answer itself where it fits, else its letters in the blanks."""
    for one in alternatives(said):
        if fits(word, one, one_each=False):
            return one
    squeezed = re.sub(r"[ \u00a0]", "", word)
    blanks = _BLANK.findall(squeezed)
    if len(blanks) == 1 and SHORT_FORM.fullmatch(said.strip()):
        return squeezed.replace(blanks[0], said.strip())  # We____ making, 're
    letters = plain(first_text(said)).strip("_-")
    if len(letters) > max(3, len(shown_letters(word))) and letters.isalpha():
        return letters
    if len(blanks) == 1 and letters.isalpha() and (" " not in word or "__" in word):
        return squeezed.replace(blanks[0], letters)
    if len(letters) == len(blanks) and letters.isalpha():
        whole = squeezed
        for letter in letters:
            whole = _BLANK.sub(letter, whole, count=1)
        return whole
    return None


def is_option(item: Item) -> bool | None:
    """Whether an answer is one of an item's options; None where that is not to be told."""
    if item.answer is None or len(item.choices) != 1 or item.example:
        return None
    said, choice = item.answer.text, item.choices[0]
    letters = letters_of(said)
    labels = {option.label.key for option in choice.options if option.label is not None}
    if letters and labels:
        return all(letter in labels for letter in letters)
    if _begun(choice, {plain(one) for one in alternatives(said)}) is not None:
        return True
    return _says_option(said, choice, pieces=any(gap.word is not None for gap in item.gaps))


def _whole(text: str, said: str) -> bool:
    return re.search(rf"(?<!\w){re.escape(text)}(?!\w)", said) is not None


def _says_option(said: str, choice: Choice, *, pieces: bool) -> bool | None:
    """Whether an answer has an option among its words; within one of them where options are ``pieces`` of words."""
    texts = {plain(option.text) for option in choice.options}
    words = {plain(one) for one in alternatives(said)}
    if not said or any(not text for text in texts):
        return None  # pictures to choose from
    if words & texts or any(text in plain(said) if pieces else _whole(text, plain(said)) for text in texts):
        return True
    longest = max(len(text.split()) for text in texts)
    return False if len(plain(said).split()) <= longest + 1 else None


def asks_another_form(item: Item, gap: Gap) -> bool:
    """`build ____`: one word, and a blank for its past, its plural, its opposite: two words and no sentence."""
    prompt = next((place for place in item.prompt if place.holds(gap.place)), None)
    if prompt is None or len(item.gaps) != 1 or gap.word is not None:
        return False
    text = prompt.passage.text
    word, after = text[prompt.start : gap.place.start].strip(), text[gap.place.end : prompt.end].strip()
    return word.isalpha() and not after and word.lower() not in small_words()


def stands_in_sentence(item: Item, gap: Gap) -> bool:
    """Whether an item's mixed letters stand in a sentence, and its blank behind that: `my **drangap**. ____`."""
    jumble = item.jumble
    if jumble is None or jumble.passage is not gap.place.passage or jumble.end > gap.place.start:
        return False
    text = jumble.passage.text
    before = text[: jumble.start].rstrip()
    return before[-1:].isalpha() and text[jumble.end : gap.place.start].strip()[:1] in (".", "!", "?")
