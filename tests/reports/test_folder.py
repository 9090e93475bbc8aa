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
