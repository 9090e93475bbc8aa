"""A key that does not fit the items: an item without an answer, an answer without an item, a letter nobody can tick.

A teacher marks thirty books by the key in a break; a key that is one short, or says "c" where there are a and b, makes
thirty wrong marks. Items and answers are held together by their numbers, or by letters where the items have letters.
"Children's own answers" answers any item. An activity without a key is left alone.
"""

from collections import Counter
from collections.abc import Iterator

from lint_rules.finding import Found, Severity
from lint_rules.page.answer_key import ItemLabel, Key, items_of, key_of_activity, letters_of
from lint_rules.rule import Example, Reading, Rule

_ITEMS = "1. The kite is ____.\n2. The hat is ____.\n\n"
_OPTIONS = "1. What is it?\n    a) a kite\n    b) a hat\n\n"


def _key(text: str) -> str:
    return f"::: answers\n{text}\n:::\n"


RULE = Rule(
    name="answers-mismatch",
    family="unit pattern",
    severity=Severity.QUERY,
    cure="Give the key one answer for each item, labelled as the items are; or mend the items.",
    passes=(
        Example(_ITEMS + _key("1 red 2 blue")),
        Example(_ITEMS + _key("1. red\n2. blue")),
        Example(_ITEMS + _key("Children's own answers.")),
        Example(_ITEMS + _key("1 red\n\nThen children's own answers.")),
        Example(_OPTIONS + _key("1 b")),
        Example("1. kite\n2. hat\n\na) red\nb) blue\n\n" + _key("1 b 2 a"), why="two columns to match"),
        Example("a) a kite\nb) a hat\n\n" + _key("a) yes\nb) no"), why="letters on both sides"),
        Example(_ITEMS + _key("1 red, 2 – blue")),
        Example(_ITEMS + _key("1. red 2. blue"), why="to Markdown a list of one item"),
        Example(_ITEMS + _key("1. There are 2 cats.\n2. There are 3 cats."), why="figures in the answers"),
        Example(_OPTIONS + _key("1b")),
        Example(_OPTIONS + "::: teacher\n**Answers:** 1 b\n:::\n", why="a key in the notes"),
        Example(_ITEMS + "::: teacher\n**Answers:** In 5–10 minutes. See lesson 3 too.\n:::\n", why="no numbered key"),
        Example("1. How many?\n2. Why?\n\n" + _key("1. 3-4 hats\n2. 2 are red."), why="figures in the answers"),
        Example(_ITEMS, why="no key"),
        Example("Draw a kite.\n\n" + _key("A kite with a tail."), why="nothing is numbered"),
    ),
    fails=(
        Example("1. The kite is ____.\n«2». The hat is ____.\n\n" + _key("1 red"), why="an item without an answer"),
        Example(_ITEMS + _key("1 red 2 blue «3» green"), why="an answer without an item"),
        Example(_ITEMS + _key("1. red\n2. blue\n«3». green")),
        Example(_ITEMS + _key("1. red 2. blue «3». green")),
        Example(_OPTIONS + _key("1 «c»"), why="a letter that is no option"),
        Example(_OPTIONS + _key("1«c»")),
        Example(_OPTIONS + "::: teacher\n**Answers:** 1 – «c»\n:::\n", why="a key in the notes"),
        Example("1. kite\n2. hat\n\na) red\nb) blue\n\n" + _key("1 b 2 «d»")),
        Example(_OPTIONS + _key("1 «a kite»"), why="the items have letters: the key should say which"),
        Example("a) a kite\nb) a hat\n\n" + _key("«1». yes\n«2». no"), why="letters in the book, numbers in the key"),
        Example(_ITEMS + _key("1 red «1» blue"), why="the same number twice, and none for 2"),
    ),
)


def find(reading: Reading) -> Iterator[Found]:
    """Report what does not fit, activity by activity."""
    for activity in reading.unit.activities:
        items, key = items_of(activity), key_of_activity(activity)
        if items and key is not None and (key.answers or not key.open_ended):
            yield from _compare(items, key)


def _compare(items: tuple[ItemLabel, ...], key: Key) -> Iterator[Found]:
    labels = [item.label for item in items]
    answered = [answer.label for answer in key.answers]
    if not answered:
        return
    run = f"The items are {_range(labels)}, the key has {_range(answered)}"
    if labels[0].isdigit() != answered[0].isdigit():
        for answer in key.answers:
            message = f"{run}: label the answers as the items are labelled."
            yield Found(answer.label_span, answer.label, message)
        return
    counts: Counter[str] = Counter()
    doubled = False
    for answer in key.answers:
        counts[answer.label] += 1
        if counts[answer.label] > 1:
            doubled = True
            yield Found(answer.label_span, answer.label, f"The key answers {answer.label} twice. Number this one anew.")
        elif answer.label not in labels:
            yield Found(answer.label_span, answer.label, f"{run}: there is no item {answer.label} to answer.")
    if not key.open_ended and not doubled:
        for item in items:
            if item.label not in answered:
                yield Found(item.span, item.label, f"{run}: item {item.label} has no answer.")
    yield from _letters(items, key)


def _letters(items: tuple[ItemLabel, ...], key: Key) -> Iterator[Found]:
    """Answers to items with lettered options must be letters, and letters that are there."""
    options = {item.label: item.options for item in items}
    for answer in key.answers:
        letters = options.get(answer.label, "")
        if not letters or not answer.text:
            continue
        shown, given = ", ".join(letters), letters_of(answer.text)
        if not given:
            message = f"Item {answer.label} has lettered options ({shown}): answer with a letter."
            yield Found(answer.span, answer.text, message)
        elif any(letter not in letters for letter in given):
            message = f"Item {answer.label} has the options {shown}; there is no {answer.text}."
            yield Found(answer.span, answer.text, message)


def _range(labels: list[str]) -> str:
    distinct = list(dict.fromkeys(labels))
    return distinct[0] if len(distinct) == 1 else f"{distinct[0]} to {distinct[-1]}"
