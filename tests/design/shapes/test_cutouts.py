"""Cut-outs: where they are, how far apart, and what is refused."""

from __future__ import annotations

import math

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from region_cases import sag
from shape_cases import chords, or_none, shapes

from edgewright.design.outline import rectangle
from edgewright.design.region import Region
from edgewright.design.shapes.cutouts import nearest_between, rectangle_cut_out, round_cut_out, with_cut_outs
from edgewright.design.shapes.loop import reversed_outline
from edgewright.design.shapes.model import Shape
from edgewright.errors import GeometryError

PLATE = rectangle(1000, 600)


@pytest.mark.example
def test_a_sink_and_a_tap():
    sink = rectangle_cut_out((400, 300), 500, 400, 20, math.radians(90))
    top = with_cut_outs(PLATE, [sink, round_cut_out((700, 300), 35)], 40)

    assert sink.area == pytest.approx(-(500 * 400 - (4 - math.pi) * 400))
    # turned by a quarter, 400 lie along x
    assert sink.bounds == pytest.approx((200, 50, 600, 550))
    assert top.area == pytest.approx(600000 - 200000 + (4 - math.pi) * 400 - 35**2 * math.pi / 4)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=40)
@given(shapes(), st.floats(0, 6), st.floats(-800, 800), st.floats(-800, 800), or_none(1.0))
def test_the_nearest_distance_matches_the_measuring_library(shape, turn, dx, dy, share):
    x, y = shape.outline.centroid
    loop = rectangle_cut_out((x + dx, y + dy), 90, 60, 30 * share, turn)
    near, place = nearest_between(shape.outline, loop)

    hole = Shape(reversed_outline(loop), ("edge",) * len(loop.segments))
    rims = [chords(shape).exterior, chords(hole).exterior]
    miss = sag(shape.region) + sag(hole.region) + 1e-6
    assert near == pytest.approx(shapely.distance(*rims), abs=miss)
    assert shapely.distance(rims[1], shapely.Point(place)) <= miss
    if near > 0:
        assert shapely.distance(rims[0], shapely.Point(place)) == pytest.approx(near, abs=miss)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=40)
@given(st.floats(-100, 1100), st.floats(-100, 700), st.floats(10, 300), or_none(80.0))
def test_a_round_cut_out_is_taken_exactly_when_it_keeps_the_margin(x, y, diameter, margin):
    room = min(x, y, 1000 - x, 600 - y) - diameter / 2
    if abs(room - margin) < 1e-6:
        return
    if room > margin:
        top = with_cut_outs(PLATE, [round_cut_out((x, y), diameter)], margin)
        assert isinstance(top, Region)
        assert top.area == pytest.approx(600000 - math.pi * diameter**2 / 4)
    else:
        with pytest.raises(GeometryError, match="cut-out 1 "):
            with_cut_outs(PLATE, [round_cut_out((x, y), diameter)], margin)


@pytest.mark.example
@pytest.mark.parametrize(
    ("build", "words"),
    [
        (
            lambda: with_cut_outs(PLATE, [round_cut_out((60, 300), 100)], 30),
            r"is 10 mm from the rim at \(10, 300\) mm",
        ),
        (lambda: with_cut_outs(PLATE, [round_cut_out((0, 300), 100)], 30), "cut-out 1 meets the rim at"),
        (
            lambda: with_cut_outs(PLATE, [round_cut_out((-90, 300), 100)], 30),
            "cut-out 1 lies outside the top",
        ),
        (
            lambda: with_cut_outs(
                PLATE, [round_cut_out((200, 300), 100), round_cut_out((310, 300), 100)], 30
            ),
            r"cut-out 1 and cut-out 2 are 10 mm apart at \(260, 300\) mm; at least 30 mm",
        ),
        (
            lambda: with_cut_outs(
                PLATE, [round_cut_out((200, 300), 100), round_cut_out((250, 300), 100)], 30
            ),
            "cut-out 1 and cut-out 2 overlap at",
        ),
        (
            lambda: with_cut_outs(PLATE, [round_cut_out((300, 300), 300), round_cut_out((300, 300), 50)], 30),
            "cut-out 1 and cut-out 2 overlap at",
        ),
        (lambda: with_cut_outs(PLATE, [], -1), "least margin of a cut-out is -1 mm"),
        (lambda: round_cut_out((0, math.nan), 50), "centre"),
        (lambda: round_cut_out((0, 0), 0), "cut-out diameter is 0 mm"),
        (lambda: rectangle_cut_out((0, 0), 100, 50, 26), "allows at most 25 mm"),
        (lambda: rectangle_cut_out((0, 0), 100, 0), "cut-out width is 0 mm"),
    ],
)
def test_impossible_cut_outs_are_refused(build, words):
    with pytest.raises(GeometryError, match=words):
        build()


@pytest.mark.example
def test_neighbours_may_have_a_bound_of_their_own():
    pair = [round_cut_out((200, 300), 100), round_cut_out((310, 300), 100)]

    assert len(with_cut_outs(PLATE, pair, 30, 10).holes) == 2
