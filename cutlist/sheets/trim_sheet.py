"""Cut sheet: the panel as it lies on the bench, datum edge, keep lines, kerfs, guide positions, tick boxes.

A page to tape beside the saw: the drawing above, below it a table whose figures are read from two metres.

The saw is hand-guided, so the top lies face down and west and east trade places on the page; chalk marks stand
at the sides. Every position is measured from a thick edge. Rips come first, then crosscuts on the panel as it
then is; when a figure has no room for all cuts of one kind, the next figure goes on with them.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby
from typing import Final

from edgewright.compass import OPPOSITE, Side, is_lengthwise
from edgewright.cutlist.model import SawCut
from edgewright.cutlist.plan import Plan
from edgewright.cutlist.sheets.chalk import LARGE_CHALK, chalk_marks
from edgewright.cutlist.sheets.common import check_box, range_words
from edgewright.cutlist.sheets.cut_labels import CutLabels, Label
from edgewright.cutlist.sheets.cut_table import CutTable
from edgewright.cutlist.sheets.defect_marks import defect_marks
from edgewright.cutlist.sheets.panel import PanelFrame, PlacedCut, after_cut, draw_panel
from edgewright.cutlist.sheets.wall import CAPS, PAGE, wall_heading, wall_heading_height
from edgewright.display import show_ticks
from edgewright.drawing.paper import (
    DATUM,
    HATCHING,
    KEEP,
    SCALES,
    PaperBox,
    Pen,
    Point,
    pick_scale,
    scale_text,
)
from edgewright.drawing.view import View
from edgewright.ticks import ticks_to_mm

__all__ = ["trim_figures"]

#: With all cuts of a figure the panel is drawn at most so much smaller than with one, and with large figures in the
#: table than with small ones.
_SMALLER: Final = 1.7
_FOR_FIGURES: Final = 1.35
#: Air above and below the picture, both together (paper mm).
_AROUND: Final = 5.0
#: Room beside the picture for the sign at a datum (paper mm).
_ASIDE: Final = 1.2
_BIG: Final = "CUT SHEET: FACE DOWN"
#: A panel shorter than this along the cuts has the guides' numbers beside it (paper mm).
_LEAST_INSIDE: Final = 30.0
_KINDS: Final = {"rip": "Rips", "crosscut": "Crosscuts"}


def trim_figures(plan: Plan, box: PaperBox = (180.0, 250.0)) -> tuple[View, ...]:
    """Draw the cuts through the panel: a figure for the rips, one for the crosscuts, more when space is short.

    Parameters
    ----------
    plan
        A plan; one that is not ready, or without cuts, has no figures.
    box
        Width and height that each figure fills, paper mm, at least 150 x 200.

    Raises
    ------
    GeometryError
        For a box that is too small.
    """
    check_box(box, PAGE)
    if not plan.ready:
        return ()
    placed, edges = [], plan.cut_plan.first_edges
    for cut in plan.cut_plan.cuts:
        placed.append(PlacedCut(cut, edges))
        edges = after_cut(edges, cut)
    figures: list[_Figure] = []
    for _, run in groupby(placed, key=lambda p: p.cut.kind):
        left = list(run)
        while left:
            count = _how_many(plan, box, left)
            figures.append(_Figure(plan, box, left[:count]))
            left = left[count:]
    return tuple(figure.view(number) for number, figure in enumerate(figures, start=1))


def _how_many(plan: Plan, box: PaperBox, left: Sequence[PlacedCut]) -> int:
    """How many of these cuts the next figure takes: all, or those of the first side, or as many as fit."""
    # labels must not press the panel together: so much smaller than with one cut it may become, no more
    least = _Figure(plan, box, left[:1]).scale * _SMALLER
    same_side = [p.cut.side == left[0].cut.side for p in left].count(True)
    counts: list[int] = [len(left), same_side, *range(same_side - 1, 1, -1)]
    for count in counts:
        figure = _Figure(plan, box, left[:count])
        if figure.fits and figure.scale <= least:
            # no figure is left with a single cut where they may share alike
            return count if count >= same_side else -(-same_side // -(-same_side // count))
    return 1


class _Figure:
    """One figure: panel with labels above, table of the cuts below."""

    def __init__(self, plan: Plan, box: PaperBox, placed: Sequence[PlacedCut]) -> None:
        self._plan = plan
        self._box = box
        self._placed = placed
        self._edges = placed[0].edges
        self._flat = is_lengthwise(placed[0].cut.side)
        self._labels = CutLabels(self._flat, self._label_list())
        self._title = (
            f"{_KINDS[placed[0].cut.kind]}: {range_words(placed[0].cut.number, placed[-1].cut.number)}"
        )
        self._inside = True
        self._table, self._scale = self._largest_figures([p.cut for p in placed])

    def _largest_figures(self, cuts: Sequence[SawCut]) -> tuple[CutTable, float | None]:
        """Table with figures as large as they may be, and the scale of the panel above it."""
        tables = [CutTable(self._plan, cuts, self._box[0], cap) for cap in CAPS]
        least = self._drawn_with(tables[-1])
        if least is None:
            return tables[-1], None
        for table in tables:
            scale = self._drawn_with(table)
            if table.fits and scale is not None and scale <= least * _FOR_FIGURES:
                return table, scale
        return tables[-1], self._drawn_with(tables[-1])

    def _drawn_with(self, table: CutTable) -> float | None:
        """Scale of the panel above a table; the guides' numbers stand in it if it is long enough."""
        self._inside = True
        scale = self._pick(table)
        if scale is None or self._along_mm() / scale < _LEAST_INSIDE:
            self._inside = False
            scale = self._pick(table)
        return scale

    @property
    def fits(self) -> bool:
        """Whether panel, labels and table have room."""
        return self._scale is not None and self._table.fits

    @property
    def scale(self) -> float:
        """Millimetres of wood in one of paper."""
        return self._scale or SCALES[-1]

    def view(self, number: int) -> View:
        pen, scale = Pen(), self.scale
        top = wall_heading(pen, self._box, _BIG, self._lines(scale))
        bottom = self._table.draw(pen, self._spare())
        room = self._labels.room(self._inside)
        low, high = self._range()
        tall = ticks_to_mm(self._edges["north"] - self._edges["south"]) / scale
        if self._flat:
            left = room.before
            # what lies beyond the panel, a guide or labels, shares the height that is left
            span = (high - low) / scale
            free = (top - bottom - span) / 2
            frame = PanelFrame(self._edges, left, bottom + free - low / scale, scale)
            limits = (bottom, top)
        else:
            span = (high - low) / scale
            free = (self._box[0] - span) / 2
            free_y = (top - bottom - tall - room.before - room.after) / 2
            frame = PanelFrame(self._edges, free - low / scale, bottom + room.after + free_y, scale)
            limits = (0.0, self._box[0])
        draw_panel(pen, frame, self._plan.cut_plan, self._plan.job.top.corner_radius.mm)
        for placed in self._placed:
            self._draw_cut(pen, frame, placed)
        self._draw_datums(pen, frame)
        self._draw_labels(pen, frame, limits)
        return pen.view(f"trim-{number}", self._title)

    def _spare(self) -> float:
        """Height of the box that the drawing does not need."""
        low, high = self._range()
        if self._flat:
            tall = max((high - low) / self.scale, self._labels.size)
        else:
            room = self._labels.room(self._inside)
            tall = self._along_mm() / self.scale + room.before + room.after
        used = wall_heading_height(self._box, _BIG, self._lines(self.scale)) + self._table.height + tall
        return max(0.0, self._box[1] - used - _AROUND)

    # what is written

    def _lines(self, scale: float) -> list[str]:
        return [
            f"{self._title}. Top face DOWN, seen from above as it lies: east is on the left, west on the right.",
            f"{scale_text(scale).capitalize()}. Plan {self._plan.code}. Positions run from the thick edge; "
            "the kerf is on the far side of the keep line.",
        ]

    def _label_list(self) -> list[Label]:
        units = self._plan.job.units
        labels = []
        for datum, run in groupby(self._placed, key=lambda p: (p.cut.datum, p.cut.datum_edge)):
            here = list(run)
            words = range_words(here[0].cut.number, here[-1].cut.number)
            # beside the panel width is short, below it height
            lines: tuple[str, ...] = (f"{datum[1]} {datum[0]} edge:", "MEASURE FROM HERE", words)
            if not self._flat:
                lines = ("MEASURE FROM HERE", f"{datum[1]} edge, {words}")
            at = self._offset_mm(here[0].edges[datum[0]], here[0].cut.side)
            labels.append(Label(at, None, lines))
            labels += [
                Label(
                    self._offset_mm(p.at(p.cut.keep_ticks), p.cut.side),
                    p.cut.number,
                    (show_ticks(p.cut.keep_ticks, units),),
                )
                for p in here
            ]
        return sorted(labels, key=lambda label: (label.at_mm, label.number or 0))

    def _offset_mm(self, ticks: int, side: Side) -> float:
        """Wood mm across the cut from the panel's edge at the bottom or on the left of the page."""
        if is_lengthwise(side):
            return ticks_to_mm(ticks - self._edges["south"])
        return ticks_to_mm(self._edges["east"] - ticks)

    def _range(self) -> tuple[float, float]:
        """What the figure must show across the cuts, wood mm: the panel and all guides."""
        side = self._placed[0].cut.side
        guides = [self._offset_mm(p.at(p.cut.guide_ticks), p.cut.side) for p in self._placed]
        far = self._edges["north"] if is_lengthwise(side) else self._edges["west"]
        return min(0.0, *guides), max(self._offset_mm(far, side), *guides)

    def _along_mm(self) -> float:
        """Wood mm along the cuts."""
        edges = self._edges
        if self._flat:
            return ticks_to_mm(edges["east"] - edges["west"])
        return ticks_to_mm(edges["north"] - edges["south"])

    def _pick(self, table: CutTable) -> float | None:
        box, room = self._box, self._labels.room(self._inside)
        tall = box[1] - wall_heading_height(box, _BIG, self._lines(12.5)) - table.height
        low, high = self._range()
        along = self._along_mm()
        if self._flat:
            if self._labels.size > tall:
                return None
            return pick_scale([(high - low, tall), (along, box[0] - room.before - room.after)])
        if self._labels.size > box[0] or tall - room.before - room.after < 15:
            return None
        return pick_scale([(high - low, box[0] - 2 * _ASIDE), (along, tall - room.before - room.after)])

    # the picture

    def _span(self, frame: PanelFrame) -> tuple[float, float]:
        """Paper ends of a cut line, the one at the labels last."""
        return (frame.left, frame.right) if self._flat else (frame.top, frame.bottom)

    def _point(self, across: float, along: float) -> Point:
        return (along, across) if self._flat else (across, along)

    def _draw_cut(self, pen: Pen, frame: PanelFrame, placed: PlacedCut) -> None:
        cut = placed.cut
        begin, end = self._span(frame)
        keep = frame.across(cut.side, placed.at(cut.keep_ticks))
        # a kerf that runs off the panel is drawn as far as there is wood
        outer_ticks = placed.at(min(cut.kerf_end_ticks, cut.panel_before_ticks))
        outer = frame.across(cut.side, outer_ticks)
        pen.line(KEEP, self._point(keep, begin), self._point(keep, end))
        if abs(outer - keep) > 1e-3:
            band = [self._point(a, b) for a, b in ((keep, begin), (keep, end), (outer, end), (outer, begin))]
            pen.hatch(band, 45, 0.8)
            pen.line(HATCHING, self._point(outer, begin), self._point(outer, end))

    def _draw_datums(self, pen: Pen, frame: PanelFrame) -> None:
        begin, end = self._span(frame)
        step = DATUM.line_width_mm / 2
        for placed in self._placed:
            cut = placed.cut
            edge = frame.across(cut.side, placed.edges[cut.datum])
            # beside the edge, on the wood, so that a kerf behind a fresh edge stays in sight
            inward = step if cut.datum in ("south", "east") else -step
            pen.line(DATUM, self._point(edge + inward, begin), self._point(edge + inward, end))

    def _draw_labels(self, pen: Pen, frame: PanelFrame, limits: tuple[float, float]) -> None:
        begin, end = self._span(frame)
        zero = frame.bottom if self._flat else frame.left
        outward = 1.0 if self._flat else -1.0
        self._labels.draw(pen, zero, frame.scale, end, limits)
        runs = [
            list(run)
            for _, run in groupby(self._placed, key=lambda p: (OPPOSITE[p.cut.side], p.cut.datum_edge))
        ]
        for index, run in enumerate(runs):
            along = end + outward * (2.5 + 2.5 * index)
            origin = self._point(frame.across(run[0].cut.side, run[0].edges[run[0].cut.datum]), along)
            keeps = [frame.across(p.cut.side, p.at(p.cut.keep_ticks)) for p in run]
            pen.running(origin, [self._point(keep, along) for keep in keeps])
        guides = sorted(
            (frame.across(p.cut.side, p.at(p.cut.guide_ticks)), p.cut.number) for p in self._placed
        )
        taken = self._labels.draw_guides(pen, guides, begin, limits, inside=self._inside)
        last = self._placed[-1]
        kept = after_cut(last.edges, last.cut)
        wood = (frame.x(kept["east"]), frame.y(kept["south"]), frame.x(kept["west"]), frame.y(kept["north"]))
        lines = [
            [self._point(across, begin), self._point(across, end)]
            for p in self._placed
            for across in (
                frame.across(p.cut.side, p.at(at)) for at in (p.cut.keep_ticks, p.cut.kerf_end_ticks)
            )
        ]
        taken += defect_marks(pen, frame, self._plan.cut_plan.defects, taken, lines)
        chalk_marks(pen, wood, taken, LARGE_CHALK)
