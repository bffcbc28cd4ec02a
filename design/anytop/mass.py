"""Wood of a shaped top and where its centre lies, from its routed levels and the pieces under its rim."""

from __future__ import annotations

import math
from collections.abc import Sequence

from edgewright.design.anytop.model import FinishedMass
from edgewright.design.buildup.ring_model import RingPiece
from edgewright.design.forms import no_form
from edgewright.design.mass import Body, joined, prism, slice_body
from edgewright.design.outline import Outline
from edgewright.design.profile import EdgeProfile
from edgewright.design.region import Region
from edgewright.design.shapes.loop import reversed_outline
from edgewright.design.wavefront import Wave
from edgewright.job_shaped import ShapedJob

__all__ = ["finished_mass"]


def finished_mass(
    job: ShapedJob,
    region: Region,
    profile: EdgeProfile | None,
    wave: Wave | None,
    lying: Sequence[tuple[RingPiece, tuple[Outline, ...]]],
    edge_thickness: float,
) -> FinishedMass:
    """Volumes and centres of the top layer, the ring and the whole; without a profile the square edge counts.

    Parameters
    ----------
    region
        The finished top.
    profile, wave
        Section of the edge and the edges on their way in; None where no such profile exists.
    lying
        Each piece of the build-up with what of it lies under the top after it is trimmed flush.
    edge_thickness
        Thickness of the edge (mm).
    """
    top_thickness = job.top.thickness_mean.mm
    if profile is None or wave is None:
        top = prism(region.loops, 0.0, top_thickness)
        ring = _square_ring(job, lying, top_thickness, edge_thickness)
        return FinishedMass(top, ring, top if ring is None else joined((top, ring)))

    def rim(inset: float) -> Sequence[Outline]:
        return [loop for loop in wave.loops(inset) if loop.area > 0]

    def gaps(inset: float) -> Sequence[Outline]:
        return [reversed_outline(loop) for loop in wave.loops(inset) if loop.area < 0]

    depth = min(top_thickness, profile.thickness)
    top = slice_body(rim, profile, 0.0, depth)
    if region.holes:
        # the lower arris of a cut-out stays sharp
        gap = slice_body(gaps, EdgeProfile(profile.thickness, profile.top, no_form()), 0.0, depth)
        top = joined((top, gap), (1.0, -1.0))
    ring = _square_ring(job, lying, top_thickness, edge_thickness)
    if ring is not None and lying[0][0].kind != "skirt":
        # what the profile takes off the square rim is taken off the pieces, too
        square = prism([region.outer], top_thickness, edge_thickness - top_thickness)
        routed = slice_body(rim, profile, top_thickness, edge_thickness)
        ring = joined((ring, routed, square), (1.0, 1.0, -1.0))
    return FinishedMass(top, ring, top if ring is None else joined((top, ring)))


def _square_ring(
    job: ShapedJob,
    lying: Sequence[tuple[RingPiece, tuple[Outline, ...]]],
    top_thickness: float,
    edge_thickness: float,
) -> Body | None:
    """Body of the build-up with a square edge."""
    if not lying:
        return None
    if lying[0][0].kind == "skirt":
        return joined(_upright(piece, edge_thickness) for piece, _ in lying)
    strip = job.strip_thickness.mm
    return joined(
        prism(parts, top_thickness + (piece.layer - 1) * strip, strip) for piece, parts in lying if parts
    )


def _upright(piece: RingPiece, edge_thickness: float) -> Body:
    """A piece of a skirt, which ends at the underside."""
    points = piece.plan
    after = (*points[1:], points[0])
    crosses = [ax * by - bx * ay for (ax, ay), (bx, by) in zip(points, after, strict=True)]
    area = math.fsum(crosses) / 2
    x, y = (
        math.fsum((a[axis] + b[axis]) * c for a, b, c in zip(points, after, crosses, strict=True))
        / (6 * area)
        for axis in (0, 1)
    )
    return Body(area * piece.blank_width, (x, y, edge_thickness - piece.blank_width / 2))
