"""What a plan must cover and what it may cut from: sides, sticks and rules of a design, for one strip width."""

from __future__ import annotations

import math
from dataclasses import replace
from fractions import Fraction

from edgewright.compass import PerSide, Side, is_lengthwise
from edgewright.cutlist.boards import Board, board_sticks
from edgewright.cutlist.clean_runs import Clearance
from edgewright.cutlist.grain import grain_under
from edgewright.cutlist.loose import panel_as_cut, with_loose
from edgewright.cutlist.model import DefectBox, PanelAsCut, PlanRules, RingSide, Stick
from edgewright.cutlist.offcuts import OffcutStock, in_offcut, offcut_sticks
from edgewright.design.model import Design
from edgewright.design.ring import ring_spans
from edgewright.job import Job
from edgewright.job_any import AnyJob
from edgewright.job_top import ZERO
from edgewright.ticks import TICKS_PER_MM, part_ticks, snap_up
from edgewright.trade import METAL_CLEARANCE, inch
from edgewright.units import Length

__all__ = [
    "SLIVER",
    "as_cut_panel",
    "defect_box",
    "defect_distances",
    "matching_boards",
    "offcut_stock",
    "offcuts_fit",
    "pitch_ticks",
    "plan_rules",
    "ring_sides",
    "sticks_for",
    "top_defects",
    "width_on_grid",
]

#: A left-over up to this, less than a tape shows, stays on the outermost strip; more is skimmed off by a cut of its
#: own, so that a strip that runs through is as wide as the piece between two of them assumes.
SLIVER = part_ticks(inch("1/128"))


def plan_rules(design: Design, strip_width: int) -> PlanRules:
    """Rules of a job as whole ticks for strips of one width."""
    job = design.job
    kerf = job.saw.kerf.ticks_up()
    return PlanRules(
        grid_ticks=design.sizes.grid,
        kerf_ticks=kerf,
        mitre_kerf_ticks=mitre_kerf(kerf),
        nest_mitres=job.edge.nest_mitres,
        splices_allowed=job.splice.allowed,
        min_piece_ticks=job.splice.min_piece.ticks_up(),
        from_corner_ticks=job.splice.from_corner.ticks_up(),
        from_seam_ticks=job.splice.from_seam.ticks_up(),
        stagger_ticks=math.ceil(Fraction(str(job.splice.stagger_widths)) * strip_width),
        guide_side=job.saw.guide_side,
        guide_offset_ticks=job.saw.guide_offset.ticks(),
        sliver_ticks=SLIVER,
        labour_cents=job.planning.labour_cents(),
        effort_percent=job.planning.effort,
        defect_clearance_ticks=job.saw.defect_clearance.ticks_up(),
        metal_clearance_ticks=part_ticks(METAL_CLEARANCE.value),
    )


def mitre_kerf(kerf: int) -> int:
    """Kerf measured along the strip at a mitre, kerf x sqrt(2), rounded up to whole ticks."""
    root = math.isqrt(2 * kerf * kerf)
    return root if root * root == 2 * kerf * kerf else root + 1


def pitch_ticks(strip_width: int, kerf: int, grid: int) -> int:
    """Distance between neighbouring keep lines: strip and kerf, snapped up to the bench grid."""
    return snap_up(strip_width + kerf, grid)


def width_on_grid(width: int, kerf: int, grid: int) -> int:
    """Least strip width, at least ``width``, whose pitch lies on the bench grid, so that all keep lines do."""
    return pitch_ticks(width, kerf, grid) - kerf


def ring_sides(design: Design, strip_width: int) -> tuple[RingSide, ...]:
    """Sides of all layers of the ring, named by the first letter of the compass and the layer."""
    edge = design.job.edge
    spans = ring_spans(
        design.sizes.finished,
        strip_width,
        corners=edge.corners,
        through=edge.through,
        proud=edge.proud.ticks_up(),
        layers=edge.layers,
        alternate=edge.alternate_layers,
    )
    sides = []
    for span in spans:
        lengthwise = is_lengthwise(span.side)
        origin = design.sizes.origin[0 if lengthwise else 1] + span.start_offset
        crossing = "length" if lengthwise else "width"
        seams = (seam.at.ticks() - origin for seam in design.job.top.seams if seam.across == crossing)
        sides.append(
            RingSide(
                id=f"{span.side[0].upper()}{span.layer}",
                side=span.side,
                layer=span.layer,
                length_ticks=span.length,
                start_offset_ticks=span.start_offset,
                end_offset_ticks=span.end_offset,
                seams_ticks=tuple(sorted(at for at in seams if 0 < at < span.length)),
                end_cut="mitre" if span.mitred else "square",
                max_splices=_most_splices(job=design.job, mitred=span.mitred, length=span.length),
                grain=grain_under(design, span.side),
            )
        )
    return tuple(sides)


def _most_splices(*, job: Job, mitred: bool, length: int) -> int:
    """Splices allowed in a side; a mitred side takes at most one, so that each piece has at most one mitre."""
    most = job.splice.most(Fraction(length, TICKS_PER_MM))
    return min(most, 1) if mitred else most


def matching_boards(job: AnyJob) -> tuple[Board, ...]:
    """Boards of the strips' thickness (to the nearest 1/64 in or 0.1 mm) and material."""
    fits = part_ticks(inch("1/64"))
    boards = []
    for board in job.stock:
        if job.board_material(board) != job.top.material:
            continue
        if abs(board.thickness.ticks() - job.strip_thickness.ticks()) > fits:
            continue
        boards.append(
            Board(
                name=board.name,
                length=board.length.ticks_down(),
                width=board.width.ticks_down(),
                finished_depth=board.finished_depth.ticks_up(),
                count=board.limit,
                price_cents=board.price_cents,
                defects=tuple(
                    defect_box(d.name, d.metal, d.along, d.across or (ZERO, board.width))
                    for d in board.defects
                ),
            )
        )
    return tuple(boards)


def top_defects(job: Job) -> tuple[DefectBox, ...]:
    """Defects of the old top, ticks; what is not whole goes outwards."""
    return tuple(defect_box(d.name, d.metal, d.along, d.across) for d in job.top.defects)


def defect_box(name: str, metal: bool, along: tuple[Length, ...], across: tuple[Length, ...]) -> DefectBox:
    """A defect in ticks; what is not whole goes outwards."""
    return DefectBox(
        name,
        metal,
        (along[0].ticks_down(), along[1].ticks_up()),
        (across[0].ticks_down(), across[1].ticks_up()),
    )


def offcuts_fit(job: AnyJob) -> bool:
    """Whether the offcuts are as thick as the strips, within 1/32 in."""
    return abs(job.strip_thickness.ticks() - job.top.thickness_mean.ticks()) <= part_ticks(inch("1/32"))


def sticks_for(design: Design, strip_width: int, *, for_sale: bool = True) -> tuple[Stick, ...]:
    """All sticks for strips of one width: offcuts (if as thick as the strips), boards on hand, boards for sale."""
    job, begun = design.job, design.begun
    stock = offcut_stock(design, strip_width)
    sticks = offcut_sticks(stock, SLIVER)
    if begun is not None:
        sticks = with_loose(sticks, begun, stock, strip_width, SLIVER)
    if not offcuts_fit(job):
        sticks = tuple(replace(stick, lanes=()) for stick in sticks)
    need = sum(side.length_ticks for side in ring_sides(design, strip_width))
    boards = tuple(b for b in matching_boards(job) if for_sale or b.price_cents is None)
    sticks += board_sticks(boards, strip_width, stock.kerf, need, stock.clearance, stock.grid)
    return tuple(replace(stick, grain=grain_under(design, stick.side)) for stick in sticks)


def as_cut_panel(design: Design, strip_width: int) -> PanelAsCut | None:
    """The panel and its loose strips after the cuts made; None before the first."""
    if design.begun is None:
        return None
    panel = panel_as_cut(design.begun, offcut_stock(design, strip_width), strip_width, SLIVER)
    if not offcuts_fit(design.job):
        panel = replace(panel, loose=tuple(replace(strip, lanes=()) for strip in panel.loose))
    return panel


def offcut_stock(design: Design, strip_width: int) -> OffcutStock:
    """What decides the strips of one width that the offcuts of a job give."""
    job, sizes, begun = design.job, design.sizes, design.begun
    kerf = job.saw.kerf.ticks_up()
    return OffcutStock(
        old=sizes.old,
        finished=sizes.finished,
        amounts=sizes.amounts if begun is None else begun.still,
        finished_depth=PerSide.build(lambda side: job.top.finished_edge[side].depth.ticks_up()),
        corner_radius=job.top.corner_radius.ticks_up(),
        kerf=kerf,
        pitch=pitch_ticks(strip_width, kerf, sizes.grid),
        grid=sizes.grid,
        off=PerSide(0, 0, 0, 0) if begun is None else begun.off,
        defects=top_defects(job),
        clearance=Clearance(job.saw.defect_clearance.ticks_up(), part_ticks(METAL_CLEARANCE.value)),
    )


def defect_distances(design: Design, side: Side) -> tuple[int, ...]:
    """How far outside the finished edge the defects in an offcut begin, ticks, those that begin inside left out."""
    stock = offcut_stock(design, 1)
    boxes = (in_offcut(box, stock, side) for box in stock.defects)
    return tuple(
        sorted({box.across_ticks[0] for box in boxes if 0 < box.across_ticks[0] < stock.amounts[side]})
    )
