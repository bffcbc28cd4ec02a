"""How an outline is divided into runs and corners."""

import math

import pytest
from region_cases import DUMBBELL, L_POINTS, circle, polygon, rounded
from ring_cases import numbered, rules

from edgewright.design.buildup.ring_runs import ring_runs
from edgewright.design.outline import Line, Outline, rectangle


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
