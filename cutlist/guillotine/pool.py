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

__all__ = ["Chosen", "LanePattern", "Pool", "Prices", "RipPattern"]


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
class Chosen:
    """A layout as patterns: rips and lanes with how many of each; lanes of a kind are no more than the rips give."""

    rips: tuple[tuple[RipPattern, int], ...]
    lanes: tuple[tuple[LanePattern, int], ...]


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
        #: Blanks that may lie in lanes of each kind.
        self.types = [frozenset(t for t, _ in kind.items) for kind in problem.kinds]
        self._types = [np.array([t for t, _ in kind.items], dtype=np.int64) for kind in problem.kinds]
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
        return None if fills is None else [self.lane(k, fill) for fill in fills]

    def _full_rips(self, f: int) -> list[RipPattern] | None:
        fills = full_fills(*self.rip_fill(f), self.limit)
        return None if fills is None else [self.rip(f, fill) for fill in fills]

    def lane(self, k: int, fill: Sequence[int]) -> LanePattern:
        """Lane of a kind with so many of each of its blanks."""
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
            return value, self.lane(k, fill)
        values = counts @ np.array(worth, dtype=np.int64)
        best = int(values.argmax())
        return int(values[best]), listed[best]

    def lane_for(
        self, k: int, left: npt.NDArray[np.int64], values: npt.NDArray[np.float64]
    ) -> tuple[float, list[int]]:
        """Worth and fill of the lane of a kind worth most for what is left of each type; a listed one, if any are."""
        types, counts = self._types[k], self._counts[k]
        have, worth = left[types], values[types]
        if not have.any():
            return 0.0, [0] * len(types)
        if counts is None:
            sizes, _, room = self.lane_fill(k)
            points = [int(1e6 * value / values.max()) for value in worth]
            _, fill = best_fill(sizes, [int(n) for n in have], points, room)
            return float(np.array(fill) @ worth), list(fill)
        held = np.minimum(counts, have)
        sums = held @ worth
        best = int(sums.argmax())
        return float(sums[best]), [int(n) for n in held[best]]

    def add_layout(self, chosen: Chosen) -> None:
        """Put in the patterns of a layout; where the full lanes are listed, its lanes are among them or part of one."""
        self.add([rip for rip, _ in chosen.rips])
        self.add([lane for lane, _ in chosen.lanes if self._listed[lane.kind] is None])

    def enrich(self, points: Sequence[int]) -> int:
        """Put in what is worth nearly as much as the best of its kind or face; how many were new."""
        found: list[LanePattern | RipPattern] = []
        for k, kind in enumerate(self.problem.kinds):
            if self._listed[k] is None:
                sizes, counts, room = self.lane_fill(k)
                worth = [points[t] for t, _ in kind.items]
                fills = near_best_fills(sizes, counts, worth, room, self.limit // 40)
                found += [self.lane(k, fill) for fill in fills]
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
