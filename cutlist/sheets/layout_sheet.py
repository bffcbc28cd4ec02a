"""Layout sheet: each stick of a build-up as a rectangle, its lanes and blanks in it, kerfs hatched to scale.

A stick lies with the start of its lanes on the left and its first lane at the bottom, where ripping begins. What is
left white and has no name goes back to the rack.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from edgewright.cutlist.guillotine.model import Layout, RippedLane
from edgewright.cutlist.new_top import TOP
from edgewright.cutlist.shaped_plan import ShapedPlan
from edgewright.cutlist.shaped_stock import ShapedStick
from edgewright.cutlist.sheets.common import check_box, paragraph, paragraph_height
from edgewright.cutlist.sheets.wall import BENCH, wall_heading, wall_heading_height
from edgewright.display import show_ticks
from edgewright.drawing.lettering import ASCENT, text_width
from edgewright.drawing.paper import PANEL, PaperBox, Pen, pick_scale, scale_text
from edgewright.drawing.view import View
from edgewright.ticks import ticks_to_mm

__all__ = ["layout_figures"]

_TITLE: Final = "Build-up: sticks and lanes"
_BIG: Final = "STICKS AND LANES"
_BIG_NEW: Final = "SHEETS: TOP AND RING"
_NEW_TITLE: Final = "Sheets: the top and its build-up"
#: Sizes of the type of a stick's name, and of its blanks, largest first (mm).
_NAME: Final = 5.5
_SIZES: Final = (9.6, 7.0, 5.5, 4.2, 3.2)
_GAP: Final = 4.0
#: Sticks are not drawn larger than this.
_LEAST_SCALE: Final = 2.5
#: Room at both ends of a stick, so that its edges are drawn within the box (paper mm).
_MARGIN: Final = 1.0


@dataclass(frozen=True, slots=True)
class _Drawn:
    """One stick: its size along and across the lanes (ticks), its lanes, and what is written of it."""

    along: int
    across: int
    lanes: tuple[RippedLane, ...]
    names: tuple[tuple[str, ...], ...]
    title: str
    notes: tuple[str, ...]

    def height(self, width: float, scale: float) -> float:
        """Paper height, the gap below included (mm)."""
        words = paragraph_height(self.title, width, _NAME) + sum(
            paragraph_height(note, width, BENCH) for note in self.notes
        )
        return words + ticks_to_mm(self.across) / scale + _GAP


def layout_figures(plan: ShapedPlan, box: PaperBox = (180.0, 200.0)) -> tuple[View, ...]:
    """Draw all sticks that blanks are cut from, at one scale; as many figures as it takes.

    Parameters
    ----------
    plan
        A plan; one that is not ready, or cuts nothing from stock, has no figures.
    box
        Width and height that each figure may fill, paper mm, at least 150 x 100.

    Raises
    ------
    GeometryError
        For a box that is too small.
    """
    check_box(box)
    found = plan.build_up
    if not plan.ready or found.layout is None:
        return ()
    sticks = {stick.stock.id: stick for stick in found.stock}
    sizes = [_size(sticks[layout.stock_id], layout) for layout in found.layout.plan.layouts]
    longest, widest = (max(ticks_to_mm(size[axis]) for size in sizes) for axis in (0, 1))
    scale = pick_scale([(longest, box[0] - 2 * _MARGIN), (widest, box[1] / 2)], _LEAST_SCALE) or 200.0
    drawn = [_drawn(plan, sticks[layout.stock_id], layout, scale) for layout in found.layout.plan.layouts]
    lines = [
        f"{scale_text(scale).capitalize()}. Plan {plan.code}. Rip from the bottom edge, crosscut from the left end."
    ]
    figures: list[View] = []
    while drawn:
        number = len(figures) + 1
        named = _NEW_TITLE if plan.job.top.new else _TITLE
        title = named if number == 1 else f"{named}, continued"
        big = _BIG_NEW if plan.job.top.new else _BIG
        big = big if number == 1 else f"{big} {number}"
        room = box[1] - wall_heading_height(box, big, lines)
        count = 0
        while count < len(drawn) and (not count or drawn[count].height(box[0], scale) <= room):
            room -= drawn[count].height(box[0], scale)
            count += 1
        pen = Pen()
        top = wall_heading(pen, box, big, lines)
        for one in drawn[:count]:
            top = _draw(pen, one, top, box[0], scale, ticks_to_mm(plan.job.saw.kerf.ticks_up()) / scale)
        figures.append(pen.view(f"layout-{number}", title))
        drawn = drawn[count:]
    return tuple(figures)


def _size(stick: ShapedStick, layout: Layout) -> tuple[int, int]:
    size = stick.stock.length, stick.stock.width
    return size if layout.first == "length" else size[::-1]


def _drawn(plan: ShapedPlan, stick: ShapedStick, layout: Layout, scale: float) -> _Drawn:
    along, across = _size(stick, layout)
    units = plan.job.units
    names = [
        tuple(
            one.piece_id
            for one in sorted(plan.build_up.cut, key=lambda one: one.start)
            if (one.stock_id, one.copy, one.lane) == (layout.stock_id, layout.copy, number)
        )
        for number in range(1, len(layout.lanes) + 1)
    ]
    spelled = tuple(
        f"Lane {number}: {', '.join(ids)}."
        for number, (lane, ids) in enumerate(zip(layout.lanes, names, strict=True), start=1)
        if _size_of(lane, ids, scale) is None
    )
    size = f"{show_ticks(along, units, unit=False)} × {show_ticks(across, units)}"
    fences = ", ".join(dict.fromkeys(show_ticks(lane.width, units) for lane in layout.lanes))
    title = f"{stick.name(layout.copy)}: {size}; lanes {fences}"
    return _Drawn(along, across, layout.lanes, tuple(names), title, spelled)


def _size_of(lane: RippedLane, ids: Sequence[str], scale: float) -> float | None:
    """Largest size of the type (mm) at which every name has room in its blank; None where none has."""
    for size in _SIZES:
        # names are figures and have no descenders, so the smallest may fill the lane
        least = ASCENT * size + 0.4 if size == _SIZES[-1] else 1.2 * size
        high = ticks_to_mm(lane.width) / scale >= least
        if high and all(
            text_width(name, size) + 0.8 <= ticks_to_mm(piece.length) / scale
            for name, piece in zip(ids, lane.pieces, strict=True)
        ):
            return size
    return None


def _draw(pen: Pen, one: _Drawn, top: float, width: float, scale: float, kerf: float) -> float:
    """Draw a stick below ``top``; returns the y below it (mm)."""
    high = paragraph(pen, 0, top, one.title, width, _NAME)
    low = high - ticks_to_mm(one.across) / scale
    long = ticks_to_mm(one.along) / scale
    far = _MARGIN + long
    pen.box(PANEL, _MARGIN, low, far, high)
    y = low
    for lane, ids in zip(one.lanes, one.names, strict=True):
        above = min(y + ticks_to_mm(lane.width) / scale, high)
        size = _size_of(lane, ids, scale)
        for name, piece in zip(ids, lane.pieces, strict=True):
            start, end = (
                _MARGIN + ticks_to_mm(at) / scale for at in (piece.start, piece.start + piece.length)
            )
            pen.box(PANEL, start, y, end, above)
            _hatched(pen, end, y, min(end + kerf, far), above)
            if name == TOP:
                pen.hatch(((start, y), (end, y), (end, above), (start, above)), 135, 4.0)
            if size is not None:
                pen.text((start + end) / 2, (y + above) / 2 - 0.365 * size, size, name, "middle")
        _hatched(pen, _MARGIN, above, far, min(above + kerf, high))
        y = above + kerf
    y = low
    for note in one.notes:
        y = paragraph(pen, 0, y, note, width, BENCH)
    return y - _GAP


def _hatched(pen: Pen, x0: float, y0: float, x1: float, y1: float) -> None:
    if min(x1 - x0, y1 - y0) > 1e-3:
        pen.hatch(((x0, y0), (x1, y0), (x1, y1), (x0, y1)), 45, 0.8)
