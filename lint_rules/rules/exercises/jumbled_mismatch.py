"""Letters or words to put in order that do not make the answer of the key.

A child moves the letters about until they fit; with one too many they never do. Contractions and a sentence's marks are
not held against a key, nor are words of which children make a longer sentence.
"""

from collections import Counter
from collections.abc import Iterator

from lint_rules.finding import Found, Severity
from lint_rules.page.exercises.answers import alternatives, plain
from lint_rules.page.exercises.jumbles import asks_for_order, letters_of, words_of
from lint_rules.page.exercises.model import Exercise, Item
from lint_rules.rule import Example, Reading, Rule

RULE = Rule(
    name="jumbled-mismatch",
    family="exercises",
    severity=Severity.QUERY,
    since="0.2",
    cure="Give exactly the letters or words that the answer is made of.",
    passes=(
        Example("1 t a c → ____   2 g o d → ____\n\n::: answers\n1 cat 2 dog\n:::\n"),
        Example("1 has / a / hat / Ed\n2 you / are / sad / ?\n\n::: answers\n1 Ed has a hat.\n2 Are you sad?\n:::\n"),
        Example(
            "### 1 Write sentences. {.writing}\n\n1 Mina / like / kites / birds\n2 Rafi / like / apples / plums\n\n"
            "::: answers\n1 Mina likes kites and birds.\n2 Rafi likes apples and plums.\n:::\n",
            why="words to make a longer sentence of",
        ),
        Example("1. He is ____ (tall).\n2. It is ____ (big).\n\n::: answers\n1 taller 2 bigger\n:::\n", why="a hint"),
    ),
    fails=(
        Example(
            "1. ter + win ____\n2. mer + sum ____\n3. «tumn» ____\n\n::: answers\n1 winter 2 summer 3 autumn\n:::\n",
            why="parts of words",
        ),
        Example(
            "1. [«has] [a] [hat] [Ed] [has»]\n2. [you] [are] [sad] [?]\n\n"
            "::: answers\n1 Ed has a hat.\n2 Are you sad?\n:::\n",
            why="cards",
        ),
        Example("1 t a c → ____   2 «g o o d» → ____\n\n::: answers\n1 cat 2 dog\n:::\n"),
        Example(
            "1 «has / a / cat / Ed»\n2 you / are / ill / ?\n\n"
            "::: answers\n1 Ed has a red cat.\n2 Are you ill?\n:::\n"
        ),
        Example(
            "### 1 Write the words. The letters are in brackets. {.writing}\n\n"
            "1. It swims: a ____ «(shfi)».\n2. It flies: a ____ (dbir).\n\n::: answers\n1 duck 2 bird\n:::\n"
        ),
    ),
)  # fmt: skip


def find(reading: Reading) -> Iterator[Found]:
    """Report jumbles that do not make their answers."""
    for read in reading.readings.exercises:
        instruction = read.activity.heading.passage.text
        for exercise in read.exercises:
            yield from _compare(exercise, asks_for_order(instruction))


def _compare(exercise: Exercise, asked: bool) -> Iterator[Found]:
    jumbled = [item for item in exercise.items if item.jumble is not None and item.answer is not None]
    wrong = [item for item in jumbled if not _fits(item)]
    right = len(jumbled) - len(wrong)
    if wrong and (right >= len(wrong) or (asked and right)):
        for item in wrong:
            assert item.jumble is not None
            assert item.answer is not None
            what = "letters" if _is_letters(item) else "words"
            message = f"These {what} do not make the answer of the key, “{item.answer.text}”: {_difference(item)}."
            yield Found(item.jumble.span, item.jumble.text, message)


def _is_letters(item: Item) -> bool:
    assert item.jumble is not None
    if item.answer is not None and len(item.answer.text.split()) == 1 and len(plain(item.jumble.text).split()) > 1:
        return True  # parts of one word
    return max((len(word) for word in plain(item.jumble.text).split()), default=0) <= 1 or " " not in plain(
        item.jumble.text
    )


def _fits(item: Item) -> bool:
    assert item.jumble is not None
    assert item.answer is not None
    count = letters_of if _is_letters(item) else words_of
    given = count(item.jumble.text)
    answers = alternatives(item.answer.text)
    if any(count(one) == given for one in (*answers, item.answer.text)):
        return True
    if count is words_of:  # `I'm` for `I am`
        return any("'" in text.replace("’", "'") for text in (item.jumble.text, item.answer.text)) and any(
            _without_contractions(count(one)) == _without_contractions(given) for one in answers
        )
    return False


def _without_contractions(words: Counter[str]) -> set[str]:
    joined = {"am", "is", "are", "not", "have", "has", "will", "would", "do", "does", "did", "can"}
    return {word for word in words if "'" not in word} - joined


def _difference(item: Item) -> str:
    assert item.jumble is not None
    assert item.answer is not None
    count = letters_of if _is_letters(item) else words_of
    given, wanted = count(item.jumble.text), count(alternatives(item.answer.text)[0])
    over, short = list((given - wanted).elements()), list((wanted - given).elements())
    parts = ([f"{', '.join(over)} left over"] if over else []) + ([f"{', '.join(short)} missing"] if short else [])
    return " and ".join(parts[:2]) if len(over) + len(short) <= 6 else "it is another word"
