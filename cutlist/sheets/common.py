"""What all sheets share: heading, table, shown positions and the names of sides on the page."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from edgewright.compass import Side
from edgewright.drawing.lettering import SMALLEST_MM, text_width, wrapped
from edgewright.drawing.paper import PaperBox, Pen
from edgewright.errors import GeometryError

__all__ = [
    "CHALK",
    "FIGURE",
    "HEADING",
    "LEAST_BOX",
    "SMALL",
    "check_box",
    "heading",
    "heading_height",
    "letter",
    "paragraph",
    "paragraph_height",
    "range_words",
    "widest",
]

#: Lettering heights, mm: small print (9 pt), main figures, headings and chalk marks.
SMALL: Final = SMALLEST_MM
FIGURE: Final = 4.2
HEADING: Final = 4.8
CHALK: Final = 5.5
#: The smallest box that a sheet can be drawn in, mm.
LEAST_BOX: Final[PaperBox] = (150.0, 100.0)

_PITCH: Final = 1.35


def check_box(box: PaperBox, least: PaperBox = LEAST_BOX) -> None:
    """Refuse a box that is too small for the lettering."""
    if box[0] < least[0] or box[1] < least[1]:
        raise GeometryError(
            f"the figure's box is {box[0]:g} x {box[1]:g} mm; it must be at least "
            f"{least[0]:g} x {least[1]:g} mm: take larger paper"
        )


def heading_height(box: PaperBox, title: str, lines: Sequence[str]) -> float:
    """Room that `heading` takes (mm)."""
    large = len(wrapped(title, HEADING, box[0])) * HEADING * _PITCH
    return large + sum(paragraph_height(line, box[0]) for line in lines) + 1.5


def heading(pen: Pen, box: PaperBox, title: str, lines: Sequence[str]) -> float:
    """Write title and lines at the top of the box; returns the y below them (mm)."""
    top = pen.lines_of_text(0, box[1], HEADING, wrapped(title, HEADING, box[0]), HEADING * _PITCH)
    for line in lines:
        top = paragraph(pen, 0, top, line, box[0])
    return top - 1.5


def paragraph_height(text: str, width: float, height: float = SMALL) -> float:
    """Room that `paragraph` takes (mm)."""
    return len(wrapped(text, height, width)) * height * _PITCH


def paragraph(pen: Pen, x: float, top: float, text: str, width: float, height: float = SMALL) -> float:
    """Write wrapped text below ``top``; returns the y below it (mm)."""
    return pen.lines_of_text(x, top, height, wrapped(text, height, width), height * _PITCH)


def range_words(first: int, last: int) -> str:
    """Say ``cut 3`` or ``cuts 3 to 5``."""
    return f"cut {first}" if first == last else f"cuts {first} to {last}"


def letter(side: Side) -> str:
    """Chalk mark of a side."""
    return side[0].upper()


def widest(texts: Sequence[str], height: float) -> float:
    """Width of the widest text (mm)."""
    return max((text_width(text, height) for text in texts), default=0.0)
