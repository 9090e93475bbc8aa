"""The numbers beside the pictures are those that a teacher would count on the page."""

import pytest
from lxml import html

from tests.reports.releases import Release, page_of, release, write_course


def table(released: Release, picture: str) -> list[list[str]]:
    rows: list[html.HtmlElement] = page_of(released).xpath(f"//figure[@id='picture-{picture}']//tbody/tr")
    return [[" ".join(cell.text_content().split()) for cell in row] for row in rows]


def lesson(number: int, time: str, body: str = "") -> str:
    return f"## Lesson {number}: Kites\n\n::: teacher\n**Time:** {time}\n:::\n\n### 1 Read.\n\n{body}\n\n"


@pytest.fixture(scope="module")
def released(tmp_path_factory: pytest.TempPathFactory) -> Release:
    root = tmp_path_factory.mktemp("pictures")
    front = "---\nlevel: level-1\nunit: {}\ntitle: Kites\ngrammar: [present continuous]\n---\n\n# Kites\n\n"
    first = front.format(1) + lesson(1, "40 minutes", "The kite is red. Zog is flying the kite.")
    first += lesson(2, "70 minutes") + lesson(3, "30–50 minutes") + lesson(4, "soon") + lesson(5, "2 x 40 minutes")
    second = front.format(2) + lesson(1, "10 minutes", "I have seen a kite.\n\nA kaleidoscope is not a zebra crossing.")
    units = {"level-1/unit-01.md": first, "level-1/unit-02.md": second, "level-1/extra.md": front.format(2)}
    words = "kite,noun,toys,1\nred,adjective,colours,1\nmoon,noun,sky,2\n"
    return release(str(write_course(root / "book", units, words=words)), root, html=True)


def test_lesson_times(released):
    assert [(row[0].split(":")[0], *row[1:]) for row in table(released, "times")] == [
        ("level-1, unit 1, lesson 1", "40", "within it"),
        ("level-1, unit 1, lesson 2", "70", "25 too long"),
        ("level-1, unit 1, lesson 3", "30–50", "may be too short or too long"),
        ("level-1, unit 1, lesson 4", "–", "no time given"),
        ("level-1, unit 1, lesson 5", "2 × 40", "within it"),
        ("level-1, unit unit-02, lesson 1", "10", "25 too short"),
    ]
    says = page_of(released).xpath("string(//figure[@id='picture-times']//*[@role='img']/@aria-label)")
    assert (
        "2 of 6 lessons within the target of 35 to 45 minutes, 1 shorter, 1 longer, 1 that may be shorter or longer, "
        in says
    )


def test_two_units_of_one_number_are_told_apart(released):
    assert [row[0] for row in table(released, "words")] == [
        "level-1, unit 1",
        "level-1, unit extra",
        "level-1, unit unit-02",
    ]


def test_words_by_level(released):
    first, extra, second = table(released, "words")
    assert first[-1] == "5"  # the, kite, is, red, flying; a name is no word to learn
    assert extra[-1] == "0"
    assert int(second[-1]) > 5


def test_structures_are_those_of_the_findings(released):
    rows = {row[0].removesuffix(" (level-1)"): row[1:] for row in table(released, "structures")}
    band, taught, used, early = rows["the present perfect"]
    assert (taught, used, early) == ("–", "unit-02", "unit-02")
    assert band in {"A2", "B1"}
    assert rows["the present continuous"][1:] == ["1, extra, unit-02", "1", "–"]
    found = [result["ruleId"] for result in released.run["results"]]
    assert sum(rule in ("grammar-above-level", "grammar-before-taught") for rule in found) == 1


def test_vocabulary(released):
    rows = {row[0]: row for row in table(released, "map")}
    assert rows["kite (noun)"][3:6] == ["1.1", "1.2, 1.3, 1.4, 1.5, 2.1", "5"]  # each lesson is called Kites
    assert rows["moon (noun)"][3] == "–"
    assert "not taught" in rows["moon (noun)"][-1]


def test_findings_add_up(released):
    head = page_of(released).xpath("//figure[@id='picture-rules']//thead//th")
    assert [cell.text_content() for cell in head[:3]] == ["Rule", "Weighs", "Together"]
    rows = table(released, "rules")
    counts = released.record["counts"]
    assert sum(int(row[2]) for row in rows) == counts["stop"] + counts["query"] + counts["note"]
    for row in rows:
        assert int(row[2]) == sum(int(number) for number in row[3:] if number)


def test_a_long_word_list_is_named_word_by_word(tmp_path):
    letters = [chr(97 + at) for at in range(26)]
    made_up = [f"z{a}{b}o" for a in letters for b in "aeiou"]  # 130 words that nobody has
    body = "::: words\n" + ", ".join(made_up) + "\n:::\n"
    unit = "---\nlevel: level-1\nunit: 1\ntitle: Kites\n---\n\n# Kites\n\n" + lesson(1, "40 minutes", body)
    words = "".join(f"{word},noun,toys,1\n" for word in made_up)
    write_course(tmp_path / "book", {"level-1/unit-01.md": unit}, words=words)
    released = release("book", tmp_path, cwd=tmp_path, html=True)
    (picture,) = page_of(released).xpath("//figure[@id='picture-map']")
    drawn = [text.text_content() for text in picture.xpath(".//*[local-name()='svg']//*[local-name()='text']")]
    assert sorted(word for word in drawn if word in made_up) == sorted(made_up)
    assert "taught in unit 1" in drawn
    assert len(table(released, "map")) == 130


def test_what_a_mark_means_is_told_by_its_shape(released):
    """Red and green are one colour to one man in twelve: no two marks of a legend differ by colour alone."""
    figures = page_of(released).xpath("//figure[.//*[@class='legend']]")
    assert len(figures) >= 4
    for figure in figures:
        marks = figure.xpath(".//*[@class='legend']//*[local-name()='svg']")
        shapes = [
            html.tostring(mark[0]).decode().split('class="')[0] + str("edge" in mark[0].get("class", ""))
            for mark in marks
        ]
        assert len(set(shapes)) == len(shapes) > 1, figure.get("id")


def test_axes_have_their_titles_and_labels_that_can_be_read(released):
    for name, title in {"times": "minutes", "structures": "unit", "rules": "unit", "words": "unit"}.items():
        (figure,) = page_of(released).xpath(f"//figure[@id='picture-{name}']")
        said = [text.text_content() for text in figure.xpath(".//*[local-name()='text']")]
        assert title in said
        assert not any("…" in text for text in said)
