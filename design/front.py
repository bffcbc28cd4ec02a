"""The edge of one loop on its way inwards: live segments and the corners between them at every inset.

Each segment moves along its normal by the inset, or stays where it is not routed. At an inside corner a hollow arc
opens about the corner point. A corner between two segments is, at every inset,

- smooth: the point where both run on into each other, moved along the common normal
- straight: the crossing of two moved lines, which moves along a line, too
- curved: the crossing of a line and an arc or of two arcs, which moves along a parabola, an ellipse or a hyperbola
- square: between a routed segment and a smooth neighbour that stays, the routed one ends on its normal
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final, Literal

from edgewright.design.chain import fitted
from edgewright.design.outline import Arc, Line, Outline, Point, Segment
from edgewright.design.segments import direction, turn_at
from edgewright.design.tolerances import NODE_MM
from edgewright.errors import GeometryError

__all__ = ["Corner", "Front", "Live", "crossing_corner", "first_front", "squared_corner"]

#: The angle of an arc may come out larger than it was by less than this.
_ROUNDING_RAD: Final = 0.1

CornerKind = Literal["smooth", "straight", "curved", "square"]


@dataclass(frozen=True, slots=True)
class Live:
    """A segment on its way: the source, and its speed, 1 where it is routed and 0 where it stays.

    An inside corner has no source segment: ``turn`` is the (negative) angle of the arc that opens about ``point``.
    """

    segment: Segment | None
    speed: int
    point: Point = (0.0, 0.0)
    turn: float = 0.0

    def radius(self, d: float) -> float:
        """Radius of the moved arc at inset ``d``, less than 0 once it has died (mm)."""
        if self.segment is None:
            return d
        assert isinstance(self.segment, Arc)
        return self.segment.radius - math.copysign(d * self.speed, self.segment.sweep)

    @property
    def centre(self) -> Point:
        """Centre of the arc (mm)."""
        if self.segment is None:
            return self.point
        assert isinstance(self.segment, Arc)
        return self.segment.centre

    @property
    def is_line(self) -> bool:
        """Whether it is a straight line."""
        return isinstance(self.segment, Line)

    @property
    def left(self) -> float:
        """1 where it bends to the left or is straight, -1 for a hollow arc."""
        if self.segment is None:
            return -1.0
        return math.copysign(1.0, self.segment.sweep) if isinstance(self.segment, Arc) else 1.0


@dataclass(frozen=True, slots=True)
class Corner:
    """Corner between a segment and the one that follows it.

    Attributes
    ----------
    at
        Where it would have been at inset 0, or was when it arose (mm).
    velocity
        How far it moves for each mm of inset; of no meaning for a curved corner.
    stay
        Square corner: where what stays begins; None for ``at``.
    via
        Square corner: the centre of an arc that has died there, round which the way goes to ``stay``.
    """

    kind: CornerKind
    at: Point
    velocity: Point = (0.0, 0.0)
    stay: Point | None = None
    via: Point | None = None


@dataclass(frozen=True, slots=True)
class Front:
    """The live segments of one loop in order; ``corners[i]`` lies between segment i and the next."""

    live: tuple[Live, ...]
    corners: tuple[Corner, ...]

    @property
    def is_linear(self) -> bool:
        """Whether every length is linear in the inset."""
        return all(corner.kind != "curved" for corner in self.corners)

    def corner_at(self, number: int, d: float) -> tuple[Point, Point]:
        """End of segment ``number`` and start of the next at inset ``d``; they differ at a square corner only."""
        corner = self.corners[number]
        if corner.kind == "curved":
            point = _crossing(self.live[number], self.live[(number + 1) % len(self.live)], d, corner.at)
            return point, point
        moved = (corner.at[0] + d * corner.velocity[0], corner.at[1] + d * corner.velocity[1])
        if corner.kind != "square":
            return moved, moved
        stay = corner.at if corner.stay is None else corner.stay
        return (moved, stay) if self.live[number].speed else (stay, moved)

    def way_at(self, number: int, d: float) -> tuple[Point, ...]:
        """The corner's points in order: one and the same twice, or the way of a square corner."""
        first, last = self.corner_at(number, d)
        via = self.corners[number].via
        return (first, last) if via is None else (first, via, last)

    def ends(self, number: int, d: float) -> tuple[Point, Point]:
        """Start and end of segment ``number`` at inset ``d``."""
        return self.corner_at(number - 1 if number else len(self.live) - 1, d)[1], self.corner_at(number, d)[
            0
        ]

    def length(self, number: int, d: float) -> float:
        """Signed length of segment ``number`` at inset ``d`` (mm): less than 0 once it has died."""
        start, end = self.ends(number, d)
        one = self.live[number]
        if isinstance(one.segment, Line):
            ux, uy = direction(one.segment, 0.0)
            return (end[0] - start[0]) * ux + (end[1] - start[1]) * uy
        return one.radius(d) * one.left * self.sweep(number, start, end)

    def sweep(self, number: int, start: Point, end: Point) -> float:
        """Angle that a moved arc turns from its start to its end, near that of its source."""
        one = self.live[number]
        before, after = self.corners[number - 1].kind, self.corners[number].kind
        known = one.turn if one.segment is None else _sweep_of(one.segment)
        if "curved" not in (before, after):
            return known
        cx, cy = one.centre
        ax, ay, bx, by = start[0] - cx, start[1] - cy, end[0] - cx, end[1] - cy
        turned = math.atan2(ax * by - ay * bx, ax * bx + ay * by)
        # sharp corners only take from it, but run out into an unrouted neighbour it may grow: of all angles that
        # differ by full turns the largest not above it, or the nearest
        before_speed, after_speed = (
            self.live[number - 1].speed,
            self.live[(number + 1) % len(self.live)].speed,
        )
        more = _ROUNDING_RAD if before_speed == one.speed == after_speed else math.pi
        side = math.copysign(1.0, known)
        return turned + side * 2 * math.pi * math.floor((abs(known) - side * turned + more) / (2 * math.pi))

    def perimeter(self, d: float) -> float:
        """Length of what is routed at inset ``d`` (mm)."""
        return math.fsum(self.length(at, d) for at, one in enumerate(self.live) if one.speed)

    def outline(self, d: float, least: float = NODE_MM) -> Outline | None:
        """The moved loop at inset ``d``; None where nothing of it is left.

        What is shorter than ``least`` (mm) is left out, and ends that miss by up to ten times as much are joined.
        """
        segments: list[Segment] = []
        for number, one in enumerate(self.live):
            start, end = self.ends(number, d)
            if self.length(number, d) > least and math.dist(start, end) > least:
                if one.is_line:
                    segments.append(Line(start, end))
                else:
                    turn = self.sweep(number, start, end)
                    segments.append(Arc(start, end, one.centre, one.radius(d), turn))
            if self.corners[number].kind == "square":
                way = self.way_at(number, d)
                segments += [Line(a, b) for a, b in pairwise(way) if math.dist(a, b) > least]
        return Outline(_joined(segments, 10 * least)) if len(segments) >= 2 else None


def _joined(segments: list[Segment], close: float) -> tuple[Segment, ...]:
    """Bring ends together that miss by rounding, or by a segment too short to be told from it."""
    count = len(segments)
    joints = []
    for segment in segments:
        if isinstance(segment, Arc) and _misses(segment, close):
            x, y = segment.start
            raise GeometryError(
                f"the moved edge at ({x:g}, {y:g}) mm meets its neighbour no more: use a smaller form"
            )
    for at, segment in enumerate(segments):
        before = segments[at - 1]
        near = math.dist(before.end, segment.start) <= close
        joints.append((before.end, before.end if near else segment.start))
    return tuple(
        fitted(segment, joints[at][1], joints[(at + 1) % count][0]) for at, segment in enumerate(segments)
    )


def _misses(arc: Arc, by: float) -> bool:
    """Whether an end of the arc lies further from its circle than ``by`` mm."""
    return any(abs(math.dist(end, arc.centre) - arc.radius) > by for end in (arc.start, arc.end))


def first_front(loop: Outline, routed: Sequence[bool]) -> Front:
    """Front at inset 0: the loop's segments, and an arc of no radius at each inside corner between routed ones."""
    live: list[Live] = []
    corners: list[Corner] = []
    count = len(loop.segments)
    for at, segment in enumerate(loop.segments):
        here = Live(segment, int(routed[at]))
        after = loop.segments[(at + 1) % count]
        there = Live(after, int(routed[(at + 1) % count]))
        live.append(here)
        joint = after.start
        turn = turn_at(segment, after)
        normal_here, normal_there = _normal(segment, 1.0), _normal(after, 0.0)
        if turn < 0 and here.speed and there.speed:
            live.append(Live(None, 1, joint, turn))
            corners += [Corner("smooth", joint, normal_here), Corner("smooth", joint, normal_there)]
        elif turn < 0 and here.speed != there.speed:
            # the routed one ends square to itself; what stays beyond an inside corner is not touched
            corners.append(Corner("square", joint, normal_here if here.speed else normal_there))
        else:
            corners.append(joined_corner(here, there, joint, turn))
    return Front(tuple(live), tuple(corners))


def joined_corner(here: Live, there: Live, at: Point, turn: float) -> Corner:
    """Corner between two segments that meet at ``at`` at inset 0, the second turned left by ``turn`` >= 0."""
    if turn == 0:
        normal = _normal(here.segment, 1.0) if here.segment is not None else (0.0, 0.0)
        if here.speed == there.speed:
            return Corner("smooth", at, normal if here.speed else (0.0, 0.0))
        return Corner("square", at, normal)
    if here.is_line and there.is_line:
        return _straight(here, there, at)
    return Corner("curved", at)


def _straight(here: Live, there: Live, at: Point) -> Corner:
    """Corner of two lines, told by where their carriers cross at inset 0 and how the crossing moves."""
    assert isinstance(here.segment, Line)
    assert isinstance(there.segment, Line)
    (ux, uy), (vx, vy) = direction(here.segment, 0.0), direction(there.segment, 0.0)
    cross = ux * vy - uy * vx
    # moved lines: n·(x - p) = d for each; their crossing moves by w with n1·w = s1, n2·w = s2
    s1, s2 = here.speed, there.speed
    velocity = ((s1 * vx - s2 * ux) / cross, (s1 * vy - s2 * uy) / cross)
    (px, py), (qx, qy) = here.segment.end, there.segment.start
    t = ((qx - px) * vy - (qy - py) * vx) / cross
    return Corner("straight", (px + t * ux, py + t * uy), velocity)


def crossing_corner(here: Live, there: Live, near: Point, d: float) -> Corner:
    """Corner between two segments that come to meet at inset ``d``, where a third one died, near a point."""
    if isinstance(here.segment, Line) and isinstance(there.segment, Line):
        (ux, uy), (vx, vy) = direction(here.segment, 0.0), direction(there.segment, 0.0)
        if abs(ux * vy - uy * vx) > 1e-9:
            return _straight(here, there, near)
        # one line runs on along the other
        nx, ny = -uy * here.speed, ux * here.speed
        return Corner("smooth", (near[0] - d * nx, near[1] - d * ny), (nx, ny))
    return Corner("curved", near)


def squared_corner(front: Front, dead: int) -> Corner | None:
    """Corner that is left where a routed arc dies between a smooth routed neighbour and an edge that stays.

    The neighbour ends square where the arc began; from there the way goes to the arc's centre and on to the edge
    that stays. None where nothing of the kind dies.
    """
    count = len(front.live)
    before, after = (dead - 1) % count, (dead + 1) % count
    one, here, there = front.live[dead], front.live[before], front.live[after]
    kinds = front.corners[before], front.corners[dead]
    if (
        not (one.speed and isinstance(one.segment, Arc) and one.segment.sweep > 0)
        or here.speed == there.speed
    ):
        return None
    smooth, square = kinds if here.speed else kinds[::-1]
    if (smooth.kind, square.kind) != ("smooth", "square") or square.via is not None:
        return None
    stay = square.at if square.stay is None else square.stay
    return Corner("square", smooth.at, smooth.velocity, stay, one.centre)


def _sweep_of(segment: Segment) -> float:
    return segment.sweep if isinstance(segment, Arc) else 0.0


def _normal(segment: Segment, t: float) -> Point:
    ux, uy = direction(segment, t)
    return -uy, ux


def _crossing(here: Live, there: Live, d: float, near: Point) -> Point:
    """Crossing of two moved carriers at which the way turns left; their nearest points where they miss.

    At the other crossing of the two it turns right, which no sharp corner does: however near the two are to each
    other, they cannot be taken for one another.
    """
    if here.is_line:
        return _line_circle(here, there, d, there.left)
    if there.is_line:
        return _line_circle(there, here, d, -here.left)
    side = here.left * there.left
    if abs(here.radius(d)) > abs(there.radius(d)):
        # measured from the smaller circle, for what is small beside the larger one would be lost
        here, there, side = there, here, -side
    (ax, ay), (bx, by) = here.centre, there.centre
    r, s = abs(here.radius(d)), abs(there.radius(d))
    gap = math.hypot(bx - ax, by - ay)
    if gap < 1e-12:
        return near
    ux, uy = (bx - ax) / gap, (by - ay) / gap
    along = ((gap - s) * (gap + s) + r * r) / (2 * gap)
    across = side * math.sqrt(max((r - along) * (r + along), 0.0))
    return ax + along * ux - across * uy, ay + along * uy + across * ux


def _line_circle(line: Live, circle: Live, d: float, side: float) -> Point:
    """Crossing of a line and a circle beyond (1) or before (-1) the foot of the circle's centre on the line."""
    assert isinstance(line.segment, Line)
    ux, uy = direction(line.segment, 0.0)
    px, py = line.segment.start
    px, py = px - d * line.speed * uy, py + d * line.speed * ux
    cx, cy = circle.centre
    foot = (cx - px) * ux + (cy - py) * uy
    away = (cx - px) * uy - (cy - py) * ux
    radius = abs(circle.radius(d))
    half = side * math.sqrt(max((radius - away) * (radius + away), 0.0))
    return px + (foot + half) * ux, py + (foot + half) * uy
