"""Stretches of edge that people sit along, from corner to corner."""

import math

import pytest
from region_cases import circle, polygon

from edgewright.design.outline import rectangle
from edgewright.design.seat_runs import runs
from edgewright.design.shapes.corners import round_corners
from edgewright.design.shapes.model import Shape

IN = 25.4
CHAIR = 21 * IN


def lengths(outline, still=()):
    return [round(run.length / IN, 3) for run in runs(outline, still, CHAIR)]


@pytest.mark.example
@pytest.mark.parametrize("radius", [0, 2, 6])
def test_a_rounded_corner_costs_no_place(radius):
    """72 x 36 in counts as its nominal sides, whatever its corners."""
    outline = rectangle(72 * IN, 36 * IN, (radius * IN,) * 4)
    assert sorted(lengths(outline)) == [36, 36, 72, 72]


@pytest.mark.example
def test_a_clipped_corner_counts_as_one_and_an_octagon_as_round():
    """Clipped by 3 in: the sides still meet where they would have met. Eight corners of 45 degrees are no corners."""
    clipped = polygon((3, 0), (69, 0), (72, 3), (72, 36), (0, 36), (0, 3))
    assert sorted(lengths(polygon(*((x * IN, y * IN) for x, y in corners_of(clipped))))) == [36, 36, 72, 72]
    eighths = [math.pi * n / 4 for n in range(8)]
    (run,) = runs(polygon(*((650 * math.cos(a), 650 * math.sin(a)) for a in eighths)), (), CHAIR)
    assert run.closed
    assert run.length == pytest.approx(16 * 650 * math.sin(math.pi / 8))


def corners_of(outline):
    return [segment.start for segment in outline.segments]


@pytest.mark.example
def test_people_sit_all_round_a_circle():
    (run,) = runs(circle(0, 0, 600, hole=False), (), CHAIR)
    assert run.closed
    assert run.length == pytest.approx(math.tau * 600)
    (place,) = run.spread(1)
    assert place.at == pytest.approx((0, -600), abs=1e-6)
    assert place.out == pytest.approx((0, -1))
    east, west = sorted(place.at[0] for place in run.spread(2))
    assert (east, west) == pytest.approx((-600, 600))


@pytest.mark.example
def test_at_an_inside_corner_each_side_leaves_the_room_of_the_others_chairs():
    """An L with legs of 25 in: the fronts are 71 and 41 in; chairs take 21 in of both."""
    outline = polygon((0, 0), (25, 0), (25, 41), (96, 41), (96, 66), (0, 66))
    outline = polygon(*((x * IN, y * IN) for x, y in corners_of(outline)))
    assert sorted(lengths(outline)) == [20, 25, 25, 50, 66, 96]
    # beside a side where nobody sits there is no such room to leave
    assert sorted(lengths(outline, still={1})) == [25, 25, 66, 71, 96]
    rounded = round_corners(Shape(outline, tuple("abcdef")), 0.0, 2 * IN).outline
    assert sorted(lengths(rounded)) == [20, 25, 25, 50, 66, 96]


@pytest.mark.example
def test_nobody_sits_at_a_still_edge_and_a_tiny_top_has_one_run():
    outline = rectangle(72 * IN, 36 * IN)
    assert sorted(lengths(outline, still={0})) == [36, 36, 72]
    assert lengths(outline, still={0, 1, 2, 3}) == []
    # all of it is one corner after the other
    (run,) = runs(circle(0, 0, 60, hole=False), (), CHAIR)
    assert run.closed
