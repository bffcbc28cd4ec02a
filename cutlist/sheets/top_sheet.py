"""Trim sheet of a top of any outline: the old top face down, waste, keep lines, guides, pivots, cut-outs.

The lists beside it hold every figure; those that one marks out by stand on the sheet as well, where they belong.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final

from edgewright.cutlist.sheets.common import check_box, paragraph, paragraph_height
from edgewright.cutlist.sheets.cut_out_marks import cut_out_marks
from edgewright.cutlist.sheets.keep_figures import figures_note, keep_figures
from edgewright.cutlist.sheets.outline_frame import OutlineFrame, labelled, put_labels
from edgewright.cutlist.sheets.places import Places, block_size
from edgewright.cutlist.sheets.wall import BENCH, wall_heading, wall_heading_height
from edgewright.design.anytop.cut_records import cut_records
from edgewright.design.anytop.model import ShapedDesign
from edgewright.design.outline import Line
from edgewright.design.trims.straight_cut import beside, guide_line
from edgewright.design.trims.trammel import Trammel
from edgewright.display import show_mm
from edgewright.drawing.paper import (
    DATUM,
    GUIDE,
    HATCHING,
    HIDDEN,
    KEEP,
    PANEL,
    THIN,
    PaperBox,
    Pen,
    scale_text,
)
from edgewright.drawing.svg import drawn_box
from edgewright.drawing.view import Face, Hatch, View
from edgewright.units import Units

__all__ = ["MOST_PIVOTS", "TRAMMEL_MM", "by_template", "pivots", "top_figures"]

#: An outline of more arcs than this is routed along a template.
MOST_PIVOTS: Final = 6
#: Longest radius that a trammel is used for (common practice, no source); larger ones run along a bent batten.
TRAMMEL_MM: Final[dict[Units, float]] = {"in": 60 * 25.4, "mm": 1500.0}
#: Sizes of the type of the chalk marks, largest first, and radius of a cut's number (mm).
_CHALK: Final = (7.0, 4.6)
_NUMBERS: Final = (4.0, 2.6)
_LEAST: Final[PaperBox] = (150.0, 130.0)
#: Where along a keep line its number may stand, best first.
_ALONG: Final = (0.5, 0.42, 0.58, 0.33, 0.67, 0.25, 0.75, 0.15, 0.85, 0.08, 0.92)
#: Directions in which the words at a pivot are tried.
_ROUND: Final = ((0.0, 1.0), (0.0, -1.0), (1.0, 0.0), (-1.0, 0.0))


def pivots(design: ShapedDesign) -> tuple[Trammel, ...]:
    """Trammel settings, one for each pivot and radius; none where a template is the better way."""
    found: dict[tuple[int, int, int], Trammel] = {}
    for arc in design.trims.arcs:
        key = (round(arc.to_finished * 100), round(arc.pivot[0] * 100), round(arc.pivot[1] * 100))
        found.setdefault(key, arc)
    return tuple(found.values()) if len(found) <= MOST_PIVOTS else ()


def by_template(design: ShapedDesign) -> bool:
    """Whether the rim is routed along a template."""
    trims = design.trims
    oval = trims.finished.ellipse is not None and trims.finished is not design.old
    return oval or bool(trims.arcs and not pivots(design))


def top_figures(design: ShapedDesign, box: PaperBox = (180.0, 130.0)) -> tuple[View, ...]:
    """Draw the top with its trims, face down.

    Parameters
    ----------
    design
        The design; where nothing is trimmed the finished top alone is drawn.
    box
        Width and height that the figure may fill, paper mm, at least 150 x 130.

    Raises
    ------
    GeometryError
        For a box that is too small.
    """
    check_box(box, _LEAST)
    # corners that are rounded are waste, too
    trimmed = design.finished.outline != design.old.outline
    trims = design.trims
    sheet = "Cut to its outline" if design.job.top.new else "Cut sheet"
    title = sheet if trims.cuts or trims.arcs or trims.paths else "The top"
    big = f"{title.upper()}: FACE DOWN"
    notes = _notes(design, trimmed)
    below = sum(paragraph_height(note, box[0], BENCH) for note in notes) + 1.5
    x0, y0, x1, y1 = design.old.outline.bounds
    fx0, fy0, fx1, fy1 = design.finished.outline.bounds
    bounds = (min(x0, fx0), min(y0, fy0), max(x1, fx1), max(y1, fy1))
    top = wall_heading_height(box, big, _lines(design, 12.5))
    room = (box[0], box[1] - top - below - 5.0)
    rim = design.old if trimmed else design.finished
    frame, places, labels = labelled(
        bounds,
        [rim.outline, *design.region.loops],
        (rim.outline, rim.names),
        room,
        (0.0, below),
        heights=_CHALK,
    )
    pen = Pen()
    _wood(pen, frame, design, trimmed)
    put_labels(pen, frame, places, labels)
    cut_out_marks(pen, frame, places, design)
    _cuts(pen, frame, places, design)
    _pivots(pen, frame, places, design)
    high = drawn_box(pen.view("", ""))[3] + 3.0
    wall_heading(pen, (box[0], min(high + top, box[1])), big, _lines(design, frame.scale))
    at = below - 1.5
    for note in notes:
        at = paragraph(pen, 0, at, note, box[0], BENCH)
    return (pen.view("trim", title),)


def _lines(design: ShapedDesign, scale: float) -> list[str]:
    units = design.job.units
    x0, y0, x1, y1 = design.finished.outline.bounds
    size = f"{show_mm(x1 - x0, units)} x {show_mm(y1 - y0, units)}"
    return [
        "Top face DOWN, seen from above as it lies: east is on the left, west on the right.",
        f"{scale_text(scale).capitalize()}. Finished length x width {size}.",
    ]


def _wood(pen: Pen, frame: OutlineFrame, design: ShapedDesign, trimmed: bool) -> None:
    """Waste hatched, what stays white."""
    if trimmed:
        pen.shape(HATCHING, Hatch(frame.loop(design.old.outline), 45, 1.6))
        pen.shape(THIN, Face(frame.loop(design.finished.outline), 1.0))
        pen.shape(HIDDEN, frame.loop(design.old.outline))
    for outline in design.region.loops:
        pen.shape(PANEL, frame.loop(outline))
    for seam in design.panel_seams:
        pen.line(HIDDEN, frame.at(seam.start), frame.at(seam.end))


def _cuts(pen: Pen, frame: OutlineFrame, places: Places, design: ShapedDesign) -> None:
    """Keep line from rim to rim with its kerf, its marks and its number; the guide beside it."""
    saw = design.job.saw
    whole = [record for record in cut_records(design.old, design.trims) if len(record.marks) == 2]
    for record in whole:
        keep = record.keep
        far = beside(keep, -record.sawn.cut.kerf)
        pen.line(HATCHING, frame.at(far.start), frame.at(far.end))
        pen.line(KEEP, frame.at(keep.start), frame.at(keep.end))
        datum = record.datum(design.job.trim.way)
        if datum is not None:
            pen.line(DATUM, frame.at(datum.edge.start), frame.at(datum.edge.end))
        _number(pen, frame, places, keep, record.number)
        guide = guide_line(keep, saw.kerf.mm, saw.guide_offset.mm, saw.guide_side)
        _guide_line(pen, frame, places, guide, f"guide {record.number}" if len(whole) > 1 else "guide")
    # figures stand on white over the lines of all cuts
    for record in whole:
        keep_figures(pen, frame, places, design, record)


def _number(pen: Pen, frame: OutlineFrame, places: Places, keep: Line, number: int) -> None:
    """Number of the cut on the side that stays, touching the keep line."""
    (ax, ay), (bx, by) = frame.at(keep.start), frame.at(keep.end)
    size = math.hypot(bx - ax, by - ay)
    if not size:
        return
    # the kept side is on the left of the line in the wood, on the right of it on the mirrored page
    nx, ny = (by - ay) / size, -(bx - ax) / size
    for r in _NUMBERS:
        for share in _ALONG:
            x, y = ax + share * (bx - ax) + (r + 0.8) * nx, ay + share * (by - ay) + (r + 0.8) * ny
            box = (x - r, y - r, x + r, y + r)
            if places.free(box, over_lines=True):
                pen.number(x, y, number, r)
                places.take(box)
                return
    pen.number(x, y, number, r)
    places.take(box)


def _guide_line(pen: Pen, frame: OutlineFrame, places: Places, line: Line, name: str) -> None:
    """Draw the guide's edge with its name if it lies within the figure."""
    (ax, ay), (bx, by) = frame.at(line.start), frame.at(line.end)
    limits = places.limits
    if limits is None or not all(
        limits[0] <= x <= limits[2] and limits[1] <= y <= limits[3] for x, y in ((ax, ay), (bx, by))
    ):
        return
    pen.line(GUIDE, (ax, ay), (bx, by))
    steps = [(ax + share * (bx - ax), ay + share * (by - ay)) for share in (0.2, 0.8, 0.3, 0.7)]
    places.put(pen, (name,), BENCH, steps, over_lines=True)


def _pivots(pen: Pen, frame: OutlineFrame, places: Places, design: ShapedDesign) -> None:
    wide, tall = frame.size
    for arc in pivots(design):
        if arc.to_finished > TRAMMEL_MM[design.job.units]:
            continue
        x, y = frame.at(arc.pivot)
        if frame.left < x < frame.left + wide and frame.bottom < y < frame.bottom + tall:
            pen.dot(THIN, x, y, 0.7)
            places.take((x - 0.8, y - 0.8, x + 0.8, y + 0.8))
            text = ("pivot", f"R {show_mm(arc.to_finished, design.job.units)}")
            w, h = block_size(text, BENCH)
            steps = [(x + dx * (w / 2 + 2), y + dy * (h / 2 + 2)) for dx, dy in _ROUND]
            places.put(pen, text, BENCH, steps, over_lines=True)


def _notes(design: ShapedDesign, trimmed: bool) -> Sequence[str]:
    saw, units = design.job.saw, design.job.units
    notes = []
    if design.trims.cuts:
        away = show_mm(saw.guide_offset.mm, units)
        edge = "keep line" if saw.guide_side == "keep" else "far edge of the kerf"
        notes.append(
            f"Hatched: waste. Each numbered line is a keep line, and the {show_mm(saw.kerf.mm, units)} of the kerf "
            f"lie beside it in the waste. Thick: datum edges.{figures_note(design)} Guide: {away} from the {edge}, on "
            f"the {saw.guide_side.upper()} side."
        )
    elif trimmed:
        round_off = " The radii of the corners stand in the list of the edges."
        notes.append(f"Hatched: waste.{'' if design.trims.arcs or design.trims.paths else round_off}")
    if ways := _ways(design):
        notes.append(
            f"Edges without a numbered line are routed to size {' or '.join(ways)}, in several passes, the cutter in "
            "the waste."
        )
    return notes


def _ways(design: ShapedDesign) -> list[str]:
    """How the edges that are not sawn are routed."""
    limit, found = TRAMMEL_MM[design.job.units], pivots(design)
    return [
        way
        for way, used in (
            ("on a trammel", any(arc.to_finished <= limit for arc in found)),
            ("along a bent batten", any(arc.to_finished > limit for arc in found)),
            ("along a template", by_template(design)),
            ("along a straight guide", bool(design.trims.paths)),
        )
        if used
    ]
