"""Saw cuts: areas against a measuring library, the guide on either side, and what is refused."""

from __future__ import annotations

import math

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from region_cases import HOLED, RACETRACK, fine, polygon, sag, tops

from edgewright.design.outline import Line, rectangle
from edgewright.design.region import Region
from edgewright.design.trims.straight_cut import StraightCut, beside, cut, guide_line, saw
from edgewright.errors import GeometryError
from edgewright.job import Saw

TOP = Region(rectangle(1000, 600))
#: A U seen from above: legs to the north at both ends.
U_TOP = Region(
    polygon((0, 0), (900, 0), (900, 700), (600, 700), (600, 200), (300, 200), (300, 500), (0, 500))
)


@pytest.mark.example
def test_what_comes_off_is_the_trim_less_the_kerf():
    kept, offcuts = cut(TOP, Line((1000, 500), (0, 500)), 3)

    assert kept.bounds == pytest.approx((0, 0, 1000, 500))
    assert [piece.bounds for piece in offcuts] == [pytest.approx((0, 503, 1000, 600))]


@pytest.mark.example
def test_a_trim_of_one_kerf_leaves_no_offcut():
    assert cut(TOP, Line((1000, 597), (0, 597)), 3)[1] == ()


@pytest.mark.example
@pytest.mark.parametrize(
    ("guide_side", "shoe_side", "y"),
    [
        ("keep", "narrow", 500 - 32),  # keep line - offset
        ("keep", "wide", 500 - 110),
        ("waste", "narrow", 500 + 3 + 32),  # keep line + kerf + offset
        ("waste", "wide", 500 + 3 + 110),
    ],
)
def test_guide_on_either_side_of_the_cut_and_of_the_saw(guide_side, shoe_side, y):
    settings = {"guide_offset_narrow": "32 mm", "guide_offset_wide": "110 mm", "shoe_side": shoe_side}
    offset = Saw.model_validate(settings).guide_offset.mm
    line = guide_line(Line((1000, 500), (0, 500)), 3, offset, guide_side)

    assert (line.start, line.end) == (pytest.approx((1000, y)), pytest.approx((0, y)))


@pytest.mark.example
def test_a_guide_without_a_measured_offset_is_refused():
    with pytest.raises(GeometryError, match="guide offset is -1 mm"):
        guide_line(Line((1000, 500), (0, 500)), 3, -1, "keep")


@pytest.mark.example
def test_a_cut_near_a_point_leaves_the_other_leg_alone():
    line = Line((900, 450), (0, 450))
    across, one_leg = saw(U_TOP, StraightCut(line, 4)), saw(U_TOP, StraightCut(line, 4, at=(700, 700)))

    # across: 300 x 50 off the west leg, 300 x 250 off the east leg
    assert U_TOP.area - across.kept.area == pytest.approx(300 * 50 + 300 * 250)
    assert [piece.area for piece in across.offcuts] == pytest.approx([300 * 246, 300 * 46])
    assert len(across.fresh) == 2
    assert U_TOP.area - one_leg.kept.area == pytest.approx(300 * 250)
    assert [piece.area for piece in one_leg.offcuts] == pytest.approx([300 * 246])
    assert [edge.length for edge in one_leg.fresh] == pytest.approx([300])
    assert one_leg.kept.bounds == pytest.approx((0, 0, 900, 500))


@pytest.mark.example
def test_an_old_edge_on_the_keep_line_is_not_fresh():
    top = Region(polygon((0, 0), (1000, 0), (1000, 500), (600, 500), (600, 600), (0, 600)))
    sawn = saw(top, StraightCut(Line((1000, 500), (0, 500)), 3))

    assert [(edge.start, edge.end) for edge in sawn.fresh] == [((600, 500), (0, 500))]


@pytest.mark.example
@pytest.mark.parametrize(
    ("line", "words"),
    [
        (Line((1000, 640), (0, 640)), "misses the top by 40 mm"),
        (Line((0, 640), (1000, 640)), "ends 40 mm before the keep line"),
    ],
)
def test_a_cut_beside_the_top_is_refused_with_its_figure(line, words):
    with pytest.raises(GeometryError, match=words):
        cut(TOP, line, 3)


@pytest.mark.example
def test_a_cut_that_leaves_two_parts_is_refused():
    with pytest.raises(GeometryError, match="leaves the top in 2 parts"):
        cut(U_TOP, Line((0, 300), (900, 300)), 3)


@pytest.mark.example
@pytest.mark.parametrize("kerf", [-1.0, math.nan, math.inf])
def test_a_kerf_that_is_no_width_is_refused(kerf):
    with pytest.raises(GeometryError, match="kerf is"):
        StraightCut(Line((0, 0), (1, 0)), kerf)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=60)
@given(
    st.one_of(tops(), st.sampled_from([HOLED, RACETRACK])),
    st.floats(0.1, 0.9),
    st.floats(0, 2 * math.pi),
    st.floats(0, 12),
)
def test_kept_and_offcuts_and_kerf_make_the_old_top(top, share, angle, kerf):
    west, south, east, north = top.bounds
    at = (west + share * (east - west), south + share * (north - south))
    way = (math.cos(angle), math.sin(angle))
    line = Line(at, (at[0] + way[0], at[1] + way[1]))
    try:
        kept, offcuts = cut(top, line, kerf)
    except GeometryError:
        # refused only where it leaves more than one part, or nothing on one side
        u = complex(*way)
        corners = [complex(*at) + 9e3 * u * step for step in (-1, 1, 1 + 1j, -1 + 1j)]
        kept_side = fine(top).intersection(shapely.Polygon([(z.real, z.imag) for z in corners]))
        assert shapely.get_num_geometries(kept_side) > 1 or not 1 < kept_side.area < top.area - 1
        return
    far = beside(line, -kerf)
    band = shapely.Polygon(
        [(p[0] + s * 9e3 * way[0], p[1] + s * 9e3 * way[1]) for p, s in
         ((line.start, -1), (far.start, -1), (far.start, 1), (line.start, 1))]
    )  # fmt: skip
    dust = fine(top).intersection(band).area
    total = kept.area + math.fsum(piece.area for piece in offcuts) + dust

    straight = all(isinstance(segment, Line) for segment in top.segments)
    # chords of arcs miss at most sag x length within the kerf band
    slack = 1e-9 * top.area if straight else sag(top) * top.perimeter + 1e-9 * top.area
    assert total == pytest.approx(top.area, abs=slack)
