"""Station offsets, from chords of arcs and along a whole top."""

from __future__ import annotations

import math

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from region_cases import sag
from shape_cases import INCH, chords, shapes

from edgewright.design.shapes.bowed import boat
from edgewright.design.shapes.boxed import rectangle_shape
from edgewright.design.shapes.offsets import edge_offsets, station_offsets
from edgewright.design.shapes.oval import four_arc_oval
from edgewright.errors import GeometryError


@pytest.mark.example
def test_a_boat_every_six_inches():
    # R 195, rise 6 over 96: offset at u from the middle √(195² - u²) - 189
    tables = edge_offsets(boat(96 * INCH, 36 * INCH, 48 * INCH), 6 * INCH)

    assert [table.name for table in tables] == ["south", "north"]
    rows = [(along / INCH, off / INCH) for along, off in tables[0].rows]
    assert [along for along, _ in rows] == pytest.approx(list(range(0, 97, 6)))
    assert [off for _, off in rows] == pytest.approx(
        [math.sqrt(195**2 - (along - 48) ** 2) - 189 for along, _ in rows], abs=1e-9
    )
    assert rows[8][1] == pytest.approx(6)


@pytest.mark.example
def test_only_arcs_beyond_the_trammel_are_listed():
    oval = four_arc_oval(1800, 900)

    assert [table.name for table in edge_offsets(oval, 150, 500)] == ["south", "north"]
    assert len(edge_offsets(oval, 150)) == 4


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=40)
@given(shapes(), st.floats(40, 400))
def test_stations_along_a_top_lie_on_its_rim(shape, spacing):
    rim, miss = chords(shape).exterior, sag(shape.region) + 1e-5
    south, north = station_offsets(shape, spacing)
    (x, y), (east, _) = south.start, south.end

    for (along, below), (again, above) in zip(south.rows, north.rows, strict=True):
        assert along == again
        for point in ((x + along, y - below), (x + along, y + above)):
            assert rim.distance(shapely.Point(point)) <= miss
    # nothing stands out beyond the stations: the whole height on a random one
    along, below = south.rows[len(south.rows) // 2]
    upright = shapely.LineString([(x + along, y - 1e4), (x + along, y + 1e4)]).intersection(rim)
    if not upright.is_empty:
        low, high = upright.bounds[1], upright.bounds[3]
        steep = max(1.0, (high - low) / 10)
        assert y - below == pytest.approx(low, abs=steep)
    assert east - x == pytest.approx(south.rows[-1][0])


@pytest.mark.example
def test_ends_of_a_rectangle_and_of_a_round_end():
    south, north = station_offsets(rectangle_shape(1000, 500), 300)
    assert [along for along, _ in south.rows] == [0, 300, 600, 900, 1000]
    assert {off for _, off in south.rows + north.rows} == {250.0}

    south, _ = station_offsets(four_arc_oval(1800, 900), 450)
    assert (south.rows[0][1], south.rows[-1][1]) == pytest.approx((0, 0), abs=1e-9)
    assert south.rows[2][1] == pytest.approx(450)


@pytest.mark.example
@pytest.mark.parametrize("spacing", [0, -5, math.nan, 1e-3])
def test_spacings_that_are_none_are_refused(spacing):
    with pytest.raises(GeometryError, match="spacing of the stations"):
        station_offsets(rectangle_shape(1000, 500), spacing)
