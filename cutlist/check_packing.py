"""Whether pieces go into given lanes: an exhaustive search with a step count. It shares nothing with the planner.

Lanes are filled one after another, the longest first. Only patterns that nothing more fits into are tried: what
could still go in can be moved in from a later lane. What a lane wastes comes out of what all lanes may waste
together, counted in lengths and once more in prices; a state met before is not tried again.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

__all__ = ["SearchLimitError", "dearest", "pack"]

#: Deeper than this Python's own stack would be the limit.
_MOST = 200

Counts = tuple[int, ...]


class SearchLimitError(Exception):
    """The step count is used up: nothing is proven."""


def dearest(
    sizes: Sequence[int], demand: Sequence[int], values: Sequence[int], capacities: Sequence[int]
) -> list[int]:
    """Return what the dearest pattern of each lane is worth, no piece oftener than wanted; exact.

    Where the prices are the lengths, reachable lengths are the bits of one long number. Otherwise only those
    fillings are kept that no shorter one is worth as much as.
    """
    longest = max(capacities)
    bundles = []
    for size, wanted, value in zip(sizes, demand, values, strict=True):
        left, step = min(wanted, longest // size), 1
        while left > 0 and value > 0:
            take = min(step, left)
            bundles.append((take * size, take * value))
            left, step = left - take, 2 * step
    if all(value * sizes[0] == size * values[0] for size, value in zip(sizes, values, strict=True)):
        return [filled * values[0] // sizes[0] for filled in _fullest([s for s, _ in bundles], capacities)]
    states = [(0, 0)]
    for size, value in bundles:
        more = [(s + size, v + value) for s, v in states if s + size <= longest]
        merged: list[tuple[int, int]] = []
        best = -1
        for state in sorted(states + more, key=lambda state: (state[0], -state[1])):
            if state[1] > best:
                merged.append(state)
                best = state[1]
        states = merged
    return [max(v for s, v in states if s <= capacity) for capacity in capacities]


def _fullest(sizes: Sequence[int], capacities: Sequence[int]) -> list[int]:
    longest = max(capacities)
    reached, mask = 1, (1 << (longest + 1)) - 1
    for size in sizes:
        reached |= (reached << size) & mask
    return [(reached & ((1 << (capacity + 1)) - 1)).bit_length() - 1 for capacity in capacities]


@dataclass(slots=True)
class _Search:
    sizes: Sequence[int]
    prices: tuple[Sequence[int], ...]
    lanes: list[int]
    worth: list[list[int]]
    steps: int
    dead: set[tuple[int, Counts]] = field(default_factory=set)

    def step(self) -> None:
        self.steps -= 1
        if self.steps < 0:
            raise SearchLimitError

    def fill(self, at: int, left: Counts, slack: tuple[int, ...]) -> list[Counts] | None:
        """Patterns for the lanes from ``at`` on that cut all that is left; None when there are none."""
        if not any(left):
            return []
        if at == len(self.lanes) or (at, left) in self.dead:
            return None
        for waste, counts in sorted(self.patterns(at, left, slack)):
            rest = tuple(number - count for number, count in zip(left, counts, strict=True))
            behind = self.fill(at + 1, rest, tuple(s - w for s, w in zip(slack, waste, strict=True)))
            if behind is not None:
                return [counts, *behind]
        self.dead.add((at, left))
        return None

    def patterns(self, at: int, left: Counts, slack: tuple[int, ...]) -> list[tuple[tuple[int, ...], Counts]]:
        """Every full pattern of a lane that wastes no more than the slack, with its waste in each price."""
        capacity = self.lanes[at]
        largest = next(kind for kind, number in enumerate(left) if number)
        shorter = next((lane for lane in self.lanes[at:] if lane < capacity), 0)
        # only lanes of this length take the longest piece left, and they are alike: this one takes it
        forced = largest if self.sizes[largest] > shorter else None
        if forced is not None and self.sizes[forced] > capacity:
            return []
        found: list[tuple[tuple[int, ...], Counts]] = []
        counts = [0] * len(left)
        targets = [worth[at] - allowed for worth, allowed in zip(self.worth, slack, strict=True)]

        def grow(kind: int, room: int, got: list[int]) -> None:
            self.step()
            while kind < len(left) and (not left[kind] or self.sizes[kind] > room):
                kind += 1
            if kind == len(left):
                unused = (
                    size <= room and number > count
                    for size, number, count in zip(self.sizes, left, counts, strict=True)
                )
                if not any(unused) and all(g >= t for g, t in zip(got, targets, strict=True)):
                    waste = tuple(worth[at] - g for worth, g in zip(self.worth, got, strict=True))
                    found.append((waste, tuple(counts)))
                return
            # sizes fall: what follows fills at most the room, and that bounds its price where prices are lengths
            if got[0] + room < targets[0]:
                return
            most = min(left[kind], room // self.sizes[kind])
            for number in range(most, -1, -1):
                if kind == forced and not number:
                    break
                counts[kind] = number
                grow(
                    kind + 1,
                    room - number * self.sizes[kind],
                    [g + number * price[kind] for g, price in zip(got, self.prices, strict=True)],
                )
            counts[kind] = 0

        grow(0, capacity, [0] * len(self.prices))
        return found


def pack(
    sizes: Sequence[int],
    demand: Sequence[int],
    lanes: Sequence[int],
    values: Sequence[int],
    steps: int,
) -> list[tuple[int, Counts]] | None:
    """Put all pieces into the lanes: (lane capacity, counts) for each lane used; None when it cannot be done.

    Parameters
    ----------
    sizes, demand
        Sizes of the types, falling, and how many of each.
    lanes
        Capacities, one for each lane.
    values
        Prices of the types that make the search shorter; any will do.
    steps
        How much may be tried.

    Raises
    ------
    SearchLimitError
        The steps are used up.
    """
    if len(lanes) > _MOST or len(sizes) > _MOST:
        raise SearchLimitError
    ordered = sorted((lane for lane in lanes if lane >= sizes[-1]), reverse=True)
    if not ordered:
        return None
    distinct = sorted(set(ordered))
    prices = (tuple(sizes), tuple(values))
    worth, slack = [], []
    for price in prices:
        of = dict(zip(distinct, dearest(sizes, demand, price, distinct), strict=True))
        worth.append([of[lane] for lane in ordered])
        slack.append(sum(worth[-1]) - sum(p * d for p, d in zip(price, demand, strict=True)))
    if min(slack) < 0:
        return None
    filled = _Search(sizes, prices, ordered, worth, steps).fill(0, tuple(demand), tuple(slack))
    return None if filled is None else list(zip(ordered, filled, strict=False))
