"""What holds for the cut plan of every job: accepted by the checker, not better than its bounds, the same in any units.

Here whole jobs are drawn, with layers, mitres, grain, defects, old edges and boards; plans of bare sides and sticks
are held against brute force in ``test_solve``.
"""

from __future__ import annotations

import json
from collections import Counter
from functools import cache
from pathlib import Path

import pytest
from as_cut_jobs import as_planned
from cli_jobs import program
from strip_jobs import HARD, random_job

from edgewright.cutlist.checker import check_plan, recompute_bounds
from edgewright.cutlist.cutting import make_cut_plan
from edgewright.cutlist.model import CutPlan
from edgewright.cutlist.plan import plan
from edgewright.cutlist.stages import plain_plan
from edgewright.design.build import build_design
from edgewright.jobfile import parse_job

JOBS = range(42)


@cache
def planned(text: str) -> CutPlan:
    return make_cut_plan(build_design(parse_job(text)))


def stages(made: CutPlan) -> dict[str, tuple[int, bool]]:
    return {stage.name: (stage.value, stage.proven) for stage in made.stages}


@pytest.mark.property
def test_the_checker_accepts_every_plan_and_no_bound_is_beaten() -> None:
    seen = Counter[str]()
    for number in JOBS:
        made = planned(random_job(number))
        plain = plain_plan(made)
        assert check_plan(plain) == (), number
        for name, (bound, _) in (recompute_bounds(plain) if made.stages else {}).items():
            value, proven = stages(made)[name]
            assert proven == (bound == value), (number, name)
            if bound is not None:
                worse = bound - value if name == "largest remnant" else value - bound
                assert worse >= 0, (number, name)
            seen["stages"] += 1
            seen["proven"] += proven
        seen[made.status] += 1
        seen["spliced"] += bool(made.stages) and made.stages[1].value > 0
        seen["bought"] += bool(made.stages) and made.stages[0].value > 0
    assert seen["ready"] >= 20
    assert seen["impossible"] >= 8
    assert seen["spliced"] >= 6
    assert seen["bought"] >= 3
    assert seen["proven"] >= seen["stages"] * 9 // 10


@pytest.mark.property
@pytest.mark.parametrize("number", JOBS[::3])
def test_the_same_job_in_millimetres_gives_the_same_plan(number: int) -> None:
    inches, metric = planned(random_job(number)), planned(random_job(number, "mm"))
    assert metric.status == inches.status
    assert metric.pieces == inches.pieces
    assert metric.sides == inches.sides
    assert metric.cuts == inches.cuts
    assert metric.stages == inches.stages


@pytest.mark.property
@pytest.mark.parametrize("number", JOBS[::3])
def test_the_order_of_boards_and_defects_in_the_file_changes_no_stage(number: int) -> None:
    listed, turned = planned(random_job(number)), planned(random_job(number, shuffled=True))
    assert turned.status == listed.status
    for name, (value, proven) in stages(listed).items():
        other, proven_too = stages(turned)[name]
        assert value == other or not (proven and proven_too), name


@pytest.mark.property
@pytest.mark.parametrize("number", JOBS[::3])
def test_one_more_board_never_makes_a_plan_worse(number: int) -> None:
    text = random_job(number)
    more = f'{text}[[stock]]\nname = "more"\nlength = "100 in"\nwidth = "{1 + number % 4} in"\nthickness = "3/4 in"\n'
    before, after = planned(text), planned(more)
    if before.status == "ready":
        assert after.status == "ready"
        cost, splices = (stages(before)[name] for name in ("new material cost", "splices"))
        assert stages(after)["new material cost"][0] <= cost[0]
        if stages(after)["new material cost"][0] == cost[0]:
            assert stages(after)["splices"][0] <= splices[0]


@pytest.mark.property
@pytest.mark.parametrize("number", JOBS[::6])
def test_after_every_cut_the_rest_costs_as_much_and_has_as_many_splices(number: int) -> None:
    text = random_job(number)
    before = planned(text)
    for cuts in range(1, len(before.cuts) + 1):
        again = plan(parse_job(text + as_planned(before, cuts))).cut_plan
        assert check_plan(plain_plan(again)) == ()
        assert [stage.value for stage in again.stages[:2]] == [stage.value for stage in before.stages[:2]]


@pytest.mark.property
def test_a_hard_job_gives_the_same_bytes_whatever_the_order_of_hashes(tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    path.write_text(HARD, encoding="utf-8")
    printed = [program("plan", path, "--json", env={"PYTHONHASHSEED": seed}) for seed in ("1", "4711")]
    assert [run.returncode for run in printed] == [0, 0]
    plan = json.loads(printed[0].stdout)["cut_plan"]
    assert any(stage["certificate"] for stage in plan["stages"])
    assert len({run.stdout for run in printed}) == 1
