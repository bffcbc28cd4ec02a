"""From the duals of a relaxation to whole prices, and to the patterns that are worth more than their lane."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from edgewright.cutlist.whole.instance import Instance
from edgewright.cutlist.whole.prices import Goal, Prices, prices_of
from edgewright.cutlist.whole.pricing import DENSE, Counts, fill_lanes

__all__ = ["dearest_weight", "price_patterns"]

#: Prices are rounded to so many steps of the dearest weight; coarser where the table of lengths would be too large.
_STEPS: Final = 1_000_000
_COARSE_STEPS: Final = 20_000
#: Most patterns that join at once.
_MOST_NEW: Final = 100


def dearest_weight(inst: Instance, stage: int) -> int:
    """Return the unit in which a relaxation counts a stage: the dearest weight, at least 1."""
    return max(1, *(group.weights[stage] for group in inst.groups))


def price_patterns(
    inst: Instance, goal: Goal, left: Sequence[int], duals: Sequence[float], *, short: bool
) -> tuple[Prices, list[tuple[int, Counts]]]:
    """Round the duals, and fill the lanes at those prices.

    Parameters
    ----------
    inst, goal
        What is solved, and for which stage.
    left
        How often each type may be in a pattern.
    duals
        Of the rows: types, lanes, earlier stages; in parts of the dearest weight of each stage.
    short
        Whether the relaxation minimises what is left out instead of the goal.

    Returns
    -------
    tuple
        What the prices prove when the whole demand is ``left``, and the patterns worth more than their lane.
    """
    types, lanes = len(inst.sizes), len(inst.capacities)
    steps = _STEPS if inst.capacities[-1] <= DENSE else _COARSE_STEPS
    top = 1 if short else dearest_weight(inst, goal.stage)
    scale = max(1, steps // top)
    factor = scale * top
    values = [max(0, round(dual * factor)) for dual in duals[:types]]
    knapsack = fill_lanes(inst.sizes, left, values, inst.capacities, spread=lanes <= 3)
    # multipliers of dear weights are small: everything is counted so much finer that they can be whole too
    units = [dearest_weight(inst, stage) for stage in range(goal.stage)]
    finer = max(units, default=1)
    multipliers = [
        max(0, round(-dual * factor * finer / unit))
        for unit, dual in zip(units, duals[types + lanes :], strict=False)
    ]
    prices = prices_of(
        inst,
        goal,
        [value * finer for value in values],
        0 if short else scale * finer,
        multipliers,
        [worth * finer for worth in knapsack.worth],
    )
    costs = [-dual * factor for dual in duals[types : types + lanes]]
    slack = max(factor * 1e-7, 2.0)
    new = [
        (value - costs[lane], lane, counts)
        for lane, value, counts in knapsack.patterns
        if value > costs[lane] + slack
    ]
    new.sort(key=lambda entry: (-entry[0], entry[1:]))
    return prices, [(lane, counts) for _, lane, counts in new[:_MOST_NEW]]
