"""One inside corner at one inset: what is taken, what stands, and its plan."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

from edgewright.design.outline import FIT_MM, Arc, Line, Outline, Point, Segment
from edgewright.design.pockets import Pocket
from edgewright.design.segments import direction, parameter, point_at, reversed_segment
from edgewright.design.tolerances import PARALLEL_RAD

__all__ = ["PocketLevel", "far_point", "pocket_events", "pocket_level", "standing_outline"]


@dataclass(frozen=True, slots=True)
class PocketLevel:
    """Figures of one pocket at one inset.

    Attributes
    ----------
    angle
        Under which the bearing's centre sees what is routed, radians.
    routed, wall, parallel
        Length of the routed edge, of the upright walls, and of the inner parallel that should be there, mm.
    standing
        Area left standing outside of the inner parallel, mm².
    runs
        Upright walls before and after the farthest point, mm.
    """

    angle: float
    routed: float
    wall: float
    parallel: float
    standing: float
    runs: tuple[float, float]


def pocket_level(pocket: Pocket, d: float) -> PocketLevel:
    """Figures of a pocket at an inset (mm, at least 0)."""
    c, rho = pocket.centre, pocket.radius + d
    angle = seen = position = 0.0
    runs = [0.0, 0.0]
    middle = far_point(pocket)[2]
    for wall in pocket.walls:
        for begin, end, far in _stretches(wall, c, rho):
            if not far:
                p, q = point_at(wall, begin), point_at(wall, end)
                px, py, qx, qy = p[0] - c[0], p[1] - c[1], q[0] - c[0], q[1] - c[1]
                cross = px * qy - py * qx
                # clockwise about the bearing, for the wood is on the left
                angle -= math.atan2(cross, px * qx + py * qy)
                seen -= cross / 2
                if isinstance(wall, Arc):
                    sweep = wall.sweep * (end - begin)
                    seen -= wall.radius**2 * (sweep - math.sin(sweep)) / 2
                continue
            here = (position + wall.length * begin, position + wall.length * end)
            runs[0] += max(0.0, min(here[1], middle) - here[0])
            runs[1] += max(0.0, here[1] - max(here[0], middle))
        position += wall.length
    band = math.fsum(_band(wall, d) for wall in pocket.walls) + math.fsum(pocket.turns) * d**2 / 2
    parallel = math.fsum(_moved_length(wall, d) for wall in pocket.walls) + math.fsum(pocket.turns) * d
    taken = rho**2 * angle / 2 - seen
    return PocketLevel(angle, rho * angle, math.fsum(runs), parallel, band - taken, (runs[0], runs[1]))


def far_point(pocket: Pocket) -> tuple[Point, float, float]:
    """Point of the walls farthest from the bearing's centre, its distance, and how far along the walls it lies (mm)."""
    found = []
    position = 0.0
    for wall in pocket.walls:
        for point in (_turning(wall, pocket.centre), wall.end):
            if point is not None:
                along = position + wall.length * parameter(wall, point)
                found.append((math.dist(point, pocket.centre), along, point))
        position += wall.length
    away, along, place = max(found)
    return place, away, along


def pocket_events(pocket: Pocket) -> tuple[float, ...]:
    """Insets, in order, at which a corner, or the nearest or farthest point of a wall is just reached."""
    c = pocket.centre
    points = [wall.end for wall in pocket.walls[:-1]]
    points += [point for wall in pocket.walls if (point := _turning(wall, c)) is not None]
    insets = (math.dist(point, c) - pocket.radius for point in points)
    return tuple(sorted({d for d in insets if d > FIT_MM}))


def standing_outline(pocket: Pocket, d: float) -> Outline:
    """Plan of the wood left standing at an inset above 0: the routed edge and walls, back along the inner parallel."""
    c, rho = pocket.centre, pocket.radius + d
    ahead: list[Segment] = []
    for wall in pocket.walls:
        for begin, end, far in _stretches(wall, c, rho):
            p, q = point_at(wall, begin), point_at(wall, end)
            if far:
                piece: Segment = Line(p, q)
                if isinstance(wall, Arc):
                    piece = Arc(p, q, wall.centre, wall.radius, wall.sweep * (end - begin))
                ahead.append(piece)
                continue
            p, q = _on_circle(c, rho, p), _on_circle(c, rho, q)
            cross = (p[0] - c[0]) * (q[1] - c[1]) - (p[1] - c[1]) * (q[0] - c[0])
            dot = (p[0] - c[0]) * (q[0] - c[0]) + (p[1] - c[1]) * (q[1] - c[1])
            ahead.append(Arc(p, q, c, rho, math.atan2(cross, dot)))
    back: list[Segment] = []
    for at in range(len(pocket.walls) - 1, -1, -1):
        back.append(reversed_segment(_moved(pocket.walls[at], d)))
        if at and pocket.turns[at - 1] > PARALLEL_RAD:
            joint, here = pocket.walls[at].start, back[-1].end
            there = _moved(pocket.walls[at - 1], d).end
            back.append(Arc(here, there, joint, d, pocket.turns[at - 1]))
    return Outline(tuple(piece for piece in (*ahead, *back) if piece.length > FIT_MM))


def _stretches(wall: Segment, c: Point, rho: float) -> list[tuple[float, float, bool]]:
    """Shares of a wall's length from cut to cut, and whether each lies farther than rho from c."""
    cuts = sorted(share for share in _crossings(wall, c, rho) if 0 < share < 1)
    ends = [0.0, *cuts, 1.0]
    found = []
    for begin, end in pairwise(ends):
        if end > begin:
            found.append((begin, end, math.dist(point_at(wall, (begin + end) / 2), c) > rho))
    return found


def _crossings(wall: Segment, c: Point, rho: float) -> tuple[float, ...]:
    if isinstance(wall, Line):
        middle = parameter(wall, c)
        away = math.dist(point_at(wall, middle), c)
        half = math.sqrt(max((rho - away) * (rho + away), 0.0)) / wall.length
        return (middle - half, middle + half)
    e = math.dist(c, wall.centre)
    if e == 0:
        return ()
    # c + e (cos γ, sin γ) is the arc's centre; farther than rho while |φ - γ| stays below this
    cosine = (rho**2 - e**2 - wall.radius**2) / (2 * e * wall.radius)
    if not -1 < cosine < 1:
        return ()
    half = math.acos(cosine)
    gamma = math.atan2(wall.centre[1] - c[1], wall.centre[0] - c[0])
    shares = []
    for angle in (gamma - half, gamma + half):
        point = (
            wall.centre[0] + wall.radius * math.cos(angle),
            wall.centre[1] + wall.radius * math.sin(angle),
        )
        shares.append(parameter(wall, point))
    return tuple(shares)


def _turning(wall: Segment, c: Point) -> Point | None:
    """Point within the wall where its distance from c turns: the foot on a line, the far point of an arc."""
    if isinstance(wall, Line):
        share = parameter(wall, c)
        return point_at(wall, share) if 0 < share < 1 else None
    e = math.dist(c, wall.centre)
    if e == 0:
        return None
    scale = wall.radius / e
    point = (
        wall.centre[0] + (wall.centre[0] - c[0]) * scale,
        wall.centre[1] + (wall.centre[1] - c[1]) * scale,
    )
    return point if 0 < parameter(wall, point) < 1 else None


def _on_circle(c: Point, rho: float, point: Point) -> Point:
    scale = rho / math.dist(c, point)
    return c[0] + (point[0] - c[0]) * scale, c[1] + (point[1] - c[1]) * scale


def _band(wall: Segment, d: float) -> float:
    """Area of the band of width d on the left of a wall."""
    if isinstance(wall, Line):
        return wall.length * d
    return abs(wall.sweep) * (wall.radius * d - math.copysign(d**2 / 2, wall.sweep))


def _moved_length(wall: Segment, d: float) -> float:
    if isinstance(wall, Line):
        return wall.length
    return abs(wall.sweep) * (wall.radius - math.copysign(d, wall.sweep))


def _moved(wall: Segment, d: float) -> Segment:
    """Wall moved to its left by d."""
    (ux, uy), (vx, vy) = direction(wall, 0.0), direction(wall, 1.0)
    start = wall.start[0] - d * uy, wall.start[1] + d * ux
    end = wall.end[0] - d * vy, wall.end[1] + d * vx
    if isinstance(wall, Line):
        return Line(start, end)
    return Arc(start, end, wall.centre, wall.radius - math.copysign(d, wall.sweep), wall.sweep)
