"""Lengths of a sentence in the job's units: exact 64ths alone, others marked and with their millimetres."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewright.cutlist.said_lengths import in_units


@pytest.mark.example
@pytest.mark.parametrize(
    ("said", "read"),
    [
        ("kerf is 12.7 mm", "kerf is 1/2 in"),
        # 12.8 / 25.4 * 64 = 32.25 sixty-fourths
        ("kerf is 12.8 mm;", "kerf is ~1/2 in (12.8 mm);"),
        ("at most 0 mm is allowed", "at most 0 in is allowed"),
        ("-25.4 mm are left", "-1 in are left"),
        ("near (25.4, -12.7) mm: move", "near (1, -1/2) in: move"),
        ("from (0, 25.4) to (50.8, 10) mm misses", "from (0, 1) to (2, ~25/64) in misses"),
        ("is 25.4 x 50.8 mm; both", "is 1 x 2 in; both"),
        ("a cut-out of 254 by 127 mm allows", "a cut-out of 10 by 5 in allows"),
        ("area 645.16 mm²; it", "area 645.16 mm²; it"),
        ("no length at all, 3 corners, 90° and 4 mmm", "no length at all, 3 corners, 90° and 4 mmm"),
        ("a length of 1e+08 mm; at", "a length of ~3.937e+06 in (1e+08 mm); at"),
    ],
)
def test_sentences_are_read_in_inches(said, read):
    assert in_units(said, "in") == read
    assert in_units(said, "mm") == said


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=200)
@given(sixty_fourths=st.integers(-20000, 20000))
def test_a_figure_on_the_tape_comes_back_exactly(sixty_fourths):
    said = in_units(f"it is {sixty_fourths / 64 * 25.4:.10g} mm long", "in")
    words = said.removeprefix("it is ").removesuffix(" in long").split()
    sign = -1 if words[0].startswith("-") else 1
    words[0] = words[0].removeprefix("-")
    total = sum(int(a) / int(b or 1) for a, _, b in (word.partition("/") for word in words))
    assert sign * total * 64 == sixty_fourths
