"""Triangles of flat polygons with holes: their areas add up, none is turned over, no point is left out."""

import pytest
from hypothesis import HealthCheck, given, settings
from region_cases import HOLED, NAMED, lattice_tops, tops, walk

from edgewright.design.flat_triangles import keyhole, triangles


def area(loop):
    return sum(ax * by - bx * ay for (ax, ay), (bx, by) in zip(loop, [*loop[1:], loop[0]], strict=True)) / 2


def check(outer, holes):
    points = [*outer, *(point for hole in holes for point in hole)]
    found = triangles(outer, holes)
    areas = [area([points[n] for n in corners]) for corners in found]
    expected = area(outer) + sum(map(area, holes))
    assert min(areas) >= -1e-9 * expected
    assert sum(areas) == pytest.approx(expected, rel=1e-9)
    assert len(found) == len(points) + 2 * len(holes) - 2
    assert {n for corners in found for n in corners} == set(range(len(points)))


def loops(region, chords):
    return walk(region.outer, chords), [walk(hole, chords) for hole in region.holes]


@pytest.mark.parametrize("name", NAMED)
def test_named_tops(name):
    check(*loops(NAMED[name], 9))


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=80, suppress_health_check=list(HealthCheck))
@given(region=tops())
def test_stars(region):
    check(*loops(region, 5))


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=80, suppress_health_check=list(HealthCheck))
@given(region=lattice_tops())
def test_boxes_on_a_grid_whose_points_line_up(region):
    check(*loops(region, 2))


def test_keyhole_runs_each_bridge_both_ways():
    outer, holes = loops(HOLED, 4)
    ring = keyhole(outer, holes)
    assert len(ring) == len(outer) + sum(len(hole) + 2 for hole in holes)
    points = [*outer, *(point for hole in holes for point in hole)]
    assert area([points[n] for n in ring]) == pytest.approx(area(outer) + sum(map(area, holes)))
