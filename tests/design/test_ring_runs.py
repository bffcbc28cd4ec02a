"""How an outline is divided into runs and corners."""

import math

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from region_cases import DUMBBELL, L_POINTS, circle, polygon, rounded
from ring_cases import numbered, rules

from edgewright.design.check_buildup import largest_corner_radius
from edgewright.design.outline import Line, Outline, rectangle
from edgewright.design.ring_runs import largest_rounding, ring_runs


@pytest.mark.reference
@pytest.mark.parametrize(("width", "most"), [(1.375, 2.1), (1.5, 2.6), (1.875, 3.8), (2.5, 6.0), (3, 7.7)])
def test_rounding_of_a_right_angle(width, most):
    """Computed table for a ring 1-1/16 in wide, rounded as printed; and the formula of the right angle."""
    found = largest_rounding(width, 1.0625, math.pi / 2)
    assert found == pytest.approx(most, abs=0.051)
    assert found == pytest.approx(largest_corner_radius(width, 1.0625), rel=1e-12)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=60)
@given(st.floats(math.radians(20), math.radians(150)), st.floats(20, 80), st.floats(0.5, 1))
def test_at_the_largest_rounding_the_ring_is_just_wide_enough(turn, width, share):
    """Narrowest place between a sampled arc and the inner edges of two long strips, at any corner."""
    ring = share * width
    radius = largest_rounding(width, ring, turn)
    reach = radius * math.tan(turn / 2)
    # corner at the origin, one edge arriving along the x axis, the other leaving turned to the left
    towards, away = complex(-1, 0), complex(math.cos(turn), math.sin(turn))
    centre = reach * towards + 1j * radius
    arc = shapely.LineString(
        [
            ((centre - 1j * radius * complex(math.cos(a), math.sin(a))).real,
             (centre - 1j * radius * complex(math.cos(a), math.sin(a))).imag)
            for a in (turn * step / 2000 for step in range(2001))
        ]
    )  # fmt: skip
    inner = (width / math.cos(turn / 2)) * 1j * complex(math.cos(turn / 2), math.sin(turn / 2))
    far = 20 * (radius + width)
    ends = [inner + far * towards, inner, inner + far * away]
    corner = shapely.LineString([(z.real, z.imag) for z in ends])
    if radius > width:
        assert arc.distance(corner) == pytest.approx(ring, rel=1e-4)


@pytest.mark.example
def test_small_roundings_are_corners_and_larger_ones_blocks_or_curves():
    """Strips cover (38.5 - 30/√2)/0.2929 = 59.0; a block of at most 254 takes R + 40."""
    outline = rectangle(1200, 900, (59, 60, 214, 215))
    runs, corners = ring_runs(outline, numbered(outline), rules())
    # south, the block at 60, east, the block at 214, north, the curve of 215, west, the corner at 59
    assert [run.line is None for run in runs] == [False, False, False, True, False]
    assert [corner.kind for corner in corners] == ["block", "block", "smooth", "smooth", "square"]
    assert [corner.radius for corner in corners] == [60, 214, 0, 0, 59]
    assert corners[0].vertex == pytest.approx((1200, 0))
    assert corners[0].name == "edge 2"
    # the straight runs reach to the sharp corners, the curve to its own ends
    assert [run.length for run in runs] == pytest.approx([1200, 900, 985, 215 * math.pi / 2, 685])
    assert runs[0].plain == pytest.approx(1200 - 59 - 60)


@pytest.mark.example
def test_kinds_of_corner():
    outline = rounded(list(L_POINTS), [0, 0, 0, 80, 0, 0])
    _, corners = ring_runs(outline, numbered(outline), rules())
    assert [corner.kind for corner in corners].count("inside block") == 1
    inside = next(corner for corner in corners if corner.kind == "inside block")
    assert (inside.turn, inside.radius) == pytest.approx((-math.pi / 2, 80))
    assert inside.vertex == pytest.approx((600, 600))
    # a triangle of 60° has mitres; a side 5° off square is still butted
    flat = polygon((0, 0), (1000, 0), (500, 866))
    assert {corner.kind for corner in ring_runs(flat, numbered(flat), rules())[1]} == {"mitre"}
    lean = polygon((0, 0), (1000, 0), (1000 + 800 * math.tan(math.radians(5)), 800), (0, 800))
    assert {corner.kind for corner in ring_runs(lean, numbered(lean), rules())[1]} == {"square"}
    kinds = [corner.kind for corner in ring_runs(DUMBBELL.outer, numbered(DUMBBELL.outer), rules())[1]]
    assert (kinds.count("square"), kinds.count("inside block")) == (8, 4)


@pytest.mark.example
def test_a_circle_is_one_run_and_lines_that_run_on_are_one():
    runs, corners = ring_runs(circle(0, 0, 500, hole=False), ("south", "north"), rules())
    assert (len(runs), corners) == (1, ())
    # south side in three parts, the loop begins in the middle of it
    split = Outline(
        (
            *(Line((400, 0), (700, 0)), Line((700, 0), (1000, 0)), Line((1000, 0), (1000, 600))),
            *(Line((1000, 600), (0, 600)), Line((0, 600), (0, 0)), Line((0, 0), (400, 0))),
        )
    )
    runs, corners = ring_runs(split, ("b", "c", "east", "north", "west", "a"), rules())
    assert len(corners) == 4
    assert {run.names for run in runs} == {("a", "b", "c"), ("east",), ("north",), ("west",)}
