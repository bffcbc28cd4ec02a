"""Tops finished to a shape inside them."""

from __future__ import annotations

import math

import pytest
import shapely
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from region_cases import SHARP_L, circle, fine, polygon, rounded, sag, tops, walk

from edgewright.design.outline import Arc, Line, rectangle
from edgewright.design.region import Region
from edgewright.design.trims.inner_shape import all_round, finished_region, shape_cuts
from edgewright.design.trims.straight_cut import saw
from edgewright.errors import GeometryError

TOP = Region(rectangle(1000, 600))


@pytest.mark.example
def test_a_polygon_is_a_list_of_straight_cuts():
    # a hexagon whose south side is the old edge
    shape = polygon((300, 0), (700, 0), (900, 250), (700, 500), (300, 500), (100, 250))
    cuts = shape_cuts(TOP, shape, 3, 12)

    assert [one.name for one in cuts.straight] == ["edge 2", "edge 3", "edge 4", "edge 5", "edge 6"]
    assert cuts.stops == ((),) * 5
    assert cuts.arcs == ()
    kept = TOP
    for one in cuts.straight:
        kept = saw(kept, one).kept
    assert kept.area == pytest.approx(shape.area)


@pytest.mark.example
def test_a_round_is_cut_on_a_trammel_and_a_d_end_needs_both():
    disc = shape_cuts(TOP, circle(500, 300, 250, hole=False), 3, 12)
    assert [(one.to_cutter_centre, one.pivot, one.pivot_in_wood) for one in disc.arcs] == [
        (256, (500, 300), True)
    ] * 2
    assert disc.straight == ()

    bullet = rounded([(0, 0), (1000, 0), (1000, 600), (0, 600)], [0, 200, 200, 0])
    cuts = shape_cuts(TOP, bullet, 3, 12)
    assert len(cuts.arcs) == 2
    assert cuts.straight == ()


@pytest.mark.example
def test_a_cut_stops_at_an_inside_corner():
    shape = polygon((0, 0), (1000, 0), (1000, 300), (400, 300), (400, 600), (0, 600))
    cuts = shape_cuts(TOP, shape, 3, 12)

    assert [one.name for one in cuts.straight] == ["edge 3", "edge 4"]
    assert cuts.stops == (((400, 300),), ((400, 300),))


@pytest.mark.example
def test_a_cut_stops_before_the_other_leg():
    # the west leg of this U is shorter: a cut along its end, carried on, runs into the east leg
    shape = polygon((0, 0), (900, 0), (900, 600), (600, 600), (600, 200), (300, 200), (300, 500), (0, 500))
    cuts = shape_cuts(TOP, shape, 3, 12)
    stops = {one.name: at for one, at in zip(cuts.straight, cuts.stops, strict=True)}

    assert stops["edge 7"] == ((300, 500),)
    assert stops["edge 2"] == ()


@pytest.mark.example
def test_a_shape_that_leaves_the_top_is_told_where_and_by_how_much():
    with pytest.raises(GeometryError, match=r"lies 15 mm outside.*\(1015, 300\) mm"):
        finished_region(TOP, circle(765, 300, 250, hole=False))
    with pytest.raises(GeometryError, match=r"20 mm outside.*\(500, 620\)"):
        finished_region(TOP, polygon((100, 100), (900, 100), (500, 620)))
    holed = Region(rectangle(1000, 600), (circle(500, 300, 100),))
    with pytest.raises(GeometryError, match="100 mm outside"):
        finished_region(holed, rectangle(400, 400, origin=(100, 100)))
    kept = finished_region(holed, rectangle(800, 400, origin=(100, 100)))
    assert kept.area == pytest.approx(320_000 - math.pi * 100**2)


@pytest.mark.example
def test_all_round_takes_the_same_off_every_edge():
    cuts = all_round(TOP, 25, 3, 12)
    assert cuts.finished.bounds == pytest.approx((25, 25, 975, 575))
    assert len(cuts.straight) == 4

    inside = all_round(SHARP_L, 20, 3, 12)
    (corner,) = inside.arcs
    assert (corner.to_finished, corner.to_cutter_centre, corner.waste_outside) == pytest.approx(
        (20, 14, False)
    )
    with pytest.raises(GeometryError, match="leaves 0 parts"):
        all_round(TOP, 300, 3, 12)
    with pytest.raises(GeometryError, match="must be greater than 0 mm"):
        all_round(TOP, 0, 3, 12)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=30)
@given(tops(), st.floats(-300, 300), st.floats(-300, 300), st.floats(40, 500))
def test_a_disc_is_refused_just_where_the_library_finds_it_outside(top, x, y, radius):
    disc = circle(x, y, radius, hole=False)
    shape = fine(top)
    points = shapely.MultiPoint(walk(disc, 256))
    off = max(shape.distance(point) for point in points.geoms)
    assume(abs(off) < 1e-9 or off > 0.1)
    assume(off > 0.1 or min(shape.exterior.distance(point) for point in points.geoms) > sag(top) + 0.5)
    if off > 0.1:
        with pytest.raises(GeometryError, match="outside the wood"):
            shape_cuts(top, disc, 3, 10)
        return
    cuts = shape_cuts(top, disc, 3, 10)
    assert all(isinstance(one.arc, Arc) for one in cuts.arcs)
    hole = math.fsum(loop.area for loop in cuts.finished.holes)
    assert cuts.finished.area == pytest.approx(math.pi * radius**2 + hole)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=40)
@given(st.one_of(tops(), st.just(SHARP_L)))
def test_a_cut_without_a_stop_never_meets_the_finished_top_beyond_its_edge(shape):
    old = Region(rectangle(5000, 5000, origin=(-2500, -2500)), shape.holes)
    cuts = shape_cuts(old, shape.outer, 3, 1)
    finished = fine(cuts.finished).buffer(-2 * sag(cuts.finished) - 0.01)

    assert len(cuts.straight) == sum(isinstance(segment, Line) for segment in shape.outer.segments)
    for one, stops in zip(cuts.straight, cuts.stops, strict=True):
        start, end = complex(*one.keep.start), complex(*one.keep.end)
        u = (end - start) / abs(end - start)
        for at, way, corner in ((start, -u, one.keep.start), (end, u, one.keep.end)):
            far = at + 4000 * way
            into = (
                shapely.LineString([(at.real, at.imag), (far.real, far.imag)]).intersection(finished).length
            )
            if corner not in stops:
                assert into == pytest.approx(0, abs=1e-6)
            else:
                # a stop is asked for only where the line, widened by rounding, does come to the wood
                line = shapely.LineString([(at.real, at.imag), (far.real, far.imag)])
                assert line.intersection(fine(cuts.finished).buffer(0.05)).length > 1
