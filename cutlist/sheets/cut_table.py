"""Table of the cuts through the panel: keep line, guide, what comes off with a box to tick."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from edgewright.compass import Side
from edgewright.cutlist.model import SawCut
from edgewright.cutlist.plan import Plan
from edgewright.cutlist.sheets.common import (
    ROW,
    SMALL,
    letter,
    paragraph,
    paragraph_height,
    widest,
)
from edgewright.display import marked_run, show_ticks
from edgewright.drawing.paper import NUMBER_RADIUS, THIN, Pen

__all__ = ["CutTable"]

_CELL: Final = 3.6
_TICK: Final = 3.2
_GAP: Final = 4.0
#: Which column has the box to tick.
_OFFCUT: Final = 3


class CutTable:
    """The table of some cuts, standing on the bottom of a box of the given width (paper mm)."""

    def __init__(self, plan: Plan, cuts: Sequence[SawCut], box_width: float) -> None:
        self._plan = plan
        self._box_width = box_width
        self._rows = list(self._row_texts(cuts))
        self._columns = self._column_widths()

    @property
    def width(self) -> float:
        """Paper width of all columns."""
        return sum(self._columns)

    @property
    def height(self) -> float:
        """Paper height with the line that explains the guide."""
        return (len(self._rows) + 1) * ROW + paragraph_height(self._legend(), self._box_width) + 2.6

    def _legend(self) -> str:
        rules, saw = self._plan.cut_plan.rules, self._plan.job.saw
        offset = show_ticks(rules.guide_offset_ticks, self._plan.job.units)
        return (
            f"Dash-dot: edge of the guide, on the {rules.guide_side} side; {saw.shoe_side} side of the shoe, "
            f"{offset} from guide to kerf."
        )

    def _row_texts(self, cuts: Sequence[SawCut]) -> Iterator[tuple[str, ...] | str]:
        """Cells of each cut; a sentence where the datum hands over."""
        units = self._plan.job.units
        handed: set[Side] = set()
        for cut in cuts:
            if cut.datum_edge == "fresh" and cut.datum not in handed:
                handed.add(cut.datum)
                yield f"From here measure from the fresh {cut.datum} edge: the old one is cut off."
            size, gives = "all of it is dust", ""
            if cut.offcut_width_ticks:
                _, widths = marked_run([cut.keep_ticks, cut.kerf_end_ticks, cut.panel_before_ticks], units)
                wide = widths[1].removesuffix(f" {units}")
                size = f"{wide} × {show_ticks(cut.offcut_length_ticks, units)}"
                gives = cut.yields or ""
            keep, guide = show_ticks(cut.keep_ticks, units), show_ticks(cut.guide_ticks, units)
            yield str(cut.number), f"{letter(cut.datum)} {keep}", guide, size, gives

    def _headers(self) -> tuple[str, ...]:
        side = self._plan.cut_plan.rules.guide_side
        return "cut", "keep line from", f"guide at ({side} side)", "comes off (tick)", "gives"

    def _column_widths(self) -> list[float]:
        cells = [row for row in self._rows if not isinstance(row, str)]
        widths = []
        for index, header in enumerate(self._headers()):
            column = widest([row[index] for row in cells], _CELL)
            extra = _TICK + 1.5 if index == _OFFCUT else 0.0
            widths.append(max(column + extra, widest([header], SMALL), 2 * NUMBER_RADIUS) + _GAP)
        return widths

    def draw(self, pen: Pen) -> float:
        """Write the table; returns the y above it (paper mm)."""
        lefts = [sum(self._columns[:index]) + 0.5 for index in range(len(self._columns))]
        y = self.height - ROW + 1.5
        for left, header in zip(lefts, self._headers(), strict=True):
            pen.text(left, y, SMALL, header)
        pen.line(THIN, (0.2, y - 1.5), (self.width, y - 1.5))
        for row in self._rows:
            y -= ROW
            if isinstance(row, str):
                pen.text(0.5, y, SMALL, row)
            else:
                self._draw_row(pen, lefts, y, row)
            pen.line(THIN, (0.2, y - 1.5), (self.width, y - 1.5))
        paragraph(pen, 0, y - 2.6, self._legend(), self._box_width)
        return self.height

    def _draw_row(self, pen: Pen, lefts: Sequence[float], y: float, row: tuple[str, ...]) -> None:
        pen.number(lefts[0] + NUMBER_RADIUS, y + 1.5, int(row[0]))
        for index in (1, 2, 4):
            if row[index]:
                pen.text(lefts[index], y, _CELL, row[index])
        x = lefts[_OFFCUT]
        pen.box(THIN, x, y - 0.3, x + _TICK, y - 0.3 + _TICK)
        pen.text(x + _TICK + 1.5, y, _CELL, row[_OFFCUT])
