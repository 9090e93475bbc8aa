"""From course.yaml and its word lists to a course: everything that is wrong is said at once, each with its place."""

import posixpath
import re
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field, replace

from ruamel.yaml.nodes import MappingNode, Node, ScalarNode, SequenceNode

from lint_rules import __version__
from lint_rules.course.defaults import (
    LEVEL_BANDS,
    default_limits,
    default_list,
    default_number,
    default_range,
    default_text,
)
from lint_rules.course.model import ACTIVITY_KINDS, CEFR_BANDS, Course, Level, UnitPlan, WordEntry, band_rank
from lint_rules.course.nodes import Entry, NodeReader, one_of
from lint_rules.course.problem import CourseProblem, did_you_mean, nearest
from lint_rules.course.required_notes import read_required_notes
from lint_rules.course.test_skills import default_skills, read_skills
from lint_rules.course.versions import CURRENT, FIRST, adopts, version_parts
from lint_rules.course.word_list import parted, read_word_list
from lint_rules.manuscript.front_matter import read_front_matter
from lint_rules.source import Source

Load = Callable[[str], "Source | CourseProblem"]
LabelReader = Callable[[str], tuple[str, ...]]

# Varieties of English: a language tag and a region (RFC 5646; the regions are ISO 3166-1 codes of places where courses
# are published in a variety of their own; the choice is from memory).
_REGIONS = ("AU", "CA", "GB", "HK", "IE", "IN", "JM", "KE", "MT", "NG", "NZ", "PH", "PK", "SG", "US", "ZA")
VARIETIES = tuple(f"en-{region}" for region in _REGIONS)
_OTHER_NAMES = {"en-uk": "en-GB", "uk": "en-GB", "british": "en-GB", "us": "en-US", "american": "en-US"}
_OFF_LIST = ("stop", "query", "note", "picture")
_ART = ("briefs", "files")
_SEVERITIES = ("stop", "query", "note", "off")

_NUMBERS = {"units": (1, 200), "recycle": (0, 50)}  # key: least, most
_HOURS = (1, 2000)  # least, most
_GROUPS = {
    "instruction": {"words": (1, 100), "steps": (1, 20)},
    "sentence": {"words": (1, 100)},
    "text": {"words": (1, 5000)},
}
_LIMITS = ("instruction_words", "instruction_steps", "sentence_words", "text_words", "recycle")  # of model.Limits
_FIGURES = ("hours", *_NUMBERS, *_GROUPS, "lesson_minutes", "unit_pattern", "every_unit", "test_skills")
_LEVEL_ONLY = ("name", "cefr", "words")
_COURSE_LISTS = ("characters", "places", "known", "instruction_words", "note_fields", "markets", "sensitive_off")
_COURSE_CHOICES = ("off_list", "art")
_COURSE_ONLY = (
    *("title", "variety", "ages", *_COURSE_LISTS, *_COURSE_CHOICES, "levels"),
    *("adopted", "rules", "structures", "survey", "required_notes"),
)
_OF_LEVEL = {key: f"'{key}' belongs to a level: write it under `levels`." for key in _LEVEL_ONLY}
_OF_COURSE = {
    key: f"'{key}' belongs to the whole course, not to a level: start it in the first column." for key in _COURSE_ONLY
}
_SMALLEST = "title: My course / levels: / - name: level-1 / cefr: A1"


@dataclass
class _Figures:
    """What course.yaml says of a level, or of all levels: only what is written there."""

    numbers: dict[str, int] = field(default_factory=dict)
    hours: float | None = None
    minutes: tuple[int, int] | None = None
    lists: dict[str, tuple[str, ...]] = field(default_factory=dict)
    skills: tuple[tuple[str, ...], ...] | None = None

    def over(self, other: "_Figures") -> "_Figures":
        """These figures, and the other's where these say nothing."""
        return _Figures(
            other.numbers | self.numbers,
            other.hours if self.hours is None else self.hours,
            self.minutes or other.minutes,
            other.lists | self.lists,
            other.skills if self.skills is None else self.skills,
        )


@dataclass
class _CourseReader:
    nodes: NodeReader
    load: Load
    rule_names: Sequence[str]
    structure_names: Sequence[str]
    read_label: LabelReader
    list_problems: list[CourseProblem] = field(default_factory=list)

    def course(self, root: Node) -> Course | None:
        entries = self.nodes.mapping(root, "the course", {*_COURSE_ONLY, *_FIGURES}, _OF_LEVEL)
        if not isinstance(root, MappingNode):
            return None
        self.require(root, entries, "title", "a course needs a title: `title: …`")
        self.require(root, entries, "levels", "a course needs at least one level: `levels:` and under it `- name: …`")
        shared = self.figures(entries)
        levels, rows = self.levels(entries["levels"], shared) if "levels" in entries else ((), ())
        words, brought = parted(rows)
        lists = {key: self.nodes.texts(entries[key][1], key) or () for key in _COURSE_LISTS if key in entries}
        survey = self.group(entries["survey"], {"classmates": (1, 100)}) if "survey" in entries else {}
        band = levels[0].cefr if levels else LEVEL_BANDS[0]
        course = Course(
            title=(self.nodes.text(entries["title"][1], "title") or "") if "title" in entries else "",
            variety=self.variety(entries.get("variety")) or default_text("variety", band),
            ages=self.ages(entries.get("ages")) or default_range("ages", band),
            characters=lists.get("characters", ()),
            known=(*lists.get("known", ()), *brought),
            places=lists.get("places", ()),
            levels=levels,
            words=words,
            rules=self.rules(entries["rules"]) if "rules" in entries else {},
            structures=self.structures(entries["structures"]) if "structures" in entries else {},
            off_list=self.choice(entries.get("off_list"), _OFF_LIST) or default_text("off_list", band),
            instruction_words=lists.get("instruction_words", ()),
            note_fields=lists.get("note_fields", ()),
            markets=lists.get("markets", ()),
            sensitive_off=lists.get("sensitive_off", ()),
            survey_classmates=survey.get("survey_classmates") or default_number("survey.classmates", band),
            adopted=self.adopted(entries.get("adopted")) or FIRST,
            art=self.choice(entries.get("art"), _ART) or default_text("art", band),
            required_notes=read_required_notes(
                self.nodes, entries.get("required_notes"), band, lists.get("note_fields", ())
            ),
        )
        return course if levels else None

    def require(self, node: Node, entries: dict[str, Entry], key: str, message: str) -> None:
        """Say what is missing: at its key when that stands there with nothing after it, else where the keys start."""
        if key in entries or not isinstance(node, MappingNode):
            return
        keys = [k for k, _ in node.value if isinstance(k, ScalarNode)]
        if not any(nearest(k.value, [key]) and k.value != key for k in keys):  # else the near miss was said already
            self.nodes.say(next((k for k in keys if k.value == key), node), f"{message[0].upper()}{message[1:]}.")

    # --- levels -----------------------------------------------------------------------------------------------------

    def levels(self, entry: Entry, shared: _Figures) -> tuple[tuple[Level, ...], tuple[WordEntry, ...]]:
        levels: list[Level] = []
        words: list[WordEntry] = []
        items = self.nodes.items(entry[1], "levels", "`levels:` and under it `- name: level-1`")
        if isinstance(entry[1], SequenceNode) and not items:
            self.nodes.say(entry[1], "A course needs at least one level.")
        for item in items:
            level, entries = self.level(item, levels, shared)
            levels.append(level)
            words.extend(entries)
        return tuple(levels), tuple(words)

    def level(self, node: Node, before: list[Level], shared: _Figures) -> tuple[Level, tuple[WordEntry, ...]]:
        entries = self.nodes.mapping(node, "a level", {*_LEVEL_ONLY, *_FIGURES}, _OF_COURSE)
        self.require(node, entries, "name", "this level needs a name, which is also its folder: `name: level-1`")
        self.require(node, entries, "cefr", f"this level needs its CEFR band: `cefr:` {one_of(LEVEL_BANDS)}")
        name = self.level_name(entries.get("name"), before) or f"level-{len(before) + 1}"
        band = self.band(entries.get("cefr"), before) or (before[-1].cefr if before else "A1")
        figures = self.figures(entries).over(shared)
        numbers = figures.numbers
        units = numbers.get("units", default_number("units", band))
        words_path, words = self.words(entries.get("words"), len(before), name, units)
        level = Level(
            index=len(before),
            name=name,
            cefr=band,
            words_path=words_path,
            hours=default_number("hours", band) if figures.hours is None else figures.hours,
            units=units,
            limits=replace(
                default_limits(band),
                lesson_minutes=figures.minutes or default_range("lesson_minutes", band),
                **{name: number for name, number in numbers.items() if name in _LIMITS},
            ),
            unit_pattern=figures.lists.get("unit_pattern", default_list("unit_pattern", band)),
            every_unit=figures.lists.get("every_unit", default_list("every_unit", band)),
            test_skills=default_skills(band) if figures.skills is None else figures.skills,
            hours_of_course=figures.hours is not None,
        )
        return level, words

    def level_name(self, entry: Entry | None, before: list[Level]) -> str | None:
        if entry is None or (name := self.nodes.text(entry[1], "name")) is None:
            return None
        if re.search(r'[/\\:*?"<>|]', name) or name.strip(". ") != name:
            self.nodes.say(entry[1], f"'{name}' cannot be a level's name: it is also the name of its folder.")
            return None
        if any(name.casefold() == level.name.casefold() for level in before):
            self.nodes.say(entry[1], f"There is a level '{name}' already; each needs a name and a folder of its own.")
        return name

    def band(self, entry: Entry | None, before: list[Level]) -> str | None:
        if entry is None or (band := self.nodes.choice(entry[1], "cefr", LEVEL_BANDS)) is None:
            return None
        if before and band_rank(band) < band_rank(before[-1].cefr):
            self.nodes.say(
                entry[1],
                f"Levels stand in teaching order, but this one is {band} and the one before it {before[-1].cefr}.",
            )
        return band

    def words(self, entry: Entry | None, index: int, name: str, units: int) -> tuple[str, tuple[WordEntry, ...]]:
        """A level's list: where it is, and what is in it. A list that nobody named need not be there."""
        written = self.nodes.text(entry[1], "words") if entry else f"words/{name}.csv"
        if written is None or (entry and not self.inside(entry[1], written)):
            return "", ()
        path = posixpath.normpath(written)
        source = self.load(path)
        if isinstance(source, Source):
            words, problems = read_word_list(source, level=index, level_name=name, units=units)
            self.list_problems.extend(problems)
            return path, words
        if source.line:
            self.list_problems.append(source)
        elif entry:
            self.nodes.say(entry[1], source.message)
        return (path if entry else ""), ()

    def inside(self, node: Node, path: str) -> bool:
        if "\\" in path:
            self.nodes.say(node, f"Write the list's path with `/`: {path.replace(chr(92), '/')}.")
        elif path.startswith("/") or ":" in path or posixpath.normpath(path).split("/")[0] == "..":
            self.nodes.say(node, "A word list must be inside the course's folder: write its path from there.")
        else:
            return True
        return False

    # --- figures, for a level or for all of them --------------------------------------------------------------------

    def figures(self, entries: dict[str, Entry]) -> _Figures:
        found = _Figures()
        if "hours" in entries:
            found.hours = self.nodes.hours(entries["hours"][1], "hours", *_HOURS)
        for key, (least, most) in _NUMBERS.items():
            number = self.nodes.integer(entries[key][1], key, least, most) if key in entries else None
            if number is not None:
                found.numbers[key] = number
        for key, limits in _GROUPS.items():
            if key in entries:
                found.numbers |= self.group(entries[key], limits)
        for key, look in (("unit_pattern", self.pattern_name), ("every_unit", self.kind_name)):
            if key in entries and isinstance(entries[key][1], SequenceNode):
                names = (look(item, key) for item in entries[key][1].value)
                found.lists[key] = tuple(name for name in names if name is not None)
            elif key in entries:
                self.nodes.texts(entries[key][1], key)
        if "lesson_minutes" in entries:
            found.minutes = self.nodes.range(entries["lesson_minutes"][1], "lesson_minutes", 5, 240, "[35, 45]")
        if "test_skills" in entries:
            found.skills = read_skills(self.nodes, entries["test_skills"][1])
        return found

    def group(self, entry: Entry, limits: dict[str, tuple[int, int]]) -> dict[str, int]:
        """A small mapping of whole numbers: `instruction: {words: 8, steps: 2}` gives instruction_words and so on."""
        name, node = str(entry[0].value), entry[1]
        if not isinstance(node, MappingNode):
            example = ", ".join(f"{key}: 8" if key != "steps" else "steps: 2" for key in limits)
            self.nodes.say(node, f"'{name}' must be written as {name}: {{{example}}}.")
            return {}
        found = {}
        for key, (_, value) in self.nodes.mapping(node, f"'{name}'", limits, {}).items():
            number = self.nodes.integer(value, f"{name}: {key}", *limits[key])
            if number is not None:
                found[f"{name}_{key}"] = number
        return found

    def pattern_name(self, node: Node, key: str) -> str | None:
        name = self.nodes.text(node, key)
        if name is not None and re.search(r"[\s{}=#.,]", name):
            class_name = re.sub(r"[\s{}=#.,]+", "-", name).strip("-").lower()
            self.nodes.say(node, f"'{name}' must be written as the lessons' class is, in one word: '{class_name}'.")
            return None
        return name

    def kind_name(self, node: Node, key: str) -> str | None:
        name = self.pattern_name(node, key)
        if name is not None and name not in ACTIVITY_KINDS and nearest(name, ACTIVITY_KINDS):
            self.nodes.say(node, f"'{name}' is not a kind of activity.{did_you_mean(name, ACTIVITY_KINDS)}")
            return None
        return name

    # --- the course's own settings ----------------------------------------------------------------------------------

    def variety(self, entry: Entry | None) -> str | None:
        if entry is None or (written := self.nodes.text(entry[1], "variety")) is None:
            return None
        for variety in VARIETIES:  # RFC 5646, 2.1.1: case has no meaning in a tag
            if written.casefold() == variety.casefold():
                return variety
        words = re.split(r"[\s_]", written.casefold())
        meant = _OTHER_NAMES.get(words[0]) or nearest(written, VARIETIES)
        advice = f" Did you mean '{meant}'?" if meant else f" Write one of {', '.join(VARIETIES)}."
        if written.casefold() in ("en", "english"):
            advice = " Say which English: en-GB, en-US, …"
        self.nodes.say(entry[1], f"'{written}' is not a variety of English that hornbook knows.{advice}")
        return None

    def ages(self, entry: Entry | None) -> tuple[int, int] | None:
        return self.nodes.range(entry[1], "ages", 3, 18, "6-10") if entry else None

    def choice(self, entry: Entry | None, choices: Sequence[str]) -> str | None:
        return self.nodes.choice(entry[1], str(entry[0].value), choices) if entry else None

    def adopted(self, entry: Entry | None) -> str | None:
        """The version of hornbook that the course has adopted: one that there has been."""
        if entry is None:
            return None
        written = entry[1].value.strip() if isinstance(entry[1], ScalarNode) else ""
        parts = version_parts(written)
        if parts is None:
            self.nodes.say(entry[1], f"'adopted' must be a version of hornbook, e.g. adopted: {CURRENT}.")
        elif not adopts(written, FIRST):
            self.nodes.say(entry[1], f"There is no hornbook {written}; the first is {FIRST}.")
        elif not adopts(__version__, written):
            here = f"This is hornbook {__version__}, and the course asks for {written}."
            self.nodes.say(entry[1], f"{here} Install that, or write adopted: {CURRENT}.")
        else:
            return written
        return None

    def rules(self, entry: Entry) -> dict[str, str]:
        chosen: dict[str, str] = {}
        for key, value in self.nodes.entries(entry[1], "'rules'"):
            severity = self.nodes.choice(value, key.value, _SEVERITIES)
            if key.value not in self.rule_names:
                near = did_you_mean(key.value, self.rule_names) or " `hornbook rules` lists them."
                self.nodes.say(key, f"There is no rule '{key.value}'.{near}")
            elif severity is not None:
                chosen[key.value] = severity
        return chosen

    def structures(self, entry: Entry) -> dict[str, str]:
        chosen: dict[str, str] = {}
        for key, value in self.nodes.entries(entry[1], "'structures'"):
            band = self.nodes.choice(value, key.value, CEFR_BANDS)
            names = self.structure_named(key)
            if not names:
                near = did_you_mean(key.value, self.structure_names)
                self.nodes.say(key, f"'{key.value}' is not a structure that hornbook knows.{near}")
            elif band is not None:
                chosen |= dict.fromkeys(names, band)
        return chosen

    def structure_named(self, key: Node) -> tuple[str, ...]:
        """The structures that a key names, as teachers write them (`present perfect`)."""
        if not isinstance(key, ScalarNode):
            return ()
        plain = re.sub(r"[\s_]+", "-", key.value.strip().casefold())
        if plain in self.structure_names:
            return (plain,)
        return tuple(name for name in self.read_label(key.value) if name in self.structure_names)


def read_course(
    source: Source,
    load: Load,
    rule_names: Sequence[str],
    structure_names: Sequence[str],
    read_label: LabelReader = lambda label: (),
) -> tuple[Course | None, tuple[CourseProblem, ...]]:
    """Read course.yaml and the word lists it names: the course, and everything that is wrong, by file and place.

    ``load`` gives a list by its path inside the course: its source, or the problem with it (line 0 when it cannot be
    opened; that is then said at the place in course.yaml that names it). ``read_label`` turns a structure as teachers
    write it into structure names (``language.labels.structures_of_label``). What is wrong reads as its default, so a
    course with problems can still be looked at; it is None when there is no level at all. No plans are filled in.
    """
    nodes = NodeReader(source)
    reader = _CourseReader(nodes, load, rule_names, structure_names, read_label)
    root = nodes.root()
    course = reader.course(root) if root is not None else None
    if root is None and not nodes.problems:
        nodes.say(0, f"The course file is empty. The smallest course, one line each: {_SMALLEST}.")
    return course, (*sorted(nodes.problems), *sorted(reader.list_problems))


def plans_of(course: Course, units: Iterable[Source]) -> Course:
    """The course with what each of its units sets out to teach (front matters), in teaching order.

    A unit's level is the one whose folder it is in, else the one that its front matter names; a unit without a number
    has no plan.
    """
    plans = []
    for source in units:
        front, _ = read_front_matter(source)
        level = course.level_of(source.path) or course.level_named(front.level)
        if level is not None and front.unit > 0:
            plans.append(UnitPlan(level.index, front.unit, front.title, front.topics, front.grammar, source.path))
    plans.sort(key=lambda plan: (plan.level, plan.unit, natural_order(plan.path)))
    return replace(course, plans=tuple(plans))


def natural_order(path: str) -> tuple[tuple[int, str], ...]:
    """Sort key that puts unit-2 before unit-10."""
    pieces = re.findall(r"[0-9]+|[^0-9]+", path)
    return tuple((int(piece), "") if piece.isdecimal() else (-1, piece) for piece in pieces)
