"""The problem as the planner works on it: equal things put together, lengths without a common factor.

Pieces of one length are one type, longest first. Sticks with the same lanes and weights are one group. The kerf is
added to every piece and to every lane once, so that what is left is plain addition of whole numbers.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from edgewright.cutlist.whole.model import StickKind, WholeProblem
from edgewright.errors import InputError

__all__ = ["Group", "Instance", "make_instance"]

#: 312 m in ticks: every length that can be reached has a place in memory.
_LONGEST: Final = 100_000_000
_MOST_PIECES: Final = 100_000
#: Prices times these stay far below what 64 bits hold.
_DEAREST: Final = 10**10


@dataclass(frozen=True, slots=True)
class Group:
    """Sticks with the same lanes and weights: their kinds by name, and how many of each lane a stick has."""

    kinds: tuple[StickKind, ...]
    weights: tuple[int, ...]
    lanes: tuple[int, ...]
    most: int


@dataclass(frozen=True, slots=True)
class Instance:
    """Types of pieces (``sizes`` falling, ``demand``) and lanes (``capacities`` rising), all in one reduced unit."""

    problem: WholeProblem
    unit: int
    sizes: tuple[int, ...]
    demand: tuple[int, ...]
    capacities: tuple[int, ...]
    groups: tuple[Group, ...]

    @property
    def stages(self) -> int:
        """How many objectives there are."""
        return len(self.groups[0].weights)

    def type_of(self, length: int) -> int:
        """Return the type that a piece of this length (problem units) is of."""
        return self.sizes.index((length + self.problem.kerf) // self.unit)

    def lane_of(self, length: int) -> int | None:
        """Return the index of the lane of this length (problem units); None where no piece fits or no stick has it."""
        capacity = _reachable(length, self.problem.kerf, self.unit)
        return self.capacities.index(capacity) if capacity in self.capacities else None


def _reachable(length: int, kerf: int, unit: int) -> int:
    return (length + kerf) // unit


def make_instance(problem: WholeProblem) -> Instance:
    """Check a problem and reduce it.

    Raises
    ------
    InputError
        No pieces or no sticks, a length, count, weight or kerf out of range, a name used twice, or a piece that is
        longer than every lane.
    """
    _check(problem)
    kerf = problem.kerf
    wanted: dict[int, int] = {}
    for piece in problem.pieces:
        if piece.count:
            wanted[piece.length + kerf] = wanted.get(piece.length + kerf, 0) + piece.count
    unit = math.gcd(*wanted)
    sizes = sorted((size // unit for size in wanted), reverse=True)
    lengths = {length for kind in problem.kinds if kind.count != 0 for length, _ in kind.lanes}
    capacities = sorted({c for c in (_reachable(length, kerf, unit) for length in lengths) if c >= sizes[-1]})
    total = sum(wanted.values())
    alike: dict[tuple[tuple[int, ...], tuple[int, ...]], list[StickKind]] = {}
    for kind in (kind for kind in problem.kinds if kind.count != 0):
        lanes = [0] * len(capacities)
        for length, number in kind.lanes:
            capacity = _reachable(length, kerf, unit)
            if capacity >= sizes[-1]:
                lanes[capacities.index(capacity)] += number
        if any(lanes):
            alike.setdefault((kind.weights, tuple(lanes)), []).append(kind)
    groups = []
    for (weights, by_lane), kinds in sorted(alike.items()):
        counts = [total if kind.count is None else kind.count for kind in kinds]
        ordered = tuple(sorted(kinds, key=lambda kind: kind.name))
        groups.append(Group(ordered, weights, by_lane, min(total, sum(counts))))
    return Instance(
        problem,
        unit,
        tuple(sizes),
        tuple(wanted[size * unit] for size in sizes),
        tuple(capacities),
        tuple(groups),
    )


def _check(problem: WholeProblem) -> None:
    _within("kerf", problem.kerf, 0, _LONGEST)
    _unique("stick kind", (kind.name for kind in problem.kinds))
    _unique("piece", (piece.name for piece in problem.pieces))
    for piece in problem.pieces:
        _within(f"length of piece {piece.name!r}", piece.length, 1, _LONGEST)
        _at_least(f"count of piece {piece.name!r}", piece.count, 0)
    if not any(piece.count for piece in problem.pieces):
        raise InputError("no pieces are wanted: give at least one piece with a count of 1 or more")
    total = sum(piece.count for piece in problem.pieces)
    if total > _MOST_PIECES:
        raise InputError(f"pieces: got {total}, must be at most {_MOST_PIECES} together; plan them in parts")
    if not problem.kinds:
        raise InputError("no stock: give at least one stick kind")
    stages = len(problem.kinds[0].weights)
    for kind in problem.kinds:
        if kind.count is not None:
            _at_least(f"count of stick kind {kind.name!r}", kind.count, 0)
        for weight in kind.weights:
            _within(f"weight of stick kind {kind.name!r}", weight, 0, _DEAREST)
        if len(kind.weights) != stages or not stages:
            raise InputError(
                f"weights of stick kind {kind.name!r}: got {len(kind.weights)}, every kind needs equally many, "
                "one for each objective"
            )
        if not kind.lanes:
            raise InputError(f"stick kind {kind.name!r} has no lanes: give at least one")
        for length, number in kind.lanes:
            _within(f"lane length of stick kind {kind.name!r}", length, 1, _LONGEST)
            _within(f"lanes a stick of stick kind {kind.name!r}", number, 1, _MOST_PIECES)
    _longest(problem)


def _longest(problem: WholeProblem) -> None:
    lanes = [(length, k.name) for k in problem.kinds if k.count != 0 for length, _ in k.lanes]
    if not lanes:
        raise InputError("no stock: every stick kind has a count of 0")
    length, name = max(lanes)
    for piece in problem.pieces:
        if piece.count and piece.length > length:
            raise InputError(
                f"length of piece {piece.name!r}: got {piece.length}, the longest lane there is takes {length} "
                f"(stick kind {name!r}); add longer stock or allow a splice"
            )


def _within(what: str, got: int, lowest: int, highest: int) -> None:
    _at_least(what, got, lowest)
    if got > highest:
        raise InputError(f"{what}: got {got}, must be at most {highest}")


def _at_least(what: str, got: int, lowest: int) -> None:
    if got < lowest:
        raise InputError(f"{what}: got {got}, must be at least {lowest}")


def _unique(what: str, names: Iterable[str]) -> None:
    for one, other in pairwise(sorted(names)):
        if one == other:
            raise InputError(f"{what} {one!r} is given twice: names must differ")
