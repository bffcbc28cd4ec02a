"""Cut-outs of a shaped job: where they lie in the finished top, and what their edges measure."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final

from edgewright.design.anytop.model import CutOutEdge
from edgewright.design.form_integrals import form_area
from edgewright.design.outline import Outline
from edgewright.design.profile import EdgeProfile
from edgewright.design.reach import UncutTip
from edgewright.design.region import Region
from edgewright.design.shapes.cutouts import check_cut_out, rectangle_cut_out, round_cut_out
from edgewright.design.shapes.model import Shape
from edgewright.design.wavefront import Wave
from edgewright.errors import blaming
from edgewright.job_shaped import ShapedJob
from edgewright.job_shaped_edge import CutOut

__all__ = ["cut_out_edges", "cut_out_name", "with_job_cut_outs"]

#: Wood that must stay beside a cut-out after both edges are routed (choice of this program).
_LEAST_WOOD_MM: Final = 6.0


def cut_out_name(hole: CutOut, number: int) -> str:
    """Name of a cut-out: its own, else its number from 1."""
    return hole.name or f"cut-out {number}"


def drawn_hole_name(number: int) -> str:
    """Name of a hole of an imported drawing, by its number from 1."""
    return f"drawn hole {number}"


def with_job_cut_outs(
    finished: Shape, drawn: tuple[Outline, ...], old: Shape, job: ShapedJob, profile: EdgeProfile | None
) -> Region:
    """The finished top with the holes of an imported drawing and the cut-outs of the job.

    Raises
    ------
    GeometryError
        If a cut-out lies outside, overlaps another, or comes too near the rim.
    """
    x0, y0, _, _ = old.outline.bounds
    holes = list(drawn)
    for hole in job.cut_outs:
        centre = (x0 + hole.x.mm, y0 + hole.y.mm)
        if hole.diameter is not None:
            holes.append(round_cut_out(centre, hole.diameter.mm))
        elif hole.length is not None and hole.width is not None:
            turn = math.radians(hole.turn)
            holes.append(
                rectangle_cut_out(centre, hole.length.mm, hole.width.mm, hole.corner_radius.mm, turn)
            )
    names = [drawn_hole_name(number) for number in range(1, len(drawn) + 1)]
    names += [cut_out_name(hole, number) for number, hole in enumerate(job.cut_outs, start=1)]
    rim = 0.0 if profile is None else max(profile.top.reach, profile.bottom.reach)
    inner = profile.top.reach if profile is not None and any(hole.routed for hole in job.cut_outs) else 0.0
    margin = rim + inner + _LEAST_WOOD_MM
    for number in range(len(holes)):
        place = ("top", "outline") if number < len(drawn) else ("cut_out", number - len(drawn))
        with blaming(*place):
            check_cut_out(finished.outline, holes[: number + 1], margin, margin, names)
    return Region(finished.outline, tuple(holes))


def cut_out_edges(
    job: ShapedJob,
    region: Region,
    profile: EdgeProfile | None,
    wave: Wave | None,
    tips: Sequence[UncutTip],
    thickness: float,
) -> tuple[CutOutEdge, ...]:
    """Edges of all cut-outs as the bit leaves them; a routed one gets the top form, its lower arris stays sharp.

    Parameters
    ----------
    profile, wave
        Section of the edge and the edges on their way in; None where no such profile exists.
    tips
        What the upper bit leaves standing, on the rim and in cut-outs.
    thickness
        Thickness of the top layer (mm).
    """
    drawn = len(region.holes) - len(job.cut_outs)
    found = []
    for number, outline in enumerate(region.holes):
        asked = job.cut_outs[number - drawn] if number >= drawn else None
        routed = asked is not None and asked.routed and profile is not None and bool(profile.top.parts)
        area = outline.length * thickness
        if routed and profile is not None and wave is not None:
            first = sum(len(loop.segments) for loop in region.loops[: number + 1])
            own = range(first, first + len(outline.segments))
            levels = wave.levels[number + 1]
            area = form_area(levels, profile.top) + outline.length * (thickness - profile.top.depth)
            area += math.fsum(tip.area_change for tip in tips if tip.segments[0] in own)
        name = drawn_hole_name(number + 1) if asked is None else cut_out_name(asked, number - drawn + 1)
        found.append(CutOutEdge(name, outline, routed, outline.length, area))
    return tuple(found)
