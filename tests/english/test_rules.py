"""What authors read, and what a mend would do."""

import pytest

from lint_rules.engine.check import request_of
from lint_rules.engine.example import assemble
from lint_rules.engine.registry import load_rules
from lint_rules.english.slips import slips_in
from lint_rules.english.text import wordings
from lint_rules.finding import Found, Severity
from lint_rules.house_rules import ToldEnglish
from lint_rules.language.service import EnglishMatch, Language
from lint_rules.language.vocabulary.varieties import out_of_place, wrong_as
from lint_rules.manuscript.model import Unit
from lint_rules.rule import Example, Reading
from lint_rules.rules.correct_english import english_error, spelling_variety
from lint_rules.tables import rows
from tests.english.pages import course, unit_of
from tests.support import no_analysis, run_example, run_files


def variety_findings(unit: Unit, language: Language, variety: str = "en-GB") -> list[Found]:
    house = course(variety)
    reading = Reading(unit, house, house.levels[0], lambda p: language.analyse([request_of(p, house)])[0], lambda _: ())
    return list(spelling_variety.find(reading))


def mended(line: str, language: Language, variety: str = "en-GB") -> str:
    unit = unit_of([line])
    (found,) = variety_findings(unit, language, variety)
    assert found.mend is not None
    (edit,) = found.mend.edits
    text = unit.source.text
    return (text[: edit.span.start] + edit.text + text[edit.span.end :]).rstrip().rpartition("\n")[2]


@pytest.mark.parametrize(
    ("line", "variety", "right"),
    [
        ("My color is red.", "en-GB", "My colour is red."),
        ("Colors are fun.", "en-GB", "Colours are fun."),
        ("COLOR IT!", "en-GB", "COLOUR IT!"),
        ("My colour is red.", "en-US", "My color is red."),
        ("My *color* is red.", "en-GB", "My *colour* is red."),
        ("We practice every day.", "en-GB", "We practise every day."),
        ("We practise every day.", "en-US", "We practice every day."),
    ],
)
def test_a_mend_writes_the_word_as_the_variety_has_it(language, line, variety, right):
    assert mended(line, language, variety) == right


def test_a_word_with_a_mark_inside_is_found_but_not_mended(language):
    (found,) = variety_findings(unit_of(["My c**o**lor is red."]), language)
    assert found.text == "color"
    assert found.mend is None


def test_the_message_says_what_the_course_is_written_in(language):
    (found,) = variety_findings(unit_of(["My color is red."]), language)
    assert found.message == (
        "“color” is the American spelling; this course is in British English (en-GB), which has “colour”."
    )
    (found,) = variety_findings(unit_of(["We practice every day."]), language)
    assert found.message == "“practice” is the noun; in British English (en-GB) the verb is “practise”."


@pytest.mark.parametrize(
    ("variety", "wrong", "right"),
    [
        # As dictionaries of the two varieties mark them (from memory).
        (
            "en-GB",
            "color favorite center gray theater mom pajamas traveled jewelry plow math airplane",
            "realize program",
        ),
        (
            "en-US",
            "colour favourite centre grey theatre mum pyjamas travelled jewellery plough maths tyre",
            "axe practice",
        ),
        ("en-AU", "color favorite center", "realise colour program"),
        ("en-CA", "", "colour color center centre"),
    ],
)
def test_the_table_knows_the_words_of_a_childrens_course(variety, wrong, right):
    assert set(wrong.split()) <= set(out_of_place(variety))
    assert not set(right.split()) & set(out_of_place(variety))


def test_the_table_is_in_order_and_sends_no_word_in_a_circle():
    table = rows("spelling_varieties.csv")
    assert list(table) == sorted(set(table))
    assert {row[2] for row in table} <= {"", "american", "british"}
    for variety in ("en-GB", "en-US"):
        assert not set(out_of_place(variety)) & set(out_of_place(variety).values())
    assert not set(wrong_as("en-US"))


def said(line: str, words: str, rule: str, message: str, *replacements: str, notes: bool = False) -> Found:
    unit = unit_of([line], notes=notes)
    house = course()

    def english(passage):
        at = passage.text.find(words)
        return (EnglishMatch(at, at + len(words), rule, "GRAMMAR", message, replacements),) if at >= 0 else ()

    (found,) = english_error.find(Reading(unit, house, house.levels[0], no_analysis, english))
    return found


def test_the_author_is_told_where_what_and_what_instead():
    found = said("She go home.", "go", "HE_VERB_AGR", "‘She’ needs a third-person verb.", "goes", "went")
    assert found.message == "On the pupil's page, “She go”: ‘She’ needs a third-person verb. Perhaps “goes” or “went”?"
    assert found.severity in (None, Severity.QUERY)
    assert found.mend is None


def test_a_word_the_dictionary_lacks_comes_with_the_way_to_list_it():
    found = said(
        "Play freindly.", "freindly", "MORFOLOGIK_RULE_EN_GB", "Possible spelling mistake.", "friendly", notes=True
    )
    assert found.message == (
        "In the teacher's notes: “freindly” is in no dictionary: “friendly”? "
        "If it is right, add it to `known` in course.yaml."
    )


@pytest.mark.parametrize(
    ("words", "message", "replacements", "told"),
    [
        ("There is", "Did you mean “There are”?", ["There are"], "“There is”: Perhaps “There are”?"),
        ("is", "You should probably use: “are”.", ["are"], "“There is”: Perhaps “are”?"),
        ("is", "The verb is for one.", ["are"], "“There is”: The verb is for one. Perhaps “are”?"),
        ("is", "The verb should be “are”.", ["are"], "“There is”: The verb should be “are”."),
        ("is", "Possible agreement error detected.", [], "“There is”: Something is wrong here."),
    ],
)
def test_a_message_shows_the_words_and_proposes_once(words, message, replacements, told):
    found = said("There is two.", words, "THERE_S_MANY", message, *replacements)
    assert found.message == f"On the pupil's page, {told}"


@pytest.mark.timeout(20)
@pytest.mark.parametrize("piece", ["a", "_", "a_", "a/", "/", "1 ", "-", "(", "a ", "’"])
def test_a_very_long_text_is_no_trouble(piece):
    # As long as a paragraph may be before its reader calls it too long.
    unit = unit_of(["Look: " + piece * (19_900 // len(piece)) + " end"])
    for passage in unit.passages:
        assert wordings(passage)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("The bun can not stop.", ["can not"]),
        ("It isn't there no more.", ["no more"]),
        ("I don't like no fish.", ["no"]),
        ("Pig runs in the bin.", ["in"]),
        ("The dog wags it's tail.", ["it's"]),
        ("Can you to swim?", ["to"]),
        ("It were cold. He runned away.", ["were", "runned"]),
        ("How many leafs? Two big knifes and 3 childs.", ["leafs", "knifes", "childs"]),
        ("Riko and Thembi is washing the plates.", ["is"]),
        ("Does Tilla sleeps in the box? Did he flies home?", ["sleeps", "flies"]),
        ("Ana did English exercises with her dad. She does Irish dances. Every day Lila does Yoga moves.", []),
        ("Does Tilla cross the road? Did she miss it? Does Tilla always sleep? Did the school buses come?", []),
        ("Captain Jo and Tuppy is going to the trees. Ana and Mr Tam has got a hat.", ["is", "has"]),
        ("The song of Captain Jo and Tuppy is playing. Captain Jo and Tuppy are here.", []),
        ("Leni and Jakob is happy. Ana and Bo is here.", ["is"]),
        ("I'm here since three days. I have six years. He didn't believed it.", ["since", "have", "believed"]),
        ("Since two o'clock it rains. I have ten years of stories. We don't need it. He didn't feed them.", []),
        ("It happened since three years ago. They have not arrived.", []),
        ("Listen the song again. She explained me the words. There was many people.", ["Listen", "me", "was"]),
        ("Listen the first time and point. Listen this time. They listened the whole day.", []),
        ("On the first listening the children draw. Play the listening the second time.", []),
        ("Explain the children the game. Ask to your friends. Be quite!", ["the children", "to", "quite"]),
        ("Explain the game to the children. She asked to go. It must be quite big.", []),
        ("Listen! The song is new. She explained it to me. There are many people. There is one man.", []),
        ("He has fell asleep. They haven't went home. She hadn't ate it.", ["fell", "went", "ate"]),
        ("The hat he had fell off. What he had was old. She has sewed it. He has rose petals.", []),
        ("Now we sing. Tom and Ana hasn't got a drum.", ["hasn't"]),
        ("Neri didn't saw the cat. Did you went home? I don't left it.", ["saw", "went", "left"]),
        ("I've got a new boots. They are red.", ["a new boots"]),
        ("Then everybody were quiet, and nobody are here.", ["were", "are"]),
        ("Orla and I is going home. My friend and I has got a map.", ["is", "has"]),
        ("He likes Orla and I am sad. Orla and I are here.", []),
        ("Clap you hands! The tin is heavier as a bag.", ["you", "as"]),
        ("Touch you nose. She works later as a teacher.", ["you"]),
        ("Can you clap? I show you hands. She is a teacher as a friend. A bag is heavier than a hat.", []),
        ("It is bigger as an elephant. She is taller as my big brother!", ["as", "as"]),
        # right, or not surely wrong
        ("Clap and I am a bird. Sing and I am happy. When a cold starts, drink hot tea.", []),
        ("It looks bigger as the boat comes near. It is darker as the sun sets. Don't fell the tree.", []),
        ("She didn't saw the big branch. Do you read? I didn't cut it. He doesn't feel well.", []),
        ("It's a new sports bag, a black glass and a few boots. I see a busy crossroads. It's a long ways.", []),
        ("If a stone sinks, a child asks. It's bigger than a hundred houses.", []),
        ("Key: a red boots, b blue hats. Is everybody here? The hats of everybody were red. If nobody were here!", []),
        ("Fish and Chips is a café. The song of Tom and Ana is playing.", []),
        ("Riko and Thembi are washing the plates. Where is Tom?", []),
        ("I cannot stop. You can not only sing but dance.", []),
        ("Say your partner about it. Say your friend what you like.", ["Say", "Say"]),
        ("“Stop!” said my mum when she saw it. “Sit,” said the teacher if they ran. Say your friend's name.", []),
        ("There isn't any more. It isn't big, no. I can't say no.", []),
        ("I don't know, but no dog is here. Never mind, nobody is sad.", []),
        ("Pig runs in the park. He jumps in the box. She runs into the bin.", []),
        ("It's a tail. It's big. I think it's hair.", []),
        ("Can you go to bed? Will they, too?", []),
        ("Let the children to taste it. Let them to choose.", ["to", "to"]),
        ("Let the children go to the board. Let them taste it. Let the class to the door.", []),
        ("It wolfs its dinner. He leafs through it. Two scarfs, three roofs and four safes.", []),
        ("If it were hot, he learned and burned. They walked in the box room.", []),
    ],
)
def test_slips_that_the_checker_lets_pass(text, words):
    assert [text[slip.start : slip.end] for slip in slips_in(text)] == words


@pytest.mark.parametrize(
    ("text", "right"),
    [
        ("I can not swim.", "cannot"),
        ("Can not you see it?", "Cannot"),
        ("I don't want nothing.", "anything"),
        ("We didn't see nobody there.", "anybody"),
        ("It were cold.", "was"),
        ("Everybody were cold.", "was"),
        ("He didn't saw it.", "see"),
        ("She doesn't went there.", "go"),
        ("Riko and Thembi wasn't washing the plates.", "weren't"),
        ("Tom and Ana doesn't sing.", "don't"),
        ("The cat wags it's tail.", "its"),
        ("She put a hat on it's head.", "its"),
        ("The duck looked at it's feet.", "its"),
        ("The hen brushes it's wet feet.", "its"),
        ("The cat runs in the box.", ""),
    ],
)
def test_what_would_be_right_for_a_slip(text, right):
    assert [slip.better for slip in slips_in(text)] == [right]


@pytest.mark.parametrize("text", ["I see it's head.", "I hear it's feet.", "Now it's hair."])
def test_it_is_a_part_of_something_is_no_slip(text):
    assert list(slips_in(text)) == []


def found_in_notes(word: str, *, notes: bool) -> int:
    return found_by_the_speller(f"Use {word} here.", word, notes=notes)


def found_by_the_speller(line: str, word: str, *, notes: bool = False) -> int:
    unit, house = unit_of([line], notes=notes), course()

    def english(passage):
        at = passage.text.find(word)
        return (EnglishMatch(at, at + len(word), "MORFOLOGIK_RULE_EN_GB", "TYPOS", "?", ()),) if at >= 0 else ()

    return len(list(english_error.find(Reading(unit, house, house.levels[0], no_analysis, english))))


@pytest.mark.parametrize("word", ["igh", "ay", "decodable", "reteach"])
def test_teachers_notes_may_have_letters_and_words_of_the_trade(word):
    assert found_in_notes(word, notes=True) == 0
    assert found_in_notes(word, notes=False) == 1


@pytest.mark.parametrize("word", ["teh", "freindly", "childern"])
def test_a_slip_in_teachers_notes_is_no_word_of_the_trade(word):
    assert found_in_notes(word, notes=True) == 1


@pytest.mark.parametrize(
    ("line", "word", "slips"),
    [
        ("Oom-pah, oom-pah! The band plays.", "Oom-pah", 0),
        ("The ice-craem is cold. I like my ice-craem.", "ice-craem", 1),
    ],
)
def test_a_noise_is_cried_again_at_once(line, word, slips):
    assert found_by_the_speller(line, word) == slips


def test_what_the_checker_says_of_a_filled_gap_is_a_note(language):
    page = "1. It is ____ cold here.\n2. We ____ it.\n\n::: answers\n1 to\n2 like\n:::\n"
    files = assemble(Example(page)).files
    rules = [module for module in load_rules() if module.rule.name in ("english-error", "key-makes-bad-english")]
    told = ToldEnglish((("to", "GRAMMAR", "TOO_TO", "Is “too” meant?", "too"),))
    found = run_files(files, rules, language, english=told).findings
    assert [(one.rule, one.text, one.severity) for one in found] == [("key-makes-bad-english", "to", Severity.NOTE)]


def test_a_misspelling_within_a_slip_of_grammar_is_told_too(language):
    spelt = ("notebok", "TYPOS", "MORFOLOGIK_RULE_EN_GB", "Possible spelling mistake found.", "notebook")
    line = Example("The numbers in the notebok was wet.\n", english=(spelt,))
    (rule,) = [module for module in load_rules() if module.rule.name == "english-error"]
    told = {finding.text: finding.severity for finding in run_example(rule, line, load_rules(), language).open}
    assert told == {"notebok": Severity.QUERY, "The numbers in the notebok was": Severity.QUERY}
