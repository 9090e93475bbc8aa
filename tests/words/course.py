"""A small course for the tests of word levels, and the language room's answer on a line of text."""

from lint_rules.course.model import Course, Level, Limits, WordEntry
from lint_rules.language.service import Language, Request
from lint_rules.language.tokens import Mode
from lint_rules.language.vocabulary.word_index import Origin, build_index, index_of
from lint_rules.language.vocabulary.word_level import WordLevel
from lint_rules.language.vocabulary.word_levels import look_up

LIMITS = Limits((35, 45), 8, 2, 8, 60, 3)
WORDS = """
0 1 cloud noun weather
0 2 ice_cream noun food
0 2 get_up verb day
0 3 put_on verb clothes
0 3 next_to preposition places
0 3 football noun sports
0 4 water noun drinks
0 4 paint verb art
0 4 orange noun food
0 4 grandma noun family
0 5 May noun months
0 5 swimming_pool noun places
0 5 first-aid_kit noun things
0 6 what's_your_name phrase -
0 6 glasses noun clothes
0 6 favourite adjective -
0 7 new adjective -
1 1 water verb garden
1 1 volcano noun nature
1 2 whisper verb -
1 2 orange adjective colours
1 3 nine number -
"""


def course() -> Course:
    """Two levels, Pre-A1 and A1."""
    levels = tuple(
        Level(index, f"level-{index + 1}", band, f"words/level-{index + 1}.csv", 40, 9, LIMITS, (), ())
        for index, band in enumerate(("Pre-A1", "A1"))
    )
    words = []
    for row, line in enumerate(WORDS.strip().splitlines(), start=2):
        level, unit, word, part, topic = line.split()
        topics = () if topic == "-" else (topic,)
        words.append(
            WordEntry(
                word.replace("_", " "),
                part,
                topics,
                int(unit),
                level=int(level),
                path=f"words/level-{int(level) + 1}.csv",
                row=row,
            )
        )
    return Course(
        "A course",
        "en-GB",
        (6, 10),
        ("Mina", "Rose"),
        ("quokka", "hot dog"),
        levels,
        tuple(words),
        instruction_words=("annotate",),
    )


def words_of(
    text: str, language: Language, presented: tuple[str, ...] = (), of: Course | None = None
) -> tuple[WordLevel, ...]:
    """The words of a text with their levels in that course."""
    of = of or course()
    analysis = language.analyse([Request(text, Mode.TEXT, tuple(n for n in of.characters if n in text))])[0]
    found = look_up(analysis, text, build_index(of), index_of(presented, Origin.UNIT) if presented else None)
    assert [word.text for word in found] == [text[word.start : word.end] for word in found]
    return found
