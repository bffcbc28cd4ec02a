"""The dearest pattern of every lane, when each type of piece has a price: the bounded knapsack.

One dynamic program over filled lengths prices all lanes at once, in whole numbers. Where the unit is coarse every
length has its place in a table; where it is fine only those fillings are kept that no other one, shorter or as
short, is worth as much as.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
import numpy.typing as npt

__all__ = ["DENSE", "Counts", "Knapsack", "fill_lanes"]

#: How many of each type a pattern has.
Counts = tuple[int, ...]
_Ints = npt.NDArray[np.int64]

#: Up to so many places the table is the faster of the two (measured).
DENSE: Final = 20_000


@dataclass(frozen=True, slots=True)
class _Bundle:
    """Several pieces of one type, taken together: bounded counts become plain yes or no."""

    kind: int
    number: int
    size: int
    value: int


@dataclass(frozen=True, slots=True)
class Knapsack:
    """Worth of the dearest pattern of each lane, and patterns: (lane, worth, counts), without repeats."""

    worth: tuple[int, ...]
    patterns: tuple[tuple[int, int, Counts], ...]


def fill_lanes(
    sizes: Sequence[int],
    demand: Sequence[int],
    values: Sequence[int],
    capacities: Sequence[int],
    *,
    spread: bool = False,
    wanted: bool = True,
) -> Knapsack:
    """Fill each lane with the dearest pattern.

    Parameters
    ----------
    sizes, demand, values
        For each type its size, how often it is wanted at most, and its price (all at least 0, sizes at least 1).
    capacities
        Size of each lane, rising.
    spread
        Also give, for every type and the longest lane, the dearest pattern that has it (where the table is used).
    wanted
        Whether patterns are wanted at all, or only what they are worth.
    """
    longest = capacities[-1]
    bundles = _bundles(sizes, demand, values, longest)
    if not wanted and tuple(values) == tuple(sizes):
        return Knapsack(_fullest([bundle.size for bundle in bundles], capacities), ())
    if longest <= DENSE:
        return _dense(len(sizes), bundles, capacities, spread=spread, wanted=wanted)
    return _sparse(len(sizes), bundles, capacities, wanted=wanted)


def _bundles(
    sizes: Sequence[int], demand: Sequence[int], values: Sequence[int], longest: int
) -> list[_Bundle]:
    bundles = []
    for kind, (size, number, value) in enumerate(zip(sizes, demand, values, strict=True)):
        left, step = min(number, longest // size), 1
        if value <= 0:
            continue
        while left > 0:
            take = min(step, left)
            bundles.append(_Bundle(kind, take, take * size, take * value))
            left, step = left - take, 2 * step
    return bundles


def _fullest(sizes: Sequence[int], capacities: Sequence[int]) -> tuple[int, ...]:
    """How full each lane can be: the lengths that can be reached are the bits of one long number."""
    reached, mask = 1, (1 << (capacities[-1] + 1)) - 1
    for size in sizes:
        reached |= (reached << size) & mask
    return tuple((reached & ((1 << (capacity + 1)) - 1)).bit_length() - 1 for capacity in capacities)


def _dense(
    types: int, bundles: list[_Bundle], capacities: Sequence[int], *, spread: bool, wanted: bool
) -> Knapsack:
    number, longest = len(bundles), capacities[-1]
    table = np.zeros((number + 1, longest + 1), dtype=np.int64)
    for at, bundle in enumerate(bundles):
        before, after = table[at], table[at + 1]
        after[: bundle.size] = before[: bundle.size]
        np.maximum(before[bundle.size :], before[: -bundle.size] + bundle.value, out=after[bundle.size :])
    worth = tuple(int(table[number, c]) for c in capacities)
    if not wanted:
        return Knapsack(worth, ())
    found: dict[tuple[int, Counts], int] = {}
    for lane, capacity in enumerate(capacities):
        counts = [0] * types
        _walk_back(table, bundles, number, capacity, counts)
        found.setdefault((lane, tuple(counts)), worth[lane])
    if spread:
        _spread(types, table, bundles, len(capacities) - 1, longest, found)
    return Knapsack(worth, tuple((lane, value, counts) for (lane, counts), value in found.items()))


def _walk_back(table: _Ints, bundles: list[_Bundle], upto: int, place: int, counts: list[int]) -> None:
    """Add to ``counts`` the pattern that the first ``upto`` bundles fill ``place`` with."""
    while upto:
        column = table[: upto + 1, place]
        # worth rises with the bundles allowed: the first row that has the final worth took its bundle
        upto = int(np.searchsorted(column, column[-1]))
        if upto:
            bundle = bundles[upto - 1]
            counts[bundle.kind] += bundle.number
            place -= bundle.size
            upto -= 1


def _spread(
    types: int,
    table: _Ints,
    bundles: list[_Bundle],
    lane: int,
    capacity: int,
    found: dict[tuple[int, Counts], int],
) -> None:
    """Add the dearest pattern that has each bundle: bundles before it from the table, those behind from a second."""
    number = len(bundles)
    behind = np.zeros((number + 1, capacity + 1), dtype=np.int64)
    for at, bundle in enumerate(reversed(bundles)):
        before, after = behind[at], behind[at + 1]
        after[: bundle.size] = before[: bundle.size]
        np.maximum(before[bundle.size :], before[: -bundle.size] + bundle.value, out=after[bundle.size :])
    turned = bundles[::-1]
    for at, bundle in enumerate(bundles):
        room = capacity - bundle.size
        both = table[at, : room + 1] + behind[number - at - 1, room::-1]
        place = int(both.argmax())
        counts = [0] * types
        counts[bundle.kind] = bundle.number
        _walk_back(table, bundles, at, place, counts)
        _walk_back(behind, turned, number - at - 1, room - place, counts)
        found.setdefault((lane, tuple(counts)), int(both[place]) + bundle.value)


def _sparse(types: int, bundles: list[_Bundle], capacities: Sequence[int], *, wanted: bool) -> Knapsack:
    longest = capacities[-1]
    filled = np.zeros(1, dtype=np.int64)
    value = np.zeros(1, dtype=np.int64)
    history = [(filled, value)]
    for bundle in bundles:
        more = filled[: int(np.searchsorted(filled, longest - bundle.size, side="right"))]
        both = np.concatenate((filled, more + bundle.size))
        gain = np.concatenate((value, value[: len(more)] + bundle.value))
        order = np.lexsort((-gain, both))
        both, gain = both[order], gain[order]
        best = np.maximum.accumulate(gain)
        keep = np.ones(len(gain), dtype=bool)
        keep[1:] = gain[1:] > best[:-1]
        filled, value = both[keep], gain[keep]
        history.append((filled, value))
    ends = [int(np.searchsorted(filled, c, side="right")) - 1 for c in capacities]
    worth = tuple(int(value[end]) for end in ends)
    if not wanted:
        return Knapsack(worth, ())
    found: dict[tuple[int, Counts], int] = {}
    for lane, end in enumerate(ends):
        counts = [0] * types
        place, left = int(filled[end]), int(value[end])
        for at in range(len(bundles) - 1, -1, -1):
            was_filled, was_value = history[at]
            here = int(np.searchsorted(was_filled, place, side="right")) - 1
            if was_value[here] < left:
                counts[bundles[at].kind] += bundles[at].number
                place -= bundles[at].size
                left -= bundles[at].value
        found.setdefault((lane, tuple(counts)), worth[lane])
    return Knapsack(worth, tuple((lane, value, counts) for (lane, counts), value in found.items()))
