"""Cut drawing of a shaped top: seen from above, face up, in the frame of the old top as measured."""

from __future__ import annotations

from collections.abc import Iterator

from edgewright.cutlist.drawing_words import FACE_UP, INSIDE, OUTSIDE, heading_lines
from edgewright.design.anytop.cut_records import cut_records
from edgewright.design.anytop.model import ShapedDesign
from edgewright.design.outline import Line, Outline
from edgewright.design.shapes.ellipse_top import ELLIPSE_FIT_MM
from edgewright.design.trims.straight_cut import beside
from edgewright.display import show_decimal, show_mm
from edgewright.drawing.layers import CUT_OUTS, FINISHED_OUTLINE, KEEP_LINES, KERFS, OLD_OUTLINE, REFERENCE
from edgewright.drawing.reference import notes_above
from edgewright.drawing.view import Loop, Segment, Shape, View

__all__ = ["oval_lines", "shaped_cut_view"]

_Placed = tuple[str, Shape]


def shaped_cut_view(design: ShapedDesign, plan_code: str) -> View:
    """Cut drawing, in mm: both outlines, cut-outs, keep lines with their kerfs, notes."""
    old, finished = design.old.outline, design.finished.outline
    shapes: list[_Placed] = [
        (FINISHED_OUTLINE.name, _loop(finished)),
        (OLD_OUTLINE.name, _loop(old)),
        *((CUT_OUTS.name, _loop(hole)) for hole in design.region.holes),
        *_cuts(design),
        *notes_above(old.bounds, _notes(design, plan_code)),
    ]
    return View(
        name="cut",
        title=design.job.info.title,
        shapes=tuple(shapes),
        layers=(FINISHED_OUTLINE, OLD_OUTLINE, CUT_OUTS, KEEP_LINES, KERFS, REFERENCE),
        nominal=((FINISHED_OUTLINE.name, finished.bounds), (OLD_OUTLINE.name, old.bounds)),
    )


def _loop(outline: Outline) -> Loop:
    return Loop(outline.bulge_vertices())


def _cuts(design: ShapedDesign) -> Iterator[_Placed]:
    """Keep line of each saw cut from rim to rim, and the far edge of its kerf."""
    for record in cut_records(design.old, design.trims):
        sawn, ends = record.sawn, [mark.at for mark in record.marks]
        if len(ends) == 2:
            keep = Line(ends[0], ends[1])
            waste = beside(keep, -sawn.cut.kerf)
            yield KEEP_LINES.name, Segment(*keep.start, *keep.end)
            corners = (keep.start, keep.end, waste.end, waste.start)
            loop = corners if _turns_left(corners) else corners[::-1]
            yield KERFS.name, Loop(tuple((x, y, 0.0) for x, y in loop))


def _turns_left(points: tuple[tuple[float, float], ...]) -> bool:
    after = (*points[1:], points[0])
    return sum(ax * by - bx * ay for (ax, ay), (bx, by) in zip(points, after, strict=True)) > 0


def _notes(design: ShapedDesign, plan_code: str) -> list[str]:
    job = design.job
    lines = [*heading_lines(job.info.title, plan_code), FACE_UP, OUTSIDE]
    if design.region.holes:
        lines.append(INSIDE)
    if job.top.new and job.top.oversize.mm:
        by = show_mm(job.top.oversize.mm, job.units)
        lines.append(f"OLD_OUTLINE is the blank, oversize by {by} all round")
    return [*lines, *oval_lines(design)]


def oval_lines(design: ShapedDesign) -> list[str]:
    """How exactly arcs stand for an oval; nothing where none do. An inset oval keeps the error of the one measured."""
    error = max(design.old.fit_error_mm, design.finished.fit_error_mm)
    if not error:
        return []
    units = design.job.units
    off, most = (show_decimal(mm, units) for mm in (error, ELLIPSE_FIT_MM))
    return [f"oval drawn as arcs, within {off} of the exact curve (at most {most} is allowed)"]
