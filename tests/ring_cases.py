"""Tops with a ring under them, and the ring measured against the same top as a fine polygon."""

from __future__ import annotations

import math
from typing import Any

import shapely
from hypothesis import assume
from hypothesis import strategies as st
from region_cases import fine

from edgewright.design.buildup.ring_model import RingPiece, RingSettings
from edgewright.design.outline import Arc, Line, Outline, Segment
from edgewright.design.region import Region
from edgewright.errors import GeometryError


def rules(**changes: Any) -> RingSettings:
    """Strips 40 wide, 30 needed, two layers, 1.5 proud."""
    usual: dict[str, Any] = {"strip_width": 40.0, "strip_thickness": 18.0, "ring_width": 30.0}
    return RingSettings(**{**usual, "layers": 2, "proud": 1.5, **changes})


def numbered(outline: Outline) -> tuple[str, ...]:
    """A name for each segment."""
    return tuple(f"edge {number}" for number in range(1, len(outline.segments) + 1))


def plans(pieces: tuple[RingPiece, ...], layer: int) -> list[shapely.Polygon]:
    """Pieces of one layer as polygons."""
    return [shapely.Polygon(piece.plan) for piece in pieces if piece.layer == layer]


def assert_covers(outline: Outline, pieces: tuple[RingPiece, ...], settings: RingSettings) -> None:
    """In each layer the pieces cover all wood within the ring width of the edge, and none lies on another."""
    top = fine(Region(outline))
    # chords of the fine polygon and of its inner parallel are off by some hundredths
    band = top.difference(top.buffer(-settings.ring_width, quad_segs=64)).buffer(-0.05)
    assert {piece.layer for piece in pieces} == set(range(1, settings.layers + 1))
    for layer in range(1, settings.layers + 1):
        laid = plans(pieces, layer)
        for plan in laid:
            assert plan.is_valid
            assert shapely.is_ccw(plan.exterior)
        # on a fixed grid, for the union of touching sides would else lose a piece now and then
        whole = shapely.unary_union(laid, grid_size=1e-6)
        assert band.difference(whole.buffer(1e-5)).area < 0.01
        assert abs(sum(plan.area for plan in laid) - whole.area) < 0.01 + 1e-7 * whole.area


@st.composite
def bowed_tops(draw: st.DrawFn) -> Outline:
    """Two to seven corners round the origin, joined by lines, bulging arcs and hollow ones."""
    count = draw(st.integers(2, 7))
    points = []
    for at in range(count):
        angle = 2 * math.pi * (at + draw(st.floats(-0.3, 0.3))) / count
        reach = draw(st.floats(350, 900))
        points.append((reach * math.cos(angle), reach * math.sin(angle)))
    segments: list[Segment] = []
    for start, end in zip(points, (*points[1:], points[0]), strict=True):
        if count == 2:
            bulge = draw(st.floats(0.2, 1.0))
        else:
            bulge = draw(st.one_of(st.just(0.0), st.floats(0.02, 0.6), st.floats(-0.25, -0.02)))
        segments.append(bowed(start, end, bulge))
    outline = Outline(tuple(segments))
    try:
        Region(outline)
    except GeometryError:
        assume(False)  # two arcs cross each other
    return outline


def bowed(start: tuple[float, float], end: tuple[float, float], bulge: float) -> Segment:
    """Line, or arc with bulge tan(sweep / 4)."""
    if bulge == 0:
        return Line(start, end)
    chord, sweep = complex(*end) - complex(*start), 4 * math.atan(bulge)
    radius = abs(chord) / 2 / math.sin(abs(sweep) / 2)
    away = 1j * chord / abs(chord) * radius * math.cos(sweep / 2) * math.copysign(1, bulge)
    centre = (complex(*start) + complex(*end)) / 2 + away
    return Arc(start, end, (centre.real, centre.imag), radius, sweep)
