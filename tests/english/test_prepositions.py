"""Prepositions that are wrong behind their word (from memory of what grammars for learners warn of)."""

import pytest

from lint_rules.english.prepositions import wrong_prepositions


@pytest.mark.parametrize(
    ("text", "words", "right"),
    [
        ("We arrived to the school at nine.", "to", "at"),
        ("The boat arrives to Limpet Island.", "to", ""),
        ("Wait me, Tom!", "Wait", "Wait for"),
        ("They are waiting the bus.", "waiting", "waiting for"),
        ("Look me! I can swim.", "Look", "Look at"),
        ("He is interested on the sea.", "on", "in"),
        ("They entered to the house.", "to", ""),
        ("The cat is in front the door.", "is in front", "is in front of"),
        ("The shop is next of the school.", "of", "to"),
        ("Who takes care for the dog?", "for", "of"),
        ("She is good in maths.", "in", "at"),
        ("We go to shopping.", "to", ""),
        ("Then they came to home.", "to", ""),
        ("Children who are good in writing help.", "in", "at"),
        ("I am responsible of the front page.", "of", "for"),
        ("She was afraid from the dark.", "from", "of"),
        ("It depends of the wind.", "of", "on"),
        ("The box belongs for Odo.", "for", "to"),
        ("Let's discuss about the map.", "about", ""),
        ("It is full with water.", "with", "of"),
        ("She told to me a secret.", "to", ""),
        ("They laughed of him.", "of", "at"),
        ("Knock to the door.", "to", ""),
        ("We waited on the bus stop.", "on", "at"),
        ("They live in the top floor.", "in", "on"),
        ("Everybody was laughing to Pasha.", "to", "at"),
        ("He waits the school bus.", "waits", "waits for"),
        ("They want to go to home.", "to", ""),
        ("We visited to the museum.", "to", ""),
        ("What can you see on the picture?", "on", "in"),
        ("Look on the picture and write.", "on", "at"),
        ("We look forward for the weekend.", "for", "to"),
        ("He is good in climbing.", "in", "at"),
        ("She is waiting her friend.", "waiting", "waiting for"),
        ("They arrive to a small green island.", "to", ""),
    ],
)
def test_what_is_wrong_is_shown_with_what_is_right(text: str, words: str, right: str) -> None:
    slips = list(wrong_prepositions(text))
    assert [text[slip.start : slip.end] for slip in slips] == [words]
    assert slips[0].better == right


@pytest.mark.parametrize(
    "text",
    [
        "We arrived at the school. They arrive to find it empty.",
        "Wait your turn! Wait a minute. They wait their chance. Wait my turn.",
        "Look, me too! Look for me.",
        "She is good in the morning. Are you good in a storm?",
        "He was angry on the bus, and proud on the stage.",
        "We go to swimming lessons. They go to the shopping centre.",
        "Who sits in front? The seats in front are full.",
        "Take care on the road! Come to our home.",
        "Behind it, from the left, comes a goat.",
        "Now do something similar with the red pen. Look on the board for your name.",
        "It arrived to Nelly's great joy. They enter into the spirit of it. We arrived to a warm welcome.",
        "Who comes next from the list? Three listening stories for you.",
        "The driver sits in front\nThe children sit behind",
        "She is good in evening light. A good in stock. Great in size, small in weight.",
        "The people responsible for it; a man afraid for his dog; scared from then on.",
        "He told to the last detail what he saw. We discuss. It belongs there.",
        "Knock to wake me. He laughed of course. Full of sand.",
        "Put the sticker on the picture. Write on the picture. What is on the table?",
        "Go to home base! They get to the home of a snail. We visited in spring.",
        "It was made by Odo. Toys made by the paper shop.",
        "This is the museum we visited in the morning. It is the house we visited in my town.",
        "Use the red pen instead for the title. Choose instead from the box.",
        "This is the story she told to me. He tells to us all.",
        "What's on the picture card? Look on the picture card.",
        "She was frightened from the field by a dog. The laughs from the hall are loud.",
        "He looked forward for a moment. He is good in running shoes. Go to Home.",
        "The cup is full from the rain.",
    ],
)
def test_what_is_right_is_left_alone(text: str) -> None:
    assert list(wrong_prepositions(text)) == []
