"""An exact integer search: whether lanes can cover sides, whatever the pieces are.

Pieces are edges between lanes and sides. A connected component of N sides and B lanes has at least N + B - 1
pieces, so B - 1 splices, and its lanes hold at least N - 1 joints between neighbouring pieces. So its sides
fit only if ``sum(sides) + (N - 1) * joint <= sum(lanes)``, where ``joint`` is the kerf, or less where nested
mitres overlap.

With nested mitres a joint may give length back. A component that spends one splice more (B in all) may then
have one joint more, but starts nest with starts and ends with ends only, so N joints need an even N. That
case is searched too: what is found impossible here is impossible for every plan.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import product

from edgewright.cutlist.check_trees import tree_exists

__all__ = ["MOST_KINDS", "Search", "Work", "WorkLimitError", "least_need"]

#: One recursion a side or kind of lane: more than this would need a deeper stack than Python lends.
MOST_KINDS = 200


class WorkLimitError(Exception):
    """The search was stopped by its count of steps; nothing is known."""


@dataclass(slots=True)
class Work:
    """Steps taken so far and steps allowed: a count, not a clock, so that every run ends alike."""

    limit: int
    done: int = 0

    def spend(self) -> None:
        """Count one step; raise `WorkLimitError` past the limit."""
        self.spend_all(1)

    def spend_all(self, steps: int) -> None:
        """Count so many steps; raise `WorkLimitError` past the limit."""
        self.done += steps
        if self.done > self.limit:
            raise WorkLimitError


def least_need(total: int, sides: int, lanes: int, joint: int, spliced: bool) -> int:
    """Least lane length that ``sides`` sides of ``total`` ticks take from at most ``lanes`` lanes (ticks)."""
    if joint >= 0:
        return total + max(0, sides - lanes) * joint
    return total + (sides if spliced and sides % 2 == 0 else sides - 1) * joint


class Search:
    """Searches over one ring; answers are remembered between calls, so nearby questions are cheap.

    Parameters
    ----------
    sides
        (length in ticks, splices allowed) of each side.
    joint
        Least length in ticks between neighbouring pieces of a lane; negative for nested mitres.
    work
        Shared counter of steps.
    least_piece
        Shortest piece, ticks: then components of several lanes count only where a tree of such pieces exists, or
        with a splice more. None to leave that out, which is quicker and finds more possible.
    """

    def __init__(
        self, sides: Sequence[tuple[int, int]], joint: int, work: Work, least_piece: int | None = None
    ) -> None:
        self._kinds = sorted(set(sides), reverse=True)
        self._counts = tuple(sum(side == kind for side in sides) for kind in self._kinds)
        self._joint = joint
        self._work = work
        self._least_piece = least_piece
        self._trees: dict[tuple[tuple[int, ...], tuple[int, ...]], bool] = {}
        self._known: dict[tuple[tuple[int, ...], tuple[int, ...], int, int], bool] = {}

    def exists(self, lanes: Sequence[int], max_splices: int, max_lanes: int | None = None) -> bool:
        """Whether the sides can be partitioned into components that fit.

        Parameters
        ----------
        lanes
            Lane lengths in ticks.
        max_splices, max_lanes
            Limits over the whole ring; no limit on lanes if None.

        Raises
        ------
        WorkLimitError
            If the search was not finished within the work allowed.
        """
        if max(sum(self._counts), len(set(lanes))) > MOST_KINDS:
            raise WorkLimitError
        most = len(lanes) if max_lanes is None else max_lanes
        return self._fits(self._counts, tuple(sorted(lanes, reverse=True)), max_splices, most)

    def _fits(self, counts: tuple[int, ...], lanes: tuple[int, ...], splices: int, most: int) -> bool:
        sides = sum(counts)
        if sides == 0:
            return True
        most = min(most, len(lanes))
        if most <= 0:
            return False
        # B lanes in C components take B - C splices; each component has a side
        splices = max(0, min(splices, most + sides))
        total = sum(length * count for (length, _), count in zip(self._kinds, counts, strict=True))
        if least_need(total, sides, most, self._joint, splices > 0) > sum(lanes[:most]):
            return False
        if self._cannot_be_whole(counts, lanes[0]) > splices:
            return False
        key = (counts, lanes, splices, most)
        if key not in self._known:
            self._work.spend()
            self._known[key] = any(
                self._fits(rest, left, splices - spent, most - used)
                for rest, left, spent, used in self._components(counts, lanes, splices, most)
            )
        return self._known[key]

    def _cannot_be_whole(self, counts: tuple[int, ...], longest: int) -> int:
        """Splices forced by sides longer than any lane."""
        if longest <= 0:
            return 0
        return sum(
            (length - 1) // longest * count for (length, _), count in zip(self._kinds, counts, strict=True)
        )

    def _components(
        self, counts: tuple[int, ...], lanes: tuple[int, ...], splices: int, most: int
    ) -> Iterator[tuple[tuple[int, ...], tuple[int, ...], int, int]]:
        """Ways to serve the longest side left: what remains of sides and lanes, splices spent, lanes used."""
        first = next(index for index, count in enumerate(counts) if count)
        ranges = [range(count, 0 if index == first else -1, -1) for index, count in enumerate(counts)]
        capacity = sum(lanes[:most])
        every = sum(length * count for (length, _), count in zip(self._kinds, counts, strict=True))
        # what all components together may waste, so what one may
        waste = capacity - least_need(every, sum(counts), most, self._joint, splices > 0)
        for group in product(*ranges):
            self._work.spend()
            sides = sum(group)
            total = sum(length * count for (length, _), count in zip(self._kinds, group, strict=True))
            allowed = min(
                splices, sum(cap * count for (_, cap), count in zip(self._kinds, group, strict=True))
            )
            needs = [(total + (sides - 1) * self._joint, 0)]
            if self._joint < 0 and sides % 2 == 0:
                needs.append((total + sides * self._joint, 1))
            rest = tuple(count - taken for count, taken in zip(counts, group, strict=True))
            for need, extra in needs:
                if need > capacity:
                    continue
                for used in range(1, min(allowed - extra + 1, most) + 1):
                    for left in self._lane_sets(lanes, used, need, waste):
                        if used == 1 or self._has_tree(group, lanes, left):
                            yield rest, left, used - 1 + extra, used
            if self._least_piece is not None:
                for used in range(2, min(allowed, most) + 1):  # a loop: one splice and one joint more
                    for left in self._lane_sets(lanes, used, total + sides * self._joint, waste):
                        yield rest, left, used, used

    def _has_tree(self, group: tuple[int, ...], lanes: tuple[int, ...], left: tuple[int, ...]) -> bool:
        """Whether pieces of at least the least length cover the group from the lanes that are gone."""
        if self._least_piece is None:
            return True
        taken = Counter(lanes)
        taken.subtract(left)
        key = (group, tuple(sorted(taken.elements())))
        if key not in self._trees:
            sides = [side for side, count in zip(self._kinds, group, strict=True) for _ in range(count)]
            self._trees[key] = tree_exists(sides, key[1], self._joint, self._least_piece, self._work.spend)
        return self._trees[key]

    def _lane_sets(
        self, lanes: tuple[int, ...], used: int, need: int, waste: int
    ) -> Iterator[tuple[int, ...]]:
        """Lanes left after taking ``used`` of them that hold ``need`` and at most ``waste`` more.

        Left out are sets with a lane too many, and sets in which a smaller free lane would do as well: giving
        the larger one to the component that has the smaller never makes that component worse.
        """
        kinds = sorted(set(lanes), reverse=True)
        counts = [lanes.count(kind) for kind in kinds]
        taken = [0] * len(kinds)

        def fill(index: int, open_places: int, held: int) -> Iterator[tuple[int, ...]]:
            self._work.spend()
            if open_places == 0:
                # where pieces may be too short, a smaller lane need not do as well
                any_set = used > 1 and self._least_piece is not None
                if need <= held <= need + waste and (
                    any_set or self._is_least(kinds, counts, taken, held - need)
                ):
                    yield tuple(k for k, c, t in zip(kinds, counts, taken, strict=True) for _ in range(c - t))
                return
            if index == len(kinds) or held + open_places * kinds[index] < need or held > need + waste:
                return
            for take in range(min(open_places, counts[index]), -1, -1):
                taken[index] = take
                yield from fill(index + 1, open_places - take, held + take * kinds[index])
            taken[index] = 0

        yield from fill(0, used, 0)

    @staticmethod
    def _is_least(kinds: list[int], counts: list[int], taken: list[int], spare: int) -> bool:
        smaller_free: int | None = None  # the largest free lane shorter than the one looked at
        shortest_taken = True
        for kind, count, take in zip(reversed(kinds), reversed(counts), reversed(taken), strict=True):
            if take:
                if shortest_taken and sum(taken) > 1 and kind <= spare:
                    return False
                shortest_taken = False
                if smaller_free is not None and kind - smaller_free <= spare:
                    return False
            if take < count:
                smaller_free = kind
        return True
