"""What a tick of strip is worth when only lengths count, as if any piece could be cut anywhere."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import Final

import highspy

from edgewright.cutlist.column_generation.pool import SplicePool
from edgewright.cutlist.column_generation.weights import SCALE, Weights

__all__ = ["length_prices"]

_BIG: Final = highspy.kHighsInf
#: Lengths are counted in so many ticks, to keep the numbers of the linear program small.
_UNIT: Final = 8_000


def length_prices(pool: SplicePool, weights: Weights, steps: Sequence[int]) -> list[Fraction] | None:
    """Price of a tick for the sides of each family, in units of the stage times ``SCALE``; None without a solution.

    Parameters
    ----------
    steps
        What is added to the length of a side, by family: a kerf, or less where mitres nest.
    """
    solver = highspy.Highs()
    for name, value in {"output_flag": False, "threads": 1, "random_seed": 0}.items():
        solver.setOptionValue(name, value)
    needs = [0] * len(steps)
    for side in pool.sides:
        needs[side.family] += (side.length + steps[side.family]) * side.count
    for need in needs:
        solver.addRow(need / _UNIT, _BIG, 0, [], [])
    for _ in pool.lanes:
        solver.addRow(-_BIG, 0, 0, [], [])
    for count in pool.group_counts:
        solver.addRow(-_BIG, count, 0, [], [])
    first, groups = len(needs), len(needs) + len(pool.lanes)
    for number, (way, lanes) in enumerate(zip(pool.ways, pool.lanes_of_ways, strict=True)):
        rows = {first + t: -float(pool.lanes[t].per_stick) for t in lanes} | {groups + way.group: 1.0}
        solver.addCol(weights.ways[number], 0, _BIG, len(rows), list(rows), list(rows.values()))
    for t, lane in enumerate(pool.lanes):
        for n in lane.families:
            held = (lane.length + max(0, steps[n])) / _UNIT
            solver.addCol(0, 0, _BIG, 2, [n, first + t], [held, 1.0])
    solver.run()
    if solver.getModelStatus() != highspy.HighsModelStatus.kOptimal:
        return None
    duals = solver.getSolution().row_dual[: len(needs)]
    return [Fraction(int(max(0.0, dual) * SCALE), _UNIT) for dual in duals]
