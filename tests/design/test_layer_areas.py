"""What each layer shows of the edge: worked frusta, and together always the whole edge."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from region_cases import HOLED, LENS, ROUNDED_L

from edgewright.design.forms import bevel, chamfer, cove, no_form, ogee, round_over
from edgewright.design.layer_areas import chain_between, layer_areas
from edgewright.design.levels import rectangle_levels
from edgewright.design.metrics import edge_metrics
from edgewright.design.outline import Arc
from edgewright.design.profile import EdgeProfile
from edgewright.design.wavefront import region_levels
from edgewright.errors import GeometryError

RECT = rectangle_levels(1000, 600, (0.0,) * 4)


@pytest.mark.example
def test_plain_edges_are_bands():
    areas = layer_areas(RECT, EdgeProfile(36, no_form(), no_form()), (18, 30))

    assert areas == pytest.approx((3200 * 18, 3200 * 12, 3200 * 6))


@pytest.mark.example
def test_a_bevel_cut_by_a_seam():
    # a bevel 10 in and 10 deep, the seam at depth 4: above it insets 10 to 6, mean 8; below 6 to 0, mean 3
    areas = layer_areas(RECT, EdgeProfile(20, bevel(10, 10), no_form()), (4,))

    assert areas[0] == pytest.approx(4 * math.sqrt(2) * (3200 - 8 * 8))
    assert areas[1] == pytest.approx(6 * math.sqrt(2) * (3200 - 8 * 3) + 3200 * 10)


@pytest.mark.example
def test_a_round_over_on_a_disc_cut_by_a_seam():
    # zone of a torus: ring radius 388, tube 12; from the face to depth 6 the tube turns by 60°
    disc = rectangle_levels(800, 800, (400.0,) * 4)
    areas = layer_areas(disc, EdgeProfile(38, round_over(12), no_form()), (6,))
    turn = math.pi / 3
    upper = 2 * math.pi * 12 * (388 * turn + 12 * (1 - math.cos(turn)))
    whole = 2 * math.pi * 12 * (388 * math.pi / 2 + 12)

    assert areas[0] == pytest.approx(upper, rel=1e-12)
    assert areas[1] == pytest.approx(whole - upper + 800 * math.pi * 26, rel=1e-12)


@pytest.mark.example
def test_the_lower_form_belongs_to_the_last_layers():
    areas = layer_areas(RECT, EdgeProfile(36, no_form(), bevel(6, 6)), (18, 33))
    # the seam at 33 cuts the lower bevel in two: insets 0 to 3 above, 3 to 6 below
    assert areas == pytest.approx(
        (3200 * 18, 3200 * 12 + 3 * math.sqrt(2) * (3200 - 12), 3 * math.sqrt(2) * (3200 - 36))
    )


FORMS = st.one_of(
    st.just(no_form()),
    st.floats(2, 12).map(round_over),
    st.floats(2, 12).map(chamfer),
    st.floats(2, 12).map(cove),
    st.tuples(st.floats(2, 6), st.floats(0.5, 2)).map(lambda sizes: ogee(*sizes)),
)
LEVELS = [region_levels(top, 16) for top in (HOLED, ROUNDED_L, LENS)]


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=60)
@given(st.sampled_from(LEVELS), FORMS, FORMS, st.lists(st.floats(0.02, 0.98), max_size=3, unique=True))
def test_together_they_are_the_whole_edge(levels, top, bottom, shares):
    profile = EdgeProfile(40, top, bottom)
    seams = sorted(40 * share for share in shares)
    areas = layer_areas(levels[0], profile, seams)

    assert len(areas) == len(seams) + 1
    assert min(areas) >= 0
    assert math.fsum(areas) == pytest.approx(edge_metrics(levels[0], profile).edge_mm2, rel=1e-11)


@pytest.mark.example
def test_a_seam_in_the_step_of_a_form_leaves_it_to_the_layer_above():
    # a step 1 deep, then the curve: the level step lies at depth 1
    form = ogee(5, 1)
    steps = [part for part in form.parts if part.end[1] - part.start[1] <= 1e-9]
    for step in steps:
        depth = step.start[1]
        if 0 < depth < form.depth:
            assert step in chain_between(form.parts, 0, depth)
            assert step not in chain_between(form.parts, depth, form.depth, first=False)


@pytest.mark.example
def test_parts_of_an_arc_keep_its_circle():
    (arc,) = [part for part in round_over(10).parts if isinstance(part, Arc)]
    upper, lower = chain_between((arc,), 0, 5), chain_between((arc,), 5, 10)

    assert upper[0].sweep / arc.sweep == pytest.approx(2 / 3)
    assert lower[0].sweep / arc.sweep == pytest.approx(1 / 3)
    assert upper[0].end == pytest.approx(lower[0].start)
    assert chain_between((arc,), 10, 40) == ()


@pytest.mark.example
def test_a_form_beyond_the_levels_is_refused():
    with pytest.raises(GeometryError):
        layer_areas(region_levels(LENS, 5)[0], EdgeProfile(30, round_over(12), no_form()), (10,))
