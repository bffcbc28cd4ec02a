"""Small strip problems by kinds, and every way to solve them; nothing here calls the planner."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import product
from random import Random

from edgewright.cutlist.column_generation.pool import LaneKind, SideKind, SplicePool, Way


def small_pool(number: int, *, for_sale: bool = False) -> SplicePool:
    """Up to six sides of small lengths and lanes that hold about what they need; all may be spliced."""
    pick = Random(number)
    kerf = pick.randint(0, 2)
    sides = tuple(
        SideKind(length, pick.randint(1, 2), pick.choice([1, 1, 2]))
        for length in pick.sample(range(3, 14), pick.randint(1, 3))
    )
    need = sum((side.length + kerf) * side.count for side in sides)
    ways, lanes, counts = [], [], []
    held = 0
    while held < need or not lanes:
        length = pick.randint(2, 12)
        number_of = pick.randint(1, 2)
        ways.append(Way(len(ways), pick.choice([0, 2, 3, 5]) if for_sale else 0))
        counts.append(number_of)
        lanes.append(LaneKind(length, len(ways) - 1, 1))
        held += (length + kerf) * number_of + pick.randint(-2, 0)
    return SplicePool(sides, tuple(ways), tuple(counts), tuple(lanes), (kerf,), kerf)


def every_component(pool: SplicePool, most_lanes: int) -> Iterator[tuple[tuple[int, ...], tuple[int, ...]]]:
    """Every (sides, lanes) that is possible by length: counts by kind."""
    for lanes in product(*(range(pool.available(t) + 1) for t in range(len(pool.lanes)))):
        if not 1 <= sum(lanes) <= most_lanes:
            continue
        held = sum(n * lane.length for n, lane in zip(lanes, pool.lanes, strict=True))
        for sides in product(*(range(side.count + 1) for side in pool.sides)):
            number = sum(sides)
            need = sum(n * side.length for n, side in zip(sides, pool.sides, strict=True))
            if number and need + (number - 1) * pool.kerf <= held:
                yield sides, lanes


def best_by_hand(pool: SplicePool) -> tuple[int, int] | None:
    """Least cost and the fewest splices for it over every partition into components; splices allowed everywhere."""
    components = [
        (sides, lanes)
        for sides, lanes in every_component(pool, sum(pool.group_counts))
        if sum(lanes) - 1 <= sum(n * side.splices for n, side in zip(sides, pool.sides, strict=True))
    ]
    known: dict[tuple[tuple[int, ...], tuple[int, ...]], tuple[int, int] | None] = {}

    def best(sides: tuple[int, ...], lanes: tuple[int, ...]) -> tuple[int, int] | None:
        if not any(sides):
            return 0, 0
        key = sides, lanes
        if key not in known:
            found = []
            first = next(i for i, n in enumerate(sides) if n)
            for s, m in components:
                if s[first] and all(a <= b for a, b in zip(s + m, sides + lanes, strict=True)):
                    rest = best(
                        tuple(b - a for a, b in zip(s, sides, strict=True)),
                        tuple(b - a for a, b in zip(m, lanes, strict=True)),
                    )
                    if rest is not None:
                        price = sum(
                            n * pool.ways[lane.way].price for n, lane in zip(m, pool.lanes, strict=True)
                        )
                        found.append((rest[0] + price, rest[1] + sum(m) - 1))
            known[key] = min(found, default=None)
        return known[key]

    return best(
        tuple(side.count for side in pool.sides), tuple(pool.available(t) for t in range(len(pool.lanes)))
    )
