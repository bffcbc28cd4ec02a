"""Live edges from stations."""

from __future__ import annotations

import math

import numpy as np
import pytest
import scipy.integrate
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewright.design.shapes.live_edge import corner_sides, simpson_area, station_side, stations
from edgewright.errors import GeometryError


@st.composite
def slabs(draw: st.DrawFn):
    count = draw(st.integers(2, 14))
    at = np.cumsum([draw(st.floats(60, 200)) for _ in range(count)])
    offsets = [[draw(st.floats(100, 400)) for _ in range(count)] for _ in "sn"]
    return at.tolist(), *offsets


@pytest.mark.example
def test_a_slab_of_three_stations():
    top = stations([0, 100, 200], [50, 60, 50], [40, 40, 60])

    # widths 90, 100, 110: trapezoids 9500 + 10500; on a straight line of widths Simpson agrees
    assert top.outline.area == pytest.approx(20000)
    assert top.checks[0].expected == pytest.approx(20000)
    assert top.names[0] == "south, station 1 to 2"
    assert top.names[-2:] == ("north, station 1 to 2", "west end")
    assert top.outline.bounds == pytest.approx((0, 0, 200, 120))


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=60)
@given(slabs())
def test_the_area_is_the_trapezoids_and_offsets_come_back(slab):
    at, south, north = slab
    top = stations(at, south, north)

    assert top.outline.area == pytest.approx(np.trapezoid(np.add(south, north), at))
    corners = {(round(x, 6), round(y, 6)) for x, y in (edge.start for edge in top.outline.segments)}
    expected = {
        (x - at[0], max(south) + y)
        for ys, s in ((south, -1), (north, 1))
        for x, y in zip(at, np.multiply(s, ys), strict=True)
    }
    assert corners == {(round(float(x), 6), round(float(y), 6)) for x, y in expected}


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=60)
@given(slabs())
def test_simpson_agrees_with_the_numerics_library(slab):
    at, south, _ = slab
    if len(at) % 2:
        assert simpson_area(at, south) == pytest.approx(scipy.integrate.simpson(south, x=at))
    # exact on a parabola, however many stations
    curve = [3 + 0.2 * x + 0.001 * x * x for x in at]
    exact = np.polynomial.Polynomial([3, 0.2, 0.001]).integ()
    if len(at) > 2:
        assert simpson_area(at, curve) == pytest.approx(exact(at[-1]) - exact(at[0]))


@pytest.mark.example
def test_a_straight_side_is_the_line_itself():
    top = stations([0, 150, 300], None, [300, 320, 310], "south")
    other = stations([0, 150, 300], [300, 320, 310], [], "north")

    assert top.names == ("south", "east end", "north, station 2 to 3", "north, station 1 to 2", "west end")
    assert top.outline.area == pytest.approx(other.outline.area)
    assert other.names[3] == "north"
    assert other.outline.segments[3].length == pytest.approx(300)


@pytest.mark.example
def test_pointed_ends_have_no_edge_and_coarse_stations_are_named():
    # a disc of radius 500 by five stations: straight lines lose 12 % of it, more than a hundredth
    at = [0, 250, 500, 750, 1000]
    half = [math.sqrt(500**2 - (x - 500) ** 2) for x in at]
    top = stations(at, half, half)

    assert not [name for name in top.names if "end" in name]
    assert not top.checks[0].agrees
    assert "take more of them" in top.suggestions[0]


@pytest.mark.example
@pytest.mark.parametrize(
    ("build", "words"),
    [
        (lambda: stations([0], [1], [1]), "1 stations"),
        (
            lambda: stations([0, 100, 100], [50] * 3, [50] * 3),
            "station at 100 mm comes after the one at 100 mm",
        ),
        (lambda: stations([0, math.nan], [50] * 2, [50] * 2), "station is at"),
        (lambda: stations([0, 100], [50], [50, 50]), "1 offsets given on the south side; exactly 2"),
        (lambda: stations([0, 100], None, [50, 50]), "0 offsets given on the south side"),
        (lambda: stations([0, 100], [9, 9], [50, 50], "south"), "south side is straight and has 2 offsets"),
        (lambda: stations([0, 100, 200], [9, -50, 9], [50, 50, 50]), "width at station 2, 100 mm, is 0 mm"),
        (lambda: stations([0, 100], [9, -60], [50, 50]), "width at station 2, 100 mm, is -10 mm"),
        (lambda: stations([0, 100], [0, 0], [0, 0]), "width at station 1"),
        (lambda: stations([0, 100], [9, math.inf], [50, 50]), "south offset at station 2 is inf"),
        (lambda: stations([0, 100], [9, 9], [50, 50], "east"), "`east`"),
    ],
)
def test_impossible_slabs_are_refused(build, words):
    with pytest.raises(GeometryError, match=words):
        build()


@pytest.mark.example
def test_traced_edges_know_their_side():
    top = stations([0, 150, 300], None, [300, 320, 310], "south")
    assert [station_side(name) for name in top.names] == [None, None, "north", "north", None]
    assert corner_sides("corner of north, station 2 to 3 and north, station 1 to 2") == ("north", "north")
    assert corner_sides("inside corner of south, station 1 to 2 and east end") == ("south", None)
    assert corner_sides("south") == (None, None)
