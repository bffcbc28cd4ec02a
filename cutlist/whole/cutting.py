"""A cutting: how often each pattern, and which sticks give the lanes for them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from edgewright.cutlist.mip import IntegerProgram
from edgewright.cutlist.whole.instance import Instance
from edgewright.cutlist.whole.prices import Box, Goal
from edgewright.cutlist.whole.pricing import Counts

__all__ = ["Cutting", "choose_sticks", "make_cutting", "value_of"]


@dataclass(frozen=True, slots=True)
class Cutting:
    """Sticks by group, and times by (lane, counts); together the counts are the demand exactly."""

    sticks: tuple[int, ...]
    times: tuple[tuple[tuple[int, Counts], int], ...]


def value_of(inst: Instance, sticks: Iterable[int], stage: int) -> int:
    """Return what the sticks count for in one stage."""
    return sum(group.weights[stage] * number for group, number in zip(inst.groups, sticks, strict=True))


def make_cutting(
    inst: Instance, goal: Goal, box: Box, times: Mapping[tuple[int, Counts], int]
) -> Cutting | None:
    """Trim what is cut too often, and choose sticks for the lanes; None where the box has no such sticks."""
    surplus = [-count for count in inst.demand]
    for (_, counts), number in times.items():
        for kind, count in enumerate(counts):
            surplus[kind] += count * number
    assert min(surplus) >= 0
    exact: dict[tuple[int, Counts], int] = {}
    for (lane, counts), number in sorted(times.items(), reverse=True):
        for _ in range(number):
            kept = counts
            if any(surplus):
                kept = tuple(c - min(c, s) for c, s in zip(counts, surplus, strict=True))
                surplus = [s - min(c, s) for c, s in zip(counts, surplus, strict=True)]
            if any(kept):
                exact[lane, kept] = exact.get((lane, kept), 0) + 1
    taken = [0] * len(inst.capacities)
    for (lane, _), number in exact.items():
        taken[lane] += number
    sticks = choose_sticks(inst, goal, box, taken)
    return None if sticks is None else Cutting(sticks, tuple(sorted(exact.items())))


def choose_sticks(inst: Instance, goal: Goal, box: Box, taken: list[int]) -> tuple[int, ...] | None:
    """Sticks within the box whose lanes are enough: best for the goal, then for the stages after it."""
    by_lane: dict[int, list[int]] = {}
    for at, group in enumerate(inst.groups):
        for lane, number in enumerate(group.lanes):
            if number:
                by_lane.setdefault(lane, []).append(at)
    used = [low for low, _ in box]
    if all(len(groups) == 1 for groups in by_lane.values()):
        for lane, number in enumerate(taken):
            at = by_lane[lane][0]
            used[at] = max(used[at], -(-number // inst.groups[at].lanes[lane]))
        if any(number > high for number, (_, high) in zip(used, box, strict=True)):
            return None
        if any(value_of(inst, used, stage) > reached for stage, reached in enumerate(goal.reached)):
            return None
        return tuple(used)
    program = IntegerProgram()
    for low, high in box:
        program.variable(low, high)
    for lane, number in enumerate(taken):
        if number:
            program.row({at: inst.groups[at].lanes[lane] for at in by_lane[lane]}, at_least=number)
    for stage, reached in enumerate(goal.reached):
        program.row(_weights(inst, stage), at_most=reached)
    best = None
    for stage in range(goal.stage, inst.stages):
        outcome = program.minimise(_weights(inst, stage))
        if outcome.values is None:
            break
        best = outcome.values
        program.row(_weights(inst, stage), at_most=value_of(inst, best, stage))
    return best


def _weights(inst: Instance, stage: int) -> dict[int, int]:
    return {at: group.weights[stage] for at, group in enumerate(inst.groups) if group.weights[stage]}
