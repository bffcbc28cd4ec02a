"""Each job's own cut plan out of a batch: its panel cuts, its pieces, and the strips that go to or come from others.

A job's own offcut stands in its plan as always. A strip of it that others have all of is there without usable length;
what is of another width is named as what a cut frees. A board that one job alone uses, in its own width, is that job's;
strips of any other board, and of the offcuts of others, come in as sticks of one strip. All parts of a shared strip are
measured from the same end; the last part is parted off first.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from edgewright.compass import Side
from edgewright.cutlist.batch.layout import BatchLayout
from edgewright.cutlist.batch.model import BatchJob, CutStick, Run, Strip
from edgewright.cutlist.batch.problem import Problem
from edgewright.cutlist.checker import check_plan
from edgewright.cutlist.demand import SLIVER, offcut_stock, offcuts_fit, pitch_ticks, top_defects
from edgewright.cutlist.layout import remnants
from edgewright.cutlist.model import CutPlan, Lane, Piece, Remnant, Stage, Stick
from edgewright.cutlist.offcuts import offcut_sticks
from edgewright.cutlist.saw import Ripped, panel_cuts
from edgewright.cutlist.stages import STAGES, plain_plan, refuse_if, stage_values
from edgewright.cutlist.strip_map import strip_map

__all__ = ["job_cut_plan", "local_name", "own_boards"]


def local_name(name: str) -> str:
    """Name of a stick, strip, side or piece without the number of its job in front."""
    return name.partition(".")[2]


def own_boards(problem: Problem, layout: BatchLayout) -> dict[str, int]:
    """Boards that one job alone uses, in its own width: the board's id and the number of the job."""
    found = {}
    for one in layout.cut:
        if one.stick.job:
            continue
        lanes = {lane.id for strip in one.strips for lane in strip.lanes}
        users = {run.job for run in layout.runs if run.lane.id in lanes}
        if len(users) == 1:
            user = problem.jobs[next(iter(users)) - 1]
            if all(strip.width == user.width for strip in one.strips):
                found[one.stick.id] = user.number
    return found


def job_cut_plan(problem: Problem, layout: BatchLayout, job: BatchJob) -> CutPlan:
    """Cut plan of one job of a batch.

    Raises
    ------
    CheckError
        If the independent checker refuses it: a defect of this program.
    """
    parts = _Parts(problem, layout, job)
    sizes, rules = job.design.sizes, job.rules
    sides = tuple(replace(side, id=local_name(side.id)) for side in job.sides)
    sticks, pieces = tuple(parts.sticks), tuple(parts.pieces)
    cuts = panel_cuts(sizes.old, sizes.amounts, parts.ripped, rules)
    freed = {cut.yields: cut for cut in cuts}
    left = remnants(sticks, pieces, cuts, rules)
    going = tuple(
        Remnant(name, stick_id, freed[name].offcut_length_ticks, freed[name].offcut_width_ticks)
        for name, stick_id in parts.going.items()
        if name in freed
    )
    others = len(problem.jobs) - 1
    why = f"planned together with {others} other job{'s' * (others != 1)}: the batch says what is proven"
    values = stage_values(sides, sticks, pieces, rules)
    proud = job.job.edge.proud.ticks_up()
    plan = CutPlan(
        status="ready",
        rules=rules,
        corners=job.job.edge.corners,
        strip_map_view="underside",
        old_ticks=sizes.old,
        finished_ticks=sizes.finished,
        finished_origin_ticks=sizes.origin,
        proud_ticks=proud,
        strip_width_ticks=job.width,
        pitch_ticks=pitch_ticks(job.width, rules.kerf_ticks, sizes.grid),
        sides=sides,
        sticks=sticks,
        pieces=pieces,
        strip_map=strip_map(sizes.finished, proud, job.width, sides, pieces),
        cuts=cuts,
        remnants=(*left, *going),
        stages=tuple(
            Stage(name, value, None, False, why) for name, value in zip(STAGES, values, strict=True)
        ),
        trials=job.trials,
        shortage=None,
        defects=top_defects(job.job),
    )
    faults = check_plan(plain_plan(plan), bounds=dict.fromkeys(STAGES, (None, why)))
    refuse_if(faults, f"the plan of {job.name}")
    return plan


class _Parts:
    """Sticks, pieces and panel strips of one job."""

    def __init__(self, problem: Problem, layout: BatchLayout, job: BatchJob) -> None:
        self.problem, self.job = problem, job
        self.boards = own_boards(problem, layout)
        self.by_lane: dict[str, list[Run]] = {}
        for run in layout.runs:
            self.by_lane.setdefault(run.lane.id, []).append(run)
        self.sticks: list[Stick] = []
        self.pieces: list[Piece] = []
        self.ripped: dict[Side, tuple[Ripped, ...]] = {}
        self.going: dict[str, str] = {}
        cut = {one.stick.id: one for one in layout.cut}
        self._offcuts(cut)
        for one in layout.cut:
            if self.boards.get(one.stick.id) == job.number:
                self._board(one)
            elif one.stick.job != job.number and one.stick.id not in self.boards:
                for strip in one.strips:
                    self._incoming(one, strip)

    def _offcuts(self, cut: dict[str, CutStick]) -> None:
        job, stock = self.job, offcut_stock(self.job.design, self.job.width)
        for stick in offcut_sticks(stock, SLIVER):
            side, one = stick.side, cut.get(f"{self.job.number}.{stick.id}")
            assert side is not None
            if one is None:
                self.sticks.append(stick if offcuts_fit(job.job) else replace(stick, lanes=()))
                continue
            lanes: list[Lane] = []
            ripped: list[Ripped] = []
            used = [any(lane.id in self.by_lane for lane in strip.lanes) for strip in one.strips]
            last = max(n for n, is_used in enumerate(used) if is_used)
            for n, strip in enumerate(one.strips):
                takers = self._takers(strip)
                name = local_name(strip.name)
                if takers and job.number not in takers:
                    name = f"{name} for {self._named(takers)}"
                own = strip.width == job.width
                if own:
                    lanes += self._own_lanes(strip, name, taken=bool(takers) and job.number not in takers)
                elif takers:
                    self.going[name] = stick.id
                clean = any(lane.length_ticks for lane in strip.lanes)
                if n <= last:
                    idle = not clean or not (own or takers)
                    widened = strip.lanes[0].width_ticks > strip.pitch - job.rules.kerf_ticks
                    ripped.append(Ripped(strip.pitch, widened, f"rest of {name}" if idle else name))
            self.ripped[side] = tuple(ripped)
            self.sticks.append(replace(stick, lanes=tuple(lanes)))

    def _takers(self, strip: Strip) -> list[int]:
        return sorted({run.job for lane in strip.lanes for run in self.by_lane.get(lane.id, ())})

    def _named(self, numbers: Sequence[int]) -> str:
        if len(numbers) == 1:
            return self.problem.jobs[numbers[0] - 1].name
        return f"jobs {', '.join(map(str, numbers[:-1]))} and {numbers[-1]}"

    def _own_lanes(self, strip: Strip, name: str, *, taken: bool) -> list[Lane]:
        """Lanes of an own strip: this job's runs, what nobody uses, and nothing of what others have."""
        if taken:
            raw = strip.lanes[0].raw_ticks
            return [Lane(name, 0, strip.lanes[0].width_ticks, raw, 0, name)]
        found = []
        for lane in strip.lanes:
            lane_name = name + lane.id.removeprefix(strip.name)
            runs = self.by_lane.get(lane.id, [])
            if not runs:
                found.append(replace(lane, id=lane_name, strip=name))
            found += [
                self._run_lane(run, runs, lane_name, name) for run in runs if run.job == self.job.number
            ]
        return found or [Lane(name, 0, strip.lanes[0].width_ticks, strip.lanes[0].raw_ticks, 0, name)]

    def _run_lane(self, run: Run, runs: Sequence[Run], name: str, strip: str) -> Lane:
        """The part of a lane that this job has, to the lane's end if it is the last part; its pieces with it."""
        lane = run.lane
        length = run.length if run is not runs[-1] else lane.length_ticks - run.start
        self.pieces += [
            replace(piece, side_id=local_name(piece.side_id), id=local_name(piece.id), lane_id=name)
            for piece in run.pieces
        ]
        start = lane.trim_start_ticks + run.start
        return Lane(name, length, lane.width_ticks, start, lane.raw_ticks - start - length, strip)

    def _board(self, one: CutStick) -> None:
        """A board that is this job's alone."""
        stick = one.stick
        lanes: list[Lane] = []
        for strip in one.strips:
            for lane in strip.lanes:
                name, runs = local_name(lane.id), self.by_lane.get(lane.id, [])
                lanes.append(
                    self._run_lane(runs[0], runs, name, local_name(strip.name))
                    if runs
                    else replace(lane, id=name, strip=local_name(lane.strip))
                )
        self.sticks.append(
            Stick(
                local_name(stick.id),
                stick.name,
                stick.source,
                None,
                stick.length,
                stick.width,
                stick.price_cents,
                tuple(lanes),
                stick.edge_waste,
                stick.defects,
            )
        )

    def _incoming(self, one: CutStick, strip: Strip) -> None:
        """A strip of a shared board, or of another job's offcut, of which this job has a part."""
        mine = [(lane, run) for lane in strip.lanes for run in self.by_lane.get(lane.id, ())
                if run.job == self.job.number]  # fmt: skip
        if not mine:
            return
        name = local_name(strip.name)
        if one.stick.job:
            name = f"{name} of {self.problem.jobs[one.stick.job - 1].name}"
        lanes = tuple(
            self._run_lane(run, self.by_lane[lane.id], name + lane.id.removeprefix(strip.name), name)
            for lane, run in mine
        )
        self.sticks.append(
            Stick(f"from {name}", name, "on hand", None, lanes[0].raw_ticks, lanes[0].width_ticks, 0, lanes)
        )
