"""Text on the page that no rule reads, or reads otherwise than a person, is a problem; what belongs is left alone."""

import pytest

from lint_rules.manuscript.model import Problem
from lint_rules.manuscript.reading import read_unit
from lint_rules.source import Source

HEAD = "---\nlevel: level-1\nunit: 1\ntitle: T\n---\n\n# T\n\n## Lesson 1: L {.words}\n\n### 1 Look. {.reading}\n\n"


def problems(body: str) -> list[tuple[str, Problem]]:
    unit = read_unit(Source("level-1/unit-01.md", HEAD + body))
    return [(unit.source.slice(problem.span), problem) for problem in unit.problems]


@pytest.mark.parametrize(
    ("body", "words", "blocks"),
    [
        ("    The hippo has eaten.\n", "    The hippo has eaten.", True),
        ("- one\n\n      She has eaten.\n", "      She has eaten.", True),
        ("```\nThe hippo has eaten.\n```\n", "```", False),
        ("~~~ {=html}\n<b>The hippo</b>\n~~~\n", "~~~ {=html}", False),
        ("<style>\np { }\n</style>\n", "<style>", True),
        ("<textarea>\nThe hippo\n</textarea>\n", "<textarea>", True),
        ('Look <span style="display:none">here</span>.\n', '<span style="display:none">', False),
        ('<div hidden="x">\nThe hippo.\n</div>\n', '<div hidden="x">', False),
        ("Look <?php echo 1 ?> here.\n", "<?php echo 1 ?>", True),
        ("Look <![CDATA[ the hippo ]]> here.\n", "<![CDATA[ the hippo ]]>", True),
        ("The с\u0430t is here.\n", "с\u0430t", True),
        ("The cаt is here.\n", "cаt", True),
        ("### 2 Read the bοok.\n", "bοok", True),
        ("Say сосо.\n", "сосо", False),
        ("The ｃａｔ sat.\n", "ｃａｔ", False),
        ("The 𝐜𝐚𝐭 sat.\n", "𝐜𝐚𝐭", False),
        ("The ﬁsh swims.\n", "ﬁsh", False),
        ("The ki\u200bte flies.\n", "ki\u200bte", False),
        ("The ki\u00adte flies.\n", "ki\u00adte", False),
        ("The ki\u2060te flies.\n", "ki\u2060te", False),
        ("A \u202eetik\u202c flies.\n", "\u202eetik\u202c", True),
        ("A \u2067kite\u2069 flies.\n", "\u2067kite\u2069", True),
        ("A ki\x1b[31mte flies.\n", "ki\x1b[31mte", True),
        ("A kite.\x07\n", "kite.\x07", True),
        ("<!-- a \u202e comment -->\n\nA kite.\n", "\u202e", True),
    ],
)
def test_what_no_rule_reads_is_a_problem_at_its_words(body, words, blocks):
    found = problems(body)
    assert (words, blocks) in [(text, problem.blocks) for text, problem in found], found
    assert all(len(problem.message.split()) <= 35 for _, problem in found)


@pytest.mark.parametrize(
    "body",
    [
        "Café, naïve, Zoë, Łódź, İzmir and Đorđe.\n",
        "Look: 👩‍👩‍👧 ❤️ 1️⃣ 🏴󠁧󠁢󠁥󠁮󠁧󠁿 👍🏽 ☕︎\n",
        "/θɪŋk/ and /ˈbɑːðə/ and /tʰ/\n",
        "Привет! Καλημέρα! مرحبا 你好\n",
        "می‌خواهم क्‍ष\n",
        "½ of ① № ™ Ω µ ² …\n",
        "H<sub>2</sub>O, <b>bold</b><br>and <u>so</u> on.\n",
        "<div>\nA kite.\n</div>\n",
        "Visit <http://example.org>.\n",
        "```\nK I T E\nA B C D\n```\n",
        "```\n/\\_/\\\n( o.o )\n```\n",
        "- one\n\n    two, still of the item\n",
        "a < b and 3 > 2\n",
        "It is `kite`.\n",
        "<!-- a note -->\n\nA kite.\n",
    ],
)
def test_what_belongs_is_left_alone(body):
    assert problems(body) == []
