"""`required_notes` in course.yaml: which fields the teacher's notes of lessons and activities must hold."""

from collections.abc import Sequence

from lint_rules.course.defaults import default_list
from lint_rules.course.model import RequiredNotes
from lint_rules.course.nodes import Entry, NodeReader
from lint_rules.course.problem import did_you_mean, nearest
from lint_rules.manuscript.field_names import NOTE_FIELDS, field_key


def read_required_notes(nodes: NodeReader, entry: Entry | None, band: str, own: Sequence[str]) -> RequiredNotes:
    """`{lesson: [Aim, Time], activity: [Steps]}`. Fields of the course's ``own`` may stand there too; what is left out
    reads as its default."""
    lesson, activity = default_list("required_notes.lesson", band), None
    if entry is None:
        return RequiredNotes(lesson, activity)
    parts = nodes.mapping(entry[1], "'required_notes'", ("lesson", "activity"), {})
    named = {key: _fields(nodes, key, part, own) for key, part in parts.items()}
    return RequiredNotes(named.get("lesson", lesson), named.get("activity", activity), of_course=True)


def _fields(nodes: NodeReader, key: str, entry: Entry, own: Sequence[str]) -> tuple[str, ...]:
    """The fields of a list, by the names that hornbook has for them."""
    known = {field_key(name): name for name in (*NOTE_FIELDS, *own)}
    names = nodes.texts(entry[1], key) or ()
    for item in entry[1].value if names else ():
        if field_key(item.value) not in known and nearest(item.value, known.values()):
            nodes.say(item, f"'{item.value}' is not a field of the notes.{did_you_mean(item.value, known.values())}")
    return tuple(known.get(field_key(name), name) for name in names)
