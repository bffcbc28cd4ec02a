"""Plans whose components are generated, though they could be listed: against brute force, and what they certify."""

from __future__ import annotations

import dataclasses
import json
from collections import Counter
from typing import Any

import pytest
from strip_brute_force import Problem, best_by_hand, small_problem
from strip_cases import INCH

from edgewright.cutlist import solve
from edgewright.cutlist.check_certificate import certified_bound
from edgewright.cutlist.check_search import Work
from edgewright.cutlist.model import PlanRules
from edgewright.cutlist.solve import StripLayout, solve_strips
from edgewright.cutlist.stages import STAGES, stage_values


def as_data(problem: Problem, rules: PlanRules, layout: StripLayout) -> dict[str, Any]:
    """As much of a plan as its certificates are checked against."""
    sides, sticks = problem
    values = stage_values(sides, sticks, layout.pieces, rules)
    stages = [
        {"name": name, "value": value, "certificate": layout.certificates.get(name)}
        for name, value in zip(STAGES, values, strict=True)
    ]
    plan = {"rules": rules, "corners": "butt", "strip_width_ticks": INCH, "sides": sides, "sticks": sticks}
    plan |= {"pieces": layout.pieces, "stages": stages}
    read: dict[str, Any] = json.loads(json.dumps(plan, default=dataclasses.asdict))
    return read


@pytest.mark.property
@pytest.mark.parametrize(("for_sale", "cases"), [(False, 400), (True, 100)])
def test_generated_as_by_brute_force_and_no_certificate_claims_more(
    for_sale: bool, cases: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Cost, splices and sticks; a plan that is worse is one that no certificate proves to be the best."""
    monkeypatch.setattr(solve, "_MOST_LISTED", 0)
    seen = Counter[str]()
    for number in range(cases):
        problem, rules = small_problem(number, for_sale=for_sale)
        best, layout = best_by_hand(problem, rules), solve_strips(*problem, rules, INCH)
        assert (layout is None) == (best is None), f"case {number}"
        if layout is None or best is None:
            continue
        plan = as_data(problem, rules, layout)
        values = tuple(stage["value"] for stage in plan["stages"][:3])
        assert values >= best, f"case {number}: better than the best there is"
        seen["plans"] += 1
        seen["best"] += values == best
        seen["generated"] += bool(layout.certificates)
        for name, value, least in zip(STAGES, values, best, strict=False):
            proof = certified_bound(plan, name, Work(1_000_000))
            if proof is not None:
                assert proof.bound <= least, f"case {number}: {name}"
                seen["bounds"] += 1
                seen["met"] += proof.bound == least
            if value != least:
                break  # what is best behind this stage is unknown
    assert seen["best"] >= seen["plans"] - cases // 100
    # the cases are worth something: nearly all plans are generated and nearly all bounds are the best there are
    assert seen["generated"] >= seen["plans"] * 3 // 4
    assert seen["met"] >= seen["bounds"] * 4 // 5
    assert seen["bounds"] >= 3 * cases // 2
