"""The rules' names and families are promised: stets, course files, carried findings and old reports hold them."""

from lint_rules.engine.registry import load_rules, rule_paths

PROMISED = {
    "language level": "word-above-level word-before-taught grammar-above-level grammar-before-taught long-sentence"
    " long-text",
    "instructions": "long-instruction too-many-steps unfamiliar-instruction-word instruction-wording-varies",
    "teacher's notes": "missing-grammar-label grammar-label-mismatch grammar-term-on-page missing-note-field"
    " material-not-listed promised-word-missing",
    "timing": "lesson-length lesson-time-mismatch missing-time unlikely-time course-hours",
    "safety": "missing-safety-note unconfirmed-draft sensitive-topic",
    "unit pattern": "unit-pattern missing-recurring-activity activity-numbering broken-reference audio-script",
    "exercises": "answers-mismatch word-box-mismatch letter-gap-mismatch jumbled-mismatch duplicate-option missing-gap"
    " instruction-count-mismatch key-makes-bad-english two-right-answers model-length"
    " key-against-text",
    "activities": "short-survey picture-sentence-not-in-story unclear-odd-one-out mind-map-misfit"
    " sound-spelling-mismatch art-brief",
    "vocabulary map": "target-word-not-taught word-not-recycled word-not-tested test-beyond-unit test-skills",
    "correct English": "english-error spelling-variety",
    "housekeeping": "stet-without-reason stet-unused stet-lapsed unreadable-manuscript",
}


def test_every_promised_rule_is_there_in_its_family():
    promised = {name: family for family, names in PROMISED.items() for name in names.split()}
    own = {module.rule.name: module.rule.family for module in load_rules() if module.code in rule_paths()}
    assert own == promised
