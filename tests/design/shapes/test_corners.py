"""Corners rounded by tangent arcs: smooth, of the asked radius, refused where they do not fit."""

from __future__ import annotations

import math

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from region_cases import polygon, rounded
from shape_cases import chords, joint_turns, polygon_area, shapes

from edgewright.design.outline import Arc, rectangle
from edgewright.design.shapes.bowed import boat, d_end
from edgewright.design.shapes.boxed import rectangle_shape
from edgewright.design.shapes.corners import corner_name, round_corners
from edgewright.design.shapes.model import Shape
from edgewright.errors import GeometryError


@pytest.mark.example
def test_a_rectangle_is_rounded_and_its_corners_named():
    top = round_corners(rectangle_shape(1000, 500), 50, 0)

    assert top.outline.area == pytest.approx(rectangle(1000, 500, (50,) * 4).area, rel=1e-13)
    assert top.names[:3] == ("south", "south-east corner", "east")
    assert top.names[-1] == "south-west corner"


@pytest.mark.example
def test_an_l_is_rounded_outside_and_inside():
    points = [(0, 0), (1800, 0), (1800, 600), (600, 600), (600, 1500), (0, 1500)]
    sharp = Shape(polygon(*points), tuple("abcdef"))
    top = round_corners(sharp, 40, 25)

    assert top.outline.area == pytest.approx(rounded(points, [40, 40, 40, 25, 40, 40]).area, rel=1e-12)
    assert "inside corner of c and d" in top.names
    assert len(round_corners(sharp, 0, 25).outline.segments) == 7
    assert round_corners(sharp, 0, 0).outline.segments == sharp.outline.segments


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=60)
@given(shapes(), st.floats(1, 60), st.floats(1, 40))
def test_rounded_shapes_are_smooth_and_lose_only_corners(shape, outside, inside):
    try:
        top = round_corners(shape, outside, inside)
    except GeometryError:
        return  # a radius that does not fit; what fits is held against the measuring library below
    sharp = [turn for turn in joint_turns(shape) if abs(turn) > 1e-2]
    assert max(map(abs, joint_turns(top))) < 2e-2
    new = [
        edge for name, edge in zip(top.names, top.outline.segments, strict=True) if name not in shape.names
    ]
    assert [edge.radius for edge in new] == pytest.approx(
        [outside if edge.sweep > 0 else inside for edge in new]
    )
    assert len(new) == len(sharp)
    assert top.outline.area == pytest.approx(polygon_area(top), rel=1e-7)
    # outside corners lose, inside corners gain; nothing else moves
    differ = chords(top).symmetric_difference(chords(shape)).area
    assert differ < len(sharp) * 60**2 * 20 + 1e-3


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=20)
@given(st.floats(1000, 3000), st.floats(0.3, 0.9), st.floats(0.4, 0.9), st.floats(2, 60))
def test_corners_between_lines_and_arcs_are_an_opening(length, slim, share, radius):
    # moved in and out again by the radius, a sharp outside corner becomes round with it
    shape = boat(length, share * slim * length, slim * length)
    top = round_corners(shape, radius, 0)

    opened = chords(shape).buffer(-radius, quad_segs=64).buffer(radius, quad_segs=64)
    # both as fine polygons, so that their chords miss alike
    assert chords(top).area == pytest.approx(opened.area, rel=2e-5)
    assert shapely.hausdorff_distance(chords(top).boundary, opened.boundary) < 0.5


@pytest.mark.example
def test_shoulders_of_a_d_are_rounded_both_ways():
    shape = d_end(1500, 800, 200, "east", 700)
    top = round_corners(shape, 10, 8)

    radii = sorted(edge.radius for edge in top.outline.segments if isinstance(edge, Arc))
    assert radii == pytest.approx([8, 8, 10, 10, 10, 10, 406.25])
    assert joint_turns(top) == pytest.approx([0] * len(top.names), abs=1e-2)


@pytest.mark.example
@pytest.mark.parametrize(
    ("shape", "radii", "words"),
    [
        (rectangle_shape(100, 50), (26, 0), "the east edge take 52 mm of it together; it is 50 mm long"),
        (rectangle_shape(100, 50), (51, 0), "takes 51 mm of the east edge, which is 50 mm long"),
        (boat(2400, 10, 1200), (200, 0), "east end edge, which is 10 mm long"),
        (rectangle_shape(100, 50), (-1, 0), "outside corner radius is -1 mm"),
        (rectangle_shape(100, 50), (0, math.nan), "inside corner radius is nan mm"),
    ],
)
def test_radii_that_do_not_fit_are_refused(shape, radii, words):
    with pytest.raises(GeometryError, match=words):
        round_corners(shape, *radii)


@pytest.mark.example
def test_a_radius_that_just_fits_leaves_no_edge():
    top = round_corners(rectangle_shape(100, 50), 25, 0)

    assert "east" not in top.names
    assert top.outline.area == pytest.approx(50 * 50 + 25**2 * math.pi)


@pytest.mark.example
def test_corners_are_named_by_compass_or_by_their_edges():
    assert corner_name("north", "west") == "north-west corner"
    assert corner_name("east end", "north") == "north-east corner"
    assert corner_name("edge 3", "edge 4") == "corner of edge 3 and edge 4"
