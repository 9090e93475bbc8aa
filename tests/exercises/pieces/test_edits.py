"""Edits of a passage: what is read once it is cut and filled, and that every word is found where it stands."""

import pytest

from lint_rules.manuscript.model import Passage, Role
from lint_rules.page.exercises.edits import Edits, Fill, filled_ranges
from lint_rules.page.exercises.model import Place
from tests.exercises.pieces.places import place_of


def edits_of(page: str) -> Edits:
    return Edits(place_of(page).passage)


def at(edits: Edits, words: str) -> tuple[int, int]:
    start = edits.passage.text.index(words)
    return start, start + len(words)


def fill(edits: Edits, words: str, text: str, *, as_is: bool = False) -> None:
    edits.fills.append(Fill(*at(edits, words), text, at(edits, words), as_is=as_is))


def texts(edits: Edits) -> list[str]:
    return [one.text for one in edits.passages()]


@pytest.mark.parametrize(
    ("page", "answer", "sentence"),
    [
        ("The hen is ____.", "red", "The hen is red."),
        ("The hen is ____.", "red.", "The hen is red."),
        ("The hen is ____ !", "red.", "The hen is red!"),
        ("The hen is ____", "red.", "The hen is red."),
        ("The hen is ____ and old.", "red.", "The hen is red and old."),
        ("The hen is ____ So are you.", "red.", "The hen is red. So are you."),
        ("The hen is ____? So are you.", "red?", "The hen is red? So are you."),
        ("____ it red?", "is", "Is it red?"),
        ("It was. ____ it red?", "is", "Is it red?"),
        ("It says: ____ it red?", "is", "It says: Is it red?"),
        ("It is red … ____ it?", "is", "It is red … Is it?"),
        ("It is, ____ it?", "is", "It is, is it?"),
        ("It is,____ it?", "is", "It is, is it?"),
        ("It is____ it?", "is", "It is is it?"),
        ("It is (____) red.", "very", "It is (very) red."),
        ("____", "two hens", "two hens"),
        ("____", "there are hens", "There are hens"),
        ("____", "is", "is"),
        ("The hen is ____ , I say .", " very   red ", "The hen is very red, I say."),
        ("A  hen   is ____.", "red", "A hen is red."),
    ],
)
def test_an_answer_stands_in_its_sentence(page, answer, sentence):
    edits = edits_of(page)
    fill(edits, "____", answer)
    assert texts(edits)[-1].removeprefix("It was. ") == sentence


def test_what_is_a_word_of_its_own_stays_as_it_is():
    edits = edits_of("____ ing. It is.")
    fill(edits, "____", " sing   a.", as_is=True)
    assert texts(edits) == ["sing a. ing. It is."]


def test_a_range_is_dropped_or_shown_instead_of_another():
    edits = edits_of("The hen (is / are) red (old) today.")
    edits.drop(*at(edits, "(old)"))
    edits.fills.append(Fill(*at(edits, "(is / are)"), shown=at(edits, "are")))
    assert texts(edits) == ["The hen are red today."]
    (one,) = edits.passages()
    start = one.text.index("are")
    assert one.span(start, start + 3) == edits.passage.span(*at(edits, "are"))
    assert one.span(0, 3) == edits.passage.span(0, 3)


def test_of_edits_that_overlap_the_first_holds():
    edits = edits_of("The hen is ____ today.")
    fill(edits, "is ____", "was")
    fill(edits, "____", "red")
    assert texts(edits) == ["The hen was today."]
    edits.cuts.append((at(edits, "____")[0] + 2, at(edits, "today")[0]))  # and none runs over a cut
    assert texts(edits) == ["The hen is __", "today."]


def test_a_fill_at_a_cut_belongs_to_what_stands_before_it():
    edits = edits_of("I run. I sing.")
    edits.fills.append(Fill(6, 6, " Now.", (5, 6)))
    edits.cuts.append((6, 7))
    assert texts(edits) == ["I run. Now.", "I sing."]


@pytest.mark.parametrize(
    ("cuts", "left"),
    [
        ([], ["one two three"]),
        (["two"], ["one", "three"]),
        (["one"], ["two three"]),
        (["three", "one"], ["two"]),
        (["one two", "two"], ["three"]),
        (["one two three"], []),
        (["one two three", "two"], []),
    ],
)
def test_a_passage_is_cut(cuts, left):
    edits = edits_of("one two three")
    edits.cuts += [at(edits, words) for words in cuts]
    assert texts(edits) == left


def test_what_stands_apart_is_read_in_the_order_of_the_page():
    edits = edits_of("a hen / It is red. / ____ / old / Yes! / ! / Is it? / Look here!")
    for words in ("Look here!", "Is it?", "old", "Yes!", "____", "It is red.", "a hen"):
        edits.cuts.append(at(edits, words))
        edits.apart.append(Place(edits.passage, *at(edits, words)))
    found = [(one.text, one.role) for one in edits.passages()]
    assert found == [
        ("a hen", Role.OPTION),
        ("It is red.", Role.ITEM),
        ("old", Role.OPTION),
        ("Yes!", Role.OPTION),
        ("Is it?", Role.ITEM),
        ("Look here!", Role.ITEM),
    ]
    edits.cuts.clear()
    assert len(texts(edits)) == 7
    edits.only_apart = True
    assert texts(edits) == ["a hen", "It is red.", "old", "Yes!", "Is it?", "Look here!"]


def test_what_has_neither_words_nor_blanks_nor_pictures_is_not_read():
    assert texts(edits_of("… / –")) == []
    assert texts(edits_of("____")) == ["____"]
    assert texts(edits_of("3")) == ["3"]
    picture = edits_of("… ![a hen](art/h.svg)")
    picture.apart.append(Place(picture.passage, 0, 3))
    assert [one.pictures[0].alt for one in picture.passages()] == ["a hen", "a hen"]


def test_what_nobody_says_anything_against_is_held_against_grammar():
    assert not edits_of("The hen is red.").unchecked


def test_text_behind_an_items_number_is_an_item():
    edits = edits_of("Look. 1 It is red. 2 It is old.")
    for words in ("1", "2"):
        start, end = at(edits, words)
        edits.cuts.append((start, end))
        edits.items.append(end)
    assert [(one.text, one.role) for one in edits.passages()] == [
        ("Look.", Role.TEXT),
        ("It is red.", Role.ITEM),
        ("It is old.", Role.ITEM),
    ]
    turn = edits_of("**Ed:** It is red.")
    turn.items.append(0)
    assert [one.role for one in turn.passages()] == [turn.passage.role] != [Role.ITEM]


def marked(one: Passage) -> list[list[str]]:
    return [
        [one.text[slice(*span)] for span in spans]
        for spans in (one.strong, one.emphasis, one.foreign, one.struck, one.gaps)
    ]


def test_what_is_marked_stays_so_where_it_is_whole():
    edits = edits_of("1 **One** *hen* ____ [hola]{lang=es} ~~is~~ ![a cow](art/c.svg) , **two  hens** and ____ .")
    edits.cuts.append((0, 2))
    start = edits.passage.text.rindex("____")
    edits.fills.append(Fill(start, start + 4, "red", (start, start + 4)))
    (one,) = edits.passages()
    assert one.text == "One hen ____ hola is \ufffc, two hens and red."
    assert marked(one) == [["One"], ["hen"], ["hola"], ["is"], ["____"]]
    assert [one.text[picture.at] for picture in one.pictures] == ["\ufffc"]
    edits.drop(*at(edits, "\ufffc"))
    edits.drop(*at(edits, "One"))
    (one,) = edits.passages()
    assert (one.pictures, marked(one)[0]) == ((), [])


def test_what_stands_in_a_blank_is_told_by_its_place():
    edits = edits_of("The ____ is ____.")
    edits.fills.append(Fill(4, 8, "hen", (4, 8)))
    edits.fills.append(Fill(12, 16, "red", (12, 16)))
    (one,) = edits.passages()
    assert [one.text[slice(*span)] for span in filled_ranges(one)] == ["hen", "red"]
    assert filled_ranges(edits.passage) == ()
    letter = edits_of("h_n is")
    letter.fills.append(Fill(1, 2, "e", (1, 2), as_is=True))
    (one,) = letter.passages()
    assert filled_ranges(one) == ()
