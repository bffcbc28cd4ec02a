"""The components to choose from, and what turned out not to work under the splice rules.

A component that no order of pieces can realise goes, and what might do in its place comes in: the same with one more
lane, with one more loop, or joined with sides that would be cut whole from a lane of their own.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from edgewright.cutlist.components import Component, Pool, can_cover, most_splices

__all__ = ["Columns"]


class Columns:
    """A list of components that only ever changes by what is known of them.

    Attributes
    ----------
    now
        Components to choose from.
    forbidden
        Combinations (position in ``now`` and how often) whose splices cannot keep apart.
    """

    def __init__(self, pool: Pool, *, splices_allowed: bool) -> None:
        self.pool, self.splices_allowed = pool, splices_allowed
        self.now: list[Component] = []
        self.forbidden: list[dict[int, int]] = []
        self._known: set[Component] = set()

    def add(self, found: Sequence[Component]) -> None:
        """Put in the components that were not there before."""
        for component in found:
            if component not in self._known:
                self._known.add(component)
                self.now.append(component)

    def refuse(self, together: dict[int, int], alone: set[int]) -> None:
        """Put in what might do instead of those that failed: ``alone``, so that they go, or only together."""
        for number in sorted(alone or together):
            instead = self._instead(self.now[number])
            self.add(tuple(c for c in instead if can_cover(self.pool, c.sides, c.lanes)))
        if not alone:
            self.forbidden.append(together)
            return
        kept = [number for number in range(len(self.now)) if number not in alone]
        place = {number: at for at, number in enumerate(kept)}
        self.now = [self.now[number] for number in kept]
        self.forbidden = [
            {place[number]: count for number, count in combination.items()}
            for combination in self.forbidden
            if not alone & combination.keys()
        ]

    def _instead(self, failed: Component) -> Iterator[Component]:
        pool, kerf = self.pool, self.pool.kerf
        if not self.splices_allowed:
            return
        if failed.splices < most_splices(pool, failed.sides):
            if failed.left_over >= kerf and sum(failed.sides) > 1:
                yield Component(failed.sides, failed.lanes, failed.left_over - kerf, failed.loops + 1)
            for t, lane in enumerate(pool.lanes):
                lanes = tuple(c + (i == t) for i, c in enumerate(failed.lanes))
                if lanes[t] <= pool.available(t):
                    yield Component(failed.sides, lanes, failed.left_over + lane.length, failed.loops)
        for single in [column for column in self.now if sum(column.lanes) == 1]:
            sides = tuple(a + b for a, b in zip(failed.sides, single.sides, strict=True))
            lanes = tuple(a + b for a, b in zip(failed.lanes, single.lanes, strict=True))
            length = sum(n * lane.length for n, lane in zip(single.lanes, pool.lanes, strict=True))
            taken = sum(n * (t.length + kerf) for n, t in zip(single.sides, pool.sides, strict=True))
            left_over = failed.left_over + length - taken
            if (
                left_over >= 0
                and failed.splices < most_splices(pool, sides)
                and all(n <= len(t.members) for n, t in zip(sides, pool.sides, strict=True))
                and all(n <= pool.available(t) for t, n in enumerate(lanes))
            ):
                yield Component(sides, lanes, left_over, failed.loops)
