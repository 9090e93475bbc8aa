"""Findings gather into points: what one decision answers is said and counted once, at all of its places."""

from lint_rules.engine.gather import Point, gather
from lint_rules.finding import Finding, Severity
from lint_rules.rule import By, Example, Gather, Rule, Within
from lint_rules.source import Position, Span


def rule(name: str, *gathers: Gather, fault: str = "") -> Rule:
    return Rule(name, "house", Severity.QUERY, (Example("a"),), (Example("b"),), gathers=gathers, fault=fault)


def finding(
    name: str = "one",
    line: int = 1,
    *,
    path: str = "level-1/unit-01.md",
    text: str = "",
    severity: Severity = Severity.QUERY,
    key: str = "",
    about: str = "",
    place: str = "",
) -> Finding:
    at = Position(line, 1)
    span = Span(line * 100, line * 100 + 1)
    message = f"Said of {text}."
    return Finding(name, severity, path, span, at, at, text, message, place=place, key=key, about=about)


def points(*found: Finding, rules: tuple[Rule, ...]) -> list[Point]:
    ordered = sorted(found, key=lambda one: one.order)
    return list(gather(ordered, {one.name: one for one in rules}))


def lines(point: Point) -> list[int]:
    return [one.start.line for one in point.findings]


def test_without_a_way_to_gather_each_finding_is_a_point():
    made = points(finding(line=1, text="a"), finding(line=2, text="a"), rules=(rule("one"),))
    assert [lines(point) for point in made] == [[1], [2]]
    assert [point.message for point in made] == ["Said of a.", "Said of a."]


def test_a_rule_that_is_not_known_gathers_nothing():
    assert len(points(finding(line=1), finding(line=2), rules=())) == 2


def test_a_habit_is_one_point_with_all_its_places_over_the_course():
    habit = rule("one", Gather(Within.COURSE, By.ABOUT, {"steps": "{count} activities have no Steps."}))
    found = [finding(line=n, about="steps", path=f"level-1/unit-0{n}.md") for n in (1, 2, 3)]
    (point,) = points(*found, rules=(habit,))
    assert point.message == "3 activities have no Steps."
    assert point.paths == ("level-1/unit-01.md", "level-1/unit-02.md", "level-1/unit-03.md")


def test_by_unit_each_unit_has_its_point():
    by_unit = rule("one", Gather(Within.UNIT, says="{count} words: {keys}."))
    found = [finding(line=n, key=f"w{n}", path=f"level-1/unit-0{1 + n % 2}.md") for n in (1, 2, 3)]
    assert [point.message for point in points(*found, rules=(by_unit,))] == ["Said of .", "2 words: “w1” and “w3”."]


def test_by_activity_the_same_in_another_activity_is_another_point():
    by_place = rule("one", Gather(Within.ACTIVITY))
    found = [finding(line=n, place=place) for n, place in enumerate(["A", "A", "B"], start=1)]
    assert [lines(point) for point in points(*found, rules=(by_place,))] == [[1, 2], [3]]


def test_by_words_case_and_white_space_do_not_matter_and_other_words_are_others():
    by_words = rule("one", Gather(Within.COURSE, By.WORDS))
    found = [finding(line=n, text=text) for n, text in enumerate(["Big  kite", "big\nkite", "kite"], start=1)]
    assert [lines(point) for point in points(*found, rules=(by_words,))] == [[1, 2], [3]]


def test_what_has_nothing_to_gather_by_goes_the_next_way_or_stays_alone():
    two_ways = rule("one", Gather(Within.UNIT, By.ABOUT, "{count} notes."), Gather(Within.COURSE, By.KEY))
    found = [
        finding(line=1, about="known", key="a"),
        finding(line=2, key="b"),
        finding(line=3, about="known", key="c"),
        finding(line=4, key="b"),
        finding(line=5),
        finding(line=6),
    ]
    assert [lines(point) for point in points(*found, rules=(two_ways,))] == [[1, 3], [2, 4], [5], [6]]


def test_many_words_are_named_in_part():
    by_unit = rule("one", Gather(Within.UNIT, says="{count} words: {words}."))
    found = [finding(line=n, text=f"w{n}") for n in range(1, 10)]
    (point,) = points(*found, rules=(by_unit,))
    assert point.message == "9 words: “w1”, “w2”, “w3”, “w4”, “w5” and 4 more."


def test_a_point_weighs_what_its_worst_finding_does_and_stands_there():
    together = rule("one", Gather(Within.UNIT, By.KEY))
    (point,) = points(
        finding(line=1, key="k", severity=Severity.NOTE, text="note"),
        finding(line=2, key="k", severity=Severity.STOP, text="stop"),
        finding(line=3, key="k", severity=Severity.STOP, text="again"),
        rules=(together,),
    )
    assert (point.severity, point.lead.start.line, point.message) == (Severity.STOP, 2, "Said of stop.")
    assert lines(point) == [1, 2, 3]
    assert [one.start.line for one in point.others] == [1, 3]


def test_two_rules_of_one_fault_at_the_same_words_are_one_point():
    rules = (rule("one", fault="a word"), rule("two", fault="a word"), rule("three"))
    found = [finding("one", 1, text="x"), finding("two", 1, text="x"), finding("two", 2, text="x"), finding("three", 1)]
    made = points(*found, rules=rules)
    assert [point.rules for point in made] == [("one", "two"), ("three",), ("two",)]
    assert made[0].other_places == ()


def test_the_same_words_in_another_file_are_another_fault():
    rules = (rule("one", fault="a word"), rule("two", fault="a word"))
    found = [finding("one", 1, path="level-1/unit-01.md"), finding("two", 1, path="level-1/unit-02.md")]
    assert len(points(*found, rules=rules)) == 2


def test_points_stand_in_the_order_of_their_leads_and_hold_every_finding_once():
    rules = (rule("one", Gather(Within.COURSE, By.KEY), fault="f"), rule("two", fault="f"))
    found = [finding(name, line, key=str(line % 3)) for line in range(1, 12) for name in ("one", "two")]
    made = points(*found, rules=rules)
    orders = [point.lead.order for point in made]
    assert orders == sorted(orders)
    held = [id(one) for point in made for one in point.findings]
    assert sorted(held) == sorted(id(one) for one in found)


def test_a_list_of_words_is_cut_only_where_it_is_long():
    by_unit = rule("one", Gather(Within.UNIT, says="{words}"))
    (six,) = points(*(finding(line=n, text=f"w{n}") for n in range(1, 7)), rules=(by_unit,))
    assert six.message == "“w1”, “w2”, “w3”, “w4”, “w5” and “w6”"
    (seven,) = points(*(finding(line=n, text=f"w{n}") for n in range(1, 8)), rules=(by_unit,))
    assert seven.message == "“w1”, “w2”, “w3”, “w4”, “w5” and 2 more"
    (spaced,) = points(finding(line=1, text="a\n b"), finding(line=2, text="c"), rules=(by_unit,))
    assert spaced.message == "“a b” and “c”"


def test_a_word_that_is_found_twice_is_named_and_counted_once():
    by_unit = rule("one", Gather(Within.UNIT, says="{count} words: {words}"))
    coin, coins, rink = (
        finding(line=1, text="coin", key="coin"),
        finding(line=2, text="coins", key="coin"),
        finding(line=3),
    )
    (two,) = points(coin, coins, rink, rules=(by_unit,))
    assert two.message == f"2 words: “coin” and “{rink.text}”"
    (one,) = points(coin, coins, rules=(by_unit,))
    assert one.message == coin.message
    assert len(one.findings) == 2


def test_over_the_course_and_in_a_unit_are_two_ways():
    found = [finding(line=n, key="k", path=f"level-1/unit-0{n}.md") for n in (1, 2)]
    assert len(points(*found, rules=(rule("one", Gather(Within.COURSE, By.KEY)),))) == 1
    assert len(points(*found, rules=(rule("one", Gather(Within.UNIT, By.KEY)),))) == 2
    assert len(points(*found, rules=(rule("one", Gather(Within.ACTIVITY, By.KEY)),))) == 2


def test_what_a_habit_has_no_words_for_is_said_as_the_first_of_it():
    habit = rule("one", Gather(Within.UNIT, By.ABOUT, {"steps": "{count} without Steps."}))
    (point,) = points(finding(line=1, about="time", text="a"), finding(line=2, about="time"), rules=(habit,))
    assert (point.message, len(point.findings)) == ("Said of a.", 2)


def test_a_point_names_its_key_and_what_it_is_about():
    known = rule("one", Gather(Within.UNIT, By.KEY, "{count} of {key}, {about}: {keys}"))
    (point,) = points(*(finding(line=n, key="moth", about="words") for n in (1, 2)), rules=(known,))
    assert point.message == "2 of moth, words: “moth”"
    assert point.about == ("level-1/unit-01.md", By.KEY.value, "moth")


def test_other_places_are_told_once_each():
    rules = (rule("one", Gather(Within.UNIT, By.KEY), fault="f"), rule("two", fault="f"))
    (point,) = points(
        finding("one", 1, key="k"), finding("two", 1), finding("one", 2, key="k"), finding("two", 2), rules=rules
    )
    assert point.rules == ("one", "two")
    assert [(one.rule, one.start.line) for one in point.other_places] == [("one", 2)]


def test_a_word_that_another_rule_found_too_leaves_its_list_and_draws_nothing_along():
    hard = rule("hard", Gather(Within.UNIT, By.ABOUT), fault="a word")
    slip = rule("slip", Gather(Within.COURSE, By.WORDS), fault="a word")
    listed = [finding("hard", line, text=f"w{line}", about="hard words") for line in (1, 2, 3)]
    found = points(*listed, finding("slip", 2, text="w2"), finding("slip", 5, text="w2"), rules=(hard, slip))
    assert sorted(map(lines, found)) == [[1, 3], [2, 2, 5]]


def test_a_way_that_is_for_one_thing_alone_gathers_nothing_else():
    one = rule("one", Gather(Within.COURSE, By.ABOUT, "Names: {words}.", only="a name"), Gather(Within.UNIT, By.ABOUT))
    found = [
        finding(line=line, path=path, text=f"w{line}", about=about)
        for line, path, about in ((1, "a", "a name"), (2, "b", "a name"), (3, "a", "hard"), (4, "b", "hard"))
    ]
    assert sorted(map(lines, points(*found, rules=(one,)))) == [[1, 2], [3], [4]]
