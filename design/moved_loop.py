"""A loop of the outline moved in by an inset, as points: as many at every inset, so that levels can be joined.

Lines and arcs move along their normal, round an inside corner an arc grows, edges that are not routed stay. A
stretch that has died leaves all its points where its neighbours meet. Good for insets up to the reach of a router
bit; where a loop would split or meet another, nothing of this holds.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from edgewright.design.intersect import intersections
from edgewright.design.outline import FIT_MM, Arc, Line, Outline, Point, Segment
from edgewright.design.segments import direction
from edgewright.design.solid_figures import turn_at

__all__ = ["Stretch", "moved_points", "stretches"]


@dataclass(frozen=True, slots=True)
class Stretch:
    """A segment or an inside corner of a loop.

    Attributes
    ----------
    segment
        Where it lies at inset 0; None for an inside corner.
    routed
        Whether it moves.
    chords
        Chords that it is drawn as at every inset.
    corner, before, after
        The corner, and the unit vectors into the wood at its two ends.
    smooth
        Whether it runs on from the stretch before it without a corner, both routed or both not.
    """

    segment: Segment | None
    routed: bool
    chords: int
    corner: Point
    before: Point
    after: Point
    smooth: bool


def stretches(
    loop: Outline, routed: Sequence[bool], chords: Sequence[int], corner_chords: Sequence[int]
) -> tuple[Stretch, ...]:
    """Stretches of a loop.

    Parameters
    ----------
    loop
        Wood on its left.
    routed, chords
        For each segment, whether it moves and how many chords it gets.
    corner_chords
        Chords of the arc round the corner before each segment, where that is an inside one.
    """
    found: list[Stretch] = []
    for at, segment in enumerate(loop.segments):
        last = loop.segments[at - 1]
        turn = turn_at(last, segment)
        begin, end = _inward(segment, 0.0), _inward(segment, 1.0)
        rounded = turn < 0 and routed[at] and routed[at - 1]
        if rounded:
            found.append(
                Stretch(None, True, corner_chords[at], segment.start, _inward(last, 1.0), begin, True)
            )
        smooth = rounded or (turn == 0 and routed[at] == routed[at - 1])
        found.append(Stretch(segment, routed[at], chords[at], segment.start, begin, end, smooth))
    return tuple(found)


def moved_points(loop: Sequence[Stretch], inset: float) -> list[Point]:
    """Points of the loop moved in, stretch by stretch: its start and the inner ends of its chords."""
    alive = [at for at, stretch in enumerate(loop) if not _is_spent(stretch, inset)]
    while len(alive) > 1:
        # where the stretch at each place begins
        starts = {at: _meeting(loop, alive[n - 1], at, inset) for n, at in enumerate(alive)}
        ends = {at: starts[alive[(n + 1) % len(alive)]] for n, at in enumerate(alive)}
        worst = min(alive, key=lambda at: _run(loop[at], inset, starts[at], ends[at]))
        if _run(loop[worst], inset, starts[worst], ends[worst]) >= -FIT_MM:
            return _points(loop, inset, starts, ends)
        alive.remove(worst)
    return []


def _points(
    loop: Sequence[Stretch], inset: float, starts: dict[int, Point], ends: dict[int, Point]
) -> list[Point]:
    points: list[Point] = []
    waiting = 0
    for at, stretch in enumerate(loop):
        if at not in starts:
            # dead: all its points lie where the next living one begins
            waiting += stretch.chords
            continue
        points += [starts[at]] * waiting
        waiting = 0
        points += _along(stretch, inset, starts[at], ends[at])
    first = starts[min(starts)]
    return points + [first] * waiting


def _along(stretch: Stretch, inset: float, start: Point, end: Point) -> list[Point]:
    """Start of a stretch and the inner ends of its chords."""
    if stretch.chords == 1:
        return [start]
    centre, radius, sign = _circle(stretch, inset)
    (cx, cy), begin = centre, math.atan2(start[1] - centre[1], start[0] - centre[0])
    sweep = sign * (sign * (math.atan2(end[1] - cy, end[0] - cx) - begin) % (2 * math.pi))
    if radius <= FIT_MM or math.dist(start, end) <= FIT_MM:
        return [start] * stretch.chords
    angles = (begin + sweep * n / stretch.chords for n in range(1, stretch.chords))
    return [start, *((cx + radius * math.cos(a), cy + radius * math.sin(a)) for a in angles)]


def _is_spent(stretch: Stretch, inset: float) -> bool:
    """Whether an outside arc has shrunk to its centre, or an inside corner not yet begun to grow."""
    if stretch.segment is None:
        return inset <= FIT_MM
    arc = stretch.segment
    return stretch.routed and isinstance(arc, Arc) and arc.sweep > 0 and arc.radius - inset <= FIT_MM


def _circle(stretch: Stretch, inset: float) -> tuple[Point, float, float]:
    """Centre, radius at that inset, and sense of turning of an arc or an inside corner."""
    if isinstance(stretch.segment, Arc):
        sign = math.copysign(1.0, stretch.segment.sweep)
        return stretch.segment.centre, stretch.segment.radius - sign * _moves(stretch, inset), sign
    return stretch.corner, inset, -1.0


def _moves(stretch: Stretch, inset: float) -> float:
    return inset if stretch.routed else 0.0


def _meeting(loop: Sequence[Stretch], one: int, other: int, inset: float) -> Point:
    """Where two living stretches that follow one another meet."""
    a, b = loop[one], loop[other]
    (x, y), (nx, ny) = b.corner, b.before
    if inset <= FIT_MM:
        return x, y
    d = _moves(b, inset)
    guess = (x + d * nx, y + d * ny)
    if (one + 1) % len(loop) == other and b.smooth:
        return guess
    met = [
        p
        for first in _carrier(a, inset)
        for second in _carrier(b, inset)
        for p in intersections(first, second)
    ]
    return min(met, key=lambda point: math.dist(point, guess), default=guess)


def _carrier(stretch: Stretch, inset: float) -> tuple[Segment, ...]:
    """The line of a stretch at that inset, drawn out at both ends, or its whole circle as two halves."""
    if isinstance(stretch.segment, Line):
        d, (nx, ny), (ux, uy) = _moves(stretch, inset), stretch.before, direction(stretch.segment, 0.0)
        (ax, ay), (bx, by), more = stretch.segment.start, stretch.segment.end, 20 * inset
        start = (ax + d * nx - more * ux, ay + d * ny - more * uy)
        return (Line(start, (bx + d * nx + more * ux, by + d * ny + more * uy)),)
    (cx, cy), radius, _ = _circle(stretch, inset)
    east, west = (cx + radius, cy), (cx - radius, cy)
    halves = ((east, west), (west, east))
    return tuple(Arc(start, end, (cx, cy), radius, math.pi) for start, end in halves)


def _run(stretch: Stretch, inset: float, start: Point, end: Point) -> float:
    """How far a stretch runs from its start to its end, mm; negative where it would run backwards."""
    if isinstance(stretch.segment, Line):
        ux, uy = direction(stretch.segment, 0.0)
        return (end[0] - start[0]) * ux + (end[1] - start[1]) * uy
    (cx, cy), radius, sign = _circle(stretch, inset)
    turned = math.atan2(end[1] - cy, end[0] - cx) - math.atan2(start[1] - cy, start[0] - cx)
    turned = sign * turned % (2 * math.pi)
    whole = abs(stretch.segment.sweep) if stretch.segment else math.pi
    # more than the arc had, by more than what its ends may gain at an angle, is a run backwards
    return radius * (turned if turned <= (whole + 2 * math.pi) / 2 else turned - 2 * math.pi)


def _inward(segment: Segment, t: float) -> Point:
    ux, uy = direction(segment, t)
    return -uy, ux
