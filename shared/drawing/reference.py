"""Scale bar and unit note that every drawing file carries, outside the part, on the reference layer."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final, Literal

from edgewright.drawing.arcs import box_around
from edgewright.drawing.layers import REFERENCE
from edgewright.drawing.plain_ascii import plain_ascii
from edgewright.drawing.strokes import plain_parts
from edgewright.drawing.view import Box, Note, Segment, Shape, View

__all__ = [
    "SCALE_BAR_MM",
    "UNIT_MM",
    "FileUnits",
    "lettering_mm",
    "name_inside",
    "notes_above",
    "scale_bar",
    "view_box",
]

FileUnits = Literal["in", "mm"]

#: Millimetres of one drawing unit.
UNIT_MM: Final[dict[FileUnits, float]] = {"in": 25.4, "mm": 1.0}
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


def notes_above(box: Box, lines: Sequence[str]) -> Iterator[tuple[str, Shape]]:
    """Lines of text above the box (mm), on the reference layer, the first one highest."""
    h = lettering_mm(box)
    for row, line in enumerate(reversed(lines)):
        yield REFERENCE.name, Note(box[0], box[3] + (2 + 2 * row) * h, h, plain_ascii(line))


def name_inside(name: str, box: Box, largest_mm: float) -> tuple[str, Shape]:
    """Name in the middle of a part, on the reference layer, no higher than the part allows."""
    x0, y0, x1, y1 = box
    size = min(largest_mm, (y1 - y0) / 2, (x1 - x0) / max(4, len(name)))
    return REFERENCE.name, Note((x0 + x1) / 2, (y0 + y1 - size) / 2, size, plain_ascii(name), "middle")


def scale_bar(box: Box, units: FileUnits, lines: Sequence[str] = ()) -> tuple[Shape, ...]:
    """Scale bar, unit note and more lines below the box (mm); measuring the bar shows that the file came in right."""
    h, length = lettering_mm(box), SCALE_BAR_MM[units]
    x, y = box[0], box[1] - 3 * h
    return (
        Segment(x, y, x + length, y),
        Segment(x, y - h / 2, x, y + h / 2),
        Segment(x + length, y - h / 2, x + length, y + h / 2),
        Note(x, y - 2 * h, h, f"this bar is {_BAR_TEXT[units]} long"),
        *(Note(x, y - (4 + 2 * row) * h, h, text) for row, text in enumerate((_UNIT_TEXT[units], *lines))),
    )
