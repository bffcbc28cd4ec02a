"""What one saws and routs a shaped top to size by: cuts, routed edges, offsets, offcuts and cut-outs as rows."""

from __future__ import annotations

import math
from typing import Final

from edgewright.cutlist.shaped_handling import skims
from edgewright.cutlist.shaped_plan import ShapedPlan
from edgewright.cutlist.sheets.cut_out_marks import cut_out_size
from edgewright.cutlist.sheets.square_places import FromEdge, square_places
from edgewright.cutlist.sheets.top_sheet import TRAMMEL_MM, by_template, pivots
from edgewright.design.anytop.cut_records import CutRecord, cut_records
from edgewright.design.shapes.offsets import ChordOffsets, edge_offsets, station_offsets
from edgewright.design.trims.cut_datum import Datum
from edgewright.design.trims.keep_marks import Mark
from edgewright.design.trims.offcut import Offcut
from edgewright.design.trims.trammel import Trammel
from edgewright.design.trims.usable_rectangle import usable_rectangle
from edgewright.display import show_mm
from edgewright.units import Units

__all__ = ["cut_out_rows", "cut_rows", "guide_words", "offcut_rows", "offset_tables", "router_rows"]

#: Distance of the stations of a curve that no trammel reaches (common practice, no source).
_STATION_MM: Final[dict[Units, float]] = {"in": 6 * 25.4, "mm": 150.0}
_EVEN_MM: Final = 0.2


def guide_words(plan: ShapedPlan) -> str:
    """Where the guide is clamped, the same for every cut."""
    units, saw = plan.job.units, plan.job.saw
    kerf, away = show_mm(saw.kerf.mm, units), show_mm(saw.guide_offset.mm, units)
    edge = "keep line" if saw.guide_side == "keep" else "far edge of the kerf"
    return (
        f"Measure keep lines square from the edge, marks at their ends along the rim, as it is before the cut: both "
        f"must agree. Saw on the waste side of the keep line, kerf {kerf}. Guide "
        f"{away} from the {edge} on the {saw.guide_side} side, {saw.shoe_side} side of the shoe along it. Make a test "
        "cut first."
    )


def cut_rows(plan: ShapedPlan) -> list[list[str]]:
    """Saw cuts in order: number and edge, keep line, its ends on the rim, what comes off."""
    units, design = plan.job.units, plan.design
    rows = []
    for record in cut_records(design.old, design.trims):
        datum = record.datum(plan.job.trim.way)
        line = "through its two ends" if datum is None else _datum_words(record, datum, units)
        ends = "; ".join(said for mark in record.marks if (said := _mark_words(record, mark, datum, units)))
        rows.append([f"{record.number} {record.sawn.cut.name}", line, ends, _off_words(record, units)])
    return rows


def _datum_words(record: CutRecord, datum: Datum, units: Units) -> str:
    distance, name = show_mm(datum.distance, units), datum.name.split(", station ")[0]
    if not datum.stays:
        return f"{distance} square in from the old edge{'' if name == record.sawn.cut.name else f' {name}'}"
    return f"{distance} from {name}, {'at both ends' if datum.both_ends else 'at two places far apart'}"


def _mark_words(record: CutRecord, mark: Mark, datum: Datum | None, units: Units) -> str:
    """Say where one end lies; nothing where no corner is seen to measure from and the line is placed without it."""
    edge, corner = (name.split(", station ")[0] for name in (mark.edge, mark.corner))
    distance = show_mm(mark.distance, units)
    if mark.sharp:
        if distance == show_mm(0.0, units):
            return f"the corner of {edge} and {corner}"
        return f"{distance} on {edge}, from {corner}"
    if datum is not None:
        return ""
    return ", ".join(_from_words(place, units) for place in square_places(record.before, mark.at))


def _off_words(record: CutRecord, units: Units) -> str:
    if skims(record):
        return "dust: a skim cut, the blade runs partly beside the wood: clamp a batten as thick beside it"
    return "dust only" if record.offcut is None else _offcut_text(record.offcut, units)


def _offcut_text(offcut: Offcut, units: Units) -> str:
    start, end = offcut.width_start, offcut.width_end
    length = show_mm(offcut.length, units)
    if not start and not end:
        return f"{length} long, up to {show_mm(offcut.depth, units)} wide"
    if abs(start - end) < _EVEN_MM:
        return f"{length} x {show_mm(start, units)}"
    if min(start, end) < _EVEN_MM:
        return f"{length} x {show_mm(max(start, end), units)}, tapered to a point"
    return f"{length} x {show_mm(start, units)} to {show_mm(end, units)}, tapered"


def offcut_rows(plan: ShapedPlan) -> list[list[str]]:
    """Offcuts: name, size, largest true rectangle."""
    units = plan.job.units
    rows = []
    for offcut in plan.design.trims.offcuts:
        best = usable_rectangle(offcut)
        usable = "none" if best is None else f"{show_mm(best.length, units)} x {show_mm(best.width, units)}"
        rows.append([f"off {offcut.name}", _offcut_text(offcut, units), usable])
    return rows


def router_rows(plan: ShapedPlan, offsets: str = "by the offsets below") -> list[list[str]]:
    """Edges that are routed to size: edge, how, setting; ``offsets`` says where the tables of stations stand."""
    units, design = plan.job.units, plan.design
    half = show_mm(plan.job.router.cutter.mm / 2, units)
    rows = [
        [
            path.name,
            "along a straight guide",
            f"guide {half} from the finished edge to the middle of the cutter",
        ]
        for path in design.trims.paths
    ]
    names: dict[Trammel, list[str]] = {}
    by_arc = dict(zip(design.trims.finished.outline.segments, design.trims.finished.names, strict=True))
    found = pivots(design)
    for arc in design.trims.arcs:
        first = next((one for one in found if _same(one, arc)), None)
        if first is not None:
            names.setdefault(first, []).append(by_arc.get(arc.arc, "curve"))
    for arc in found:
        edges = ", ".join(dict.fromkeys(names.get(arc, ["curve"])))
        if arc.to_finished > TRAMMEL_MM[units]:
            rows.append([edges, "along a bent batten", f"draw it {offsets}"])
            continue
        rows.append([edges, f"trammel, R {show_mm(arc.to_finished, units)}", _trammel_words(plan, arc)])
    if by_template(plan.design):
        rows.append(
            [
                "rim",
                "along a template",
                f"draw the template {offsets}, or cut it by the template in the folder dxf; a flush bit's bearing runs "
                "along it",
            ]
        )
    return rows


def _trammel_words(plan: ShapedPlan, arc: Trammel) -> str:
    units = plan.job.units
    one, other = (_from_words(place, units) for place in square_places(plan.design.old, arc.pivot))
    where = f"pivot {one}, {other}"
    if not arc.pivot_in_wood:
        where = "pivot beside the wood, on a board of the same height, on the square middle line of the curve"
    return (
        f"{where}; to the middle of the cutter {show_mm(arc.to_cutter_centre, units)}, to its near side "
        f"{show_mm(arc.to_near_side, units)}"
    )


def _same(one: Trammel, other: Trammel) -> bool:
    return abs(one.to_finished - other.to_finished) < 0.01 and math.dist(one.pivot, other.pivot) < 0.02


def _from_words(place: FromEdge, units: Units) -> str:
    return f"{show_mm(place.distance, units)} from {place.name}"


def offset_tables(plan: ShapedPlan) -> list[tuple[str, str, list[str], list[list[str]]]]:
    """Stations of curves that no trammel reaches: title, note, header and rows of each table."""
    units, shape = plan.job.units, plan.design.trims.finished
    step = _STATION_MM[units]
    if by_template(plan.design):
        south, north = station_offsets(shape, step)
        rows = [
            [show_mm(at, units), show_mm(below, units), show_mm(above, units)]
            for (at, below), (_, above) in zip(south.rows, north.rows, strict=True)
        ]
        note = "From a straight line through the middle, from end to end of the finished top; square from the line."
        return [
            ("Stations of the finished rim", note, ["from the west", "south to rim", "north to rim"], rows)
        ]
    routed = {arc.arc for arc in plan.design.trims.arcs}
    long = [
        table
        for table in edge_offsets(shape, step, TRAMMEL_MM[units])
        if any(math.dist(arc.start, table.start) < 1e-6 for arc in routed)
    ]
    return [_chord_table(table, units) for table in long]


def _chord_table(table: ChordOffsets, units: Units) -> tuple[str, str, list[str], list[list[str]]]:
    chord = show_mm(math.dist(table.start, table.end), units)
    note = f"Along the straight line between its ends, {chord}; square from it."
    rows = [[show_mm(at, units), show_mm(off, units)] for at, off in table.rows]
    return f"Stations of {table.name}", note, ["along the line", "out to the edge"], rows


def cut_out_rows(plan: ShapedPlan) -> list[list[str]]:
    """Cut-outs: name, size, distances of the centre square from two edges of the finished top."""
    units = plan.job.units
    rows = []
    for hole in plan.design.cut_outs:
        one, other = square_places(plan.design.finished, hole.outline.middle)
        size = cut_out_size(hole.outline, units)
        rows.append([hole.name, size, _from_words(one, units), _from_words(other, units)])
    return rows
