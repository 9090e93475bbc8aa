"""Two options that both make a right sentence, where nothing on the page decides between them.

`I like (oranges / apples).` Half of the class chooses the one, half the other, and the key calls one half wrong. Said
only where it is sure: two words that mean the same; words of which each fits wherever the other does (`always / often`,
`he / she`); a matter of taste; what somebody is or has whom nobody knows. A picture, a text, a
script here or elsewhere in the unit keeps it quiet.
"""

import re
from collections.abc import Iterator, Sequence

from lint_rules import lazy_re
from lint_rules.finding import Found, Severity
from lint_rules.language.tokens import Token
from lint_rules.language.vocabulary.reference import graded
from lint_rules.manuscript.model import Activity, Audience, Passage, Role
from lint_rules.page.exercises.answers import plain
from lint_rules.page.exercises.completed import completed
from lint_rules.page.exercises.drafts import trimmed
from lint_rules.page.exercises.model import Exercise, Exercises, Item, Option
from lint_rules.rule import Example, Need, Reading, Rule
from lint_rules.tables import words
from lint_rules.unit_language.matters_of_taste import colours_of_own, fits_anything, matter_of_taste
from lint_rules.unit_language.nothing_decides import nothing_decides, should_or_must
from lint_rules.unit_language.one_sentence import (
    around,
    in_sentence,
    is_alone,
    is_the_lesson,
    without_options,
    word_decides,
)
from lint_rules.unit_language.right_together import (
    as_well_because,
    either_goes,
    either_time,
    right_together,
    says_the_same,
)
from lint_rules.unit_language.told_on_page import (
    decided_elsewhere,
    shows_something,
    tells,
    tells_before,
    tells_of_same,
    tells_times,
    told_elsewhere,
)


def _key(text: str) -> str:
    return f"\n::: answers\n{text}\n:::\n"


_SCRIPT = "\n::: {.audio track=1.1}\nRAFI: My dog is Button. He likes bread.\n:::\n"
_HEARD_ITEMS = "1. The dog's name is …  a) Button  b) Biscuit\n2. He likes …  a) bread  b) apples\n"
_HEARD = "### 1 Listen and choose. {.listening audio=1.1}\n\n"

RULE = Rule(
    name="two-right-answers",
    family="exercises",
    severity=Severity.QUERY,
    since="0.2",
    cure="Add what decides (a picture, a sentence before it), or take an option that cannot be right.",
    needs=frozenset({Need.LANGUAGE}),
    passes=(
        Example("1. This is (a / an) egg.\n2. I like (apple / apples).\n" + _key("1 an 2 apples")),
        Example(
            "1. I like (pears / apples).\n2. I (am / is) six.\n\n::: {.art .drawing}\nApples.\n:::\n"
            + _key("1 apples 2 am"),
            why="a picture",
        ),
        Example("1. I drink (milk / bread).\n2. Grass is (green / red).\n" + _key("1 milk 2 green"), why="sense"),
        Example(
            _HEARD + _HEARD_ITEMS + "3. He lives …  a) in a box  b) at school\n" + _SCRIPT + _key("1 a 2 a 3 b"),
            why="not word for word in the script: in other words, as eight of eight authors said",
        ),
        Example(
            "1. Look at the clouds! It (will / is going to) rain tomorrow.\n2. I (am / is) wet.\n"
            + _key("1 is going to 2 am"),
            why="a sign of it",
        ),
        Example("1. I have an (apple / pear).\n2. I have a (roll / bread).\n" + _key("1 apple 2 roll"), why="articles"),
        Example(
            "### 1 Read. {.story}\n\nNilo has a coat. It is old and brown, and it is very big. He puts it on "
            "and goes out.\n\n"
            "### 2 Choose. {.reading}\n\n1. Nilo has a (coat / hat).\n2. It (is / are) old.\n" + _key("1 coat 2 is"),
            why="a story of the unit decides",
        ),
        Example(
            "### 1 Choose. {.reading}\n\n1. Ida (is / are) six.\n2. (He / She) sings.\n" + _key("1 is 2 She"),
            why="the item before tells who",
        ),
        Example(
            "### 1 Choose. {.reading}\n\n1. This is my aunt. (He / She) sings.\n2. (She / He) has her bag.\n"
            + _key("1 She 2 She"),
            why="somebody is named",
        ),
        Example(
            "### 1 Choose. {.reading}\n\n1. We (go / went) to the lake.\n"
            "2. I (sing / sang).\n3. They (run / ran).\n" + _key("1 went 2 sang 3 ran"),
            why="no sentence tells a time: the lesson does",
        ),
        Example(
            "### 1 Read. {.reading}\n\nNell feeds the hens. Then she plays the piano.\n\n"
            "1 What does Nell do first? (a) feeds the hens (b) plays the piano\n"
            "2 What does she play? (a) the piano (b) the drum\n" + _key("1 a 2 a"),
            why="one after the other",
        ),
        Example(
            "### 1 Choose. {.reading}\n\n1. My dad is (older / younger) than me.\n2. He (is / are) here.\n"
            + _key("1 older 2 is"),
            why="everybody knows",
        ),
        Example("1. We (always / never) sing.\n2. He (has / have) a dog.\n" + _key("1 always 2 has"), why="not both"),
    ),
    fails=(
        Example("1. This is (a / an) egg.\n2. «I like (oranges / apples).»\n" + _key("1 an 2 apples"), why="taste"),
        Example("1. She is very (nice / «kind»).\n2. They (is / are) here.\n" + _key("1 nice 2 are"), why="the same"),
        Example(
            "1. «Next summer we (are going to / will) stay at home.»\n2. It (rains / rain) a lot.\n"
            + _key("1 are going to 2 rains"),
            why="a plan",
        ),
        Example("1. «We (always / often) sing.»\n2. He (has / have) a dog.\n" + _key("1 always 2 has")),
        Example(
            "1. «The soup is very ____.»  a) run  b) hot  c) good\n2. We ____ home.  a) go  b) goes  c) going\n"
            + _key("1 b 2 a"),
            why="whatever is hot may be good",
        ),
        Example(
            "### 1 Choose. {.reading}\n\n1. «We (go / went) to the lake.»\n"
            "2. Yesterday I (sing / sang).\n3. Last week they (run / ran).\n"
            + _key("1 went 2 sang 3 ran"),
            why="the others tell a time",
        ),
        Example(
            "### 1 Read. {.reading}\n\nNell feeds the hens and takes the eggs to the shop.\n\n"
            "1 «What does Nell do?» (a) feeds the hens (b) takes eggs to the shop\n"
            "2 Where is the shop? (a) in the village (b) in a town\n" + _key("1 a 2 a"),
            why="the text tells both",
        ),
        Example(
            "### 1 Choose. {.reading}\n\n1. «My cousin is (older / younger) than me.»\n2. We (is / are) here.\n"
            + _key("1 older 2 are"),
            why="nobody knows the cousin",
        ),
        Example(
            "### 1 Choose. {.reading}\n\n1. «(He / She) can swim.»\n2. It (is / are) red.\n" + _key("1 He 2 is")
        ),
    ),
)  # fmt: skip

_DETERMINERS = frozenset({"a", "an", "the", "my", "this", "two", "three"})
_NOT_BOTH = lazy_re.compile(r"\b(?:not|never|no|but|or|instead|then|later|first|after|than|if)\b|n['’]t\b", re.I)
_LOOK = lazy_re.compile(r"\blook\b", re.I)
_ASKED = lazy_re.compile(r"\b(?:listen|hear|watch|song|teacher|partner|friend|ask|true|yourself|about\s+you)\b", re.I)


def find(reading: Reading) -> Iterator[Found]:
    """Report the choices that nothing decides."""
    done = {activity.span: activity for activity in reading.read.activities}
    for read in reading.readings.exercises:
        if not {"mistakes", "odd-one-out", "survey"}.isdisjoint(read.activity.kinds) or read.own:
            continue
        for exercise in read.exercises:
            if _is_heard(read.activity):
                continue  # the script decides, perhaps in other words
            if told := list(_both_told(exercise, read)):
                yield from told
            elif not shows_something(read) and not told_elsewhere(read.activity, reading.unit):
                for item in exercise.items:
                    yield from _undecided(item, exercise, read, reading, done[read.activity.span])


def _is_heard(activity: Activity) -> bool:
    return any(one.audience is Audience.LISTENER and one.text.strip() for one in activity.part.passages)


def _both_told(exercise: Exercise, read: Exercises) -> Iterator[Found]:
    """A question of whose options the page's text tells two in one breath: `She feeds the hens and takes eggs to the
    shop`, where it does so for no other question."""
    items = {id(place.passage) for one in read.exercises for item in one.items for place in item.prompt}
    passages = (p for p in read.activity.part.passages if p.audience is Audience.PUPIL and id(p) not in items)
    sentences = [one for p in passages for one in re.split(r"(?<=[.!?])\s+", p.text) if not _NOT_BOTH.search(one)]
    found = []
    for item in exercise.items:
        if len(item.choices) != 1 or item.answer is None or not item.prompt or not item.text.rstrip().endswith("?"):
            continue
        chosen = completed(item, exercise).chosen[0]
        for other in item.choices[0].options:
            if chosen is None or other is chosen:
                continue
            if any(tells(one, chosen) and tells(one, other) for one in sentences):
                found.append(_both_right(item, [chosen, other]))
    if len(found) == 1 and len(exercise.items) > 1:
        yield from found


def _undecided(
    item: Item, exercise: Exercise, reading_of: Exercises, reading: Reading, done: Activity
) -> Iterator[Found]:
    if len(item.choices) != 1 or item.answer is None or len(item.choices[0].options) < 2:
        return
    choice = item.choices[0]
    chosen = completed(item, exercise).chosen[0]
    if chosen is None:
        return
    for other in choice.options:
        same = other is not chosen and says_the_same(chosen.text, other.text)
        if same and not word_decides(item, chosen, other):
            message = f"“{chosen.text}” and “{other.text}” say the same here: both are right. Take another option."
            yield Found(other.place.span, other.text, message)
            return
    left, right = in_sentence(item)
    for other in choice.options:
        if as_well_because(chosen.text, other.text, left, right):
            yield _both_right(item, [chosen, other])
            return
    if decided_elsewhere(item, chosen, reading_of.activity, reading.unit):
        return
    looks = _LOOK.search(reading_of.activity.heading.passage.text) is not None
    told = looks or tells_before(item, exercise)
    for other in choice.options if is_alone(item, exercise) else ():
        if other is not chosen and right_together(chosen.text, other.text, without_options(item), told_who=told):
            yield _both_right(item, [chosen, other])
            return
    before, behind = around(item)
    apart = (
        is_alone(item, exercise, denied=True)
        and not (looks or _ASKED.search(reading_of.activity.heading.passage.text))
        and not tells_of_same(item, chosen, exercise, reading_of.activity)
    )
    for other in choice.options if apart else ():
        lesson = is_the_lesson(chosen, other, exercise, reading_of.activity)
        if other is not chosen and (
            nothing_decides(chosen.text, other.text, before, behind)
            or (not lesson and should_or_must(chosen.text, other.text, before, behind))
        ):
            yield _both_right(item, [chosen, other])
            return
    for other in choice.options if is_alone(item, exercise) and not looks else ():
        timeless = tells_times(exercise, item, reading_of.activity)
        if other is not chosen and (
            either_goes(chosen.text, other.text, before, behind)
            or (timeless and either_time(chosen.text, other.text, before, without_options(item)))
        ):
            yield _both_right(item, [chosen, other])
            return
    passage = next((one for one in done.part.passages if _stands_in(one, item, chosen)), None)
    if passage is None or passage in reading.readings.unchecked or len(item.prompt) != 1:
        return
    others = [option for option in choice.options if option is not chosen]
    tokens = reading.analyse(passage).tokens
    at = next((index for index, token in enumerate(tokens) if token.text.casefold() == plain(chosen.text)), None)
    if at is None:
        return
    if colours_of_own(tokens, at, others) and not looks:
        yield _both_right(item, choice.options)
        return
    if all(_same_kind(tokens, at, option, done, reading) for option in others) and matter_of_taste(tokens, at):
        yield _both_right(item, choice.options)
        return
    for option in others:
        if fits_anything(tokens, at, option) and is_alone(item, exercise):
            yield _both_right(item, [chosen, option])
            return


def _both_right(item: Item, options: Sequence[Option]) -> Found:
    place = trimmed(item.prompt[0])
    listed = " and ".join(f"“{option.text}”" for option in options)
    message = f"{listed} are both right here: nothing on the page decides. Add a picture, or change an option."
    return Found(place.span, place.text, message)


def _stands_in(passage: Passage, item: Item, chosen: Option) -> bool:
    place = item.prompt[0] if item.prompt else chosen.place
    if passage.role is Role.OPTION or not passage.text:
        return False
    return place.span.start <= passage.starts[0] and passage.ends[-1] <= max(place.span.end, chosen.place.span.end)


def _same_kind(sentence: tuple[Token, ...], at: int, option: Option, done: Activity, reading: Reading) -> bool:
    """Whether an option on its own is a word of the same kind and form as the chosen one in its sentence."""
    token = sentence[at]
    before = sentence[at - 1].text.casefold() if at else ""
    if before in ("a", "an") and len({text[:1].casefold() in "aeiou" for text in (token.text, option.text)}) > 1:
        return False  # the article decides
    if before in ("a", "an") and plain(option.text) in words("not_counted"):
        return False
    for passage in done.part.passages:
        if passage.role is Role.OPTION and passage.span() == option.place.span:
            tokens = reading.analyse(passage).tokens
            same = len(tokens) == 1 and tokens[0].lemma != token.lemma
            plural = token.text.endswith("s") == tokens[0].text.endswith("s") if same else False
            alone = tokens[0].pos if same else ""
            if token.pos == "NOUN" and plural and token.text.endswith("s") and alone in ("VERB", "ADJ", "PROPN"):
                alone = "NOUN"  # a plural by itself looks like a verb
            if token.pos == "NOUN" and same and before in _DETERMINERS and graded(tokens[0].text.casefold(), "NOUN"):
                alone = "NOUN"
            return same and plural and alone == token.pos and token.pos in ("NOUN", "ADV")
    return False
