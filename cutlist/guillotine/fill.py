"""Ways to fill a length or a width: every one that takes no more, or the one worth most.

Sizes and capacity already carry one kerf each: pieces fit when their sizes add up to at most the capacity.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator, Sequence

import numpy as np
import numpy.typing as npt

__all__ = ["best_fill", "every_fill", "full_fills", "near_best_fills"]

Fill = tuple[int, ...]
_Whole = npt.NDArray[np.int64]


def full_fills(sizes: Sequence[int], counts: Sequence[int], capacity: int, limit: int) -> list[Fill] | None:
    """Every fill to which nothing can be added, as how many of each size; None where there are more than ``limit``."""
    found: list[Fill] = []
    order = sorted(range(len(sizes)), key=lambda i: -sizes[i])
    chosen = [0] * len(sizes)
    steps = 0

    def go_on(place: int, room: int, gap: int) -> bool:
        """Choose from ``place`` on; ``gap`` is the smallest size that was left out though there are more of it."""
        nonlocal steps
        steps += 1
        if steps > 20 * limit:
            return False
        if place == len(order):
            if room < gap:
                found.append(tuple(chosen))
            return len(found) <= limit
        i = order[place]
        most = min(counts[i], room // sizes[i])
        for n in range(most, -1, -1):
            left = min(gap, sizes[i]) if n < counts[i] else gap
            # what is left can never be used up by the rest
            if place + 1 == len(order) and room - n * sizes[i] >= left:
                break
            chosen[i] = n
            if not go_on(place + 1, room - n * sizes[i], left):
                return False
        chosen[i] = 0
        return True

    return found if go_on(0, capacity, capacity + 1) else None


def every_fill(sizes: Sequence[int], counts: Sequence[int], capacity: int, limit: int) -> list[Fill] | None:
    """Every fill but the empty one, full or not; None where there are more than ``limit``."""
    found: list[Fill] = [()]
    rooms = [capacity]
    for size, count in zip(sizes, counts, strict=True):
        more = [
            ((*fill, n), room - n * size)
            for fill, room in zip(found, rooms, strict=True)
            for n in range(min(count, room // size) + 1)
        ]
        if len(more) > limit:
            return None
        found, rooms = [fill for fill, _ in more], [room for _, room in more]
    return [fill for fill in found if any(fill)]


def best_fill(
    sizes: Sequence[int], counts: Sequence[int], values: Sequence[int], capacity: int
) -> tuple[int, Fill]:
    """Value and fill worth most: a bounded knapsack over the sums that can be reached.

    Only sums that beat every smaller one are kept, so that fine units cost nothing by themselves.
    """
    used: _Whole = np.zeros(1, dtype=np.int64)
    worth: _Whole = np.zeros(1, dtype=np.int64)
    steps: list[tuple[int, int, _Whole, _Whole]] = []
    for i in sorted(range(len(sizes)), key=lambda i: (-sizes[i], i)):
        most = min(counts[i], capacity // sizes[i]) if values[i] > 0 else 0
        for take in _blocks(most):
            steps.append((i, take, used, worth))
            used, worth = _merged(used, worth, take * sizes[i], take * values[i], capacity)
    value, room = int(worth[-1]), int(used[-1])
    chosen = [0] * len(sizes)
    left = value
    for i, take, before, gained in reversed(steps):
        at = int(np.searchsorted(before, room))
        if at < len(before) and before[at] == room and gained[at] == left:
            continue
        chosen[i] += take
        room -= take * sizes[i]
        left -= take * values[i]
    return value, tuple(chosen)


def near_best_fills(
    sizes: Sequence[int], counts: Sequence[int], values: Sequence[int], capacity: int, limit: int
) -> list[Fill]:
    """Fills worth nearly as much as the best, at most about ``limit`` of them.

    What they may fall short by is doubled, from 1 in 512 of the best, as long as there are fewer than ``limit``.
    """
    order = sorted((i for i in range(len(sizes)) if values[i] > 0), key=lambda i: (-sizes[i], i))
    # most that the sizes from a place on can add, by the room there is
    suffix: list[tuple[list[int], list[int]]] = [([0], [0])]
    used: _Whole = np.zeros(1, dtype=np.int64)
    worth: _Whole = np.zeros(1, dtype=np.int64)
    for i in reversed(order):
        for take in _blocks(min(counts[i], capacity // sizes[i])):
            used, worth = _merged(used, worth, take * sizes[i], take * values[i], capacity)
        suffix.append((used.tolist(), worth.tolist()))
    suffix.reverse()
    best = suffix[0][1][-1]
    found: list[Fill] = []
    chosen = [0] * len(sizes)

    def go_on(place: int, room: int, needed: int) -> bool:
        sums, most = suffix[place]
        if most[bisect_right(sums, room) - 1] < needed:
            return True
        if place == len(order):
            if all(chosen[i] >= counts[i] or sizes[i] > room for i in order):
                found.append(tuple(chosen))
            return len(found) < limit
        i = order[place]
        for n in range(min(counts[i], room // sizes[i]), -1, -1):
            chosen[i] = n
            if not go_on(place + 1, room - n * sizes[i], needed - n * values[i]):
                return False
        return True

    slack = max(1, best // 512)
    while best and len(found) < limit // 2 and slack < best:
        found.clear()
        go_on(0, capacity, best - slack)
        slack *= 2
    return found


def _blocks(number: int) -> Iterator[int]:
    """Blocks of 1, 2, 4 ... that add up to every number up to this one."""
    block = 1
    while number > 0:
        yield min(block, number)
        number -= min(block, number)
        block *= 2


def _merged(used: _Whole, worth: _Whole, size: int, value: int, capacity: int) -> tuple[_Whole, _Whole]:
    """Sums with and without one more block, those only that are worth more than every smaller one."""
    more = used + size
    fits = more <= capacity
    both, gain = np.concatenate((used, more[fits])), np.concatenate((worth, worth[fits] + value))
    order = np.lexsort((-gain, both))
    both, gain = both[order], gain[order]
    keep = np.ones(len(gain), dtype=bool)
    keep[1:] = gain[1:] > np.maximum.accumulate(gain)[:-1]
    return both[keep], gain[keep]
