"""The linear relaxation by column generation, and the inequalities on the number of sticks that its duals give.

Rows: every blank type is covered; lanes of a kind come out of rips; sticks are limited. The duals of the first rows, in
whole points, say what a blank is worth. Whatever the solver did, so many points for each blank give a true inequality:
the sticks of any plan hold at least the points of all blanks.

References
----------
Column generation for cutting stock in two stages: Gilmore and Gomory, Operations Research 13 (1965), from memory.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import highspy
import numpy as np

from edgewright.cutlist.guillotine.pool import Pool

__all__ = ["CountCut", "Relaxation"]

#: Points of all blanks together are about so many: fine enough for duals, small enough for the solver's floats.
_POINTS: Final = 1_000_000
_TOLERANCE: Final = 1e-7


@dataclass(frozen=True, slots=True)
class CountCut:
    """``sum(holds * sticks) >= need``, from points for each blank type."""

    points: tuple[int, ...]
    holds: tuple[int, ...]
    need: int

    def broken_by(self, counts: Sequence[int]) -> bool:
        """Whether so many sticks of each class cannot hold the blanks."""
        return sum(h * n for h, n in zip(self.holds, counts, strict=True)) < self.need


class Relaxation:
    """One linear program that grows with the pool and is solved again for other costs and limits of sticks."""

    def __init__(self, pool: Pool, rounds: int) -> None:
        self.pool, self.rounds = pool, rounds
        problem = pool.problem
        self._types, self._kinds = len(problem.blanks), len(problem.kinds)
        self._lanes = self._rips = 0
        self._costs: list[float] = []
        self._columns: list[tuple[int, int]] = []
        solver = highspy.Highs()
        for name, value in (("output_flag", False), ("threads", 1), ("random_seed", 0), ("presolve", "off")):
            solver.setOptionValue(name, value)
        nothing = (0, np.empty(0, dtype=np.int32), np.empty(0, dtype=float))
        for blank in problem.blanks:
            solver.addRow(blank.count, highspy.kHighsInf, *nothing)
        for _ in problem.kinds:
            solver.addRow(0.0, highspy.kHighsInf, *nothing)
        for stick in problem.sticks:
            solver.addRow(-highspy.kHighsInf, stick.most, *nothing)
        for t in range(self._types):
            solver.addCol(1.0, 0.0, highspy.kHighsInf, 1, np.array([t], dtype=np.int32), np.ones(1))
        self._solver = solver

    def cut(self, costs: Sequence[float] | None, most: Sequence[int]) -> CountCut | None:
        """Inequality from the duals of the cheapest cover by at most ``most`` sticks of each class.

        Without ``costs`` the area that stays uncovered is minimised: the inequality is broken by ``most`` if even the
        relaxation cannot cover all. None where the program gave no duals.
        """
        problem = self.pool.problem
        if costs is None:
            areas = [blank.length * blank.width for blank in problem.blanks]
            uncovered = [area / max(areas) for area in areas]
            costs = [0.0] * len(problem.sticks)
        else:
            top = max(costs)
            costs = [cost / top for cost in costs]
            # more than any blank can be worth: a stick each
            uncovered = [4.0] * self._types
        self._set(costs, uncovered, most)
        points: tuple[int, ...] | None = None
        for _ in range(self.rounds):
            self._grow(costs)
            self._solver.run()
            if self._solver.getModelStatus() != highspy.HighsModelStatus.kOptimal:
                break
            duals = self._solver.getSolution().row_dual
            points = self._whole(duals[: self._types])
            if not any(points) or not self._improve(points, duals, costs):
                break
        if points is None or not any(points):
            return None
        return self.of_points(points)

    def of_points(self, points: Sequence[int]) -> CountCut:
        """The inequality that these points give, with nothing in it that all divide by."""
        common = math.gcd(*points)
        small = tuple(p // common for p in points)
        need = sum(p * blank.count for p, blank in zip(small, self.pool.problem.blanks, strict=True))
        return CountCut(small, self.pool.held(small), need)

    def _whole(self, duals: Sequence[float]) -> tuple[int, ...]:
        held = [max(0.0, d) for d in duals]
        total = sum(d * blank.count for d, blank in zip(held, self.pool.problem.blanks, strict=True))
        self._scale = _POINTS / total if total > _TOLERANCE else 0.0
        return tuple(math.floor(d * self._scale + 0.5) for d in held)

    def _improve(self, points: Sequence[int], duals: Sequence[float], costs: Sequence[float]) -> int:
        """Put in the patterns that pay at these duals; how many."""
        problem = self.pool.problem
        prices = self.pool.price(points)
        paying = []
        for face, (value, rip) in zip(problem.faces, prices.rips, strict=True):
            limit = duals[self._types + self._kinds + face.stick]
            if value / self._scale > costs[face.stick] - limit + 1e-6:
                paying.append(rip)
        wanted = {k for rip in paying for k, _ in rip.lanes}
        lanes = [prices.lanes[k][1] for k in sorted(wanted)]
        return self.pool.add([*paying, *lanes])

    def _set(self, costs: Sequence[float], uncovered: Sequence[float], most: Sequence[int]) -> None:
        base = self._types + self._kinds
        for t, cost in enumerate(uncovered):
            self._solver.changeColCost(t, cost)
        for s, n in enumerate(most):
            self._solver.changeRowBounds(base + s, -highspy.kHighsInf, n)
        for column, stick in self._columns:
            self._solver.changeColCost(column, costs[stick])

    def _grow(self, costs: Sequence[float]) -> None:
        """Columns for the patterns that came into the pool since."""
        problem, base = self.pool.problem, self._types + self._kinds
        for lane in self.pool.lanes[self._lanes :]:
            self._column(0.0, {**dict(lane.blanks), self._types + lane.kind: -1})
        for rip in self.pool.rips[self._rips :]:
            stick = problem.faces[rip.face].stick
            self._columns.append((self._solver.getNumCol(), stick))
            self._column(costs[stick], {**{self._types + k: n for k, n in rip.lanes}, base + stick: 1})
        self._lanes, self._rips = len(self.pool.lanes), len(self.pool.rips)

    def _column(self, cost: float, entries: dict[int, int]) -> None:
        rows = np.array(sorted(entries), dtype=np.int32)
        values = np.array([entries[row] for row in rows], dtype=float)
        self._solver.addCol(cost, 0.0, highspy.kHighsInf, len(rows), rows, values)
