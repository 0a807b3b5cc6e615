"""The line of each key of a TOML text, whatever the text is written like."""

from __future__ import annotations

import tomllib

from mealopt.people.lines import key_lines, line_of

TEXT = '''a = 1 # [not] = a table
"b c" = "x = 1"
d = [ # a list
  "]", 'k = 1',
]
long = """
e = 1 \\"""
[f]
"""
raw = \'\'\'
g = "1"
\'\'\'
h.i = 2

[t]
a = { x = 1, y = [1, 2] }
b = 3

[[l]]
a = 1
[[l.m]]
a = 2
[[l.m]]
a = 3
[l.n]
a = 4
[[ l ]]
  a = 5
[[l.m]]
a = 6
[o.p."q r"]
a = 7
'''


def test_every_key_has_its_line() -> None:
    assert tomllib.loads(TEXT)
    lines = key_lines(TEXT)
    assert {path: number for path, number in lines.items() if path[0] not in ("l", "t", "o")} == {
        ("a",): 1, ("b c",): 2, ("d",): 3, ("long",): 6, ("raw",): 10, ("h", "i"): 13,
    }  # fmt: skip
    assert {path: number for path, number in lines.items() if path[0] in ("l", "t", "o")} == {
        ("t",): 15, ("t", "a"): 16, ("t", "b"): 17,
        ("l", 0): 19, ("l", 0, "a"): 20, ("l", 0, "m", 0): 21, ("l", 0, "m", 0, "a"): 22, ("l", 0, "m", 1): 23,
        ("l", 0, "m", 1, "a"): 24, ("l", 0, "n"): 25, ("l", 0, "n", "a"): 26,
        ("l", 1): 27, ("l", 1, "a"): 28, ("l", 1, "m", 0): 29, ("l", 1, "m", 0, "a"): 30,
        ("o", "p", "q r"): 31, ("o", "p", "q r", "a"): 32,
    }  # fmt: skip


def test_a_key_without_a_line_takes_that_of_what_holds_it() -> None:
    lines = key_lines(TEXT)
    assert line_of(lines, ("t", "a", "y", 1)) == 16
    assert line_of(lines, ("l", 1, "missing")) == 27
    assert line_of(lines, ("nowhere",)) is None
    assert line_of({}, ("a",)) is None
