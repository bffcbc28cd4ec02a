"""Exact figures of the edge of a shaped top: its routed rim, by name, by layer, and its seams."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from edgewright.design.anytop.live import goes_by, live_segments
from edgewright.design.anytop.model import CornerTip, EdgeRun, SeamLengths
from edgewright.design.buildup.ring_model import RingPiece
from edgewright.design.form_integrals import form_volume
from edgewright.design.form_twins import form_volume_twin
from edgewright.design.layer_areas import layer_areas
from edgewright.design.levels import Levels, area_at
from edgewright.design.metrics import EdgeMetrics, edge_metrics
from edgewright.design.outline import Line
from edgewright.design.profile import EdgeProfile
from edgewright.design.quadrature import Integral
from edgewright.design.reach import UncutTip, uncut_tips, with_tips
from edgewright.design.region import Region
from edgewright.design.shapes.model import Shape
from edgewright.design.wavefront import Wave
from edgewright.errors import GeometryError, blaming
from edgewright.job_shaped import ShapedJob

__all__ = ["EdgeFigures", "edge_figures", "still_segments"]


@dataclass(frozen=True, slots=True)
class EdgeFigures:
    """What is measured on the edge, as in `ShapedDesign`; the metrics are None where no profile exists.

    ``top_tips`` are what the upper bit leaves, on the rim and in cut-outs.
    """

    metrics: EdgeMetrics | None
    parallel_metrics: EdgeMetrics | None
    runs: tuple[EdgeRun, ...]
    layer_areas: tuple[float, ...]
    tips: tuple[CornerTip, ...]
    top_tips: tuple[UncutTip, ...]
    glue_length: float

    def seams(self, pieces: Sequence[RingPiece], panel: Sequence[Line]) -> SeamLengths:
        """Seams by length: glue lines and joints as they show on the edge, and panel seams."""
        flat = [piece for piece in pieces if piece.kind != "skirt"]
        joints = math.fsum(piece.thickness for piece in flat)
        if not flat and len(pieces) > 1:
            joints = math.fsum(piece.blank_width for piece in pieces)
        return SeamLengths(self.glue_length, joints, math.fsum(line.length for line in panel))


def still_segments(job: ShapedJob, finished: Shape, region: Region) -> frozenset[int]:
    """Numbers, in the order of ``region.segments``, of what is not routed: named edges and plain cut-outs.

    A live edge is left as it grew unless the job says itself which edges are not routed.

    Raises
    ------
    GeometryError
        If the job names an edge that the finished top does not have, or leaves none to be routed.
    """
    for number, name in enumerate(job.edge.unrouted):
        if not any(goes_by(known, name) for known in finished.names):
            known = ", ".join(f'"{one}"' for one in dict.fromkeys(finished.names))
            with blaming("edge", "unrouted", number):
                raise GeometryError(
                    f'there is no edge "{name}"; the finished top has {known}: name one of them'
                )
    still = {
        number
        for number, edge in enumerate(finished.names)
        if any(goes_by(edge, name) for name in job.edge.unrouted)
    }
    if "unrouted" not in job.edge.model_fields_set:
        still |= live_segments(job, finished)
    drawn = len(region.holes) - len(job.cut_outs)
    at = len(finished.names)
    for number, hole in enumerate(region.holes):
        if number < drawn or not job.cut_outs[number - drawn].routed:
            still |= set(range(at, at + len(hole.segments)))
        at += len(hole.segments)
    return frozenset(still)


def edge_figures(
    job: ShapedJob,
    finished: Shape,
    region: Region,
    still: frozenset[int],
    profile: EdgeProfile | None,
    wave: Wave | None,
) -> EdgeFigures:
    """Measure the edge.

    Parameters
    ----------
    finished, region
        The finished outline, and with its cut-outs.
    still
        What of its edges is not routed.
    profile, wave
        None where no such profile exists: then only lengths are told; else the edges on their way in by its reach.
    """
    lengths: dict[tuple[str, bool], list[float]] = {}
    for number, (segment, name) in enumerate(zip(finished.outline.segments, finished.names, strict=True)):
        lengths.setdefault((name, number not in still), []).append(segment.length)
    runs = tuple(EdgeRun(name, math.fsum(parts), moves) for (name, moves), parts in lengths.items())
    routed = math.fsum(run.length for run in runs if run.routed)
    layers = {"flat": job.edge.layers, "none": 0}.get(job.edge.build_up, 1)
    glue = routed * layers
    if profile is None or wave is None:
        return EdgeFigures(None, None, runs, (), (), (), glue)
    levels = _levels(finished, wave, max(profile.top.reach, profile.bottom.reach), still)
    metrics = _with_holes(edge_metrics(levels[0], profile), levels[1:], region, still, finished, profile)
    bearing = job.router.bearing_diameter.mm / 2
    top = uncut_tips(region, profile.top, bearing, still)
    # a cut-out gets the top form only
    below = still | frozenset(range(len(finished.names), len(region.segments)))
    alike = profile.bottom == profile.top and below == still
    bottom = top if alike else uncut_tips(region, profile.bottom, bearing, below)
    tips = tuple(
        CornerTip(_corner(tip, finished), arris, tip)
        for arris, found in (("top", top), ("bottom", bottom))
        for tip in found
    )
    # the edge of a cut-out is told apart, and what its tips add to it as well
    rim = tuple(
        tip if tip.segments[0] < len(finished.names) else replace(tip, area_change=0.0) for tip in top
    )
    return EdgeFigures(
        with_tips(metrics, rim, bottom), metrics, runs, _by_layer(job, levels[0], profile), tips, top, glue
    )


def _corner(tip: UncutTip, finished: Shape) -> str:
    """Name of a corner by the edges that meet there; a cut-out's corner has none of them."""
    names = [finished.names[at] for at in tip.segments if at < len(finished.names)]
    return " and ".join(dict.fromkeys(names)) or "cut-out"


def _levels(finished: Shape, wave: Wave, reach: float, still: frozenset[int]) -> tuple[Levels, ...]:
    rim_still = any(number < len(finished.names) for number in still)
    if finished.ellipse is not None and not rim_still:
        return (finished.ellipse.levels(reach), *wave.levels[1:])
    return wave.levels


def _with_holes(
    metrics: EdgeMetrics,
    holes: Sequence[Levels],
    region: Region,
    still: frozenset[int],
    finished: Shape,
    profile: EdgeProfile,
) -> EdgeMetrics:
    """Take the cut-outs off the faces and the volume; edges of cut-outs are told apart.

    A routed one loses the wood of the top form, too; its lower arris stays sharp.
    """
    face = top = under = 0.0
    removed, twin = 0.0, Integral(0.0, 0.0)
    at = len(finished.names)
    for hole, levels in zip(region.holes, holes, strict=True):
        moves = at not in still
        face += hole.area
        top += area_at(levels, profile.top.reach) if moves else hole.area
        under += hole.area
        if moves:
            removed += form_volume(levels, profile.top)
            twin += form_volume_twin(levels, profile.top)
        at += len(hole.segments)
    volume = face * profile.thickness
    return replace(
        metrics,
        top_face_outline_area_mm2=metrics.top_face_outline_area_mm2 + face,
        flat_top_mm2=metrics.flat_top_mm2 + top,
        flat_underside_mm2=metrics.flat_underside_mm2 + under,
        solid_volume_mm3=metrics.solid_volume_mm3 + volume - removed,
        solid_volume_twin_mm3=metrics.solid_volume_twin_mm3 + volume - twin.value,
        solid_volume_twin_error_mm3=metrics.solid_volume_twin_error_mm3 + twin.error,
    )


def _by_layer(job: ShapedJob, levels: Levels, profile: EdgeProfile) -> tuple[float, ...]:
    """Area of the routed edge that each layer shows, the top layer first."""
    top = job.top.thickness_mean.mm
    depths = [top]
    if job.edge.build_up == "flat":
        depths += [top + n * job.strip_thickness.mm for n in range(1, job.edge.layers)]
    return layer_areas(levels, profile, [depth for depth in depths if depth < profile.thickness])
