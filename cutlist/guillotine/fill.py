"""Ways to fill a length or a width: every one that takes no more, or the one worth most.

Sizes and capacity already carry one kerf each: pieces fit when their sizes add up to at most the capacity.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import numpy.typing as npt

__all__ = ["best_fill", "every_fill", "full_fills"]

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
        block = 1
        while most > 0:
            take = min(block, most)
            steps.append((i, take, used, worth))
            more = used + take * sizes[i]
            fits = more <= capacity
            both, gain = (
                np.concatenate((used, more[fits])),
                np.concatenate((worth, worth[fits] + take * values[i])),
            )
            order = np.lexsort((-gain, both))
            both, gain = both[order], gain[order]
            best = np.maximum.accumulate(gain)
            keep = np.ones(len(gain), dtype=bool)
            keep[1:] = gain[1:] > best[:-1]
            used, worth = both[keep], gain[keep]
            most -= take
            block *= 2
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
