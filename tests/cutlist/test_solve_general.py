"""The splice planner against a general constraint solver with a direct model, piece by piece."""

from __future__ import annotations

from collections import Counter
from typing import Any

import pytest
from ask_general_solver import ask_general_solver
from splice_cases import as_data, as_problem, single_table, tight_stock, two_layers
from strip_cases import INCH, INCH_RULES

from edgewright.cutlist.checker import recompute_bounds, shortage_holds
from edgewright.cutlist.solve import solve_strips

#: What the general solver is asked for, in its order.
_ASKED = ("new material cost", "splices", "sticks touched", "strips ripped")


def _asked(plan: dict[str, Any]) -> list[dict[str, Any]]:
    return [next(stage for stage in plan["stages"] if stage["name"] == name) for name in _ASKED]


@pytest.mark.reference
def test_a_general_solver_finds_the_same_optimum_where_both_prove_it() -> None:
    """21 cases of 4 to 16 sides; it knows no distance between the splices of two layers, so it may only find less."""
    makers = [single_table] * 14 + [two_layers] * 4 + [tight_stock] * 3
    cases = [make(seed) for seed, make in enumerate(makers)]
    answers = ask_general_solver("splices", [as_problem(*case) for case in cases], 0.05)
    seen = Counter[str]()
    for number, (case, (theirs, _)) in enumerate(zip(cases, answers, strict=True)):
        layout = solve_strips(*case, INCH_RULES, INCH)
        plan = as_data(*case, layout)
        if not theirs:
            assert layout is None, number
            seen["impossible"] += 1
            continue
        if layout is None:
            # nothing is shown to be impossible that another solver has a plan for
            assert theirs[0] is None or not shortage_holds(plan), number
            continue
        bounds = recompute_bounds(plan)
        for name, stage, other in zip(_ASKED, _asked(plan), theirs, strict=True):
            bound, value = bounds[name][0], stage["value"]
            if other is None:
                break
            assert value >= other, (number, name)
            if bound is not None:
                assert bound <= other, (number, name)
            if value != other:
                break  # what is best behind this stage is unknown
            seen[name] += bound == value
    assert seen["new material cost"] >= 18
    assert seen["splices"] >= 15
    assert seen["sticks touched"] >= 12
