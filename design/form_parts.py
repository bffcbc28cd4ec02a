"""Where a part of a form lies: its insets, and the angle of an arc at an inset."""

from __future__ import annotations

import math
from collections.abc import Callable

from edgewright.design.levels import AnyLevel
from edgewright.design.outline import Arc, Line, Segment

__all__ = ["angle_at", "bound", "inset_span", "upright"]


def bound(
    function: Callable[[Segment, AnyLevel, float, float], float], part: Segment
) -> Callable[[AnyLevel, float, float], float]:
    """Fix the part of the form that a function looks at."""
    return lambda level, a, b: function(part, level, a, b)


def upright(part: Segment) -> bool:
    """Whether a part runs straight down, at one inset."""
    return isinstance(part, Line) and part.start[0] == part.end[0]


def inset_span(part: Segment) -> tuple[float, float]:
    """Least and largest inset of a part."""
    # a chain may end a rounding beyond the edge
    return max(part.end[0], 0.0), max(part.start[0], 0.0)


def angle_at(arc: Arc, d: float) -> float:
    """Angle of an arc's point at inset ``d``, from its nearer upright tangent: 1 - cos α = 2 sin²(α/2)."""
    middle = math.remainder(arc.start_angle + arc.sweep / 2, 2 * math.pi)
    # at an upright tangent a rounding of the inset is the root of it in angle, so ends are taken as they are
    if d == arc.start[0] or d == arc.end[0]:
        return middle + math.copysign(arc.sweep / 2, arc.sweep if d == arc.end[0] else -arc.sweep)
    far = math.cos(middle) < 0
    off = d - (arc.centre[0] - arc.radius) if far else (arc.centre[0] + arc.radius) - d
    turn = 2 * math.asin(math.sqrt(min(max(off / (2 * arc.radius), 0.0), 0.5)))
    return math.copysign(math.pi - turn if far else turn, math.sin(middle))
