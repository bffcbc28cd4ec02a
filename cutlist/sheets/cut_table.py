"""Table of the cuts through the panel, read from two metres: keep line, guide, what comes off with a box to tick."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import groupby
from typing import Final

from edgewright.cutlist.model import SawCut
from edgewright.cutlist.plan import Plan
from edgewright.cutlist.sheets.common import paragraph, paragraph_height, widest
from edgewright.cutlist.sheets.wall import (
    BENCH,
    GAP,
    HEADER,
    HEADER_ROOM,
    LINE,
    TICK,
    bench_lines,
    column_heads,
    row_rule,
    size_of_cap,
    tick_box,
    wall_fit,
)
from edgewright.cutlist.shown_cuts import shown_cut
from edgewright.cutlist.trial_cut import ENOUGH_TO_STOP, TrialCutQuestion, trial_cut_question
from edgewright.display import show_ticks
from edgewright.drawing.lettering import DESCENT, text_width, wrapped
from edgewright.drawing.paper import THIN, Pen

__all__ = ["CutTable", "datum_words"]

#: Air above and below what stands in a row, mm.
_AIR: Final = 1.8
#: Radius of a cut's number, of the height of capitals.
_ROUND: Final = 0.62
#: Least width of what comes off, and the box to write a measured figure in, mm.
_COMES_OFF: Final = 44.0
_ANSWER: Final = 24.0
_ANSWER_HIGH: Final = 8.0


def datum_words(cut: SawCut) -> str:
    """What a cut is measured from, in capitals."""
    return f"FROM {cut.datum_edge} {cut.datum} edge".upper()


@dataclass(frozen=True, slots=True)
class _Datum:
    """A line across the table: what the cuts below are measured from, and why if that is new."""

    words: str
    why: str


@dataclass(frozen=True, slots=True)
class _Blanks:
    """Texts, each with a box behind it to write a figure in."""

    texts: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Cut:
    """A row of the table: number, keep line and guide, and the lines beside the box to tick."""

    number: int
    keep: str
    guide: str
    comes_off: str


class CutTable:
    """The table of some cuts, standing on the bottom of a box.

    Parameters
    ----------
    box_width
        Paper width that it takes up, mm.
    cap
        Height of the capitals of its main figures, mm.
    """

    def __init__(self, plan: Plan, cuts: Sequence[SawCut], box_width: float, cap: float) -> None:
        self._plan, self._box_width, self._cap = plan, box_width, cap
        asked = trial_cut_question(plan)
        self._asked = asked if asked is not None and any(cut.number == asked.cut for cut in cuts) else None
        self._rows = list(self._row_texts(cuts))

    @cached_property
    def _columns(self) -> list[float]:
        """Where number, keep line, guide and what comes off begin, and where the last column ends."""
        size = size_of_cap(self._cap)
        cuts = [row for row in self._rows if isinstance(row, _Cut)]
        keep = max(widest([row.keep for row in cuts], size), text_width(self._headers[1], HEADER)) + GAP
        guide = max(widest([row.guide for row in cuts], size), text_width(self._headers[2], HEADER)) + GAP
        first = 2 * _ROUND * self._cap + 5.0
        # what the words beside the box to tick leave of the width sets the figures further apart
        words = widest([part for row in cuts for part in row.comes_off.split("\n")], BENCH)
        beside = min(max(words + TICK + 3.0, _COMES_OFF), _COMES_OFF + 14.0)
        more = max(0.0, (self._box_width - first - keep - guide - beside) / 2)
        return [0.3, first, first + keep + more, first + keep + guide + 2 * more, self._box_width]

    @property
    def fits(self) -> bool:
        """Whether what comes off has room beside the main figures."""
        return self._columns[-1] - self._columns[-2] >= _COMES_OFF

    @property
    def height(self) -> float:
        """Paper height with the lines that explain it (mm)."""
        legend = paragraph_height(self._legend(), self._box_width)
        return HEADER_ROOM + sum(self._height_of(row) for row in self._rows) + legend + 1.5

    def _height_of(self, row: _Cut | _Datum | _Blanks) -> float:
        if isinstance(row, _Datum):
            why = paragraph_height(row.why, self._box_width, BENCH) if row.why else 0.0
            return self._datum_size(row) * (0.94 if why else 0.73) + why + 2 * _AIR - (1.5 if why else 0.0)
        if isinstance(row, _Blanks):
            return _ANSWER_HIGH + 2.4
        beside = len(self._beside(row)) * BENCH * LINE
        figures = self._cap + 2 * DESCENT * size_of_cap(self._cap)
        return max(figures, beside + 2 * _AIR, 2 * _ROUND * self._cap + 1.0)

    def _datum_size(self, row: _Datum) -> float:
        return wall_fit(row.words, self._box_width - 1, self._cap)

    def _beside(self, row: _Cut) -> list[str]:
        room = self._columns[-1] - self._columns[-2] - TICK - 2.5
        return wrapped(row.comes_off, BENCH, room)

    # what is written

    @property
    def _headers(self) -> tuple[str, ...]:
        units, side = self._plan.job.units, self._plan.cut_plan.rules.guide_side
        return "cut", f"KEEP line, {units}", f"GUIDE, {units} ({side} side)", "comes off"

    def _legend(self) -> str:
        rules, saw = self._plan.cut_plan.rules, self._plan.job.saw
        offset = show_ticks(rules.guide_offset_ticks, self._plan.job.units)
        return (
            f"Dash-dot: edge of the guide, on the {rules.guide_side} side; {saw.shoe_side} side of the shoe, "
            f"{offset} from guide to kerf. Kerfs are hatched and to scale; the sheet TEST CUT shows one enlarged."
        ) + (f" {ENOUGH_TO_STOP}" if self._asked else "")

    def _row_texts(self, cuts: Sequence[SawCut]) -> Iterator[_Cut | _Datum | _Blanks]:
        """Where to measure from, then the cuts; blanks before the cut at which measured figures are asked for."""
        units = self._plan.job.units
        for (datum, edge), run in groupby(cuts, key=lambda cut: (cut.datum, cut.datum_edge)):
            here = list(run)
            if self._asked is not None and here[0].number == self._asked.cut:
                yield from self._blank_rows(self._asked)
            fresh = f"From here measure from the fresh {datum} edge: the old one is cut off."
            yield _Datum(datum_words(here[0]), fresh if edge == "fresh" else "")
            for cut in here:
                if self._asked is not None and cut.number == self._asked.cut != here[0].number:
                    yield from self._blank_rows(self._asked)
                shown = shown_cut(cut, units)
                keep, guide = (text.removesuffix(f" {units}") for text in (shown.keep, shown.guide))
                yield _Cut(cut.number, keep, guide, self._comes_off(cut))

    def _comes_off(self, cut: SawCut) -> str:
        units = self._plan.job.units
        shown = shown_cut(cut, units)
        if not shown.width:
            return "all of it is dust"
        wide = shown.width.removesuffix(f" {units}")
        size = f"{wide} × {show_ticks(cut.offcut_length_ticks, units)}"
        return f"{size}\n{cut.yields}" if cut.yields else size

    def _blank_rows(self, asked: TrialCutQuestion) -> Iterator[_Blanks]:
        """One row where the box is wide enough, else one for each figure."""
        first, *more = (f"{name} {figure}, measured" for name, figure in asked.planned)
        texts = (f"TEST CUT before cut {asked.cut}: {first}", *more)
        wide = sum(text_width(text, BENCH) + 1.5 + _ANSWER + GAP for text in texts) - GAP
        if wide <= self._box_width:
            yield _Blanks(texts)
        else:
            yield from (_Blanks((text,)) for text in texts)

    # drawing

    def draw(self, pen: Pen, spare: float = 0.0) -> float:
        """Write the table; returns the y above it (mm).

        Parameters
        ----------
        spare
            Height that the rows of cuts may share to stand further apart, mm.
        """
        cuts = sum(isinstance(row, _Cut) for row in self._rows)
        # twice the height of the figures is far enough
        more = min(spare / cuts, self._cap)
        top = y = self.height + more * cuts
        y = column_heads(pen, y, self._columns[:-1], self._headers, self._box_width)
        for row in self._rows:
            high = self._height_of(row)
            if isinstance(row, _Datum):
                self._draw_datum(pen, y, row)
            elif isinstance(row, _Blanks):
                _draw_blanks(pen, y, row)
            else:
                high += more
                self._draw_cut(pen, y - high / 2, row)
            y = row_rule(pen, y - high, self._box_width)
        paragraph(pen, 0, y - 0.8, self._legend(), self._box_width)
        return top

    def _draw_datum(self, pen: Pen, y: float, row: _Datum) -> None:
        size = self._datum_size(row)
        base = y - _AIR - 0.73 * size
        pen.text(0.3, base, size, row.words)
        if row.why:
            paragraph(pen, 0.3, base - 0.21 * size, row.why, self._box_width, BENCH)

    def _draw_cut(self, pen: Pen, middle: float, row: _Cut) -> None:
        lefts, size, radius = self._columns, size_of_cap(self._cap), _ROUND * self._cap
        pen.number(lefts[0] + radius, middle, row.number, radius)
        pen.text(lefts[1], middle - self._cap / 2, size, row.keep)
        pen.text(lefts[2], middle - self._cap / 2, size, row.guide)
        x = lefts[3]
        tick_box(pen, x, middle)
        bench_lines(pen, x + TICK + 2.5, middle, self._beside(row))


def _draw_blanks(pen: Pen, y: float, row: _Blanks) -> None:
    x = 0.3
    for text in row.texts:
        pen.text(x, y - 1.2 - _ANSWER_HIGH / 2 - 0.365 * BENCH, BENCH, text)
        x += text_width(text, BENCH) + 1.5
        pen.box(THIN, x, y - 1.2 - _ANSWER_HIGH, x + _ANSWER, y - 1.2)
        x += _ANSWER + GAP
