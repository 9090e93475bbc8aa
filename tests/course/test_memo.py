"""What is worked out once for a course."""

from lint_rules.course.memo import memo


def test_the_same_thing_is_worked_out_once_and_an_equal_one_anew():
    asked: list[list[int]] = []

    @memo
    def total(numbers: list[int]) -> int:
        """Add up."""
        asked.append(numbers)
        return sum(numbers)

    first, equal, other = [1, 2], [1, 2], [3]
    assert [total(first), total(first), total(equal), total(other), total(first)] == [3, 3, 3, 3, 3]
    assert [id(numbers) for numbers in asked] == [id(first), id(equal), id(other), id(first)]
    assert total.__doc__ == "Add up."
