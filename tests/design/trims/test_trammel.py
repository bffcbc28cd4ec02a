"""Trammel settings and station offsets."""

from __future__ import annotations

import math

import pytest

from edgewright.design.outline import Arc, rectangle
from edgewright.design.region import Region
from edgewright.design.trims.trammel import station_offsets, trammel
from edgewright.errors import GeometryError

BULGE = Arc((600, 0), (-600, 0), (0, 0), 600, math.pi)
HOLLOW = Arc((600, 0), (-600, 0), (0, 0), 600, -math.pi)


@pytest.mark.example
def test_the_cutter_runs_in_the_waste():
    out, hollow = trammel(BULGE, 12), trammel(HOLLOW, 12)

    # waste outside: cutter from 600 to 612; waste inside: from 588 to 600
    assert (out.to_finished, out.to_cutter_centre, out.to_near_side) == (600, 606, 600)
    assert (hollow.to_finished, hollow.to_cutter_centre, hollow.to_near_side) == (600, 594, 588)
    assert out.waste_outside
    assert not hollow.waste_outside


@pytest.mark.example
def test_the_pivot_in_or_beside_the_wood():
    top = Region(rectangle(1000, 1000, origin=(-500, -1200)))

    assert trammel(Arc((100, -700), (-100, -700), (0, -700), 100, math.pi), 12, top).pivot_in_wood
    assert not trammel(BULGE, 12, top).pivot_in_wood


@pytest.mark.example
def test_a_cutter_that_does_not_fit_is_refused():
    small = Arc((5, 0), (-5, 0), (0, 0), 5, -math.pi)
    with pytest.raises(GeometryError, match="less than 10 mm"):
        trammel(small, 10)
    with pytest.raises(GeometryError, match="cutter diameter is 0 mm"):
        trammel(BULGE, 0)


@pytest.mark.example
def test_stations_of_a_flat_arc_lie_on_its_circle():
    # chord 1200, rise 150: R = (600^2 + 150^2)/300 = 1275
    half = math.atan2(600, 1275 - 150)
    start, end = (600.0, 1125.0), (-600.0, 1125.0)
    arc = Arc(start, end, (0, 0), 1275, 2 * half)
    stations = station_offsets(arc, 150)

    assert [x for x, _ in stations] == pytest.approx([0, 150, 300, 450, 600, 750, 900, 1050, 1200])
    assert stations[0][1] == pytest.approx(0, abs=1e-9)
    assert stations[4][1] == pytest.approx(150)
    for x, height in stations:
        assert math.hypot(600 - x, 1125 + height) == pytest.approx(1275)


@pytest.mark.example
def test_stations_need_a_step_and_at_most_half_a_circle():
    with pytest.raises(GeometryError, match="station step"):
        station_offsets(BULGE, 0)
    with pytest.raises(GeometryError, match="at most 180"):
        station_offsets(Arc((600, 0), (0, -600), (0, 0), 600, 1.5 * math.pi), 100)
