"""Lanes and rips to choose from, and the pricing that finds those that pay.

A lane says which blanks are crosscut from it, a rip which lanes a stick is ripped into. Keeping the two apart lets every
lane go with every rip; together they are the layouts of a stick.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from edgewright.cutlist.guillotine.fill import best_fill, full_fills
from edgewright.cutlist.guillotine.problem import Problem

__all__ = ["LanePattern", "Pool", "Prices", "RipPattern"]


@dataclass(frozen=True, slots=True)
class LanePattern:
    """A lane of a kind: (type, how many) of the blanks in it."""

    kind: int
    blanks: tuple[tuple[int, int], ...]


@dataclass(frozen=True, slots=True)
class RipPattern:
    """A face ripped into lanes: (kind, how many)."""

    face: int
    lanes: tuple[tuple[int, int], ...]


@dataclass(frozen=True, slots=True)
class Prices:
    """What the blanks are worth as they lie best.

    ``holds`` is the most that a stick of each class can hold; ``lanes`` is the best lane of each kind with its value,
    ``rips`` the best rip of each face with its value, lanes of a kind counted in full.
    """

    holds: tuple[int, ...]
    lanes: tuple[tuple[int, LanePattern], ...]
    rips: tuple[tuple[int, RipPattern], ...]


class Pool:
    """Patterns that only ever become more.

    ``complete`` when every full lane and every full rip is in.
    """

    def __init__(self, problem: Problem, limit: int) -> None:
        self.problem = problem
        self.lanes: list[LanePattern] = []
        self.rips: list[RipPattern] = []
        self._known: set[LanePattern | RipPattern] = set()
        self._listed = self._list_all(limit)
        self.complete = self._listed is not None

    def add(self, patterns: Sequence[LanePattern | RipPattern]) -> int:
        """Put in what is not there yet; how many were new."""
        before = len(self._known)
        for pattern in patterns:
            if pattern not in self._known and (
                pattern.blanks if isinstance(pattern, LanePattern) else pattern.lanes
            ):
                self._known.add(pattern)
                if isinstance(pattern, LanePattern):
                    self.lanes.append(pattern)
                else:
                    self.rips.append(pattern)
        return len(self._known) - before

    def most_lanes(self, kind: int) -> int:
        """Lanes of a kind that could be wanted at most."""
        return sum(self.problem.blanks[t].count for t, _ in self.problem.kinds[kind].items)

    def _list_all(self, limit: int) -> tuple[LanePattern | RipPattern, ...] | None:
        """Every full lane and rip, or None where there are more than ``limit`` of either."""
        kerf, found = self.problem.kerf, list[LanePattern | RipPattern]()
        for k, kind in enumerate(self.problem.kinds):
            counts = [self.problem.blanks[t].count for t, _ in kind.items]
            sizes = [along + kerf for _, along in kind.items]
            fills = full_fills(sizes, counts, kind.length + kerf, limit - len(found))
            if fills is None:
                return None
            for fill in fills:
                blanks = tuple((t, n) for (t, _), n in zip(kind.items, fill, strict=True) if n)
                found.append(LanePattern(k, blanks))
        lanes = len(found)
        for f, face in enumerate(self.problem.faces):
            sizes = [self.problem.kinds[k].width + kerf for k in face.kinds]
            counts = [self.most_lanes(k) for k in face.kinds]
            fills = full_fills(sizes, counts, face.across + kerf, limit + lanes - len(found))
            if fills is None:
                return None
            for fill in fills:
                found.append(RipPattern(f, tuple((k, n) for k, n in zip(face.kinds, fill, strict=True) if n)))
        self.add(found)
        return tuple(found)

    def price(self, points: Sequence[int]) -> Prices:
        """Best lanes and rips when a blank of each type is worth so many points (whole, 0 or more)."""
        problem, kerf = self.problem, self.problem.kerf
        lanes = []
        for k, kind in enumerate(problem.kinds):
            value, fill = best_fill(
                [along + kerf for _, along in kind.items],
                [problem.blanks[t].count for t, _ in kind.items],
                [points[t] for t, _ in kind.items],
                kind.length + kerf,
            )
            blanks = tuple((t, n) for (t, _), n in zip(kind.items, fill, strict=True) if n)
            lanes.append((value, LanePattern(k, blanks)))
        whole = sum(p * blank.count for p, blank in zip(points, problem.blanks, strict=True))
        holds = [0] * len(problem.sticks)
        rips = []
        for f, face in enumerate(problem.faces):
            sizes = [problem.kinds[k].width + kerf for k in face.kinds]
            counts = [self.most_lanes(k) for k in face.kinds]
            values = [lanes[k][0] for k in face.kinds]
            value, fill = best_fill(sizes, counts, values, face.across + kerf)
            rips.append(
                (value, RipPattern(f, tuple((k, n) for k, n in zip(face.kinds, fill, strict=True) if n)))
            )
            holds[face.stick] = max(holds[face.stick], min(whole, self._held(f, points, values)))
        return Prices(tuple(holds), tuple(lanes), tuple(rips))

    def _held(self, f: int, points: Sequence[int], values: Sequence[int]) -> int:
        """Most points that one face can hold, when lanes of a width together hold at most all blanks of that width."""
        problem, kerf = self.problem, self.problem.kerf
        face = problem.faces[f]
        sizes, counts, worth = [], [], []
        for k, value in zip(face.kinds, values, strict=True):
            kind = problem.kinds[k]
            if value:
                every = sum(points[t] * problem.blanks[t].count for t, _ in kind.items)
                size = kind.width + kerf
                sizes += [size, size]
                counts += [every // value, 1]
                worth += [value, every % value]
        return best_fill(sizes, counts, worth, face.across + kerf)[0]
