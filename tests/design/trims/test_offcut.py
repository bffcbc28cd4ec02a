"""Offcuts: taper, fresh and old edges."""

from __future__ import annotations

import math

import pytest
from region_cases import RACETRACK, polygon

from edgewright.design.outline import Line, rectangle
from edgewright.design.region import Region
from edgewright.design.trims.cut_order import saw_in_order
from edgewright.design.trims.keep_line import off_edge, parallel_to
from edgewright.design.trims.offcut import offcuts_of
from edgewright.design.trims.straight_cut import StraightCut, saw

SKEW = Region(polygon((0, 0), (1000, 0), (1000, 620), (0, 600)))


@pytest.mark.example
def test_a_cut_on_a_tapered_top_tells_both_widths():
    (piece,) = offcuts_of(saw(SKEW, parallel_to(SKEW, 0, 560, 3, name="north")))

    # from 563: 600 - 563 = 37 at the west end, 620 - 563 = 57 at the east end
    assert piece.name == "north"
    assert piece.length == pytest.approx(1000)
    assert piece.fresh.start == pytest.approx((0, 563))
    assert (piece.width_start, piece.width_end) == pytest.approx((37, 57))
    assert (piece.narrowest, piece.widest, piece.depth) == pytest.approx((37, 57, 57))


@pytest.mark.example
def test_edges_made_by_an_earlier_cut_are_clean():
    top = Region(rectangle(1000, 600))
    cuts = [off_edge(top, 2, 50, 3, "north"), off_edge(top, 1, 80, 3, "east")]
    _, (north, east) = saw_in_order(top, cuts, (0, 1))

    def middles(piece):
        segments = [piece.region.segments[number] for number in piece.dirty]
        return {tuple(round((a + b) / 2) for a, b in zip(s.start, s.end, strict=True)) for s in segments}

    # north: old at its top and both ends; east: its north end was cut before
    assert middles(north) == {(500, 600), (0, 576), (1000, 576)}
    assert middles(east) == {(1000, 275), (962, 0)}
    assert (north.length, east.length) == pytest.approx((1000, 550))


@pytest.mark.example
def test_a_round_offcut_has_no_straight_edge_to_taper():
    # the west end of a racetrack 1200 x 600, from 100 inwards: chord at 97 from the end
    one = StraightCut(Line((100, 600), (100, 0)), 3)
    (piece,) = offcuts_of(saw(RACETRACK, one))

    assert piece.length == pytest.approx(2 * math.sqrt(300**2 - 203**2))
    assert (piece.width_start, piece.width_end, piece.depth) == pytest.approx((0, 0, 97))
    assert piece.widest == piece.depth
    assert len(piece.dirty) == len(piece.region.segments) - 1
