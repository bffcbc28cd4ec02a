"""The figures that place a keep line on a sheet: from an edge that stays, in from the old edge, along the rim."""

from __future__ import annotations

import math
from typing import Final

from edgewright.cutlist.sheets.common import SMALL
from edgewright.cutlist.sheets.outline_frame import OutlineFrame, outside
from edgewright.cutlist.sheets.places import Places, block_size
from edgewright.cutlist.sheets.square_places import square_places
from edgewright.cutlist.sheets.wall import BENCH
from edgewright.design.anytop.cut_records import CutRecord, cut_records
from edgewright.design.anytop.model import ShapedDesign
from edgewright.design.outline import Point
from edgewright.design.segments import parameter, point_at
from edgewright.design.trims.cut_datum import Datum
from edgewright.design.trims.keep_marks import Mark
from edgewright.display import show_mm
from edgewright.drawing.paper import THIN, Pen
from edgewright.units import Units

__all__ = ["figures_note", "keep_figures"]

#: How far from the ends of the keep line its distance is drawn, of its length: further in cut by cut, so that the
#: lines of cuts from two sides lie apart.
_FROM_END: Final = 0.07
_DEEPEST: Final = 0.35
#: Where along a dimension line its figure may stand, best first.
_SHARES: Final = (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8)


def figures_note(design: ShapedDesign) -> str:
    """Say what the figures at the keep lines are, of the kinds that are there."""
    records = cut_records(design.old, design.trims)
    data = [record.datum(design.job.trim.way) for record in records]
    note = ""
    if any(datum is not None and datum.stays for datum in data):
        note += " Figures between arrows run square from an edge that stays."
    if any(datum is not None and not datum.stays for datum in data):
        note += " Figures marked square run in from the old edge that comes off, at right angles to it."
    along = [
        mark.sharp
        for record, datum in zip(records, data, strict=True)
        if datum is None or datum.stays
        for mark in record.marks
    ]
    if any(along):
        which = "Other figures" if note else "Figures"
        note += f" {which} at its ends run along the rim from the corner that comes off."
    return note


def keep_figures(
    pen: Pen, frame: OutlineFrame, places: Places, design: ShapedDesign, record: CutRecord
) -> None:
    """Write the figures of one cut."""
    datum, units = record.datum(design.job.trim.way), design.job.units
    if datum is not None and datum.stays:
        for foot, end in _feet(record, datum):
            _arrows(pen, frame, places, foot, end, show_mm(datum.distance, units))
    for mark in record.marks:
        text = _end_text(record, mark, datum, units)
        if text:
            _at_end(pen, frame, places, record, mark, text)


def _feet(record: CutRecord, datum: Datum) -> list[tuple[Point, Point]]:
    """Two places, near the ends, between which the distance from the edge is taken."""
    keep = record.keep
    shares = sorted(parameter(keep, end) for end in (datum.edge.start, datum.edge.end))
    low, high = max(shares[0], 0.0), min(shares[1], 1.0)
    inset = min(_FROM_END * record.number, _DEEPEST) * (high - low)
    ends = [point_at(keep, share) for share in (low + inset, high - inset)]
    return [(point_at(datum.edge, parameter(datum.edge, end)), end) for end in ends]


def _arrows(pen: Pen, frame: OutlineFrame, places: Places, foot: Point, end: Point, text: str) -> None:
    """Dimension line, its figure on white on it."""
    a, b = frame.at(foot), frame.at(end)
    pen.line(THIN, a, b)
    pen.arrow(a, b)
    pen.arrow(b, a)
    spots = [(a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])) for share in _SHARES]
    if places.put(pen, (text,), BENCH, spots, white=True) is None:
        places.put(pen, (text,), BENCH, spots, over_lines=True)
    places.keep_clear((a, b))


def _end_text(record: CutRecord, mark: Mark, datum: Datum | None, units: Units) -> tuple[str, ...]:
    if datum is not None and not datum.stays:
        return (f"{show_mm(datum.distance, units)} square",)
    if mark.sharp:
        return () if mark.distance < 0.05 else (show_mm(mark.distance, units),)
    if datum is not None:
        return ()
    return tuple(
        f"{show_mm(place.distance, units)} from {place.name}"
        for place in square_places(record.before, mark.at)
    )


def _at_end(
    pen: Pen, frame: OutlineFrame, places: Places, record: CutRecord, mark: Mark, text: tuple[str, ...]
) -> None:
    """Write outside the rim, in line with the keep line."""
    keep = record.sawn.cut.keep
    first = math.dist(mark.at, keep.start) < math.dist(mark.at, keep.end)
    ox, oy = (a - b for a, b in zip(*((keep.start, keep.end)[:: 1 if first else -1]), strict=True))
    size = math.hypot(ox, oy)
    for height in (BENCH, SMALL):
        wide, high = block_size(text, height)
        x, y = outside(frame, mark.at, (ox / size, oy / size), wide, high)
        steps = [(x + side * wide / 2, y) for side in (0, 1, -1)]
        steps += [(x + side * wide / 2, y + up * high) for up in (1.3, -1.3) for side in (0, 1, -1)]
        if places.put(pen, text, height, steps) is not None:
            return
