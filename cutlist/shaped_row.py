"""One row of a comparison of a top with an outline: what it is made of, what comes off, and the edge."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from edgewright.cutlist.rows import AnyRow
from edgewright.cutlist.shaped_plan import ShapedPlan
from edgewright.design.anytop.model import ShapedDesign
from edgewright.design.buildup.ring_stock import BlankRow
from edgewright.design.outline import Line, Outline
from edgewright.design.region import Region
from edgewright.design.segments import distance
from edgewright.design.trims.clean_wood import clean_wood
from edgewright.design.trims.cut_order import ring_length, widest_strip
from edgewright.design.trims.usable_rectangle import lane_lengths
from edgewright.errors import GeometryError
from edgewright.findings import open_stops
from edgewright.trade import inch

__all__ = ["Blank", "ShapedRow", "shaped_row"]

#: Directions whose cosine is below this are square to one another: half a tick over 20 ft.
_SQUARE: Final = 1e-6
#: Narrower than this nothing is looked for: no pin holds it.
_NARROWEST_MM: Final = float(inch("1/4"))


@dataclass(frozen=True, slots=True)
class Blank:
    """Blanks of one size."""

    count: int
    kind: str
    length_mm: float
    width_mm: float
    thickness_mm: float


@dataclass(frozen=True, slots=True)
class ShapedRow(AnyRow):
    """What is compared of one variant of a top with an outline.

    Attributes
    ----------
    blanks, running_mm, board_area_mm2
        All blanks: sizes, their length one after another and their area, kerfs included.
    to_buy
        Those of them that offcuts and stock do not give; they must be bought or found.
    sticks, boards_cents
        Offcuts and boards that the others are cut from, and what the boards for sale among them cost.
    yield_part
        How much of that area is glued under the top; None where nothing lies flat.
    finished_mm
        Length and width of what is left: sides of a rectangle, else the box around it.
    comes_off_mm2
        Area that comes off the old top, kerfs included.
    most_off_mm
        How far the corner of the old top that loses most lies outside what is left.
    offcut_strip_mm
        Length of all strips of ``strip_width_mm`` in the clean wood of the offcuts; None where nothing is sawn off.
    offcut_widest_mm
        Widest strip of which the offcuts hold the length of the whole build-up; 0 if no width does.
    weight_g
        Of the finished top, as expected.
    """

    blanks: tuple[Blank, ...] = ()
    to_buy: tuple[Blank, ...] = ()
    sticks: int = 0
    boards_cents: int = 0
    running_mm: float = 0.0
    board_area_mm2: float = 0.0
    yield_part: float | None = None
    finished_mm: tuple[float, float] | None = None
    finished_area_mm2: float | None = None
    comes_off_mm2: float | None = None
    most_off_mm: float | None = None
    strip_width_mm: float | None = None
    offcut_strip_mm: float | None = None
    offcut_widest_mm: float | None = None
    weight_g: float | None = None

    @property
    def blank_count(self) -> int:
        """Blanks in all."""
        return sum(blank.count for blank in self.blanks)

    @property
    def cut_count(self) -> int:
        """Blanks that are cut from offcuts and stock."""
        return self.blank_count - sum(blank.count for blank in self.to_buy)


def shaped_row(result: ShapedPlan, name: str, *, as_written: bool = False) -> ShapedRow:
    """Collect what is compared of one plan."""
    design, cut = result.design, result.build_up
    board = math.fsum(row.board_area for row in result.blanks)
    flat = design.job.edge.build_up == "flat" and board > 0
    weight = None if result.takeoff is None else result.takeoff.total("weight")
    left = design.trims.finished.outline
    strip, widest = _offcut_strips(design)
    return ShapedRow(
        name,
        as_written=as_written,
        ready=result.ready,
        why="; ".join(_why_not(result)),
        plan_code=result.code,
        edge_area_mm2=None if design.metrics is None else design.metrics.edge_mm2,
        edge_thickness_mm=design.edge_thickness_mm,
        findings=result.findings,
        blanks=_blanks(result.blanks),
        to_buy=_blanks(cut.to_buy),
        sticks=cut.sticks_used,
        boards_cents=cut.cost_cents,
        running_mm=math.fsum(row.running_length for row in result.blanks),
        board_area_mm2=board,
        yield_part=design.glue_face_mm2 / board if flat else None,
        finished_mm=_size(left),
        finished_area_mm2=left.area,
        comes_off_mm2=max(0.0, design.old.outline.area - left.area),
        most_off_mm=_most_off(design.old.outline, left),
        strip_width_mm=design.strip_width_mm,
        offcut_strip_mm=strip,
        offcut_widest_mm=widest,
        weight_g=None if weight is None else weight.expected,
    )


def _blanks(rows: Sequence[BlankRow]) -> tuple[Blank, ...]:
    return tuple(Blank(row.count, row.kind, row.length, row.width, row.thickness) for row in rows)


def _why_not(result: ShapedPlan) -> Iterator[str]:
    stops = open_stops(result.findings)
    never = [stop for stop in stops if not stop.overridable]
    for stop in never or stops:  # what cannot exist needs no further reason
        reason = "cannot be:" if never else f"open stop {stop.number},"
        yield f"{reason} {stop.title}, {stop.place}: {stop.figures}"


def _size(outline: Outline) -> tuple[float, float]:
    """Sides of a rectangle that may be turned, the one that runs more to the east first; else the box (mm)."""
    edges = outline.segments
    if len(edges) == 4 and all(isinstance(edge, Line) for edge in edges):
        ways = [(edge.end[0] - edge.start[0], edge.end[1] - edge.start[1]) for edge in edges]
        (ax, ay), (bx, by) = ways[0], ways[1]
        square = all(
            abs(one[0] * after[0] + one[1] * after[1]) <= _SQUARE * math.hypot(*one) * math.hypot(*after)
            for one, after in zip(ways, (*ways[1:], ways[0]), strict=True)
        )
        if square:
            sides = math.hypot(ax, ay), math.hypot(bx, by)
            return sides if abs(ax) >= abs(ay) else (sides[1], sides[0])
    x0, y0, x1, y1 = outline.bounds
    return x1 - x0, y1 - y0


def _most_off(old: Outline, left: Outline) -> float:
    return max(min(distance(segment, edge.start) for segment in left.segments) for edge in old.segments)


def _offcut_strips(design: ShapedDesign) -> tuple[float | None, float | None]:
    """Length of strip that the offcuts give at the strip width, and the widest strip that they give all round (mm)."""
    cuts = [sawn.cut for sawn in design.trims.cuts]
    if not cuts:
        return None, None
    job = design.job
    kerf, depth = job.saw.kerf.mm, job.top.finished_edge.depth.mm
    wood = design.trims.offcuts
    if depth:
        try:
            wood = clean_wood(Region(design.old.outline), cuts, range(len(cuts)), depth)
        except GeometryError:  # a cut parts the clean wood: nothing is promised of it
            return None, None
    lanes = [length for one in wood for length in lane_lengths(one, design.strip_width_mm, kerf)]
    once = ring_length(design.trims.cuts[-1].kept)
    layers = job.edge.layers
    return math.fsum(lanes), widest_strip(wood, kerf, lambda width: layers * once(width), _NARROWEST_MM)
