"""What happens now, and what happens every day (common practice of grammars for learners, no source)."""

import pytest

from lint_rules.page.exercises.reading import exercises_in
from lint_rules.unit_language.now_or_every_day import other_time
from tests.exercises.test_layouts import unit_of


def asked_for(sentence: str, answer: str) -> str:
    page = (
        f"### 1 Circle. {{.reading}}\n\n1. {sentence}\n2. It is a hen / cow.\n\n::: answers\n1 {answer}\n2 hen\n:::\n"
    )
    (activity,) = unit_of(page).activities
    (exercise,) = exercises_in(activity, unit_of(page)).exercises
    return other_time(exercise.items[0], exercise)


@pytest.mark.parametrize(
    ("sentence", "answer", "right"),
    [
        ("Listen! The bell *rings / is ringing*.", "rings", "is ringing"),
        ("Look! Nube *drinks / is drinking*.", "drinks", "is drinking"),
        ("We *play / are playing* at the moment.", "play", "are playing"),
        ("Every day she *carries / is carrying* a basket.", "is carrying", "carries"),
        ("He usually *doesn't eat / isn't eating* fish.", "isn't eating", "doesn't eat"),
    ],
)
def test_the_words_of_the_item_decide(sentence: str, answer: str, right: str) -> None:
    assert asked_for(sentence, answer) == right
    assert asked_for(sentence, right) == ""


@pytest.mark.parametrize(
    ("sentence", "answer"),
    [
        ("The bell *rings / is ringing*.", "rings"),  # nothing decides
        ("Look! Tam *has / is having* a new hat.", "has"),  # states
        ("Listen! I *know / am knowing* this song.", "know"),
        ("Look! That man *teaches / is teaching* at our school.", "teaches"),
        ("Look at the sky: it *rains / is raining*.", "rains"),  # an order to look somewhere
        ("Listen! He always *sings / is singing*.", "sings"),  # both cues
        ("Look! It is *red / blue*.", "red"),
        ("Listen! *Do / Does* he sing?", "Do"),
        ("Every day is *fun / sunny*.", "sunny"),
    ],
)
def test_where_nothing_decides_nothing_is_said(sentence: str, answer: str) -> None:
    assert asked_for(sentence, answer) == ""
