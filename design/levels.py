"""Level sets of an outline: length and area of the inner parallel as the inset d grows.

Moving every line and arc inward by d keeps convex corners sharp and turns an arc of radius R into one of
radius R - d until, at d = R, the arc dies and leaves a sharp corner. Between two such events

    P(d) = p0 + p1 d          A(d) = a0 + a1 d + a2 d²          dA/dd = -P

hold exactly. All later metrics read these pieces only, never the outline itself.

References
----------
Steiner's formula for parallel curves, taken inward: P - 2πd and A - P d + πd² for a smooth outline; each
straight convex corner of exterior angle θ replaces its θ of the 2π by 2 tan(θ/2), 2 for a right angle.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from itertools import pairwise

from edgewright.design.curved_level import CurvedLevel
from edgewright.design.outline import FIT_MM, CornerRadii, check_rectangle
from edgewright.errors import GeometryError

__all__ = [
    "AnyLevel",
    "Level",
    "Levels",
    "area_at",
    "area_between",
    "last_inset",
    "over_insets",
    "perimeter_at",
    "rectangle_levels",
]


@dataclass(frozen=True, slots=True)
class Level:
    """One piece of P(d) and A(d), valid for ``d_from <= d <= d_to`` (mm).

    Attributes
    ----------
    p0, p1
        Perimeter p0 + p1 d in mm.
    a0, a1, a2
        Area a0 + a1 d + a2 d² in mm².
    """

    d_from: float
    d_to: float
    p0: float
    p1: float
    a0: float
    a1: float
    a2: float

    def perimeter(self, d: float) -> float:
        """Length of the inner parallel at inset ``d`` (mm)."""
        return self.p0 + self.p1 * d

    def area(self, d: float) -> float:
        """Area within the inner parallel at inset ``d`` (mm to mm²)."""
        return self.a0 + d * (self.a1 + d * self.a2)


AnyLevel = Level | CurvedLevel
Levels = tuple[AnyLevel, ...]
"""Pieces of P(d) and A(d) one after another, from inset 0."""


def rectangle_levels(length: float, width: float, radii: CornerRadii) -> tuple[Level, ...]:
    """Levels of a rectangle with four corner radii (mm).

    Measured against the sharp rectangle of the same inset, a corner that still has radius ρ = R - d lacks
    (2 - π/2) ρ of perimeter and (1 - π/4) ρ² of area, and nothing once d >= R.

    The pieces end where the first straight side is used up: at half the shorter side, or earlier at
    side - R where one radius R is longer than half its side. From there on the arc meets the next side at
    an angle that changes with d, and no polynomial holds.

    Raises
    ------
    GeometryError
        If the rectangle does not exist.
    """
    check_rectangle(length, width, radii)
    sides = (length, width, length, width)
    end = min(min(side / 2, side - max(radii[at], radii[(at + 1) % 4])) for at, side in enumerate(sides))
    end = max(end, 0.0)
    events = sorted({0.0, end, *(radius for radius in radii if FIT_MM < radius < end - FIT_MM)})
    if len(events) == 1:
        events.append(end)  # a side is used up from the start: one piece of no depth, so that P(0) exists
    pieces = []
    for d_from, d_to in pairwise(events):
        # an arc that dies within rounding of the start of this piece counts as dead
        alive = [radius for radius in radii if radius > d_from + FIT_MM]
        lack_p, lack_a = 2 - math.pi / 2, 1 - math.pi / 4
        p0 = math.fsum((2 * length, 2 * width, *(-lack_p * radius for radius in alive)))
        pieces.append(
            Level(
                d_from,
                d_to,
                p0=p0,
                p1=-8 + lack_p * len(alive),
                a0=math.fsum((length * width, *(-lack_a * radius**2 for radius in alive))),
                a1=-p0,
                a2=4 - lack_a * len(alive),
            )
        )
    return tuple(pieces)


def last_inset(levels: Levels) -> float:
    """Largest inset (mm) up to which the levels hold."""
    return levels[-1].d_to


def perimeter_at(levels: Levels, d: float) -> float:
    """Length of the inner parallel at inset ``d`` (mm, 0 up to the last event).

    Raises
    ------
    GeometryError
        If ``d`` is negative or beyond the last event.
    """
    d = _checked(levels, d)
    return _piece(levels, d).perimeter(d)


def area_at(levels: Levels, d: float) -> float:
    """Area within the inner parallel at inset ``d`` (mm, 0 up to the last event), in mm².

    Raises
    ------
    GeometryError
        If ``d`` is negative or beyond the last event.
    """
    d = _checked(levels, d)
    return _piece(levels, d).area(d)


def area_between(levels: Levels, d_from: float, d_to: float) -> float:
    """Area between two inner parallels, A(d_from) - A(d_to), in mm².

    Summed as trapezoids of P(d) where P is linear, which keeps all digits of a narrow band that the difference
    of two large areas would lose.

    Raises
    ------
    GeometryError
        If an inset is negative, beyond the last event, or the second is smaller than the first.
    """

    def between(level: AnyLevel, a: float, b: float) -> float:
        if isinstance(level, Level):
            return level.perimeter((a + b) / 2) * (b - a)
        return level.area(a) - level.area(b)

    return over_insets(levels, d_from, d_to, between)


def over_insets(
    levels: Levels,
    d_from: float,
    d_to: float,
    part: Callable[[AnyLevel, float, float], float],
) -> float:
    """Sum ``part(level, a, b)`` over the stretches a..b of each piece between two insets (mm).

    Raises
    ------
    GeometryError
        If an inset is negative, beyond the last event, or the second is smaller than the first.
    """
    d_from, d_to = _checked(levels, d_from), _checked(levels, d_to)
    if d_to < d_from:
        raise GeometryError(
            f"inner inset is {d_to:g} mm; it must be at least the outer inset, {d_from:g} mm: "
            "give the outer one first"
        )
    return math.fsum(
        part(level, max(level.d_from, d_from), min(level.d_to, d_to))
        for level in levels
        if level.d_from < d_to and level.d_to > d_from
    )


def _piece(levels: Levels, d: float) -> AnyLevel:
    """Return the piece that holds the checked inset ``d``."""
    return next(level for level in levels if d <= level.d_to)


def _checked(levels: Levels, d: float) -> float:
    """Return the inset, moved onto the last event if only float rounding puts it beyond."""
    end = last_inset(levels)
    if not 0 <= d <= end + FIT_MM:
        raise GeometryError(
            f"inset is {d:g} mm; it must lie between 0 mm and {end:.10g} mm, where the first straight side "
            "of this outline is used up: use a smaller edge radius or band"
        )
    return min(d, end)
