"""Inside corners that a bearing cannot follow, and where the bearing comes to rest in each.

A bearing rolls along the outline on the outside. Into a sharp inside corner, or a hollow arc tighter than its own
radius, it does not go: there it touches two walls at once and leaves what lies behind it, the pocket.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from edgewright.design.outline import Arc, Line, Outline, Point, Segment
from edgewright.design.region import Region
from edgewright.design.segments import direction, distance, parameter, point_at, turn_between
from edgewright.design.tolerances import NODE_MM, PARALLEL_RAD
from edgewright.errors import GeometryError

__all__ = ["Pocket", "pockets"]


@dataclass(frozen=True, slots=True)
class Pocket:
    """What lies behind a bearing at rest in an inside corner.

    Attributes
    ----------
    centre, radius
        The bearing, mm.
    walls
        The outline behind it, from one touching point to the other, wood on the left.
    turns
        Angle by which the outline turns to the right between each wall and the next, radians, 0 where smooth.
    numbers
        Segments of the region (in the order of ``region.segments``) that the walls are parts of.
    """

    centre: Point
    radius: float
    walls: tuple[Segment, ...]
    turns: tuple[float, ...]
    numbers: tuple[int, ...]


def pockets(region: Region, bearing_radius: float, still: frozenset[int] = frozenset()) -> tuple[Pocket, ...]:
    """Find every inside corner that the bearing cannot follow.

    Parameters
    ----------
    bearing_radius
        In mm, greater than 0.
    still
        Segments that are not routed; a corner with one of them is left out.

    Raises
    ------
    GeometryError
        If the radius is not greater than 0, or the bearing does not go into a gap, a cut-out or beside a wall
        that is too short for it.
    """
    if not (math.isfinite(bearing_radius) and bearing_radius > 0):
        raise GeometryError(
            f"bearing radius is {bearing_radius:g} mm; it must be greater than 0 mm: measure the bearing"
        )
    found: dict[tuple[int, ...], Pocket] = {}
    first = 0
    for loop in region.loops:
        for before, after in _spots(loop, bearing_radius):
            count = len(loop.segments)
            if {first + at % count for at in range(before, after + 1)} & still:
                continue
            pocket = _rest(region, loop, first, before, after, bearing_radius)
            if not set(pocket.numbers) & still:
                found.setdefault(pocket.numbers, pocket)
        first += len(loop.segments)
    return tuple(found.values())


def _spots(loop: Outline, radius: float) -> Iterator[tuple[int, int]]:
    """Numbers of the segments before and after each corner or arc that the bearing cannot follow."""
    for at, segment in enumerate(loop.segments):
        if _tight(segment, radius):
            yield at - 1, at + 1
        if _turn(loop, at) < -PARALLEL_RAD:
            yield at, at + 1


def _tight(segment: Segment, radius: float) -> bool:
    return isinstance(segment, Arc) and segment.sweep < 0 and segment.radius < radius - NODE_MM


def _turn(loop: Outline, at: int) -> float:
    """Angle by which the loop turns to the left at the end of a segment."""
    return turn_between(_at(loop, at), _at(loop, at + 1))


def _at(loop: Outline, number: int) -> Segment:
    return loop.segments[number % len(loop.segments)]


def _rest(region: Region, loop: Outline, first: int, before: int, after: int, radius: float) -> Pocket:
    """Let the bearing come to rest, taking in further walls until it touches the two outermost and nothing else."""
    count = len(loop.segments)
    spot = _at(loop, after).start
    low, high = before, after
    while high - low < count:
        grown = (low - _tight(_at(loop, low), radius), high + _tight(_at(loop, high), radius))
        if grown == (low, high):
            one, other = _at(loop, low), _at(loop, high)
            centres = sorted(_centres(one, other, radius), key=lambda point: math.dist(point, spot))
            for centre in centres:
                shares = parameter(one, centre), parameter(other, centre)
                if _on(one, shares[0]) and _on(other, shares[1]) and _clear(region, centre, radius):
                    return _pocket(loop, first, (low, high), centre, radius)
            grown = _further(loop, (low, high), centres, radius)
        if grown == (low, high) or any(
            _turn(loop, at) > PARALLEL_RAD for at in (*range(grown[0], low), *range(high, grown[1]))
        ):
            break
        low, high = grown
    x, y = spot
    raise GeometryError(
        f"the bearing, radius {radius:g} mm, does not come to rest at the inside corner at ({x:g}, {y:g}) mm: "
        f"a gap must be at least {2 * radius:g} mm wide and the walls of a corner long enough for both touching "
        "points; use a smaller bearing or a larger inside radius"
    )


def _on(segment: Segment, share: float) -> bool:
    least = NODE_MM / segment.length
    return -least <= share <= 1 + least


def _clear(region: Region, centre: Point, radius: float) -> bool:
    return all(distance(segment, centre) >= radius - NODE_MM for segment in region.segments)


def _further(loop: Outline, ends: tuple[int, int], centres: list[Point], radius: float) -> tuple[int, int]:
    """Take in the wall that the bearing would touch beyond an end, or that it would cut into."""
    low, high = ends
    if not centres:
        return ends
    centre = centres[0]
    if parameter(_at(loop, low), centre) < 0 or distance(_at(loop, low - 1), centre) < radius - NODE_MM:
        low -= 1
    if parameter(_at(loop, high), centre) > 1 or distance(_at(loop, high + 1), centre) < radius - NODE_MM:
        high += 1
    return low, high


def _pocket(loop: Outline, first: int, ends: tuple[int, int], centre: Point, radius: float) -> Pocket:
    low, high = ends
    walls: list[Segment] = []
    turns: list[float] = []
    for at in range(low, high + 1):
        segment = _at(loop, at)
        begin = parameter(segment, centre) if at == low else 0.0
        end = parameter(segment, centre) if at == high else 1.0
        walls.append(_part(segment, begin, end))
        if at < high:
            turns.append(max(-_turn(loop, at), 0.0))
    numbers = tuple(first + at % len(loop.segments) for at in range(low, high + 1))
    return Pocket(centre, radius, tuple(walls), tuple(turns), numbers)


def _part(segment: Segment, begin: float, end: float) -> Segment:
    start = segment.start if begin == 0 else point_at(segment, begin)
    stop = segment.end if end == 1 else point_at(segment, end)
    if isinstance(segment, Line):
        return Line(start, stop)
    return Arc(start, stop, segment.centre, segment.radius, (end - begin) * segment.sweep)


def _centres(one: Segment, other: Segment, radius: float) -> list[Point]:
    """Places of a circle that touches the lines or circles of two segments, on their right."""
    if isinstance(one, Arc) and isinstance(other, Line):
        one, other = other, one
    if isinstance(one, Line):
        (x, y), (ux, uy) = one.start, direction(one, 0.0)
        x, y = x + radius * uy, y - radius * ux
        if isinstance(other, Line):
            (px, py), (vx, vy) = other.start, direction(other, 0.0)
            px, py = px + radius * vy, py - radius * vx
            cross = ux * vy - uy * vx
            if abs(cross) <= PARALLEL_RAD:
                return []
            along = ((px - x) * vy - (py - y) * vx) / cross
            return [(x + along * ux, y + along * uy)]
        (cx, cy), reach = other.centre, _reach(other, radius)
        middle, off = (cx - x) * ux + (cy - y) * uy, (cy - y) * ux - (cx - x) * uy
        if reach < abs(off):
            return []
        half = math.sqrt(reach**2 - off**2)
        return [(x + along * ux, y + along * uy) for along in (middle - half, middle + half)]
    assert isinstance(other, Arc)
    (ax, ay), (bx, by) = one.centre, other.centre
    near, far, apart = _reach(one, radius), _reach(other, radius), math.dist(one.centre, other.centre)
    if apart == 0 or not abs(near - far) <= apart <= near + far:
        return []
    along = (near**2 - far**2 + apart**2) / (2 * apart)
    half = math.sqrt(max(near**2 - along**2, 0.0))
    ux, uy = (bx - ax) / apart, (by - ay) / apart
    return [(ax + along * ux - side * uy, ay + along * uy + side * ux) for side in (-half, half)]


def _reach(arc: Arc, radius: float) -> float:
    """Distance from the arc's centre to that of a circle that touches it on its right."""
    return arc.radius + math.copysign(radius, arc.sweep)
