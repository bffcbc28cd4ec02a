"""Exact area and volume of a form along the levels of an outline; closed forms on every polynomial piece."""

from __future__ import annotations

import math
from collections.abc import Sequence

from edgewright.design.form_parts import angle_at, bound, inset_span, upright
from edgewright.design.form_twins import area_by_quadrature, volume_by_quadrature
from edgewright.design.forms import Form
from edgewright.design.levels import AnyLevel, Level, Levels, over_insets, perimeter_at
from edgewright.design.outline import Arc, Line, Segment

__all__ = ["chain_area", "form_area", "form_volume"]


def form_area(levels: Levels, form: Form) -> float:
    """Surface of one form in mm².

    Raises
    ------
    GeometryError
        If the form reaches beyond the last inset of the outline.
    """
    return chain_area(levels, form.parts)


def chain_area(levels: Levels, parts: Sequence[Segment]) -> float:
    """Surface of a chain of lines and arcs in (inset, depth) in mm².

    On a piece P = p0 + p1 d an arc d = c + R cos t, z = e + R sin t has the antiderivative
    R((p0 + p1 c) t + p1 R sin t).

    Raises
    ------
    GeometryError
        If the form reaches beyond the last inset of the outline.
    """

    def part_area(part: Segment, level: AnyLevel, a: float, b: float) -> float:
        if not isinstance(level, Level):
            return area_by_quadrature(part, level, a, b).value
        if isinstance(part, Line):
            return level.perimeter((a + b) / 2) * (b - a) * part.length / abs(part.end[0] - part.start[0])
        radius, c = part.radius, part.centre[0]
        t0, t1 = angle_at(part, a), angle_at(part, b)
        sines = math.sin(t1) - math.sin(t0)
        return radius * abs((level.p0 + level.p1 * c) * (t1 - t0) + level.p1 * radius * sines)

    return math.fsum(
        perimeter_at(levels, part.start[0]) * part.length
        if upright(part)
        else over_insets(levels, *inset_span(part), bound(part_area, part))
        for part in parts
    )


def form_volume(levels: Levels, form: Form) -> float:
    """Wood removed by one form in mm³, ∫ P(d) z(d) dd.

    With q = p0 + p1 c an arc's integrand is -R (q + p1 R cos t)(e + R sin t) sin t dt; along a line it is a
    parabola, for which Simpson's rule is exact.

    Raises
    ------
    GeometryError
        If the form reaches beyond the last inset of the outline.
    """

    def antiderivative(arc: Arc, level: Level, t: float) -> float:
        (c, e), r = arc.centre, arc.radius
        q, sine, cosine = level.p0 + level.p1 * c, math.sin(t), math.cos(t)
        squares = t / 2 - sine * cosine / 2
        return -r * (q * (r * squares - e * cosine) + level.p1 * r * (e * sine**2 / 2 + r * sine**3 / 3))

    def part_volume(part: Segment, level: AnyLevel, a: float, b: float) -> float:
        if not isinstance(level, Level):
            return volume_by_quadrature(part, level, a, b).value
        if isinstance(part, Arc):
            return antiderivative(part, level, angle_at(part, b)) - antiderivative(
                part, level, angle_at(part, a)
            )
        (d0, z0), (d1, z1) = part.start, part.end

        def strip(d: float) -> float:
            return level.perimeter(d) * (z0 + (z1 - z0) * (d - d0) / (d1 - d0))

        return (strip(a) + 4 * strip((a + b) / 2) + strip(b)) * (b - a) / 6

    return math.fsum(
        over_insets(levels, *inset_span(part), bound(part_volume, part))
        for part in form.parts
        if not upright(part)
    )
