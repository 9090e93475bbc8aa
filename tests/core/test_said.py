"""A name, a title, a message from a manuscript obeys nobody: no terminal, no build server, no log."""

import pytest

from lint_rules.said import harmless, one_line
from tests.reports.releases import hornbook, release, unit, write_course

NASTY = "a\x1b[31mred\n::error::done\r##[error]x \u202eb"


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("::error file=x::y", ": :error file=x::y"),
        ("  ::stop-commands::z", ": :stop-commands::z"),
        ("a ##vso[task.complete]", "a # #vso[task.complete]"),
        ("##[group]", "# #[group]"),
        ("##teamcity[x]", "# #teamcity[x]"),
        ("a\x1b[31m\x07", "a\ufffd[31m\ufffd"),
        ("## A heading, a::b and C++ ::", "## A heading, a::b and C++ ::"),
    ],
)
def test_a_line_is_no_command(line, said):
    assert harmless(line) == said


def test_a_text_is_one_line():
    assert one_line(NASTY).isprintable()


def quiet(text: str) -> None:
    assert all(line.isprintable() for line in text.splitlines()), [x for x in text.splitlines() if not x.isprintable()]
    assert not any(line.lstrip().startswith("::") or "##[" in line for line in text.splitlines())


@pytest.mark.parametrize("command", ["book", "proof", "release", "words", "carry", "level"])
def test_names_titles_and_lists_reach_no_output_raw(tmp_path, command, monkeypatch):
    title = '"Kites \\e[31m \\n::error::x"'
    text = unit("This is a color. This is a colour.").replace("title: The red kite", f"title: {title}")
    course = write_course(
        tmp_path / "book",
        {
            f"level-1/{NASTY.replace('/', '')}.md": text,
            "level-1/unit-02.md": unit("Hi.", 2),
            "::error::.md": unit("Hi.", 3),
        },
        words='"kite\x1b[31m\n::error::x",noun,"toys\x1b",1\nred,colour,x,1\n',
    )
    (course / "course.yaml").write_text((course / "course.yaml").read_text().replace("The Kite Shop", "K\\e[31m"))
    monkeypatch.chdir(course)
    more = [str(course / "level-1" / "unit-02.md")] if command == "level" else []
    status, said, complained = hornbook(command, *more, cwd=course)
    assert status in (0, 1, 2)
    quiet(said)
    quiet(complained)
    if command == "release":
        run = release(str(course), tmp_path, cwd=course)
        for element in run.junit.iter():
            assert all(value.isprintable() for value in element.attrib.values())
            quiet(element.text or "")
