"""From chosen components to pieces: real sides and lanes for each, and splices placed under all rules.

What is placed is right; that nothing is found proves nothing.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from edgewright.cutlist.column_generation.pool import Column
from edgewright.cutlist.fill import Group, Segment, fill_lanes, lies_over
from edgewright.cutlist.model import Lane, PlanRules, RingSide

__all__ = ["Realised", "Realiser"]

#: Ways to deal out sides that are alike but for their layer, tried before a combination is refused.
_TURNS = 4


@dataclass(frozen=True, slots=True)
class Realised:
    """Segments of all uses; or, where there are none, positions of the uses that failed ``alone`` or ``together``."""

    segments: tuple[Segment, ...] | None
    alone: frozenset[int] = frozenset()
    together: frozenset[int] = frozenset()


class Realiser:
    """Places the pieces of chosen components; remembers which groups have no lawful place.

    Parameters
    ----------
    sides
        All sides; ``kinds`` gives the positions of those of each kind.
    """

    def __init__(self, sides: Sequence[RingSide], kinds: Sequence[Sequence[int]], rules: PlanRules) -> None:
        self.sides, self.kinds, self.rules = sides, kinds, rules
        self.layered = any(side.layer > 1 for side in sides)
        self._lawful: dict[tuple[Group, ...], bool] = {}

    def realise(self, uses: Sequence[Column], lanes: Sequence[Sequence[Lane]]) -> Realised:
        """Place the pieces of all uses; ``lanes`` are the real ones of each kind, the first to be taken first."""
        failed: list[frozenset[int]] = []
        clashing: set[Group] = set()
        groups: list[Group] = []
        for turn in range(_TURNS if self.layered else 1):
            groups = self._groups(uses, lanes, turn)
            spliced = [group for group in groups if len(group.lanes) > 1]
            for group in spliced:
                if (group,) not in self._lawful:
                    self._lawful[(group,)] = fill_lanes([group], self.rules) is not None
            failed.append(frozenset(n for n, g in enumerate(groups) if not self._lawful.get((g,), True)))
            clashing = set() if failed[-1] else self._clashing(spliced)
            segments = None if failed[-1] or clashing else self._fill(spliced)
            if segments is not None:
                whole = tuple(
                    Segment(side.id, 0, side.length_ticks, group.lanes[0].id)
                    for group in groups
                    if len(group.lanes) == 1
                    for side in group.sides
                )
                return Realised((*whole, *segments))
        alone = frozenset.intersection(*failed)
        together = frozenset(
            n for n, g in enumerate(groups) if g in clashing or (not clashing and len(g.lanes) > 1)
        )
        return Realised(None, alone, together)

    def _fill(self, spliced: Sequence[Group]) -> tuple[Segment, ...] | None:
        """Fill groups that may lie over each other together, all others alone."""
        parts = _over_each_other(spliced) if self.layered else [[group] for group in spliced]
        filled = [fill_lanes(part, self.rules) for part in parts]
        if any(part is None for part in filled):
            return None
        return tuple(segment for part in filled if part is not None for segment in part)

    def _clashing(self, groups: Sequence[Group]) -> set[Group]:
        """Groups of which two alone cannot keep their splices apart."""
        clashing: set[Group] = set()
        for i, a in enumerate(groups):
            for b in groups[i + 1 :]:
                near = any(lies_over(s, t) for s in a.sides for t in b.sides)
                if near and (a, b) not in self._lawful:
                    self._lawful[(a, b)] = fill_lanes([a, b], self.rules) is not None
                if near and not self._lawful[(a, b)]:
                    clashing |= {a, b}
        return clashing

    def _groups(self, uses: Sequence[Column], lanes: Sequence[Sequence[Lane]], turn: int) -> list[Group]:
        """Real sides and lanes of each use: inner lanes first, sticks one after the other."""
        sides = [self._dealt(members, turn, number) for number, members in enumerate(self.kinds)]
        free = [list(kind) for kind in lanes]
        groups = []
        for use in uses:
            own_sides = [self.sides[sides[i].pop(0)] for i, n in use.sides for _ in range(n)]
            top = own_sides[0].id.rpartition(".")[0]
            own_lanes = [_taken(free[t], top) for t, n in use.lanes for _ in range(n)]
            groups.append(Group(tuple(own_sides), tuple(own_lanes), use.loops))
        return groups

    def _dealt(self, members: Sequence[int], turn: int, number: int) -> list[int]:
        """Sides of one kind in the order they are dealt out: as listed, by odd or even layers, or turned on."""
        if turn in (1, 2):
            return sorted(members, key=lambda member: (self.sides[member].layer + turn + 1) % 2)
        first = (number + 1) % len(members) if turn else 0
        return [*members[first:], *members[:first]]


def _taken(free: list[Lane], top: str) -> Lane:
    """Take the first free lane out of the list, if there is one the first of the top's own wood (``2.offcut ...``)."""
    own = (n for n, lane in enumerate(free) if lane.id.startswith(f"{top}."))
    return free.pop(next(own, 0) if top else 0)


def _over_each_other(groups: Sequence[Group]) -> list[list[Group]]:
    """Groups in parts, such that no side of one part lies over a side of another."""
    parts: list[list[Group]] = []
    for group in groups:
        near = [
            part
            for part in parts
            if any(lies_over(a, b) for other in part for a in other.sides for b in group.sides)
        ]
        parts = [part for part in parts if part not in near]
        parts.append([*(other for part in near for other in part), group])
    return parts
