"""Lettering of the sheets that hang beside the saw and the bench: what is read from two metres.

A capital at the limit of full sight (20/20) is 5 minutes of arc high, one at the limit of 20/40 sight 10 minutes:
2.9 and 5.8 mm at 2 m (computed). Main figures have capitals of 9 to 10 mm, three times what full sight needs, and
never less than 7 mm where a sheet is crowded (common practice, no source).
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from edgewright.cutlist.sheets.common import paragraph, paragraph_height
from edgewright.drawing.lettering import text_width, wrapped
from edgewright.drawing.paper import PaperBox, Pen

__all__ = [
    "BENCH",
    "CAPS",
    "LEAST_CAP",
    "PAGE",
    "size_of_cap",
    "wall_fit",
    "wall_heading",
    "wall_heading_height",
]

#: Heights of capitals and figures of the main figures, largest first, mm.
CAPS: Final = (10.0, 9.0, 8.0, 7.0)
LEAST_CAP: Final = CAPS[-1]
#: Size of the type of what is read at arm's length, mm.
BENCH: Final = 4.6
#: The least page that a wall sheet is drawn on, mm.
PAGE: Final[PaperBox] = (150.0, 200.0)

#: Height of capitals and figures, of the size of the type: 1493 of 2048 units in DejaVu Sans Condensed.
_CAPITAL: Final = 1493 / 2048
_PITCH: Final = 1.2


def size_of_cap(cap: float) -> float:
    """Size of the type whose capitals are ``cap`` mm high."""
    return cap / _CAPITAL


def wall_fit(text: str, width: float, most: float = CAPS[0]) -> float:
    """Size of the type (mm) at which a line fits, capitals of at most ``most`` and at least 7 mm."""
    caps = [cap for cap in CAPS if cap <= most]
    fitting = [cap for cap in caps if text_width(text, size_of_cap(cap)) <= width]
    return size_of_cap(fitting[0] if fitting else LEAST_CAP)


def wall_heading_height(box: PaperBox, big: str, lines: Sequence[str]) -> float:
    """Room that `wall_heading` takes (mm)."""
    size = wall_fit(big, box[0])
    large = len(wrapped(big, size, box[0])) * size * _PITCH
    return large + sum(paragraph_height(line, box[0], BENCH) for line in lines) + 1.5


def wall_heading(pen: Pen, box: PaperBox, big: str, lines: Sequence[str]) -> float:
    """Write what is read from afar, and lines for the bench below; returns the y below them (mm)."""
    size = wall_fit(big, box[0])
    top = pen.lines_of_text(0, box[1], size, wrapped(big, size, box[0]), size * _PITCH)
    for line in lines:
        top = paragraph(pen, 0, top, line, box[0], BENCH)
    return top - 1.5
