"""A slip of grammar, spelling or punctuation, as a LanguageTool server sees it.

A slip in a children's book is taught to every child who uses it, and a parent who finds one doubts the rest. This
rule runs only when hornbook is given an English checker (`--english`, or the environment variable HORNBOOK_ENGLISH):
the address of a server, or `local` to start one on this machine.

Pupil's pages, audio scripts, answers and teacher's notes are checked. Gaps, choices (is / are), pictures, numbering
and speakers' names are hidden from the checker. Left alone are the course's characters, known words and target words
in all their forms; words for sounds (Ribbit! Brrr!); a word said twice for fun (a big big dog); activities of the
class `mistakes`, whose slips are deliberate; and all that is a matter of taste
(english/data/english_switched_off.csv gives the list and the reasons).

It cannot know the nonsense words of a rhyme (list them under `known`) or letters and words that the child is to put
in order (part them by slashes). There is no mend: the checker guesses, and its guess is for the author to judge.
"""

import re
from collections.abc import Iterator, Mapping, Sequence

from lint_rules.finding import Found, Severity
from lint_rules.language.service import EnglishMatch
from lint_rules.language.vocabulary.house_words import house_spellings, spelling_of
from lint_rules.language.vocabulary.noises import DRAWN_OUT
from lint_rules.language.vocabulary.reference import common
from lint_rules.language.vocabulary.varieties import out_of_place
from lint_rules.language.vocabulary.word_forms import every_form
from lint_rules.manuscript.model import Audience, Passage
from lint_rules.rule import By, Example, Gather, Need, Reading, Rule, Within
from lint_rules.tables import entries

_SPELLING = ("TYPOS", "MORFOLOGIK_RULE_EN_GB", "Possible spelling mistake found.")


def _spelling(word: str) -> tuple[str, str, str, str]:
    return (word, *_SPELLING)


RULE = Rule(
    name="english-error",
    family="correct English",
    severity=Severity.QUERY,
    needs=frozenset({Need.ENGLISH}),
    passes=(
        Example("I can see a kite.\n", why="the checker has nothing to say"),
        Example(
            "This is Mina. I like Mina's hat.\n",
            course="characters: [Mina]",
            english=(_spelling("Mina"),),
            why="a character of the course",
        ),
        Example(
            "Look at the three quokkas!\n",
            words="quokka,noun,animals,1,say,\n",
            english=(_spelling("quokkas"),),
            why="a target word, in its plural",
        ),
        Example(
            "Woooow! Brrr, it's cold. Bzz!\n",
            english=(_spelling("Woooow"), _spelling("Brrr"), _spelling("Bzz")),
            why="drawn-out sounds",
        ),
        Example("My favorite toy is a kite.\n", english=(_spelling("favorite"),), why="spelling-variety says it"),
        Example(
            "It's a big big dog!\n",
            english=(("big big", "MISC", "ENGLISH_WORD_REPEAT_RULE", "Possible typo: you repeated a word."),),
            why="said twice for fun",
        ),
        Example(
            "The kite has got a fish tail.\n",
            english=(("fish tail", "MISC", "EN_COMPOUNDS_FISH_TAIL", "This word is normally spelled as one."),),
            why="a child knows no fishtail",
        ),
        Example(
            "The clock has got a long hand and a short hand.\n",
            english=(("short hand", "MISC", "EN_COMPOUNDS_SHORT_HAND", "This word is normally spelled as one."),),
            why="it says which hand",
        ),
        Example(
            "### 1 Find the mistakes. {.mistakes}\n\nShe go to school.\n",
            english=(("go", "GRAMMAR", "HE_VERB_AGR", "Use a third-person verb."),),
            why="deliberate",
        ),
    ),
    fails=(
        Example(
            "She «go» to school.\n",
            english=(("go", "GRAMMAR", "HE_VERB_AGR", "Use a third-person verb."),),
        ),
        Example(
            "«Its» raining.\n",
            words="its,determiner,,1,say,\n",
            english=(("Its", "TYPOS", "IT_IS", "Did you mean “it's”?"),),
            why="a word of the course in the wrong place",
        ),
        Example("I am «hapy» today.\n", english=(_spelling("hapy"),)),
        Example("::: teacher\n**Steps:** Children «colur» the kite.\n:::\n", english=(_spelling("colur"),)),
        Example("::: {.audio track=1.1}\nMINA: I'm very «hapy»!\n:::\n", english=(_spelling("hapy"),)),
        Example(
            "Look at «the the» kite.\n",
            english=(("the the", "MISC", "ENGLISH_WORD_REPEAT_RULE", "Possible typo: you repeated a word."),),
            why="nobody says the twice for fun",
        ),
    ),
    gathers=(Gather(Within.COURSE, By.WORDS),),
    fault="a word",
)

_WHERE = {
    Audience.PUPIL: "On the pupil's page",
    Audience.LISTENER: "In the audio script",
    Audience.KEY: "In the answers",
    Audience.TEACHER: "In the teacher's notes",
}
_SPELLER = "MORFOLOGIK"  # the dictionary's own alarms; others of its category are grammar (its for it's)
_TWICE = "ENGLISH_WORD_REPEAT_RULE"
_IN_ONE_WORD = "EN_COMPOUNDS"
_CHILDS_WORD = 2.5  # Zipf frequency, common practice, no source: toothbrush has 3.4, houseboat 2.7, fishtail 2.2
# A black bird need not be a blackbird, nor a clock's short hand shorthand; a shoe box is in dictionaries too.
_OPEN_AFTER = re.compile(
    r"(?:big|black|blue|brown|cold|dark|green|high|hot|little|long|red|shoe|short|small|white|wild)\s", re.I
)
_SPELT_OUT = re.compile(r"[^\W\d_](?:-[^\W\d_])*")


def find(reading: Reading) -> Iterator[Found]:
    """Report what the English checker says, less what a course vouches for."""
    house = house_spellings(reading.course) | _listed("sound_words.txt") | _listed("trade_words.txt")
    elsewhere, never_twice = out_of_place(reading.course.variety), frozenset(entries("never_twice.txt"))
    for passage in reading.unit.passages:
        for match in reading.english(passage):
            words = passage.text[match.start : match.end]
            if match.rule.startswith(_SPELLER) and _is_word_of_ours(words, house, elsewhere):
                continue
            if match.rule == _TWICE and never_twice.isdisjoint(words.casefold().split()):
                continue
            if match.rule.startswith(_IN_ONE_WORD) and _may_stand_open(words, match.replacements):
                continue
            yield Found(passage.span(match.start, match.end), words, _message(passage, match, words))


def _listed(table: str) -> frozenset[str]:
    return frozenset(form for word in entries(table) for form in every_form(word))


def _is_word_of_ours(words: str, house: frozenset[str], elsewhere: Mapping[str, str]) -> bool:
    word = spelling_of(words)
    return (
        word in house
        or all(part in house for part in re.split(r"[\s-]+", word))
        or word in elsewhere
        or DRAWN_OUT.search(word) is not None
        or _SPELT_OUT.fullmatch(word) is not None
    )


def _may_stand_open(words: str, solid: Sequence[str]) -> bool:
    """Say whether two words need not be one: the one is beyond a child (a fish tail), or the first says how it is (a
    black bird). A grand mother is a slip.
    """
    return _OPEN_AFTER.match(words) is not None or all(common(word) < _CHILDS_WORD for word in solid)


def _message(passage: Passage, match: EnglishMatch, words: str) -> str:
    where = _WHERE.get(passage.audience, "Here")
    better = [f"“{word}”" for word in match.replacements[:3] if word and word not in match.message]
    perhaps = f" Perhaps {' or '.join(better)}?" if better else ""
    if match.rule.startswith(_SPELLER):
        known = "If it is a name or a word of this course, list it in course.yaml (characters or known)."
        return f"{where}: “{words}” is not in the dictionary.{perhaps} {known}"
    return f"{where}: {match.message}{perhaps}"
