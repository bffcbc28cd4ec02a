"""Exact areas and volumes of a routed edge, by zone.

A quarter round-over of radius r is the curve d = r(1 - cos φ), z = r(1 - sin φ), from φ = 0 at the vertical
flat to φ = π/2 at the face: d is the inset, z the depth below the face. At every point of the curve the edge
is as long as the inner parallel there, so

    surface         S = ∫ P(d(φ)) r dφ
    removed volume  V = ∫ P(d) z(d) dd = ∫ P(d(φ)) r²(1 - sin φ) sin φ dφ      (= ∫ (A(0) - A(d)) dz)

P is linear between the events of the outline, so both have closed forms on each piece; φ is split where an
outline arc dies, hence a round-over larger than a corner radius is exact too (its corner is mitred).

References
----------
Pappus-Guldinus theorems and Steiner's formula for parallel curves. On one piece over the whole quarter they
give S = (πr/2)P - k r²(π/2 - 1) and V = r²(1 - π/4)P - k r³(5/6 - π/4), with k = 2π for a smooth outline
and 8 for a sharp rectangle.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from edgewright.design.levels import Level, area_at, area_between, over_insets, perimeter_at
from edgewright.design.profile import EdgeProfile

__all__ = ["EdgeMetrics", "edge_metrics", "round_over_area", "round_over_volume", "underside_band"]


@dataclass(frozen=True, slots=True)
class EdgeMetrics:
    """What the edge of one top measures.

    Attributes
    ----------
    perimeter_mm
        Length of the outline, P(0).
    top_face_outline_area_mm2
        Area within the outline, A(0), before any round-over.
    profile_length_mm
        Length of the profile curve from the top face to the underside.
    top_round_over_mm2, flat_mm2, bottom_round_over_mm2
        Surface of the edge by zone.
    edge_mm2
        Sum of the three zones.
    flat_top_mm2, flat_underside_mm2
        What stays flat of the two faces, A(rt) and A(rb).
    removed_top_mm3, removed_bottom_mm3
        Wood that each round-over takes off the square edge.
    solid_volume_mm3
        A(0) T less what was removed: a solid of the full thickness everywhere.
    """

    perimeter_mm: float
    top_face_outline_area_mm2: float
    profile_length_mm: float
    top_round_over_mm2: float
    flat_mm2: float
    bottom_round_over_mm2: float
    edge_mm2: float
    flat_top_mm2: float
    flat_underside_mm2: float
    removed_top_mm3: float
    removed_bottom_mm3: float
    solid_volume_mm3: float


def edge_metrics(levels: tuple[Level, ...], profile: EdgeProfile) -> EdgeMetrics:
    """Measure the edge that a profile makes along an outline.

    Raises
    ------
    GeometryError
        If a round-over is larger than the last inset of the outline.
    """
    perimeter = perimeter_at(levels, 0.0)
    outline_area = area_at(levels, 0.0)
    top = round_over_area(levels, profile.top_radius)
    flat = perimeter * profile.flat
    bottom = round_over_area(levels, profile.bottom_radius)
    removed_top = round_over_volume(levels, profile.top_radius)
    removed_bottom = round_over_volume(levels, profile.bottom_radius)
    return EdgeMetrics(
        perimeter_mm=perimeter,
        top_face_outline_area_mm2=outline_area,
        profile_length_mm=profile.length,
        top_round_over_mm2=top,
        flat_mm2=flat,
        bottom_round_over_mm2=bottom,
        edge_mm2=top + flat + bottom,
        flat_top_mm2=area_at(levels, profile.top_radius),
        flat_underside_mm2=area_at(levels, profile.bottom_radius),
        removed_top_mm3=removed_top,
        removed_bottom_mm3=removed_bottom,
        solid_volume_mm3=outline_area * profile.thickness - removed_top - removed_bottom,
    )


def round_over_area(levels: tuple[Level, ...], radius: float) -> float:
    """Surface of one quarter round-over in mm², radius in mm.

    On a piece P = p0 + p1 d the antiderivative of P(d(φ)) r is r((p0 + p1 r) φ - p1 r sin φ).

    Raises
    ------
    GeometryError
        If the radius is negative or larger than the last inset of the outline.
    """

    def antiderivative(level: Level, d: float) -> float:
        phi = _angle(d, radius)
        return radius * ((level.p0 + level.p1 * radius) * phi - level.p1 * radius * math.sin(phi))

    return over_insets(
        levels, 0.0, radius, lambda level, a, b: antiderivative(level, b) - antiderivative(level, a)
    )


def round_over_volume(levels: tuple[Level, ...], radius: float) -> float:
    """Wood removed by one quarter round-over in mm³, radius in mm.

    On a piece the antiderivative of P(d(φ)) r²(1 - sin φ) sin φ is r²((p0 + p1 r) F - p1 r G) with
    F = sin 2φ/4 - cos φ - φ/2 and G = sin²φ/2 - sin³φ/3.

    Raises
    ------
    GeometryError
        If the radius is negative or larger than the last inset of the outline.
    """

    def antiderivative(level: Level, d: float) -> float:
        phi = _angle(d, radius)
        sine = math.sin(phi)
        f = math.sin(2 * phi) / 4 - math.cos(phi) - phi / 2
        g = sine**2 * (1 / 2 - sine / 3)
        return radius**2 * ((level.p0 + level.p1 * radius) * f - level.p1 * radius * g)

    return over_insets(
        levels, 0.0, radius, lambda level, a, b: antiderivative(level, b) - antiderivative(level, a)
    )


def underside_band(levels: tuple[Level, ...], inset: float, width: float) -> float:
    """Band of the underside where drips curl under, A(inset) - A(inset + width), in mm².

    Parameters
    ----------
    levels
        Level sets of the outline.
    inset
        Where the flat underside begins, in mm: the bottom round-over's radius.
    width
        Width of the band in mm, at least 0.

    Raises
    ------
    GeometryError
        If the band reaches beyond the last inset of the outline, or a figure is negative.
    """
    return area_between(levels, inset, inset + width)


def _angle(d: float, radius: float) -> float:
    """Return the angle φ of the quarter circle at inset ``d``, from d = r(1 - cos φ) = 2r sin²(φ/2)."""
    return 2 * math.asin(math.sqrt(min(d / (2 * radius), 0.5)))
