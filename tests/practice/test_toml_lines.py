"""Where values stand in a file. Lines are counted by eye."""

import pytest

from workbook.practice.toml_lines import lines_of, nearest

TEXT = '''form = 1
prompt = """
answer = 3
[wrong]
"""
# """ in a comment
hints = [
  "a = 1",
]

[answer]
value = 9
[answer.computed]
calculation = "plus"

[[wrong]]
value = 1
[[wrong]]
coaching = \'\'\'one
value = 5\'\'\'
[wrong.value]
a = 2
[[target.lever]]
low = 0
[[ target.lever ]]
low=1
'''


@pytest.mark.parametrize(
    ("place", "line"),
    [(("form",), 1), (("prompt",), 2), (("hints",), 7), (("answer",), 11),
     (("answer", "value"), 12),
     (("answer", "computed", "calculation"), 14), (("wrong", 0), 16), (("wrong", 0, "value"), 17),
     (("wrong", 1, "coaching"), 19), (("wrong", 1, "value"), 21), (("wrong", 1, "value", "a"), 22),
     (("target", "lever", 0, "low"), 24), (("target", "lever", 1, "low"), 26)],
)  # fmt: skip
def test_line_of_a_place(place, line):
    assert lines_of(TEXT)[place] == line


def test_what_stands_nowhere_has_the_line_of_its_table_or_the_first():
    found = lines_of(TEXT)
    assert nearest(found, ("answer", "unit")) == 11
    assert nearest(found, ("wrong", 1, "value", "b")) == 21
    assert nearest(found, ("wrong", 7, "value")) == nearest(found, ("level",)) == 1
    assert ("value",) not in found and ("a",) not in found


def test_only_a_line_feed_ends_a_line():
    found = lines_of('a = "x\u2028y\x85z\x0cw"\r\nb = 1\r\n')
    assert found[("a",)] == 1 and found[("b",)] == 2


def test_odd_text_gives_places_or_none():
    odd = ["", "\n", "=", "[", "[[", "[]", "[.]", "[a..b]", "[[a]", '"""', "'''\n\"\"\"\na=1"]
    for text in odd:
        assert all(line >= 1 for line in lines_of(text).values())
