"""The strip problem by kinds: sides that are alike, lanes that are alike, ways to rip sticks that are alike.

Lengths are ticks. A *way* is one way to rip a stick: the lanes it gives. A stick of one strip width has one way; in
a batch of several widths it has a few, of which each stick takes one. Ways of the same sticks share a ``group``.
"""

from __future__ import annotations

from dataclasses import dataclass

__all__ = ["Column", "LaneKind", "SideKind", "SplicePool", "Way"]


@dataclass(frozen=True, slots=True)
class SideKind:
    """``count`` sides of one length and strip width; at most ``splices`` splices in each."""

    length: int
    count: int
    splices: int
    width: int = 0


@dataclass(frozen=True, slots=True)
class Way:
    """A way to rip the sticks of a group, and what one such stick costs (cents)."""

    group: int
    price: int


@dataclass(frozen=True, slots=True)
class LaneKind:
    """``per_stick`` lanes of one length in each stick that is ripped in one way."""

    length: int
    way: int
    per_stick: int
    width: int = 0


@dataclass(frozen=True, slots=True)
class SplicePool:
    """The whole problem.

    Attributes
    ----------
    group_counts
        How many sticks there are in each group.
    joint
        What one joint between two whole sides in a lane costs; negative where mitres nest, else the kerf.
    """

    sides: tuple[SideKind, ...]
    ways: tuple[Way, ...]
    group_counts: tuple[int, ...]
    lanes: tuple[LaneKind, ...]
    joint: int
    kerf: int

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
