"""Drawing of the sheets that a new top and its build-up are cut from: each sheet with its parts, one above the other.

Lanes begin at the lower edge of a sheet and their parts at its left end, as on paper; between neighbours lies the kerf.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from edgewright.cutlist.shaped_plan import ShapedPlan
from edgewright.drawing.layers import PARTS, REFERENCE, SHEETS
from edgewright.drawing.plain_ascii import plain_ascii
from edgewright.drawing.reference import lettering_mm
from edgewright.drawing.view import Loop, Note, Shape, View
from edgewright.ticks import ticks_to_mm

__all__ = ["sheets_view"]

#: Clear room between two sheets, in heights of the lettering.
_ROOM: Final = 4


def sheets_view(plan: ShapedPlan) -> View:
    """All sheets in mm; parts are closed loops of exact size.

    Raises
    ------
    ValueError
        For a plan that is not ready, or cuts nothing from stock.
    """
    found = plan.build_up
    if not plan.ready or found.layout is None:
        raise ValueError("nothing is cut from sheets")
    sticks = {stick.stock.id: stick for stick in found.stock}
    layouts = found.layout.plan.layouts
    sizes = []
    for layout in layouts:
        stock = sticks[layout.stock_id].stock
        sizes.append((stock.length, stock.width) if layout.first == "length" else (stock.width, stock.length))
    box = (0.0, 0.0, ticks_to_mm(max(long for long, _ in sizes)), ticks_to_mm(max(wide for _, wide in sizes)))
    high = lettering_mm(box)
    kerf = plan.job.saw.kerf.ticks_up()
    names = {(one.stock_id, one.copy, one.lane, one.start): one.piece_id for one in found.cut}
    shapes: list[tuple[str, Shape]] = []
    base = 0.0
    for layout, (long, wide) in zip(layouts, sizes, strict=True):
        right, top = ticks_to_mm(long), base + ticks_to_mm(wide)
        shapes.append((SHEETS.name, _rectangle(0.0, base, right, top)))
        title = sticks[layout.stock_id].name(layout.copy)
        shapes.append((REFERENCE.name, Note(0.0, top + high, high, plain_ascii(title))))
        at = 0
        for number, lane in enumerate(layout.lanes, start=1):
            low, above = base + ticks_to_mm(at), base + ticks_to_mm(at + lane.width)
            for part in lane.pieces:
                start, end = ticks_to_mm(part.start), ticks_to_mm(part.start + part.length)
                name = names[layout.stock_id, layout.copy, number, part.start]
                shapes.append((PARTS.name, _rectangle(start, low, end, above)))
                shapes.append((REFERENCE.name, _label(name, start, low, end, above, high)))
            at += lane.width + kerf
        base = top + _ROOM * high
    shapes += _notes(plan, base, high)
    return View(
        name="sheets",
        title=plan.job.info.title,
        shapes=tuple(shapes),
        layers=(PARTS, SHEETS, REFERENCE),
        nominal=((SHEETS.name, (0.0, 0.0, box[2], base - _ROOM * high)),),
    )


def _rectangle(x0: float, y0: float, x1: float, y1: float) -> Loop:
    return Loop(((x0, y0, 0.0), (x1, y0, 0.0), (x1, y1, 0.0), (x0, y1, 0.0)))


def _label(name: str, x0: float, y0: float, x1: float, y1: float, high: float) -> Note:
    """Name in the middle of a part, no higher than the part allows."""
    size = min(high, (y1 - y0) / 2, (x1 - x0) / max(4, len(name)))
    return Note((x0 + x1) / 2, (y0 + y1 - size) / 2, size, plain_ascii(name), "middle")


def _notes(plan: ShapedPlan, base: float, high: float) -> Iterator[tuple[str, Shape]]:
    lines = (
        plan.job.info.title,
        f"plan {plan.code}",
        "each sheet: rip from its lower edge, crosscut from the left end",
    )
    for number, line in enumerate(reversed(lines)):
        yield REFERENCE.name, Note(0.0, base + 2 * number * high, high, plain_ascii(line))
