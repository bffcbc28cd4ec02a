"""The best cutting from patterns that are known already: one integer program, with few nodes."""

from __future__ import annotations

from edgewright.cutlist.mip import IntegerProgram
from edgewright.cutlist.whole.cutting import Cutting, make_cutting, value_of
from edgewright.cutlist.whole.prices import Box
from edgewright.cutlist.whole.relaxation import Relaxation

__all__ = ["best_of_known"]


def best_of_known(relaxation: Relaxation, box: Box, below: float, nodes: int) -> Cutting | None:
    """Look for a cutting that comes to less than ``below`` in the goal, with the patterns known; None if not found."""
    inst, goal = relaxation.inst, relaxation.goal
    program = IntegerProgram()
    for low, high in box:
        program.variable(low, high)
    covered: list[dict[int, int]] = [{} for _ in inst.sizes]
    lanes: list[dict[int, int]] = [{} for _ in inst.capacities]
    for lane, counts in relaxation.patterns:
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
        for pattern, number in zip(relaxation.patterns, values[len(inst.groups) :], strict=True)
        if number
    }
    cutting = make_cutting(inst, goal, box, times)
    if cutting is None or value_of(inst, cutting.sticks, goal.stage) >= below:
        return None
    return cutting
