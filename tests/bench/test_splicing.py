"""Strips that may be spliced: classes of the shop, proven by our own checker, and given to a general constraint solver.

``python tests/bench/test_splicing.py N`` prints the table: class, cases, how many are proven in each stage (cost,
splices, sticks, strips, remnant; or proven to be impossible), CPU seconds of planning and checking together; how many
of the first N cases of each class the other solver proves (all stages but the remnant), and how much longer it takes
for those that both prove. Seeds with an open stage are listed below. Without N it is left out.
"""

from __future__ import annotations

import statistics
import sys
import time
from collections.abc import Iterable
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from ask_general_solver import ask_general_solver
from splice_cases import CLASSES, Case, as_data, as_problem
from strip_cases import INCH, INCH_RULES

from edgewright.cutlist.checker import recompute_bounds, shortage_holds
from edgewright.cutlist.solve import solve_strips

#: Work the other solver is given for each stage, in its own unit (about a second).
LIMIT = 5.0
CASES = {"12 tables, one width": 20}
USUAL = 40


def proven_plan(case: Case) -> tuple[tuple[int, ...], tuple[bool, ...]]:
    """Value of each stage and whether the checker proves it; no values, and whether that is proven, without a plan."""
    layout = solve_strips(*case, INCH_RULES, INCH)
    plan = as_data(*case, layout)
    if layout is None:
        return (), (shortage_holds(plan),)
    bounds = recompute_bounds(plan)
    # the other solver knows nothing of fences
    values = {s["name"]: s["value"] for s in plan["stages"] if s["name"] != "fence settings"}
    return tuple(values.values()), tuple(bounds[name][0] == value for name, value in values.items())


@pytest.mark.parametrize("name", CLASSES)
def test_class(benchmark, name):
    values, proven = benchmark.pedantic(proven_plan, args=(CLASSES[name](1),), rounds=1, iterations=1)
    assert values
    assert proven[0]


@pytest.mark.parametrize("name", ["spliced, one table", "two layers, six kinds of stock"])
def test_general_solver(benchmark, name):
    problem = as_problem(*CLASSES[name](1))
    ((values, _),) = benchmark.pedantic(
        ask_general_solver, args=("splices", [problem], 2.0), rounds=1, iterations=1
    )
    assert len(values) == 4


def table(names: Iterable[str], *, compared: int) -> None:
    """Print a row for each class, and the seeds that are open."""
    for name in names:
        cases = CASES.get(name, USUAL)
        ours, ratios, open_seeds, theirs = [], [], [], 0
        stages, plans, impossible, shown = [0] * 5, 0, 0, 0
        for seed in range(cases):
            case = CLASSES[name](seed)
            start = time.process_time()
            values, proven = proven_plan(case)
            ours.append(time.process_time() - start)
            if values:
                plans += 1
                stages = [n + met for n, met in zip(stages, proven, strict=True)]
            else:
                impossible += 1
                shown += proven[0]
            if not all(proven[:4]):
                open_seeds.append(seed)
            if seed < compared:
                ((other, seconds),) = ask_general_solver("splices", [as_problem(*case)], LIMIT)
                settled = None not in other
                theirs += settled
                if settled and all(proven[:4]):
                    assert tuple(other) == values[:4], (name, seed, other, values)
                    ratios.append(seconds / ours[-1])
                elif settled and tuple(other) != values[:4]:
                    print(f"   {name}, seed {seed}: ours {values[:4]} {proven[:4]}, the other solver {other}")
        ratio = f"{statistics.median(ratios):.0f} x (least {min(ratios):.1f})" if ratios else "-"
        of = f"{theirs} of {min(compared, cases)}, both {len(ratios)}" if compared else "-"
        print(
            f"| {name} | {cases} | {' '.join(map(str, stages))} of {plans}; {shown} of {impossible} | "
            f"{statistics.median(ours):.3f} | {max(ours):.3f} | {of} | {ratio} |"
        )
        print(f"   open: {open_seeds}", flush=True)


if __name__ == "__main__":
    table(sys.argv[2:] or CLASSES, compared=int(sys.argv[1]) if len(sys.argv) > 1 else 0)
