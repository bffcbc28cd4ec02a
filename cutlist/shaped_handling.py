"""Findings 501 and 502 for the saw cuts of a shaped top: what holds the wood, what lies under the guide.

The same rules as for a rectangle; where the wood narrows along a cut its narrowest place decides for the guide.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Final

from edgewright.cutlist.handling_words import guide_advice, guide_finding, held_finding, wood_under_guide
from edgewright.design.anytop.cut_records import CutRecord, cut_records
from edgewright.design.anytop.model import ShapedDesign
from edgewright.design.check_figures import exceeds, shown_down, shown_up, trade_least
from edgewright.design.outline import Line, Segment
from edgewright.design.segments import direction, point_at
from edgewright.design.tolerances import NODE_MM
from edgewright.design.trims.shadow import Frame, span
from edgewright.findings import Finding
from edgewright.job import Saw
from edgewright.units import Units

__all__ = ["shaped_handling", "skims"]

#: Cosine of 45°: an edge turned less than this against the cut faces it.
_FACING: Final = 0.7071
#: Points in which a curve that faces the cut is looked at.
_STEPS: Final = 64


def shaped_handling(design: ShapedDesign) -> tuple[Finding, ...]:
    """Findings 501 and 502 for every saw cut."""
    saw, units = design.job.saw, design.job.units
    records = cut_records(design.old, design.trims)
    return (*_held(records, saw, units), *_guided(records, saw, units))


def skims(record: CutRecord) -> bool:
    """Whether the wood that comes off is somewhere narrower than the kerf: the blade runs partly beside it."""
    return _waste(record) < -NODE_MM


def _held(records: Iterable[CutRecord], saw: Saw, units: Units) -> Iterator[Finding]:
    narrow = [(wide, one) for one in records if exceeds(saw.min_held_width.mm, wide := _kept(one)[1])]
    if narrow:
        wide, worst = min(narrow, key=lambda found: found[0])
        least = trade_least(saw.min_held_width.mm, units)
        yield held_finding(_place([worst]), shown_down(wide, units), least)


def _guided(records: Iterable[CutRecord], saw: Saw, units: Units) -> Iterator[Finding]:
    """Finding 502, once for all cuts that are alike."""
    guide, side = saw.guide_width.mm, saw.guide_side
    alike: dict[str, list[tuple[float, CutRecord]]] = {}
    for record in records:
        under = _under(record, side, saw.guide_offset.mm)
        if exceeds(guide, under):
            wood = wood_under_guide(
                shown_down(under, units) if under > NODE_MM else "",
                shown_up(-under, units) if under < -NODE_MM else "",
                shown_up(guide, units),
                side,
            )
            alike.setdefault(wood, []).append((under, record))
    for wood, same in alike.items():
        under = min(one for one, _ in same)
        cuts = [record for _, record in same]
        yield guide_finding(_place(cuts), wood, _advice(cuts, under, saw), mostly_off=2 * under < guide)


def _place(cuts: list[CutRecord]) -> str:
    """Number and edge of one cut, the numbers of several."""
    if len(cuts) == 1:
        return f"cut {cuts[0].number}, {cuts[0].sawn.cut.name}"
    return f"cuts {', '.join(str(cut.number) for cut in cuts)}"


def _advice(cuts: list[CutRecord], under: float, saw: Saw) -> str:
    offset = saw.guide_offset.mm
    return guide_advice(
        to_keep_side=saw.guide_side == "waste" and all(_under(cut, "keep", offset) > under for cut in cuts),
        to_narrow_shoe=saw.shoe_side == "wide" and saw.guide_offset_narrow.mm < offset,
    )


def _under(record: CutRecord, side: str, offset: float) -> float:
    """Wood under the guide at its narrowest, from the guide's edge (mm); negative beside the top."""
    return (_kept(record)[0] if side == "keep" else max(0.0, _waste(record))) - offset


def _kept(record: CutRecord) -> tuple[float, float]:
    """Narrowest and widest wood of the keep side opposite to the keep line (mm)."""
    keep = record.keep
    frame = Frame.on(keep)
    edges = [frame.moved(edge) for edge in record.sawn.kept.outer.segments]
    found = _across(edges, keep.length)
    deepest = span(edges, (0.0, 1.0))[1]
    return (min(found), max(found)) if found else (deepest, deepest)


def _waste(record: CutRecord) -> float:
    """Narrowest wood beyond the kerf (mm), negative where less than the kerf comes off; 0 at a point."""
    kerf, datum = record.sawn.cut.kerf, record.off
    if datum is not None:
        return datum.distance - kerf
    if len(record.sawn.offcuts) > 1 or record.offcut is None:
        return -kerf
    frame = record.offcut.frame
    edges = [frame.moved(edge) for edge in record.offcut.region.outer.segments]
    return min(_across(edges, record.offcut.length), default=0.0)


def _across(edges: Iterable[Segment], length: float) -> list[float]:
    """Heights above the cut, which is the axis from 0 to ``length``, at which edges that face it lie (mm)."""
    found: list[float] = []
    for edge in edges:
        if isinstance(edge, Line):
            (x0, y0), (x1, y1) = edge.start, edge.end
            low, high = max(min(x0, x1), 0.0), min(max(x0, x1), length)
            if high - low <= NODE_MM or x0 - x1 <= _FACING * edge.length:
                continue
            found += [y0 + (y1 - y0) * (x - x0) / (x1 - x0) for x in (low, high)]
            continue
        for step in range(_STEPS + 1):
            x, y = point_at(edge, step / _STEPS)
            if -NODE_MM <= x <= length + NODE_MM and direction(edge, step / _STEPS)[0] <= -_FACING:
                found.append(y)
    return found
