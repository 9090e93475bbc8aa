"""A book does not set its own rules: the policy of the house, and what came and went since an earlier release."""

from pathlib import Path

import pytest

from tests.reports.releases import Release, hornbook, release, unit, write_course

FAULT = "This is a colour. This is a color."


def made(tmp_path: Path, body: str, policy: str | None, *settings: str, more: tuple[str, ...] = ()) -> Release:
    course = write_course(tmp_path / "book", {"level-1/unit-01.md": unit(body)}, settings)
    (tmp_path / "out").mkdir(exist_ok=True)
    if policy is not None:
        (tmp_path / "house.yaml").write_text(policy)
        more = ("--house", str(tmp_path / "house.yaml"), *more)
    return release(str(course), tmp_path / "out", *more)


@pytest.mark.parametrize("weight", ["off", "note"])
@pytest.mark.parametrize("rules", ["all", "[spelling-variety]"])
def test_a_rule_of_the_house_weighs_what_it_weighs(tmp_path, weight, rules):
    run = made(tmp_path, FAULT, f"rules: {rules}\n", f"spelling-variety: {weight}")
    assert run.status == 1
    assert "color" in run.said


def test_a_rule_that_the_house_leaves_to_the_book_is_only_told(tmp_path):
    run = made(tmp_path, FAULT, "rules: [long-text]\n", "spelling-variety: note")
    assert run.status == 0, run.said
    assert "spelling-variety (note, usually query)" in run.said


def test_a_rule_may_be_heavier_than_the_house_wants_it(tmp_path):
    run = made(tmp_path, FAULT, "rules: [spelling-variety]\n", "spelling-variety: stop")
    assert "1 stop to mend" in run.said


def test_without_a_policy_a_release_says_what_the_book_weakened(tmp_path):
    run = made(tmp_path, FAULT, None, "spelling-variety: off")
    assert run.status == 0
    assert "spelling-variety (off, usually query)" in run.said
    assert "the book has set its own rules" in run.said
    assert run.record["weakened"]["spelling-variety"] == "off"


STOOD = "<!-- stet spelling-variety: a sign abroad -->\n\nThe sign says color."


@pytest.mark.parametrize(
    ("policy", "can_go"),
    [("stets: 1\n", True), ("stets: 0\n", False), ("reason_words: 3\n", True), ("reason_words: 4\n", False)],
)
def test_the_house_limits_stets_and_wants_reasons(tmp_path, policy, can_go):
    run = made(tmp_path, STOOD, policy)
    assert run.record["verdict"]["can_go"] is can_go, run.said


@pytest.mark.parametrize(("most", "can_go"), [(1, True), (0, False)])
def test_the_house_limits_what_is_carried(tmp_path, most, can_go):
    course = write_course(tmp_path / "book", {"level-1/unit-01.md": unit(FAULT)})
    assert hornbook("carry", str(course))[0] == 0
    run = made(tmp_path, FAULT, f"carried: {most}\n")
    assert run.record["verdict"]["can_go"] is can_go, run.said
    assert run.record["carried_by_weight"] == {"query": 1}


def test_the_house_can_require_english(tmp_path):
    assert made(tmp_path, "This is a kite.", "english: required\n").status == 3


@pytest.mark.parametrize(
    ("policy", "said"),
    [
        ("rulez: all\n", "house.yaml:1:1: 'rulez' is not a key of the house's policy. Did you mean 'rules'?"),
        ("rules: [spelling]\n", "There is no rule 'spelling'."),
        ("stets: -1\n", "'stets' must be a whole number"),
        ("", "empty"),
        ("a: [\n", "not YAML"),
    ],
)
def test_a_policy_with_a_mistake_ends_the_run(tmp_path, policy, said):
    run = made(tmp_path, FAULT, policy)
    assert run.status == 2
    assert said in run.complained
    assert run.record["verdict"]["can_go"] is False


@pytest.mark.parametrize("path", ["house.yaml", "level-1/house.yaml"])
def test_a_policy_inside_the_book_is_refused(tmp_path, path):
    course = write_course(tmp_path / "book", {"level-1/unit-01.md": unit(FAULT)})
    (course / path).write_text("stets: 100\n")
    (tmp_path / "link.yaml").symlink_to(course / path)
    for name in (course / path, tmp_path / "link.yaml"):
        status, _, complained = hornbook("release", str(course), "--house", str(name))
        assert status == 2
        assert "inside the book" in complained


def test_since_says_what_came_and_went(tmp_path):
    made(tmp_path, STOOD, None)
    (tmp_path / "out" / "record.json").rename(tmp_path / "before.json")
    course = tmp_path / "book"
    (course / "level-1" / "unit-01.md").unlink()
    (course / "level-1" / "unit-02.md").write_text(unit(FAULT, 1, "A blue kite"))
    run = release(str(course), tmp_path / "out", "--since", str(tmp_path / "before.json"))
    since = run.record["since"]
    assert (since["units_gone"], since["units_new"]) == (["level-1/unit-01.md"], ["level-1/unit-02.md"])
    assert len(since["stets_gone"]) == 1
    assert since["findings"]["spelling-variety"] == [1, 1] if "spelling-variety" in since["findings"] else True
    assert since["words"][0] != since["words"][1]
    assert "1 units gone (level-1/unit-01.md)" in run.said
    assert "stets gone" in run.said


def test_since_the_same_book_nothing_has_come_or_gone(tmp_path):
    made(tmp_path, STOOD, None)
    (tmp_path / "out" / "record.json").rename(tmp_path / "before.json")
    run = release(str(tmp_path / "book"), tmp_path / "out", "--since", str(tmp_path / "before.json"))
    assert run.status == 0
    assert "nothing has come or gone" in run.said


@pytest.mark.parametrize("text", ["{}", "no", '{"hornbook": "0.1", "finished": false}', "[" * 100_000])
def test_a_record_that_is_none_ends_the_run(tmp_path, text):
    (tmp_path / "before.json").write_text(text)
    run = made(tmp_path, FAULT, None, more=("--since", str(tmp_path / "before.json")))
    assert run.status == 2
    assert "record" in run.complained


def test_the_house_can_ask_for_a_comparison(tmp_path):
    run = made(tmp_path, "This is a kite.", "since: required\n")
    assert run.status == 1
    assert "asks for --since" in run.said
