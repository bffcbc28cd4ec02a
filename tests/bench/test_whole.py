"""Whole pieces: published classes and shop cases, and the same cases given to a general constraint solver.

``python tests/bench/test_whole.py N`` prints the table: class, cases, proven, median and worst CPU time; how many of
the first N cases of each class the other solver proves, and how much longer it takes for those. Without
N it is left out.
"""

from __future__ import annotations

import resource
import statistics
import sys
import time
from collections.abc import Callable, Iterable
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from ask_general_solver import ask_general_solver
from whole_cases import paper_rolls, plain, shop, triplets, uniform

from edgewright.cutlist.whole.model import WholeProblem
from edgewright.cutlist.whole.solve import solve_whole

#: Work allowed to the other solver on each case, in its own deterministic unit (about a second).
LIMIT = 5.0

CLASSES: dict[str, tuple[Callable[[int], WholeProblem], int]] = {
    "paper rolls": (lambda _: paper_rolls(), 1),
    "triplets 60": (lambda seed: triplets(60, seed), 10),
    "triplets 120": (lambda seed: triplets(120, seed), 10),
    "triplets 249": (lambda seed: triplets(249, seed), 10),
    "triplets 501": (lambda seed: triplets(501, seed), 10),
    "uniform 120": (lambda seed: uniform(120, seed), 10),
    "uniform 250": (lambda seed: uniform(250, seed), 10),
    "uniform 500": (lambda seed: uniform(500, seed), 10),
    "uniform 1000": (lambda seed: uniform(1000, seed), 10),
    "shop": (shop, 30),
}


def general_solver(problem: WholeProblem, limit: float = LIMIT) -> tuple[tuple[int, ...] | None, float]:
    """Give the problem to the general constraint solver: values if all are proven, and CPU seconds."""
    ((values, seconds),) = ask_general_solver("whole", [plain(problem)], limit)
    return None if None in values else tuple(value for value in values if value is not None), seconds


@pytest.mark.parametrize("name", CLASSES)
def test_class(benchmark, name):
    make, _ = CLASSES[name]
    assert benchmark.pedantic(solve_whole, args=(make(0),), rounds=1, iterations=1).proven


@pytest.mark.parametrize("name", ["paper rolls", "uniform 120", "shop"])
def test_general_solver(benchmark, name):
    make, _ = CLASSES[name]
    problem = make(1)
    values, _ = benchmark.pedantic(general_solver, args=(problem, 1.0), rounds=1, iterations=1)
    if values is not None:
        assert values == tuple(stage.value for stage in solve_whole(problem).stages)


def table(names: Iterable[str], *, compared: int) -> None:
    """Print a row for each class; the other solver gets the first ``compared`` cases of each."""
    for name in names:
        make, cases = CLASSES[name]
        ours, theirs, proven, both = [], [], 0, []
        for seed in range(cases):
            problem = make(seed)
            start = time.process_time()
            result = solve_whole(problem)
            ours.append(time.process_time() - start)
            proven += result.proven
            if seed < compared:
                values, seconds = general_solver(problem)
                theirs.append(seconds)
                if values is not None and result.proven:
                    assert values == tuple(stage.value for stage in result.stages)
                    both.append(theirs[-1] / ours[-1])
        ratio = f"{statistics.median(both):.0f} x (least {min(both):.1f})" if both else "-"
        print(
            f"| {name} | {cases} | {proven} | {statistics.median(ours):.3f} | {max(ours):.3f} "
            f"| {len(both)} of {len(theirs)} | {ratio} |",
            flush=True,
        )


if __name__ == "__main__":
    table(sys.argv[2:] or CLASSES, compared=int(sys.argv[1]) if len(sys.argv) > 1 else 0)
    print(f"largest memory {resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024:.0f} MiB")
