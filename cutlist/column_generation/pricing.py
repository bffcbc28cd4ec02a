"""Pricing: which components would pay under given duals, exactly, in whole numbers.

A component of sides S and lanes M can only be cut when ``sum(L + k) <= sum(l) + k``. So the best value of sides for
each room (a bounded knapsack) and, for each number of lanes, the cheapest lanes for each room (a frontier) give the
best component. Where mitres nest, k is the joint j < 0; then one more splice gives one joint more (``sum(L + j) <=
sum(l)``), which is allowed for too: what does not pay here does not pay in any plan.

Components of many lanes need not be listed: no side is worth more than ``a`` a tick, so beyond a number of lanes
that `most_lanes_needed` gives none can pay.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import gcd
from typing import Final

import numpy as np
from numpy.typing import NDArray

from edgewright.cutlist.column_generation.pool import Column, SplicePool

__all__ = ["Duals", "Priced", "keep_column", "price_components"]

Ints = NDArray[np.int64]

#: Rooms are counted in so many steps at most; where the lengths' common divisor is finer, they are rounded so that
#: every component still counts as possible.
_MOST_STEPS: Final = 24_000
#: Where there are more kinds of lanes, those that others beat are left out all the same.
_MOST_SCARCE: Final = 200
#: Cost of a set of lanes that there are not enough of.
_NEVER: Final = 1 << 61


@dataclass(frozen=True, slots=True)
class Duals:
    """Whole-number prices: of a side of each kind, of a lane of each kind, of a splice.

    Attributes
    ----------
    scale
        What one unit of the objective is.
    """

    sides: tuple[int, ...]
    lanes: tuple[int, ...]
    splice: int
    scale: int


@dataclass(frozen=True, slots=True)
class Priced:
    """Components that pay, best first, and the most that any of a family, listed or not, could pay."""

    columns: tuple[Column, ...]
    most: tuple[int, ...]


@dataclass(slots=True)
class _Knapsack:
    """Best value of sides for each room, in steps; ``taken`` remembers which passes improved a room."""

    step: int
    value: Ints
    passes: list[tuple[int, int, int]]
    taken: list[NDArray[np.bool_]]

    def sides(self, at: int) -> dict[int, int]:
        """Sides of the best value within so many steps."""
        found: dict[int, int] = {}
        for (kind, copies, size), taken in zip(reversed(self.passes), reversed(self.taken), strict=True):
            if taken[at]:
                found[kind] = found.get(kind, 0) + copies
                at -= size
        return found


def price_components(
    pool: SplicePool, duals: Duals, most_lanes: int, *, per_number: int = 12, lawful_only: bool = False
) -> Priced:
    """Components that pay.

    Parameters
    ----------
    most_lanes
        Components of more lanes are not looked at.
    per_number
        So many columns are given at most for each number of lanes above one.
    lawful_only
        Leave out sets of lanes that there are not enough of: better columns, but ``most`` is then no bound.
    """
    columns: dict[Column, int] = {}
    most = []
    for family in range(len(pool.joints)):
        kinds = [i for i, side in enumerate(pool.sides) if side.family == family]
        lanes = [t for t, lane in enumerate(pool.lanes) if family in lane.families]
        most.append(
            _price_family(pool, family, duals, kinds, lanes, most_lanes, per_number, lawful_only, columns)
            if kinds and lanes
            else 0
        )
    listed = sorted(columns.items(), key=lambda item: (-item[1], item[0].sides, item[0].lanes))
    return Priced(tuple(column for column, _ in listed), tuple(most))


def _price_family(
    pool: SplicePool,
    family: int,
    duals: Duals,
    kinds: list[int],
    lanes: list[int],
    most_lanes: int,
    per_number: int,
    lawful_only: bool,
    columns: dict[Column, int],
) -> int:
    lengths = np.array([pool.lanes[t].length for t in lanes], dtype=np.int64)
    costs = np.array([duals.lanes[t] for t in lanes], dtype=np.int64)
    joint = pool.joints[family]
    nested = joint < 0
    total = sum((pool.sides[i].length + pool.kerf) * pool.sides[i].count for i in kinds)
    widest = min(total, int(lengths.max()) * most_lanes + pool.kerf)
    sack = _knapsack(pool, duals, kinds, min(joint, pool.kerf), widest)
    most = 0
    # one lane
    rooms = np.minimum((lengths + joint) // sack.step, len(sack.value) - 1)
    gains = sack.value[np.maximum(rooms, 0)] - costs
    gains[rooms < 0] = 0
    for n in np.flatnonzero(gains > 0):
        most = max(most, int(gains[n]))
        keep_column(pool, columns, sack.sides(int(rooms[n])), {lanes[n]: 1}, int(gains[n]))
    # more lanes, by their frontier of room and cost; where mitres nest, one more splice makes up for one joint
    extra = duals.splice if nested else 0
    spare = 0 if nested else pool.kerf
    if nested:
        rooms = np.minimum(lengths // sack.step, len(sack.value) - 1)
        most = max(most, int((sack.value[rooms] - costs - extra).max()))
    first = np.lexsort((costs, -lengths))
    # of lanes that are scarce, those that others beat are needed too
    scarce = lawful_only and len(first) <= _MOST_SCARCE
    order = first if scarce else first[_frontier(lengths[first], costs[first])]
    supply = np.array([pool.available(lanes[n]) for n in order], dtype=np.int64)
    room, cost = lengths[order], costs[order]
    trails = np.arange(len(order), dtype=np.int64)[:, None]
    for _ in range(2, most_lanes + 1):
        sums = (room[:, None] + lengths[order][None, :]).ravel()
        bills = (cost[:, None] + costs[order][None, :]).ravel() + duals.splice
        if lawful_only:
            free = (trails[:, :, None] == np.arange(len(order))).sum(axis=1) < supply[None, :]
            bills = np.where(free.ravel(), bills, _NEVER)
        rank = np.lexsort((bills, -sums))
        kept = rank[_frontier(sums[rank], bills[rank])]
        kept = kept[bills[kept] < _NEVER]
        if not len(kept):
            break
        trails = np.column_stack((trails[kept // len(order)], kept % len(order)))
        room, cost = sums[kept], bills[kept]
        at = np.minimum((room + spare) // sack.step, len(sack.value) - 1)
        gains = sack.value[at] - cost - extra
        most = max(most, int(gains.max()))
        for n in np.argsort(-gains, kind="stable")[:per_number]:
            if gains[n] > 0:
                chosen: dict[int, int] = {}
                for t in trails[n]:
                    lane = lanes[order[t]]
                    chosen[lane] = chosen.get(lane, 0) + 1
                keep_column(pool, columns, sack.sides(int(at[n])), chosen, int(gains[n]))
        if int(room[-1]) >= total:
            break  # the cheapest lanes hold all sides: more of them cannot pay
    return most


def _frontier(lengths: Ints, costs: Ints) -> NDArray[np.int64]:
    """Positions, of pairs sorted by falling length and rising cost, that nothing longer and as cheap beats."""
    before = np.minimum.accumulate(costs)
    keep = np.ones(len(costs), dtype=bool)
    keep[1:] = costs[1:] < before[:-1]
    return np.flatnonzero(keep)


def _knapsack(pool: SplicePool, duals: Duals, kinds: Sequence[int], joint: int, widest: int) -> _Knapsack:
    sizes = {i: pool.sides[i].length + joint for i in kinds}
    step = gcd(*sizes.values())
    coarse = -(-widest // _MOST_STEPS)
    if step < coarse:
        step = coarse  # sides count as a whole number of steps, rounded down: more seems to fit, never less
    room = max(0, widest // step)
    value = np.zeros(room + 1, dtype=np.int64)
    sack = _Knapsack(step, value, [], [])
    for i in kinds:
        worth, size = duals.sides[i], sizes[i] // step
        left = min(pool.sides[i].count, room // max(1, size))
        copies = 1
        while worth > 0 and left > 0:
            copies = min(copies, left)
            length = size * copies
            better = sack.value[: room + 1 - length] + worth * copies
            taken = np.zeros(room + 1, dtype=bool)
            np.greater(better, sack.value[length:], out=taken[length:])
            sack.value = np.concatenate((sack.value[:length], np.maximum(better, sack.value[length:])))
            sack.passes.append((i, copies, length))
            sack.taken.append(taken)
            left -= copies
            copies *= 2
    return sack


def keep_column(
    pool: SplicePool, columns: dict[Column, int], sides: dict[int, int], lanes: dict[int, int], gain: int
) -> None:
    """Keep a component that is really possible."""
    number, held = sum(lanes.values()), sum(pool.lanes[t].length * n for t, n in lanes.items())
    joint = pool.joints[pool.sides[next(iter(sides))].family] if number == 1 and sides else pool.kerf
    need = sum((pool.sides[i].length + joint) * n for i, n in sides.items()) - joint
    splices = sum(pool.sides[i].splices * n for i, n in sides.items())
    lawful = need <= held and splices >= number - 1
    if sides and lawful and all(n <= pool.available(t) for t, n in lanes.items()):
        column = Column(tuple(sorted(sides.items())), tuple(sorted(lanes.items())))
        columns[column] = max(gain, columns.get(column, gain))
