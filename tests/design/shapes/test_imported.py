"""Loops from a drawing."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from region_cases import tops
from shape_cases import shapes

from edgewright.design.shapes.imported import from_bulges
from edgewright.errors import GeometryError

SQUARE = [(0, 0, 0), (100, 0, 0), (100, 50, 0), (0, 50, 0)]


@pytest.mark.example
def test_a_plate_with_a_round_hole():
    # a half circle of radius 25 on the north end, drawn clockwise, first vertex given twice
    rim = [(0, 0, 0), (0, 50, -1), (50, 50, 0), (50, 0, 0), (0, 0, 0)]
    hole = [(20, 30, 1), (30, 30, 1)]
    top, holes = from_bulges([hole, rim])

    assert top.outline.area == pytest.approx(2500 + 25**2 * math.pi / 2)
    assert [loop.area for loop in holes] == pytest.approx([-(5**2) * math.pi])
    assert holes[0].bounds == pytest.approx((20, 25, 30, 35))
    assert sum(name.startswith("arc") for name in top.names) == 1


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=60)
@given(shapes(), st.booleans(), st.floats(-2e5, 2e5))
def test_outlines_come_back_from_their_vertices(shape, backwards, far):
    # the vertices that go out to a drawing, anywhere and in either direction
    vertices = [(x + far, y - far, bulge) for x, y, bulge in shape.outline.bulge_vertices()]
    if backwards:
        bulges = [-bulge for _, _, bulge in vertices]
        vertices = [(x, y, bulges[at - 1]) for at, (x, y, _) in enumerate(vertices)][::-1]
    top, holes = from_bulges([vertices])

    assert top.outline.area == pytest.approx(shape.outline.area, rel=1e-9)
    assert top.outline.length == pytest.approx(shape.outline.length, rel=1e-9)
    assert top.outline.bounds == pytest.approx(shape.outline.bounds, abs=1e-6)
    assert not holes


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=30)
@given(tops())
def test_tops_with_holes_come_back(top):
    shape, holes = from_bulges([loop.bulge_vertices() for loop in reversed(top.loops)])

    assert shape.outline.area + sum(hole.area for hole in holes) == pytest.approx(top.area, rel=1e-9)
    assert len(holes) == len(top.holes)


@pytest.mark.example
def test_an_arc_too_flat_to_be_one_becomes_a_line_and_says_by_how_much():
    top, _ = from_bulges([[(0, 0, 1e-6), (1000, 0, 0), (1000, 500, 0), (0, 500, 0)]])

    assert top.names[0] == "edge 1"
    # the rise of an arc is bulge · chord / 2
    assert top.fit_error_mm == pytest.approx(5e-4)


@pytest.mark.example
@pytest.mark.parametrize(
    ("loops", "words"),
    [
        ([], "0 loops"),
        (
            [[(0, 0, 0), (100, 50, 0), (100, 0, 0), (0, 50, 0)]],
            r"loop 1 crosses or touches itself at \(50, 25\) mm",
        ),
        (
            [[(1000, 7, 0), (1100, 57, 0), (1100, 7, 0), (1000, 57, 0)]],
            r"at \(1050, 32\) mm",
        ),
        ([SQUARE, SQUARE], "loops 1 and 2 are the same"),
        ([SQUARE, SQUARE[::-1]], "loops 1 and 2 are the same"),
        (
            [SQUARE, [(1000, 0, 0), (1010, 0, 0), (1010, 5, 0)]],
            r"loop 2 at \(1000, 0\) mm lies outside loop 1",
        ),
        ([[(90, 10, 0), (110, 10, 0), (110, 15, 0)], SQUARE], r"loops 1 and 2 cross or touch at \(100, 1"),
        ([SQUARE, [(10, 10, 1), (40, 10, 1)]], "loops 1 and 2 cross or touch"),
        (
            [SQUARE, [(10, 25, 1), (40, 25, 1)], [(20, 25, 1), (30, 25, 1)]],
            r"loop 3 at \(20, 25\) mm lies within loop 2",
        ),
        ([[(0, 0, 0), (100, 0, 0), (0, 0, 0)]], "loop 1 has area 0"),
        ([[(0, 0, 0), (100, 0, 0), (50, 0, 0), (50, 50, 0)]], "loop 1 crosses or touches itself at"),
        ([[(5, 5, 0)]], "loop 1 has 0 edges"),
        ([[(0, 0, math.inf), (100, 0, 0), (0, 50, 0)]], "not finite"),
        ([[(0, 0, 0), (100, 0, 0), (100, 50, 0.5), (100, 50, 0), (0, 50, 0)]], r"no length at \(100, 50\)"),
    ],
)
def test_drawings_that_are_no_top_are_refused(loops, words):
    with pytest.raises(GeometryError, match=words):
        from_bulges(loops)
