"""Rectangles in an offcut: inside it, apart by a kerf, good for what is wanted."""

from __future__ import annotations

import math
from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewright.design.outline import Arc, Line, Outline, rectangle
from edgewright.design.region import Region, point_in_region
from edgewright.design.trims.blank_rectangles import WantedBlank, blank_rectangles, held_area
from edgewright.design.trims.round_from_square import corner_blank_width
from edgewright.design.trims.shadow import Frame
from edgewright.design.trims.turned_rectangle import TurnedRectangle

EAST = ((1.0, 0.0),)
KERF = 3.2


def corner(radius: float) -> Region:
    """What a round leaves of the north-east corner of its square."""
    return Region(
        Outline(
            (
                Line((radius, 0), (radius, radius)),
                Line((radius, radius), (0, radius)),
                Arc((0, radius), (radius, 0), (0, 0), radius, -math.pi / 2),
            )
        )
    )


def polygon(*points):
    return Region(Outline(tuple(Line(a, b) for a, b in zip(points, (*points[1:], points[0]), strict=True))))


@pytest.mark.reference
@pytest.mark.parametrize(("length", "width"), [(12.0, 3.94), (14.0, 2.94)])
def test_the_corner_of_a_48_in_round_gives_what_the_trade_says(length, width):
    """Common practice, no source: 12 x 3.94 or 14 x 2.94 in from each corner of a 48 in round."""
    diagonal = (-math.sqrt(0.5), math.sqrt(0.5))
    wanted = (WantedBlank(length * 25.4, 2.0 * 25.4, 1),)
    (found,) = blank_rectangles(corner(24 * 25.4), (diagonal,), wanted, KERF)
    assert found.length == pytest.approx(length * 25.4)
    assert found.width / 25.4 == pytest.approx(width, abs=0.005)
    assert found.width == pytest.approx(corner_blank_width(24 * 25.4, length * 25.4), abs=1e-3)


@pytest.mark.example
def test_a_tapered_offcut_gives_a_long_lane_and_a_shorter_one_beside_it():
    # 1000 long, 60 wide at one end and 20 at the other: at height 40 it is 500 long, at height 20 all 1000
    taper = polygon((0.0, 0.0), (1000.0, 0.0), (1000.0, 20.0), (0.0, 60.0))
    wanted = (WantedBlank(900.0, 20.0, 1), WantedBlank(400.0, 20.0, 1))
    found = blank_rectangles(taper, EAST, wanted, KERF)
    assert [round(one.length) for one in found] == [1000, 420]
    assert all(one.width == pytest.approx(20.0) for one in found)
    # the second lane begins a kerf above the first: at 43.2 the slope leaves 60 - x/25 = 43.2, x = 420
    assert found[1].corner[1] == pytest.approx(23.2)


@pytest.mark.example
def test_what_is_too_small_or_lies_the_wrong_way_gives_nothing():
    board = Region(rectangle(300.0, 100.0))
    assert blank_rectangles(board, EAST, (WantedBlank(301.0, 20.0, 1),), KERF) == ()
    assert blank_rectangles(board, EAST, (WantedBlank(200.0, 101.0, 1),), KERF) == ()
    assert blank_rectangles(board, EAST, (), KERF) == ()
    assert blank_rectangles(board, (), (WantedBlank(200.0, 20.0, 1),), KERF) == ()


@pytest.mark.example
def test_an_exact_fit_with_its_kerfs_is_a_fit():
    # two lanes of 48.4 and a kerf of 3.2 make 100; two lengths of 148.4 and a kerf make 300
    wanted = [WantedBlank(148.4, 48.4, 5, turns=False)]
    area, left = held_area(TurnedRectangle((0.0, 0.0), (1.0, 0.0), 300.0, 100.0), wanted, KERF)
    assert area == pytest.approx(4 * 148.4 * 48.4)
    assert [one.count for one in left] == [1]
    less = TurnedRectangle((0.0, 0.0), (1.0, 0.0), 300.0, 99.9)
    assert held_area(less, wanted, KERF)[0] == pytest.approx(2 * 148.4 * 48.4)


@st.composite
def offcuts(draw):
    """A convex offcut with sloping sides, and blanks that are wanted from it."""
    size = st.floats(80.0, 900.0)
    wide, left, right = draw(size), draw(st.floats(20.0, 200.0)), draw(st.floats(20.0, 200.0))
    lean = draw(st.floats(-20.0, 20.0))
    region = polygon((0.0, 0.0), (wide, 0.0), (wide + lean, right), (lean, left))
    wanted = draw(
        st.lists(
            st.builds(WantedBlank, st.floats(30.0, 400.0), st.floats(12.0, 60.0), st.integers(1, 3)),
            min_size=1, max_size=3,
        )
    )  # fmt: skip
    return region, tuple(wanted)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=25)
@given(case=offcuts())
def test_rectangles_lie_in_the_wood_a_kerf_apart(case):
    region, wanted = case
    found = blank_rectangles(region, EAST, wanted, KERF)
    for one in found:
        assert held_area(one, list(wanted), KERF)[0] > 0
        frame = Frame(one.corner, one.direction)
        for along in (0.001, 0.5, 0.999):
            for across in (0.001, 0.5, 0.999):
                point = frame.world((along * one.length, across * one.width))
                assert point_in_region(region, point) == "inside"
    boxes = [one.outline.bounds for one in found]
    for (w, s, e, n), (w2, s2, e2, n2) in combinations(boxes, 2):
        assert max(w - e2, w2 - e, s - n2, s2 - n) >= KERF - 1e-6
