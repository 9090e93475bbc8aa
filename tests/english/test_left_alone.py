"""What an English checker flags and a course page does not mean: as many slips that stay flagged as words let alone."""

import re

import pytest

from lint_rules.english.left_alone import is_left_alone
from lint_rules.language.service import EnglishMatch
from lint_rules.manuscript.model import Passage, Role, Unit
from lint_rules.manuscript.reading import read_unit
from lint_rules.source import Source

SPELLING = "MORFOLOGIK_RULE_EN_GB"
GRAMMAR = "SOME_GRAMMAR"


def passage_with(words: str, text: str) -> Passage:
    unit: Unit = read_unit(
        Source("u.md", f"---\nlevel: l\nunit: 1\ntitle: T\n---\n\n# T\n\n## L\n\n### 1 Read.\n\n{text}\n")
    )
    return next(passage for passage in unit.passages if words in passage.text and passage.role is not Role.INSTRUCTION)


def is_alone(words: str, rule: str, text: str) -> bool:
    passage = passage_with(words, text)
    found = re.search(rf"(?<!\w){re.escape(words)}", passage.text)
    assert found is not None
    at = found.start()
    match = EnglishMatch(at, at + len(words), rule, "TYPOS", "A slip?", ())
    return is_left_alone(passage, match, lambda word: word == "gizmo")


def notes(text: str) -> str:
    return f"::: teacher\n**Steps:** {text}\n:::"


@pytest.mark.parametrize(
    ("words", "rule", "text"),
    [
        ("the", GRAMMAR, "Write one sentence with *the* and one with *-est*."),
        ("to I", GRAMMAR, "What happens to *I*?"),
        ("who", GRAMMAR, "Complete with *who* or *where*."),
        ("an?", GRAMMAR, "Write: a or an?"),
        ("a", GRAMMAR, "a as in hat"),
        ("heevy", SPELLING, notes("Say /ˈhevi/, not *heevy*.")),
        ("got", GRAMMAR, notes("Watch for *didn't got*.")),
        ("goed", SPELLING, notes("Children often say 'goed' here.")),
        ("par-cel", SPELLING, notes("Clap *par-cel*.")),
        ("bats", "AUXILIARY_DO_WITH_INCORRECT_VERB_FORM", "It is late. When do bats hunt?"),
        ("GIZ-MO", SPELLING, "I AM GIZ-MO."),
        ("pened", SPELLING, "The same beats: o·pen, o·pened"),
        ("hPa", SPELLING, "The air weighs 980 hPa."),
        ("DA-da", SPELLING, notes("The beat is DA-da.")),
        ("id", GRAMMAR, notes("Three corners with the signs t, d, id.")),
        ("wh", SPELLING, "Ask three *wh-* questions."),
        ("a", GRAMMAR, notes("T points to a S: stand up!")),
        ("a food", "A_UNCOUNTABLE", notes("A number or a food goes here.")),
        ("says hoo", SPELLING, "It flies at night and says *hoo*."),
        ("many money", GRAMMAR, notes("Say *how much*, and ~~how many money~~ is a slip.")),
        ("Pron", SPELLING, notes("Play it twice. Pron.: *square* has one beat.")),
        ("where r u", GRAMMAR, "hey! where r u?"),
        ("iii–t", GRAMMAR, notes("Say *Sssss–iii–t: sit!*")),
        ("write 's", GRAMMAR, notes("Show how to write 's with a name.")),
        ("rainfoot", SPELLING, notes("Draw a silly new word (a *rainfoot*).")),
        ("the?", GRAMMAR, "Write: an or the?"),
        ("go", GRAMMAR, "Green is go! Red is stop!"),
        ("river", "CD_NN", "::: {.audio track=1.1}\nODO: 2 river\n:::"),
        ("a", "A_IS", notes("Tell them: a is number four.")),
        ("you doing", GRAMMAR, "| What | were | you doing? |\n|---|---|---|\n| Where | were | you doing it? |"),
        ("a", "A_INFINITIVE", "Look.\n\n::: answers\n3 a She pushed the lid.\n:::"),
        ("TI-tum", SPELLING, notes("Clap it: TI-tum, TI-tum.")),
        ("kite", GRAMMAR, notes("Write *kite* on the board.")),
        ("says vwomp", SPELLING, "The big box says vwomp."),
        ("Thur", SPELLING, "| Time | Thur |\n|---|---|\n| 9.00 | art |"),
        ("Octo.", SPELLING, "| Octo. | Sept. |\n|---|---|\n| wet | dry |"),
        ("Tue", SPELLING, "I play football on Tue and Thu."),
        ("be comes", GRAMMAR, notes("*There's going to be* comes again in Lesson 3.")),
        ("answer", "CD_NN", "The first two teams answer."),
        ("lake", "CD_NN", "1 hill, 2 town, 3 lake, 4 cloud"),
        ("has", GRAMMAR, 'The s is not there: "does" has got it!'),
        ("should to", GRAMMAR, "Look.\n\n::: answers\n1 should to ask → should ask\n:::"),
        ("its", "ITS_TO_IT_S", "It looks round with its big eyes."),
        ("is Nilly's", "IS_VBZ", "It is Nilly's birthday today."),
        ("your", "YOUR_YOU_RE", "And now your coat."),
        ("staircase", "CD_NN", "5 ladder. 6 staircase. 7 tunnel."),
        ("A dashes", "A_NNS", "Whoever has an A dashes for a chair."),
        ("there", GRAMMAR, "Then she went in there very fast."),
        ("afraid at", GRAMMAR, notes("Who was afraid at the start of Unit 1?")),
        ("Is", "IS_THERE_ANY_NNS", "Is there any tuna?"),
        ("VOEFS", SPELLING, "On the paper they read: MPPL VOEFS UIF TIFMG."),
        ("jota", SPELLING, notes("The *jota* is no sound of English: Spanish children say it in their throats.")),
    ],
)  # fmt: skip
def test_words_that_are_only_spoken_of_are_left_alone(words: str, rule: str, text: str) -> None:
    assert is_alone(words, rule, text)


@pytest.mark.parametrize(
    ("words", "rule", "text"),
    [
        ("go", GRAMMAR, "She **go** to school."),
        ("has", GRAMMAR, '"We go" we has said.'),
        ("its", "ITS_TO_IT_S", "I think its raining."),
        ("is Nilly's", "IS_VBZ", "This is Nilly's."),
        ("your", "YOUR_YOU_RE", "And now your happy."),
        ("brother", "CD_NN", "I have 2 brother and 5 sister."),
        ("cat", "CD_NN", "She has 2 cat, 3 dogs and a bird."),
        ("Its", GRAMMAR, "*Its raining and I am going home now.*"),
        ("an", GRAMMAR, "This is an kite."),
        ("a", GRAMMAR, "It is a apple."),
        ("heevy", SPELLING, "The box is *heevy*."),
        ("colur", SPELLING, notes("Children colur the kite, not the tree.")),
        ("hapy", SPELLING, "Mina says she is hapy."),
        ("wOrd", SPELLING, "Write one wOrd here please."),
        ("teh", SPELLING, "We see teh cat."),
        ("a advice", "A_UNCOUNTABLE", "He gave me a advice."),
        ("ad", SPELLING, "Put on you ad go out."),
        ("can", GRAMMAR, notes("Do not can the song.")),
        ("bi-cicle", SPELLING, "I ride my bi-cicle."),
        ("Prom", SPELLING, notes("Play the track. Prom.")),
        ("are you", GRAMMAR, "Where you are? Are are you?"),
        ("dog 's", GRAMMAR, "The dog 's ears are big."),
        ("rainfot", SPELLING, "My rainfot is wet."),
        ("trakks", SPELLING, notes("Play both trakks. then stop.")),
        ("go", GRAMMAR, notes("Say *he go home* and clap.")),
        ("bike", GRAMMAR, "We go for bike-ride."),
        ("frob-bel", SPELLING, "I can see a frob-bel."),
        ("Thurz", SPELLING, "| Time | Thurz |\n|---|---|\n| 9.00 | art |"),
        ("Octo", SPELLING, "Come to us in Octo, please."),
        ("brother", "CD_NN", "I have got two brother."),
        ("lake", "CD_NN", "We can see 3 lake."),
        ("a children", "A_NNS", "I can see a children."),
        ("there", GRAMMAR, "The cats eat there fish."),
        ("afraid at", GRAMMAR, notes("Who was afraid at the dog?")),
        ("Is", "IS_THERE_ANY_NNS", "Is there any apples?"),
        ("likes", "AUXILIARY_DO_WITH_INCORRECT_VERB_FORM", "I do likes it. What do you likes?"),
        ("VOEFS", SPELLING, "LOOK UNDER THE VOEFS"),
        ("jota", SPELLING, notes("The *jota* is on the table.")),
    ],
)
def test_slips_in_what_is_said_stay(words: str, rule: str, text: str) -> None:
    assert not is_alone(words, rule, text)


@pytest.mark.parametrize(
    ("words", "better", "alone"),
    [("lira", ("liras", "lire"), True), ("moon", ("moons",), False), ("staircase", ("staircases",), False)],
)
def test_a_thing_whose_plural_nobody_uses_is_counted_without(words: str, better: tuple[str, ...], alone: bool) -> None:
    text = f"It costs eighty {words} today."
    passage = passage_with(words, text)
    at = passage.text.index(words)
    match = EnglishMatch(at, at + len(words), "CD_NN", "GRAMMAR", "A slip?", better)
    assert is_left_alone(passage, match, lambda word: False) is alone


@pytest.mark.parametrize(
    ("text", "words", "rule", "alone"),
    [
        ("Here's twenty pounds.", "Here's twenty pounds", "THERE_S_MANY", True),
        ("There's two apples.", "There's two apples", "THERE_S_MANY", False),
        ("The ten twenty-five train is late.", "train", "CD_NN", True),
        ("It is no bigger than a coin.", "no", "IT_IS_NO", True),
        ("It is no here.", "no", "IT_IS_NO", False),
        ("Is it twelve o'clock?", "it", "AT_TIME", True),
        ("We have lunch it twelve o'clock.", "it", "AT_TIME", False),
        ("We can see twenty train.", "train", "CD_NN", False),
    ],
)
def test_sums_and_times_are_counted_otherwise(text: str, words: str, rule: str, alone: bool) -> None:
    passage = passage_with(words, text)
    at = passage.text.index(words)
    match = EnglishMatch(at, at + len(words), rule, "GRAMMAR", "A slip?", ())
    assert is_left_alone(passage, match, lambda word: False) is alone
