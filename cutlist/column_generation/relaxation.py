"""The linear program over components, stage by stage: duals in whole numbers, and the bound that they prove.

Every plan of the whole problem is a choice of sticks and of components; the linear program allows fractions of both.
Its duals are rounded to whole numbers (sides down, lanes up), so that the bound is recomputed exactly::

    bound * scale = sum(side dual * sides) - sum(budget dual * budget) - sum(excess of a way * sticks of it)

where the excess is what the lanes of a stick are worth more than the stick costs in this stage.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Final

import highspy
import numpy as np
from numpy.typing import NDArray

from edgewright.cutlist.column_generation.length_prices import length_prices
from edgewright.cutlist.column_generation.pool import Column, SplicePool
from edgewright.cutlist.column_generation.pricing import Duals, Priced, price_components
from edgewright.cutlist.column_generation.pricing_tight import price_tight, spare_length
from edgewright.cutlist.column_generation.weights import SCALE, Budget, Weights, material_cost

__all__ = ["Master", "Proof", "Relaxation"]

#: A side that is left out costs so many of the dearest stick: never worth it where there is another way.
_FAR: Final = 1000.0
#: Above such weights the duals take fewer digits, so that sums stay below 2^63.
_DEAR: Final = 10_000
#: Rounds from one bound to the next; there is one at the end anyway.
_BOUND_EVERY: Final = 20
#: A component may waste so many times the longest strip at most, for the waste to be looked at.
_TIGHT: Final = 2
_BIG: Final = highspy.kHighsInf


@dataclass(frozen=True, slots=True)
class Proof:
    """Whole-number duals of one stage, and the bound that they prove.

    Attributes
    ----------
    sides, lanes
        Dual of each kind, in units of the objective times ``scale``.
    budgets
        Dual of each settled stage, likewise.
    most_lanes
        The duals hold for components of so many lanes one by one; larger ones have too many splices, or cannot pay by
        the worth of a tick.
    bound
        Least value of the stage.
    impossible
        Not even fractions of components cover all sides.
    """

    scale: int
    sides: tuple[int, ...]
    lanes: tuple[int, ...]
    budgets: tuple[int, ...]
    most_lanes: int
    bound: int
    impossible: bool = False


@dataclass(frozen=True, slots=True)
class _Task:
    """One stage to be solved: what counts, what is settled, and how components are looked at."""

    weights: Weights
    budgets: tuple[Budget, ...]
    most_lanes: int
    cap: int
    waste: int | None
    scale: int
    far: float

    def whole(self, duals: Duals, budget_duals: Sequence[int]) -> Duals:
        """Duals with all that a splice and a lane cost in this stage."""
        splice, lane = self.weights.splice * self.scale, self.weights.lane * self.scale
        for dual, budget in zip(budget_duals, self.budgets, strict=True):
            splice += dual * budget.weights.splice
            lane += dual * budget.weights.lane
        return Duals(duals.sides, tuple(w + lane for w in duals.lanes), splice, self.scale)


class Relaxation:
    """The linear program with the columns found so far; stages share the columns."""

    def __init__(
        self, pool: SplicePool, columns: Sequence[Column] = (), *, splices_allowed: bool = True
    ) -> None:
        self.pool, self.splices_allowed = pool, splices_allowed
        self.columns: list[Column] = list(dict.fromkeys(columns))
        self.lanes_of_ways = pool.lanes_of_ways

    def solve(
        self,
        weights: Weights,
        budgets: Sequence[Budget] = (),
        *,
        most_lanes: int = 3,
        splice_cap: int | None = None,
        enough: int | None = None,
        most_rounds: int = 120,
        ticking: Callable[[], None] = lambda: None,
    ) -> Proof | None:
        """Bound of a stage, and the columns it needs; None where nothing is proven.

        Parameters
        ----------
        most_lanes
            Most lanes in the components that are generated.
        splice_cap
            Plans of more splices are of no interest; so components have one lane more at most.
        enough
            Stop as soon as the bound reaches this value: a plan has it.
        ticking
            Called once a round; may raise to stop.
        """
        cap = self._most_splices(budgets, splice_cap)
        most_lanes = min(most_lanes, cap + 1)
        task = self._task(weights, budgets, most_lanes, cap)
        best: Proof | None = None
        solver = Master(self.pool, task)
        solver.add(self.columns)
        known = set(self.columns)
        for number in range(most_rounds):
            ticking()
            duals, budget_duals, left_out = solver.duals()
            whole = task.whole(duals, budget_duals)
            priced = self._price(whole, task, lawful_only=True)
            fresh = [column for column in priced.columns if column not in known]
            if not fresh or number % _BOUND_EVERY == _BOUND_EVERY - 1:
                proof = self._proof(task, whole, duals, budget_duals, left_out and not fresh)
                if proof is not None and (best is None or proof.bound > best.bound):
                    best = proof
                if best is not None and enough is not None and best.bound >= enough:
                    return best
            if not fresh:
                return best
            known.update(fresh)
            self.columns += fresh
            solver.add(fresh)
        return best

    def _proof(
        self, task: _Task, whole: Duals, duals: Duals, budget_duals: Sequence[int], impossible: bool
    ) -> Proof | None:
        most = self._price(whole, task, per_number=0).most
        # every component has a side: taking the most that any could pay off each side makes the duals hold
        sides = tuple(
            max(0, u - most[kind.family]) for u, kind in zip(duals.sides, self.pool.sides, strict=True)
        )
        value = sum(u * kind.count for u, kind in zip(sides, self.pool.sides, strict=True))
        value -= sum(d * budget.most for d, budget in zip(budget_duals, task.budgets, strict=True))
        excess = [0] * len(self.pool.group_counts)
        for number, way in enumerate(self.pool.ways):
            worth = sum(duals.lanes[t] * self.pool.lanes[t].per_stick for t in self.lanes_of_ways[number])
            worth -= task.weights.ways[number] * task.scale if task.weights.ways else 0
            for d, budget in zip(budget_duals, task.budgets, strict=True):
                worth -= d * budget.weights.ways[number] if budget.weights.ways else 0
            excess[way.group] = max(excess[way.group], worth)
        value -= sum(e * n for e, n in zip(excess, self.pool.group_counts, strict=True))
        bound = max(0, -(-value // task.scale))
        if task.most_lanes <= task.cap and not self._worth_of_length(whole, sides, task.most_lanes):
            return None
        # what is left out may only not have been found; the bound itself must be more than any plan comes to
        impossible = impossible and bound > self._worst(task.weights)
        return Proof(task.scale, sides, duals.lanes, tuple(budget_duals), task.most_lanes, bound, impossible)

    def _worst(self, weights: Weights) -> int:
        """More than any plan comes to: every stick, every lane and every splice that is allowed."""
        pool = self.pool
        dearest = [0] * len(pool.group_counts)
        for way, weight in zip(pool.ways, weights.ways, strict=False):
            dearest[way.group] = max(dearest[way.group], weight)
        lanes = sum(pool.available(t) for t in range(len(pool.lanes)))
        splices = sum(side.splices * side.count for side in pool.sides)
        sticks = sum(weight * n for weight, n in zip(dearest, pool.group_counts, strict=True))
        return sticks + weights.lane * lanes + weights.splice * splices

    def _price(self, duals: Duals, task: _Task, *, per_number: int = 12, lawful_only: bool = False) -> Priced:
        """Price components, those that waste too much left out where that is known and the sums are few."""
        if task.waste is not None:
            priced = price_tight(self.pool, duals, task.most_lanes, task.waste, per_number, lawful_only)
            if priced is not None:
                return priced
        return price_components(
            self.pool, duals, task.most_lanes, per_number=per_number, lawful_only=lawful_only
        )

    def _waste(self, budgets: Sequence[Budget]) -> int | None:
        """What a component may waste, where that is little beside the strips."""
        cost = material_cost(self.pool)
        settled = [budget.most for budget in budgets if budget.weights == cost]
        spare = spare_length(self.pool, min(settled, default=None))
        longest = max((lane.length for lane in self.pool.lanes), default=0)
        return spare if spare is not None and spare <= _TIGHT * longest else None

    def by_length(self, weights: Weights, budgets: Sequence[Budget]) -> Proof | None:
        """Bound of a stage that counts sticks only, by length alone: a tick of a family's sides has one price.

        Weaker than `solve` where that proves something, but larger components can never do better.
        """
        pool = self.pool
        steps = [min(joint, pool.kerf) for joint in pool.joints]
        ticks = length_prices(pool, weights, steps)
        if ticks is None:
            return None
        sides = tuple(int(ticks[kind.family] * (kind.length + steps[kind.family])) for kind in pool.sides)
        lanes = tuple(
            max(-int(-ticks[n] * (lane.length + max(0, steps[n])) // 1) for n in lane.families)
            for lane in pool.lanes
        )
        duals = Duals(sides, lanes, 0, SCALE)
        task = replace(
            self._task(weights, budgets, 1, self._most_splices(budgets, None)), scale=SCALE, waste=None
        )
        return self._proof(task, duals, duals, [0] * len(budgets), False)

    def master(self, weights: Weights, budgets: Sequence[Budget] = ()) -> Master:
        """The linear program of a stage over the columns found so far."""
        master = Master(self.pool, self._task(weights, budgets, 1, 0))
        master.add(self.columns)
        return master

    def _task(self, weights: Weights, budgets: Sequence[Budget], most_lanes: int, cap: int) -> _Task:
        dearest = max([1, *weights.ways])
        scale = SCALE if dearest <= _DEAR else SCALE // 1000
        return _Task(weights, tuple(budgets), most_lanes, cap, self._waste(budgets), scale, _FAR * dearest)

    def _most_splices(self, budgets: Sequence[Budget], cap: int | None) -> int:
        """Most splices that any plan of interest has."""
        if not self.splices_allowed:
            return 0
        most = [sum(side.splices * side.count for side in self.pool.sides)]
        most += [b.most for b in budgets if b.weights == Weights(splice=1)]
        return min(most if cap is None else [*most, cap])

    def _worth_of_length(self, whole: Duals, sides: Sequence[int], most_lanes: int) -> bool:
        """Whether the worth of a tick shows that components of more lanes cannot pay, in any family."""
        for family, joint in enumerate(self.pool.joints):
            step = min(joint, self.pool.kerf)
            worth = max(
                (
                    Fraction(u, kind.length + step)
                    for u, kind in zip(sides, self.pool.sides, strict=True)
                    if kind.family == family
                ),
                default=Fraction(0),
            )
            lost = min(
                (
                    w + whole.splice - worth * lane.length
                    for w, lane in zip(whole.lanes, self.pool.lanes, strict=True)
                    if family in lane.families
                ),
                default=Fraction(0),
            )
            if (most_lanes + 1) * lost < worth * max(0, joint) + whole.splice:
                return False
        return True


class Master:
    """The linear program in HiGHS; columns are added, never taken away."""

    def __init__(self, pool: SplicePool, task: _Task) -> None:
        self.pool, self.task = pool, task
        weights, budgets = task.weights, task.budgets
        self.solver = highspy.Highs()
        for name, value in {"output_flag": False, "threads": 1, "random_seed": 0}.items():
            self.solver.setOptionValue(name, value)
        self.first_lane = len(pool.sides)
        self.first_budget = self.first_lane + len(pool.lanes)
        self.first_group = self.first_budget + len(budgets)
        for side in pool.sides:
            self.solver.addRow(side.count, _BIG, 0, [], [])
        for _ in pool.lanes:
            self.solver.addRow(-_BIG, 0, 0, [], [])
        for budget in budgets:
            self.solver.addRow(-_BIG, budget.most, 0, [], [])
        for count in pool.group_counts:
            self.solver.addRow(-_BIG, count, 0, [], [])
        for i in range(len(pool.sides)):  # a side left out: only until there are columns enough
            self.solver.addCol(task.far, 0, _BIG, 1, [i], [1.0])
        for number, (way, lanes) in enumerate(zip(pool.ways, pool.lanes_of_ways, strict=True)):
            rows = {self.first_group + way.group: 1.0}
            for t in lanes:
                rows[self.first_lane + t] = -float(pool.lanes[t].per_stick)
            for at, budget in enumerate(budgets):
                if budget.weights.ways and budget.weights.ways[number]:
                    rows[self.first_budget + at] = float(budget.weights.ways[number])
            cost = weights.ways[number] if weights.ways else 0
            self.solver.addCol(cost, 0, _BIG, len(rows), list(rows), list(rows.values()))

    def add(self, columns: Sequence[Column]) -> None:
        """Put columns in."""
        for column in columns:
            rows = {i: float(n) for i, n in column.sides}
            rows |= {self.first_lane + t: float(n) for t, n in column.lanes}
            for at, budget in enumerate(self.task.budgets):
                if spent := budget.weights.of(column):
                    rows[self.first_budget + at] = float(spent)
            cost = self.task.weights.of(column)
            self.solver.addCol(cost, 0, _BIG, len(rows), list(rows), list(rows.values()))

    def ways(self) -> NDArray[np.float64]:
        """How many sticks are ripped in each way in the last solution, fractions too."""
        first = len(self.pool.sides)
        values = self.solver.getSolution().col_value[first : first + len(self.pool.ways)]
        return np.array(values, dtype=float)

    def at_least(self, ways: Sequence[int]) -> None:
        """So many sticks at least are ripped in each way."""
        first = len(self.pool.sides)
        for number, least in enumerate(ways):
            if least:
                self.solver.changeColBounds(first + number, least, _BIG)

    def duals(self) -> tuple[Duals, list[int], bool]:
        """Whole-number duals: sides down, lanes and budgets up; whether a side is left out."""
        self.solver.run()
        solution = self.solver.getSolution()
        prices = np.array(solution.row_dual)
        left_out = max(solution.col_value[: len(self.pool.sides)], default=0.0)
        sides = tuple(int(np.floor(v * self.task.scale)) for v in np.maximum(prices[: self.first_lane], 0))
        lanes = tuple(
            int(np.ceil(v * self.task.scale))
            for v in np.maximum(-prices[self.first_lane : self.first_budget], 0)
        )
        budgets = [
            int(np.ceil(v * self.task.scale))
            for v in np.maximum(-prices[self.first_budget : self.first_group], 0)
        ]
        return Duals(sides, lanes, 0, self.task.scale), budgets, left_out > 1e-7
