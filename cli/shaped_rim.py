"""Places on the finished rim in words: found with a tape along it, from the nearer corner."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final

from edgewright.design.intersect import intersections
from edgewright.design.outline import Arc, Line, Point, Segment
from edgewright.design.segments import distance, parameter, point_at, turn_at
from edgewright.design.shapes.model import Shape
from edgewright.display import show_mm
from edgewright.units import Units

__all__ = ["FROM_THE_EAST_END", "rim_place"]

#: A joint nearer than this to a corner is at the corner (mm).
_AT_CORNER: Final = 0.2
#: An arc that turns further is no rounded corner (radians).
_LARGEST_TURN: Final = math.radians(150)
#: How places on a rim without a corner are measured.
FROM_THE_EAST_END: Final = "from the east end, by the north"


def rim_place(shape: Shape, point: Point, units: Units, curved: frozenset[str] = frozenset()) -> str:
    """Where a point of the rim is found with a tape along it: how far from the corner it lies, and on which edge.

    Parameters
    ----------
    shape
        The finished top.
    point
        A point of its rim, or of the corner that a rounding takes off (mm).
    curved
        Names of roundings that count as edges of their own. Elsewhere distances run from the sharp corner, for the
        build-up is glued on before corners are rounded.
    """
    if _smooth(shape):
        return _round_place(shape, point, units)
    names, edges = _sharp(shape, curved)
    at = min(range(len(edges)), key=lambda number: distance(edges[number], point))
    share = min(max(parameter(edges[at], point), 0.0), 1.0)
    along, left = share * edges[at].length, (1 - share) * edges[at].length
    first = last = at
    while names[first - 1] == names[at]:
        first -= 1
        along += edges[first].length
    while names[(last + 1) % len(edges)] == names[at]:
        last += 1
        left += edges[last % len(edges)].length
    before, after = names[first - 1], names[(last + 1) % len(edges)]
    if along < _AT_CORNER:
        return f"where {before} meets {names[at]}"
    if left < _AT_CORNER:
        return f"where {names[at]} meets {after}"
    if along < left + _AT_CORNER:
        return f"{show_mm(along, units)} on {names[at]}, from {before}"
    return f"{show_mm(left, units)} on {names[at]}, from {after}"


def _smooth(shape: Shape) -> bool:
    """Whether the rim is one closed curve without a corner: its parts meet where nothing is seen."""
    edges = shape.outline.segments
    one_name = len({name.split(", station ")[0] for name in shape.names}) == 1
    return one_name or all(
        isinstance(edge, Arc) and not turn_at(edges[at - 1], edge) for at, edge in enumerate(edges)
    )


def _round_place(shape: Shape, point: Point, units: Units) -> str:
    """Distance along a closed curve from its east end, counter-clockwise."""
    edges = shape.outline.segments
    ends = [edge.start for edge in edges]
    ends += [
        east
        for edge in edges
        if isinstance(edge, Arc)
        and 0 <= parameter(edge, east := (edge.centre[0] + edge.radius, edge.centre[1])) <= 1
    ]
    whole = math.fsum(edge.length for edge in edges)
    along = (_along(edges, point) - _along(edges, max(ends))) % whole
    if min(along, whole - along) < _AT_CORNER:
        return "at the east end"
    return f"{show_mm(along, units)} {FROM_THE_EAST_END}"


def _along(edges: Sequence[Segment], point: Point) -> float:
    """From the start of the first edge along the rim to a point (mm)."""
    at = min(range(len(edges)), key=lambda number: distance(edges[number], point))
    share = min(max(parameter(edges[at], point), 0.0), 1.0)
    return math.fsum(edge.length for edge in edges[:at]) + share * edges[at].length


def _sharp(shape: Shape, curved: frozenset[str]) -> tuple[list[str], list[Segment]]:
    """Names and edges of the rim with its rounded corners drawn out to where their two sides meet."""
    names, edges = list(shape.names), list(shape.outline.segments)
    count = len(edges)
    rounded = []
    for at, arc in enumerate(shape.outline.segments):
        first, last = at - 1, (at + 1) % count
        if not isinstance(arc, Arc) or abs(arc.sweep) >= _LARGEST_TURN or names[at] in curved or count < 3:
            continue
        if "corner" not in names[at] or turn_at(edges[first], arc) or turn_at(arc, edges[last]):
            continue
        # twice as far as two straight sides reach
        reach = 2 * arc.radius * math.tan(abs(arc.sweep) / 2)
        met = intersections(
            _drawn_out(edges[first], reach), _backwards(_drawn_out(_backwards(edges[last]), reach))
        )
        if not met:
            continue
        middle = point_at(arc, 0.5)
        vertex = min(met, key=lambda one: math.dist(one, middle))
        edges[first] = _to(edges[first], vertex)
        edges[last] = _backwards(_to(_backwards(edges[last]), vertex))
        rounded.append(at)
    left = [at for at in range(count) if at not in rounded]
    return [names[at].split(", station ")[0] for at in left], [edges[at] for at in left]


def _backwards(edge: Segment) -> Segment:
    if isinstance(edge, Line):
        return Line(edge.end, edge.start)
    return Arc(edge.end, edge.start, edge.centre, edge.radius, -edge.sweep)


def _drawn_out(edge: Segment, more: float) -> Segment:
    """An edge made longer at its end (mm)."""
    if isinstance(edge, Line):
        return Line(edge.start, point_at(edge, 1 + more / edge.length))
    share = 1 + more / edge.length
    return Arc(edge.start, point_at(edge, share), edge.centre, edge.radius, edge.sweep * share)


def _to(edge: Segment, end: Point) -> Segment:
    """An edge made longer up to a point on its carrier."""
    if isinstance(edge, Line):
        return Line(edge.start, end)
    (x, y), (px, py) = (
        (edge.end[0] - edge.centre[0], edge.end[1] - edge.centre[1]),
        (
            end[0] - edge.centre[0],
            end[1] - edge.centre[1],
        ),
    )
    more = math.atan2(x * py - y * px, x * px + y * py)
    return Arc(edge.start, end, edge.centre, edge.radius, edge.sweep + more)
