"""Where people can sit at an edge: runs of it from corner to corner.

A corner is a stretch of less than half a place over which the edge turns by more than 70 degrees: nobody sits at a
rounding of 2 in or at a clipped corner, but people sit all round a circle or an octagon.
"""

from __future__ import annotations

import math
from collections.abc import Collection, Sequence
from dataclasses import dataclass
from typing import Final

from edgewright import trade
from edgewright.design.outline import FIT_MM, Arc, Outline, Point, Segment
from edgewright.design.segments import direction, point_at, turn_between

__all__ = ["Place", "Run", "runs"]

#: How much the edge turns at a corner, radians, and over how short a stretch, mm (choices of this program).
_CORNER: Final = math.radians(70)
_SHORT: Final = float(trade.SEAT_WIDTH.value) / 2
#: Sides that nearly turn back on themselves meet too far out to count on.
_SLIGHT: Final = math.sin(math.radians(15))


@dataclass(frozen=True, slots=True)
class Place:
    """One place: a point of the edge (mm) and the direction away from the top there, of length 1."""

    at: Point
    out: Point


@dataclass(frozen=True, slots=True)
class Run:
    """A stretch of edge that people sit along, lengths in mm.

    Attributes
    ----------
    segments
        The edge itself, in the order of the outline.
    before, after
        What a rounded or clipped corner adds at either end, out to where the sides would meet; negative at an inside
        corner, whose other side takes the room.
    closed
        Whether it goes all round.
    """

    segments: tuple[Segment, ...]
    before: float = 0.0
    after: float = 0.0
    closed: bool = False

    @property
    def length(self) -> float:
        """Length that counts for places, at least 0."""
        return max(math.fsum((self.before, *(one.length for one in self.segments), self.after)), 0.0)

    def spread(self, count: int) -> tuple[Place, ...]:
        """So many places, evenly; all round they lie alike on both sides of the lowest point, as tops mostly do."""
        if not count:
            return ()
        step = self.length / count
        first = self._lowest + step / 2 * (count % 2 == 0) if self.closed else step / 2
        return tuple(self.at((first + number * step) % self.length) for number in range(count))

    @property
    def _lowest(self) -> float:
        """Where the southernmost point lies, mm along the run; of a level side its middle."""
        along, found = 0.0, []
        for one in self.segments:
            found.append((round(one.start[1], 6), 1, along))
            if isinstance(one, Arc):
                # where the arc runs due east or west: at the lowest point of its circle
                turned = (-math.pi / 2 - one.start_angle) * math.copysign(1.0, one.sweep) % (2 * math.pi)
                if turned < abs(one.sweep):
                    found.append((round(one.centre[1] - one.radius, 6), 0, along + one.radius * turned))
            elif abs(one.start[1] - one.end[1]) < FIT_MM:
                found.append((round(one.start[1], 6), 0, along + one.length / 2))
            along += one.length
        return min(found)[2]

    def at(self, along: float) -> Place:
        """Place at a distance from where the counted length begins; the ends of the edge at most."""
        left = along - self.before
        for segment in self.segments:
            if left <= segment.length or segment is self.segments[-1]:
                share = min(max(left / segment.length, 0.0), 1.0)
                dx, dy = direction(segment, share)
                return Place(point_at(segment, share), (dy, -dx))
            left -= segment.length
        raise AssertionError("a run has a segment")


def runs(outline: Outline, still: Collection[int], taken: float) -> tuple[Run, ...]:
    """Runs of an outline, in its order.

    Parameters
    ----------
    outline
        Counter-clockwise.
    still
        Numbers of segments that nobody sits at, as at a wall.
    taken
        How much of a side the chairs of the other side take at an inside corner, mm.
    """
    segments = outline.segments
    count = len(segments)
    corners = _corners(segments)
    rounded = {number for first, size in corners for number in _numbers(first, size, count)}
    breaks = {first for first, size in corners if not size}
    if len(rounded) == count:
        rounded, breaks = set(), set()
    free = [n for n in range(count) if n not in rounded and n not in still]
    starts = [n for n in free if n in breaks or (n - 1) % count not in free]
    if not starts:
        return (Run(segments, closed=True),) if free else ()
    found = []
    for start in starts:
        chain = [start]
        while (ahead := (chain[-1] + 1) % count) in free and ahead not in breaks and ahead != start:
            chain.append(ahead)
        found.append(
            Run(
                tuple(segments[n] for n in chain),
                _reach(segments, corners, chain[0], still, taken, ends=False),
                _reach(segments, corners, (chain[-1] + 1) % count, still, taken, ends=True),
            )
        )
    return tuple(found)


def _numbers(first: int, size: int, count: int) -> list[int]:
    return [(first + step) % count for step in range(size)]


def _corners(segments: Sequence[Segment]) -> list[tuple[int, int]]:
    """Corners, each as the number of its first segment and how many it has: 0 for a sharp one before that segment."""
    count = len(segments)
    turns = [turn_between(segments[n - 1], segments[n]) for n in range(count)]
    sharp = {n for n in range(count) if abs(turns[n]) > _CORNER}
    # twice round, so that a stretch may run over the end of the outline
    lengths, turned = [0.0], [0.0]
    for n in (*range(count), *range(count)):
        segment = segments[n]
        lengths.append(lengths[-1] + segment.length)
        turned.append(turned[-1] + turns[n] + (segment.sweep if isinstance(segment, Arc) else 0.0))
    found, used = [(n, 0) for n in sorted(sharp)], set[int]()
    for size in range(1, count):
        short = [first for first in range(count) if lengths[first + size] - lengths[first] <= _SHORT]
        for first in short:
            numbers = _numbers(first, size, count)
            turn = turned[first + size] - turned[first] + turns[(first + size) % count]
            if abs(turn) > _CORNER and not (
                # a stretch that reaches a sharp corner is the end of a side
                used.intersection(numbers) or sharp.intersection((*numbers, (first + size) % count))
            ):
                found.append((first, size))
                used.update(numbers)
        if not short:
            break
    return found


def _reach(
    segments: Sequence[Segment],
    corners: Sequence[tuple[int, int]],
    border: int,
    still: Collection[int],
    taken: float,
    *,
    ends: bool,
) -> float:
    """What the corner before (``ends``: behind) a border between two segments adds to the run beside it."""
    count = len(segments)
    for first, size in corners:
        follows = (first + size) % count
        if (first if ends else follows) != border:
            continue
        before, after = segments[first - 1], segments[follows]
        (ax, ay), (bx, by) = direction(before, 1.0), direction(after, 0.0)
        dx, dy = after.start[0] - before.end[0], after.start[1] - before.end[1]
        cross = ax * by - ay * bx
        if abs(cross) < _SLIGHT:
            return 0.0
        # from the end of the run to where both tangents meet
        out = (dx * by - dy * bx if ends else ax * dy - ay * dx) / cross
        if cross > 0:
            return min(max(out, 0.0), _SHORT)
        other = follows if ends else (first - 1) % count
        return 0.0 if other in still else -max(taken - max(out, 0.0), 0.0)
    return 0.0
