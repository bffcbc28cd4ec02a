"""First cuttings, without any solver: the longest piece first, each into the fullest lane that takes it.

For each way of choosing the next stick there is one cutting: the cheapest for its length, the longest, and the one
that the piece fits best.
"""

from __future__ import annotations

from bisect import bisect_left, insort
from collections.abc import Callable, Iterator

from edgewright.cutlist.whole.instance import Instance
from edgewright.cutlist.whole.pricing import Counts

__all__ = ["first_fits"]

_Times = dict[tuple[int, Counts], int]


def first_fits(inst: Instance) -> Iterator[_Times]:
    """Cuttings by the longest piece first; as many as found within the stick counts."""
    capacities, groups = inst.capacities, inst.groups

    def length(at: int) -> int:
        return sum(c * n for c, n in zip(capacities, groups[at].lanes, strict=True))

    def cheapest(at: int) -> tuple[float, int]:
        return groups[at].weights[0] / length(at), -length(at)

    def longest(at: int) -> tuple[float, int]:
        return -length(at), groups[at].weights[0]

    def shortest(at: int) -> tuple[float, int]:
        return length(at), groups[at].weights[0]

    for order in (cheapest, longest, shortest):
        found = _fit(inst, order)
        if found is not None:
            yield found


def _fit(inst: Instance, order: Callable[[int], tuple[float, int]]) -> _Times | None:
    left = [group.most for group in inst.groups]
    ranked = sorted(range(len(left)), key=lambda at: (order(at), at))
    rooms: list[tuple[int, int]] = []
    lanes: list[int] = []
    counts: list[list[int]] = []
    for kind, (size, wanted) in enumerate(zip(inst.sizes, inst.demand, strict=True)):
        for _ in range(wanted):
            fullest = bisect_left(rooms, (size, 0))
            if fullest == len(rooms):
                able = (at for at in ranked if left[at] and _takes(inst, at, size))
                stick = next(able, None)
                if stick is None:
                    return None
                left[stick] -= 1
                for lane, number in enumerate(inst.groups[stick].lanes):
                    for _ in range(number):
                        insort(rooms, (inst.capacities[lane], len(lanes)))
                        lanes.append(lane)
                        counts.append([0] * len(inst.sizes))
                fullest = bisect_left(rooms, (size, 0))
            room, at = rooms.pop(fullest)
            counts[at][kind] += 1
            insort(rooms, (room - size, at))
    times: _Times = {}
    for lane, row in zip(lanes, counts, strict=True):
        if any(row):
            times[lane, tuple(row)] = times.get((lane, tuple(row)), 0) + 1
    return times


def _takes(inst: Instance, at: int, size: int) -> bool:
    return any(n and c >= size for c, n in zip(inst.capacities, inst.groups[at].lanes, strict=True))
