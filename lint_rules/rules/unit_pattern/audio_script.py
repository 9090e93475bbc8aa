"""A listening activity without a script, a script that nobody plays or that leaves somebody out, a track with two.

The recording studio records what the scripts say and nothing else: a script that is missing is found out in the studio,
at the studio's price, and a track with two scripts, a number that nobody speaks (three, five), or somebody whom an item
asks about and the script forgets, in the classroom. An activity plays the tracks that its heading names (`audio=4.1`),
or the script that stands in it. Where the teacher calls the words (a game, a dictation, notes that say what is called
out) there is nothing to record.
"""

import re
from collections import Counter
from collections.abc import Iterator

from lint_rules import lazy_re
from lint_rules.finding import Found, Severity
from lint_rules.manuscript.model import Activity, Audience, Role
from lint_rules.page.audio import Script, is_own_track, scripts_of, tracks_played
from lint_rules.page.cross_references import references_in
from lint_rules.page.exercises.unheard import never_heard
from lint_rules.page.heard_numbers import letter_left_out, number_left_out
from lint_rules.page.number_words import in_words
from lint_rules.rule import Book, By, Example, Gather, Reading, Rule, Within
from lint_rules.source import Span

_SCRIPT = "::: {.audio track=1.1}\nMILO: A kite!\n:::\n"


def _numbered(*turns: str) -> str:
    spoken = "\n\n".join(f"MILO: {turn}" for turn in turns)
    return f"### 1 Listen. {{.listening audio=1.1}}\n\n::: {{.audio track=1.1}}\n{spoken}\n:::\n"


def _asked(turns: str) -> str:
    items = "1. Fen has ____ .\n2. Ilo has ____ .\n3. Pia has ____ .\n4. Mr Tock has ____ .\n"
    key = "::: answers\n1 a bell. 2 a hat. 3 a kite. 4 a drum.\n:::\n"
    script = f"::: {{.audio track=1.1}}\nFEN: I have a bell. Ilo has a hat.\n\nPIA: I have a kite.\n{turns}:::\n"
    return f"### 1 Listen and write. {{.listening audio=1.1}}\n\n{items}\n{script}\n{key}"


_PEOPLE = "characters: [Fen, Ilo, Pia, Mr Tock]"


def _unit(number: int, track: str, opening: str = "") -> str:
    opening = opening or f"::: {{.audio track={track}}}"
    return (
        f"---\nlevel: level-1\nunit: {number}\ntitle: Kites\n---\n\n# Kites\n\n## Look {{.words}}\n\n"
        f"### 1 Listen. {{.listening audio={track}}}\n\n{opening}\nMILO: A kite!\n:::\n"
    )


def _where(last: str) -> str:
    """A task that asks where four things are."""
    items = "".join(
        f"{number}. {thing} ____\n" for number, thing in enumerate(("the train", "the doll", "the kite", last), 1)
    )
    return (
        f"### 1 Listen. Write the letter. {{.listening audio=1.1}}\n\n{items}\n::: answers\n1 b; 2 c; 3 d; 4 a\n:::\n\n"
    )


_SAID_WHERE = (
    "::: {.audio track=1.1}\nMILO: The train is on the bed. The doll is in the box. The kite is here, and a ball is "
    "there.\n:::\n"
)


RULE = Rule(
    name="audio-script",
    family="unit pattern",
    severity=Severity.QUERY,
    cure=(
        "Write what is heard between `::: {.audio track=…}` and `:::`, and name the track in the activity "
        "that plays it. Give each track of a level a number of its own."
    ),
    passes=(
        Example("### 1 Listen. {.listening audio=1.1}\n\n" + _SCRIPT),
        Example("### 1 Listen. {.listening audio=1.1}\n\n### 2 Listen again. {.listening audio=1.1}\n\n" + _SCRIPT),
        Example("### 1 Listen. {.listening}\n\n::: audio\nMILO: A kite!\n:::\n", why="the script stands in it"),
        Example("### 1 Read. {.reading}\n\nA kite!\n"),
        Example(_where("the balls") + _SAID_WHERE, why="each item is heard, in some form"),
        Example("### 1 Play: Touch red! {.game .listening}\n", why="the teacher calls"),
        Example("### 1 Tell a friend about it. {.speaking .listening}\n", why="children listen to each other"),
        Example("### 1 Listen to another group. {.listening}\n", why="they listen to friends"),
        Example(
            "### 1 Close your eyes and listen. {.listening}\n\n::: teacher\n**Steps:** One child pours, and the others "
            "listen.\n:::\n",
            why="it sounds in the room",
        ),
        Example(
            "### 1 Listen. {.listening audio=1.1}\n\n::: {.audio track=1.1}\nFEN: Number 1. A cat.\n\nFEN: Hello! "
            "Number 2. A dog.\n\nFEN: Number 3. A hen.\n\nFEN: Number 4. A bee.\n:::\n",
            why="number two follows a greeting",
        ),
        Example("### 1 Write. {.listening}\n\n::: teacher\n**Steps:** Read out each sentence twice.\n:::\n"),
        Example(
            "### 1 Listen. {.listening audio=1.1}\n\n" + _SCRIPT + "\n### 2 Listen again. {.listening}\n\nA kite!\n\n"
            "::: teacher\n**Steps:** Play track 1.1 again.\n:::\n"
        ),
        Example("### 1 Sing. {.song audio=1.1}\n\nA kite!\n\n" + _SCRIPT),
        Example(_numbered("One. A kite.", "Two. A hat.", "Three. A dog.", "Four. A hen.")),
        Example(_numbered("One. A kite.", "Two. A hat.", "Three. A dog.", "OK, four. A hen.", "Five. A bee.")),
        Example(_numbered("One!", "Two!", "Three!", "Five!", "No, four!"), why="somebody counts"),
        Example(_numbered("One. A kite.", "Two. A hat. Three.", "A dog.", "Four. A hen.", "Five. A bee.")),
        Example(_numbered("One. A kite.", "Two. Can you see three hens? Five. Five hens!"), why="no series"),
        Example(_asked("\nMR TOCK: Me? A drum.\n"), course=_PEOPLE),
        Example(_asked("\nFEN: And the old man? Look, a drum!\n"), why="nobody knows Mr Tock by name"),
        Example(
            _asked("").replace("\n::: {", "\nMr Tock has a drum. We all know that.\n\n::: {"),
            course=_PEOPLE,
            why="the page says it",
        ),
    ),
    fails=(
        Example("### 1 «Listen.» {.listening audio=1.2}\n\n«::: {.audio track=1.1}»\nMILO: A kite!\n:::\n"),
        Example("### 1 «Listen.» {.listening}\n\nA kite!\n", weight=Severity.NOTE),
        Example("### 1 «Say what you hear.» {.listening}\n\nA kite!\n", weight=Severity.NOTE),
        Example("### 1 «Do the test.» {.test .listening}\n\nA kite!\n", weight=Severity.NOTE),
        Example(
            "### 1 «Listen.» {.listening}\n\nA kite!\n\n"
            "::: teacher\n**Steps:** Play the recording twice. Read out the answers.\n:::\n",
            why="a recording, and no script",
            weight=Severity.NOTE,
        ),
        Example(_where("the «drum»") + _SAID_WHERE, why="each item is a thing, and one is never heard"),
        Example("### 1 «Sing.» {.song audio=1.3}\n\nA kite!\n"),
        Example(
            _numbered("Number one. A kite.", "Number two. A hat.", "Number three.", "A dog.", "«Number five». A hen.")
        ),
        Example(_numbered("One. A kite.", "Two. A hat.", "Three. A dog.", "«Five». A hen.")),
        Example(_asked("").replace("4. Mr Tock", "4. Mr «Tock»"), course=_PEOPLE, why="he neither speaks nor is named"),
        Example(_numbered("Number one. A kite. Number two. A hat. Number three. A dog. «Number five». A hen.")),
        Example(_numbered("a. A kite.", "b. A hat.", "c. A dog.", "«e». A hen.")),
        Example(
            "### 1 Listen. {.listening audio=1.1}\n\n" + _SCRIPT + "\n«::: {.audio track=1.1}»\nMILO: A hat!\n:::\n",
            why="the track stands twice",
        ),
        Example("### 1 «Listen.» {.listening audio=1.1}\n\n::: {.audio track=1.1}\n:::\n", why="an empty script"),
        Example(
            "### 1 «Sing.» {.song audio=1.1}\n\n::: {.audio track=1.1}\nALL: (The song as printed.)\n:::\n",
            why="a placeholder is no script",
        ),
        Example(
            "### 1 «Sing.» {.song audio=1.1}\n\nA kite!\n\n::: {.audio track=1.1}\nALL: (The song as printed.)\n:::\n",
            why="nor where the page has the words: a note",
            weight=Severity.NOTE,
        ),
        Example(
            _unit(1, "1.1"),
            others=(_unit(2, "1.1", "«::: {.audio track=1.1}»"),),
            why="the track stands twice in the level",
        ),
        Example(
            "### 1 «Listen.» {.listening audio=2.7}\n\nA kite!\n", why="unit 2's by its number, and no unit has it"
        ),
    ),
    gathers=(Gather(Within.UNIT, By.KEY),),
)


# Who speaks, in the notes of an activity: the teacher (Call a colour; Read each sentence) or a recording.
_CALLS = lazy_re.compile(
    r"(?:^|[.:;!?*)]|\b(?:and|then|you|teacher|t|leader|child|caller))\s*(?:\d+[.)]\s*)?"
    r"(?:(?:calls?|says?|tells?|shouts?|whispers?|describes?|dictates?|spells?)\b"
    r"|reads?\s*:|(?:reads?|names?|gives?)\b[^.!?]{0,60}\b(?:out|aloud|each|one by one|twice|three times|orders))",
    re.I,
)
_RECORDED = lazy_re.compile(
    r"\b(?:recordings?|tracks?|audio|CD|play (?:it|the \w+ )?(?:once|twice|again|three times))\b", re.I
)
# What children say themselves, and the class listens: Say the chant in two groups; not Say what you hear.
_SAID = lazy_re.compile(r"(?:say|ask|tell|talk|act|show)\b(?!.*\b(?:listen|hear|recording|audio|track)\b)", re.I)
# Whom children listen to in the room, and what sounds there.
_IN_THE_ROOM = lazy_re.compile(
    r"\blisten to (?:your|the|a|an|another|each|one another|the other)\b ?(?:other )?"
    r"(?:friends?|partners?|groups?|pairs?|teachers?|class(?:mates?)?|team|pupils?|other)\b",
    re.I,
)
_SOUNDS = lazy_re.compile(
    r"\b(?:pours?|knocks?|shakes?|taps?|drops?|claps?|rings?"
    r"|plays? (?:the|an?|their) (?:drums?|bells?|instruments?|notes?|sounds?))\b"
    r"[^.!?]*\b(?:listens?|eyes (?:shut|closed)|guess(?:es)?|hears?)\b",
    re.I,
)
_TEXT = frozenset({Role.TEXT, Role.LINE, Role.TURN, Role.CAPTION, Role.CELL, Role.ITEM})


def find(reading: Reading) -> Iterator[Found]:
    """Report what one unit shows: missing, unused and doubled scripts."""
    unit = reading.unit
    scripts = list(scripts_of(unit))
    full = {script.track for script in scripts if not script.empty}
    for activity in unit.activities:
        yield from _activity(activity, scripts, full, unit.front.unit)
    for script in scripts:
        yield from _numbers(reading, script)
    yield from _unheard(reading)
    counts: Counter[str] = Counter()
    for script in scripts:
        counts[script.track] += bool(script.track)
        if counts[script.track] > 1:
            yield _script(
                reading, script, f"Track {script.track} has a script already in this unit. Number this one anew."
            )
        elif not _is_played(script, unit.activities):
            which = f"track {script.track}" if script.track else "this script"
            yield _script(
                reading,
                script,
                f"No activity plays {which}. Name it where it is played (audio={script.track or 'TRACK'} in the "
                "instruction's braces), or take the script out.",
            )


def find_in_book(book: Book) -> Iterator[Found]:
    """Report tracks with scripts in two units of a level, at the later one, and tracks that no unit has."""
    for level in book.course.levels:
        seen: dict[str, int] = {}
        units = [unit for unit in book.units if unit.level == level.index]
        for unit in units:
            for track, spot in unit.scripts:
                if seen.setdefault(track, unit.unit) != unit.unit:
                    message = (
                        f"Track {track} stands in unit {seen[track]} of {level.name} too. Give each script of a level "
                        "a number of its own."
                    )
                    yield Found(Span(spot.start, spot.end), spot.text, message, path=unit.path, key=track)
        for unit in units:
            for track, spot in unit.tracks_elsewhere:
                if track not in seen:
                    message = f"No unit of {level.name} has a script for track {track}."
                    yield Found(Span(spot.start, spot.end), spot.text, message, path=unit.path, key=track)


def _activity(activity: Activity, scripts: list[Script], full: set[str], unit: int) -> Iterator[Found]:
    heading = activity.heading.passage
    tracks = tracks_played(activity)
    for track in tracks:
        if track not in full and is_own_track(track, unit):
            empty = [script for script in scripts if script.track == track]
            message = (
                f"The script of track {track} does not say what is heard. Write the words that the studio records."
                if empty
                else f"Track {track}, which this activity plays, has no script in this unit. "
                f"Add one: ::: {{.audio track={track}}}."
            )
            on_page = any(script.elsewhere for script in empty) and _has_text(activity)
            yield Found(heading.span(), heading.text, message, Severity.NOTE if on_page else None, key=track)
    if "listening" in activity.kinds and not tracks and not _is_called(activity) and not _names_track(activity):
        own = [script for script in scripts if script.activity is activity]
        if not any(not script.empty for script in own):
            message = "Children listen here, but there is no script. Add what they hear, between ::: audio and :::."
            # Six of seven that judges saw had their script, in a place or under a name that was not read as one.
            yield Found(heading.span(), heading.text, message, Severity.NOTE)


def _numbers(reading: Reading, script: Script) -> Iterator[Found]:
    """A script that goes from three to five."""
    own = [one for one in reading.unit.passages if one.div is not None and reading.unit.divs[one.div] is script.div]
    heard = [one for one in own if one.audience is Audience.LISTENER]
    lettered = letter_left_out(heard)
    if lettered is not None:
        letter, passage, start, end = lettered
        before, behind_it = chr(ord(letter) - 1), chr(ord(letter) + 1)
        message = (
            f"The script goes from {before} to {behind_it}. Write what is heard as {letter}, or letter the parts anew."
        )
        yield Found(passage.span(start, end), passage.text[start:end], message, key=script.track)
    left_out = number_left_out(heard)
    if left_out is not None:
        number, behind = left_out
        message = (
            f"The script goes from {in_words(number - 1)} to {in_words(number + 1)}. Write what is heard as number "
            f"{in_words(number)}, or number the parts anew."
        )
        span = behind.passage.span(behind.start, behind.end)
        yield Found(span, behind.passage.text[behind.start : behind.end], message, key=script.track)


def _unheard(reading: Reading) -> Iterator[Found]:
    """An item about somebody of whom the script says nothing, where it speaks of all the others."""
    for read in reading.readings.exercises:
        name = never_heard(read, reading.unit, reading.course.names)
        if name is not None:
            message = (
                f"The script says nothing of “{name.text}”, and it speaks of all the others that the items name. "
                "Add what is heard, or take the item out."
            )
            yield Found(name.span, name.text, message)


def _names_track(activity: Activity) -> bool:
    """Say whether the notes say which track is played again: broken-reference looks whether it is there."""
    notes = (p.text for p in activity.part.passages if p.audience is Audience.TEACHER)
    return any(one.kind == "track" for text in notes for one in references_in(text))


def _is_called(activity: Activity) -> bool:
    """Say whether the teacher says what children listen to: in a game, or where the notes tell what to call."""
    notes = ". ".join(p.text for p in activity.part.passages if p.audience is Audience.TEACHER)
    if _RECORDED.search(notes):
        return False
    heading = activity.heading.passage.text
    to_each_other = _SAID.match(heading) is not None
    dictated = "dictation" in heading.casefold()
    in_the_room = _IN_THE_ROOM.search(heading) is not None or _SOUNDS.search(notes) is not None
    called = "game" in activity.kinds or _CALLS.search(notes) is not None
    return to_each_other or dictated or in_the_room or called


def _has_text(activity: Activity) -> bool:
    """Say whether the page of an activity has a text that a placeholder may mean."""
    return any(p.audience is Audience.PUPIL and p.role in _TEXT for p in activity.part.passages)


def _is_played(script: Script, activities: Iterator[Activity]) -> bool:
    """A script is played by an activity that names its track, or by a listening activity around it that names none."""
    around = script.activity
    if around is not None and not tracks_played(around):
        return True
    return bool(script.track) and any(script.track in tracks_played(activity) for activity in activities)


def _script(reading: Reading, script: Script, message: str) -> Found:
    span = script.div.opening
    return Found(span, reading.unit.source.slice(span), message, key=script.track)
