"""What the parser is given to read instead of a text: its words, where sentences start, what is put in or changed.

``| `` starts a sentence, ``·`` stands before a word without a space before it, ``+`` before one that is put in, and
``was=now`` is a word that is read as another. A gap has ``*``, a name ``!``, another word that was changed ``~``; at
the end, in brackets, what is put aside, with the number of the word before it. Each line was read by a person.
"""

import pytest

from lint_rules.language.parsing.parser import Parser, load_model
from lint_rules.language.parsing.prepare import Prepared, plain, prepare
from lint_rules.language.pipeline import MODEL
from lint_rules.language.tokens import Mode

NAMES = ("Mina", "Mr Tock", "Mark")
TEXTS = [
    ("It’s “red” – or ‘blue’?", "| It ·’s='s “=\" ·red ·”=\" –=- or ‘=' ·blue ·’=' ·?"),
    (
        "LOOK AT ME! DON'T STOP. I WATCH TV. GO: NOW",
        "| LOOK=Look AT=at ME=me ·! | DO=Do ·N'T=n't STOP=stop ·. | I WATCH=watch TV ·. | GO=Go ·: NOW=now",
    ),
    ("NOW? YES! NO", "| NOW=Now ·? | YES=Yes ·! | NO=No"),
    ("She ____ a ____ ____ bike.", "| She ____=* a ____ ____=* bike ·."),
    ("My cat is .... My dog is ...", "| My cat is ....=* My dog is ..."),
    ("Wait…… no", "| Wait ·……=* no"),
    ("A __ and a_b.", "| A __=* and a_b ·."),
    ("I like ￼ and ￼s.", "| I like ￼=thing~ and ￼=thing~ ·s ·."),
    ("He is play____ now.", "| He is play ·____=* now ·."),
    ("____ing is fun.", "| ____=* ·ing is fun ·."),
    ("Its a cat. Its tail is long.", "| It ·s='s a cat ·. | Its tail is long ·."),
    ("It likes its a lot.", "| It likes it ·s='s a lot ·."),
    ("Your a star. Your cat is big.", "| You ·r='re a star ·. | Your cat is big ·."),
    ("You like your", "| You like your"),
    ("Lets go! He lets go. It is lets go.", "| Let ·s='s go ·! | He lets go ·. | It is lets go ·."),
    ("Lets", "| Lets"),
    ("1. Look. 2. Stop! 3 cats", "| 1 ·. Look ·. | 2 ·. Stop ·! | 3 cats"),
    ("He has 3. They are red.", "| He has 3 ·. | They are red ·."),
    ("'Help!' said Tom. He ran.", "| ' ·Help ·! ·' said Tom ·. | He ran ·."),
    ("‘Help!’ the boy cried. He ran.", "| ‘=' ·Help ·! ·’=' the boy cried ·. | He ran ·."),
    ("'Stop!' Tom ran. (It is late.) She ran.", "| ' ·Stop ·! ·' | Tom ran ·. | ( ·It is late ·. ·) | She ran ·."),
    ('What? "No!" Sam left.', '| What ·? | " ·No ·! ·" | Sam left ·.'),
    ("Look! (A cat!) It ran.", "| Look ·! | ( ·A cat ·! ·) | It ran ·."),
    ("It is 3 p.m. now.", "| It is 3 p.m. now ·."),
    ("One line\nTwo lines\nand three", "| One line | Two lines and three"),
    ("It costs £5. it is red.", "| It costs £ ·5 ·. it is red ·."),
    ("Stop.Go!", "| Stop ·. ·Go ·!"),
    ("Mr Tock and Mina. Bram!", "| Mr Tock=Tom! and Mina=Anna! ·. | Bram ·!"),
    ("mina mark", "| mina mark"),
    ("She is / isn't happy.", "| She is happy ·. (1: / /) (1: is is) (1: n't n't)"),
    ("Red / Blue / is", "| Red / Blue / is"),
    ("Point to the cat.", "| Point to the cat ·."),
    ("a\xa0b\u200bc\u2009d", "| a b c d"),
    ("The can is red. I can swim.", "| The can=tin~ is red ·. | I can swim ·."),
    ("May is nice.", "| May=Anna~ is nice ·."),
    ("A  B", "| A B"),
    ("dont go", "| do ·nt=n't go"),
]
INSTRUCTIONS = [
    ("Point to the cat.", "| +Please Point=point to the cat ·."),
    ("Circle it. Match them.", "| +Please Circle=circle it ·. | +Please Match=match them ·."),
    ("Number game", "| Number game"),
    ("Time to play", "| Time to play"),
    ("Order of words", "| Order of words"),
    ("Box for toys", "| Box for toys"),
    ("Number game!", "| +Please Number=number game ·!"),
    ("Circle it", "| +Please Circle=circle it"),
    ("Circle the cat", "| +Please Circle=circle the cat"),
    ("Match two cats here", "| +Please Match=match two cats here"),
    ("Circle 3", "| +Please Circle=circle 3"),
    ("Circle", "| +Please Circle=circle"),
    ("The cat sits.", "| The cat sits ·."),
    ("1. Look and circle.", "| 1 ·. Look and circle ·."),
    ("MATCH THE WORDS.", "| +Please MATCH=match THE=the WORDS=words ·."),
    ("Play the match game. Match", "| +Please Play=play the match game ·. | +Please Match=match"),
]


@pytest.fixture(scope="module")
def parser() -> Parser:
    return Parser(load_model(MODEL))


def shown(text: str, read: Prepared) -> str:
    said = ""
    for index, (word, place) in enumerate(zip(read.words, read.places, strict=True)):
        was = text[slice(*place)] if place else ""
        now = "" if index in read.gaps else word  # which word stands in for a gap is another module's business
        said += "| " * read.starts[index] + (f"+{word}" if not place else word if was == word else f"{was}={now}")
        marks = ((read.gaps, "*"), (read.names, "!"), (read.replaced, "~"))
        said += "".join(mark for numbers, mark in marks if index in numbers)
        said += " " if read.spaces[index] or index == len(read.words) - 1 else " ·"
    return (said + " ".join(f"({before}: {word} {text[slice(*at)]})" for before, word, at in read.aside)).strip()


@pytest.mark.parametrize(("text", "expected"), TEXTS)
def test_a_text_as_the_parser_reads_it(parser, text, expected):
    assert shown(text, prepare(text, Mode.TEXT, NAMES, parser.tokenize)) == expected


@pytest.mark.parametrize(("text", "expected"), INSTRUCTIONS)
def test_an_instruction_is_read_as_the_order_it_is(parser, text, expected):
    assert shown(text, prepare(text, Mode.INSTRUCTION, NAMES, parser.tokenize)) == expected


def test_the_last_word_has_no_space_after_it(parser):
    for text in ("Look.", "Look "):
        assert prepare(text, Mode.TEXT, (), parser.tokenize).spaces[-1] is False


@pytest.mark.parametrize("char", "‘’‚ʼ“”„«»–—‐‑\u00a0\u2009\u202f\u3000\u200b\n\r\t")
def test_a_typographic_mark_is_read_as_the_plain_one(char):
    assert plain(f"a{char}b") in ("a'b", 'a"b', "a-b", "a b")
