"""Corners of the ring: sharp ones, and roundings that two strips, or a block, can take in."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from edgewright.design.buildup.ring_model import SQUARE_WITHIN, RingSettings
from edgewright.design.outline import Arc, Line, Point, Segment
from edgewright.design.segments import direction, turn_between

__all__ = ["Corner", "CornerKind", "largest_rounding", "rounding_corner"]

CornerKind = Literal["square", "mitre", "block", "inside block", "smooth"]


@dataclass(frozen=True, slots=True)
class Corner:
    """What lies between a run and the next one.

    Attributes
    ----------
    vertex
        Where the two runs meet; for a rounding the sharp corner of its two sides.
    turn
        Turned angle, radians, positive at an outside corner.
    radius
        Radius of the rounding, 0 where there is none (mm).
    name
        Plain name of the rounding, or of the two edges.
    """

    kind: CornerKind
    vertex: Point
    turn: float
    radius: float
    name: str


def largest_rounding(strip_width: float, ring: float, turn: float) -> float:
    """Largest radius that a corner of two strips covers without a block, any one unit; may be below 0.

    Along the bisector the strips' inner corner lies w / cos(θ/2) from the sharp corner and the arc
    R (1 / cos(θ/2) - 1); between them the ring must keep its width b. The ring is narrowest there. Hence
    R = (w - b cos(θ/2)) / (1 - cos(θ/2)), for a right angle (w - b/√2) / 0.2929.

    Parameters
    ----------
    strip_width, ring
        Width w of the strips inside the finished edge and the width b needed.
    turn
        Angle θ by which the outline turns, radians, above 0 and below π.
    """
    cosine = math.cos(turn / 2)
    return (strip_width - ring * cosine) / (1 - cosine)


def rounding_corner(before: Segment, arc: Segment, after: Segment, settings: RingSettings) -> Corner | None:
    """What an arc between two straight sides is to the ring; None where it is a curve of its own."""
    if not (isinstance(before, Line) and isinstance(arc, Arc) and isinstance(after, Line)):
        return None
    half = abs(arc.sweep) / 2
    if (
        abs(turn_between(before, arc)) > 1e-6
        or abs(turn_between(arc, after)) > 1e-6
        or half > math.radians(80)
    ):
        return None
    (ux, uy), reach = direction(before, 1.0), arc.radius * math.tan(half)
    vertex = (before.end[0] + reach * ux, before.end[1] + reach * uy)
    width = settings.strip_width - settings.proud
    most = largest_rounding(width, settings.least_in_corner, 2 * half)
    if arc.sweep > 0 and arc.radius <= most + 1e-9:
        kind: CornerKind = "square" if abs(arc.sweep - math.pi / 2) <= SQUARE_WITHIN else "mitre"
        return Corner(kind, vertex, arc.sweep, arc.radius, "")
    # a block takes the strip width more of each side than the arc does, and leaves some for the strip
    room = min(before.length, after.length)
    if reach + settings.strip_width > settings.largest_block or 2.5 * settings.strip_width > room:
        return None
    return Corner("block" if arc.sweep > 0 else "inside block", vertex, arc.sweep, arc.radius, "")
