"""Solve a batch and lay its pieces out: components are chosen for all jobs at once, then placed family by family."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Final

from edgewright.cutlist.batch.model import BatchCertificate, CutStick, Price, Run
from edgewright.cutlist.batch.problem import Problem
from edgewright.cutlist.column_generation.batch import generate_batch
from edgewright.cutlist.column_generation.generate import Generated, Limits, Settled
from edgewright.cutlist.column_generation.pool import Column
from edgewright.cutlist.column_generation.relaxation import Proof
from edgewright.cutlist.fill import Segment
from edgewright.cutlist.layout import inwards, lay_pieces
from edgewright.cutlist.model import Lane, Piece, Stick
from edgewright.cutlist.realise import Realised, Realiser

__all__ = ["BATCH_LIMITS", "BatchLayout", "lay_out"]

#: Counts that suit a batch: many programs, each with little time.
BATCH_LIMITS: Final = Limits(rounds=8, nodes=200, pricing=120, gap=1)


@dataclass(frozen=True, slots=True)
class BatchLayout:
    """The sticks that are cut, the runs of all jobs in them, and the certificates of the stages by name."""

    cut: tuple[CutStick, ...]
    runs: tuple[Run, ...]
    certificates: dict[str, BatchCertificate]

    def values(self, problem: Problem) -> tuple[int, int, int, int]:
        """Cents, splices, sticks and strips."""
        return (
            sum(one.stick.price_cents for one in self.cut if one.stick.source == "for sale"),
            sum(len(run.pieces) for run in self.runs) - len(problem.sides),
            len(self.cut),
            len({run.lane.strip for run in self.runs}),
        )


def lay_out(
    problem: Problem,
    *,
    limits: Limits = BATCH_LIMITS,
    ticking: Callable[[str], None] = lambda words: None,
) -> BatchLayout | None:
    """Best layout found for all jobs together, or None where none was.

    Parameters
    ----------
    ticking
        Called with a few words before each step; may raise to stop.
    """
    placer = _Placer(problem)
    generated = generate_batch(
        problem.pool,
        placer.place,
        lambda plan: _laid_out(problem, plan).values(problem),
        _own_ways(problem),
        limits=limits,
        ticking=ticking,
    )
    return None if generated is None else _laid_out(problem, generated)


def _laid_out(problem: Problem, generated: Generated) -> BatchLayout:
    cut = sticks_cut(problem, generated.ways)
    runs = _drawn_in(problem, cut, _runs(problem, cut, generated.segments))
    used = {run.lane.id for run in runs}
    touched = tuple(
        one for one in cut if any(lane.id in used for strip in one.strips for lane in strip.lanes)
    )
    return BatchLayout(touched, runs, _certificates(generated.stages))


def _own_ways(problem: Problem) -> tuple[int, ...]:
    """How many sticks are ripped in each way when the offcuts of a job give it as many of its own strips as can be."""
    pool, counts = problem.pool, [0] * len(problem.pool.ways)
    for group, members in enumerate(problem.groups):
        ways = [n for n, way in enumerate(pool.ways) if way.group == group]
        for member in members:
            stick = problem.sticks[member]
            if stick.source != "offcut":
                continue
            family = problem.family_of[stick.job - 1]

            def own_length(n: int, family: int = family) -> int:
                return sum(k * length for (length, served), k in problem.signatures[n] if family in served)

            best = max(ways, key=lambda n: (own_length(n), -n))
            if own_length(best):
                counts[best] += 1
    return tuple(counts)


def sticks_cut(problem: Problem, ways: Sequence[int]) -> tuple[CutStick, ...]:
    """The sticks that are ripped when so many are in each way, in the order of the sticks."""
    found: list[tuple[int, CutStick]] = []
    for group, members in enumerate(problem.groups):
        free = list(members)
        for way, count in enumerate(ways):
            if problem.pool.ways[way].group == group:
                for member in free[:count]:
                    stick = problem.sticks[member]
                    found.append((member, CutStick(stick, group, problem.way_of(stick, way))))
                del free[:count]
    return tuple(stick for _, stick in sorted(found, key=lambda entry: entry[0]))


class _Placer:
    """Places the pieces of components, each family by its own rules."""

    def __init__(self, problem: Problem) -> None:
        self.problem = problem
        self.realisers = [
            Realiser(problem.sides, problem.side_kinds, family.rules) for family in problem.families
        ]

    def place(self, uses: Sequence[Column], ways: Sequence[int]) -> Realised:
        """Segments of all uses, or which of them failed."""
        free = self._lanes(ways)
        segments: list[Segment] = []
        alone: set[int] = set()
        together: set[int] = set()
        for family, realiser in enumerate(self.realisers):
            own = [n for n, use in enumerate(uses) if self.problem.pool.family_of(use) == family]
            placed = realiser.realise([uses[n] for n in own], free)
            if placed.segments is None:
                alone |= {own[n] for n in placed.alone}
                together |= {own[n] for n in placed.together if not placed.alone}
                continue
            segments += placed.segments
            taken = {segment.lane_id for segment in placed.segments}
            free = [[lane for lane in kind if lane.id not in taken] for kind in free]
        if alone or together:
            return Realised(None, frozenset(alone), frozenset(together))
        return Realised(tuple(segments))

    def _lanes(self, ways: Sequence[int]) -> list[list[Lane]]:
        """Real lanes of each kind, inner ones first, sticks one after the other."""
        problem = self.problem
        of_way: dict[tuple[int, int], list[tuple[Lane, tuple[int, ...]]]] = {}
        for one in sticks_cut(problem, ways):
            lanes = [(lane, strip.families) for strip in one.strips for lane in strip.lanes]
            of_way.setdefault((one.group, problem.pool_way(one)), []).extend(lanes)
        return [
            [
                lane
                for lane, families in of_way.get((problem.pool.ways[kind.way].group, kind.way), [])
                if (lane.length_ticks, families) == key
            ]
            for kind, key in zip(problem.pool.lanes, problem.lane_kinds, strict=True)
        ]


def _runs(problem: Problem, cut: Sequence[CutStick], segments: Sequence[Segment]) -> tuple[Run, ...]:
    """The pieces of each lane by jobs: the owner of the wood first, then in the order of the jobs."""
    lanes = [lane for one in cut for strip in one.strips for lane in strip.lanes]
    owner = {lane.id: one.stick.job for one in cut for strip in one.strips for lane in strip.lanes}
    by_lane: dict[str, list[tuple[int, tuple[Piece, ...]]]] = {}
    of_job: dict[int, list[Segment]] = {job.number: [] for job in problem.jobs}
    for segment in segments:
        of_job[int(segment.side_id.partition(".")[0])].append(segment)
    for job in problem.jobs:
        used = {segment.lane_id for segment in of_job[job.number]}
        own_lanes = [lane for lane in lanes if lane.id in used]
        pieces = lay_pieces(of_job[job.number], job.sides, own_lanes, job.rules, job.width)
        for piece in pieces:
            parts = by_lane.setdefault(piece.lane_id, [])
            if parts and parts[-1][0] == job.number:
                parts[-1] = job.number, (*parts[-1][1], piece)
            else:
                parts.append((job.number, (piece,)))
    runs = []
    for lane in lanes:
        start = 0
        parts = by_lane.get(lane.id, [])
        for number, here in sorted(parts, key=lambda part: (part[0] != owner[lane.id], part[0])):
            length = max(piece.lane_start_ticks + piece.length_ticks for piece in here)
            runs.append(Run(number, lane, start, length, here))
            start += length + problem.kerf
    return tuple(runs)


def _drawn_in(problem: Problem, cut: Sequence[CutStick], runs: Sequence[Run]) -> tuple[Run, ...]:
    """Draw the pieces to the inner strips of each offcut, among those of one width, so that few are ripped in vain."""
    moved: dict[str, Lane] = {}
    for one in cut:
        if one.stick.source != "offcut" and not one.stick.defects:
            continue
        for width, families in sorted({(strip.width, strip.families) for strip in one.strips}):
            strips = [s for s in one.strips if (s.width, s.families) == (width, families)]
            lanes = {lane.id: lane for strip in strips for lane in strip.lanes}
            held = [
                Piece(run.lane.id, "", run.lane.id, run.start + run.length, 0, 0, "square", "square", False)
                for run in runs
                if run.lane.id in lanes
            ]
            longest = {piece.id: piece for piece in sorted(held, key=lambda piece: piece.length_ticks)}
            pseudo = Stick(one.stick.id, "", "offcut", None, 0, 0, 0, tuple(lanes.values()))
            moved |= {piece.id: lanes[piece.lane_id] for piece in inwards(tuple(longest.values()), [pseudo])}
    order = {lane.id: n for n, lane in enumerate(lane for one in cut for s in one.strips for lane in s.lanes)}
    drawn = []
    for run in runs:
        lane = moved.get(run.lane.id, run.lane)
        pieces = tuple(replace(piece, lane_id=lane.id) for piece in run.pieces)
        drawn.append(replace(run, lane=lane, pieces=pieces))
    return tuple(sorted(drawn, key=lambda run: (order[run.lane.id], run.start)))


def _certificates(stages: Sequence[Settled]) -> dict[str, BatchCertificate]:
    return {stage.name: _certificate(stage.proof) for stage in stages if stage.proof is not None}


def _certificate(proof: Proof) -> BatchCertificate:
    return BatchCertificate(
        scale=proof.scale,
        sides=tuple(Price(kind, value) for kind, value in enumerate(proof.sides) if value),
        lanes=tuple(Price(kind, value) for kind, value in enumerate(proof.lanes) if value),
        budgets=proof.budgets,
        most_lanes=proof.most_lanes,
    )
