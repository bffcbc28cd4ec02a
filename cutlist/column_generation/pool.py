"""The strip problem by kinds: sides that are alike, lanes that are alike, ways to rip sticks that are alike.

Lengths are ticks. A *way* is one way to rip a stick: the lanes it gives. A stick of one strip width has one way; in
a batch of several widths it has a few, of which each stick takes one. Ways of the same sticks share a ``group``.

A *family* is the sides that may hang together in one component: one strip width and one set of splice rules. A lane
can serve several families, where their strips are alike but for the rules.
"""

from __future__ import annotations

from dataclasses import dataclass

__all__ = ["Column", "LaneKind", "SideKind", "SplicePool", "Way"]


@dataclass(frozen=True, slots=True)
class SideKind:
    """``count`` sides of one length and family; at most ``splices`` splices in each."""

    length: int
    count: int
    splices: int
    family: int = 0


@dataclass(frozen=True, slots=True)
class Way:
    """A way to rip the sticks of a group, what one such stick costs (cents), and the fence settings it needs."""

    group: int
    price: int
    settings: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class LaneKind:
    """``per_stick`` lanes of one length in each stick that is ripped in one way, and the families they can serve."""

    length: int
    way: int
    per_stick: int
    families: tuple[int, ...] = (0,)


@dataclass(frozen=True, slots=True)
class SplicePool:
    """The whole problem.

    Attributes
    ----------
    group_counts
        How many sticks there are in each group.
    joints
        What one joint between two whole sides in a lane costs, by family; negative where mitres nest, else the kerf.
    """

    sides: tuple[SideKind, ...]
    ways: tuple[Way, ...]
    group_counts: tuple[int, ...]
    lanes: tuple[LaneKind, ...]
    joints: tuple[int, ...]
    kerf: int

    @property
    def ways_of_groups(self) -> list[list[int]]:
        """Positions of the ways of each group."""
        found: list[list[int]] = [[] for _ in self.group_counts]
        for number, way in enumerate(self.ways):
            found[way.group].append(number)
        return found

    @property
    def lanes_of_ways(self) -> list[list[int]]:
        """Positions of the lane kinds of each way."""
        found: list[list[int]] = [[] for _ in self.ways]
        for number, lane in enumerate(self.lanes):
            found[lane.way].append(number)
        return found

    def family_of(self, column: Column) -> int:
        """Family of the sides of a component."""
        return self.sides[column.sides[0][0]].family

    def available(self, lane: int) -> int:
        """How many lanes of a kind there are at most."""
        kind = self.lanes[lane]
        return kind.per_stick * self.group_counts[self.ways[kind.way].group]


@dataclass(frozen=True, slots=True)
class Column:
    """A component: (kind, how many) of its sides and of its lanes, kinds ascending.

    ``loops`` counts the pieces beyond those of a tree, each with one splice and one kerf more.
    """

    sides: tuple[tuple[int, int], ...]
    lanes: tuple[tuple[int, int], ...]
    loops: int = 0

    @property
    def strips(self) -> int:
        """Lanes of the component."""
        return sum(n for _, n in self.lanes)

    @property
    def splices(self) -> int:
        """Splices: one less than the lanes, and one for each loop."""
        return self.strips - 1 + self.loops
