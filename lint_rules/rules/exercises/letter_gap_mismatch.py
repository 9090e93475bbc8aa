"""A word with letters to fill in that its answer does not fit: another number of letters, or other letters shown.

Children count the lines before they write: `t _ _ t o` is no tomato, and a child who knows the word is stuck all the
same. One line is one letter where the instruction says so, or where the other words of the exercise are made that way.
"""

import re
from collections.abc import Iterator, Sequence

from lint_rules.finding import Found, Severity
from lint_rules.language.vocabulary.reference import common, lowest
from lint_rules.page.exercises.answers import alternatives, plain
from lint_rules.page.exercises.completed import SHORT_FORM, key_texts, word_with
from lint_rules.page.exercises.gaps import fits, shown_letters
from lint_rules.page.exercises.instructions import one_letter_each
from lint_rules.page.exercises.model import Exercise, Place
from lint_rules.rule import Example, Reading, Rule

RULE = Rule(
    name="letter-gap-mismatch",
    family="exercises",
    severity=Severity.QUERY,
    since="0.2",
    cure="Give the word one line for each letter that is missing.",
    passes=(
        Example(
            "My do \\_ runs. My h \\_ n sits. It is a \\_ wl.\n\n::: answers\ndog – hen – owl\n:::\n",
            why="words of the sentence beside the letters",
        ),
        Example("1 g\\_\\_t   2 sh\\_\\_p\n\n::: answers\n1 goat 2 sheep\n:::\n"),
        Example("1 c a _ _ o t   2 o n _ o n\n\n::: answers\n1 carrot 2 onion\n:::\n"),
        Example("1. m____n\n2. gr____n\n\n::: answers\n1 oo 2 ee\n:::\n", why="one gap for several letters"),
        Example("1. Mum is ____ing.\n2. Dad is ____ing.\n\n::: answers\n1 read 2 sleep\n:::\n"),
    ),
    fails=(
        Example(
            "1. You wear it. «a \\_ \\_ \\_»\n2. It is hot. f \\_ \\_ \\_\n3. It is cold. i \\_ \\_\n\n"
            "::: answers\n1 apron 2 fire 3 ice\n:::\n",
            why="a first letter that is a word too",
        ),
        Example(
            "### 1 Write. One line, one letter. {.writing}\n\n"
            "My d\\_g is wet. My t \\_ \\_ tle is dry. My «sq \\_ rrel» is in a tree.\n\n"
            "::: answers\ndog – turtle – squirrel\n:::\n",
            why="letters in groups",
        ),
        Example(
            "### 1 Write one letter on each line. {.writing}\n\n| 1 | 2 | 3 |\n|---|---|---|\n"
            "| b\\_d | «ch\\_r» | l\\_mp |\n\n::: answers\n1 bed 2 chair 3 lamp\n:::\n",
            why="below their numbers",
        ),
        Example("1 g\\_\\_t   2 «sh\\_p»   3 d\\_g\n\n::: answers\n1 goat 2 sheep 3 dog\n:::\n"),
        Example("1 c a _ _ o t   2 «t _ _ t o»   3 p _ _ s\n\n::: answers\n1 carrot 2 tomato 3 peas\n:::\n"),
        Example(
            "1. I drink m\\_\\_k.\n2. I eat «br\\_\\_d».\n\n::: answers\n1 milk 2 brown\n:::\n", why="other letters"
        ),
    ),
)


def find(reading: Reading) -> Iterator[Found]:
    """Report words with gaps that the key does not fit."""
    for read in reading.readings.exercises:
        said_so = one_letter_each(read.activity.heading.passage.text)
        for exercise in read.exercises:
            yield from _compare(exercise, said_so=said_so)


def _compare(exercise: Exercise, *, said_so: bool) -> Iterator[Found]:
    words = [
        (gap.word, _answers(said))
        for item in exercise.items
        for gap, said in zip(item.gaps, key_texts(item), strict=False)
        if gap.word is not None and said
    ]
    fitting = [word for word, answers in words if _fits(word, answers)]
    wrong = [(word, answers) for word, answers in words if answers and not _fits(word, answers)]
    long = {run for word, _ in words for run in re.findall("_+", word.text)}
    if "____" in long and len(long) == 1:  # one gap for all that is missing
        yield from _made(words)
        return
    if (said_so or len(fitting) > len(wrong) or (len(fitting) == len(wrong) == 1)) and len(wrong) <= max(
        1, len(fitting)
    ):
        for word, answers in wrong:
            yield Found(word.span, word.text, _message(word, answers[0]))


def _made(words: Sequence[tuple[Place, list[str]]]) -> Iterator[Found]:
    """Words that cannot be, whatever the number of letters: the letters shown are no part of the answer, or the letters
    of the answer make no word, where the others of the exercise do."""
    wholes = [(word, [one for one in answers if len(one) > len(shown_letters(word.text))]) for word, answers in words]
    wrong = [
        (word, answers)
        for word, answers in wholes
        if answers
        and not any(fits(word.text, one, one_each=False) for one in answers)
        and not _makes_word(word, answers)
    ]
    if len(wrong) * 3 <= len(words):
        for word, answers in wrong:
            message = f"The key has “{answers[0]}”, and its letters are not those that are shown."
            yield Found(word.span, word.text, message)
    letters = [(word, word_with(word.text, answers[0])) for word, answers in words if answers]
    unknown = [(word, made) for word, made in letters if made and made.isalpha() and not _is_word(made)]
    if not wrong and len(unknown) == 1 and len(letters) > 2:
        word, made = unknown[0]
        yield Found(word.span, word.text, f"With the key this becomes “{made}”, which is no word.")


def _is_word(made: str) -> bool:
    return lowest(made) not in {"", "C2"} or common(made) > 0


def _makes_word(word: Place, answers: Sequence[str]) -> bool:
    """Whether an answer is the letters that are missing, and makes a word: `ow` for `____l`."""
    blank = re.search("_+", word.text)
    return blank is not None and any(_is_word(word.text.replace(blank[0], one, 1).casefold()) for one in answers)


def _answers(said: str) -> list[str]:
    """The words that an answer gives; of `oo (moon)` both; none of what ends a short form ('s)."""
    if SHORT_FORM.fullmatch(said.strip()):
        return []
    found = [plain(one) for one in alternatives(said)]
    found += [plain(one) for one in re.findall(r"[^\W\d_]+", said)] if len(said.split()) <= 3 else []
    return [one for one in dict.fromkeys(found) if one.isalpha()]


def _fits(word: Place, answers: list[str]) -> bool:
    """Whether an answer fits, as the whole word or as the letters that are missing."""
    blanks = word.text.count("_")
    shown = shown_letters(word.text)
    return any(
        fits(word.text, one, one_each=True) or (len(one) == blanks and len(one) <= max(2, len(shown)))
        for one in answers
    )


def _message(word: Place, answer: str) -> str:
    blanks = word.text.count("_")
    shown = len(shown_letters(word.text))
    missing = len(answer) - shown if len(answer) > shown else len(answer)
    if missing != blanks:
        lines = "is only 1 line" if blanks == 1 else f"are {blanks} lines"
        letters = "1 letter" if missing == 1 else f"{missing} letters"
        return f"The key has “{answer}”: that takes {letters} here, and there {lines}."
    return f"The key has “{answer}”, and its letters are not those that are shown."
