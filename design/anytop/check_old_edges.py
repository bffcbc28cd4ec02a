"""Report findings 206 and 319: edges that stay as the old top has them, with an old arris or live."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import Final

from edgewright.design.anytop.live import live_segments
from edgewright.design.anytop.model import ShapedDesign
from edgewright.design.check_figures import exceeds, shown, shown_down
from edgewright.design.outline import Segment
from edgewright.design.segments import direction, distance, parameter, point_at
from edgewright.design.shapes.live_edge import station_side
from edgewright.design.shapes.model import Shape
from edgewright.design.tolerances import NODE_MM
from edgewright.findings import Finding

__all__ = ["live_edge_findings", "old_arris_findings", "trim_at"]

#: Cosine of 30°: an old edge turned further than this is not the one that was trimmed.
_ALIKE: Final = math.cos(math.radians(30))
#: Places along an edge at which its trim is looked at.
_PLACES: Final = 16


def old_arris_findings(design: ShapedDesign) -> Iterator[Finding]:
    """206: less comes off an edge than its old arris is round, so a groove stays above the strip."""
    job, units = design.job, design.job.units
    arris = job.top.finished_edge.arris_radius.mm
    if job.edge.build_up == "none" or not arris > 0:
        return
    # an edge that is cut in several parts counts with its least trim
    least: dict[str, float] = {}
    sawn = design.trims.finished
    for segment, name in zip(sawn.outline.segments, sawn.names, strict=True):
        edge = station_side(name) or name
        least[edge] = min(least.get(edge, math.inf), trim_at(segment, design.old))
    by_trim: dict[str, list[str]] = {}
    for name, trim in least.items():
        if exceeds(arris, trim):
            told = "not trimmed" if trim <= NODE_MM else f"trim {shown_down(trim, units)}"
            by_trim.setdefault(told, []).append(name)
    for told, names in by_trim.items():
        yield Finding(
            206,
            "warn",
            "old arris above a strip",
            ", ".join(names),
            f"{', '.join(names)}: arris radius {shown(arris, units)}, {told}",
            "trim there by at least the radius, or fill the groove before routing",
        )


def trim_at(segment: Segment, old: Shape) -> float:
    """Least wood (mm) that comes off along an edge: how near it comes to old edges that run alike."""
    near = math.inf
    for step in range(_PLACES + 1):
        share = step / _PLACES
        place, (ux, uy) = point_at(segment, share), direction(segment, share)
        for other in old.outline.segments:
            vx, vy = direction(other, min(max(parameter(other, place), 0.0), 1.0))
            if ux * vx + uy * vy >= _ALIKE:
                near = min(near, distance(other, place))
    return near


def live_edge_findings(design: ShapedDesign) -> Iterator[Finding]:
    """319: strips under a live edge, and a live edge that is routed because the job asks for it."""
    job, finished = design.job, design.finished
    live = live_segments(job, finished)
    if not live:
        return
    if job.edge.build_up != "none":
        yield Finding(
            319,
            "warn",
            "live edge",
            _sides(finished, sorted(live)),
            f'build_up = "{job.edge.build_up}" runs under the live edge',
            'strips under a live edge show their straight outer edge: write build_up = "none", or trim that side',
        )
    routed = live - design.still
    profile = design.profile
    if routed and profile is not None and (profile.top.parts or profile.bottom.parts):
        yield Finding(
            319,
            "note",
            "live edge",
            _sides(finished, sorted(routed)),
            "routed, as unrouted does not name it",
            "no bearing follows bark: name the side under unrouted, or shape its arris by hand",
        )


def _sides(finished: Shape, numbers: Sequence[int]) -> str:
    """Traced sides among some edges; a rounding between two of them names none."""
    return " and ".join(dict.fromkeys(side for at in numbers if (side := station_side(finished.names[at]))))
