"""Usable rectangles and lanes of offcuts, against brute force on a fine grid of heights and places."""

from __future__ import annotations

import math

import pytest
import shapely
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from region_cases import RACETRACK, fine, polygon, sag, tops

from edgewright.design.outline import Line, rectangle
from edgewright.design.region import Region
from edgewright.design.trims.keep_line import parallel_to
from edgewright.design.trims.offcut import offcuts_of
from edgewright.design.trims.straight_cut import StraightCut, saw
from edgewright.design.trims.usable_rectangle import (
    lane_count,
    lane_lengths,
    stretch,
    usable_length,
    usable_rectangle,
)
from edgewright.errors import GeometryError

SKEW = Region(polygon((0, 0), (1000, 0), (1000, 620), (0, 600)))


def brute_length(piece, width: float, steps: int = 400) -> float:
    """Longest run of grid places over which upright slices of a fine polygon are clear, from the fresh edge."""
    frame, shape = piece.frame, fine(piece.region).buffer(1e-6)
    best = run = 0
    for at in range(steps):
        x = piece.length * (at + 0.5) / steps
        slit = shapely.LineString([frame.world((x, 0.0)), frame.world((x, width))])
        run = run + 1 if shape.contains(slit) else 0
        best = max(best, run)
    return best * piece.length / steps


@pytest.mark.example
def test_a_tapered_offcut_by_hand():
    (piece,) = offcuts_of(saw(SKEW, parallel_to(SKEW, 0, 560, 3)))

    # 37 wide at the west end, 57 at the east end, 20 in 1000
    assert usable_length(piece, 30) == pytest.approx(1000)
    assert usable_length(piece, 47) == pytest.approx(500)
    assert usable_length(piece, 57.1) == 0
    # (1000 - 50 (h - 37)) h falls from h = 37 on, so the largest is 1000 x 37
    best = usable_rectangle(piece)
    assert best is not None
    assert (best.length, best.width) == pytest.approx((1000, 37))
    assert best.corners[0] == pytest.approx((0, 563), abs=1e-9)
    # lanes of 20 and 3 between: up to 20, and from 23 to 43, where 57 - 43 = 14 leaves 700
    assert lane_lengths(piece, 20, 3) == pytest.approx((1000, 700))
    assert stretch(piece, 23, 43) == pytest.approx((300, 1000))


@pytest.mark.example
def test_a_triangle_gives_half_its_area():
    # legs 400: area h (400 - h) largest at h = 200, but there the sides are equal
    top = Region(polygon((0, 0), (400, 0), (400, 400), (0, 800)))
    (piece,) = offcuts_of(saw(top, StraightCut(Line((400, 400), (0, 400)), 0)))
    best = usable_rectangle(piece)

    assert best is not None
    assert best.area == pytest.approx(400 * 400 / 4)


@pytest.mark.example
@pytest.mark.parametrize(
    ("depth", "width", "kerf", "count"),
    [(5.875, 1.875, 0.125, 3), (5.875, 1.876, 0.125, 2), (10, 10, 3, 1), (10, 10.1, 3, 0), (10, 0, 3, 0)],
)
def test_how_many_lanes_fit(depth, width, kerf, count):
    assert lane_count(depth, width, kerf) == count


@pytest.mark.example
def test_a_hole_and_a_notch_shorten_the_board():
    top = Region(
        polygon((0, 0), (800, 0), (800, 500), (500, 500), (500, 460), (450, 460), (450, 500), (0, 500))
    )
    (piece,) = offcuts_of(saw(top, StraightCut(Line((800, 400), (0, 400)), 0)))

    assert usable_length(piece, 60) == pytest.approx(800)
    assert usable_length(piece, 61) == pytest.approx(450)
    # 800 x 60 = 48000 is more than 450 x 100
    best = usable_rectangle(piece)
    assert best is not None
    assert best.area == pytest.approx(48_000)


def offcuts(top, share, angle, kerf):
    west, south, east, north = top.bounds
    at = (west + share * (east - west), south + share * (north - south))
    line = Line(at, (at[0] + math.cos(angle), at[1] + math.sin(angle)))
    try:
        return [piece for piece in offcuts_of(saw(top, StraightCut(line, kerf))) if piece.region.area > 100]
    except GeometryError:
        return []


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=18)
@given(st.one_of(tops(), st.just(RACETRACK)), st.floats(0.1, 0.9), st.floats(0, 6.28), st.floats(0.05, 0.95))
def test_boards_lie_in_the_offcut_and_none_is_longer(top, share, angle, part):
    pieces = offcuts(top, share, angle, 3.0)
    assume(pieces)
    for piece in pieces:
        shape = fine(piece.region).buffer(2 * sag(piece.region) + 1e-6)
        width = part * piece.depth
        length = usable_length(piece, width)
        start, end = stretch(piece, 0, width)
        corners = [(start, 0), (end, 0), (end, width), (start, width)]
        if length:
            assert shape.contains(shapely.Polygon([piece.frame.world(at) for at in corners]))
        assert brute_length(piece, width) <= length + 2 * piece.length / 400 + sag(piece.region) * 50

        best = usable_rectangle(piece)
        if best is None:
            continue
        assert shape.contains(shapely.Polygon(best.corners))
        assert best.length >= best.width - 1e-6
        for step in range(1, 200):
            height = piece.depth * step / 200
            clear = usable_length(piece, height)
            if clear >= height:
                assert best.area >= clear * height * (1 - 1e-3)


@pytest.mark.example
def test_lanes_of_a_straight_offcut_are_the_formula():
    top = Region(rectangle(1000, 600))
    for amount in (20.0, 57.5, 103.0):
        (piece,) = offcuts_of(saw(top, parallel_to(top, 0, 600 - amount, 3)))
        for width in (10.0, 17.0, 31.0):
            count = math.floor((amount - 3 + 3) / (width + 3))
            assert lane_lengths(piece, width, 3) == pytest.approx((1000,) * count)
