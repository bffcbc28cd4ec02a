"""The data of a batch; lengths are ticks.

Words
-----
wood
    A kind of board that the jobs share: a rack piece or a board for sale.
rip way
    One way to rip a stick: strips of one width, or of two widths side by side.
family
    Sides of any jobs that may share strips: same wood, same strip width, same splice rules.
run
    The part of a lane that one job has; the pieces of several jobs lie behind one another, the owner's first.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Final, Literal

from edgewright.compass import Side
from edgewright.cutlist.model import DefectBox, Lane, Piece, PlanRules, RingSide, WidthTrial
from edgewright.design.model import Design
from edgewright.job import Job

__all__ = [
    "BatchJob",
    "BatchStage",
    "CutStick",
    "Family",
    "Price",
    "Run",
    "SharedStick",
    "Strip",
    "Wood",
]

#: Longer titles are cut short in names of strips that go from job to job.
_NAME_LENGTH: Final = 24


@dataclass(frozen=True, slots=True)
class BatchJob:
    """One job of a batch: ``number`` counts from 1; ``sides`` have the number in front, like ``2.N1``."""

    number: int
    path: str
    job: Job
    design: Design
    width: int
    trials: tuple[WidthTrial, ...]
    rules: PlanRules
    sides: tuple[RingSide, ...]

    @property
    def name(self) -> str:
        """Number and title, the title cut short."""
        title = " ".join(self.job.info.title.split())
        if len(title) > _NAME_LENGTH:
            title = title[: _NAME_LENGTH - 1].rstrip() + "…"
        return f"{self.number} {title}"

    @property
    def mitred(self) -> bool:
        """Whether its sides have mitred ends."""
        return self.job.edge.corners == "mitre"


@dataclass(frozen=True, slots=True)
class Wood:
    """A kind of board that the jobs share; ``count`` None is as many as needed, ``price_cents`` None is on hand."""

    name: str
    length: int
    width: int
    thickness: int
    material: str
    finished_depth: int
    count: int | None
    price_cents: int | None
    defects: tuple[DefectBox, ...] = ()


@dataclass(frozen=True, slots=True)
class Family:
    """Sides that may share strips; ``rules`` without what only the saw of a job decides."""

    material: str
    strip_thickness: int
    width: int
    rules: PlanRules
    mitred: bool
    joint: int
    alone: int | None
    """Number of the one job whose mitres nest; its strips are its own."""


@dataclass(frozen=True, slots=True)
class Strip:
    """A strip in a rip way: its lanes, the width it was made for, from keep line to keep line, who can use it."""

    lanes: tuple[Lane, ...]
    width: int
    pitch: int
    families: tuple[int, ...]

    @property
    def name(self) -> str:
        """Name of the strip."""
        return self.lanes[0].strip


@dataclass(frozen=True, slots=True)
class SharedStick:
    """An offcut of a job or a board, with every way in which it may be ripped; `job` is the number, 0 for a board."""

    id: str
    name: str
    source: Literal["offcut", "on hand", "for sale"]
    job: int
    side: Side | None
    length: int
    width: int
    price_cents: int
    edge_waste: int
    defects: tuple[DefectBox, ...]
    ways: tuple[tuple[Strip, ...], ...]


@dataclass(frozen=True, slots=True)
class CutStick:
    """A stick that the plan cuts, its group and the way it is ripped in."""

    stick: SharedStick
    group: int
    way: int

    @property
    def strips(self) -> tuple[Strip, ...]:
        """The strips it gives, in the order they lie in."""
        return self.stick.ways[self.way]


@dataclass(frozen=True, slots=True)
class Run:
    """The part of a lane that one job has: ``start`` within the lane; pieces are measured from there."""

    job: int
    lane: Lane
    start: int
    length: int
    pieces: tuple[Piece, ...]

    @property
    def placed(self) -> tuple[Piece, ...]:
        """The pieces measured from the start of the lane."""
        return tuple(
            replace(piece, lane_start_ticks=piece.lane_start_ticks + self.start) for piece in self.pieces
        )


@dataclass(frozen=True, slots=True)
class Price:
    """What sides, or lanes, of one kind are worth in a certificate: see ``check_batch``."""

    kind: int
    value: int


@dataclass(frozen=True, slots=True)
class BatchCertificate:
    """Whole numbers that prove a bound: prices of the kinds of sides and lanes, and of the stages before."""

    scale: int
    sides: tuple[Price, ...]
    lanes: tuple[Price, ...]
    budgets: tuple[int, ...]
    most_lanes: int


@dataclass(frozen=True, slots=True)
class BatchStage:
    """A stage of the objective for all jobs together; the bound is what the checker recomputed."""

    name: str
    value: int
    bound: int | None
    proven: bool
    why: str
    certificate: BatchCertificate | None = None
