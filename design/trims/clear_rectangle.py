"""Rectangles in any region, hollow, curved or with holes, with sides along a chosen direction.

The region is cut into strips across the direction. What no edge comes into over a run of strips is clear: that is
exact for lines and arcs, so every rectangle found lies in the wood; where sides slope or bend, the strips are as
made finer at the ends of the best run, and the two ends are then moved together: where the sides about them bulge
or run straight, the clear area has one hill, found by golden section within golden section.
"""

from __future__ import annotations

from itertools import pairwise
from typing import Final

from edgewright.design.outline import Arc, Line, Point, Segment
from edgewright.design.region import Region, point_in_region
from edgewright.design.tolerances import NODE_MM
from edgewright.design.trims.golden import peak, peak_between
from edgewright.design.trims.shadow import Frame, free_between, shadows, span
from edgewright.design.trims.turned_rectangle import TurnedRectangle
from edgewright.errors import GeometryError

__all__ = ["clear_rectangle", "widest_blank"]

_STRIPS: Final = 48
_PASSES: Final = 2
_HALVINGS: Final = 30

Free = list[tuple[float, float]]
#: A rectangle: area, begin and end along, low and high across.
Run = tuple[float, float, float, float, float]


def clear_rectangle(region: Region, direction: Point) -> TurnedRectangle:
    """Large true rectangle in a region with sides along and across a direction, longer side first.

    The largest one for sides that run along or across the direction; with sloping and curved sides the largest of
    a search of 1/48 of the region's length, made finer about the best: nothing is proven.

    Raises
    ------
    GeometryError
        If the direction has no length.
    """
    frame = Frame.at((0.0, 0.0), direction)
    local = [frame.moved(segment) for segment in region.segments]
    turned = _turned(local)
    west, east = span(local, (1.0, 0.0))
    corners = {segment.start[0] for segment in local} | {west, east}
    step = (east - west) / _STRIPS
    places = corners | {west + step * at for at in range(_STRIPS + 1)}
    best = _best_run(region, frame, turned, sorted(places))
    for _ in range(_PASSES):
        near = {at + step * share / 5 for at in best[1:3] for share in range(-6, 7)}
        places = {at for at in near | set(best[1:3]) if west <= at <= east}
        best = max(best, _best_run(region, frame, turned, sorted(places)))
        step /= 5
    best = max(best, _polished(turned, best, 25 * step, (west, east)))
    _, begin, end, low, high = best
    return _longer_first(frame, begin, end, low, high)


def widest_blank(region: Region, length: float, direction: Point) -> TurnedRectangle | None:
    """Widest true rectangle of a length (mm) along a direction; None if the region has none.

    Raises
    ------
    GeometryError
        If the length is not greater than 0 mm or the direction has no length.
    """
    if not length > 0:
        raise GeometryError(f"blank length is {length:g} mm; it must be greater than 0 mm: give a length")
    frame = Frame.at((0.0, 0.0), direction)
    local = [frame.moved(segment) for segment in region.segments]
    turned = _turned(local)
    west, east = span(local, (1.0, 0.0))
    if east - west < length:
        return None

    def room(begin: float) -> tuple[float, float]:
        free = _free(region, frame, turned, begin, begin + length)
        return max(free, key=lambda part: part[1] - part[0], default=(0.0, 0.0))

    def width(begin: float) -> float:
        low, high = room(begin)
        return high - low

    last = east - length
    places = {west, last}
    for segment in local:
        ends = {segment.start[0]}
        if isinstance(segment, Arc):
            ends |= {
                segment.centre[0] - segment.radius,
                segment.centre[0],
                segment.centre[0] + segment.radius,
            }
        places |= {at - off for at in ends for off in (0.0, length / 2, length) if west < at - off < last}
    begin = peak_between(width, sorted(places), samples=6, steps=40)
    low, high = room(begin)
    if high - low <= NODE_MM:
        return None
    return TurnedRectangle(frame.world((begin, low)), frame.along, length, high - low)


def _turned(local: list[Segment]) -> list[Segment]:
    """Segments with x and y changed, so that a strip across is a band between two heights."""
    found: list[Segment] = []
    for segment in local:
        start, end = segment.start[::-1], segment.end[::-1]
        if isinstance(segment, Line):
            found.append(Line(start, end))
        else:
            found.append(Arc(start, end, segment.centre[::-1], segment.radius, -segment.sweep))
    return found


def _free(region: Region, frame: Frame, turned: list[Segment], begin: float, end: float) -> Free:
    """Clear ranges across between two places along."""
    low, high = span(turned, (1.0, 0.0))
    middle = (begin + end) / 2
    return [
        (a, b)
        for a, b in free_between(shadows(turned, begin, end), low, high)
        if point_in_region(region, frame.world((middle, (a + b) / 2))) == "inside"
    ]


def _best_run(region: Region, frame: Frame, turned: list[Segment], places: list[float]) -> Run:
    """Largest rectangle made of whole strips."""
    strips = [(a, b, _free(region, frame, turned, a, b)) for a, b in pairwise(places) if b - a > NODE_MM]
    best = (0.0, places[0], places[-1], 0.0, 0.0)
    for first, (begin, _, free) in enumerate(strips):
        common = free
        for _, end, after in strips[first:]:
            common = [
                (max(a, c), min(b, d)) for a, b in common for c, d in after if min(b, d) - max(a, c) > NODE_MM
            ]
            if not common:
                break
            low, high = max(common, key=lambda part: part[1] - part[0])
            best = max(best, ((end - begin) * (high - low), begin, end, low, high))
    return best


def _polished(turned: list[Segment], run: Run, reach: float, limits: tuple[float, float]) -> Run:
    """Move both ends of a run by at most ``reach`` to where the clear area is largest."""
    _, begin, end, low, high = run
    bottom, top = span(turned, (1.0, 0.0))
    inside = (low + high) / 2
    ends = max((begin + end) / 2, end - reach), min(limits[1], end + reach)

    def room(start: float, stop: float) -> tuple[float, float]:
        free = free_between(shadows(turned, start, stop), bottom, top)
        return next(((a, b) for a, b in free if a < inside < b), (0.0, 0.0))

    def area(start: float, stop: float) -> float:
        a, b = room(start, stop)
        return (stop - start) * (b - a)

    def best_end(start: float) -> float:
        return peak(lambda stop: area(start, stop), *ends, _HALVINGS)

    starts = max(limits[0], begin - reach), min((begin + end) / 2, begin + reach)
    start = peak(lambda at: area(at, best_end(at)), *starts, _HALVINGS)
    stop = best_end(start)
    return (area(start, stop), start, stop, *room(start, stop))


def _longer_first(frame: Frame, begin: float, end: float, low: float, high: float) -> TurnedRectangle:
    length, width = end - begin, high - low
    if length >= width:
        return TurnedRectangle(frame.world((begin, low)), frame.along, length, width)
    ux, uy = frame.along
    return TurnedRectangle(frame.world((end, low)), (-uy, ux), width, length)
