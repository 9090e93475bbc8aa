"""Slips at single words that a key makes: a preposition of time, a pronoun, what a verb is followed by, sound-alikes
(`in Monday`, `like she`, `enjoy to read`, `who's bag is`). Each only where no sentence of a course has it so.
"""

from collections.abc import Iterator
from functools import cache

from lint_rules import lazy_re
from lint_rules.language.inflection.irregular import irregular_degrees
from lint_rules.language.inflection.verb_forms import bases, can_be_participle
from lint_rules.tables import entries, words
from lint_rules.unit_language.key_sentence import KeySentence, KeySlip

_STOPS = frozenset({"", ".", "!", "?", ","})
_BE = frozenset({"am", "is", "are", "was", "were", "'m", "'re", "be", "been"})
_NOT = frozenset({"n't", "not", "never"})
_NOTHING = frozenset({"no", "nothing", "nobody", "none", "nowhere"})
_DAYS = frozenset({"monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"})
_MONTHS = frozenset(
    {"january", "february", "march", "april", "may", "june", "july", "august", "september", "october", "november"}
    | {"december"}
)
_SEASONS = frozenset({"spring", "summer", "autumn", "winter"})
_YEAR = lazy_re.compile(r"(?:1[5-9]|20)\d\d")
_TO_DO = frozenset({"want", "hope", "decide", "promise", "agree", "refuse", "plan", "wish"})
_DOING = frozenset({"enjoy", "dislike", "practise", "finish"})
_SAYING = frozenset({"say", "ask", "reply", "shout", "cry", "think", "answer", "call", "whisper", "laugh", "smile"})
_CLAUSE = frozenset({"think", "say", "know", "hope", "guess", "believe", "tell", "see", "mean", "hear", "feel", "find"})
_DONE_WELL = frozenset(
    {"play", "speak", "sing", "swim", "dance", "draw", "cook", "write", "drive", "ride", "paint", "climb", "skate"}
)
_ASKING = frozenset({"ask", "wonder", "know", "tell", "remember", "forget"})
_QUESTION_WORDS = frozenset({"where", "when", "what", "who", "why", "how"})
_WHOLE = frozenset(
    {
        "year",
        "month",
        "week",
        "day",
        "world",
        "class",
        "school",
        "family",
        "town",
        "village",
        "team",
        "all",
        "zoo",
        "farm",
    }
    | {"country", "group", "universe", "city", "club", "sea", "ocean", "jungle", "library", "museum", "shop", "street"}
)
_NEVER_ONE = frozenset({"bread", "rice", "butter", "money", "homework", "music", "flour", "sand", "snow", "water"})


def slips_of_words(sentence: KeySentence) -> Iterator[KeySlip]:
    """What is wrong at the words that the key has put into a sentence."""
    for find in (
        _of_time,
        _with_fixed_words,
        _behind_verbs,
        _forms,
        _pronouns,
        _alike,
        _nothing_twice,
        _order,
        _others,
    ):
        yield from find(sentence)


def _of_time(sentence: KeySentence) -> Iterator[KeySlip]:
    for at in sentence.filled:
        low, after, then = sentence.low(at), sentence.low(at + 1), sentence.low(at + 2)
        if low not in ("in", "on", "at") or at + 1 >= len(sentence.tokens):
            continue
        ends = then in _STOPS
        capital = sentence.tokens[at + 1].text[:1].isupper()
        right = ""
        if capital and after.removesuffix("s") in _DAYS and then != "'s":
            right = "on"
        elif (capital and after in _MONTHS and (ends or _YEAR.fullmatch(then))) or (_YEAR.fullmatch(after) and ends):
            right = "in"
        elif (then in ("o'clock", "o’clock")) or (after == "half" and then == "past"):
            right = "at"
        elif after in _SEASONS and ends:
            right = "in"
        if right and low != right:
            yield sentence.slip(at, at, right)


def _with_fixed_words(sentence: KeySentence) -> Iterator[KeySlip]:
    """`interested on`: a word and the preposition that it never has."""
    for at in sentence.filled:
        pair = f"{sentence.low(at - 1)} {sentence.low(at)}"
        for row in entries("fixed_prepositions.txt"):
            wrong, _, right = row.partition(" = ")
            if pair == wrong:
                yield sentence.slip(at - 1, at, f"{sentence.low(at - 1)} {right}")
        drawing = at + 1 < len(sentence.tokens) and sentence.tokens[at + 1].tag == "VBG"
        if sentence.low(at) == "in" and sentence.low(at - 1) in ("good", "bad") and drawing:
            yield sentence.slip(at - 1, at, f"{sentence.low(at - 1)} at")


def _behind_verbs(sentence: KeySentence) -> Iterator[KeySlip]:
    """`enjoy to read`, `wants going`, `made me to laugh`, `let's going`."""
    tokens = sentence.tokens
    for at in range(1, len(tokens)):
        before, low = tokens[at - 1], sentence.low(at)
        to_verb = low == "to" and sentence.low(at + 1) in bases()
        if not sentence.touches(at, at - 1, at + 1):
            continue
        if before.lemma in _DOING and before.pos == "VERB" and to_verb:
            yield sentence.slip(at - 1, at + 1)
        if before.lemma in _TO_DO and before.pos == "VERB" and tokens[at].tag == "VBG" and tokens[at].pos == "VERB":
            yield sentence.slip(at - 1, at)
        person = sentence.low(at - 1) in ("me", "him", "her", "us", "them", "you")
        if to_verb and person and sentence.low(at - 2) in ("make", "makes", "made", "let", "lets"):
            yield sentence.slip(at - 2, at + 1)
        named = before.pos in ("NOUN", "PROPN") and sentence.low(at - 2) in ("the", "your", "each", "every", "one")
        if to_verb and named and sentence.low(at - 3) == "let":  # let the children to taste
            yield sentence.slip(at - 3, at + 1)
        lets = sentence.low(at - 2) == "let" and sentence.low(at - 1) == "'s"
        if lets and (to_verb or tokens[at].tag == "VBG"):
            yield sentence.slip(at - 2, at)
        orders = sentence.low(at - 1) == "n't" and sentence.low(at - 2) == "do"
        if orders and tokens[at].tag == "VBG" and (at == 2 or sentence.low(at - 3) in _STOPS):
            yield sentence.slip(at - 2, at)
        liked = sentence.low(at - 1) == "like" and sentence.low(at - 2) in ("would", "'d")
        if liked and low in ("go", "be", "see", "eat", "become", "buy", "meet", "know", "have"):
            yield sentence.slip(at - 1, at, f"like to {low}")
        forward = before.text == "to" and sentence.low(at - 2) == "forward"
        if forward and low in bases() and tokens[at].pos == "VERB" and tokens[at].tag in ("VB", "VBP"):
            yield sentence.slip(at - 1, at)
        used = sentence.low(at - 1) == "to" and sentence.low(at - 2) == "used" and sentence.low(at - 3) not in _BE
        if used and low.endswith("ed") and low not in bases() and tokens[at].tag in ("VBD", "VBN"):
            yield sentence.slip(at - 1, at)


def _forms(sentence: KeySentence) -> Iterator[KeySlip]:
    """`I am go`, `has been play`, `did you saw`, `have never saw`, `he musts`."""
    tokens = sentence.tokens
    for at in sentence.filled:
        low, before = sentence.low(at), sentence.low(at - 1)
        only_verb = low in words("verbs_alone") and not can_be_participle(low)
        if before in _BE - {"be"} and only_verb and not sentence.names_words(at - 1):
            yield sentence.slip(at - 1, at)
        if before == "been" and low in bases() and tokens[at].pos in ("VERB", "NOUN") and not can_be_participle(low):
            yield sentence.slip(at - 1, at)
        row = [sentence.low(index) for index in range(max(0, at - 4), at)]
        stops = [index for index, word in enumerate(row) if word in (".", "!", "?")]
        earlier = set(row[stops[-1] + 1 :] if stops else row)
        person = before in ("i", "you", "he", "she", "we", "they", "it")
        if low == "saw" and (
            (person and "did" in earlier) or (before in ("never", "ever") and earlier & {"have", "has"})
        ):
            yield sentence.slip(at - 1, at)
        if low in ("musts", "shoulds") and at + 1 < len(tokens):
            yield sentence.slip(at, at, low[:-1])


def _pronouns(sentence: KeySentence) -> Iterator[KeySlip]:
    """`I like she`, `this is my`, `hers coat`."""
    tokens = sentence.tokens
    for at in sentence.filled:
        low, before, after = sentence.low(at), sentence.low(at - 1), sentence.low(at + 1)
        ends = after in (".", "!", "?", "") and at
        verb = at > 0 and tokens[at - 1].pos == "VERB" and tokens[at - 1].lemma not in _SAYING | {"be", "do", "have"}
        subject = any(token.dep == "nsubj" and index < at - 1 for index, token in enumerate(tokens))
        if ends and low in ("he", "she", "we", "they", "i") and verb and subject:
            yield sentence.slip(at - 1, at)
        if ends and low in ("my", "your", "our", "their") and before in ("is", "are", "'s", "was", "were"):
            yield sentence.slip(at - 1, at)
        noun = at + 1 < len(tokens) and tokens[at + 1].tag in ("NN", "NNS") and sentence.low(at + 2) in (
            *_STOPS, "is", "are", "was",
        )  # fmt: skip
        if low in ("mine", "yours", "hers", "ours", "theirs") and noun:
            yield sentence.slip(at, at + 1)


def _alike(sentence: KeySentence) -> Iterator[KeySlip]:
    """Words that sound alike: who's and whose, it's and its, their and there, to and too, that and than."""
    tokens = sentence.tokens
    for at in range(len(tokens)):
        low, after, then = sentence.low(at), sentence.low(at + 1), sentence.low(at + 2)
        owner = after == "'s" and sentence.touches(at, at + 1) and at + 2 < len(tokens)
        noun = owner and tokens[at + 2].tag in ("NN", "NNS")
        if noun and low == "who" and sentence.low(at + 3) in ("is", "are", "was", "were"):
            yield sentence.slip(at, at + 1, "whose")
        verb = at > 0 and tokens[at - 1].pos == "VERB" and tokens[at - 1].lemma not in _CLAUSE
        if noun and low == "it" and verb and sentence.low(at + 3) in (*_STOPS, "with", "in", "on"):
            yield sentence.slip(at, at + 1, "its")
        if at not in sentence.filled:
            continue
        if low == "their" and after in ("is", "are", "was", "were"):
            yield sentence.slip(at, at, "there")
        if low == "its" and after in ("a", "an", "the", "not", "my", "your"):
            yield sentence.slip(at, at, "it's")
        if low == "whose" and after in ("a", "the", "he", "she", "there"):
            yield sentence.slip(at, at, "who's")
        adjective = at + 1 < len(tokens) and tokens[at + 1].pos == "ADJ"
        if low == "to" and sentence.low(at - 1) in _BE and adjective and then in ("to", "for", *_STOPS):
            yield sentence.slip(at, at, "too")
        longer = sentence.low(at - 1) in _comparatives() or sentence.low(at - 2) == "more"
        if low in ("that", "then") and longer and after not in _STOPS and at > 1:
            yield sentence.slip(at - 1, at, f"{sentence.low(at - 1)} than")


@cache
def _comparatives() -> frozenset[str]:
    made = {f"{word.removesuffix('e')}er" for word in words("short_adjectives")}
    made |= {f"{word}{word[-1]}er" for word in words("short_adjectives")}
    made |= {f"{word[:-1]}ier" for word in words("short_adjectives") if word.endswith("y")}
    return frozenset(made | {form for one in irregular_degrees() for form in one.comparatives})


def _nothing_twice(sentence: KeySentence) -> Iterator[KeySlip]:
    """`We haven't got no milk`."""
    for at in sentence.filled:
        between = [sentence.low(index) for index in range(max(0, at - 4), at)]
        if sentence.low(at) in _NOTHING and _NOT & set(between) and not {",", ".", "but", "?"} & set(between):
            yield sentence.slip(at, at)


def _order(sentence: KeySentence) -> Iterator[KeySlip]:
    """`He asked me where did I live`."""
    tokens = sentence.tokens
    if any(token.text in "\"“”:'‘" for token in tokens):
        return
    for at in range(2, len(tokens) - 2):
        asked = any(tokens[index].lemma in _ASKING for index in range(max(0, at - 2), at))
        helper = sentence.low(at + 1) in ("do", "does", "did", "is", "are", "was", "were")
        person = sentence.low(at + 2) in ("i", "you", "he", "she", "we", "they", "it")
        if sentence.low(at) in _QUESTION_WORDS and asked and helper and person and sentence.touches(at + 1):
            yield sentence.slip(at + 1, at + 2)


def _others(sentence: KeySentence) -> Iterator[KeySlip]:
    """`a bread`, `the better film of the year`, `plays football good`."""
    tokens = sentence.tokens
    for at in range(len(tokens)):
        low, after, then = sentence.low(at), sentence.low(at + 1), sentence.low(at + 2)
        if low == "a" and after in _NEVER_ONE and then in _STOPS and sentence.touches(at):
            yield sentence.slip(at, at + 1)
        whole = [sentence.low(index) for index in range(at + 3, at + 7)]
        noun = at + 2 < len(tokens) and tokens[at + 2].pos == "NOUN"
        best = low == "the" and after in _comparatives() and noun and at + 1 in sentence.filled
        if best and whole[0] in ("of", "in") and _WHOLE & set(whole):
            yield sentence.slip(at, at + 1)
        if low in ("good", "bad") and at in sentence.filled and after in (".", "!", "?", ""):
            objects = at > 1 and tokens[at - 1].pos in ("NOUN", "PROPN")
            verbs = [token for token in tokens[:at] if token.pos == "VERB"]
            if objects and len(verbs) == 1 and verbs[0].lemma in _DONE_WELL:
                yield sentence.slip(at, at, "well" if low == "good" else "badly")
