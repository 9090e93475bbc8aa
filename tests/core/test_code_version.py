"""What is kept is bound to the code and the tables that made it: a table that changes in one number is another one."""

import numpy as np

from lint_rules.code_version import digest_of


def digest(folder):
    digest_of.cache_clear()  # a process asks once: its code does not change under it
    return digest_of(folder)


def test_one_number_of_a_learned_table_makes_another_version(tmp_path):
    numbers = np.zeros(1_000_000, dtype=np.int8)
    for save in (np.savez, np.savez_compressed):
        save(tmp_path / "table.npz", numbers=numbers, more=np.zeros(100_000))
        first = digest(tmp_path)
        assert digest(tmp_path) == first
        numbers[500_000] += 1
        save(tmp_path / "table.npz", numbers=numbers, more=np.zeros(100_000))
        assert digest(tmp_path) != first


def test_one_letter_of_code_or_a_word_list_makes_another_version(tmp_path):
    for name in ("rule.py", "words.txt", "levels.csv"):
        (tmp_path / name).write_text("one\n", encoding="utf-8")
        first = digest(tmp_path)
        (tmp_path / name).write_text("two\n", encoding="utf-8")
        assert digest(tmp_path) != first
