"""Which strip of a layer hides which, for an eye in a given direction.

A strip is in front of another if both meet one line of sight and it lies on the near side of a line that parts
them in plan. For one direction of view convex bodies side by side always have an order from far to near.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from edgewright.design.outline import FIT_MM
from edgewright.design.solid_figures import StripBody

__all__ = ["far_first"]


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
