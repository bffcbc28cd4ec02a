"""A new top in its blank: where it lies, what comes off, and that nothing of an old top is found."""

from __future__ import annotations

import pytest
from new_top_jobs import RACETRACK, new_shape, new_top

from edgewright.design.anytop.build import build_shaped
from edgewright.design.check_figures import exceeds
from edgewright.jobfile import parse_any_job

IN = 25.4
L_COUNTER = (
    '[top.outline]\nshape = "l_counter"\nlong_leg = 80\nshort_leg = 40\nlong_depth = 24\nshort_depth = 24\n'
    'hand = "left"\n'
)
SHAPES = {
    "racetrack": RACETRACK,
    "round": '[top.outline]\nshape = "round"\ndiameters = 40\n',
    "ellipse": '[top.outline]\nshape = "ellipse"\nlength = 72\nwidth = 40\n',
    "octagon": '[top.outline]\nshape = "regular_polygon"\nsides = 8\nacross_flats = 40\n',
    "tapered": '[top.outline]\nshape = "tapered"\nlength = 60\nwest_width = 30\neast_width = 24\n'
    'square_side = "south"\n',
    "l_counter": L_COUNTER,
}


def design_of(text):
    return build_shaped(parse_any_job(text))


@pytest.mark.example
def test_a_rectangle_is_its_own_blank():
    design = design_of(new_top(60, 30))
    assert design.old.outline.bounds == pytest.approx((0, 0, 60 * IN, 30 * IN))
    assert design.finished is design.old
    assert design.trims.cuts == ()


@pytest.mark.example
def test_a_blank_sawn_larger_is_cut_back_all_round():
    design = design_of(new_top(60, 30, top='oversize = "1/2"'))
    # 60 + 2 x 1/2 by 30 + 2 x 1/2; four cuts, each 1/2 in off
    assert design.old.outline.bounds == pytest.approx((0, 0, 61 * IN, 31 * IN))
    assert design.finished.outline.bounds == pytest.approx((0.5 * IN, 0.5 * IN, 60.5 * IN, 30.5 * IN))
    assert {sawn.cut.name for sawn in design.trims.cuts} == {"south", "east", "north", "west"}


@pytest.mark.parametrize("name", SHAPES)
def test_the_blank_is_the_box_round_the_outline(name):
    with_room = new_shape(SHAPES[name], top='oversize = "1/4"')
    tight, wide = design_of(new_shape(SHAPES[name])), design_of(with_room)
    for design, by in ((tight, 0.0), (wide, 0.25 * IN)):
        x0, y0, x1, y1 = design.trims.finished.outline.bounds
        assert design.old.outline.bounds == pytest.approx((x0 - by, y0 - by, x1 + by, y1 + by), abs=1e-6)
        assert design.old.outline.bounds[:2] == pytest.approx((0, 0), abs=1e-9)
    assert tight.finished.outline.area == pytest.approx(wide.finished.outline.area)
    assert tight.metrics is not None
    assert wide.metrics is not None
    assert tight.metrics.edge_mm2 == pytest.approx(wide.metrics.edge_mm2)


@pytest.mark.parametrize("name", SHAPES)
def test_an_old_top_of_the_same_outline_has_the_same_edge(name):
    """All exact figures are those of a top that is there already and loses nothing."""
    corners = "[edge]\ninside_radius = 0\n"
    text = new_shape(SHAPES[name], rest=corners)
    new, old = design_of(text), design_of(text.replace("new = true\n", ""))
    assert new.metrics is not None
    assert old.metrics is not None
    assert new.metrics.edge_mm2 == pytest.approx(old.metrics.edge_mm2, rel=1e-9)
    assert [p.blank_length for p in new.pieces] == pytest.approx([p.blank_length for p in old.pieces])


@pytest.mark.example
def test_an_inside_corner_of_a_new_top_can_be_round_for_its_blank_has_wood_there():
    assert design_of(new_shape(L_COUNTER, rest='[edge]\ninside_radius = "1/2"')).finished.outline.area > 0


@pytest.mark.example
def test_overhang_and_cut_outs_are_measured_from_the_new_edges():
    rest = (
        '[base]\noverhang = 6\n[seating]\ntable_height = 30\nseats = 6\n[[cut_out]]\nkind = "round"\nx = 30\ny = 15\n'
        "diameter = 4\n"
    )
    for by in ("0", "1/2"):
        design = design_of(new_top(60, 30, top=f'oversize = "{by}"', rest=rest))
        told = {finding.number: finding.figures for finding in design.findings}
        assert not {302, 401, 402, 403} & set(told)
        assert told[407].startswith("at 24 in each: 4 along the sides, 6 with the ends (before: 4, 6)")
        x0, y0, x1, y1 = design.finished.outline.bounds
        hole = design.region.holes[0].middle
        assert hole == pytest.approx(((x0 + x1) / 2, (y0 + y1) / 2))


@pytest.mark.example
def test_strips_keep_clear_of_the_base_under_the_new_edge():
    # an overhang of 2 in less 1/8 in leaves 1 7/8 in, on the grid
    design = design_of(new_top(60, 30, rest="[base]\noverhang = 2"))
    assert design.strip_width_mm == pytest.approx(1.875 * IN)
    assert not exceeds(design.strip_width_mm, 1.875 * IN)


@pytest.mark.parametrize("name", SHAPES)
def test_nothing_is_found_of_old_edges_seams_or_the_order_of_trims(name):
    design = design_of(new_shape(SHAPES[name], rest="[base]\noverhang = 6"))
    assert not {105, 109, 206, 318, 319, 401} & {finding.number for finding in design.findings}
