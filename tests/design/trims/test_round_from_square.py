"""Corner blanks of a round cut from its own square, against the search in the corner's own outline."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewright.design.outline import Arc, Line, Outline
from edgewright.design.region import Region
from edgewright.design.trims.clear_rectangle import widest_blank
from edgewright.design.trims.round_from_square import corner_blank_length, corner_blank_width
from edgewright.errors import GeometryError


def corner(radius: float, kerf: float, half: float) -> Region:
    """What a round cut with a kerf leaves of the north-east corner of a square."""
    cut = radius + kerf
    return Region(
        Outline(
            (
                Line((cut, 0), (half, 0)),
                Line((half, 0), (half, half)),
                Line((half, half), (0, half)),
                Line((0, half), (0, cut)),
                Arc((0, cut), (cut, 0), (0, 0), cut, -math.pi / 2),
            )
        )
    )


@pytest.mark.example
@pytest.mark.parametrize(("across", "length", "width"), [(48, 12, 3.94), (48, 14, 2.94), (36, 10, 2.46)])
def test_blanks_of_common_rounds_in_inches(across, length, width):
    # R (sqrt 2 - 1) - l/2, worked by hand: 24 x 0.41421 - 6 = 3.941
    assert corner_blank_width(across / 2, length) == pytest.approx(width, abs=0.005)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=25)
@given(st.floats(200, 900), st.floats(0.05, 0.95), st.floats(1, 12), st.floats(12.5, 120))
def test_the_formula_is_the_largest_that_the_corner_holds(radius, share, kerf, extra):
    half = radius + extra
    length = share * corner_blank_length(radius, 1e-6, kerf, 2 * half)
    width = corner_blank_width(radius, length, kerf, 2 * half)
    found = widest_blank(corner(radius, kerf, half), length, (-1, 1))

    assert found is not None
    assert found.width == pytest.approx(width, rel=1e-6, abs=1e-6)
    assert corner_blank_length(radius, width, kerf, 2 * half) == pytest.approx(length)


@pytest.mark.example
def test_a_length_beyond_the_corner_gives_nothing_and_false_figures_are_refused():
    assert corner_blank_width(600, 600) == 0
    assert corner_blank_length(600, 300) == 0
    for figures in ((0, 10), (100, 0), (100, 10, -1), (100, 10, 1, 150)):
        with pytest.raises(GeometryError, match="must be"):
            corner_blank_width(*figures)
