"""Scale bar and unit note that every drawing file carries, outside the part, on the reference layer."""

from __future__ import annotations

from typing import Final, Literal

from edgewright.drawing.arcs import box_around
from edgewright.drawing.strokes import plain_parts
from edgewright.drawing.view import Box, Note, Segment, Shape, View

__all__ = ["SCALE_BAR_MM", "lettering_mm", "scale_bar", "view_box"]

FileUnits = Literal["in", "mm"]

#: Length of the scale bar: 4 in = 101.6 mm exactly.
SCALE_BAR_MM: Final[dict[FileUnits, float]] = {"in": 101.6, "mm": 100.0}
_BAR_TEXT: Final[dict[FileUnits, str]] = {"in": "4 in", "mm": "100 mm"}
_UNIT_TEXT: Final[dict[FileUnits, str]] = {
    "in": "1 drawing unit = 1 inch",
    "mm": "1 drawing unit = 1 millimetre",
}


def view_box(view: View) -> Box:
    """Box around all lines and the anchors of all notes of a view that has at least one shape (mm)."""
    return box_around(part for _, shape in view.shapes for part in plain_parts(shape))


def lettering_mm(box: Box) -> float:
    """Lettering height that can be read with the whole drawing on one sheet: 1/80 of its longer side (mm)."""
    return max(box[2] - box[0], box[3] - box[1], SCALE_BAR_MM["mm"]) / 80


def scale_bar(box: Box, units: FileUnits) -> tuple[Shape, ...]:
    """Scale bar and unit note below the box (mm); measuring the bar shows that the file came in right."""
    h, length = lettering_mm(box), SCALE_BAR_MM[units]
    x, y = box[0], box[1] - 3 * h
    return (
        Segment(x, y, x + length, y),
        Segment(x, y - h / 2, x, y + h / 2),
        Segment(x + length, y - h / 2, x + length, y + h / 2),
        Note(x, y - 2 * h, h, f"this bar is {_BAR_TEXT[units]} long"),
        Note(x, y - 4 * h, h, _UNIT_TEXT[units]),
    )
