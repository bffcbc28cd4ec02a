"""Three fits of an out-of-square top."""

from __future__ import annotations

import pytest
import shapely
from region_cases import RACETRACK, SHARP_L, fine, polygon

from edgewright.design.outline import rectangle
from edgewright.design.region import Region
from edgewright.design.trims.square_fits import (
    largest_fit,
    match_edge,
    parallel_fit,
    rectangle_along,
    square_fits,
)
from edgewright.errors import GeometryError

#: The north edge rises 20 in 1000; the east edge is square to the south.
TAPERED = Region(polygon((0, 0), (1000, 0), (1000, 620), (0, 600)))


@pytest.mark.example
def test_a_tapered_top_by_hand():
    true, parallel, wall = square_fits(TAPERED, 2, 0)

    # parallel: the north edge at 600, 20 off its start (east), nothing off its end
    assert parallel.area == pytest.approx(600_000)
    assert parallel.costs[2] == pytest.approx((20, 0), abs=0.01)
    assert [parallel.costs[number] for number in (0, 1, 3)] == [(0, 0)] * 3
    # the same rectangle is square to the south edge
    assert wall.area == pytest.approx(600_000)
    assert wall.costs[0] == pytest.approx((0, 0))
    assert true.area >= wall.area
    assert true.gap is not None
    assert true.gap <= 1e-6


@pytest.mark.example
def test_costs_tell_what_comes_off_both_ends_of_every_edge():
    skew = Region(polygon((0, 0), (1830, 3), (1826, 920), (4, 912)))
    for fit in square_fits(skew, 2, 0):
        assert fine(skew).buffer(1e-6).contains(fine(Region(fit.outline)))
        assert all(cost is not None and min(cost) >= 0 for cost in fit.costs)
    wall = match_edge(skew, 0)
    assert wall.costs[0] == pytest.approx((0, 0), abs=1e-6)
    # what is square to the wall is square
    a, b, c, _ = (complex(*segment.start) for segment in wall.outline.segments)
    assert ((b - a).conjugate() * (c - b)).real == pytest.approx(0, abs=1e-5)


@pytest.mark.example
def test_hollow_and_curved_tops_are_searched_along_their_edges():
    assert largest_fit(SHARP_L).area == pytest.approx(1800 * 600)
    assert largest_fit(SHARP_L).gap is None
    found = rectangle_along(RACETRACK, (1, 0))
    assert fine(RACETRACK).buffer(0.1).contains(shapely.Polygon(found.corners))
    assert largest_fit(RACETRACK).costs[1] is None


@pytest.mark.example
def test_nothing_to_make_parallel_is_refused():
    with pytest.raises(GeometryError, match="are parallel"):
        parallel_fit(Region(rectangle(900, 600)), 0)
    with pytest.raises(GeometryError, match="no straight edge within 45"):
        parallel_fit(Region(polygon((0, 0), (900, 0), (450, 800))), 0)
