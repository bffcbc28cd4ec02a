"""Blocks at corners, sizes by hand and cover by polygons."""

import math

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from region_cases import L_POINTS, rounded
from ring_cases import assert_covers, numbered, rules

from edgewright.design.buildup.ring_pieces import ring_pieces
from edgewright.design.buildup.roundings import largest_rounding


def blocks(outline, rule):
    return [p for p in ring_pieces(outline, numbered(outline), rule) if p.kind.endswith("block")]


@pytest.mark.example
def test_a_square_block_at_a_right_angle():
    outline = rounded([(0, 0), (1000, 0), (1000, 700), (0, 700)], [0, 120, 0, 0])
    (block,) = blocks(outline, rules(layers=1, proud=0))
    assert (block.kind, block.edges) == ("corner block", ("edge 2",))
    assert (block.blank_length, block.blank_width) == pytest.approx((160, 160))
    assert shapely.Polygon(block.plan).equals_exact(shapely.box(840, 0, 1000, 160).normalize(), 1) or (
        shapely.Polygon(block.plan).symmetric_difference(shapely.box(840, 0, 1000, 160)).area < 1e-6
    )
    # with 2 proud both outer edges move out
    (block,) = blocks(outline, rules(layers=1, proud=2))
    assert (block.blank_length, block.blank_width) == pytest.approx((162, 162))


@pytest.mark.example
def test_an_inside_block_is_flush_and_solid_about_its_radius():
    """Inside radius 50: the strips begin 50 + 40 from the corner; the blank is a square of 90 + 40."""
    outline = rounded(list(L_POINTS), [0, 0, 0, 50, 0, 0])
    rule = rules(layers=1, proud=0)
    (block,) = blocks(outline, rule)
    assert block.kind == "inside block"
    assert (block.blank_length, block.blank_width) == pytest.approx((130, 130))
    assert [c for xy in block.joints for c in xy] == pytest.approx([690, 600, 600, 690])
    # the whole radius lies in the block
    about = shapely.Point(600, 600).buffer(1).union(shapely.LineString([(650, 600), (600, 650)]))
    assert shapely.Polygon(block.plan).contains(about)
    assert_covers(outline, ring_pieces(outline, numbered(outline), rule), rule)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=60)
@given(st.floats(35, 145), st.floats(1.01, 3), st.sampled_from([0.0, 1.5]))
def test_a_block_at_any_angle_covers_the_ring(turn, over, proud):
    """Parallelogram with one rounding larger than two strips cover; blunt corners and sharp ones."""
    angle = math.radians(turn)
    radius = over * largest_rounding(40 - proud, 30, angle)
    east = (4000 * math.cos(angle), 4000 * math.sin(angle))
    outline = rounded([(-4000, 0), (0, 0), east, (east[0] - 4000, east[1])], [0, radius, 0, 0])
    rule = rules(layers=1, largest_block=5000, proud=proud)
    made = ring_pieces(outline, numbered(outline), rule)
    (block,) = (p for p in made if p.kind == "corner block")
    assert_covers(outline, made, rule)
    plan = shapely.Polygon(block.plan)
    assert plan.convex_hull.area == pytest.approx(plan.area)
    assert block.blank_length * block.blank_width >= plan.area - 1e-6
