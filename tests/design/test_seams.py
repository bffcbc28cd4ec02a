"""Seams across a top, against chords of circles and an independent geometry library."""

from __future__ import annotations

import math

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewright.design.outline import Arc, Line, Outline, rectangle
from edgewright.design.region import Region
from edgewright.design.seams import line_across, seam_length, seam_stretches


def circle(radius: float, centre: tuple[float, float] = (0.0, 0.0), turn: int = 1) -> Outline:
    x, y = centre
    east, west = (x + radius, y), (x - radius, y)
    sweep = math.copysign(math.pi, turn)
    return Outline((Arc(east, west, centre, radius, sweep), Arc(west, east, centre, radius, sweep)))


@pytest.mark.reference
@pytest.mark.parametrize("off", [0.0, 100.0, 299.0])
def test_a_seam_across_a_round_top_is_a_chord(off: float) -> None:
    # Euclid III.3: half the chord, the distance of the centre and the radius make a right triangle
    region = Region(circle(300.0))
    seam = line_across(region, (off, 0.0), math.pi / 2)
    assert seam_length(region, seam) == pytest.approx(2 * math.sqrt(300.0**2 - off**2), rel=1e-12)


@pytest.mark.example
def test_a_cut_out_interrupts_the_seam() -> None:
    region = Region(rectangle(1000, 600), (circle(100.0, (500.0, 300.0), -1),))
    seam = line_across(region, (0.0, 300.0), 0.0)
    assert [part.length for part in seam_stretches(region, seam)] == pytest.approx([400.0, 400.0])


@pytest.mark.example
def test_a_line_along_the_edge_or_beside_the_top_is_no_seam() -> None:
    region = Region(rectangle(1000, 600))
    assert seam_stretches(region, line_across(region, (0.0, 0.0), 0.0)) == ()
    assert seam_stretches(region, line_across(region, (0.0, -1.0), 0.0)) == ()


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=60)
@given(
    st.lists(st.floats(100, 400), min_size=5, max_size=9),
    st.floats(-150, 150),
    st.floats(0, math.pi),
)
def test_like_an_independent_library(reach: list[float], off: float, angle: float) -> None:
    points = [
        (r * math.cos(2 * math.pi * n / len(reach)), r * math.sin(2 * math.pi * n / len(reach)))
        for n, r in enumerate(reach)
    ]
    region = Region(Outline(tuple(Line(a, b) for a, b in zip(points, points[1:] + points[:1], strict=True))))
    seam = line_across(region, (off, off / 3), angle)
    other = shapely.LineString([seam.start, seam.end]).intersection(shapely.Polygon(points)).length
    assert seam_length(region, seam) == pytest.approx(other, abs=1e-6)
