"""An outline moved outwards: moved back inwards it is what it was, and its length follows the turning."""

from __future__ import annotations

import math

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from region_cases import LENS, fine, polygon, rounded, tops

from edgewright.design.inset import inset
from edgewright.design.outline import Arc, rectangle
from edgewright.design.outset import outset
from edgewright.design.region import Region
from edgewright.errors import GeometryError


@pytest.mark.example
def test_a_sharp_rectangle_stays_one():
    moved = outset(rectangle(1000, 600), 18)

    assert moved.bounds == pytest.approx((-18, -18, 1018, 618))
    assert moved.area == pytest.approx(1036 * 636)
    assert len(moved.segments) == 4


@pytest.mark.example
def test_rounded_corners_grow():
    moved = outset(rectangle(1000, 600, (50, 50, 50, 0)), 10)

    assert [segment.radius for segment in moved.segments if isinstance(segment, Arc)] == pytest.approx(
        [60] * 3
    )
    assert moved.area == pytest.approx(1020 * 620 - 3 * (1 - math.pi / 4) * 3600)
    assert moved.length == pytest.approx(2 * (1020 + 620) - 3 * (2 - math.pi / 2) * 60)


@pytest.mark.example
def test_an_inside_corner_closes_up():
    top = polygon((0, 0), (300, 0), (300, 100), (100, 100), (100, 300), (0, 300))
    # of 90° corners five are outside, one inside: 2 (5 - 1) d longer
    assert outset(top, 7).length == pytest.approx(top.length + 8 * 7)
    hollow = rounded([(0, 0), (300, 0), (300, 100), (100, 100), (100, 300), (0, 300)], [0, 0, 0, 30, 0, 0])
    (arc,) = [segment for segment in outset(hollow, 7).segments if isinstance(segment, Arc)]
    assert arc.radius == pytest.approx(23)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=40)
@given(tops(), st.floats(0.5, 8))
def test_moved_in_again_it_is_the_outline(top, out):
    outer = top.outer
    if any(isinstance(s, Arc) and s.sweep < 0 and s.radius < 1.5 * out for s in outer.segments):
        return
    moved = outset(outer, out)
    # where no inside corner is sharp the two undo each other; a sharp one would be rounded on the way back
    back = inset(Region(moved), out)

    assert len(back) == 1
    grown = fine(Region(moved)).buffer(1e-6)
    assert grown.contains(fine(Region(outer)).buffer(out * 0.999, join_style="mitre", mitre_limit=1.001))
    if not _sharp_inside(outer):
        assert back[0].area == pytest.approx(outer.area, rel=1e-9)
        assert back[0].perimeter == pytest.approx(outer.length, rel=1e-9)


def _sharp_inside(outline):
    ring = list(shapely.LinearRing(fine(Region(outline), 64).exterior).coords[:-1])
    for at, (x, y) in enumerate(ring):
        (ax, ay), (bx, by) = ring[at - 1], ring[(at + 1) % len(ring)]
        cross = (x - ax) * (by - y) - (y - ay) * (bx - x)
        if math.atan2(cross, (x - ax) * (bx - x) + (y - ay) * (by - y)) < -0.06:
            return True
    return False


@pytest.mark.example
def test_no_distance_is_the_same_outline():
    top = rectangle(100, 60)
    assert outset(top, 0) is top


@pytest.mark.example
def test_what_is_refused():
    hollow = rounded([(0, 0), (300, 0), (300, 100), (100, 100), (100, 300), (0, 300)], [0, 0, 0, 15, 0, 0])
    with pytest.raises(GeometryError, match="18 mm thick on a hollow edge of radius 15 mm"):
        outset(hollow, 18)
    with pytest.raises(GeometryError, match=r"an angle between an arc and its neighbour at \(0, -?300\) mm"):
        outset(LENS.outer, 18)
