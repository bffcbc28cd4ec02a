"""A top in plan: one outer outline and any number of holes, checked to be simple."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final, Literal

from edgewright.design.meetings import meetings, table
from edgewright.design.outline import Outline, Point, Segment
from edgewright.design.segments import direction, distance, parameter, point_at, winding
from edgewright.design.tolerances import NODE_MM, PARALLEL_RAD
from edgewright.errors import GeometryError

__all__ = ["LoopsError", "Place", "Region", "point_in_region"]


class LoopsError(GeometryError):
    """Loops that make no region: ``loops`` are the numbers of those that meet, 0 the outer one, ``at`` where (mm)."""

    def __init__(self, message: str, loops: tuple[int, ...], at: Point) -> None:
        super().__init__(message)
        self.loops = loops
        self.at = at


Place = Literal["inside", "outside", "edge"]

#: A segment shorter than this has its two ends within rounding of one another: a few `NODE_MM`.
_SPECK_MM: Final = 5 * NODE_MM


@dataclass(frozen=True, slots=True)
class Region:
    """A plane region: what lies within the outer loop and outside every hole.

    Attributes
    ----------
    outer
        Outer loop, counter-clockwise.
    holes
        Loops run clockwise, within the outer one and outside one another. Loops may touch at single points.

    Raises
    ------
    GeometryError
        If a loop runs the wrong way, crosses itself or another, runs along itself or another, or a hole is
        not within the outer loop.
    """

    outer: Outline
    holes: tuple[Outline, ...] = ()

    def __post_init__(self) -> None:
        if not self.outer.area > 0:
            raise GeometryError(
                f"outer loop has area {self.outer.area:g} mm²; it must be greater than 0 mm²: "
                "run it counter-clockwise"
            )
        for number, hole in enumerate(self.holes, start=1):
            if not hole.area < 0:
                raise GeometryError(
                    f"hole {number} has area {hole.area:g} mm²; it must be less than 0 mm²: run it clockwise"
                )
        _check_crossings(self)
        for number, hole in enumerate(self.holes, start=1):
            _check_hole(self, number, hole)

    @property
    def loops(self) -> tuple[Outline, ...]:
        """The outer loop, then the holes."""
        return (self.outer, *self.holes)

    @property
    def segments(self) -> tuple[Segment, ...]:
        """All segments, loop by loop; the region lies on the left of each."""
        return tuple(segment for loop in self.loops for segment in loop.segments)

    @property
    def area(self) -> float:
        """Area in mm², holes taken off."""
        return math.fsum(loop.area for loop in self.loops)

    @property
    def perimeter(self) -> float:
        """Length of all edges in mm, those of holes included."""
        return math.fsum(loop.length for loop in self.loops)

    @property
    def centroid(self) -> Point:
        """Centre of the area (mm)."""
        weighed = [(loop.area, loop.centroid) for loop in self.loops]
        x0, y0 = weighed[0][1]
        return (
            x0 + math.fsum(area * (x - x0) for area, (x, _) in weighed) / self.area,
            y0 + math.fsum(area * (y - y0) for area, (_, y) in weighed) / self.area,
        )

    @property
    def bounds(self) -> tuple[float, float, float, float]:
        """Smallest upright box: x min, y min, x max, y max (mm)."""
        return self.outer.bounds


def point_in_region(region: Region, point: Point) -> Place:
    """Tell where a point lies; within `NODE_MM` of a loop it lies on the edge."""
    if any(distance(segment, point) <= NODE_MM for segment in region.segments):
        return "edge"
    return "inside" if sum(winding(loop, point) for loop in region.loops) > 0 else "outside"


def _check_hole(region: Region, number: int, hole: Outline) -> None:
    """Raise GeometryError unless the hole, which crosses nothing, lies in the wood."""
    others = [other for other in region.holes if other is not hole]
    for segment in hole.segments:
        point = point_at(segment, 0.5)
        if all(distance(other, point) > NODE_MM for other in region.outer.segments) and not winding(
            region.outer, point
        ):
            raise LoopsError(
                f"hole {number} is outside the outer loop at ({point[0]:g}, {point[1]:g}) mm; "
                "all of it must be inside: move it",
                (0, number),
                point,
            )
        for other in others:
            if all(distance(piece, point) > NODE_MM for piece in other.segments) and winding(other, point):
                raise LoopsError(
                    f"hole {number} lies within another hole at ({point[0]:g}, {point[1]:g}) mm; "
                    "holes must lie side by side: leave it out",
                    (number,),
                    point,
                )


def _check_crossings(region: Region) -> None:
    """Raise GeometryError where loops cross or run along themselves or one another."""
    segments = region.segments
    after: list[int] = []
    loop_of: list[int] = []
    for number, loop in enumerate(region.loops):
        first, count = len(after), len(loop.segments)
        after.extend(first + (at + 1) % count for at in range(count))
        loop_of.extend([number] * count)
    before = {following: at for at, following in enumerate(after)}
    for i, j, shared in meetings(segments, table(segments)):
        for at, point in enumerate(shared):
            x, y = point
            joint = _joined(segments, after, i, j, point) or _joined(segments, after, j, i, point)
            if not joint and _cross(*(_pass(segments, before, after, number, point) for number in (i, j))):
                raise LoopsError(
                    f"segments {i + 1} and {j + 1} of the loops cross at ({x:g}, {y:g}) mm; "
                    "edges may not cross: correct the outline",
                    tuple(sorted({loop_of[i], loop_of[j]})),
                    point,
                )
            if any(_along(segments[i], segments[j], point, later) for later in shared[at + 1 :]):
                raise LoopsError(
                    f"segments {i + 1} and {j + 1} of the loops run along each other at ({x:g}, {y:g}) mm; "
                    "there is no wood between them: correct the outline",
                    tuple(sorted({loop_of[i], loop_of[j]})),
                    point,
                )


def _joined(segments: tuple[Segment, ...], after: list[int], at: int, to: int, point: Point) -> bool:
    """Tell whether one segment leads to another at a point: as its next, or over a speck that ends there too."""
    over = after[at]
    if over == to:
        return math.dist(point, segments[at].end) <= NODE_MM
    # both ends of a speck are one point but for rounding: which way the loop passes there cannot be told
    speck = segments[over]
    return after[over] == to and speck.length + math.dist(point, speck.start) <= _SPECK_MM


def _pass(
    segments: tuple[Segment, ...], before: dict[int, int], after: list[int], at: int, point: Point
) -> tuple[float, float]:
    """Directions (radians from east) in which the loop leaves a point of it, backwards and forwards."""
    segment = segments[at]
    back, ahead, t_back, t_ahead = segment, segment, parameter(segment, point), parameter(segment, point)
    if math.dist(point, segment.start) <= NODE_MM:
        back, t_back, t_ahead = segments[before[at]], 1.0, 0.0
    elif math.dist(point, segment.end) <= NODE_MM:
        ahead, t_back, t_ahead = segments[after[at]], 1.0, 0.0
    bx, by = direction(back, t_back)
    ax, ay = direction(ahead, t_ahead)
    return math.atan2(-by, -bx), math.atan2(ay, ax)


def _cross(one: tuple[float, float], other: tuple[float, float]) -> bool:
    """Tell whether two passes through a point separate each other; tangent ones only touch."""
    full = 2 * math.pi
    gap = (one[1] - one[0]) % full
    sides = [(angle - one[0]) % full for angle in other]
    if any(min(side, full - side, abs(side - gap)) <= PARALLEL_RAD for side in sides):
        return False
    return (sides[0] < gap) != (sides[1] < gap)


def _along(one: Segment, other: Segment, begin: Point, end: Point) -> bool:
    """Tell whether two segments run along each other between two shared points."""
    t_begin, t_end = parameter(one, begin), parameter(one, end)
    middle = point_at(one, (t_begin + t_end) / 2)
    width = abs(t_end - t_begin) * one.length
    return width > 1e3 * NODE_MM and distance(other, middle) <= NODE_MM
