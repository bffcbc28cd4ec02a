"""One cut at twice its size: keep line, kerf, guide and the offset between them.

A section through the panel, seen along the cut. The offset is drawn broken, as most are longer than the page.
"""

from __future__ import annotations

from typing import Final

from edgewright.cutlist.plan import Plan
from edgewright.cutlist.sheets.common import FIGURE, check_box, heading
from edgewright.display import show_ticks
from edgewright.drawing.paper import KEEP, PANEL, THIN, PaperBox, Pen, Point
from edgewright.drawing.view import View
from edgewright.ticks import ticks_to_mm

__all__ = ["kerf_figure"]

_TWICE: Final = 2.0
_KEEP: Final = 62.0
_WASTE: Final = 34.0
_GUIDE_HIGH: Final = 9.0
_GUIDE_WIDE: Final = 24.0


def kerf_figure(plan: Plan, box: PaperBox = (180.0, 110.0)) -> tuple[View, ...]:
    """Draw one cut enlarged; no view for a plan that is not ready or has no cuts.

    Parameters
    ----------
    plan
        Gives kerf, offset and the guide's side.
    box
        Width and height that the figure may fill, paper mm, at least 150 x 100.

    Raises
    ------
    GeometryError
        For a box that is too small.
    """
    check_box(box)
    if not plan.ready or not plan.cut_plan.cuts:
        return ()
    rules, saw, units = plan.cut_plan.rules, plan.job.saw, plan.job.units
    pen = Pen()
    title = "One cut, seen along the saw's way, 2:1"
    top = heading(
        pen,
        box,
        title,
        [
            f"Plan {plan.code}. All of the kerf is on the waste side. Clamp the guide on the {rules.guide_side} "
            f"side; its edge is {show_ticks(rules.guide_offset_ticks, units)} from the near side of the kerf, "
            f"with the {saw.shoe_side} side of the shoe along it."
        ],
    )
    kerf = ticks_to_mm(rules.kerf_ticks) * _TWICE
    thick = min(plan.job.top.thickness_mean.mm * _TWICE, 30.0)
    on_keep = rules.guide_side == "keep"
    # the guide's side is drawn longer, for it holds the guide
    left_side, right_side = (_KEEP, _WASTE) if on_keep else (_WASTE, _KEEP)
    keep = (box[0] - left_side - kerf - right_side) / 2 + left_side
    far = keep + kerf
    floor = max(top - 30 - _GUIDE_HIGH - thick, 14.0)
    face = floor + thick
    _half_panel(pen, keep, keep - left_side, floor, face)
    _half_panel(pen, far, far + right_side, floor, face)
    band = ((keep, floor), (far, floor), (far, face), (keep, face))
    pen.hatch(band, 45, 1.2)
    pen.line(KEEP, (keep, floor - 9), (keep, face + (_GUIDE_HIGH + 9 if on_keep else 6)))
    near, outward = (keep, -1.0) if on_keep else (far, 1.0)
    edge = near + outward * (left_side if on_keep else right_side) * 0.45
    back = edge + outward * _GUIDE_WIDE
    pen.box(PANEL, min(edge, back), face, max(edge, back), face + _GUIDE_HIGH)
    pen.text(edge + outward * _GUIDE_WIDE / 2, face + 3, FIGURE, "guide", "middle")
    words = f"{show_ticks(rules.guide_offset_ticks, units)} (drawn short)"
    y = face + _GUIDE_HIGH + 7
    pen.line(THIN, (edge, face + _GUIDE_HIGH + 0.8), (edge, y + 2))
    if not on_keep:
        pen.line(THIN, (near, face + 0.8), (near, y + 2))
    pen.line(THIN, (edge, y), (near, y))
    pen.arrow((edge, y), (near, y))
    pen.arrow((near, y), (edge, y))
    pen.text((edge + near) / 2, y + 3.6, FIGURE, words, "middle")
    _kerf_size(pen, keep, far, floor, f"kerf {show_ticks(rules.kerf_ticks, units)}", "keep line")
    pen.text(keep - left_side / 2, floor + thick / 2 - 1.5, FIGURE, "KEEP", "middle")
    pen.text(far + right_side / 2, floor + thick / 2 - 1.5, FIGURE, "WASTE", "middle")
    return (pen.view("kerf", title),)


def _half_panel(pen: Pen, cut: float, end: float, floor: float, face: float) -> None:
    """Panel on one side of the kerf, broken off at its far end."""
    third = (face - floor) / 3
    jog = 1.5
    broken: list[Point] = [
        (end, floor),
        (end, floor + third),
        (end + jog, floor + 1.4 * third),
        (end - jog, floor + 1.6 * third),
        (end, floor + 2 * third),
        (end, face),
    ]
    pen.line(PANEL, (end, floor), (cut, floor), (cut, face), (end, face))
    pen.line(THIN, *broken)


def _kerf_size(pen: Pen, keep: float, far: float, floor: float, kerf: str, name: str) -> None:
    """Size of the kerf with arrows from outside, and the keep line's name."""
    y = floor - 5
    pen.line(THIN, (far, floor - 0.8), (far, y - 2))
    pen.line(THIN, (keep - 7, y), (far + 7, y))
    pen.arrow((keep, y), (keep - 7, y))
    pen.arrow((far, y), (far + 7, y))
    pen.text(far + 8, y - 1.5, FIGURE, kerf)
    pen.text(keep - 8, y - 1.5, FIGURE, name, "end")
