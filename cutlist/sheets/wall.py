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
from edgewright.drawing.paper import THIN, PaperBox, Pen

__all__ = [
    "BENCH",
    "CAPS",
    "GAP",
    "HEADER",
    "HEADER_ROOM",
    "LEAST_CAP",
    "LINE",
    "PAGE",
    "TICK",
    "bench_lines",
    "column_heads",
    "row_rule",
    "size_of_cap",
    "tick_box",
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

#: Distance of the lines beside a main figure, of the size of the type.
LINE: Final = 1.25
#: Size of the type over the columns of a list, and the room that it takes with the rule below, mm.
HEADER: Final = 4.0
HEADER_ROOM: Final = HEADER + 2.4
#: Side of a box to tick, and air between columns, mm.
TICK: Final = 6.0
GAP: Final = 6.0

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


def column_heads(pen: Pen, y: float, lefts: Sequence[float], heads: Sequence[str], width: float) -> float:
    """Write the names of the columns below ``y`` and rule them off; returns the y of the rule (mm)."""
    for left, head in zip(lefts, heads, strict=True):
        pen.text(left, y - HEADER, HEADER, head)
    return row_rule(pen, y - HEADER_ROOM, width)


def row_rule(pen: Pen, y: float, width: float) -> float:
    """Rule off a row of a list at ``y``; returns that (mm)."""
    pen.line(THIN, (0.2, y), (width - 0.2, y))
    return y


def tick_box(pen: Pen, x: float, middle: float) -> None:
    """Draw a box to tick from ``x`` on, about the middle of its row (mm)."""
    pen.box(THIN, x, middle - TICK / 2, x + TICK, middle + TICK / 2)


def bench_lines(pen: Pen, x: float, middle: float, lines: Sequence[str]) -> None:
    """Write lines that are read at arm's length, about the middle of their row (mm)."""
    pitch = BENCH * LINE
    pen.lines_of_text(x, middle + len(lines) * pitch / 2 - 0.1 * BENCH, BENCH, lines, pitch)
