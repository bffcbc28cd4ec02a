"""Test cut of any saw setting: one cut at twice its size with keep line, kerf, guide and offset, and boxes to fill in.

A section through the panel, seen along the cut. The offset is drawn broken, as most are longer than the page.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

from edgewright.cutlist.sheets.common import check_box
from edgewright.cutlist.sheets.wall import BENCH, LEAST_CAP, TICK, size_of_cap, tick_box, wall_heading
from edgewright.cutlist.trial_cut import ENOUGH_TO_STOP
from edgewright.drawing.paper import KEEP, PANEL, THIN, PaperBox, Pen, Point
from edgewright.drawing.view import View

__all__ = ["LEAST_SECTION", "CutSetting", "kerf_section"]

_TWICE: Final = 2.0
_KEEP: Final = 62.0
_WASTE: Final = 34.0
_GUIDE_HIGH: Final = 9.0
_GUIDE_WIDE: Final = 28.0
#: A thicker panel is broken off below.
_THICKEST: Final = 38.0
#: Room above the panel for the guide and its offset, and below for the kerf (mm).
_ABOVE: Final = 26.0
_BELOW: Final = 12.0
#: A row to fill in: its height, and the box to write in (mm).
_ROW: Final = 14.0
_ANSWER: Final = (34.0, 10.0)
LEAST_SECTION: Final[PaperBox] = (150.0, 170.0)


@dataclass(frozen=True, slots=True)
class CutSetting:
    """How the saw stands to a cut: kerf and thickness of the panel in mm, kerf and offset as they are shown."""

    kerf_mm: float
    thickness_mm: float
    kerf: str
    offset: str
    guide_side: Literal["keep", "waste"]
    shoe_side: str


def kerf_section(setting: CutSetting, code: str, box: PaperBox = (180.0, 170.0), *, before: int = 1) -> View:
    """Draw one cut enlarged.

    Parameters
    ----------
    code
        Plan code.
    before
        Number of the first cut.
    box
        Width and height that the figure may fill, paper mm, at least 150 x 170.

    Raises
    ------
    GeometryError
        For a box that is too small.
    """
    check_box(box, LEAST_SECTION)
    pen = Pen()
    thick = setting.thickness_mm * _TWICE
    broken = " The panel is thicker than drawn." if thick > _THICKEST else ""
    top = wall_heading(
        pen,
        box,
        "TEST CUT",
        [
            f"One cut, seen along the saw's way, 2:1. Plan {code}. All of the kerf is on the waste side. Clamp "
            f"the guide on the {setting.guide_side} side; its edge is {setting.offset} from the near side of the kerf, "
            f"with the {setting.shoe_side} side of the shoe along it.{broken}",
            f"Make it in scrap of the same wood, before cut {before}. {ENOUGH_TO_STOP}",
        ],
    )
    thick = min(thick, _THICKEST)
    _section(pen, setting, box[0], top, thick)
    bottom = top - _ABOVE - thick - _BELOW
    for name, planned in (("KERF", setting.kerf), ("OFFSET", setting.offset)):
        _to_fill_in(pen, box[0], bottom - _ROW / 2, name, planned)
        bottom -= _ROW
    return pen.view("kerf", "Test cut: one cut, seen along the saw's way, 2:1")


def _section(pen: Pen, setting: CutSetting, width: float, top: float, thick: float) -> None:
    """The cut below ``top``: both halves of the panel, the kerf between them, the guide above."""
    kerf = setting.kerf_mm * _TWICE
    on_keep = setting.guide_side == "keep"
    # the guide's side is drawn longer, for it holds the guide
    left_side, right_side = (_KEEP, _WASTE) if on_keep else (_WASTE, _KEEP)
    keep = (width - left_side - kerf - right_side) / 2 + left_side
    far = keep + kerf
    face = top - _ABOVE
    floor = face - thick
    _half_panel(pen, keep, keep - left_side, floor, face)
    _half_panel(pen, far, far + right_side, floor, face)
    band = ((keep, floor), (far, floor), (far, face), (keep, face))
    pen.hatch(band, 45, 1.2)
    pen.line(KEEP, (keep, floor - 9), (keep, face + (_GUIDE_HIGH + 9 if on_keep else 6)))
    near, outward = (keep, -1.0) if on_keep else (far, 1.0)
    edge = near + outward * (left_side if on_keep else right_side) * 0.45
    back = edge + outward * _GUIDE_WIDE
    pen.box(PANEL, min(edge, back), face, max(edge, back), face + _GUIDE_HIGH)
    pen.text(edge + outward * _GUIDE_WIDE / 2, face + 3, BENCH, "guide", "middle")
    y = face + _GUIDE_HIGH + 7
    pen.line(THIN, (edge, face + _GUIDE_HIGH + 0.8), (edge, y + 2))
    if not on_keep:
        pen.line(THIN, (near, face + 0.8), (near, y + 2))
    pen.line(THIN, (edge, y), (near, y))
    pen.arrow((edge, y), (near, y))
    pen.arrow((near, y), (edge, y))
    words = f"{setting.offset} (drawn short)"
    pen.text((edge + near) / 2, y + 3.4, BENCH, words, "middle")
    _kerf_size(pen, keep, far, floor, f"kerf {setting.kerf}", "keep line")
    big = size_of_cap(LEAST_CAP)
    pen.text(keep - left_side / 2, floor + (thick - LEAST_CAP) / 2, big, "KEEP", "middle")
    pen.text(
        far + right_side / 2, floor + (thick - LEAST_CAP) / 2, min(big, right_side / 4.5), "WASTE", "middle"
    )


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
    pen.text(far + 8, y - 1.5, BENCH, kerf)
    pen.text(keep - 8, y - 1.5, BENCH, name, "end")


def _to_fill_in(pen: Pen, width: float, middle: float, name: str, planned: str) -> None:
    """A row: box to tick, what was planned in large figures, box to write what was measured."""
    size = size_of_cap(LEAST_CAP)
    tick_box(pen, 0.3, middle)
    pen.text(TICK + 4.0, middle - LEAST_CAP / 2, size, f"{name} {planned}")
    wide, high = _ANSWER
    pen.box(THIN, width - 0.3 - wide, middle - high / 2, width - 0.3, middle + high / 2)
    pen.text(width - wide - 2.5, middle - 0.365 * BENCH, BENCH, "measured", "end")
