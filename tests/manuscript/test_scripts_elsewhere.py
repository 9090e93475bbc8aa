"""Scripts that stand for a text elsewhere: directions to the studio, which no child hears."""

import pytest

from lint_rules.manuscript.counting import is_placeholder


@pytest.mark.parametrize(
    "script",
    [
        "The story as it is printed above, with a pause and the sound of a wave after each picture.",
        "Frames 1 to 8 as printed, each speaker in his or her own voice.",
        "(The chant as on the page.)",
        "[The eight frames, as on the page]",
        "The talk is read as printed, by the voices of Tansy and Mika.",
        "The text of the story, pictures 1 to 6, with wind.",
        "The song is sung twice, slowly.",
        "Script to follow.",
        "The actors read the frames with a bell between them.",
        "To be written",
    ],
)
def test_a_text_that_is_elsewhere_is_no_script(script: str) -> None:
    assert is_placeholder(script)


@pytest.mark.parametrize(
    "script",
    [
        "The story is about a boat.",
        "Our song is in the red book.",
        "The words are easy to read. Say them.",
        "I read the story as before.",
        "The picture is red, as red as the sea above.",
        "The children act the play on Friday.",
        "This is a story to follow with your finger.",
        "The words on the page dance. A tiger jumps out.",
        "The song is sung from the top of the hill.",
        "The story is told with puppets every summer.",
        "The words are said with a smile, and everybody laughs.",
    ],
)
def test_what_is_said_of_a_text_is_heard(script: str) -> None:
    assert not is_placeholder(script)
