"""Offsets from a straight line, for curves too flat for a trammel."""

from __future__ import annotations

import math
from dataclasses import dataclass

from edgewright.design.intersect import intersections
from edgewright.design.outline import Arc, Line, Point
from edgewright.design.segments import parameter
from edgewright.design.shapes.figures import LEAST_MM, need_positive
from edgewright.design.shapes.model import Shape
from edgewright.design.tolerances import NODE_MM
from edgewright.errors import GeometryError

__all__ = ["ChordOffsets", "arc_offsets", "edge_offsets", "station_offsets"]


@dataclass(frozen=True, slots=True)
class ChordOffsets:
    """Offsets of a curved edge from the straight line between two points.

    Attributes
    ----------
    name
        The edge, or the side of the top.
    start, end
        Ends of the line in mm.
    radius
        Radius of the edge in mm where it is one arc, else None.
    rows
        Distance along the line from its start, and offset to the edge, in mm; the last row is the end of the line.
        The offset is positive outwards, away from the wood.
    """

    name: str
    start: Point
    end: Point
    radius: float | None
    rows: tuple[tuple[float, float], ...]


def edge_offsets(shape: Shape, spacing: float, over_radius: float = 0.0) -> tuple[ChordOffsets, ...]:
    """Offsets of each arc of at most half a turn from its own chord.

    Parameters
    ----------
    shape
        Any shape.
    spacing
        Distance of the stations in mm, counted from where the edge starts.
    over_radius
        Only arcs of a greater radius (mm): what a trammel reaches needs no table.

    Raises
    ------
    GeometryError
        If the spacing is not greater than 0 or makes too many stations.
    """
    tables = []
    for name, arc in zip(shape.names, shape.outline.segments, strict=True):
        if isinstance(arc, Line) or arc.radius <= over_radius or abs(arc.sweep) > math.pi * (1 + 1e-9):
            continue
        tables.append(ChordOffsets(name, arc.start, arc.end, arc.radius, arc_offsets(arc, spacing)))
    return tuple(tables)


def arc_offsets(arc: Arc, spacing: float) -> tuple[tuple[float, float], ...]:
    """Distance along the chord and offset from it of an arc of at most half a turn (mm), as `ChordOffsets.rows`.

    Raises
    ------
    GeometryError
        If the spacing is not greater than 0 or makes too many stations.
    """
    chord = math.dist(arc.start, arc.end)
    half = chord / 2
    rise = math.sqrt(max((arc.radius - half) * (arc.radius + half), 0.0))
    rows = []
    for along in _stations(chord, spacing):
        off = along - half
        under = math.sqrt(max((arc.radius - off) * (arc.radius + off), 0.0)) + rise
        # √(R² - u²) - √(R² - c²/4) as a quotient, so that a flat arc loses no digits
        offset = (half - off) * (half + off) / under if under else 0.0
        rows.append((along, math.copysign(offset, arc.sweep) if offset else 0.0))
    return tuple(rows)


def station_offsets(shape: Shape, spacing: float) -> tuple[ChordOffsets, ChordOffsets]:
    """Offsets of the whole top from one straight line along it: its south side, then its north side.

    The line runs from west to east through the middle of the top's box; a side that cuts back over itself is read
    at its outermost point.

    Parameters
    ----------
    shape
        Any shape.
    spacing
        Distance of the stations in mm, counted from the west end.

    Raises
    ------
    GeometryError
        If the spacing is not greater than 0 or makes too many stations.
    """
    west, south, east, north = shape.outline.bounds
    middle = (south + north) / 2
    length = east - west
    below, above = [], []
    for along in _stations(length, spacing):
        if min(along, length - along) <= NODE_MM:
            # there an upright line may touch only, or run along the end
            ys = _at_end(shape, west + along)
        else:
            upright = Line((west + along, south - 1.0), (west + along, north + 1.0))
            ys = [y for edge in shape.outline.segments for _, y in intersections(upright, edge)]
        below.append((along, middle - min(ys)))
        above.append((along, max(ys) - middle))
    return (
        ChordOffsets("south", (west, middle), (east, middle), None, tuple(below)),
        ChordOffsets("north", (west, middle), (east, middle), None, tuple(above)),
    )


def _at_end(shape: Shape, x: float) -> list[float]:
    """Heights (mm) at which the outline reaches its west or east end: at a vertex or where an arc stands upright."""
    ys = []
    for edge in shape.outline.segments:
        points = [edge.start]
        if isinstance(edge, Arc):
            cx, cy = edge.centre
            points += [
                point
                for point in ((cx - edge.radius, cy), (cx + edge.radius, cy))
                if 0 <= parameter(edge, point) <= 1
            ]
        ys += [y for at, y in points if abs(at - x) <= NODE_MM]
    return ys


def _stations(length: float, spacing: float) -> list[float]:
    """Multiples of the spacing below the length, and the length itself."""
    need_positive("spacing of the stations", spacing, "give 6 in or so")
    # a last station a hair from the end is the end
    count = math.ceil((length - LEAST_MM) / spacing)
    if count > 10_000:
        raise GeometryError(
            f"spacing of the stations is {spacing:g} mm, {count} on {length:g} mm; at most 10000 are listed: "
            "space them wider"
        )
    return [at * spacing for at in range(count)] + [length]
