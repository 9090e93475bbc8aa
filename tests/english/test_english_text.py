"""What the checker is shown of a page, and what its answers are worth."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lint_rules.english.text import agreed, matches_of, passages_to_check, wordings
from lint_rules.language.service import EnglishMatch
from lint_rules.manuscript.model import Passage
from lint_rules.manuscript.reading import read_unit
from lint_rules.page.readings import readings_of
from lint_rules.source import Source
from tests.english.pages import unit_of


class Alarmist:
    """Says of certain words, wherever they stand, that they are wrong."""

    version = "alarmist"

    def __init__(self, *words: str) -> None:
        self.words = words
        self.texts: list[str] = []

    def check(self, texts, variety):
        self.texts += texts
        return [tuple(self._alarms(text)) for text in texts]

    def _alarms(self, text):
        for word in self.words:
            at = text.find(word)
            while at >= 0:
                yield EnglishMatch(at, at + len(word), "R", "GRAMMAR", "Wrong.", ())
                at = text.find(word, at + 1)


def only(line: str, *, notes: bool = False) -> tuple[Passage, tuple[str, ...]]:
    """The one passage of a line, headings aside, and the texts it is shown as."""
    unit = unit_of([line], notes=notes)
    (found,) = [(p, kinds) for p, kinds in passages_to_check(unit) if p.text not in ("A page", "Lesson 1", "Look.")]
    return found[0], tuple(wording.text for wording in wordings(*found))


def alarms(line: str, *words: str, notes: bool = False) -> list[str]:
    unit = unit_of([line], notes=notes)
    return [
        p.text[m.start : m.end]
        for p, ms in matches_of(Alarmist(*words), [readings_of(unit)], "en-GB").items()
        for m in ms
    ]


@pytest.mark.parametrize(
    ("line", "shown"),
    [
        ("The wind is blowing.", ("The wind is blowing.",)),
        ("The **wind** is *blow*ing.", ("The wind is blowing.",)),
        (
            "I ____ a kite.",
            ("I play a kite.", "I an a kite.", "I does a kite.", "I what a kite."),
        ),
        ("He is / are tall.", ("He is tall.", "He are tall.")),
        ("He is/are/am tall.", ("He is tall.", "He are tall.", "He am tall.")),
        ("It is on the box / the bed.", ("It is on the box.", "It is on the bed.")),
        ("It is on the box / bed.", ("It is on the box.", "It is on the bed.")),
        ("Is it 3 or 4?", ("Is it 3 or 4?",)),
    ],
)
def test_a_line_is_shown_without_what_no_checker_knows(line, shown):
    assert only(line)[1] == shown


@pytest.mark.parametrize("line", ["I ____ (go) to school.", "A k_te is red.", "Look: ![kite](kite.svg) is red."])
def test_gaps_with_hints_letters_left_out_and_pictures_are_hidden(line):
    for text in only(line)[1]:
        assert "_" not in text
        assert "(go)" not in text
        assert "\ufffc" not in text


def test_in_a_picture_sentence_a_picture_is_the_word_it_stands_for():
    page = "### 2 Read the pictures. {.picture-sentence}\n\nThe ![kite](k.svg) is in the big ![a tree](t.svg).\n"
    (found,) = [p for p in passages_to_check(unit_of([page])) if p[0].text.startswith("The")]
    assert [wording.text for wording in wordings(*found)] == ["The kite is in the big tree."]


def test_what_is_wrong_in_every_wording_is_found_at_its_own_place():
    assert alarms("I ____ a apple and a ____.", "a apple") == ["a apple"]
    assert alarms("He is / are my freind.", "freind") == ["freind"]


@pytest.mark.parametrize("line", ["I ____ a kite.", "A ____ is red.", "____ is red."])
def test_what_hangs_on_the_filler_is_no_finding(line):
    assert alarms(line, "play", "play a", "A play", "an", "does is") == []


def test_a_wrong_choice_is_no_finding_since_the_child_is_to_see_it():
    assert alarms("They is / are tall.", "They is", "is tall") == []
    assert alarms("They is / are tall. She are / is small.", "They is", "She are") == []


def test_a_repeated_blank_is_no_repeated_word():
    assert alarms("k _ _ e", "play play") == []


@pytest.mark.parametrize(
    ("line", "word"),
    [
        ("Hear and say the *ai* of *rain*.", "ai "),
        ("Say /eɪ/ together.", "eɪ"),
        ("Add the ending -ing to the verb.", "-ing"),
        ("| y → ier, iest | noisy |\n|---|---|\n| + r, + st | nice |", "ier"),
        ("| + r, + st | nice |\n|---|---|\n| a | b |", "st"),
        ("Which verb has got two *p*s?", "ps"),
        ("**Grammar:** wh-questions, a apple", "a apple"),
    ],
)
def test_letters_sounds_and_labels_in_a_note_are_hidden(line, word):
    assert alarms(line, word, notes=True) == []


def test_a_word_in_italics_is_still_read():
    assert alarms("Write the word *freind* on the board.", "freind", notes=True) == ["freind"]


def test_the_numbers_of_a_run_of_answers_are_hidden():
    page = "Look.\n\n::: answers\n1 is 2 There are 12 kites. 3 isn't\n:::\n"
    alarmist = Alarmist("is 2", "kites. 3")
    assert not any(matches_of(alarmist, [readings_of(unit_of([page]))], "en-GB").values())
    assert "is \n\nThere are 12 kites. \n\nisn't" in alarmist.texts


def test_the_numbers_of_each_part_of_a_key_are_hidden_with_its_head():
    page = "Look.\n\n::: answers\nA\n1 crown\n2 There are 12 kites.\nB\n1 Otto's\n2 half past eight\n:::\n"
    passage = next(one for one in unit_of([page]).passages if "crown" in one.text)
    (shown,) = {wording.text for wording in wordings(passage)}
    assert shown.split() == ["crown", "There", "are", "12", "kites.", "Otto's", "half", "past", "eight"]


def test_numbers_behind_answers_and_letters_before_them_are_hidden_too():
    page = (
        "Look.\n\n::: answers\npotatoes 1, onions 2, carrots 3\n\na the star b Fern c Mum\n\nIt has got 4 legs\n:::\n"
    )
    alarmist = Alarmist("1, onions", "a the")
    assert not any(matches_of(alarmist, [readings_of(unit_of([page]))], "en-GB").values())
    assert {"the star \n\nFern \n\nMum", "It has got 4 legs"} <= set(alarmist.texts)


def test_deliberate_mistakes_artists_briefs_and_code_are_not_shown():
    page = """\
### 2 Find the mistaks. {.mistakes}

She go to school.

::: answers
1 goes, not go
:::

### 3 Look. {.reading}

```
She go
```

![She go](kite.svg)

::: {.art .drawing}
She go in the wind.
:::
"""
    alarmist = Alarmist("She go", "not go", "mistaks")
    found = matches_of(alarmist, [readings_of(unit_of([page]))], "en-GB")
    assert [p.text[m.start : m.end] for p, ms in found.items() for m in ms] == ["mistaks"]


def test_what_notes_cite_of_deliberate_mistakes_is_not_shown():
    notes = "::: teacher\n**Steps:** Say *I am gooder than you* and wait. Be gooder.\n:::\n"
    alarmist = Alarmist("gooder")
    for kinds, seen in (("mistakes", 1), ("reading", 2)):
        found = matches_of(
            alarmist, [readings_of(unit_of([f"### 2 Look. {{.{kinds}}}\n\nA hen.\n\n{notes}"]))], "en-GB"
        )
        assert sum(len(matches) for matches in found.values()) == seen


def test_speakers_names_are_not_part_of_what_they_say():
    page = "Look.\n\n::: {.audio track=1.1}\nMINA: I can fly!\n:::\n"
    alarmist = Alarmist("MINA")
    assert not any(matches_of(alarmist, [readings_of(unit_of([page]))], "en-GB").values())
    assert "I can fly!" in alarmist.texts


def test_each_text_is_asked_about_once():
    alarmist = Alarmist()
    matches_of(alarmist, [readings_of(unit_of(lines)) for lines in (["A kite.", "A kite."], ["A kite."])], "en-GB")
    assert len(alarmist.texts) == len(set(alarmist.texts))


@given(st.text(alphabet="ab _/|1.()-’'é😀\n*", max_size=60))
def test_no_text_crashes_and_every_range_is_of_the_passage(text):
    unit = read_unit(
        Source("level-1/unit-01.md", f"# U\n\n## L\n\n### 1 A. {{.reading}}\n\n{text}\n\n::: answers\n1 {text}\n")
    )
    for passage, kinds in passages_to_check(unit):
        several = wordings(passage, kinds)
        answers = [[EnglishMatch(0, len(w.text), "R", "C", "m")] if w.text else [] for w in several]
        for match in agreed(several, answers):
            assert 0 <= match.start < match.end <= len(passage.text)
        for wording in several:
            own = [i for i, shown in enumerate(wording.shown) if shown]
            assert [wording.text[i] for i in own] == [passage.text[wording.starts[i]] for i in own]


LETTERS = """## Lesson 2 {.sounds}

### 1 Find *ee*. {.reading}

1. tr ____
2. a bee on a tree

::: answers
1 ee 2 bee, tree
:::
"""


def test_letters_are_hidden_all_through_a_lesson_about_sounds():
    found = [p for p in passages_to_check(unit_of([LETTERS])) if p[0].text not in ("A page", "Lesson 1", "Look.")]
    shown = {wording.text for passage in found for wording in wordings(*passage)}
    assert all("ee" not in text.replace("bee", "").replace("tree", "") and "tr " not in text for text in shown)
    assert any("tree" in text for text in shown)


@pytest.mark.parametrize(
    ("key", "left"),
    [
        ("1 – c, 2 – a", []),
        ("1c, 2a.", []),
        ("1 a kite 2 a boat", ["kite", "boat"]),
        ("Accept other answers.", ["Accept", "other", "answers"]),
    ],
)
def test_letters_of_a_key_are_hidden(key, left):
    unit = unit_of([f"::: answers\n{key}\n:::"])
    (found,) = [p for p in passages_to_check(unit) if p[0].text == key]
    words = wordings(*found)[0].text
    assert [word for word in left if word in words] == left
    assert not any(f" {letter}," in f" {words}" for letter in "abc")


def test_dashes_in_a_panel_part_its_words():
    assert only("1. sun - flower – tree")[1] == ("sun, flower, tree",)
    assert only("He runs - and falls.")[1] == ("He runs - and falls.",)


def test_letters_before_answers_that_stand_a_paragraph_each_are_hidden():
    unit = unit_of(["::: answers\na about the past\n\nb painted has *-ed*\n\na kite\n:::"])
    shown = {passage.text: wordings(passage, kinds)[0].text.strip() for passage, kinds in passages_to_check(unit)}
    assert shown["a about the past"] == "about the past"
    assert shown["b painted has -ed"].startswith("painted")
    assert shown["a kite"] == "a kite"


def test_a_key_of_letters_alone_is_not_shown():
    unit = unit_of(["::: answers\nPart A\n\nc d b a e\n:::"])
    assert "c d b a e" not in {passage.text for passage, _ in passages_to_check(unit)}


def test_a_letter_that_names_a_choice_is_no_article():
    assert only("Nicer: A a hot day, or B a cold day?")[1] == ("Nicer: B a hot day, or B a cold day?",)
    assert only("Look: A dog is in the box!")[1] == ("Look: A dog is in the box!",)
