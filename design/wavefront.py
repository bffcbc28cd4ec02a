"""Levels of any top: how long its edge and how large its face are at every inset that a form reaches.

Each loop is followed inwards on its own (see `edgewright.design.front`): from one inset to the next at which a
segment shrinks to nothing its lengths are linear, or, where an arc meets another segment at an angle, exact at each
inset. At the end the moved loops are laid together: where one crosses itself or another, the top is narrower there
than the form reaches from both sides, and no such edge can be routed.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

from edgewright.design.curved_level import CurvedLevel
from edgewright.design.front import Front, crossing_corner, first_front, squared_corner
from edgewright.design.front_check import SPECK_MM, check_apart
from edgewright.design.levels import AnyLevel, Level, Levels
from edgewright.design.outline import FIT_MM, Arc, Line, Outline, Point
from edgewright.design.region import Region
from edgewright.design.segments import direction
from edgewright.design.tolerances import PARALLEL_RAD
from edgewright.errors import GeometryError

__all__ = ["Wave", "region_levels", "region_wave"]

#: Halvings that place an event of a curved corner to the last digit.
_HALVINGS: Final = 60
#: A corner that arises where a segment died lies there but for rounding, seen through all but tangent edges.
_JUMP_MM: Final = 1e-3


@dataclass(frozen=True, slots=True)
class Wave:
    """The edges of a top on their way inwards: for each loop its fronts, each with the inset at which it begins."""

    fronts: tuple[tuple[tuple[float, Front], ...], ...]
    levels: tuple[Levels, ...]

    def loops(self, inset: float) -> tuple[Outline, ...]:
        """The moved loops at an inset (mm) up to the reach, outer first."""
        found = []
        for stages in self.fronts:
            front = next(front for begin, front in reversed(stages) if begin <= inset or begin == 0)
            outline = front.outline(inset)
            if outline is not None:
                found.append(outline)
        return tuple(found)


def region_wave(region: Region, reach: float, still: frozenset[int] = frozenset()) -> Wave:
    """Follow the edges of a region inwards.

    Parameters
    ----------
    region
        The top with its cut-outs.
    reach
        Largest inset asked for, mm, at least 0.
    still
        Numbers of the segments, in the order of ``region.segments``, that are not routed: they stay, and do not
        count in P.

    Raises
    ------
    GeometryError
        If moved edges meet or a loop vanishes: the top is too narrow for the reach.
    """
    followed = [_followed(loop, routed, reach) for loop, routed in _routed(region, still)]
    if reach > FIT_MM:
        check_apart([stages[-1][1] for stages, _ in followed], reach)
    return Wave(tuple(stages for stages, _ in followed), tuple(levels for _, levels in followed))


def region_levels(region: Region, reach: float, still: frozenset[int] = frozenset()) -> tuple[Levels, ...]:
    """Levels of each loop of ``region.loops``; the area of a hole's is negative, so that sums hold.

    See `region_wave` for the parameters and what is refused.
    """
    return region_wave(region, reach, still).levels


def _routed(region: Region, still: frozenset[int]) -> list[tuple[Outline, list[bool]]]:
    found, first = [], 0
    for loop in region.loops:
        count = len(loop.segments)
        found.append((loop, [first + at not in still for at in range(count)]))
        first += count
    return found


def _followed(
    loop: Outline, routed: Sequence[bool], reach: float
) -> tuple[tuple[tuple[float, Front], ...], Levels]:
    """Fronts of a loop with the insets at which they begin, and the levels down to ``reach``."""
    if not (math.isfinite(reach) and reach >= 0):
        raise GeometryError(f"reach is {reach:g} mm; it must be at least 0 mm: give the size of the form")
    front = first_front(loop, routed)
    stages = [(0.0, front)]
    levels: list[AnyLevel] = []
    at, area = 0.0, loop.area
    while True:
        event, dead = _next_event(front, at, reach)
        _check_run_out(front, event)
        level = _level(front, at, event, area)
        if event > at or not levels:
            levels.append(level)
            area = level.area(event)
        if dead is None:
            return tuple(stages), tuple(levels)
        place = front.ends(dead, event)[0]
        front = _without(front, dead, event, reach)
        if len(front.live) < 2:
            raise GeometryError(_used_up(place, event, reach))
        at = event
        stages.append((event, front))


def _level(front: Front, a: float, b: float, area: float) -> AnyLevel:
    """Level of a front between two insets; ``area`` is that at the first."""
    if not front.is_linear:
        level = CurvedLevel(a, b, front)
        # the loop's own area and the one carried on agree but for rounding
        return replace(level, area_off=area - level.area(a))
    p0 = math.fsum(front.length(n, 0.0) for n, one in enumerate(front.live) if one.speed)
    p1 = math.fsum(_rate(front, n) for n, one in enumerate(front.live) if one.speed)
    return Level(a, b, p0, p1, area + p0 * a + p1 * a * a / 2, -p0, -p1 / 2)


def _rate(front: Front, number: int) -> float:
    """How much a segment of a linear front grows for each mm of inset."""
    one = front.live[number]
    if isinstance(one.segment, Line):
        ux, uy = direction(one.segment, 0.0)
        # a square corner moves along the normal of the routed line and does not change its length
        (sx, sy), (ex, ey) = (
            (0.0, 0.0) if corner.kind == "square" else corner.velocity
            for corner in (front.corners[number - 1], front.corners[number])
        )
        return (ex - sx) * ux + (ey - sy) * uy
    sweep = one.turn if one.segment is None else (one.segment.sweep if isinstance(one.segment, Arc) else 0.0)
    return -sweep * one.speed


def _next_event(front: Front, at: float, reach: float) -> tuple[float, int | None]:
    """Inset of the first segment to die up to ``reach``, and which; None if none does."""
    first, dead = reach, None
    if at >= reach:
        return first, dead
    for number, one in enumerate(front.live):
        # an arc about an inside corner begins with no length; it dies only where its neighbours run over it
        least = FIT_MM if one.segment is not None else 0.0
        if front.length(number, reach) > least and (one.is_line or one.radius(reach) > least):
            continue
        # arcs between smooth neighbours die with their radius, everything else where its length is used up
        when = _death(front, number, at, reach)
        if when < first or (when == first and dead is None):
            first, dead = when, number
    return first, dead


def _death(front: Front, number: int, at: float, reach: float) -> float:
    one = front.live[number]
    ends = (front.corners[number - 1].kind, front.corners[number].kind)
    if "curved" not in ends:
        now, rate = front.length(number, 0.0), _rate(front, number)
        if isinstance(one.segment, Arc) and one.speed and one.segment.sweep > 0:
            return min(max(one.segment.radius, at), reach)
        return min(max(-now / rate if rate < 0 else reach, at), reach)
    low, high = at, reach
    if isinstance(one.segment, Arc) and one.segment.sweep > 0 and one.speed:
        high = min(high, one.segment.radius)
    if front.length(number, low) <= 0:
        return low
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        if front.length(number, middle) > 0:
            low = middle
        else:
            high = middle
    return high


def _without(front: Front, dead: int, d: float, reach: float) -> Front:
    """The front after a segment has died at inset ``d``: its neighbours meet where it was."""
    count = len(front.live)
    start, _ = front.ends(dead, d)
    before, after = (dead - 1) % count, (dead + 1) % count
    here, there = front.live[before], front.live[after]
    if count < 4 and before != after and here.is_line and there.is_line:
        raise GeometryError(_used_up(start, d, reach))
    if isinstance(here.segment, Line) and isinstance(there.segment, Line) and before != after:
        (ux, uy), (vx, vy) = direction(here.segment, 0.0), direction(there.segment, 0.0)
        if abs(ux * vy - uy * vx) <= PARALLEL_RAD and ux * vx + uy * vy < 0:
            # both sides of a strip of wood have come together along all of it
            raise GeometryError(_used_up(start, d, reach))
    live = tuple(one for at, one in enumerate(front.live) if at != dead)
    corners = list(front.corners)
    squared = squared_corner(front, dead)
    corners[before] = crossing_corner(here, there, start, d) if squared is None else squared
    del corners[dead]
    found = Front(live, tuple(corners))
    number = before if before < dead else before - 1
    if squared is None and len(live) > 1 and math.dist(found.corner_at(number, d)[0], start) > _JUMP_MM:
        # the way would turn back by more than half a turn: both sides have come together here
        raise GeometryError(_used_up(start, d, reach))
    return found


def _check_run_out(front: Front, d: float) -> None:
    """Raise GeometryError where a routed edge moved in by ``d`` does not meet the unrouted one that it ran into."""
    for number, corner in enumerate(front.corners):
        here, there = front.live[number], front.live[(number + 1) % len(front.live)]
        if corner.kind != "curved" or here.speed == there.speed:
            continue
        x, y = front.corner_at(number, d)[0]
        for one in (here, there):
            if not one.is_line and abs(math.dist((x, y), one.centre) - one.radius(d)) > SPECK_MM:
                raise GeometryError(
                    f"the edge form reaches {d:.5g} mm in and does not run out into the unrouted edge near ({x:.5g}, "
                    f"{y:.5g}) mm, which it meets at too small an angle: route that edge, too, or use a smaller form"
                )


def _used_up(place: Point, d: float, reach: float) -> str:
    x, y = place
    return (
        f"the edge form reaches {reach:.5g} mm in; the top is used up from both sides near ({x:.5g}, {y:.5g}) mm at "
        f"{d:.5g} mm: use a smaller form"
    )
