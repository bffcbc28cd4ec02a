"""Ellipses: their own exact length, inner parallels and levels; tangent arcs that stand for them in files.

The inner parallel of an ellipse is no ellipse, but up to the smallest radius of curvature, b²/a for the half axes
a >= b, Steiner's formula holds for it: P(d) = P - 2πd and A(d) = A - P d + πd².

References
----------
Perimeter 4 a E(m) with m = 1 - b²/a²: Abramowitz and Stegun, Handbook of Mathematical Functions, ch. 17; the
complete integral E by the arithmetic-geometric mean, 17.6.4.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from edgewright.design.levels import Level
from edgewright.design.outline import Arc, Outline, Point
from edgewright.errors import GeometryError

__all__ = ["Ellipse", "complete_e"]

#: Most arcs of a quarter: far finer than any file needs.
_MOST_ARCS: Final = 512
#: Points of each arc at which its distance from the ellipse is measured.
_SAMPLES: Final = 12
#: Points nearer than this have too few digits between them for an arc.
_NEAREST_MM: Final = 1e-4


def complete_e(m: float) -> float:
    """Complete elliptic integral of the second kind, E(m) with the parameter m = k², 0 <= m <= 1.

    Raises
    ------
    GeometryError
        If the parameter is out of range.
    """
    if not 0 <= m <= 1:
        raise GeometryError(f"parameter m is {m:g}; it must lie between 0 and 1: give the squared modulus")
    if m == 1:
        return 1.0
    a, b, total, power = 1.0, math.sqrt(1 - m), m / 2, 1.0
    while abs(a - b) > 1e-16 * a and power < 1e9:
        a, b, c = (a + b) / 2, math.sqrt(a * b), (a - b) / 2
        total += power * c * c
        power *= 2
    return math.pi / (2 * a) * (1 - total)


@dataclass(frozen=True, slots=True)
class Ellipse:
    """An upright ellipse; axes and centre in mm.

    Raises
    ------
    GeometryError
        If an axis is not greater than 0.
    """

    length: float
    width: float
    centre: Point = (0.0, 0.0)

    def __post_init__(self) -> None:
        for name in ("length", "width"):
            size = getattr(self, name)
            if not (math.isfinite(size) and size > 0):
                raise GeometryError(
                    f"ellipse {name} is {size:g} mm; it must be greater than 0 mm: measure it"
                )

    @property
    def half_axes(self) -> tuple[float, float]:
        """Half of the longer and half of the shorter axis (mm)."""
        long, short = max(self.length, self.width), min(self.length, self.width)
        return long / 2, short / 2

    @property
    def perimeter(self) -> float:
        """Length of the curve (mm)."""
        a, b = self.half_axes
        return 4 * a * complete_e(1 - (b / a) ** 2)

    @property
    def area(self) -> float:
        """Enclosed area (mm²)."""
        return math.pi * self.length * self.width / 4

    @property
    def min_radius(self) -> float:
        """Smallest radius of curvature, b²/a (mm)."""
        a, b = self.half_axes
        return b * b / a

    def perimeter_at(self, inset: float) -> float:
        """Length of the inner parallel (mm); the inset from 0 to `min_radius`."""
        return self.perimeter - 2 * math.pi * self._checked(inset)

    def area_at(self, inset: float) -> float:
        """Area within the inner parallel (mm²); the inset from 0 to `min_radius`."""
        d = self._checked(inset)
        return self.area - self.perimeter * d + math.pi * d * d

    def levels(self, reach: float) -> tuple[Level, ...]:
        """Levels of the ellipse down to ``reach`` mm.

        Raises
        ------
        GeometryError
            If the reach is beyond the smallest radius of curvature.
        """
        p = self.perimeter
        return (Level(0.0, self._checked(reach), p, -2 * math.pi, self.area, -p, math.pi),)

    def point_at(self, angle: float) -> Point:
        """Point at a parameter angle (radians): centre + (half length cos, half width sin)."""
        x, y = self.centre
        return x + self.length / 2 * math.cos(angle), y + self.width / 2 * math.sin(angle)

    def arcs(self, tolerance: float) -> Outline:
        """Outline of tangent arcs that lies within ``tolerance`` mm of the ellipse, alike in all four quarters.

        Each quarter is divided where its normal turns by equal angles; between two such points two arcs are laid
        that touch the ellipse at their ends and one another. The distance is measured along all of them.

        Raises
        ------
        GeometryError
            If the tolerance is not greater than 0, or the ellipse too flat for it.
        """
        if not tolerance > 0:
            raise GeometryError(f"fit is {tolerance:g} mm; it must be greater than 0 mm: 0.01 mm is fine")
        pairs = 1
        while pairs <= _MOST_ARCS:
            quarter = self._quarter(pairs)
            if not quarter:
                break
            if max(self._off(arc) for arc in quarter) <= tolerance:
                return Outline(self._mirrored(quarter))
            pairs = pairs + 1 if pairs < 8 else pairs * 5 // 4
        raise GeometryError(
            f"an ellipse of {self.length:g} x {self.width:g} mm is too flat for arcs within {tolerance:g} mm: "
            "allow more, or measure it by stations"
        )

    def _checked(self, inset: float) -> float:
        if not 0 <= inset <= self.min_radius + 1e-9:
            raise GeometryError(
                f"inset is {inset:g} mm; it must lie between 0 mm and the ellipse's smallest radius, "
                f"{self.min_radius:.5g} mm: use a smaller edge form"
            )
        return inset

    def _quarter(self, pairs: int) -> list[Arc]:
        """Arcs of the north-east quarter about the origin, two to each of equal turns of the normal.

        None where two points lie so near to each other that rounding would bend the arcs.
        """
        p, q = self.length / 2, self.width / 2
        points: list[tuple[Point, Point]] = []
        for step in range(pairs + 1):
            turn = math.pi / 2 * step / pairs
            # the normal turns by this from the x axis: tan(normal) = (p/q) tan(parameter)
            c, s = math.cos(turn), math.sin(turn)
            size = math.hypot(p * c, q * s)
            point = (p * p * c / size, q * q * s / size)
            if step == 0:
                point = (p, 0.0)
            elif step == pairs:
                point = (0.0, q)
            points.append((point, (-s, c)))
        if any(math.dist(a, b) < _NEAREST_MM for (a, _), (b, _) in pairwise(points)):
            return []
        found: list[Arc] = []
        for (a, ta), (b, tb) in pairwise(points):
            found += _two_arcs(a, ta, b, tb)
        return found

    def _mirrored(self, quarter: list[Arc]) -> tuple[Arc, ...]:
        x0, y0 = self.centre

        def laid(arc: Arc, fx: float, fy: float) -> Arc:
            def at(point: Point) -> Point:
                return x0 + fx * point[0], y0 + fy * point[1]

            if fx * fy > 0:
                return Arc(at(arc.start), at(arc.end), at(arc.centre), arc.radius, arc.sweep)
            return Arc(at(arc.end), at(arc.start), at(arc.centre), arc.radius, arc.sweep)

        back = list(reversed(quarter))
        return (
            *(laid(arc, 1, 1) for arc in quarter),
            *(laid(arc, -1, 1) for arc in back),
            *(laid(arc, -1, -1) for arc in quarter),
            *(laid(arc, 1, -1) for arc in back),
        )

    def _off(self, arc: Arc) -> float:
        """Greatest distance (mm) of an arc of the north-east quarter from the ellipse about the origin."""
        worst = 0.0
        for step in range(1, _SAMPLES):
            angle = arc.start_angle + arc.sweep * step / _SAMPLES
            x = arc.centre[0] + arc.radius * math.cos(angle)
            y = arc.centre[1] + arc.radius * math.sin(angle)
            worst = max(worst, self._distance(x, y))
        return worst

    def _distance(self, x: float, y: float) -> float:
        """Distance of a point near the ellipse about the origin: Newton's rounds for the foot of its normal."""
        p, q = self.length / 2, self.width / 2
        t = math.atan2(p * y, q * x)
        for _ in range(20):
            c, s = math.cos(t), math.sin(t)
            f = (q * q - p * p) * c * s + x * p * s - y * q * c
            slope = (q * q - p * p) * (c * c - s * s) + x * p * c + y * q * s
            step = f / slope if slope else 0.0
            t -= step
            if abs(step) < 1e-14:
                break
        return math.hypot(x - p * math.cos(t), y - q * math.sin(t))


def _two_arcs(a: Point, ta: Point, b: Point, tb: Point) -> list[Arc]:
    """Two arcs from ``a`` along ``ta`` to ``b`` along ``tb`` that run smoothly into each other (a biarc).

    The control points lie equally far along both tangents.
    """
    vx, vy = b[0] - a[0], b[1] - a[1]
    tx, ty = ta[0] + tb[0], ta[1] + tb[1]
    vt, vv, dot = vx * tx + vy * ty, vx * vx + vy * vy, ta[0] * tb[0] + ta[1] * tb[1]
    # 2 (1 - dot) s² + 2 vt s - vv = 0
    lead = 2 * (1 - dot)
    s = vv / (vt + math.sqrt(vt * vt + lead * vv))
    joint = (
        (a[0] + s * ta[0] + b[0] - s * tb[0]) / 2,
        (a[1] + s * ta[1] + b[1] - s * tb[1]) / 2,
    )
    return [_arc(a, ta, joint), _arc_to(joint, b, tb)]


def _arc(a: Point, ta: Point, b: Point) -> Arc:
    """Arc from ``a``, where it runs along ``ta``, to ``b``; it turns left."""
    nx, ny = -ta[1], ta[0]
    dx, dy = b[0] - a[0], b[1] - a[1]
    radius = (dx * dx + dy * dy) / (2 * (dx * nx + dy * ny))
    sweep = 2 * math.atan2(dx * nx + dy * ny, dx * ta[0] + dy * ta[1])
    return Arc(a, b, (a[0] + radius * nx, a[1] + radius * ny), radius, sweep)


def _arc_to(a: Point, b: Point, tb: Point) -> Arc:
    """Arc from ``a`` to ``b``, where it runs along ``tb``; it turns left."""
    back = _arc((b[0], -b[1]), (-tb[0], tb[1]), (a[0], -a[1]))
    return Arc(a, b, (back.centre[0], -back.centre[1]), back.radius, back.sweep)
