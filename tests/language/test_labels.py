"""Grammar labels as they stand in teachers' notes (wordings: common practice, no source), and terms of grammar."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lint_rules.language.grammar.label_patterns import stands_in
from lint_rules.language.grammar.labels import (
    all_grammar_terms,
    grammar_terms,
    is_label_read,
    patterns_that_teach,
    structures_of_label,
)
from lint_rules.language.grammar.structures import STRUCTURE_NAMES
from lint_rules.tables import rows

LABELS = """
present continuous                          present-continuous
Present Progressive                         present-continuous
the present progressive tense               present-continuous
present continuous (affirmative)            present-continuous
Present continuous: questions               present-continuous
Present simple, third person -s             present-simple
Present Simple Questions                    present-simple
present simple and present continuous       present-simple present-continuous
present simple vs. continuous               present-simple present-continuous
present simple: be                          present-simple-be
Present simple (to be)                      present-simple-be
the verb be                                 present-simple-be
verb to be: affirmative and negative        present-simple-be
am/is/are                                   present-simple-be
To be: I'm, you're                          present-simple-be
was / were                                  past-simple-be
past simple (was/were)                      past-simple-be
past simple: regular and irregular verbs    past-simple
simple past                                 past-simple
past progressive                            past-continuous
present perfect with ever and never         present-perfect
present perfect continuous                  perfect-continuous
past perfect                                past-perfect
have got (questions)                        have-got
have/has got                                have-got
I've got / He’s got                         have-got
have to / don't have to                     have-to
There is/are                                there-is
there is / there are                        there-is
There’s / There are                         there-is
can for ability                             can
can/can’t                                   can
can: I can swim, but I must go.             can
modals: can, must                           can must
modal verbs (should)                        should
may/might                                   may-might
could for past ability                      could
must and mustn't                            must
would like                                  would
would like to + verb                        would verb-to-infinitive
want to + verb                              verb-to-infinitive
like + -ing                                 verb-ing
like + verb-ing                             verb-ing
gerunds                                     verb-ing
verb + object + to-infinitive               object-to-infinitive
to + infinitive (purpose)                   infinitive-of-purpose
infinitives of purpose                      infinitive-of-purpose
be going to                                 going-to-future
future with will                            future-will
will and going to                           future-will going-to-future
Wh- questions                               wh-question
wh-questions and short answers              wh-question
question words: what, who, where            wh-question
who and which                               wh-question
yes/no questions                            yes-no-question
comparatives                                comparative
Comparative adjectives (-er)                comparative
comparatives and superlatives               comparative superlative
relative clauses with who and which         relative-clause
zero and first conditional                  if-clause
second conditional                          second-or-third-conditional
time clauses with when                      time-clause
when                                        time-clause
why and because                             because-clause
reported speech                             reported-clause
question tags                               tag-question
used to                                     used-to
passive voice (present simple)              passive
Let’s + verb                                lets
imperatives (affirmative and negative)      imperative
can; present continuous; there is/are       can present-continuous there-is
present simple - I like / I must not like   present-simple
I've got …                                  have-got
It's got ...                                have-got
Can I have …, please?                       yes-no-question can
Can I have ____?                            yes-no-question can
What's your name? I'm …                     wh-question present-simple-be
Where is …?                                 wh-question present-simple-be
What's this? It's a kite.                   wh-question present-simple-be
I like / I don't like                       present-simple
Do you like …?                              yes-no-question present-simple
There is a … in …                           there-is
Let's …                                     lets
She's …ing                                  present-continuous
Have you ever …?                            yes-no-question present-perfect
past simple; Did you …?                     yes-no-question past-simple
past continuous with past simple and *when* past-continuous past-simple
want to …                                   verb-to-infinitive
present simple and past simple passive      passive
passive (present simple and past simple)    passive
present continuous: is / are + *-ing*       present-continuous
was / were + verb-ing                       past-continuous
like + -ing                                 verb-ing
going to …                                  going-to-future
can: Can I swim?                            can
"""

NO_LABELS = """
food and drink
animals
The weather
prepositions of place
please?
this/that/these/those
possessive 's
plurals
"""


@pytest.mark.parametrize("line", LABELS.strip().splitlines())
def test_labels_as_teachers_write_them(line):
    label, names = line[:44].strip(), tuple(line[44:].split())
    assert structures_of_label(label) == names


@pytest.mark.parametrize("label", NO_LABELS.strip().splitlines())
def test_other_words_are_no_labels(label):
    assert structures_of_label(label) == ()


@pytest.mark.parametrize(
    ("label", "structure", "text", "taught"),
    [
        ("Can I have …?", "can", "Can I have a kite?", True),
        ("Can I have …?", "can", "I can swim.", False),
        ("I've got …", "have-got", "I have got a kite.", True),
        ("I've got …", "have-got", "She has got a kite.", False),
        ("Where is …?", "wh-question", "Where’s my kite?", True),
        ("Where is …?", "wh-question", "What is it?", False),
        ("Is there a … in …?", "there-is", "Is there a big cat in the box?", True),
        ("She's …ing", "present-continuous", "She is running.", True),
    ],
)
def test_a_pattern_is_as_narrow_as_it_is_written(label, structure, text, taught):
    assert stands_in(patterns_that_teach(structure, label), text, 0, len(text)) == taught


def test_a_name_has_all_that_belongs_to_it():
    assert patterns_that_teach("can", "can") == ()
    assert patterns_that_teach("past-simple", "past simple; Did you …?") == ()


@pytest.mark.parametrize("label", ["under / behind", "my / your", "plurals", "Put on …", "possessive 's", "can"])
def test_labels_that_say_something(label):
    assert is_label_read(label)


@pytest.mark.parametrize("label", ["our own pattern", "food and drink", "The weather"])
def test_labels_that_nobody_can_read(label):
    assert not is_label_read(label)


@pytest.mark.parametrize("name", STRUCTURE_NAMES)
def test_every_structure_can_be_called_by_its_own_name(name):
    assert structures_of_label(name) == (name,)
    assert structures_of_label(name.replace("-", " ").upper()) == (name,)


def test_the_table_names_structures_that_exist_and_no_label_twice():
    table = rows("grammar_labels.csv")
    assert {name for _, names, _, _ in table for name in names.split("|") if name} == set(STRUCTURE_NAMES)
    assert len({label for label, *_ in table}) == len(table)
    assert {alone for _, _, alone, _ in table} == {"", "yes"}


@given(
    st.lists(st.sampled_from([row[0] for row in rows("grammar_labels.csv")] + ["(", ")", ":", ";", "/", "and", "x"]))
)
def test_any_mixture_of_labels_is_read(pieces):
    assert set(structures_of_label(" ".join(pieces))) <= set(STRUCTURE_NAMES)


@given(st.text(max_size=30))
def test_any_text_is_read(text):
    assert set(structures_of_label(text)) <= set(STRUCTURE_NAMES)


def test_terms_for_the_teacher_and_words_a_child_may_see():
    teachers = {term.term for term in grammar_terms()}
    children = {term.term for term in all_grammar_terms() if not term.teacher_only}
    assert {"present continuous", "past participle", "comparative", "preposition", "modal verb"} <= teachers
    assert {"noun", "verb", "adjective", "plural", "question", "sentence"} <= children
    assert not teachers & children


def test_terms_come_longest_first_so_that_the_whole_term_is_found():
    terms = [term.term for term in grammar_terms()]
    assert terms.index("present perfect continuous") < terms.index("present perfect")
    assert [len(term) for term in terms] == sorted(map(len, terms), reverse=True)


def test_a_term_of_the_table_that_names_a_structure_is_for_the_teacher():
    """A word that an author would take for a grammar label is no word for a child's page, question words apart."""
    named = {term.term for term in all_grammar_terms() if structures_of_label(term.term) and not term.teacher_only}
    assert named <= {"question word", "past", "present", "passive"}
