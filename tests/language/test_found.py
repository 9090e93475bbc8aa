"""The structures of whole lines and the words that show them, against lines that a person has read."""

from lint_rules.language.pipeline import SpacyLanguage
from lint_rules.language.service import Request
from lint_rules.language.tokens import Mode
from tests.language.course_english import FOLDER

NAMES = ("Mina", "Rafi", "Mr Tock")


def test_lines_show_what_a_person_has_read_in_them() -> None:
    mode, requests, lines = Mode.TEXT, [], []
    for line in (FOLDER / "found.txt").read_text(encoding="utf-8").splitlines():
        if line.startswith("# mode: "):
            mode = Mode(line.removeprefix("# mode: "))
        elif line and not line.startswith("#"):
            lines.append(line)
            requests.append(Request(line.rpartition(" |")[0], mode, NAMES))
    found = [
        f"{request.text} |"
        + "".join(f" {one.name} «{request.text[one.start : one.end]}»" for one in analysis.structures)
        for request, analysis in zip(requests, SpacyLanguage().analyse(requests), strict=True)
    ]
    changed = [f"{now}   (was: {line})" for now, line in zip(found, lines, strict=True) if now != line]
    assert len(lines) > 300
    assert not changed, "\n".join(changed)
