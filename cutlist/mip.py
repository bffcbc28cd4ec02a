"""The solver behind one door: small integer programs in whole numbers, solved by HiGHS and checked in whole numbers.

HiGHS works in floats; its answer is rounded and every row is recomputed in integers before it is believed. Limits are
work counts (nodes), one thread, no gap: the same program gives the same answer.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Final

import highspy
import numpy as np

__all__ = ["IntegerProgram", "Outcome"]

_NODE_LIMIT = 50_000
#: Presolve pays up to about so many variables: five times as fast there, four times as slow at a thousand (measured).
_PRESOLVED: Final = 60
_OPTIONS: Final[dict[str, bool | int | float | str]] = {
    "output_flag": False,
    "threads": 1,
    "random_seed": 0,
    "mip_rel_gap": 0.0,
    "mip_abs_gap": 0.999,
}
_BIG = highspy.kHighsInf


@dataclass(frozen=True, slots=True)
class Outcome:
    """Result of one solve: ``values`` is None when there is no solution; ``proven`` is False at the node limit."""

    values: tuple[int, ...] | None
    proven: bool


@dataclass(slots=True)
class IntegerProgram:
    """Minimise an integer objective over integer variables and integer rows, within so many ``nodes``."""

    lower: list[int] = field(default_factory=list)
    upper: list[int] = field(default_factory=list)
    rows: list[tuple[dict[int, int], int | None, int | None]] = field(default_factory=list)
    nodes: int = _NODE_LIMIT

    def variable(self, lower: int, upper: int) -> int:
        """Add an integer variable and return its index."""
        self.lower.append(lower)
        self.upper.append(upper)
        return len(self.lower) - 1

    def row(self, terms: Mapping[int, int], at_least: int | None = None, at_most: int | None = None) -> None:
        """Add ``at_least <= sum(coefficient * variable) <= at_most``."""
        self.rows.append((dict(terms), at_least, at_most))

    def minimise(self, objective: Mapping[int, int]) -> Outcome:
        """Solve; the rows stay, so that a later stage can add its own."""
        if not self.lower:
            fits = all((lo is None or lo <= 0) and (hi is None or hi >= 0) for _, lo, hi in self.rows)
            return Outcome(() if fits else None, True)
        solver = highspy.Highs()
        # Coefficients without a common factor: then a gap below one whole step proves the optimum.
        step = math.gcd(*objective.values()) or 1
        for name, value in _OPTIONS.items():
            solver.setOptionValue(name, value)
        solver.setOptionValue("mip_max_nodes", self.nodes)
        solver.setOptionValue("presolve", "on" if len(self.lower) <= _PRESOLVED else "off")
        # All columns in one call each: one by one the solver re-reads the whole list every time.
        number = len(self.lower)
        every = np.arange(number, dtype=np.int32)
        solver.addVars(number, np.array(self.lower, dtype=float), np.array(self.upper, dtype=float))
        solver.changeColsIntegrality(number, every, np.full(number, highspy.HighsVarType.kInteger))
        costs = np.array([objective.get(i, 0) // step for i in range(number)], dtype=float)
        solver.changeColsCost(number, every, costs)
        for terms, at_least, at_most in self.rows:
            low_row = -_BIG if at_least is None else at_least
            high_row = _BIG if at_most is None else at_most
            solver.addRow(low_row, high_row, len(terms), list(terms), list(terms.values()))
        solver.run()
        status = solver.getModelStatus()
        if status == highspy.HighsModelStatus.kInfeasible:
            return Outcome(None, True)
        values = tuple(round(v) for v in solver.getSolution().col_value)
        if len(values) != len(self.lower) or not self._holds(values):
            return Outcome(None, False)
        return Outcome(values, status == highspy.HighsModelStatus.kOptimal)

    def _holds(self, values: tuple[int, ...]) -> bool:
        """Whether rounded values satisfy every bound and row in integers."""
        if any(not lo <= v <= hi for v, lo, hi in zip(values, self.lower, self.upper, strict=True)):
            return False
        for terms, at_least, at_most in self.rows:
            total = sum(c * values[i] for i, c in terms.items())
            if (at_least is not None and total < at_least) or (at_most is not None and total > at_most):
                return False
        return True
