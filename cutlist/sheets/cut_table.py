"""Table of the cuts through the panel: keep line, guide, what comes off with a box to tick."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
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
from edgewright.cutlist.shown_cuts import shown_cut
from edgewright.cutlist.trial_cut import ENOUGH_TO_STOP, TrialCutQuestion, trial_cut_question
from edgewright.display import show_ticks
from edgewright.drawing.lettering import text_width
from edgewright.drawing.paper import NUMBER_RADIUS, THIN, Pen

__all__ = ["CutTable"]

_CELL: Final = 3.6
_TICK: Final = 3.2
_GAP: Final = 4.0
#: A box to write a measured figure in, mm.
_ANSWER: Final = 22.0
#: Which column has the box to tick.
_OFFCUT: Final = 3


@dataclass(frozen=True, slots=True)
class _Blanks:
    """A row of texts, each with a box behind it to write a figure in."""

    texts: tuple[str, ...]

    @property
    def width(self) -> float:
        return sum(text_width(text, SMALL) + 1.0 + _ANSWER + _GAP for text in self.texts)

    def draw(self, pen: Pen, y: float) -> None:
        x = 0.5
        for text in self.texts:
            pen.text(x, y, SMALL, text)
            x += text_width(text, SMALL) + 1.0
            pen.box(THIN, x, y - 1.0, x + _ANSWER, y + ROW - 2.0)
            x += _ANSWER + _GAP


def _blank_rows(asked: TrialCutQuestion, width: float) -> Iterator[_Blanks]:
    """One row where the box is wide enough, else one for each figure."""
    first, *more = (f"{name}, planned {figure}, measured" for name, figure in asked.planned)
    texts = (f"Before cut {asked.cut}, by test cut: {first}", *more)
    row = _Blanks(texts)
    if row.width <= width:
        yield row
    else:
        yield from (_Blanks((text,)) for text in texts)


class CutTable:
    """The table of some cuts, standing on the bottom of a box of the given width (paper mm)."""

    def __init__(self, plan: Plan, cuts: Sequence[SawCut], box_width: float) -> None:
        self._plan = plan
        self._box_width = box_width
        asked = trial_cut_question(plan)
        self._asked = asked if asked is not None and any(cut.number == asked.cut for cut in cuts) else None
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
        ) + (f" {ENOUGH_TO_STOP}" if self._asked else "")

    def _row_texts(self, cuts: Sequence[SawCut]) -> Iterator[tuple[str, ...] | str | _Blanks]:
        """Cells of each cut; a sentence where the datum hands over; blanks where measured figures are asked for."""
        units = self._plan.job.units
        handed: set[Side] = set()
        for cut in cuts:
            if self._asked is not None and cut.number == self._asked.cut:
                yield from _blank_rows(self._asked, self._box_width)
            if cut.datum_edge == "fresh" and cut.datum not in handed:
                handed.add(cut.datum)
                yield f"From here measure from the fresh {cut.datum} edge: the old one is cut off."
            shown = shown_cut(cut, units)
            size, gives = "all of it is dust", ""
            if shown.width:
                wide = shown.width.removesuffix(f" {units}")
                size = f"{wide} × {show_ticks(cut.offcut_length_ticks, units)}"
                gives = cut.yields or ""
            yield str(cut.number), f"{letter(cut.datum)} {shown.keep}", shown.guide, size, gives

    def _headers(self) -> tuple[str, ...]:
        side = self._plan.cut_plan.rules.guide_side
        return "cut", "keep line from", f"guide at ({side} side)", "comes off (tick)", "gives"

    def _column_widths(self) -> list[float]:
        cells = [row for row in self._rows if not isinstance(row, str | _Blanks)]
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
            elif isinstance(row, _Blanks):
                row.draw(pen, y)
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
