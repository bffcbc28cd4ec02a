"""What a bearing leaves standing in an inside corner: the uncut tip.

The bearing comes to rest with its centre c at its own radius Rb from both walls. At inset d the cutter takes what is
within Rb + d of c, an arc of that radius; wood of the walls farther from c keeps its old edge as an upright wall,
and between the arc and the inner parallel of the outline wood is left standing. A sharp corner of angle θ (by which
the outline turns) has t = Rb tan(θ/2) from corner to touching point; its tip runs t - √(d² + 2 Rb d) along each
wall and ends at the inset Rb (1/cos(θ/2) - 1).

Of one pocket, at inset d, with ρ = Rb + d, β the angle under which c sees the walls nearer than ρ, and W the area
between c and those:

    taken      ρ²β/2 - W            routed edge   ρ β            upright wall   length of what is farther than ρ
    should be  band of width d      should be     length of the inner parallel

All four are closed forms; over the depth of a form they are integrated by quadrature, split where ρ passes a corner.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Final, Literal

from edgewright.design.form_parts import angle_at, inset_span, upright
from edgewright.design.form_twins import over_part
from edgewright.design.forms import Form
from edgewright.design.metrics import EdgeMetrics
from edgewright.design.outline import FIT_MM, Arc, Outline, Point
from edgewright.design.pocket_level import (
    PocketLevel,
    far_point,
    pocket_events,
    pocket_level,
    standing_outline,
)
from edgewright.design.pockets import Pocket, pockets
from edgewright.design.quadrature import Integral
from edgewright.design.region import Region
from edgewright.design.segments import direction, distance
from edgewright.design.tolerances import NODE_MM
from edgewright.errors import GeometryError

__all__ = ["UncutTip", "uncut_tips", "with_tips"]

#: Share of a tip's figures that they may be off: a tip is cubic millimetres, and near the edge they go as √d.
_ENOUGH: Final = 1e-10


@dataclass(frozen=True, slots=True)
class UncutTip:
    """What stays of one inside corner.

    Attributes
    ----------
    place
        The point of the corner that is farthest from the bearing (mm).
    segments
        Segments of the region that meet there, in the order of ``region.segments``.
    bearing_centre, fillet
        The bearing at rest, and the arc that closes the corner: the routed edge where the form ends.
    ends_at_inset
        Inset at which the tip ends, mm: a form that reaches less leaves it up to the face.
    begins_below_face
        Depth of the tip's highest point, mm; 0 where it stands up to the face.
    runs
        How far the tip runs on the face along the outline from ``place``, backwards and forwards, mm.
    runs_below
        The same where the form ends on the edge: up to the touching points of the bearing.
    wall_area
        Area of its upright walls, mm².
    standing_face
        Wood left standing on the face, mm²: the tip and what lies between it and the inner parallel.
    standing_volume
        Wood left standing, mm³.
    area_change
        What the edge's surface has more (walls included) than along the inner parallels, mm².
    error
        Bound on what ``standing_volume`` is off, mm³.
    outline_at_face
        Plan of the wood left standing on the face; None where none is.
    """

    place: Point
    segments: tuple[int, ...]
    bearing_centre: Point
    fillet: Arc
    ends_at_inset: float
    begins_below_face: float
    runs: tuple[float, float]
    runs_below: tuple[float, float]
    wall_area: float
    standing_face: float
    standing_volume: float
    area_change: float
    error: float
    outline_at_face: Outline | None


def uncut_tips(
    region: Region, form: Form, bearing_radius: float, still: frozenset[int] = frozenset()
) -> tuple[UncutTip, ...]:
    """Find what a form leaves standing in each inside corner; none for a sharp arris.

    Parameters
    ----------
    bearing_radius
        In mm, greater than 0: half the bearing's diameter.
    still
        Segments that are not routed; corners with one of them are left out.

    Raises
    ------
    GeometryError
        If the bearing does not come to rest in a corner, or the form reaches so far in that something else
        than the corner's own walls decides how much of it is cut.
    """
    if not form.parts:
        return ()
    found = []
    for pocket in pockets(region, bearing_radius, still):
        _check_room(region, pocket, form)
        found.append(_tip(pocket, form))
    return tuple(found)


def with_tips(
    metrics: EdgeMetrics, top: tuple[UncutTip, ...] = (), bottom: tuple[UncutTip, ...] = ()
) -> EdgeMetrics:
    """Correct the figures of an edge by what its bits leave standing above and below."""
    more_top, more_bottom = (math.fsum(tip.area_change for tip in tips) for tips in (top, bottom))
    left_top, left_bottom = (math.fsum(tip.standing_volume for tip in tips) for tips in (top, bottom))
    error = math.fsum(tip.error for tip in (*top, *bottom))
    return replace(
        metrics,
        top_round_over_mm2=metrics.top_round_over_mm2 + more_top,
        bottom_round_over_mm2=metrics.bottom_round_over_mm2 + more_bottom,
        edge_mm2=metrics.edge_mm2 + more_top + more_bottom,
        edge_twin_mm2=metrics.edge_twin_mm2 + more_top + more_bottom,
        flat_top_mm2=metrics.flat_top_mm2 + math.fsum(tip.standing_face for tip in top),
        flat_underside_mm2=metrics.flat_underside_mm2 + math.fsum(tip.standing_face for tip in bottom),
        removed_top_mm3=metrics.removed_top_mm3 - left_top,
        removed_bottom_mm3=metrics.removed_bottom_mm3 - left_bottom,
        solid_volume_mm3=metrics.solid_volume_mm3 + left_top + left_bottom,
        solid_volume_twin_mm3=metrics.solid_volume_twin_mm3 + left_top + left_bottom,
        solid_volume_twin_error_mm3=metrics.solid_volume_twin_error_mm3 + error,
    )


def _tip(pocket: Pocket, form: Form) -> UncutTip:
    place, away, _ = far_point(pocket)
    ends = away - pocket.radius
    at_edge, at_face = pocket_level(pocket, 0.0), pocket_level(pocket, form.reach)
    routed = _over_form(pocket, form, lambda at: at.routed - at.parallel, by_depth=False)
    walls = _over_form(pocket, form, lambda at: at.wall, by_depth=True)
    standing = _over_form(pocket, form, lambda at: at.standing, by_depth=True)
    first, last = pocket.walls[0], pocket.walls[-1]
    (px, py), (qx, qy), (cx, cy) = first.start, last.end, pocket.centre
    px, py, qx, qy = px - cx, py - cy, qx - cx, qy - cy
    turned = math.atan2(px * qy - py * qx, px * qx + py * qy)
    return UncutTip(
        place=place,
        segments=pocket.numbers,
        bearing_centre=pocket.centre,
        fillet=Arc(first.start, last.end, pocket.centre, pocket.radius, turned),
        ends_at_inset=ends,
        begins_below_face=0.0 if ends >= form.reach else _depth_at(form, ends),
        runs=at_face.runs,
        runs_below=at_edge.runs,
        wall_area=walls.value,
        standing_face=at_face.standing,
        standing_volume=standing.value,
        area_change=routed.value + walls.value,
        error=standing.error,
        outline_at_face=standing_outline(pocket, form.reach) if at_face.standing > FIT_MM else None,
    )


def _over_form(
    pocket: Pocket, form: Form, value: Callable[[PocketLevel], float], *, by_depth: bool
) -> Integral:
    """Integrate a figure of the pocket's levels over the depth of a form, or along its curve."""
    total = Integral(0.0, 0.0)
    events = pocket_events(pocket)
    for part in form.parts:
        if upright(part):
            total += Integral(value(pocket_level(pocket, part.start[0])) * part.length, 0.0)
            continue
        low, high = inset_span(part)
        cuts = [low, *(event for event in events if low < event < high), high]
        for a, b in pairwise(cuts):
            over: Literal["depth", "length"] = "depth" if by_depth else "length"
            total += over_part(part, a, b, lambda d, _: value(pocket_level(pocket, d)), over, _ENOUGH)
    return total


def _depth_at(form: Form, inset: float) -> float:
    """Depth of the curve at an inset."""
    for part in form.parts:
        low, high = inset_span(part)
        if low <= inset <= high and not upright(part):
            if isinstance(part, Arc):
                return part.centre[1] + part.radius * math.sin(angle_at(part, inset))
            (d0, z0), (d1, z1) = part.start, part.end
            return z0 + (z1 - z0) * (inset - d0) / (d1 - d0)
    return form.depth


def _check_room(region: Region, pocket: Pocket, form: Form) -> None:
    """Raise GeometryError unless the inner parallel beside the touching points is that of the corner's walls."""
    for wall, share in ((pocket.walls[0], 0.0), (pocket.walls[-1], 1.0)):
        ux, uy = direction(wall, share)
        x, y = wall.start if share == 0 else wall.end
        moved = x - form.reach * uy, y + form.reach * ux
        if any(distance(segment, moved) < form.reach - NODE_MM for segment in region.segments):
            px, py = far_point(pocket)[0]
            raise GeometryError(
                f"the {form.name} reaches {form.reach:g} mm in, which at the inside corner at ({px:g}, {py:g}) mm "
                "is more than the wood beside it allows: use a smaller bit"
            )
