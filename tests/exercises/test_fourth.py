"""The fourth and seventh set of exercises, in layouts that the others had not: nothing is said of a clean one, and each
fault is found but for those that need sense.

They have been learnt from, so this holds what works; what it is worth on others is in DEVELOPERS.md.
"""

import pytest

from lint_rules.finding import Finding
from lint_rules.language.service import Language
from tests.exercises.measure import ABOUT_LEVEL, exercises, findings_of, is_at

EXERCISES = [*exercises("fourth"), *exercises("seventh")]
# Lucy and Anna are both right to whoever knows that both are girls.
NEED_SENSE = ["G-054"]


@pytest.fixture(scope="module")
def found(language: Language) -> dict[str, tuple[list[Finding], str]]:
    return findings_of(EXERCISES, language)


def test_nothing_is_said_of_a_clean_one(found):
    said = [(one.id, finding.rule) for one in EXERCISES if not one.fault for finding in found[one.id][0]]
    assert [(id_, rule) for id_, rule in said if rule not in ABOUT_LEVEL] == []


def test_each_fault_is_found_at_its_words(found):
    missed = []
    for one in (one for one in EXERCISES if one.fault):
        findings, text = found[one.id]
        if not any(finding.rule == one.fault and is_at(finding, one, text) for finding in findings):
            missed.append(one.id)
    assert missed == NEED_SENSE
