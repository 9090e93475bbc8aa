"""What happens now, and what happens every day: *Listen! The bell (rings / is ringing)*, *Every day he (plays / is
playing)*.

Only where the item offers both, and its own words decide: what is called out (Listen! Look!) or happens at the moment
is going on; what happens every day or always is a habit. Pure: words in, the right option out. Common practice of
grammars for learners, no source.
"""

import re

from lint_rules import lazy_re
from lint_rules.page.exercises.completed import completed
from lint_rules.page.exercises.model import Exercise, Item
from lint_rules.tables import words

_NOW = lazy_re.compile(r"^\W*(?:listen|look|sh+)\b[^.!?]{0,15}!|\b(?:at the moment|right now)\b", re.I)
_OFTEN = lazy_re.compile(
    r"\b(?:every (?:day|morning|afternoon|evening|night|week|weekend|year|summer|winter|\w+day)|always|usually|often)\b"
    r"|\bon \w+days\b",
    re.I,
)
_GOES_ON = lazy_re.compile(r"(?:(?:am|is|are)(?: not|n['’]t)?|['’](?:m|s|re)) \w+ing", re.I)
_HABIT = lazy_re.compile(r"(?:do(?:es)?(?: not|n['’]t) )?[a-z]+", re.I)


def other_time(item: Item, exercise: Exercise) -> str:
    """The option that the words of an item ask for, where its key chooses the other one; '' where it does not."""
    if len(item.choices) != 1:
        return ""
    options = [option.text.strip() for option in item.choices[0].options]
    going_on = [one for one in options if _GOES_ON.fullmatch(one)]
    habits = [one for one in options if one not in going_on and _HABIT.fullmatch(one) and not one.endswith("ing")]
    (chosen,) = completed(item, exercise).chosen or (None,)
    now, often = (cue.search(item.text) is not None for cue in (_NOW, _OFTEN))
    said = {
        form for word in (habits[0].casefold().split() if habits else ()) for form in (word, word.removesuffix("s"))
    }
    if now and not said.isdisjoint(words("state_verbs")):
        return ""  # Look! He has a new hat.
    if chosen is None or len(options) != 2 or not (len(going_on) == len(habits) == 1) or now is often:
        return ""
    right = going_on[0] if now else habits[0]
    return right if right != chosen.text.strip() else ""
