"""Where lines cross, touch or lie on one another, exactly for straight edges and arcs.

Of neighbours in a loop a second meeting so near their joint that they part by less than `DEEP_MM` is taken for
rounding: where a line runs on into an arc, 1 nm of rounding moves their meeting by a tenth of a millimetre.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from edgewright.drawing.arcs import BulgeArc, bulge_arc
from edgewright.drawing.chain_edges import SAME_MM
from edgewright.dxf_audit.chains import Run
from edgewright.dxf_audit.measures import box_of
from edgewright.dxf_audit.paths import Edge, Place

__all__ = ["DEEP_MM", "MOST_PAIRS", "Meeting", "meetings"]

DEEP_MM: Final = 0.01
#: Sine of the angle below which two lines do not cross but graze.
_GRAZE: Final = 0.01
MOST_PAIRS: Final = 200_000
"""Pairs of edges with overlapping boxes that are looked at in a layer."""


@dataclass(frozen=True, slots=True)
class Meeting:
    """Two runs (or one with itself, then the numbers are equal) that meet as they must not; ``at`` in mm."""

    kind: str
    one: int
    other: int
    at: Place


class _Bent:
    """An edge, straight or bent."""

    def __init__(self, edge: Edge) -> None:
        self.start, self.end, bulge = edge
        chord = math.dist(self.start, self.end)
        self.bulge = bulge
        # a sagitta of a millionth of a millimetre is a straight line
        self.arc: BulgeArc | None = None
        self.length = chord
        if chord * abs(bulge) / 2 > 1e-6:
            self.arc = bulge_arc(self.start, self.end, bulge)
            self.length = self.arc.radius * abs(self.arc.turn)

    def along(self, point: Place) -> float:
        """How far along the edge the foot of a point lies, negative before its start (mm)."""
        if self.arc is None:
            (ax, ay), (bx, by) = self.start, self.end
            return ((point[0] - ax) * (bx - ax) + (point[1] - ay) * (by - ay)) / self.length
        arc = self.arc
        angle = math.atan2(point[1] - arc.y, point[0] - arc.x) - arc.begin
        gone = (angle if arc.turn > 0 else -angle) % math.tau
        rest = math.tau - abs(arc.turn)
        # what lies off the arc counts to its nearer end
        return arc.radius * (gone if gone <= abs(arc.turn) + rest / 2 else gone - math.tau)

    def way(self, point: Place) -> Place:
        """Unit vector of the edge at a point of it."""
        if self.arc is None:
            (ax, ay), (bx, by) = self.start, self.end
            return (bx - ax) / self.length, (by - ay) / self.length
        x, y = (point[0] - self.arc.x) / self.arc.radius, (point[1] - self.arc.y) / self.arc.radius
        return (-y, x) if self.arc.turn > 0 else (y, -x)

    def aside(self, point: Place) -> float:
        """Distance of a point from the line or circle that the edge is part of (mm)."""
        if self.arc is not None:
            return math.dist(point, (self.arc.x, self.arc.y)) - self.arc.radius
        (ux, uy), (ax, ay) = self.way(self.start), self.start
        return ux * (point[1] - ay) - uy * (point[0] - ax)


def meetings(runs: Sequence[Run]) -> tuple[tuple[Meeting, ...], bool]:
    """Find what crosses, touches itself or lies on something else, one of a kind for each pair of runs.

    Returns
    -------
    tuple
        The meetings in the order of the runs, and whether all pairs were looked at: `MOST_PAIRS` are.
    """
    owners = [(run, edge) for run, one in enumerate(runs) for edge in range(len(one.edges))]
    bents: dict[int, _Bent] = {}
    found: dict[tuple[int, int, str], Meeting] = {}
    looked = 0
    for a, b in _near(runs):
        looked += 1
        if looked > MOST_PAIRS:
            break
        (one, at), (other, to) = owners[a], owners[b]
        for number in (a, b):
            if number not in bents:
                owner, edge = owners[number]
                bents[number] = _Bent(runs[owner].edges[edge])
        joints: list[Place] = []
        if one == other:
            joints = _joints(runs[one], at, to)
        for kind, place in _meet(bents[a], bents[b], joints, same=one == other):
            key = (min(one, other), max(one, other), kind)
            found.setdefault(key, Meeting(kind, key[0], key[1], place))
    return tuple(found[key] for key in sorted(found)), looked <= MOST_PAIRS


def _joints(run: Run, one: int, other: int) -> list[Place]:
    """Places where two edges of a run follow on one another."""
    count, found = len(run.edges), []
    for a, b in ((one, other), (other, one)):
        if b == a + 1 or (run.closed and (a + 1) % count == b):
            found.append(run.edges[a][1])
    return found


def _near(runs: Sequence[Run]) -> Iterator[tuple[int, int]]:
    """Pairs of edges whose boxes meet, by their numbers over all runs."""
    boxes = np.array([box_of([edge]) for run in runs for edge in run.edges]).reshape(-1, 4)
    low, high = boxes[:, :2] - SAME_MM, boxes[:, 2:] + SAME_MM
    order = np.argsort(low[:, 0], kind="stable")
    low, high = low[order], high[order]
    stops = np.searchsorted(low[:, 0], high[:, 0], side="right")
    for n in range(len(order)):
        rest = slice(n + 1, stops[n])
        hits = np.flatnonzero((low[rest, 1] <= high[n, 1]) & (high[rest, 1] >= low[n, 1]))
        for hit in hits:
            a, b = int(order[n]), int(order[n + 1 + hit])
            yield min(a, b), max(a, b)


def _meet(a: _Bent, b: _Bent, joints: Sequence[Place], *, same: bool) -> Iterator[tuple[str, Place]]:
    lies = _lie_together(a, b)
    if lies is not None:
        yield "double", lies
        return
    rounding = max(_within(a), _within(b))
    for point in _crossings(a, b):
        inside = min(_from_ends(a, point), _from_ends(b, point))
        if inside < -SAME_MM or any(math.dist(point, joint) <= rounding for joint in joints):
            continue
        (ax, ay), (bx, by) = a.way(point), b.way(point)
        crosses = inside > SAME_MM and abs(ax * by - ay * bx) > _GRAZE
        if crosses or (same and (not joints or inside > SAME_MM)):
            yield "crossing", point
            return
    if same and not joints:
        for bent, point in ((a, b.start), (a, b.end), (b, a.start), (b, a.end)):
            if abs(bent.aside(point)) <= SAME_MM and _from_ends(bent, point) >= -SAME_MM:
                yield "crossing", point
                return


def _within(bent: _Bent) -> float:
    """How far from a joint an arc has moved from its tangent by less than the depth (mm)."""
    return SAME_MM if bent.arc is None else math.sqrt(2 * bent.arc.radius * DEEP_MM)


def _from_ends(bent: _Bent, point: Place) -> float:
    """How far inside its ends a point of the line lies, negative outside (mm)."""
    along = bent.along(point)
    return min(along, bent.length - along)


def _crossings(a: _Bent, b: _Bent) -> list[Place]:
    """Where the lines or circles that the edges are part of meet."""
    if a.arc is not None and b.arc is not None:
        return _circles(a.arc, b.arc)
    if a.arc is not None:
        return _line_and_circle(b, a.arc)
    if b.arc is not None:
        return _line_and_circle(a, b.arc)
    (ux, uy), (vx, vy) = a.way(a.start), b.way(b.start)
    sine = ux * vy - uy * vx
    if abs(sine) < 1e-9:
        return []
    dx, dy = b.start[0] - a.start[0], b.start[1] - a.start[1]
    t = (dx * vy - dy * vx) / sine
    return [(a.start[0] + t * ux, a.start[1] + t * uy)]


def _line_and_circle(line: _Bent, arc: BulgeArc) -> list[Place]:
    (ux, uy), (px, py) = line.way(line.start), line.start
    foot = (arc.x - px) * ux + (arc.y - py) * uy
    fx, fy = px + foot * ux, py + foot * uy
    half = arc.radius**2 - (arc.x - fx) ** 2 - (arc.y - fy) ** 2
    if half < 0:
        return []
    root = math.sqrt(half)
    return [(fx + s * root * ux, fy + s * root * uy) for s in (-1, 1)]


def _circles(a: BulgeArc, b: BulgeArc) -> list[Place]:
    dx, dy = b.x - a.x, b.y - a.y
    apart = math.hypot(dx, dy)
    if apart <= SAME_MM:
        return []
    along = (apart + (a.radius - b.radius) * (a.radius + b.radius) / apart) / 2
    half = (a.radius - along) * (a.radius + along)
    if half < 0:
        return []
    root, ux, uy = math.sqrt(half), dx / apart, dy / apart
    return [(a.x + along * ux - s * root * uy, a.y + along * uy + s * root * ux) for s in (-1, 1)]


def _lie_together(a: _Bent, b: _Bent) -> Place | None:
    """Where two edges share a stretch; None where they share none longer than `DEEP_MM`."""
    if (a.arc is None) != (b.arc is None):
        return None
    probes = (b.start, b.end) if b.arc is None else (b.start, b.arc.at(b.arc.begin + b.arc.turn / 2), b.end)
    if any(abs(a.aside(point)) > SAME_MM for point in probes):
        return None
    if a.arc is None or b.arc is None:
        low, high = sorted((a.along(b.start), a.along(b.end)))
        start, end = max(low, 0.0), min(high, a.length)
        if end - start <= DEEP_MM:
            return None
        ux, uy = a.way(a.start)
        middle = (start + end) / 2
        return a.start[0] + middle * ux, a.start[1] + middle * uy
    one, other = (min(arc.begin, arc.begin + arc.turn) for arc in (a.arc, b.arc))
    shift = (other - one) % math.tau
    for begin in (shift, shift - math.tau):
        start, end = max(begin, 0.0), min(begin + abs(b.arc.turn), abs(a.arc.turn))
        if (end - start) * a.arc.radius > DEEP_MM:
            return a.arc.at(one + (start + end) / 2)
    return None
