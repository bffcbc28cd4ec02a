"""Saw cuts: both sides against fine polygons cut by a far-off half plane, and parts that split."""

from __future__ import annotations

import math

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from region_cases import BITTEN, DUMBBELL, HOLED, RACETRACK, circle, fine, lattice_tops, sag, tops

from edgewright.design.clip import clip_half_plane
from edgewright.design.outline import rectangle
from edgewright.design.region import Region
from edgewright.errors import GeometryError


def areas(parts):
    return [part.area for part in parts]


@pytest.mark.example
def test_a_rectangle_cut_straight_and_askew():
    top = Region(rectangle(100, 60))

    assert areas(clip_half_plane(top, (40, 0), (0, 2))) == pytest.approx([2400])
    assert areas(clip_half_plane(top, (40, 0), (0, -2))) == pytest.approx([3600])
    assert areas(clip_half_plane(top, (0, 0), (1, 1))) == pytest.approx([1800])


@pytest.mark.example
def test_a_cut_along_a_side_or_beyond_takes_all_or_nothing():
    top = Region(rectangle(100, 60))

    for below in (0, -5):
        assert areas(clip_half_plane(top, (7, below), (1, 0))) == pytest.approx([6000])
        assert clip_half_plane(top, (7, below), (-1, 0)) == ()


@pytest.mark.example
def test_a_cut_through_a_dumbbell_splits_it():
    # below the handle: two blocks 400 × 180; above its lower edge: the rest in one part
    assert areas(clip_half_plane(DUMBBELL, (0, 180), (-1, 0))) == pytest.approx([72000, 72000])
    assert areas(clip_half_plane(DUMBBELL, (0, 180), (1, 0))) == pytest.approx([2 * 88000 + 16000])


@pytest.mark.example
def test_a_cut_through_a_hole_opens_it_and_one_that_touches_does_not():
    top = Region(rectangle(100, 60), (circle(50, 30, 10),))
    (opened,) = clip_half_plane(top, (0, 30), (1, 0))
    (touched,) = clip_half_plane(top, (0, 20), (1, 0))

    assert opened.holes == ()
    assert opened.area == pytest.approx(3000 - 50 * math.pi)
    # the hole meets the fresh edge in one point: the wood is still 100 × 40 less the whole hole
    assert touched.area == pytest.approx(4000 - 100 * math.pi)


@pytest.mark.example
def test_half_a_disc_end():
    (end,) = clip_half_plane(RACETRACK, (300, 0), (0, 1))

    assert end.area == pytest.approx(math.pi * 300**2 / 2, rel=1e-12)
    assert end.perimeter == pytest.approx(math.pi * 300 + 600, rel=1e-12)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=60)
@given(
    st.one_of(tops(), st.sampled_from([HOLED, BITTEN, DUMBBELL])), st.floats(0.02, 0.98), st.floats(0, 6.3)
)
def test_two_sides_of_a_cut_match_a_fine_polygon(top, share, angle):
    west, south, east, north = top.bounds
    point = (west + share * (east - west), south + share * (north - south))
    u = complex(math.cos(angle), math.sin(angle))
    left = clip_half_plane(top, point, (u.real, u.imag))
    right = clip_half_plane(top, point, (-u.real, -u.imag))
    corners = [complex(*point) + 9e3 * u * step for step in (-1, 1, 1 + 1j, -1 + 1j)]
    kept = fine(top).intersection(shapely.Polygon([(z.real, z.imag) for z in corners]))

    assert math.fsum(areas(left)) + math.fsum(areas(right)) == pytest.approx(top.area, rel=1e-10)
    # chords enclose at most sag × length more or less
    assert math.fsum(areas(left)) == pytest.approx(kept.area, abs=sag(top) * top.perimeter + 1e-6)
    cut = math.fsum(part.perimeter for part in (*left, *right)) - top.perimeter
    on_line = fine(top).intersection(shapely.LineString([(z.real, z.imag) for z in corners[:2]]))
    assert cut / 2 == pytest.approx(on_line.length, abs=1 + 0.01 * on_line.length)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=100)
@given(
    lattice_tops(),
    st.integers(0, 16),
    st.integers(0, 16),
    st.sampled_from([(1, 0), (0, 1), (1, 1), (2, -1), (-1, 0)]),
)
def test_cuts_along_sides_and_through_corners(top, east, north, way):
    point = (20.0 * east, 20.0 * north)
    left = clip_half_plane(top, point, way)
    right = clip_half_plane(top, point, (-way[0], -way[1]))
    u = complex(*way) / abs(complex(*way))
    corners = [complex(*point) + 2e3 * u * step for step in (-1, 1, 1 + 1j, -1 + 1j)]
    kept = fine(top).intersection(shapely.Polygon([(z.real, z.imag) for z in corners]))

    assert math.fsum(areas(left)) + math.fsum(areas(right)) == pytest.approx(top.area, rel=1e-10)
    assert math.fsum(areas(left)) == pytest.approx(kept.area, abs=sag(top) * top.perimeter + 1e-6)


@pytest.mark.example
@pytest.mark.parametrize(("point", "way"), [((0, math.nan), (1, 0)), ((0, 0), (0, 0))])
def test_a_cut_without_direction_is_refused(point, way):
    with pytest.raises(GeometryError, match="cut"):
        clip_half_plane(HOLED, point, way)
