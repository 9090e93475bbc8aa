"""Grammar above the children's level, on their page or in what they hear.

A child who meets `Dot has eaten the cake` in its first year understands `cake`, and guesses the rest. A structure is
free once a unit has taught it. Else the band counts that course.yaml gives it (`structures`); else it is above level
when a later level teaches it; else the house table decides, which names a source for each band (the CEFR-J Grammar
Profile, or a house default). Instructions are only asked about, and so is an order to ask or tell somebody (Ask an
adult to cut it). A note is what hardly any author changes: a structure whose band is disputed (once a unit) or one band
up on the house's word alone, and whatever stands in a title or a song.

Read are pages and audio scripts, once an activity for each structure; not word panels, alternative text, greetings and
other set phrases, nor activities whose mistakes are deliberate. Imperatives are free: every instruction is one.
"""

from collections.abc import Iterator

from lint_rules import lazy_re
from lint_rules.finding import Found, Severity
from lint_rules.language.grammar.grammar_levels import Standing, names, standing
from lint_rules.language.vocabulary.reference import is_a
from lint_rules.manuscript.counting import first_words
from lint_rules.page.exercises.edits import filled_ranges
from lint_rules.rule import By, Example, Gather, Limit, Need, Reading, Rule, Within
from lint_rules.tables import words as words_in
from lint_rules.unit_language.grammar_uses import Use, is_carried, is_listed_as_state

_MAYBE = "may be above the level"
_PRE_A1 = "levels: [{cefr: Pre-A1}]"

_ASKED = "rules: {grammar-above-level: stop}\n"

RULE = Rule(
    name="grammar-above-level",
    family="language level",
    severity=Severity.STOP,
    quiet=True,
    cure=(
        "Say it with what children know, let a picture tell it, or move it to a later level. If your children "
        "know it, set its band under `structures` in course.yaml."
    ),
    passes=(
        Example("The wind is blowing. I can see a kite. Have you got a hat?\n", course=_PRE_A1),
        Example("Let's play! How old are you?\n\nThe door is closed. I'm tired.\n", course=_PRE_A1),
        Example("We played in the park.\n", course=_PRE_A1 + "\nstructures: {past-simple: Pre-A1}"),
        Example(
            "---\nlevel: level-1\nunit: 1\ntitle: Example\ngrammar: [past simple]\n---\n\n# Example\n\n"
            "## Lesson 1: Look\n\n### 1 Read. {.story}\n\nThe kite landed in the tree.\n",
            course=_PRE_A1,
            why="the unit teaches it",
        ),
        Example("### 1 Find the mistakes. {.mistakes}\n\nShe has ate the cake.\n", course=_PRE_A1),
        Example(
            "![a cake that somebody has eaten](art/cake.svg){.drawing}\n\n"
            "::: teacher\n**Steps:** Children who have finished can help the others.\n:::\n\n"
            "::: answers\nThe cake was eaten by Dot.\n:::\n",
            course=_PRE_A1,
            why="not for children",
        ),
        Example("1. put, cut, read\n2. won\n", course=_PRE_A1, why="words, no sentences"),
        Example("May is my sister. Will is my brother.\n", course=_PRE_A1, why="names"),
        Example("Why? Because it's full of fish!\n", why="an answer: nothing to cut"),
    ),
    fails=(
        Example("Look! Dot «has eaten» the cake!\n", course=_PRE_A1),
        Example(
            "We «were playing» in the park.\n\nIt was sunny. The birds were singing.\n",
            why="once an activity for each structure",
        ),
        Example("The kite «was broken» by the dog.\n", words="broken,adjective,,1\n", why="no state"),
        Example("::: {.audio track=1.1}\nMINA: The castle «was built» by a king.\n:::\n"),
        Example(
            "### 1 Colour the fish «that has three fins». {.reading}\n",
            why="an instruction: noted",
            course=_ASKED,
            weight=Severity.NOTE,
        ),
        Example(
            "I like kites «because they fly».\n", why="sources disagree: noted", course=_ASKED, weight=Severity.NOTE
        ),
        Example(
            "## Lesson 1: The dog «that runs away» {.words}\n\n### 1 Look. {.reading}\n\nA dog.\n",
            course=_PRE_A1 + "\n" + _ASKED,
            why="a title: noted",
            weight=Severity.NOTE,
        ),
        Example(
            "### 1 Sing. {.song}\n\nThe wind «has gone»,\nthe sun is out\n",
            course=_ASKED,
            weight=Severity.NOTE,
            why="a song",
        ),
        Example("He «is exasperated» today.\n", course=_ASKED, weight=Severity.NOTE, why="it may say how he is"),
        Example("The hat «is made» of wool.\n", course=_ASKED, weight=Severity.NOTE, why="what it is of: a set phrase"),
        Example("Grandad Luc «is bewildered».\n", course=_ASKED, weight=Severity.NOTE, why="a verb of feeling"),
        Example("The people «are bewildered».\n", course=_ASKED, weight=Severity.NOTE, why="a verb of feeling"),
        Example(
            "We go out «to play» in the park.\n",
            course=_ASKED,
            weight=Severity.NOTE,
            why="one band up by the house's word",
        ),
        Example("«Ask an adult to cut» the cake.\n", course=_ASKED, weight=Severity.NOTE, why="an order: noted"),
        Example("She «has got» a bike.\n", course="structures: {have-got: A2}"),
    ),
    needs=frozenset({Need.LANGUAGE}),
    limits=(
        Limit(
            "levels of the structures that no unit teaches",
            "CEFR-J Grammar Profile, version 20180315; else house default",
        ),
        Limit("which unit teaches a structure", "the `grammar` labels of the units' front matter"),
    ),
    gathers=(
        Gather(
            Within.UNIT,
            By.ABOUT,
            "{count} structures of this unit may be above the level: {words}. Say them more plainly, or list those "
            "that children know under `structures` in course.yaml.",
            only=_MAYBE,
        ),
        Gather(Within.UNIT, By.KEY),
    ),
)


def find(reading: Reading) -> Iterator[Found]:
    """Report structures above the level, once an activity; disputed ones once a unit."""
    disputed: dict[str, list[Use]] = {}
    for place in reading.grammar:
        above: dict[str, list[Use]] = {}
        for use in place.uses:
            where = _standing(reading, use)
            if (
                where is None
                or _answers_why(use)
                or is_listed_as_state(use, reading.course.words)
                or is_carried(use, lambda name: _is_free(reading, name))
            ):
                continue
            (disputed if where.disputed else above).setdefault(use.structure.name, []).append(use)
        every = [use for uses in above.values() for use in uses]
        for uses in above.values():
            own = [use for use in uses if not any(_is_within(use, other) for other in every)]
            if own:
                yield _found(reading, own, "in this activity")
    for uses in disputed.values():
        yield _found(reading, uses, "in this unit")


def _is_within(use: Use, other: Use) -> bool:
    """Say whether the words of a structure are among those of another, so that one sentence mends both: has been eaten
    is a passive and a present perfect. Of two with the same words the first by name stays."""
    if use.passage is not other.passage or use.structure.name == other.structure.name:
        return False
    own, wide = (use.structure.start, use.structure.end), (other.structure.start, other.structure.end)
    covered = wide[0] <= own[0] and own[1] <= wide[1]
    return covered and (own != wide or use.structure.name > other.structure.name)


def _answers_why(use: Use) -> bool:
    """Say whether a clause with because is all that its sentence says, as children answer: Because it's full!"""
    before, after = use.passage.text[: use.structure.start].rstrip(), use.passage.text[use.structure.end :].lstrip()
    alone = (not before or before[-1] in ".!?:\"“'‘") and after[:1] in (".", "!", "")
    return use.structure.name == "because-clause" and alone


def _standing(reading: Reading, use: Use) -> Standing | None:
    """Where a structure stands, unless it is free or of a later unit of this level (a rule of its own)."""
    where = standing(use.structure.name, reading.course, reading.level, reading.unit.front.unit, use.shown)
    return None if where is not None and where.same_level else where


def _is_free(reading: Reading, name: str) -> bool:
    return standing(name, reading.course, reading.level, reading.unit.front.unit) is None


def _found(reading: Reading, uses: list[Use], where: str) -> Found:
    """The finding at the first use that is no instruction, or else at the first."""
    use = next((use for use in uses if not _is_lenient(use)), uses[0])
    name = use.structure.name
    stands = _standing(reading, use)
    assert stands is not None
    severity = _severity(use, stands)
    often = f", {len(uses)} times {where}" if len(uses) > 1 else ""
    instead = "A plainer title would be understood." if use.in_title else names()[name].instead
    message = f"“{first_words(use.text)}” ({names()[name].called}{often}) {_why(reading, stands)}. "
    message += _settle(instead, name, stands) if stands.disputed else instead
    span = use.passage.span(use.structure.start, use.structure.end)
    about = _MAYBE if severity is Severity.NOTE else ""
    return Found(span, use.text, message, severity, key=name, about=about)


# What is easily taken for it: is made of wool, was soaked, I know his song. Of thirteen stops that judges saw on fresh
# courses two were thanked for; of the other structures 58 of 65 were.
_EASILY_TAKEN_FOR = frozenset({"passive", "relative-clause", "object-to-infinitive"})
_ASKING = lazy_re.compile(r"[A-Z]|(?:help|ask|tell|told|want|teach|taught)")  # whom children ask and tell is told early


def _is_lenient(use: Use) -> bool:
    """Instructions, titles and songs stop nobody."""
    return use.in_instruction or use.in_title or use.sung


def _may_be_a_state(use: Use) -> bool:
    """Whether a passive may only say how somebody is: She is exasperated; not: It was built by a king."""
    words = use.text.casefold().split()
    before, behind = use.passage.text[: use.structure.start].split(), use.passage.text[use.structure.end :].split()
    if words[-1] == "made" and behind[:1] == ["of"]:
        return use.structure.name == "passive"  # a set phrase: He is made of wool
    somebody = bool(before) and (before[-1][:1].isupper() or before[-1] in ("he", "she", "they", "we", "you"))
    somebody = somebody or words[-1] in words_in("states")  # only somebody is bewildered: the people are
    # No verb that anybody uses: the lift is dilapidated.
    somebody = somebody or not any(is_a(words[-1][:-end], "VERB") for end in (1, 2, 3))
    known = len(words) == 2 and (is_a(words[1], "ADJ") or words[1] in words_in("states"))
    is_state = known and words[0] in ("is", "are", "am", "was", "were") and words[1].endswith("ed")
    return use.structure.name == "passive" and is_state and somebody and behind[:1] != ["by"]


def _severity(use: Use, stands: Standing) -> Severity | None:
    """How much a structure weighs: what a source or the course says, in a text, stops, or is asked about where it is
    easily mistaken, or stands there only as the key fills it in; all else is noted: what is disputed, unsure or one
    band up by the house's word alone, sung, in a title or an instruction, or what children ask somebody to do. On
    judged courses two of some forty such points were thanked for."""
    if stands.disputed or not stands.sourced or use.in_title or use.sung or _may_be_a_state(use):
        return Severity.NOTE
    # Ask an adult to cut it. It helps you to see. Don't ask her to change it!
    asked = use.structure.name == "object-to-infinitive" and _ASKING.match(use.text) is not None
    if not stands.certain or use.in_instruction or asked:
        return Severity.NOTE
    if any(start < use.structure.end and use.structure.start < end for start, end in filled_ranges(use.passage)):
        return Severity.QUERY  # as the key fills it, if that is read as it is meant
    by_somebody = use.passage.text[use.structure.end :].split()[:1] == ["by"]  # The hat was eaten by Gus: surely one
    return Severity.QUERY if use.structure.name in _EASILY_TAKEN_FOR and not by_somebody else None


def _why(reading: Reading, stands: Standing) -> str:
    level = reading.level
    if stands.later is not None:
        teaching = reading.course.levels[stands.later.level]
        return f"is taught in {teaching.name} unit {stands.later.unit}, and this is {level.name}"
    if stands.disputed:
        return f"may be {stands.higher}, and {level.name} is {level.cefr}"
    band = f"{stands.band} or {stands.higher}" if stands.higher else stands.band
    return f"belongs to {band}, and {level.name} is {level.cefr}"


def _settle(instead: str, name: str, stands: Standing) -> str:
    short = instead.partition(" (")[0].partition(",")[0].rstrip(".") or "Say it otherwise"
    return f"{short}, or set `structures: {{{name}: {stands.band}}}` in course.yaml if children know it."
