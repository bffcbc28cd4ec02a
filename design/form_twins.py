"""Areas and volumes of a form by quadrature: the twin of each closed form, and all there is on curved pieces."""

from __future__ import annotations

import math
import sys
from collections.abc import Callable
from typing import Literal

from edgewright.design.form_parts import angle_at, bound, inset_span, upright
from edgewright.design.forms import Form
from edgewright.design.levels import AnyLevel, Levels, area_at, over_insets, perimeter_at
from edgewright.design.outline import Arc, Segment
from edgewright.design.quadrature import Integral, integrate

__all__ = ["area_by_quadrature", "form_area_twin", "form_volume_twin", "over_part", "volume_by_quadrature"]

#: Rounding of a few products and sums, as a share of what is summed.
_GRAIN = 8 * sys.float_info.epsilon


def form_area_twin(levels: Levels, form: Form) -> Integral:
    """Surface of one form by quadrature on every piece, mm².

    Raises
    ------
    GeometryError
        If the form reaches beyond the last inset of the outline.
    """
    found = [Integral(0.0, 0.0)]

    def keep(part: Segment, level: AnyLevel, a: float, b: float) -> float:
        found.append(area_by_quadrature(part, level, a, b))
        return 0.0

    for part in form.parts:
        if upright(part):
            found.append(Integral(perimeter_at(levels, part.start[0]) * part.length, 0.0))
        else:
            over_insets(levels, *inset_span(part), bound(keep, part))
    return _sum(found)


def form_volume_twin(levels: Levels, form: Form) -> Integral:
    """Wood removed by one form in mm³, ∫ (A(0) - A(d)) dz by quadrature on every piece.

    Raises
    ------
    GeometryError
        If the form reaches beyond the last inset of the outline.
    """
    outer = area_at(levels, 0.0)
    found = [Integral(0.0, 0.0)]

    def keep(part: Segment, level: AnyLevel, a: float, b: float) -> float:
        found.append(over_part(part, a, b, lambda d, _: outer - level.area(d), "depth"))
        return 0.0

    for part in form.parts:
        if upright(part):
            found.append(Integral((outer - area_at(levels, part.start[0])) * part.length, 0.0))
        elif part.end[1] > part.start[1]:
            over_insets(levels, *inset_span(part), bound(keep, part))
    total = _sum(found)
    # the difference of two areas keeps their rounding; the area of a hole is negative
    return Integral(total.value, total.error + _GRAIN * abs(outer) * form.depth)


def volume_by_quadrature(part: Segment, level: AnyLevel, a: float, b: float) -> Integral:
    """Wood above a part that is not upright, between two insets of one piece of the levels, mm³."""
    return over_part(part, a, b, lambda d, z: level.perimeter(d) * z, "inset")


def area_by_quadrature(part: Segment, level: AnyLevel, a: float, b: float) -> Integral:
    """Surface of a part that is not upright, between two insets of one piece of the levels, mm²."""
    return over_part(part, a, b, lambda d, _: level.perimeter(d), "length")


def over_part(
    part: Segment,
    a: float,
    b: float,
    value: Callable[[float, float], float],
    over: Literal["depth", "inset", "length"],
    relative: float = 1e-12,
) -> Integral:
    """Integrate a value of (inset, depth) along a part that is not upright, between insets a < b (mm).

    The error is brought below the share ``relative`` of the result.
    """
    if not isinstance(part, Arc):
        (d0, z0), (d1, z1) = part.start, part.end
        slope = (z1 - z0) / (d1 - d0)
        scale = {"depth": abs(slope), "inset": 1.0, "length": math.hypot(1.0, slope)}[over]
        return integrate(lambda d: value(d, z0 + slope * (d - d0)) * scale, a, b, relative=relative)
    (c, e), radius = part.centre, part.radius

    def integrand(t: float) -> float:
        cosine, sine = math.cos(t), math.sin(t)
        step = 1.0 if over == "length" else abs(cosine if over == "depth" else sine)
        # rounding may put the inset a hair outside of the piece
        return value(min(max(c + radius * cosine, a), b), e + radius * sine) * step * radius

    low, high = sorted((angle_at(part, a), angle_at(part, b)))
    return integrate(integrand, low, high, relative=relative)


def _sum(found: list[Integral]) -> Integral:
    return Integral(math.fsum(one.value for one in found), math.fsum(one.error for one in found))
