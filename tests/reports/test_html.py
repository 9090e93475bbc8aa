"""The editor's report as a file: what it says, what it escapes, what it may do, and how large it grows."""

import re
from pathlib import Path

import pytest
from lxml import html

from tests.reports.conftest import LARGE
from tests.reports.releases import EXAMPLE, Release, hornbook, page_of, release, unit, write_course

ROOT = Path(__file__).parents[2]


def test_it_says_whether_the_book_can_go(example, draft):
    can, cannot = page_of(example), page_of(draft)
    assert can.xpath("string(//section[@aria-labelledby='verdict']/h2)") == "This book can go."
    assert cannot.xpath("string(//section[@aria-labelledby='verdict']/h2)") == "This book cannot go yet."
    said = [" ".join(item.text_content().split()) for item in cannot.xpath("//ul[@aria-labelledby='way']/li")]
    assert said == draft.record["verdict"]["in_the_way"] or [line.split(" (")[0] for line in said] == [
        line.split(" (")[0] for line in draft.record["verdict"]["in_the_way"]
    ]


def test_every_picture_has_a_title_a_text_and_its_numbers_as_a_table(example):
    figures = page_of(example).xpath("//figure")
    names = [figure.get("id") for figure in figures]
    assert names[:4] == ["picture-times", "picture-words", "picture-structures", "picture-map"]
    for figure in figures:
        assert figure.xpath("string(.//h3)")
        for drawing in figure.xpath(".//*[@role='img']"):
            assert len(drawing.get("aria-label")) > 30
            assert drawing.xpath(".//*[local-name()='svg'][@aria-hidden='true'][@focusable='false']")
        (table,) = figure.xpath("./div/details//table")
        assert table.xpath("./caption")
        assert len(table.xpath("./thead//th[@scope='col']")) == len(table.xpath("./tbody/tr[1]/*"))
        assert all(len(row.xpath("./th[@scope='row']")) == 1 for row in table.xpath("./tbody/tr"))


def test_the_numbers_are_those_of_the_book(example):
    page = page_of(example)
    times = page.xpath("//figure[@id='picture-times']//tbody/tr")
    assert len(times) == 36  # six units of six lessons
    words = page.xpath("//figure[@id='picture-map']//tbody/tr")
    lists = [(Path(__file__).parents[2] / EXAMPLE / "words" / f"level-{n}.csv").read_text("utf-8") for n in (1, 2)]
    assert len(words) == sum(len([line for line in text.splitlines() if line.strip()]) - 1 for text in lists)


def test_the_words_of_every_query_are_marked_or_quoted_beside_the_text(draft):
    page = page_of(draft)
    marked = {number for mark in page.xpath("//mark/@data-n") for number in mark.split()}
    for item in page.xpath("//li[contains(@class, 'point')]"):
        number = item.get("data-n")
        quoted = item.xpath("string(.//p[@class='quoted'])")
        assert (number in marked) != bool(quoted) or item.get("data-at").split("-")[0] == item.get("data-at").split(
            "-"
        )[1], html.tostring(item)
    spelled = page.xpath("//li[@data-rule='spelling-variety']")[0]
    (mark,) = page.xpath(f"//mark[@data-n='{spelled.get('data-n')}']")
    assert mark.text_content() == "color"
    assert "What's your favourite color" in mark.getparent().text_content()


def test_each_unit_is_set_as_it_is_read(example):
    page = page_of(example)
    units = page.xpath("//section[contains(@class, 'unit')]")
    assert len(units) == 6
    sources = sorted((ROOT / EXAMPLE).glob("level-*/unit-*.md"))
    for one, source in zip(units, sources, strict=True):
        text = source.read_text("utf-8")
        assert len(one.xpath(".//section[@data-lesson]")) == len(re.findall(r"^## ", text, re.MULTILINE))
        assert len(one.xpath(".//*[@class='activity']")) == len(re.findall(r"^### ", text, re.MULTILINE))
        for name, label in (("teacher", "Teacher's notes"), ("audio", "Audio script"), ("answers", "Answers")):
            labels = [said for said in one.xpath(".//p[@class='whose']/text()") if said.startswith(label)]
            assert len(labels) == len(re.findall(rf"^:::+ *(?:\{{\.)?{name}\b", text, re.MULTILINE)), label
        assert len(one.xpath(".//*[@class='gap']")) == len(re.findall(r"_{3,}", text.split("---", 2)[2]))
        words = " ".join(one.text_content().split())
        for turn in re.findall(r"^[A-Z]{3,}: (.*)$", text, re.MULTILINE):
            assert " ".join(re.sub(r"[*_]{1,2}", "", turn).split()) in words


def test_what_does_not_count_is_shown_with_its_reason(draft):
    page = page_of(draft)
    said = page.xpath("//section[@id='let-stand']//p[@class='reason']")
    reasons = {stet["reason"] for stet in draft.record["stets"] if stet["lets_stand"]}
    assert {reason.text_content().removeprefix("Stet: ") for reason in said} == reasons
    assert "english-error" in page.xpath("string(//section[@id='not-checked'])")


def test_it_may_load_nothing_and_run_only_its_own_script(released_with_html):
    text = (released_with_html.folder / "report.html").read_text("utf-8")
    page = html.document_fromstring(text.encode())
    (policy,) = page.xpath("//meta[@http-equiv='Content-Security-Policy']/@content")
    assert policy.startswith("default-src 'none'; style-src 'sha256-")
    assert "unsafe" not in policy
    assert len(page.xpath("//script")) == 1
    assert page.xpath("//script/@src | //img | //iframe | //object | //embed | //form/@action | //base") == []
    assert [link.get("href") for link in page.xpath("//link")] == ["data:,"]
    assert all(href.startswith("#") for href in page.xpath("//a/@href"))
    assert page.xpath("//*[@style]") == []
    assert not [name for element in page.iter() for name in element.attrib if name.startswith("on")]
    assert re.findall(r"url\((?!#)", text) == []


@pytest.fixture(params=["example", "draft", "hostile"])
def released_with_html(request: pytest.FixtureRequest) -> Release:
    made: Release = request.getfixturevalue(request.param)
    return made


def test_ids_are_there_once(released_with_html):
    ids = page_of(released_with_html).xpath("//@id")
    assert sorted(ids) == sorted(set(ids))


def test_all_of_a_hostile_manuscript_is_text(hostile):
    text = hostile.text("report.html")
    assert "<script>window" not in text
    assert "<img" not in text
    assert "\u202e" not in text  # a sign that turns the text after it round
    assert "\x07" not in text
    page = page_of(hostile)
    assert "<script>window.hit=1</script>" in page.xpath("string(//h1)")
    assert "window.hit=3" in page.xpath("string(//section[@id='proof'])")  # the words between tags are read


def test_a_report_is_written_for_book_too_and_spares_the_manuscript(tmp_path):
    course = write_course(tmp_path / "book", {"level-1/unit-01.md": unit("My color.")})
    status, _, _ = hornbook("book", str(course), "--report", str(tmp_path / "report.html"))
    assert status == 0
    assert "This book cannot go yet." in (tmp_path / "report.html").read_text("utf-8")
    before = (course / "course.yaml").read_bytes()
    status, _, complained = hornbook("book", str(course), "--report", str(course / "course.yaml"))
    assert status == 2
    assert "would write over" in complained
    assert (course / "course.yaml").read_bytes() == before
    assert hornbook("book", str(course), "--report", str(tmp_path / "none" / "report.html"))[0] == 2


def test_a_course_of_next_to_nothing_has_a_report(tmp_path):
    write_course(tmp_path / "book", {"level-1/unit-01.md": "# Kites\n"})
    released = release("book", tmp_path, cwd=tmp_path, html=True)
    assert "The Kite Shop" in page_of(released).xpath("string(//h1)")


def test_a_book_of_units_that_cannot_be_read_has_a_report(tmp_path):
    course = write_course(tmp_path / "book", {})
    (course / "level-1").mkdir()
    (course / "level-1" / "unit-01.md").write_bytes(b"# Caf\xe9\n")
    released = release("book", tmp_path, cwd=tmp_path, html=True)
    assert released.status == 1
    assert "1 unit that could not be read in full" in page_of(released).text_content()


@pytest.mark.slow
def test_the_report_of_a_hundred_units_is_small_enough_to_send(large):
    """5 MB is a common limit of mail servers' attachments halved: common practice, no source."""
    assert large.record["counts"]["query"] + large.record["counts"]["note"] > 500
    assert (large.folder / "report.html").stat().st_size / LARGE * 100 < 5_000_000
