"""Keep lines: off an edge, parallel to another, and where the inside corner forbids the cut."""

from __future__ import annotations

import math

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from region_cases import RACETRACK, SHARP_L, fine, polygon

from edgewright.design.outline import rectangle
from edgewright.design.region import Region
from edgewright.design.trims.keep_line import distances_from, off_edge, parallel_to, straight_edge
from edgewright.design.trims.straight_cut import saw
from edgewright.errors import GeometryError

SKEW = Region(polygon((0, 0), (1000, 0), (1000, 620), (0, 600)))


@pytest.mark.example
def test_an_amount_off_an_edge_is_parallel_to_it():
    one = off_edge(SKEW, 2, 30, 3)

    # north edge runs 20 up in 1000: the keep line 30 square off it, 30 x sqrt(1 + 0.02^2) below on the ends
    drop = 30 * math.hypot(1, 0.02)
    assert one.keep.start == pytest.approx((1000, 620 - drop))
    assert one.keep.end == pytest.approx((0, 600 - drop))
    assert saw(SKEW, one).kept.area == pytest.approx(SKEW.area - 1000 * drop)


@pytest.mark.example
def test_a_line_parallel_to_the_edge_opposite_makes_the_top_parallel():
    one = parallel_to(SKEW, 0, 590, 3)

    assert one.keep.start == pytest.approx((1000, 590))
    assert one.keep.end == pytest.approx((0, 590))
    assert distances_from(straight_edge(SKEW, 0), one.keep) == pytest.approx((590, 590))
    assert distances_from(straight_edge(SKEW, 0), off_edge(SKEW, 2, 30, 3).keep) == pytest.approx(
        (620 - 30 * math.hypot(1, 0.02), 600 - 30 * math.hypot(1, 0.02))
    )
    assert saw(SKEW, one).kept.area == pytest.approx(590_000)


@pytest.mark.example
def test_the_end_of_a_leg_is_cut_and_a_cut_into_the_other_leg_is_refused():
    # edge 4 is the west leg's inner side, edge 5 its north end
    assert saw(SHARP_L, off_edge(SHARP_L, 4, 100, 3)).kept.area == pytest.approx(SHARP_L.area - 600 * 100)
    with pytest.raises(GeometryError, match=r"1300 mm wide.*at most the trim of 100 mm.*inside corner"):
        off_edge(SHARP_L, 3, 100, 3)


@pytest.mark.example
@pytest.mark.parametrize("amount", [0, -2, math.nan])
def test_a_trim_of_nothing_is_refused(amount):
    with pytest.raises(GeometryError, match="trim is"):
        off_edge(SKEW, 0, amount, 3)


@pytest.mark.example
def test_a_trim_of_all_an_arc_and_an_unknown_edge_are_refused():
    with pytest.raises(GeometryError, match="some wood must stay"):
        off_edge(Region(rectangle(500, 300)), 0, 300, 3)
    with pytest.raises(GeometryError, match="is an arc"):
        off_edge(RACETRACK, 1, 5, 3)
    with pytest.raises(GeometryError, match="edges 1 to 4"):
        off_edge(SKEW, 4, 5, 3)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=40)
@given(st.floats(-40, 40), st.floats(-40, 40), st.floats(1, 200), st.integers(0, 3), st.floats(0, 5))
def test_a_trim_takes_off_the_band_along_its_edge(dx, dy, amount, number, kerf):
    top = Region(polygon((0, dx), (1200 + dy, 0), (1200, 700 - dx), (dy, 650)))
    edge = straight_edge(top, number)
    sawn = saw(top, off_edge(top, number, amount, kerf))
    band = shapely.LineString([edge.start, edge.end]).buffer(amount, single_sided=True, cap_style="flat")
    near = shapely.LineString([edge.start, edge.end]).distance(shapely.Point(sawn.kept.centroid))

    assert near > amount
    # every point nearer to the edge's line than the amount is gone
    assert fine(sawn.kept).intersection(band).area == pytest.approx(0, abs=1e-3)
    assert top.area - sawn.kept.area >= fine(top).intersection(band).area - 1e-6
