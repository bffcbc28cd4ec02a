"""Pricing where little can be wasted: no component of a plan wastes more than all strips have to spare.

All strips together, a kerf to each, are longer than all sides, a kerf to each, by the waste W that a plan may have.
So sides S and B lanes M that hang together satisfy ``0 <= sum(l) + k - sum(L + k) <= W - (B - 1) k``. Where W is small
this rules out most components that would fit, and the bound becomes much sharper. Sums must then be met from both
sides, so rooms are exact: the best sides for each exact sum, the cheapest lanes for each exact sum.
"""

from __future__ import annotations

from math import gcd
from typing import Final

import numpy as np
from numpy.typing import NDArray

from edgewright.cutlist.column_generation.pool import Column, SplicePool
from edgewright.cutlist.column_generation.pricing import Duals, Priced, keep_column

__all__ = ["price_tight", "spare_length"]

Ints = NDArray[np.int64]

#: Beyond so many steps of length, or sums of lanes, this is left to the plain pricing.
_MOST_STEPS: Final = 40_000
_MOST_SUMS: Final = 8_000
#: Sums times lanes to be looked at at once.
_MOST_PAIRS: Final = 500_000
_NEVER: Final = 1 << 60


def spare_length(pool: SplicePool, most_cost: int | None) -> int | None:
    """W (ticks): what all strips that may be had hold beyond the sides; None where that cannot be said.

    Parameters
    ----------
    most_cost
        Cents that may be spent; None where that is not settled yet.
    """
    if pool.joints != (pool.kerf,):
        return None
    if len(pool.ways) != len(pool.group_counts):
        return None
    steps = {0: 0}
    for number, way in enumerate(pool.ways):
        held = sum((lane.length + pool.kerf) * lane.per_stick for lane in pool.lanes if lane.way == number)
        for _ in range(pool.group_counts[way.group]):
            if not way.price:
                steps = {cost: length + held for cost, length in steps.items()}
            elif most_cost is None:
                return None
            else:
                more = {c + way.price: h + held for c, h in steps.items() if c + way.price <= most_cost}
                if not more:
                    break
                steps = {c: max(steps.get(c, -1), more.get(c, -1)) for c in steps.keys() | more.keys()}
    need = sum((side.length + pool.kerf) * side.count for side in pool.sides)
    return max(steps.values()) - need


def price_tight(
    pool: SplicePool, duals: Duals, most_lanes: int, waste: int, per_number: int, lawful_only: bool
) -> Priced | None:
    """Components that pay and waste at most ``waste``; None where the sums are too many to look at."""
    kerf = pool.kerf
    lengths = np.array([lane.length for lane in pool.lanes], dtype=np.int64)
    total = sum((side.length + kerf) * side.count for side in pool.sides)
    step = gcd(*(side.length + kerf for side in pool.sides))
    room = min(total, int(lengths.max()) * most_lanes + kerf) // step
    if room > _MOST_STEPS:
        return None
    value, passes = _exact_sums(pool, duals, room, step)
    highest = _Highest(value)
    columns: dict[Column, int] = {}
    costs = np.array(duals.lanes, dtype=np.int64)
    supply = np.array([pool.available(t) for t in range(len(lengths))], dtype=np.int64)
    sums, bills, trails = lengths, costs, np.arange(len(lengths), dtype=np.int64)[:, None]
    most = 0
    for number in range(1, most_lanes + 1):
        if number > 1:
            if len(sums) * len(lengths) > _MOST_PAIRS:
                return None
            every = (sums[:, None] + lengths[None, :]).ravel()
            cost = (bills[:, None] + costs[None, :]).ravel() + duals.splice
            if lawful_only:
                free = (trails[:, :, None] == np.arange(len(lengths))).sum(axis=1) < supply[None, :]
                cost = np.where(free.ravel(), cost, _NEVER)
            rank = np.lexsort((cost, every))
            first = np.ones(len(rank), dtype=bool)
            first[1:] = every[rank[1:]] != every[rank[:-1]]
            kept = rank[first]
            kept = kept[(cost[kept] < _NEVER) & (every[kept] + kerf - waste <= total)]
            if len(kept) > _MOST_SUMS:
                return None
            if not len(kept):
                break
            sums, bills = every[kept], cost[kept]
            trails = np.column_stack((trails[kept // len(lengths)], kept % len(lengths)))
        high = np.minimum((sums + kerf) // step, room)
        low = np.maximum(1, -((-(sums + kerf - waste + (number - 1) * kerf)) // step))
        gains = np.where(low <= high, highest.between(low, high) - bills, -1)
        most = max(most, int(gains.max()))
        listed = len(sums) if number == 1 else per_number
        for n in np.argsort(-gains, kind="stable")[:listed]:
            if gains[n] > 0:
                at = int(low[n]) + int(np.argmax(value[int(low[n]) : int(high[n]) + 1]))
                chosen: dict[int, int] = {}
                for t in trails[n]:
                    chosen[int(t)] = chosen.get(int(t), 0) + 1
                keep_column(pool, columns, _sides(passes, at), chosen, int(gains[n]))
    found = sorted(columns.items(), key=lambda item: (-item[1], item[0].sides, item[0].lanes))
    return Priced(tuple(column for column, _ in found), (most,))


_Passes = list[tuple[int, int, int, NDArray[np.bool_]]]


def _exact_sums(pool: SplicePool, duals: Duals, room: int, step: int) -> tuple[Ints, _Passes]:
    """Best worth of sides that add up to exactly so many steps, and how it came about."""
    value = np.full(room + 1, -_NEVER, dtype=np.int64)
    value[0] = 0
    passes: _Passes = []
    for i, side in enumerate(pool.sides):
        size, left, copies = (side.length + pool.kerf) // step, side.count, 1
        left = min(left, room // size)
        while left > 0:
            copies = min(copies, left)
            length = size * copies
            better = value[: room + 1 - length] + duals.sides[i] * copies
            taken = np.zeros(room + 1, dtype=bool)
            np.greater(better, value[length:], out=taken[length:])
            value = np.concatenate((value[:length], np.maximum(better, value[length:])))
            passes.append((i, copies, length, taken))
            left -= copies
            copies *= 2
    return value, passes


def _sides(passes: _Passes, at: int) -> dict[int, int]:
    found: dict[int, int] = {}
    for kind, copies, length, taken in reversed(passes):
        if taken[at]:
            found[kind] = found.get(kind, 0) + copies
            at -= length
    return found


class _Highest:
    """Highest value between two places, for many pairs at once: tables of stretches of 1, 2, 4, ... places."""

    def __init__(self, value: Ints) -> None:
        self.tables = [value]
        while 2 << (len(self.tables) - 1) <= len(value):
            half = 1 << (len(self.tables) - 1)
            last = self.tables[-1]
            self.tables.append(np.maximum(last[: len(last) - half], last[half:]))

    def between(self, low: Ints, high: Ints) -> Ints:
        """Highest value from ``low`` to ``high``, both counted; anything where ``low > high``."""
        width = np.maximum(1, high - low + 1)
        level = np.frexp(width.astype(float))[1] - 1
        out = np.full(len(low), -_NEVER, dtype=np.int64)
        for n in np.unique(level):
            here = (level == n) & (low <= high)
            table = self.tables[int(n)]
            out[here] = np.maximum(table[low[here]], table[high[here] - (1 << int(n)) + 1])
        return out
