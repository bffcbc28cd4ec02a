"""Clean wood of offcuts: each part against the offcut less a band round the old edges."""

from __future__ import annotations

import math

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from region_cases import fine, polygon, rounded, sag

from edgewright.design.outline import Line, rectangle
from edgewright.design.region import Region
from edgewright.design.trims.clean_wood import clean_wood
from edgewright.design.trims.cut_order import saw_in_order
from edgewright.design.trims.keep_line import off_edge


@pytest.mark.example
def test_old_edges_come_off_and_fresh_ones_do_not():
    top = Region(rectangle(1000, 600))
    cuts = [off_edge(top, 2, 50, 3), off_edge(top, 1, 80, 3)]
    north, east = clean_wood(top, cuts, (0, 1), 10)

    # north: 47 less the old edge, both ends old; east: its north end is fresh
    assert (north.length, north.depth) == pytest.approx((980, 37))
    assert (east.length, east.depth) == pytest.approx((540, 67))
    assert north.dirty == ()


@pytest.mark.example
def test_a_trim_that_is_all_dirty_leaves_no_clean_wood():
    top = Region(rectangle(1000, 600))
    cuts = [off_edge(top, 2, 12, 3), off_edge(top, 1, 80, 3)]

    assert [piece.length for piece in clean_wood(top, cuts, (0, 1), 12)] == pytest.approx([576])


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=30)
@given(
    st.lists(st.floats(-40, 40), min_size=8, max_size=8),
    st.sampled_from([0.0, 30.0, 90.0]),
    st.permutations([0, 1, 2, 3]),
    st.floats(1, 25),
)
def test_clean_parts_are_the_offcuts_less_the_old_rim(off, radius, order, depth):
    box = ((0, 0), (1500, 0), (1500, 900), (0, 900))
    points = [(x + dx, y + dy) for (x, y), dx, dy in zip(box, off[::2], off[1::2], strict=True)]
    top = Region(rounded(points, [radius] * 4) if radius else polygon(*points))
    straight = [n for n, segment in enumerate(top.outer.segments) if isinstance(segment, Line)]
    cuts = [off_edge(top, number, 60 + 15 * at, 3) for at, number in enumerate(straight[:3])]
    numbers = [number for number in order if number < 3]
    _, offcuts = saw_in_order(top, cuts, numbers)
    rim = fine(top).exterior.buffer(depth, quad_segs=64)
    expected = math.fsum(fine(piece.region).difference(rim).area for piece in offcuts)
    found = clean_wood(top, cuts, numbers, depth)

    slack = 2 * sag(top) * top.perimeter + depth * 0.01
    assert math.fsum(piece.region.area for piece in found) == pytest.approx(expected, abs=slack + 1e-3)
    whole = shapely.union_all([fine(piece.region) for piece in offcuts]).buffer(2 * sag(top) + 1e-6)
    assert all(whole.contains(fine(piece.region)) for piece in found)
