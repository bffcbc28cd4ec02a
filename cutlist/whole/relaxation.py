"""The relaxation of one box of stick counts, solved by column generation.

Variables: sticks of each group, times of each pattern; both may be fractions. HiGHS solves it over the patterns
known so far, its duals are rounded to whole prices, and the dearest patterns at those prices join, until the exact
bound that the prices prove is as good as the value.

Source: P. C. Gilmore and R. E. Gomory, Operations Research 9, 1961.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Final

import highspy
import numpy as np
import numpy.typing as npt

from edgewright.cutlist.whole.duals import dearest_weight, price_patterns
from edgewright.cutlist.whole.instance import Instance
from edgewright.cutlist.whole.prices import NONE_FITS, Box, Goal, Prices
from edgewright.cutlist.whole.pricing import Counts
from edgewright.cutlist.whole.work import Work

__all__ = ["Relaxation", "Relaxed"]

_INF: Final = highspy.kHighsInf
#: A value this close above a whole number is that number: HiGHS answers within 1e-7.
_NEAR: Final = 1e-6
#: How often the patterns known may turn out not to be enough after all, within what HiGHS can tell apart.
_MOST_TURNS: Final = 5


@dataclass(frozen=True, slots=True)
class Relaxed:
    """Value of the relaxation (`NONE_FITS` if empty) and its exact bound, sticks by group, times by pattern.

    ``over`` is what each pattern costs more than it is worth, as a part of the dearest weight; ``prices`` prove the
    bound.
    """

    value: float
    bound: float
    sticks: tuple[float, ...]
    times: tuple[float, ...]
    over: tuple[float, ...]
    prices: tuple[Prices, ...]


@dataclass(slots=True)
class Relaxation:
    """Keeps the patterns and the model from one box to the next, and from one stage to the next."""

    inst: Instance
    work: Work
    goal: Goal = field(init=False)
    patterns: list[tuple[int, Counts]] = field(default_factory=list)
    _known: dict[tuple[int, Counts], int] = field(default_factory=dict)
    _lp: highspy.Highs = field(init=False)
    _counts: npt.NDArray[np.int64] = field(init=False)
    _closed: npt.NDArray[np.bool_] = field(init=False)

    def __post_init__(self) -> None:
        inst = self.inst
        self.goal = Goal(0, ())
        lp = highspy.Highs()
        for name, value in (
            ("output_flag", False),
            ("threads", 1),
            ("random_seed", 0),
            ("presolve", "off"),
            ("simplex_strategy", 4),
        ):
            lp.setOptionValue(name, value)
        types, lanes, groups = len(inst.sizes), len(inst.capacities), len(inst.groups)
        for group in inst.groups:
            lp.addVar(0.0, float(group.most))
        for _ in inst.sizes:
            lp.addVar(0.0, 0.0)
        for kind, wanted in enumerate(inst.demand):
            lp.addRow(float(wanted), _INF, 1, [groups + kind], [1.0])
        for lane in range(lanes):
            uses = [at for at, group in enumerate(inst.groups) if group.lanes[lane]]
            lp.addRow(-_INF, 0.0, len(uses), uses, [-float(inst.groups[at].lanes[lane]) for at in uses])
        for stage in range(inst.stages - 1):
            lp.addRow(-_INF, _INF, groups, list(range(groups)), self._parts(stage))
        assert lp.getNumRow() == types + lanes + inst.stages - 1
        self._lp = lp
        self._counts = np.zeros((256, types), dtype=np.int64)
        self._closed = np.zeros(0, dtype=bool)

    def _parts(self, stage: int) -> list[float]:
        """Weights of a stage as parts of the dearest."""
        top = dearest_weight(self.inst, stage)
        return [group.weights[stage] / top for group in self.inst.groups]

    def set_goal(self, goal: Goal) -> None:
        """Go over to a stage."""
        self.goal = goal
        first = len(self.inst.sizes) + len(self.inst.capacities)
        for stage, reached in enumerate(goal.reached):
            self._lp.changeRowBounds(first + stage, -_INF, reached / dearest_weight(self.inst, stage))

    def add(self, lane: int, counts: Counts) -> int:
        """Put in a pattern unless it is known; return its index."""
        return self.add_all([(lane, counts)])[0]

    def add_all(self, patterns: Sequence[tuple[int, Counts]]) -> list[int]:
        """Put in many patterns; return their indexes."""
        new = list(dict.fromkeys(pattern for pattern in patterns if pattern not in self._known))
        starts: list[int] = []
        rows: list[int] = []
        entries: list[float] = []
        while len(self.patterns) + len(new) > len(self._counts):
            self._counts = np.concatenate((self._counts, np.zeros_like(self._counts)))
        for lane, counts in new:
            self._counts[len(self.patterns)] = counts
            self._known[lane, counts] = len(self.patterns)
            self.patterns.append((lane, counts))
            starts.append(len(rows))
            for kind, count in enumerate(counts):
                if count:
                    rows.append(kind)
                    entries.append(float(count))
            rows.append(len(self.inst.sizes) + lane)
            entries.append(1.0)
        if new:
            number = len(new)
            zeros, most = np.zeros(number), np.full(number, _INF)
            self._lp.addCols(
                number,
                zeros,
                zeros,
                most,
                len(rows),
                np.array(starts, dtype=np.int32),
                np.array(rows, dtype=np.int32),
                np.array(entries),
            )
            self.work.columns -= number
        return [self._known[pattern] for pattern in patterns]

    def _set(self, box: Box, left: Sequence[int], taken: Sequence[int]) -> None:
        """Bounds of one box, with ``left`` still to be cut and so many lanes of each length taken."""
        lp, groups, types = self._lp, len(self.inst.groups), len(self.inst.sizes)
        for at, (low, high) in enumerate(box):
            lp.changeColBounds(at, float(low), float(high))
        for kind, count in enumerate(left):
            lp.changeRowBounds(kind, float(count), _INF)
        for lane, count in enumerate(taken):
            lp.changeRowBounds(types + lane, -_INF, -float(count))
        # a pattern that cuts more than is left cannot be used any more
        number = len(self.patterns)
        closed = np.any(self._counts[:number] > np.array(left), axis=1)
        was = np.zeros(number, dtype=bool)
        was[: len(self._closed)] = self._closed
        changed = np.flatnonzero(closed != was).astype(np.int32)
        if len(changed):
            most = np.where(closed[changed], 0.0, _INF)
            lp.changeColsBounds(len(changed), changed + groups + types, np.zeros(len(changed)), most)
        self._closed = closed

    def _price_goal(self, *, short: bool) -> None:
        """Minimise the goal; or, where ``short``, the length of the pieces that are left out."""
        groups, types = len(self.inst.groups), len(self.inst.sizes)
        weights = [0.0] * groups if short else self._parts(self.goal.stage)
        for at, weight in enumerate(weights):
            self._lp.changeColCost(at, weight)
        for kind in range(types):
            self._lp.changeColCost(
                groups + kind, self.inst.sizes[kind] / self.inst.sizes[0] if short else 0.0
            )
            self._lp.changeColBounds(groups + kind, 0.0, _INF if short else 0.0)

    def solve(
        self,
        box: Box,
        left: Sequence[int] | None = None,
        taken: Sequence[int] | None = None,
        enough: float = NONE_FITS,
    ) -> Relaxed:
        """Solve one box, with part of the demand cut already or not.

        Parameters
        ----------
        box
            Fewest and most sticks of each group.
        left, taken
            What of each type is still to be cut, and the lanes of each length that are taken.
        enough
            Stop when a bound of at least this is proven.

        Raises
        ------
        WorkDone
            The limits are reached.
        """
        whole = left is None
        left = self.inst.demand if left is None else left
        self._set(box, left, taken or [0] * len(self.inst.capacities))
        short, turns = False, 0
        self._price_goal(short=short)
        best: dict[bool, tuple[float, Prices]] = {}
        while True:
            self.work.round()
            self._lp.run()
            status = self._lp.getModelStatus()
            if status == highspy.HighsModelStatus.kInfeasible and not short and turns < _MOST_TURNS:
                short = True
                turns += 1
                self._price_goal(short=short)
                continue
            if status != highspy.HighsModelStatus.kOptimal:
                return Relaxed(NONE_FITS, 0, (), (), (), ())
            solution = self._lp.getSolution()
            objective = self._lp.getInfo().objective_function_value
            if short and objective < _NEAR:
                short = False
                self._price_goal(short=short)
                continue
            prices, new = price_patterns(self.inst, self.goal, left, solution.row_dual, short=short)
            new = [pattern for pattern in new if pattern not in self._known]
            if whole:
                bound = prices.bound(self.inst, self.goal, box)
                if short not in best or bound > best[short][0]:
                    best[short] = (bound, prices)
                if bound >= enough:
                    return Relaxed(bound, bound, (), (), (), (prices,))
            value = objective * dearest_weight(self.inst, self.goal.stage)
            if short:
                if not new:
                    return Relaxed(NONE_FITS, 0, (), (), (), ())
            elif not new or (whole and best[False][0] >= math.ceil(value - _NEAR)):
                groups, types = len(self.inst.groups), len(self.inst.sizes)
                values = solution.col_value
                bound, kept = best.get(False, (0, None))
                return Relaxed(
                    value,
                    bound,
                    tuple(values[:groups]),
                    tuple(values[groups + types :]),
                    tuple(solution.col_dual[groups + types :]),
                    () if kept is None else (kept,),
                )
            self.add_all(new)
