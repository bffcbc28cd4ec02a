"""One strip drawn as a bar: wood, kerfs and the labels above and below it."""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from edgewright.cutlist.bench_cuts import BY_HAND, CrossCut
from edgewright.cutlist.cut_view import lane_shape
from edgewright.cutlist.model import DefectBox, Lane, Piece, Stick
from edgewright.cutlist.plan import Plan
from edgewright.cutlist.sheets.common import paragraph, paragraph_height
from edgewright.cutlist.sheets.defect_marks import defect_words
from edgewright.cutlist.sheets.strip_defects import strip_defects, strip_start
from edgewright.cutlist.shown_lanes import kerf_words, shown_lane, stop_text
from edgewright.display import show_ticks
from edgewright.drawing.lettering import ASCENT, text_width
from edgewright.drawing.paper import HATCHING, PANEL, THIN, Pen, Point, spread
from edgewright.ticks import ticks_to_mm

__all__ = ["BAR_MARGIN", "StripBar"]

_NAME: Final = 4.6
_LABEL: Final = 5.0
_NAMES: Final = 7.5
_STOPS: Final = 9.6
_GAP: Final = 5.0
#: Side of the box to tick beside a stop (mm).
_TICK: Final = 4.0
#: A defect is drawn at least so wide (paper mm).
_LEAST: Final = 0.8
#: Room at the ends of the bars for labels that are wider than their piece (paper mm).
BAR_MARGIN: Final = 2.0


@dataclass(frozen=True, slots=True)
class _Mark:
    """A label above or below a bar, for a place on it in ticks from the squared start; a cut has a box to tick."""

    at: float
    text: str
    ticked: bool = False

    @property
    def wide(self) -> float:
        """Paper width with the box to tick."""
        return text_width(self.text, _LABEL) + (_TICK + 1.2 if self.ticked else 0.0)


class StripBar:
    """One strip with its labels."""

    def __init__(self, plan: Plan, stick: Stick, lane: Lane, width: float, scale: float) -> None:
        self._plan, self._lane, self._scale, self._width = plan, lane, scale, width
        units = plan.job.units
        self._pieces = sorted(
            (p for p in plan.cut_plan.pieces if p.lane_id == lane.id), key=lambda p: p.lane_start_ticks
        )
        # what lies before a later lane of its strip is another lane and its defect
        self._later = next(other for other in stick.lanes if other.strip == lane.strip).id != lane.id
        self._shown = shown_lane(plan.cut_plan, lane, units)
        self._cuts = [cut for cut in plan.crosscuts if cut.lane_id == lane.id]
        across = show_ticks(lane.width_ticks, units, unit=False)
        size = f"{across} × {show_ticks(lane.length_ticks, units)}"
        clean = " between clean ends" if lane.trim_start_ticks or lane.trim_end_ticks else ""
        rip = next((r for r in plan.rips if r.lane_id == lane.strip), None)
        # a loose strip counts to the offcut of its side, but it is ripped by its own name
        board = "" if rip is None else f"the {rip.stick_id}" if stick.side else stick.name
        fence = f"; rip from {board} with the fence at {show_ticks(rip.fence_ticks, units)}" if rip else ""
        notes = [f"{lane.id}: {size}{clean}{fence}."]
        ids = self._fit(self._names(full=True)) or self._fit(self._names(full=False))
        stops = list(
            {
                cut.stop_ticks: cut for cut in self._cuts if cut.piece_id is not None and cut.end == "end"
            }.values()
        )
        above = self._fit([self._stop(cut) for cut in stops if cut.turned])
        below = self._fit([*self._start(), *(self._stop(cut) for cut in stops if not cut.turned)])
        if ids is None or above is None or below is None:
            notes.append(self._spelled(stops))
        self._ids, self._above, self._below = ids or [], above or [], below or []
        self._defects = strip_defects(plan.cut_plan, stick, lane)
        notes += [
            f"{words.capitalize()}."
            for words in kerf_words(self._shown, plan.cut_plan.rules.kerf_ticks, units)
        ]
        if self._defects:
            notes.append(f"Framed, from the {strip_start(stick)}: {self._defect_words()}.")
        self._notes = notes

    # what is written

    def _names(self, *, full: bool) -> list[_Mark]:
        units = self._plan.job.units
        marks = []
        for piece in self._pieces:
            middle = piece.lane_start_ticks + piece.length_ticks / 2
            turned = ", turned" if piece.turned else ""
            text = f"{piece.id} {show_ticks(piece.length_ticks, units)}{turned}" if full else piece.id
            marks.append(_Mark(middle, text))
        rest = self._shown.rest
        if rest is not None:
            text = f"rest {rest.text(units)}" if full else "rest"
            marks.append(_Mark((rest.start + rest.end) / 2, text))
        return sorted(marks, key=lambda mark: mark.at)

    def _stop(self, cut: CrossCut) -> _Mark:
        star = "" if cut.held == BY_HAND else " *"
        return _Mark(cut.stop_ticks, f"{stop_text(self._shown, cut, self._plan.job.units)}{star}", True)

    def _start(self) -> list[_Mark]:
        if not self._lane.trim_start_ticks:
            return []
        off = show_ticks(self._lane.trim_start_ticks, self._plan.job.units)
        squaring = next((cut for cut in self._cuts if cut.piece_id is None), None)
        star = " *" if squaring is not None and squaring.held != BY_HAND else ""
        end = f"{squaring.raw_end if squaring else 'start'} end"
        words = f"part {off} from the {end}" if self._later else f"{end}: square {off} off"
        return [_Mark(0, f"{words}{star}", True)]

    def _spelled(self, stops: Sequence[CrossCut]) -> str:
        """All pieces in words, for a bar that is too crowded for labels."""
        units = self._plan.job.units
        words = [
            f"{cut.piece_id} {show_ticks(cut.length_ticks, units)}, stop {self._stop(cut).text}"
            for cut in stops
        ]
        done = {cut.piece_id for cut in stops}
        words += [f"{p.id} {show_ticks(p.length_ticks, units)}" for p in self._pieces if p.id not in done]
        return "; ".join(words)

    def _defect_words(self) -> str:
        units = self._plan.job.units
        return "; ".join(
            f"{defect_words(box)}, {show_ticks(start, units)} to {show_ticks(end, units)}"
            for box, start, end in self._defects
        )

    # where it stands

    def _x(self, ticks: float) -> float:
        return BAR_MARGIN + ticks_to_mm(1) * (ticks + self._lane.trim_start_ticks) / self._scale

    def _fit(self, marks: Sequence[_Mark]) -> list[tuple[_Mark, float]] | None:
        """Marks with the paper x of their middles; None where they do not fit side by side."""
        sizes = [mark.wide + 3 for mark in marks]
        ordered = sorted(range(len(marks)), key=lambda i: marks[i].at)
        centres = spread(
            [self._x(marks[i].at) for i in ordered], [sizes[i] for i in ordered], -1.3, self._width + 1.3
        )
        if centres is None:
            return None
        return [(marks[i], centre) for i, centre in zip(ordered, centres, strict=True)]

    @property
    def _bar(self) -> float:
        return ticks_to_mm(self._lane.width_ticks) / self._scale

    @property
    def _above_bar(self) -> float:
        return (_NAMES if self._ids else 0.0) + (_STOPS if self._above else 0.0)

    @property
    def height(self) -> float:
        """Paper height, the gap below included (mm)."""
        title = paragraph_height(self._notes[0], self._width, _NAME)
        notes = sum(paragraph_height(note, self._width) for note in self._notes[1:])
        return title + self._above_bar + (_STOPS if self._below else 0.0) + self._bar + notes + _GAP

    # drawing

    def draw(self, pen: Pen, top: float) -> float:
        """Draw below ``top``; returns the y below (mm)."""
        y = paragraph(pen, 0, top, self._notes[0], self._width, _NAME)
        y -= self._above_bar
        high, low = y, y - self._bar
        self._wood(pen, low)
        base = high
        for row in (self._above, self._ids):
            if row:
                self._row(pen, row, base, 1.0, high)
                base += _STOPS
        y = low
        if self._below:
            self._row(pen, self._below, low, -1.0, low)
            y -= _STOPS
        for note in self._notes[1:]:
            y = paragraph(pen, 0, y, note, self._width)
        return y - _GAP

    def _row(self, pen: Pen, row: Sequence[tuple[_Mark, float]], base: float, up: float, edge: float) -> None:
        """Write a row of labels above (up = 1) or below the bar, each on a leader."""
        names = row is self._ids
        for mark, centre in row:
            x = self._x(mark.at)
            if names:
                # a name hangs over its piece and points to it only where it was pushed aside
                pen.text(centre, base + 2.2, _LABEL, mark.text, "middle")
                if abs(centre - x) > 2 and not self._above:
                    pen.line(THIN, (centre, base + 1.4), (x, edge))
                continue
            bend = base + up * 2.8
            pen.line(THIN, (x, edge), (x, edge + up * 1.2), (centre, bend))
            y, left = bend + (0.9 if up > 0 else -0.9 - ASCENT * _LABEL), centre - mark.wide / 2
            if mark.ticked:
                pen.box(THIN, left, y - 0.1, left + _TICK, y - 0.1 + _TICK)
            pen.text(left + (_TICK + 1.2 if mark.ticked else 0.0), y, _LABEL, mark.text)

    def _wood(self, pen: Pen, low: float) -> None:
        lane, high = self._lane, low + self._bar
        ends = -lane.trim_start_ticks, lane.length_ticks + lane.trim_end_ticks
        pen.box(PANEL, self._x(ends[0]), low, self._x(ends[1]), high)
        for start, end in ((ends[0], 0), (lane.length_ticks, ends[1])):
            if end > start:
                self._hatched(pen, ((start, low), (end, low), (end, high), (start, high)), 135)
        for box, start, end in self._defects:
            self._defect(
                pen, self._x(start - lane.trim_start_ticks), self._x(end - lane.trim_start_ticks), low, box
            )
        shapes = [self._points(piece, low) for piece in self._pieces]
        for shape in shapes:
            pen.outline(PANEL, [(self._x(t), y) for t, y in shape])
        for before, after in itertools.pairwise(shapes):
            self._hatched(pen, (before[1], after[0], after[3], before[2]), 45)
        self._last_kerf(pen, shapes[-1], low, high)
        pen.running((self._x(0), low), ())

    def _defect(self, pen: Pen, left: float, right: float, low: float, box: DefectBox) -> None:
        """A defect right across the bar, crossed where it is metal; wide enough to be seen."""
        more = max(0.0, _LEAST - (right - left)) / 2
        left, right, high = left - more, right + more, low + self._bar
        pen.box(PANEL, left, low, right, high)
        if box.metal:
            pen.line(PANEL, (left, low), (right, high))
            pen.line(PANEL, (left, high), (right, low))

    def _points(self, piece: Piece, low: float) -> list[Point]:
        """Corners of a piece: ticks along the bar and paper y, inner edge first."""
        wide = self._lane.width_ticks
        return [(along, low + self._bar * across / wide) for along, across in lane_shape(piece, wide)]

    def _last_kerf(self, pen: Pen, last: Sequence[Point], low: float, high: float) -> None:
        """Kerf behind the last piece, as far as there is wood."""
        rules, end = self._plan.cut_plan.rules, self._lane.length_ticks
        kerf = rules.kerf_ticks if last[1][0] == last[2][0] else rules.mitre_kerf_ticks
        far = [(min(t + kerf, end), y) for t, y in (last[1], last[2])]
        if max(far[0][0] - last[1][0], far[1][0] - last[2][0]) > 0:
            self._hatched(pen, (last[1], far[0], far[1], last[2]), 45)
            if max(far)[0] < end:
                pen.line(HATCHING, *((self._x(t), y) for t, y in far))

    def _hatched(self, pen: Pen, corners: Sequence[Point], angle: float) -> None:
        points = [(self._x(t), y) for t, y in corners]
        kept = [
            p
            for i, p in enumerate(points)
            if abs(p[0] - points[i - 1][0]) + abs(p[1] - points[i - 1][1]) > 1e-3
        ]
        if len(kept) > 2:
            pen.hatch(kept, angle, 0.8 if angle == 45 else 1.6)
