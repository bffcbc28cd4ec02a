"""Whole pieces from sticks: the best cutting with its bound, stage by stage."""

from __future__ import annotations

import math
from collections.abc import Callable

from edgewright.cutlist.whole.cutting import Cutting, make_cutting, value_of
from edgewright.cutlist.whole.first_fit import first_fits
from edgewright.cutlist.whole.instance import Instance, make_instance
from edgewright.cutlist.whole.model import Limits, Stage, WholeProblem, WholeResult
from edgewright.cutlist.whole.prices import NONE_FITS, Goal, Prices, prices_of
from edgewright.cutlist.whole.pricing import DENSE, fill_lanes
from edgewright.cutlist.whole.relaxation import Relaxation
from edgewright.cutlist.whole.share_out import share_out
from edgewright.cutlist.whole.tree import StageTree
from edgewright.cutlist.whole.work import Work

__all__ = ["solve_whole"]


def solve_whole(
    problem: WholeProblem,
    limits: Limits | None = None,
    should_stop: Callable[[], bool] | None = None,
) -> WholeResult:
    """Cut whole pieces from sticks, best in each objective in turn.

    Parameters
    ----------
    problem
        Sticks, pieces, kerf.
    limits
        How much work may be done; None for the usual.
    should_stop
        Asked before each relaxation; when it says True the best so far is returned.

    Returns
    -------
    WholeResult
        With the proof of each bound. What is not proven within the limits says so.

    Raises
    ------
    InputError
        The problem makes no sense: see `make_instance`.
    """
    limits = limits or Limits()
    inst = make_instance(problem)
    work = Work(limits.nodes, limits.columns, limits.rounds, should_stop)
    relaxation = Relaxation(inst, work)
    coarse = inst.capacities[-1] <= DENSE
    full = fill_lanes(
        inst.sizes,
        inst.demand,
        inst.sizes,
        inst.capacities,
        spread=len(inst.capacities) <= 3,
        wanted=coarse,
    )
    best = _first(inst, relaxation, [(lane, counts) for lane, _, counts in full.patterns])
    stages: list[Stage] = []
    for stage in range(inst.stages):
        goal = Goal(
            stage, tuple(value_of(inst, best.sticks, earlier) for earlier in range(stage)) if best else ()
        )
        relaxation.set_goal(goal)
        tree = StageTree(relaxation, goal, best, _by_length(inst, goal, full.worth), limits.search_steps)
        tree.run()
        best = tree.best
        bound = tree.bound()
        if best is None:
            status = "impossible" if bound == NONE_FITS else "open"
            shown = Stage(None, 0 if bound == NONE_FITS else int(bound), bound == NONE_FITS, tree.proof())
            return WholeResult(status, (), (), (shown,), bound == NONE_FITS)  # type: ignore[arg-type]
        value = int(tree.value)
        reached = int(min(bound, value))
        stages.append(Stage(value, reached, reached == value, tree.proof()))
    assert best is not None
    sticks, patterns = share_out(inst, best)
    return WholeResult("cut", sticks, patterns, tuple(stages), all(stage.proven for stage in stages))


def _first(inst: Instance, relaxation: Relaxation, full: list[tuple[int, tuple[int, ...]]]) -> Cutting | None:
    """Patterns to begin with, and the best of the first cuttings."""
    relaxation.add_all(full)
    for lane, capacity in enumerate(inst.capacities):
        for kind, (size, wanted) in enumerate(zip(inst.sizes, inst.demand, strict=True)):
            most = min(wanted, capacity // size)
            if most:
                relaxation.add(lane, tuple(most if at == kind else 0 for at in range(len(inst.sizes))))
    box = tuple((0, group.most) for group in inst.groups)
    best: tuple[tuple[int, ...], Cutting] | None = None
    for times in first_fits(inst):
        relaxation.add_all(list(times))
        cutting = make_cutting(inst, Goal(0, ()), box, times)
        if cutting is not None:
            value = tuple(value_of(inst, cutting.sticks, stage) for stage in range(inst.stages))
            if best is None or value < best[0]:
                best = value, cutting
    return None if best is None else best[1]


def _by_length(inst: Instance, goal: Goal, worth: tuple[int, ...]) -> list[Prices]:
    """Prices that are the lengths: the bound anybody would work out first, one for each group that might pay for it."""
    nothing = (0,) * goal.stage
    found = [prices_of(inst, goal, inst.sizes, 0, nothing, worth)]
    free, empty = [0] * len(inst.sizes), [0] * len(worth)
    for earlier in range(goal.stage):
        # no prices at all: the box alone costs more than an earlier stage came to
        one = tuple(int(stage == earlier) for stage in range(goal.stage))
        found.append(prices_of(inst, goal, free, 0, one, empty))
    for group in inst.groups:
        holds = sum(n * w for n, w in zip(group.lanes, worth, strict=True))
        weight = group.weights[goal.stage]
        common = math.gcd(holds, weight)
        if not weight or not holds:
            continue
        times = weight // common
        found.append(
            prices_of(
                inst,
                goal,
                [size * times for size in inst.sizes],
                holds // common,
                nothing,
                [w * times for w in worth],
            )
        )
    return found
