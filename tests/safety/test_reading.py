"""How the learned tables read texts: sentence by sentence, and many texts at once as each by itself."""

import pytest

from lint_rules.safety.acts import acts_of
from lint_rules.safety.learned import shown, table
from lint_rules.safety.sensitive_topics import touches
from lint_rules.safety.signs import heaviest, near, sentences_of
from tests.safety.test_acts import lines, texts_of, told


@pytest.fixture(scope="module")
def activities():
    """More sentences than are weighed at once, and among them activities that say nothing."""
    said = [line.replace("«", "").replace("»", "") for line in lines("acts_fire.txt")[:60]]
    bodies = [told(line.partition(": ")[2]) for line in said]
    bodies[10:10] = ["### 1 ____ {.game}\n", "### 2 … {.game}\n"]
    return [text for body in bodies for text in texts_of(body)]


def test_acts(activities):
    together = list(acts_of(activities))
    assert together == [found for text in activities for found in acts_of([text])]
    assert sum(map(bool, together)) > len(activities) / 2, "else it shows little"


def test_topics():
    texts = [line.replace("«", "").replace("»", "") for line in lines("sensitive.txt")]
    texts[5:5] = ["", "…", "Sit!"]
    together = touches(texts)
    assert together == [touches([text])[0] for text in texts]
    assert sum(map(bool, together)) > 20, "else it shows little"


@pytest.mark.parametrize("texts", [[], [""], ["", "…\n"]])
def test_texts_without_a_sentence(texts):
    assert touches(texts) == [[] for _ in texts]
    assert list(acts_of([])) == []


@pytest.mark.parametrize("name", ["acts", "care"])
def test_a_sentence_shows_what_its_own_text_shows(name):
    one, other = (sentences_of([(text, 3)], 1) for text in ("Cut it out. Glue it.", "Light the candle! Now sing."))
    reads_near = table(name).reads_near
    both = shown([(one, ("make",)), (other, ())], reads_near=reads_near)
    alone = shown([(other, ())], reads_near=reads_near)
    for kind in ("own", "near", "placed"):
        signs, expected = getattr(both, kind), getattr(alone, kind)
        later = signs.of >= len(one)
        assert (signs.of[later] - len(one)).tolist() == expected.of.tolist()
        assert signs.keys[later].tolist() == expected.keys.tolist()
        assert signs.times[later].tolist() == expected.times.tolist()
    assert both.sense[len(one) :].tolist() == alone.sense.tolist()


def test_a_text_is_read_sentence_by_sentence():
    found = sentences_of([("Cut it out. Glue it; go!\n…\nSing", 3)], 1)
    assert [" ".join(word.word for word in one.words) for one in found] == ["Cut it out .", "Glue it ;", "go !", "Sing"]


def test_a_heading_is_read_with_every_sentence_and_others_with_those_beside_them():
    texts = [("Make a lamp.", 1), ("Say it. " * 10, 3)]
    assert all(0 in around for around in near(sentences_of(texts, 1)))
    assert [at for at, around in enumerate(near(sentences_of(texts, 9))) if 0 in around] == [0, 1, 2, 3, 4]


@pytest.mark.parametrize(
    ("text", "heavy", "shown_words"),
    [
        ("Light the candle!", ["candle"], "Light the candle"),
        ("Sit down and light the candle.", ["candle"], "light the candle"),
        ("They light a candle with a match.", ["candle", "match"], "They light a candle with a match"),
        ("Now eat the nuts!", ["nuts", "!"], "Now eat the nuts"),
        ("Eat “nuts” now.", ["“", "nuts"], "Eat “nuts"),
    ],
)
def test_what_is_pointed_at_begins_with_the_order_and_ends_with_a_word(text, heavy, shown_words):
    (sentence,) = sentences_of([(text, 3)], 1)
    start, end = heaviest(sentence, [float(word.word in heavy) for word in sentence.words])
    assert text[start:end] == shown_words
