"""Lanes and rips to choose from, and the pricing that finds those that pay.

A lane says which blanks are crosscut from it, a rip which lanes a stick is ripped into. Keeping the two apart lets
every lane go with every rip; together they are the layouts of a stick. The full lanes of a kind, and the full rips of a
face, are listed outright where they are few; otherwise those that pay are made as they are asked for.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from edgewright.cutlist.guillotine.fill import best_fill, full_fills, near_best_fills
from edgewright.cutlist.guillotine.problem import Kind, Problem

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
    """The best lane of each kind and the best rip of each face with their values, lanes of a kind counted in full."""

    lanes: tuple[tuple[int, LanePattern], ...]
    rips: tuple[tuple[int, RipPattern], ...]


class Pool:
    """Patterns that only ever become more.

    ``complete`` when every full lane and every full rip is in, at most ``limit`` of a kind or a face.
    """

    def __init__(self, problem: Problem, limit: int) -> None:
        self.problem, self.limit = problem, limit
        self.lanes: list[LanePattern] = []
        self.rips: list[RipPattern] = []
        self._known: set[LanePattern | RipPattern] = set()
        self._most = [sum(problem.blanks[t].count for t, _ in kind.items) for kind in problem.kinds]
        self._listed = [self._full_lanes(k) for k in range(len(problem.kinds))]
        rips = [self._full_rips(f) for f in range(len(problem.faces))]
        for some in (*self._listed, *rips):
            self.add(some or ())
        self.complete = None not in self._listed and None not in rips
        self._counts = [
            None if some is None else np.array([_row(kind, lane) for lane in some], dtype=np.int64)
            for kind, some in zip(problem.kinds, self._listed, strict=True)
        ]

    def add(self, patterns: Sequence[LanePattern | RipPattern]) -> int:
        """Put in what is not there yet; how many were new."""
        before = len(self._known)
        for pattern in patterns:
            if pattern in self._known:
                continue
            if isinstance(pattern, LanePattern) and pattern.blanks:
                self._known.add(pattern)
                self.lanes.append(pattern)
            elif isinstance(pattern, RipPattern) and pattern.lanes:
                self._known.add(pattern)
                self.rips.append(pattern)
        return len(self._known) - before

    def lane_fill(self, k: int) -> tuple[list[int], list[int], int]:
        """Sizes and counts of the blanks of a kind of lane, and its room, each with its kerf."""
        kind, kerf = self.problem.kinds[k], self.problem.kerf
        counts = [self.problem.blanks[t].count for t, _ in kind.items]
        return [along + kerf for _, along in kind.items], counts, kind.length + kerf

    def rip_fill(self, f: int) -> tuple[list[int], list[int], int]:
        """Widths and counts of the lanes of a face, and its room, each with its kerf."""
        face, kerf = self.problem.faces[f], self.problem.kerf
        sizes = [self.problem.kinds[k].width + kerf for k in face.kinds]
        return sizes, [self._most[k] for k in face.kinds], face.across + kerf

    def _full_lanes(self, k: int) -> list[LanePattern] | None:
        fills = full_fills(*self.lane_fill(k), self.limit)
        return None if fills is None else [self._lane(k, fill) for fill in fills]

    def _full_rips(self, f: int) -> list[RipPattern] | None:
        fills = full_fills(*self.rip_fill(f), self.limit)
        return None if fills is None else [self.rip(f, fill) for fill in fills]

    def _lane(self, k: int, fill: Sequence[int]) -> LanePattern:
        items = self.problem.kinds[k].items
        return LanePattern(k, tuple((t, n) for (t, _), n in zip(items, fill, strict=True) if n))

    def rip(self, f: int, fill: Sequence[int]) -> RipPattern:
        """Rip of a face into so many lanes of each of its kinds."""
        return RipPattern(
            f, tuple((k, n) for k, n in zip(self.problem.faces[f].kinds, fill, strict=True) if n)
        )

    def price(self, points: Sequence[int]) -> Prices:
        """Best lanes and rips when a blank of each type is worth so many points (whole, 0 or more)."""
        lanes = [self._best_lane(k, points) for k in range(len(self.problem.kinds))]
        rips = []
        for f, face in enumerate(self.problem.faces):
            sizes, counts, room = self.rip_fill(f)
            value, fill = best_fill(sizes, counts, [lanes[k][0] for k in face.kinds], room)
            rips.append((value, self.rip(f, fill)))
        return Prices(tuple(lanes), tuple(rips))

    def _best_lane(self, k: int, points: Sequence[int]) -> tuple[int, LanePattern]:
        kind, listed, counts = self.problem.kinds[k], self._listed[k], self._counts[k]
        worth = [points[t] for t, _ in kind.items]
        if listed is None or counts is None:
            sizes, most, room = self.lane_fill(k)
            value, fill = best_fill(sizes, most, worth, room)
            return value, self._lane(k, fill)
        values = counts @ np.array(worth, dtype=np.int64)
        best = int(values.argmax())
        return int(values[best]), listed[best]

    def lane_for(
        self, k: int, left: npt.NDArray[np.int64], values: npt.NDArray[np.float64]
    ) -> tuple[float, LanePattern]:
        """Lane of a kind worth most for what is left of each type; of the lanes listed, where they are."""
        kind, counts = self.problem.kinds[k], self._counts[k]
        types = [t for t, _ in kind.items]
        if counts is None:
            sizes, _, room = self.lane_fill(k)
            worth = [int(1e6 * values[t] / values.max()) for t in types]
            _, fill = best_fill(sizes, [int(left[t]) for t in types], worth, room)
            return float(sum(n * values[t] for t, n in zip(types, fill, strict=True))), self._lane(k, fill)
        held = np.minimum(counts, left[types])
        sums = held @ values[types]
        best = int(sums.argmax())
        return float(sums[best]), self._lane(k, [int(n) for n in held[best]])

    def enrich(self, points: Sequence[int]) -> int:
        """Put in what is worth nearly as much as the best of its kind or face; how many were new."""
        found: list[LanePattern | RipPattern] = []
        for k, kind in enumerate(self.problem.kinds):
            if self._listed[k] is None:
                sizes, counts, room = self.lane_fill(k)
                worth = [points[t] for t, _ in kind.items]
                fills = near_best_fills(sizes, counts, worth, room, self.limit // 40)
                found += [self._lane(k, fill) for fill in fills]
        values = [self._best_lane(k, points)[0] for k in range(len(self.problem.kinds))]
        for f, face in enumerate(self.problem.faces):
            sizes, counts, room = self.rip_fill(f)
            fills = near_best_fills(sizes, counts, [values[k] for k in face.kinds], room, self.limit // 8)
            found += [self.rip(f, fill) for fill in fills]
        return self.add(found)

    def held(self, points: Sequence[int]) -> tuple[int, ...]:
        """Most points that one stick of each class can hold, never more than those of all blanks."""
        problem = self.problem
        whole = sum(p * blank.count for p, blank in zip(points, problem.blanks, strict=True))
        values = [self._best_lane(k, points)[0] for k in range(len(problem.kinds))]
        holds = [0] * len(problem.sticks)
        for f, face in enumerate(problem.faces):
            holds[face.stick] = max(holds[face.stick], min(whole, self._held(f, points, values)))
        return tuple(holds)

    def _held(self, f: int, points: Sequence[int], values: Sequence[int]) -> int:
        """Most points that one face can hold, when lanes of a width together hold at most all blanks of that width."""
        problem = self.problem
        face = problem.faces[f]
        sizes, counts, worth = [], [], []
        for k in face.kinds:
            if values[k]:
                every = sum(points[t] * problem.blanks[t].count for t, _ in problem.kinds[k].items)
                sizes += [problem.kinds[k].width + problem.kerf] * 2
                counts += [every // values[k], 1]
                worth += [values[k], every % values[k]]
        return best_fill(sizes, counts, worth, face.across + problem.kerf)[0]


def _row(kind: Kind, lane: LanePattern) -> list[int]:
    """How many of each of a kind's items a lane holds."""
    blanks = dict(lane.blanks)
    return [blanks.get(t, 0) for t, _ in kind.items]
