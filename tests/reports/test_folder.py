"""The proof as a folder: an index, and a page for the writer of each unit."""

from pathlib import Path

import pytest
from lxml import html

from tests.reports.releases import DRAFT, hornbook, unit, write_course


def pages(folder: Path) -> dict[str, html.HtmlElement]:
    return {path.name: html.document_fromstring(path.read_bytes()) for path in sorted(folder.iterdir())}


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    place = tmp_path_factory.mktemp("proofs") / "proof"
    status, said, _ = hornbook("book", DRAFT, "--report", f"{place}/")
    assert status == 1
    assert said.rstrip().endswith(f"Written: {place}/")
    return place


def test_there_is_an_index_and_a_page_a_unit(folder: Path) -> None:
    made = pages(folder)
    assert sorted(made) == ["index.html", "level-1-unit-01.html", "level-1-unit-02.html"]
    index = made["index.html"]
    assert index.xpath("string(//section[@aria-labelledby='verdict']/h2)") == "This book cannot go yet."
    assert index.xpath("//ul[@class='pages']//a/@href") == ["level-1-unit-01.html", "level-1-unit-02.html"]
    assert index.xpath("//li[contains(@class, 'point')]") == []
    for name in ("level-1-unit-01.html", "level-1-unit-02.html"):
        assert len(made[name].xpath("//section[contains(@class, 'unit')]")) == 1
        assert made[name].xpath("//*[@id='by-unit']") == []
        assert made[name].xpath("//*[@id='by-lesson']")


def test_each_query_is_on_one_page_and_every_link_leads_somewhere(folder: Path, tmp_path: Path) -> None:
    made = pages(folder)
    whole = tmp_path / "whole.html"
    hornbook("book", DRAFT, "--report", str(whole))
    wanted = html.document_fromstring(whole.read_bytes()).xpath("//li[contains(@class, 'point')]/@id")
    assert [one for page in made.values() for one in page.xpath("//li[contains(@class, 'point')]/@id")] == wanted
    ids = {name: set(page.xpath("//@id")) for name, page in made.items()}
    for name, page in made.items():
        for link in page.xpath("//a/@href"):
            where, _, anchor = link.partition("#")
            assert (where or name) in made, link
            assert not anchor or anchor in ids[where or name], (name, link)


def test_a_folder_is_written_again_but_never_among_other_files(folder: Path, tmp_path: Path) -> None:
    assert hornbook("book", DRAFT, "--report", str(folder))[0] == 1
    course = write_course(tmp_path / "book", {"level-1/unit-01.md": unit("My color.")})
    for name in (course, course / "level-1"):
        before = sorted(course.rglob("*"))
        status, _, complained = hornbook("book", str(course), "--report", str(name))
        assert status == 2
        assert "--report" in complained
        assert sorted(course.rglob("*")) == before
    assert hornbook("book", str(course), "--report", f"{tmp_path}/no/where/")[0] == 2


def test_the_page_of_a_unit_with_a_new_name_goes_and_nothing_else(tmp_path: Path) -> None:
    course = write_course(
        tmp_path / "book", {"level-1/unit-01.md": unit("My color."), "level-1/unit-02.md": unit("A.")}
    )
    proof = tmp_path / "proof"
    assert "Taken out" not in hornbook("book", str(course), "--report", f"{proof}/")[1]
    kept = {
        "level-1-unit-02-with-my-notes.html": (proof / "level-1-unit-02.html").read_bytes(),  # a copy of theirs
        "level-1-unit-03.html": b"<!doctype html><title>A page about a hornbook</title>",
        "notes.txt": b"call the printer",
    }
    for name, data in kept.items():
        (proof / name).write_bytes(data)
    (course / "level-1/unit-02.md").rename(course / "level-1/unit-04.md")
    said = hornbook("book", str(course), "--report", f"{proof}/")[1]
    assert "Taken out: level-1-unit-02.html, the page of a unit that is not in the book any more." in said
    assert {path.name for path in proof.iterdir()} == {
        "index.html",
        "level-1-unit-01.html",
        "level-1-unit-04.html",
        *kept,
    }
    assert {name: (proof / name).read_bytes() for name in kept} == kept


@pytest.mark.parametrize("change", ["written over", "linked"])
def test_a_page_that_is_no_longer_hornbooks_stays(tmp_path: Path, change: str) -> None:
    course = write_course(
        tmp_path / "book", {"level-1/unit-01.md": unit("My color."), "level-1/unit-02.md": unit("A.")}
    )
    proof, page = tmp_path / "proof", tmp_path / "proof" / "level-1-unit-02.html"
    hornbook("book", str(course), "--report", f"{proof}/")
    if change == "linked":
        page.rename(tmp_path / "elsewhere.html")
        page.symlink_to(tmp_path / "elsewhere.html")
    else:
        page.write_text("<!doctype html><title>Our hornbook</title>", encoding="utf-8")
    (course / "level-1/unit-02.md").unlink()
    assert "Taken out" not in hornbook("book", str(course), "--report", f"{proof}/")[1]
    assert page.is_symlink() or page.read_text(encoding="utf-8") == "<!doctype html><title>Our hornbook</title>"
    assert change == "written over" or (tmp_path / "elsewhere.html").exists()
