"""A statement or a question held against a text: said there, denied there, or not to be known."""

import pytest

from lint_rules.page.exercises.statements import is_said

KNOWN = [
    # The clause is the statement.
    ("A mole digs tunnels.", "A mole digs tunnels.", True),
    ("The bus is late.", "It rains, and the bus is late.", True),
    ("The bus is late.", "It rains and the bus is late.", True),
    ("The bus is late.", "But the bus is late.", True),
    ("The bus is late.", "Mum says: the bus is late!", True),
    ("The bus is late.", "The bus is late, so we walk.", True),
    ("The bus is late.", "We sing. THE BUS IS LATE!\nWe walk.", True),
    ("Otto's late.", "Otto is late.", True),
    ("Otto is late.", "Otto’s late.", True),
    # It is denied.
    ("A mole can fly.", "A mole can't fly.", False),
    ("A mole can fly.", "A mole cannot fly. A mole can not fly.", False),
    ("The bus is late.", "The bus isn’t late.", False),
    ("The bus is late.", "The bus is not late.", False),
    ("Otto is late.", "Otto's not late.", False),
    # A question turns it round, behind one word, two or three.
    ("Is Otto late today?", "Otto is late today.", True),
    ("Is the bus late?", "The bus is late.", True),
    ("Was my old bus late?", "My old bus was late.", True),
    ("Can the mole fly?", "The mole can't fly.", False),
    ("Is there an owl in the tree?", "There is an owl in the tree.", True),
    ("There is an owl here.", "There is an owl here.", True),
    ("There is an owl in the tree.", "There isn't an owl in the tree.", False),
    # Somebody is named, and told of in the next words.
    ("Otto is a mole.", "Otto, my mole, is four.", True),
    ("Otto is a mole.", "Here is Otto, a mole.", True),
    ("Otto is an owl.", "Otto, our owl, is four.", True),
    ("Otto is a mole.", "Otto the mole! Come in.", True),
    ("Is Otto a mole?", "This is otto, the mole.", True),
]

UNKNOWN = [
    ("The bus is late.", "The bus is red."),
    ("The bus is late.", "The bus is late. The bus is not late."),  # both
    ("The bus is late.", "Is it true? The bus is late?"),
    ("The bus is late.", "Maybe the bus is late."),
    ("The bus is late.", "The old bus is late."),
    ("The bus is late.", "The bus is not not late."),
    ("Moles dig.", "Moles dig."),  # too short to be sure
    ("It is red.", "It is red."),  # it may be anything
    ("There are owls.", "There are owls."),
    ("There are two owls.", "There are two owls."),
    ("A mole can never fly.", "A mole can never fly."),
    ("Nobody is late today.", "Nobody is late today."),
    ("Where is the mole?", "The mole is where."),  # no yes, no no
    ("Does a mole fly?", "A mole does fly."),
    ("Is the very big red bus late?", "The very big red is bus late."),
    ("?", "?"),
    ("Otto is a mole.", "Otto, your moles, come in."),
    ("Otto is a mole.", "Otto, the mole hill."),
    ("Otto is a mole.", "Lotto, my mole."),
    ("Otto is our mole.", "Otto, my mole, is four."),
    ("Otto was a mole.", "Otto, my mole, is four."),
    ("Otto is a big mole.", "Otto, my big mole."),
]


@pytest.mark.parametrize(("statement", "text", "said"), KNOWN)
def test_what_a_text_says_or_denies_word_for_word(statement, text, said):
    assert is_said(statement, [text]) is said


@pytest.mark.parametrize(("statement", "text"), UNKNOWN)
def test_what_needs_more_than_the_words_is_not_known(statement, text):
    assert is_said(statement, [text]) is None


def test_all_texts_count():
    assert is_said("The bus is late.", ["We sing.", "The bus is late."]) is True
    assert is_said("The bus is late.", ["The bus is not late.", "The bus is late."]) is None
    assert is_said("The bus is late.", []) is None
