"""Marks of keep lines on the rim, against plain geometry of rectangles and circles."""

from __future__ import annotations

import math

import pytest

from edgewright.design.outline import Arc, Line, Outline, rectangle
from edgewright.design.trims.keep_marks import keep_marks

NAMES = ("south", "east", "north", "west")


@pytest.mark.example
def test_a_cut_along_the_north_is_marked_on_both_ends() -> None:
    marks = keep_marks(rectangle(1800, 1000), NAMES, Line((0.0, 900.0), (1800.0, 850.0)))
    assert [(m.edge, m.corner) for m in marks] == [("west", "north"), ("east", "north")]
    assert [m.distance for m in marks] == pytest.approx([100.0, 150.0])
    assert all(m.sharp for m in marks)


@pytest.mark.example
def test_a_line_within_the_top_is_drawn_on_to_the_rim() -> None:
    marks = keep_marks(rectangle(1800, 1000), NAMES, Line((500.0, 950.0), (600.0, 950.0)))
    assert [m.at for m in marks] == [pytest.approx((0.0, 950.0)), pytest.approx((1800.0, 950.0))]


@pytest.mark.reference
def test_on_a_round_top_the_distance_runs_along_the_rim() -> None:
    # arc length = radius times angle (definition of the radian)
    circle = Outline(
        (
            Arc((300.0, 0.0), (-300.0, 0.0), (0.0, 0.0), 300.0, math.pi),
            Arc((-300.0, 0.0), (300.0, 0.0), (0.0, 0.0), 300.0, math.pi),
        )
    )
    height = 300 * math.sin(math.radians(30))
    marks = keep_marks(circle, ("north half", "south half"), Line((-10.0, height), (10.0, height)))
    assert [m.distance for m in marks] == pytest.approx([300 * math.radians(30)] * 2)
    assert {m.corner for m in marks} == {"south half"}
    # nothing is seen where the two halves meet
    assert not any(m.sharp for m in marks)


@pytest.mark.example
def test_a_line_that_ends_in_a_corner() -> None:
    marks = keep_marks(rectangle(1800, 1000), NAMES, Line((0.0, 0.0), (1800.0, 1000.0)))
    assert [m.distance for m in marks] == [0.0, 0.0]
    assert {m.edge for m in marks} <= set(NAMES)
