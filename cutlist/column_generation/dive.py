"""A whole choice for a batch: the ways of ripping are fixed by diving, then each family is chosen by itself.

Once it is settled how each stick is ripped, no two families share a lane, and each is a small integer program. What a
family still lacks it takes from sticks that nobody has touched. A choice that is found this way is possible, not
always the best; what the linear program proves about it says by how much it can be beaten.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from edgewright.cutlist.column_generation.pool import Column, SplicePool, Way
from edgewright.cutlist.column_generation.pricing import Duals, price_components
from edgewright.cutlist.column_generation.relaxation import Relaxation
from edgewright.cutlist.column_generation.weights import Weights

__all__ = ["Part", "apart", "combined", "dive", "part_of", "seeds"]

#: Of the ways that are not whole, those above this are rounded up at once, and this share of the others.
_NEARLY: Final = 0.7
_SHARE: Final = 10
_MOST_STEPS: Final = 60
#: So much more than a cent, and one of the stages after it, counts when ways are fixed: (cent, splice, stick, strip).
_WORTH: Final = (100, 300, 100, 10)


def combined(pool: SplicePool) -> Weights:
    """All stages in one sum, the earlier ones heavier: a guide for the dive, no proof."""
    cent, splice, stick, strip = _WORTH
    return Weights(splice, strip, tuple(cent * way.price + stick for way in pool.ways))


def seeds(pool: SplicePool) -> Iterator[Column]:
    """Components that fill lanes well, and each side alone: with them no family is left without a way out."""
    worth = tuple(side.length for side in pool.sides)
    duals = Duals(worth, (0,) * len(pool.lanes), max(worth, default=0) // 2, 1)
    yield from price_components(pool, duals, 2).columns
    priced = {way for way, kind in enumerate(pool.ways) if kind.price}
    for i, side in enumerate(pool.sides):
        seen = set()
        for t, lane in enumerate(pool.lanes):
            fits = lane.way in priced and side.family in lane.families and lane.length >= side.length
            if fits and lane.length not in seen:
                seen.add(lane.length)
                yield Column(((i, 1),), ((t, 1),))


def dive(relaxation: Relaxation, weights: Weights, ticking: Callable[[str], None]) -> tuple[int, ...] | None:
    """How many sticks are ripped in each way, fixed step by step; None where not even fractions cover the sides."""
    pool = relaxation.pool
    master = relaxation.master(weights)
    known = set(relaxation.columns)
    fixed = [0] * len(pool.ways)
    for step in range(_MOST_STEPS):
        ticking("deciding how to rip each stick")
        duals, _, left_out = master.duals()
        if left_out and step:
            return None
        whole = Duals(duals.sides, tuple(w + weights.lane * duals.scale for w in duals.lanes),
                      weights.splice * duals.scale, duals.scale)  # fmt: skip
        fresh = [c for c in price_components(pool, whole, 2, lawful_only=True).columns if c not in known]
        if fresh and step % 4 == 1:
            known.update(fresh)
            relaxation.columns += fresh
            master.add(fresh)
            continue
        values = master.ways()
        floors = np.floor(values + 1e-6)
        rest = values - floors
        open_ways = [n for n in np.argsort(-rest, kind="stable") if rest[n] > 1e-6]
        for n, floor in enumerate(floors):
            fixed[n] = max(fixed[n], int(floor))
        if not open_ways:
            return tuple(fixed)
        chosen = [n for n in open_ways if rest[n] >= _NEARLY] or open_ways[: 1 + len(open_ways) // _SHARE]
        left = [count - sum(fixed[n] for n in ways) for ways, count in
                zip(pool.ways_of_groups, pool.group_counts, strict=True)]  # fmt: skip
        for n in chosen:
            if left[pool.ways[n].group] > 0:
                left[pool.ways[n].group] -= 1
                fixed[n] += 1
        master.at_least(fixed)
    return tuple(fixed)


@dataclass(frozen=True, slots=True)
class Part:
    """A batch cut down to some families and to sticks whose way is settled, with its kinds' positions in the whole."""

    pool: SplicePool
    sides: tuple[int, ...]
    ways: tuple[int, ...]
    lanes: tuple[int, ...]

    def whole(self, column: Column) -> Column:
        """A component of the part as one of the whole."""
        return Column(
            tuple((self.sides[i], n) for i, n in column.sides),
            tuple(sorted((self.lanes[t], n) for t, n in column.lanes)),
            column.loops,
        )

    def beyond(self, ways: Sequence[int], fixed: Sequence[int]) -> dict[int, int]:
        """Sticks that the part takes in ways that were not settled for it, by way of the whole."""
        found: dict[int, int] = {}
        for n, count in zip(self.ways, ways, strict=True):
            found[n] = found.get(n, 0) + count
        return {n: count - fixed[n] for n, count in found.items() if count > fixed[n]}


def part_of(pool: SplicePool, families: set[int], fixed: Sequence[int], free: Sequence[int] | None) -> Part:
    """Some families and the sticks whose way is ``fixed``; those of the groups that are ``free`` too, if given."""
    sides = [i for i, side in enumerate(pool.sides) if side.family in families]
    serves = [set[int]() for _ in pool.ways]
    for lane in pool.lanes:
        serves[lane.way] |= set(lane.families)
    ways: list[int] = []
    groups: list[int] = []
    group_of: list[int] = []
    for n, count in enumerate(fixed):
        if count and not serves[n].isdisjoint(families):
            group_of.append(len(groups))
            groups.append(count)
            ways.append(n)
    for members, count in zip(pool.ways_of_groups, free or (), strict=False):
        own = [n for n in members if not serves[n].isdisjoint(families)]
        if own and count:
            group_of += [len(groups)] * len(own)
            groups.append(count)
            ways += own
    lanes_of = pool.lanes_of_ways
    lanes, kinds = [], []
    for at, n in enumerate(ways):
        for t in lanes_of[n]:
            if not families.isdisjoint(pool.lanes[t].families):
                lanes.append(t)
                kinds.append(replace(pool.lanes[t], way=at))
    part = SplicePool(
        tuple(pool.sides[i] for i in sides),
        tuple(Way(group, pool.ways[n].price) for group, n in zip(group_of, ways, strict=True)),
        tuple(groups),
        tuple(kinds),
        pool.joints,
        pool.kerf,
    )
    return Part(part, tuple(sides), tuple(ways), tuple(lanes))


def apart(pool: SplicePool) -> list[set[int]]:
    """Families in parts that have no lane in common."""
    parts: list[set[int]] = [{n} for n in range(len(pool.joints))]
    for families in sorted({lane.families for lane in pool.lanes}):
        near = [part for part in parts if not part.isdisjoint(families)]
        parts = [part for part in parts if part not in near] + [set().union(*near)]
    return sorted((part for part in parts), key=min)
