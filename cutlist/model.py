"""The cut plan as frozen data; the field names are the keys of ``cut_plan`` in plan.json and carry their unit.

Words
-----
side
    One side of one layer of the ring, to be covered end to end by pieces. ``N2`` is the north side of layer 2;
    layer 1 lies against the top. Positions along a side run from its start: the west end of a north or south
    side, the south end of an east or west side.
stick
    An offcut of this job, a board on hand or a board to be bought.
strip
    What one rip frees from a stick, full strip width and full length.
lane
    A clean run of a strip; it is crosscut to pieces. A strip without defects is one lane. Positions along a lane run
    from its start end, after what lies before it was cut off (``trim_start_ticks``).
piece
    What is glued on: from one lane, into one side.
keep line
    Where the wood that stays begins; the kerf lies beside it on the waste side, never on it.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from edgewright.compass import Side

__all__ = [
    "Certificate",
    "CutPlan",
    "DefectBox",
    "DualPrice",
    "EndCut",
    "Grain",
    "Lane",
    "LooseStrip",
    "MapStrip",
    "PanelAsCut",
    "Piece",
    "PlanRules",
    "Remnant",
    "RingSide",
    "SawCut",
    "Shortage",
    "Source",
    "Stage",
    "Stick",
    "WidthTrial",
]

EndCut = Literal["square", "mitre"]
#: How the grain of solid wood runs in a strip; "" where it does not matter.
Grain = Literal["", "along", "across"]
Source = Literal["offcut", "on hand", "for sale"]


@dataclass(frozen=True, slots=True)
class RingSide:
    """A side of one layer that pieces must cover end to end.

    Attributes
    ----------
    length_ticks
        Length to cover; for a mitred side its long (outer) edge.
    start_offset_ticks, end_offset_ticks
        Distance along the side from the finished corner to the strip's end; negative where it stands proud.
    seams_ticks
        Positions along the side (from its start) where the top has a panel seam.
    max_splices
        Splices allowed in this side.
    grain
        How the grain must run in its strips.
    """

    id: str
    side: Side
    layer: int
    length_ticks: int
    start_offset_ticks: int
    end_offset_ticks: int
    seams_ticks: tuple[int, ...]
    end_cut: EndCut
    max_splices: int
    grain: Grain = ""


@dataclass(frozen=True, slots=True)
class DefectBox:
    """A place that no piece may include: from and to along and across.

    In the frame of the old top (from the west end, from the south edge), or in that of a board: along from its marked
    end, across from the edge that strips are ripped from.
    """

    name: str
    metal: bool
    along_ticks: tuple[int, int]
    across_ticks: tuple[int, int]


@dataclass(frozen=True, slots=True)
class Lane:
    """A clean run of a strip: ``length_ticks`` is what can be used, 0 where a strip has no clean wood at all.

    ``trim_start_ticks`` and ``trim_end_ticks`` are what lies before and behind it in the strip as ripped, other runs
    among it. ``strip`` is the strip it lies in; "" means that it is a strip of its own, named like the lane.
    """

    id: str
    length_ticks: int
    width_ticks: int
    trim_start_ticks: int
    trim_end_ticks: int
    strip: str = ""

    def __post_init__(self) -> None:
        if not self.strip:
            object.__setattr__(self, "strip", self.id)

    @property
    def raw_ticks(self) -> int:
        """Length of its strip as ripped."""
        return self.trim_start_ticks + self.length_ticks + self.trim_end_ticks


@dataclass(frozen=True, slots=True)
class Stick:
    """An offcut or a board; offcut lanes are listed from the finished edge outwards.

    All sticks that could have been used are kept in the plan, used or not, so that bounds can be recomputed; a
    board for sale with a count stands as that many sticks. A board for sale is bought when a piece comes from it.
    ``edge_waste_ticks`` is the old finish along each long edge of a board, which must not get into a strip;
    ``defects`` are those of a board, for those of offcuts lie in the old top.
    """

    id: str
    name: str
    source: Source
    side: Side | None
    length_ticks: int
    width_ticks: int
    price_cents: int
    lanes: tuple[Lane, ...]
    edge_waste_ticks: int = 0
    defects: tuple[DefectBox, ...] = ()
    grain: Grain = ""

    @property
    def strips(self) -> tuple[tuple[Lane, ...], ...]:
        """The lanes by strips, in the order in which the strips lie."""
        rows: dict[str, list[Lane]] = {}
        for lane in self.lanes:
            rows.setdefault(lane.strip, []).append(lane)
        return tuple(map(tuple, rows.values()))

    @property
    def clean_strips(self) -> int:
        """How many strips have clean wood."""
        return sum(any(lane.length_ticks for lane in strip) for strip in self.strips)


@dataclass(frozen=True, slots=True)
class Piece:
    """A piece: where it lies in its lane and where in its side.

    A turned piece (mitres nested end for end) has its long edge on the other edge of the lane; ``lane_start_ticks``
    is measured along the piece's own long edge.
    """

    id: str
    side_id: str
    lane_id: str
    length_ticks: int
    side_start_ticks: int
    lane_start_ticks: int
    start_cut: EndCut
    end_cut: EndCut
    turned: bool


@dataclass(frozen=True, slots=True)
class MapStrip:
    """A piece on the underside map: origin at the finished corner that is bottom left with the top face down.

    The top is turned over about its north-south axis, so x runs from the east edge to the west edge and y from
    south to north: ``x_underside = finished length - x_above``. Mitred pieces give the box of their long edge.
    """

    piece_id: str
    x0_ticks: int
    y0_ticks: int
    x1_ticks: int
    y1_ticks: int


@dataclass(frozen=True, slots=True)
class SawCut:
    """One straight cut through the panel; all positions are measured from the datum edge, away from it.

    The kerf is ``keep_ticks`` to ``kerf_end_ticks``, on the far (waste) side of the keep line. ``guide_ticks`` is
    where the edge of the guide is clamped. ``yields`` is a strip, or a remnant id.
    """

    number: int
    kind: Literal["rip", "crosscut"]
    side: Side
    datum: Side
    datum_edge: Literal["old", "fresh"]
    keep_ticks: int
    kerf_end_ticks: int
    guide_side: Literal["keep", "waste"]
    guide_offset_ticks: int
    guide_ticks: int
    panel_before_ticks: int
    offcut_width_ticks: int
    offcut_length_ticks: int
    yields: str | None


@dataclass(frozen=True, slots=True)
class Remnant:
    """What goes back to the rack: a full-width lane end, an unused lane or what is left of a stick."""

    id: str
    stick_id: str
    length_ticks: int
    width_ticks: int


@dataclass(frozen=True, slots=True)
class DualPrice:
    """What sides, or lanes of sticks, of one length are worth in a certificate; ``ids`` of the sides or sticks."""

    ids: tuple[str, ...]
    length_ticks: int
    value: int


@dataclass(frozen=True, slots=True)
class Certificate:
    """Whole numbers that prove the bound of a stage: see ``check_duals``.

    ``scale`` is one unit of the stage; ``lanes`` name one stick of each kind; ``budgets`` are the prices of the stages
    before; components of up to ``most_lanes`` lanes are to be looked at one by one.
    """

    scale: int
    sides: tuple[DualPrice, ...]
    lanes: tuple[DualPrice, ...]
    budgets: tuple[int, ...]
    most_lanes: int


@dataclass(frozen=True, slots=True)
class Stage:
    """One stage of the lexicographic objective: ``bound`` is what the checker recomputed without the solver.

    ``certificate`` is there where the bound follows from it; else the checker finds it by looking at every case.
    """

    name: str
    value: int
    bound: int | None
    proven: bool
    why: str
    certificate: Certificate | None = None


@dataclass(frozen=True, slots=True)
class WidthTrial:
    """One strip width that was tried for ``widest``: fits, or the inequality (or rule) that forbids it."""

    strip_width_ticks: int
    lanes: int
    need_ticks: int
    have_ticks: int
    fits: bool
    reason: str


@dataclass(frozen=True, slots=True)
class Shortage:
    """Why there is no plan.

    ``by_length``: ``need_ticks`` exceeds ``have_ticks`` even with unlimited splices. Otherwise the pieces cannot be
    laid out; ``proven`` says whether the checker, by counting alone, found that too, or only the solver did.
    """

    strip_width_ticks: int
    sides: int
    lanes: int
    sides_sum_ticks: int
    joints_ticks: int
    need_ticks: int
    have_ticks: int
    by_length: bool
    proven: bool
    sentence: str
    buy_length_ticks: int | None
    buy_sentence: str


@dataclass(frozen=True, slots=True)
class LooseStrip:
    """A piece that came off in a cut already made, as measured; ``lanes`` are the strips that it gives.

    It counts to the offcut of its side. Lanes lie side by side from its inner edge, a fresh saw cut, outwards;
    ``edge_waste_ticks`` is the old finish along its outer edge, which must not get into a strip.
    """

    id: str
    cut: int
    side: Side
    length_ticks: int
    width_ticks: int
    edge_waste_ticks: int
    lanes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class PanelAsCut:
    """Where the edges of the panel lie in the frame of the old top after the cuts made, and what came off.

    ``fresh`` are the sides that have been cut: an edge of theirs is a fresh datum.
    """

    cuts_made: int
    west_ticks: int
    south_ticks: int
    east_ticks: int
    north_ticks: int
    fresh: tuple[Side, ...]
    loose: tuple[LooseStrip, ...]


@dataclass(frozen=True, slots=True)
class PlanRules:
    """The figures the plan was made by, repeated so that it can be checked from itself alone.

    ``defect_clearance_ticks`` stays clear between a defect and a piece along its strip, ``metal_clearance_ticks``
    between metal and a kerf. ``labour_cents`` for a splice, a stick and a strip, where material and labour are weighed
    together; ``effort_percent`` of the usual work.
    """

    grid_ticks: int
    kerf_ticks: int
    mitre_kerf_ticks: int
    nest_mitres: bool
    splices_allowed: bool
    min_piece_ticks: int
    from_corner_ticks: int
    from_seam_ticks: int
    stagger_ticks: int
    guide_side: Literal["keep", "waste"]
    guide_offset_ticks: int
    sliver_ticks: int
    defect_clearance_ticks: int = 0
    metal_clearance_ticks: int = 0
    labour_cents: tuple[int, int, int] | None = None
    effort_percent: int = 100


@dataclass(frozen=True, slots=True)
class CutPlan:
    """The whole plan. ``status`` is ``"ready"`` or ``"impossible"``; then ``shortage`` says why and pieces are empty.

    ``old_ticks`` and ``finished_ticks`` are (length, width); ``finished_origin_ticks`` is the finished south-west
    corner in the frame of the old top. ``strip_map_view`` is always "underside": strips are fitted with the top
    face down, west and east trade places. ``defects`` are those of the old top. ``as_cut`` is None before the first
    cut; else ``cuts`` are those that are left, numbered on from those made.
    """

    status: Literal["ready", "impossible"]
    rules: PlanRules
    corners: Literal["butt", "pinwheel", "mitre"]
    strip_map_view: Literal["underside"]
    old_ticks: tuple[int, int]
    finished_ticks: tuple[int, int]
    finished_origin_ticks: tuple[int, int]
    proud_ticks: int
    strip_width_ticks: int
    pitch_ticks: int
    sides: tuple[RingSide, ...]
    sticks: tuple[Stick, ...]
    pieces: tuple[Piece, ...]
    strip_map: tuple[MapStrip, ...]
    cuts: tuple[SawCut, ...]
    remnants: tuple[Remnant, ...]
    stages: tuple[Stage, ...]
    trials: tuple[WidthTrial, ...]
    shortage: Shortage | None
    defects: tuple[DefectBox, ...] = ()
    as_cut: PanelAsCut | None = None

    @property
    def first_edges(self) -> dict[Side, int]:
        """Where the panel's edges lie before the first cut of the plan, ticks in the frame of the old top."""
        now = self.as_cut
        if now is None:
            return {"west": 0, "south": 0, "east": self.old_ticks[0], "north": self.old_ticks[1]}
        return {
            "west": now.west_ticks,
            "south": now.south_ticks,
            "east": now.east_ticks,
            "north": now.north_ticks,
        }
