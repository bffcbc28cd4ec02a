"""Lines of keys in a TOML text."""

import tomllib

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewright.job_lines import key_lines, line_of

TEXT = '''# a comment with [brackets] and key = 1
a.b = 1
"quoted \\u0041" = "x # no comment"

[top]   # header
thickness = [   # list over lines
  "3/4 in",  # ] in a comment
  "[",
]
after = """
[not a table]
key = 1 ""\\"" "
"""
'lit.eral' = \'\'\'
x = 1\'\'\'
inline = {a = {b = "}"}, c = [1, 2]}

[[stock]]
name = "a"
[stock.more]
z = 1
[[stock]]
name = 'b'
'''


@pytest.mark.example
def test_every_kind_of_key_is_found() -> None:
    tomllib.loads(TEXT)  # the text itself is sound
    lines = key_lines(TEXT)
    rows = TEXT.split("\n")

    expected = {
        ("a",): "a.b", ("a", "b"): "a.b", ("quoted A",): '"quoted', ("top",): "[top]",
        ("top", "thickness"): "thickness", ("top", "after"): "after", ("top", "lit.eral"): "'lit",
        ("top", "inline"): "inline", ("stock",): "[[stock]]", ("stock", 0, "name"): 'name = "a"',
        ("stock", 0, "more"): "[stock.more]", ("stock", 0, "more", "z"): "z =",
        ("stock", 1, "name"): "name = 'b'",
        ("stock", 0): "[[stock]]", ("stock", 1): "[[stock]]",
    }  # fmt: skip
    assert lines.keys() == expected.keys()
    for place, start in expected.items():
        assert rows[lines[place] - 1].startswith(start), place


@pytest.mark.example
def test_the_nearest_table_stands_in_for_a_key_that_is_not_there() -> None:
    lines = key_lines("\n[top]\nwidth = 1\n")

    assert line_of(("top", "length"), lines) == 2
    assert line_of(("top", "width", 3), lines) == 3
    assert line_of(("job", "title"), lines) is None


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=200)
@given(st.lists(st.text(max_size=12), min_size=1, max_size=6))
def test_values_never_hide_the_key_that_follows(values: list[str]) -> None:
    """Whatever stands in strings, key number i is found on line i + 1."""
    escape = {c: f"\\u{ord(c):04X}" for c in [*map(chr, range(32)), "\\", '"', "\x7f"]}
    rows = [f'k{i} = "{"".join(escape.get(c, c) for c in value)}"' for i, value in enumerate(values)]
    text = "\n".join(rows).encode("utf-8", "replace").decode()
    tomllib.loads(text)

    assert key_lines(text) == {(f"k{i}",): i + 1 for i in range(len(values))}
