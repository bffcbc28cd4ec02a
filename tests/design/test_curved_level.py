"""Length and area of a curved piece of the levels, against the moved loop drawn as an outline."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from region_cases import BITTEN, LENS

from edgewright.design.curved_level import CurvedLevel
from edgewright.design.shapes.bowed import boat
from edgewright.design.wavefront import region_levels

TOPS = {"lens": LENS, "bitten": BITTEN, "boat": boat(2000.0, 800.0, 1000.0).region}


def curved(name: str, still: frozenset[int] = frozenset()) -> CurvedLevel:
    (levels,) = region_levels(TOPS[name], 20.0, still)
    return next(level for level in levels if isinstance(level, CurvedLevel))


@pytest.mark.example
def test_a_lens_of_two_circles_stays_a_lens() -> None:
    """Two circles of 500 - d, centres 800 apart: half angle φ = acos(400/R), P = 4 R φ, A = R² (2 φ - sin 2 φ)."""
    level = curved("lens")
    for d in (0.0, 5.0, 20.0):
        radius = 500 - d
        half = math.acos(400 / radius)
        assert level.perimeter(d) == pytest.approx(4 * radius * half, rel=1e-13)
        assert level.area(d) == pytest.approx(radius**2 * (2 * half - math.sin(2 * half)), rel=1e-12)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=40, database=None)
@given(name=st.sampled_from(sorted(TOPS)), share=st.floats(0, 1), wall=st.booleans())
def test_agrees_with_the_moved_outline(name: str, share: float, wall: bool) -> None:
    still = frozenset({0}) if wall and name != "lens" else frozenset[int]()
    level = curved(name, still)
    d = level.d_from + share * (level.d_to - level.d_from)
    outline = level.front.outline(d)
    assert outline is not None
    assert level.area(d) - level.area_off == pytest.approx(outline.area, rel=1e-12)
    if not still:
        assert level.perimeter(d) == pytest.approx(outline.length, rel=1e-12)
