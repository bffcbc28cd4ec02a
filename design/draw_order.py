"""Which of several things side by side hides which, for an eye in a given direction.

A strip is in front of another if both meet one line of sight and it lies on the near side of a line that parts
them in plan. For one direction of view convex bodies side by side always have an order from far to near.
"""

from __future__ import annotations

import heapq
import math
from collections.abc import Sequence

from edgewright.design.outline import FIT_MM, Point
from edgewright.design.solid_figures import StripBody

__all__ = ["far_first", "walls_far_first"]


def far_first(strips: Sequence[StripBody], azimuth: float) -> list[StripBody]:
    """Strips of one layer in drawing order, each after all that it may hide.

    Parameters
    ----------
    strips
        Strips that do not overlap in plan.
    azimuth
        Direction towards the eye, radians from east.
    """
    rest, order = list(strips), []
    while rest:
        free = (a for a in rest if not any(_in_front(a, b, azimuth) for b in rest if b is not a))
        # where binary rounding ties a knot, the first one breaks it
        chosen = next(free, rest[0])
        rest.remove(chosen)
        order.append(chosen)
    return order


def walls_far_first(walls: Sequence[tuple[Point, Point]], azimuth: float) -> list[int]:
    """Numbers of upright walls in drawing order, each after all that it may hide.

    Parameters
    ----------
    walls
        Feet of the walls in plan; they may meet at their ends but do not cross.
    azimuth
        Direction towards the eye, radians from east.
    """
    ca, sa = math.cos(azimuth), math.sin(azimuth)
    # across the line of sight from left to right, and how near
    seen = [sorted((ca * y - sa * x, ca * x + sa * y) for x, y in wall) for wall in walls]
    after: list[list[int]] = [[] for _ in walls]
    waits = [0] * len(walls)
    order = sorted(range(len(walls)), key=lambda n: seen[n][0][0])
    for place, one in enumerate(order):
        for other in order[place + 1 :]:
            low, high = seen[other][0][0], min(seen[one][1][0], seen[other][1][0])
            if low >= seen[one][1][0]:
                break
            if high - low > FIT_MM:
                middle = (low + high) / 2
                ahead = _near(seen[one], middle) - _near(seen[other], middle)
                far, near = (other, one) if ahead > 0 else (one, other)
                after[far].append(near)
                waits[near] += 1
    free = [number for number in range(len(walls)) if not waits[number]]
    found: list[int] = []
    while free:
        number = heapq.heappop(free)
        found.append(number)
        for near in after[number]:
            waits[near] -= 1
            if not waits[near]:
                heapq.heappush(free, near)
    # where binary rounding ties a knot, what is left comes as it stands
    return found + [number for number in range(len(walls)) if waits[number] > 0]


def _near(wall: Sequence[Point], across: float) -> float:
    """How near a wall is where a line of sight meets it."""
    (u0, d0), (u1, d1) = wall
    return d0 + (d1 - d0) * (across - u0) / (u1 - u0)


def _in_front(a: StripBody, b: StripBody, azimuth: float) -> bool:
    """Whether ``a`` may hide part of ``b``: they share a line of sight, and ``a`` is on the near side."""
    ca, sa = math.cos(azimuth), math.sin(azimuth)
    across_a, across_b = ([ca * y - sa * x for x, y in strip.corners] for strip in (a, b))
    if min(max(across_a), max(across_b)) - max(min(across_a), min(across_b)) < FIT_MM:
        return False
    for strip, other, sign in ((b, a, 1.0), (a, b, -1.0)):
        for (x0, y0), (x1, y1) in zip(strip.corners, (*strip.corners[1:], strip.corners[0]), strict=True):
            # outward normal of a counter-clockwise side
            nx, ny = y1 - y0, x0 - x1
            if all(nx * (x - x0) + ny * (y - y0) > -FIT_MM * math.hypot(nx, ny) for x, y in other.corners):
                facing = sign * (nx * ca + ny * sa)
                if abs(facing) > FIT_MM:
                    return facing > 0
    return False
