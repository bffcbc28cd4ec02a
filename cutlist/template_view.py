"""Drawing of the template that a router runs along: the finished edge, and the openings in it."""

from __future__ import annotations

from collections.abc import Sequence

from edgewright.cutlist.drawing_words import FACE_UP, TEMPLATE_INSIDE, TEMPLATE_OUTSIDE, heading_lines
from edgewright.design.outline import Outline
from edgewright.drawing.layers import REFERENCE, TEMPLATE_EDGE, TEMPLATE_OPENINGS
from edgewright.drawing.reference import notes_above
from edgewright.drawing.view import Loop, View

__all__ = ["template_view"]


def template_view(
    finished: Outline, openings: Sequence[Outline], title: str, plan_code: str, more: Sequence[str] = ()
) -> View:
    """Template of a finished top, mm; ``more`` are lines that are written on it besides."""
    box = finished.bounds
    lines = [
        *heading_lines(title, plan_code),
        f"template for a flush bit, {FACE_UP}: turn it over where the top lies face down",
        TEMPLATE_OUTSIDE,
        *([TEMPLATE_INSIDE] if openings else []),
        "exact size, nothing added: the bearing is as wide as the cutter and runs along it",
        *more,
    ]
    return View(
        "template",
        title,
        (
            (TEMPLATE_EDGE.name, Loop(finished.bulge_vertices())),
            *((TEMPLATE_OPENINGS.name, Loop(hole.bulge_vertices())) for hole in openings),
            *notes_above(box, lines),
        ),
        (TEMPLATE_EDGE, TEMPLATE_OPENINGS, REFERENCE),
        ((TEMPLATE_EDGE.name, box),),
    )
