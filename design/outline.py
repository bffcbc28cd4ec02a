"""Outlines: closed loops of straight lines and circular arcs, exact.

An outline runs counter-clockwise seen from above, so the wood lies on its left; a hole is the same loop run
clockwise and has a negative ``area``. Nothing here is approximated by short chords.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from edgewright.errors import GeometryError

__all__ = [
    "FIT_MM",
    "Arc",
    "CornerRadii",
    "Line",
    "Outline",
    "Point",
    "Segment",
    "check_rectangle",
    "rectangle",
]

Point = tuple[float, float]
#: Corner radii in mm, counter-clockwise from the origin: south-west, south-east, north-east, north-west.
CornerRadii = tuple[float, float, float, float]

#: Lengths below this (mm) are rounding of binary floats, not wood: a gap closes, a segment is left out.
FIT_MM: Final = 1e-9


@dataclass(frozen=True, slots=True)
class Line:
    """A straight segment from ``start`` to ``end`` (mm)."""

    start: Point
    end: Point

    @property
    def length(self) -> float:
        """Length in mm."""
        return math.dist(self.start, self.end)


@dataclass(frozen=True, slots=True)
class Arc:
    """A circular arc from ``start`` to ``end`` about ``centre`` (mm).

    Attributes
    ----------
    radius
        Radius in mm, greater than 0.
    sweep
        Turned angle in radians, positive counter-clockwise, less than a full turn either way.
    """

    start: Point
    end: Point
    centre: Point
    radius: float
    sweep: float

    @property
    def length(self) -> float:
        """Length along the arc in mm."""
        return self.radius * abs(self.sweep)

    @property
    def start_angle(self) -> float:
        """Direction from the centre to the start, radians from east."""
        return math.atan2(self.start[1] - self.centre[1], self.start[0] - self.centre[0])


Segment = Line | Arc


@dataclass(frozen=True, slots=True)
class Outline:
    """A closed loop of segments, each starting where the one before it ends.

    Crossing of the loop with itself is not looked for.

    Raises
    ------
    GeometryError
        If the loop has a gap, a segment of no length, a figure that is not finite, or an arc whose ends,
        centre, radius and sweep contradict one another.
    """

    segments: tuple[Segment, ...]

    def __post_init__(self) -> None:
        if not self.segments:
            raise GeometryError("outline has 0 segments; at least 2 are needed: add lines or arcs")
        before = self.segments[-1]
        for number, segment in enumerate(self.segments, start=1):
            _check_segment(number, segment)
            gap = math.dist(before.end, segment.start)
            if gap > _tolerance(segment):
                raise GeometryError(
                    f"outline segment {number} starts {gap:g} mm from the end of the one before it; "
                    "at most 0 mm is allowed: close the loop"
                )
            before = segment

    @property
    def length(self) -> float:
        """Length of the loop in mm."""
        return math.fsum(segment.length for segment in self.segments)

    @property
    def area(self) -> float:
        """Enclosed area in mm²; negative when the loop runs clockwise (a hole).

        Green's theorem: the polygon of the chords plus, for each arc, its circular segment
        R²(θ - sin θ)/2 with the sign of the sweep.
        """
        return math.fsum(area for area, _, _ in self._area_parts())

    @property
    def centroid(self) -> Point:
        """Centre of the enclosed area (mm)."""
        parts = self._area_parts()
        area = math.fsum(part[0] for part in parts)
        x0, y0 = self.segments[0].start
        return (
            x0 + math.fsum(part[1] for part in parts) / area,
            y0 + math.fsum(part[2] for part in parts) / area,
        )

    @property
    def bounds(self) -> tuple[float, float, float, float]:
        """Smallest upright box: x min, y min, x max, y max (mm)."""
        points = [segment.start for segment in self.segments]
        for segment in self.segments:
            if isinstance(segment, Arc):
                points.extend(_quadrant_points(segment))
        xs = [x for x, _ in points]
        ys = [y for _, y in points]
        return min(xs), min(ys), max(xs), max(ys)

    @property
    def middle(self) -> Point:
        """Centre of the smallest upright box (mm)."""
        x0, y0, x1, y1 = self.bounds
        return (x0 + x1) / 2, (y0 + y1) / 2

    def bulge_vertices(self) -> tuple[tuple[float, float, float], ...]:
        """Vertices (x, y, bulge) of the closed loop, the first one not repeated at the end.

        The bulge belongs to the segment that starts at the vertex: tan(sweep/4), 0 for a line, positive
        counter-clockwise, 1 for half a circle.

        References
        ----------
        Autodesk DXF Reference, LWPOLYLINE, group code 42.
        """
        return tuple(
            (*segment.start, math.tan(segment.sweep / 4) if isinstance(segment, Arc) else 0.0)
            for segment in self.segments
        )

    def _area_parts(self) -> list[tuple[float, float, float]]:
        """Signed area and first moments (about the first vertex) of each chord triangle and arc segment."""
        # Measured from a vertex of its own, an outline far from the origin loses no digits.
        x0, y0 = self.segments[0].start
        parts = []
        for segment in self.segments:
            ax, ay = segment.start[0] - x0, segment.start[1] - y0
            bx, by = segment.end[0] - x0, segment.end[1] - y0
            triangle = (ax * by - bx * ay) / 2
            parts.append((triangle, triangle * (ax + bx) / 3, triangle * (ay + by) / 3))
            if isinstance(segment, Arc):
                radius, sweep = segment.radius, segment.sweep
                area = radius**2 * (sweep - math.sin(sweep)) / 2
                # moment of a circular segment about its centre, along its middle direction
                moment = 2 / 3 * (radius * math.sin(sweep / 2)) ** 3
                middle = segment.start_angle + sweep / 2
                parts.append(
                    (
                        area,
                        area * (segment.centre[0] - x0) + moment * math.cos(middle),
                        area * (segment.centre[1] - y0) + moment * math.sin(middle),
                    )
                )
        return parts


def check_rectangle(length: float, width: float, radii: CornerRadii) -> None:
    """Check that a rectangle with these corner radii exists (mm).

    Raises
    ------
    GeometryError
        If a size is not finite and positive, a radius is not finite and at least 0, or two neighbouring
        radii together are longer than the side between them.
    """
    for name, size in (("length", length), ("width", width)):
        if not (math.isfinite(size) and size > FIT_MM):
            raise GeometryError(f"{name} is {size:g} mm; it must be greater than 0 mm: measure the top again")
    names = ("south-west", "south-east", "north-east", "north-west")
    if len(radii) != len(names):
        raise GeometryError(f"{len(radii)} corner radii given; exactly 4 are needed: one for each corner")
    for name, radius in zip(names, radii, strict=True):
        if not (math.isfinite(radius) and radius >= 0):
            raise GeometryError(
                f"{name} corner radius is {radius:g} mm; it must be at least 0 mm: give 0 for a sharp corner"
            )
    sides = (("south", length), ("east", width), ("north", length), ("west", width))
    for at, (side, size) in enumerate(sides):
        after = (at + 1) % 4
        total = radii[at] + radii[after]
        if total > size + FIT_MM:
            raise GeometryError(
                f"corner radii {names[at]} {radii[at]:g} mm and {names[after]} {radii[after]:g} mm add up to "
                f"{total:.10g} mm; the {side} side between them allows at most {size:.10g} mm: "
                "make a radius smaller"
            )


def rectangle(
    length: float,
    width: float,
    radii: CornerRadii = (0.0, 0.0, 0.0, 0.0),
    origin: Point = (0.0, 0.0),
) -> Outline:
    """Rectangle with four corner radii, counter-clockwise, starting on the south side.

    Parameters
    ----------
    length, width
        Size along x and y in mm, greater than 0.
    radii
        Corner radii in mm: south-west, south-east, north-east, north-west; 0 is a sharp corner.
    origin
        South-west corner of the box around it (mm).

    Raises
    ------
    GeometryError
        If the figures do not fit together, see `check_rectangle`.
    """
    check_rectangle(length, width, radii)
    if not all(map(math.isfinite, origin)):
        raise GeometryError(f"origin is ({origin[0]:g}, {origin[1]:g}) mm; both must be finite: give numbers")
    x, y = origin
    corners = ((x, y), (x + length, y), (x + length, y + width), (x, y + width))
    inward = ((1, 1), (-1, 1), (-1, -1), (1, -1))
    # each corner: where the side before it stops, the arc's centre, where the next side begins
    bends: list[tuple[Point, Point, Point, float]] = []
    for at, ((cx, cy), (ix, iy), radius) in enumerate(zip(corners, inward, radii, strict=True)):
        r = radius if radius > FIT_MM else 0.0
        along_x, along_y = (cx + ix * r, cy), (cx, cy + iy * r)
        stop, begin = (along_y, along_x) if at % 2 == 0 else (along_x, along_y)
        bends.append((stop, (cx + ix * r, cy + iy * r), begin, r))
    segments: list[Segment] = []
    for this, following in pairwise((*bends, bends[0])):
        _, _, begin, _ = this
        stop, centre, begin_next, r = following
        if math.dist(begin, stop) > 2 * FIT_MM:
            segments.append(Line(begin, stop))
        if r:
            segments.append(Arc(stop, begin_next, centre, r, math.pi / 2))
    return Outline(tuple(segments))


def _tolerance(segment: Segment) -> float:
    """Largest gap (mm) that float rounding alone explains at the segment's coordinates."""
    size = max(map(abs, (*segment.start, *segment.end)))
    return max(4 * FIT_MM, 1e-12 * size)


def _check_segment(number: int, segment: Segment) -> None:
    """Raise GeometryError if one segment contradicts itself."""
    figures = [*segment.start, *segment.end]
    if isinstance(segment, Arc):
        figures += [*segment.centre, segment.radius, segment.sweep]
    if not all(map(math.isfinite, figures)):
        raise GeometryError(f"outline segment {number} has a figure that is not finite: give numbers in mm")
    if isinstance(segment, Arc):
        if not segment.radius > 0:
            raise GeometryError(
                f"outline segment {number} has radius {segment.radius:g} mm; it must be greater than 0 mm: "
                "use a sharp corner"
            )
        if not abs(segment.sweep) < 2 * math.pi:
            raise GeometryError(
                f"outline segment {number} sweeps {math.degrees(segment.sweep):g}°; it must be less than "
                "360°: split a circle into two arcs"
            )
        _check_arc_ends(number, segment)
    if not segment.length > FIT_MM:
        raise GeometryError(
            f"outline segment {number} is {segment.length:g} mm long; it must be longer: leave it out"
        )


def _check_arc_ends(number: int, arc: Arc) -> None:
    """Raise GeometryError if the arc's ends are not where centre, radius and sweep put them."""
    begin = arc.start_angle
    for name, point, angle in (("start", arc.start, begin), ("end", arc.end, begin + arc.sweep)):
        cx, cy = arc.centre
        expected = (cx + arc.radius * math.cos(angle), cy + arc.radius * math.sin(angle))
        off = math.dist(point, expected)
        if off > _tolerance(arc) + 1e-12 * arc.radius:
            raise GeometryError(
                f"outline segment {number}: the arc's {name} is {off:g} mm away from where its centre, "
                f"radius {arc.radius:g} mm and sweep put it; at most 0 mm is allowed: correct the arc"
            )


def _quadrant_points(arc: Arc) -> list[Point]:
    """Points of the arc that lie due east, north, west or south of its centre."""
    low, high = sorted((arc.start_angle, arc.start_angle + arc.sweep))
    points = []
    for quarter in range(math.ceil(low / (math.pi / 2)), math.floor(high / (math.pi / 2)) + 1):
        east, north = ((1, 0), (0, 1), (-1, 0), (0, -1))[quarter % 4]
        points.append((arc.centre[0] + arc.radius * east, arc.centre[1] + arc.radius * north))
    return points
