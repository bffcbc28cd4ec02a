"""Exact areas and volumes of a routed edge, by zone, each also by a quadrature that goes another way.

A form is a curve of inset d and depth z. At every point of it the edge is as long as the inner parallel there, so

    surface         S = ∫ P(d(s)) ds                           along the curve
    removed volume  V = ∫ P(d) z(d) dd  =  ∫ (A(0) - A(d)) dz

P is linear between the events of the outline, so S and the first V have closed forms on each piece, for lines and,
with the angle in place of the inset, for arcs. The curve is split where an outline arc dies, hence a form that
reaches further in than a corner radius is exact too (its corner is mitred). On pieces that are no polynomial they
are quadratures with a bound on their error.

The twin of each figure is a quadrature on every piece: of P along the curve, and of the second V, which uses A
alone. Closed form and twin share the levels, but no formula.

References
----------
Pappus-Guldinus theorems and Steiner's formula for parallel curves. On one piece over a whole round-over they
give S = (πr/2)P - k r²(π/2 - 1) and V = r²(1 - π/4)P - k r³(5/6 - π/4), with k = 2π for a smooth outline
and 8 for a sharp rectangle.
"""

from __future__ import annotations

import sys
from dataclasses import dataclass

from edgewright.design.form_integrals import form_area, form_volume
from edgewright.design.form_twins import form_area_twin, form_volume_twin
from edgewright.design.forms import Form
from edgewright.design.level_memory import remembered
from edgewright.design.levels import Levels, area_at, area_between, perimeter_at
from edgewright.design.profile import EdgeProfile
from edgewright.design.quadrature import Integral

__all__ = [
    "EdgeMetrics",
    "edge_metrics",
    "underside_band",
]


#: Rounding of a few products and sums, as a share of what is summed.
_GRAIN = 8 * sys.float_info.epsilon


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
        Surface of the edge by zone; another form than a round-over counts in its place.
    edge_mm2
        Sum of the three zones.
    flat_top_mm2, flat_underside_mm2
        What stays flat of the two faces, A at the reach of each form.
    removed_top_mm3, removed_bottom_mm3
        Wood that each form takes off the square edge.
    solid_volume_mm3
        A(0) T less what was removed: a solid of the full thickness everywhere.
    edge_twin_mm2, edge_twin_error_mm2
        ``edge_mm2`` by quadrature, and how far that may be off.
    solid_volume_twin_mm3, solid_volume_twin_error_mm3
        ``solid_volume_mm3`` by quadrature over the depth, and how far that may be off.
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
    edge_twin_mm2: float
    edge_twin_error_mm2: float
    solid_volume_twin_mm3: float
    solid_volume_twin_error_mm3: float


def edge_metrics(levels: Levels, profile: EdgeProfile) -> EdgeMetrics:
    """Measure the edge that a profile makes along an outline.

    Raises
    ------
    GeometryError
        If a form reaches beyond the last inset of the outline.
    """
    levels = remembered(levels)
    perimeter = perimeter_at(levels, 0.0)
    outline_area = area_at(levels, 0.0)
    top, removed_top, top_twin, removed_top_twin = _of_form(levels, profile.top)
    # one form on both arrises, as is usual, is measured once
    bottom, removed_bottom, bottom_twin, removed_bottom_twin = (
        (top, removed_top, top_twin, removed_top_twin)
        if profile.bottom == profile.top
        else _of_form(levels, profile.bottom)
    )
    flat = perimeter * profile.flat
    edge_twin, removed_twin = top_twin + bottom_twin, removed_top_twin + removed_bottom_twin
    square = outline_area * profile.thickness
    return EdgeMetrics(
        perimeter_mm=perimeter,
        top_face_outline_area_mm2=outline_area,
        profile_length_mm=profile.length,
        top_round_over_mm2=top,
        flat_mm2=flat,
        bottom_round_over_mm2=bottom,
        edge_mm2=top + flat + bottom,
        flat_top_mm2=area_at(levels, profile.top.reach),
        flat_underside_mm2=area_at(levels, profile.bottom.reach),
        removed_top_mm3=removed_top,
        removed_bottom_mm3=removed_bottom,
        solid_volume_mm3=square - removed_top - removed_bottom,
        edge_twin_mm2=edge_twin.value + flat,
        edge_twin_error_mm2=edge_twin.error + _GRAIN * (edge_twin.value + flat),
        solid_volume_twin_mm3=square - removed_twin.value,
        solid_volume_twin_error_mm3=removed_twin.error + _GRAIN * abs(square),
    )


def _of_form(levels: Levels, form: Form) -> tuple[float, float, Integral, Integral]:
    """Surface, removed wood, and the twin of each."""
    return (
        form_area(levels, form),
        form_volume(levels, form),
        form_area_twin(levels, form),
        form_volume_twin(levels, form),
    )


def underside_band(levels: Levels, inset: float, width: float) -> float:
    """Band of the underside where drips curl under, A(inset) - A(inset + width), in mm².

    Parameters
    ----------
    levels
        Level sets of the outline.
    inset
        Where the flat underside begins, in mm: the bottom form's reach.
    width
        Width of the band in mm, at least 0.

    Raises
    ------
    GeometryError
        If the band reaches beyond the last inset of the outline, or a figure is negative.
    """
    return area_between(levels, inset, inset + width)
