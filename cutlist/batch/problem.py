"""The batch by kinds, as the column generation states it: sides, groups of sticks that are alike, ways, lanes."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from edgewright.cutlist.batch.jobs import families_of
from edgewright.cutlist.batch.model import BatchJob, CutStick, Family, SharedStick, Strip, Wood
from edgewright.cutlist.batch.ways import board_kinds, offcuts
from edgewright.cutlist.clean_runs import Clearance
from edgewright.cutlist.column_generation.pool import LaneKind, SideKind, SplicePool, Way
from edgewright.cutlist.model import RingSide

__all__ = ["LaneKey", "Problem", "batch_problem", "lane_keys"]

#: What lanes of one way are told apart by: length and the families they can serve.
LaneKey = tuple[int, tuple[int, ...]]
#: How many lanes of each kind a way gives.
Signature = tuple[tuple[LaneKey, int], ...]


@dataclass(frozen=True, slots=True)
class Problem:
    """The whole batch.

    Attributes
    ----------
    family_of
        Family of each job, in the order of the jobs.
    sides
        All sides of all jobs; ``side_kinds`` are the positions of those that are alike.
    groups
        Positions of sticks that are alike, in every way in which they can be ripped.
    signatures
        The lanes of each way of the pool; `way_of` finds that way of a stick.
    lane_kinds
        What tells the lanes of each kind of the pool apart in their way.
    """

    jobs: tuple[BatchJob, ...]
    families: tuple[Family, ...]
    family_of: tuple[int, ...]
    sides: tuple[RingSide, ...]
    side_kinds: tuple[tuple[int, ...], ...]
    sticks: tuple[SharedStick, ...]
    groups: tuple[tuple[int, ...], ...]
    signatures: tuple[Signature, ...]
    lane_kinds: tuple[LaneKey, ...]
    pool: SplicePool

    @property
    def kerf(self) -> int:
        """The kerf that all jobs have in common."""
        return self.pool.kerf

    def way_of(self, stick: SharedStick, way: int) -> int:
        """Which way of a stick a way of the pool is."""
        return next(n for n, strips in enumerate(stick.ways) if _signature(strips) == self.signatures[way])

    def pool_way(self, one: CutStick) -> int:
        """Which way of the pool a stick is ripped in."""
        signature = _signature(one.strips)
        return next(
            n
            for n, way in enumerate(self.pool.ways)
            if way.group == one.group and self.signatures[n] == signature
        )


def lane_keys(way: Sequence[Strip]) -> Counter[LaneKey]:
    """Lanes of a way by what tells them apart; those without length are none."""
    return Counter(
        (lane.length_ticks, strip.families) for strip in way for lane in strip.lanes if lane.length_ticks
    )


def _signature(way: Sequence[Strip]) -> Signature:
    return tuple(sorted(lane_keys(way).items()))


def batch_problem(jobs: Sequence[BatchJob], wood: Sequence[Wood]) -> Problem:
    """State the batch; wood that no job can use is left out."""
    families, family_of = families_of(jobs)
    sides = tuple(side for job in jobs for side in job.sides)
    kerf = jobs[0].rules.kerf_ticks
    of_side = [family_of[job.number - 1] for job in jobs for _ in job.sides]
    needs = [0] * len(families)
    for side, family in zip(sides, of_side, strict=True):
        needs[family] += side.length_ticks
    clearance = Clearance(
        max(job.rules.defect_clearance_ticks for job in jobs),
        max(job.rules.metal_clearance_ticks for job in jobs),
    )
    grid = max(job.rules.grid_ticks for job in jobs)
    sticks: list[SharedStick] = []
    for job in jobs:
        sticks += offcuts(job, family_of[job.number - 1], families)
    for kind in wood:
        sticks += board_kinds(kind, families, needs, clearance, kerf, grid)
    kinds = _side_kinds(sides, of_side, families)
    side_kinds = [
        SideKind(
            sides[members[0]].length_ticks,
            len(members),
            _splices(sides[members[0]], families[of_side[members[0]]]),
            of_side[members[0]],
        )
        for members in kinds
    ]
    groups, signatures, ways, lanes, keys = _groups(sticks)
    pool = SplicePool(
        tuple(side_kinds),
        tuple(ways),
        tuple(len(members) for members in groups),
        tuple(lanes),
        tuple(family.joint for family in families),
        kerf,
    )
    return Problem(
        tuple(jobs),
        families,
        family_of,
        sides,
        kinds,
        tuple(sticks),
        groups,
        tuple(signatures),
        tuple(keys),
        pool,
    )


def _side_kinds(
    sides: Sequence[RingSide], of_side: Sequence[int], families: Sequence[Family]
) -> tuple[tuple[int, ...], ...]:
    """Positions of sides that are alike to a plan, in an order that does not depend on that of the jobs."""
    found: dict[tuple[object, ...], list[int]] = {}
    for n, (side, family) in enumerate(zip(sides, of_side, strict=True)):
        key = (
            family, -side.length_ticks, _splices(side, families[family]), side.start_offset_ticks,
            side.end_offset_ticks, side.seams_ticks,
        )  # fmt: skip
        found.setdefault(key, []).append(n)
    return tuple(tuple(members) for _, members in sorted(found.items()))


def _splices(side: RingSide, family: Family) -> int:
    if not family.rules.splices_allowed:
        return 0
    return max(0, min(side.max_splices, side.length_ticks // max(1, family.rules.min_piece_ticks) - 1))


def _groups(
    sticks: Sequence[SharedStick],
) -> tuple[tuple[tuple[int, ...], ...], list[Signature], list[Way], list[LaneKind], list[LaneKey]]:
    alike: dict[tuple[bool, int, tuple[Signature, ...]], list[int]] = {}
    for n, stick in enumerate(sticks):
        useful = tuple(sorted({signature for way in stick.ways if (signature := _signature(way))}))
        if useful:
            alike.setdefault((stick.source == "for sale", stick.price_cents, useful), []).append(n)
    groups: list[tuple[int, ...]] = []
    signatures: list[Signature] = []
    ways: list[Way] = []
    lanes: list[LaneKind] = []
    keys: list[LaneKey] = []
    for (_, price, useful), members in sorted(alike.items()):
        for signature in useful:
            signatures.append(signature)
            for (length, families), count in sorted(signature, reverse=True):
                lanes.append(LaneKind(length, len(ways), count, families))
                keys.append((length, families))
            ways.append(Way(len(groups), price))
        groups.append(tuple(members))
    return tuple(groups), signatures, ways, lanes, keys
