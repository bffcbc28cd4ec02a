"""The best cutting from patterns that are known already: one integer program, with few nodes."""

from __future__ import annotations

from typing import Final

from edgewright.cutlist.mip import IntegerProgram
from edgewright.cutlist.whole.cutting import Cutting, make_cutting, value_of
from edgewright.cutlist.whole.prices import Box
from edgewright.cutlist.whole.relaxation import Relaxation, Relaxed

__all__ = ["best_of_known"]


#: More patterns than that make the program slow, and the rest are hardly ever wanted (measured).
_MOST: Final = 150


def best_of_known(
    relaxation: Relaxation, relaxed: Relaxed, box: Box, below: float, nodes: int
) -> Cutting | None:
    """Look for a cutting that comes to less than ``below`` in the goal, from the patterns that cost least too much."""
    inst, goal = relaxation.inst, relaxation.goal
    likely = sorted(range(len(relaxed.over)), key=lambda at: (relaxed.over[at], -relaxed.times[at], at))[
        :_MOST
    ]
    patterns = [relaxation.patterns[at] for at in sorted(likely)]
    program = IntegerProgram()
    for low, high in box:
        program.variable(low, high)
    covered: list[dict[int, int]] = [{} for _ in inst.sizes]
    lanes: list[dict[int, int]] = [{} for _ in inst.capacities]
    for lane, counts in patterns:
        most = max(-(-d // c) for c, d in zip(counts, inst.demand, strict=True) if c)
        at = program.variable(0, most)
        lanes[lane][at] = 1
        for kind, count in enumerate(counts):
            if count:
                covered[kind][at] = count
    for row, wanted in zip(covered, inst.demand, strict=True):
        program.row(row, at_least=wanted)
    for lane, row in enumerate(lanes):
        row.update({at: -group.lanes[lane] for at, group in enumerate(inst.groups) if group.lanes[lane]})
        program.row(row, at_most=0)
    weights = [{at: group.weights[s] for at, group in enumerate(inst.groups)} for s in range(inst.stages)]
    for stage, reached in enumerate(goal.reached):
        program.row(weights[stage], at_most=reached)
    if below < float("inf"):
        program.row(weights[goal.stage], at_most=int(below) - 1)
    values = program.minimise(weights[goal.stage], nodes).values
    if values is None:
        return None
    times = {
        pattern: number
        for pattern, number in zip(patterns, values[len(inst.groups) :], strict=True)
        if number
    }
    cutting = make_cutting(inst, goal, box, times)
    if cutting is None or value_of(inst, cutting.sticks, goal.stage) >= below:
        return None
    return cutting
