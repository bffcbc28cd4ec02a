"""``edgewright prove``: the stages of every kind of plan, the sums behind them, and files that were tampered with."""

from __future__ import annotations

import copy
import json
import random
from pathlib import Path

import pytest
from cli_jobs import IMPOSSIBLE, READY, run
from shaped_jobs import shaped_plan
from stock_jobs import ROUND_48, STRAIGHT, board

from edgewright.cli.plan_json import json_text, plan_dict
from edgewright.cli.shaped_json import build_up_dict, shaped_dict
from edgewright.cutlist.any_plan import plan_any
from edgewright.cutlist.shaped_proof import prove_build_up

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
#: Two strips of 60 in from the rack's board, two of 26 in from a board of 54 in that costs 5.
BOUGHT = STRAIGHT + board("rack", "61 in", "4 1/8 in") + board("stick", "54 in", "3 in", "5")


def plain(text: str) -> dict:
    """The content of plan.json of a top with an outline."""
    return json.loads(json_text(shaped_dict(shaped_plan(text))))


def words(output: str) -> str:
    return " ".join(output.split())


@pytest.fixture
def prove(tmp_path):
    def prove(content, *more):
        is_job = isinstance(content, str)
        path = tmp_path / ("job.toml" if is_job else "plan.json")
        path.write_text(content if is_job else json.dumps(content), encoding="utf-8")
        return run("prove", path, *more)

    return prove


@pytest.mark.example
def test_a_build_up_shows_the_points_its_bounds_follow_from(prove):
    result = prove(BOUGHT)
    said = words(result.stdout)
    assert result.exit_code == 0
    assert "NEW MATERIAL COST 5.00 proven" in said
    assert "STICKS TOUCHED 2 proven" in said
    assert said.endswith(
        "The independent checker accepts the plan: 4 of 4 blanks cut from 2 sticks; 3 of 4 stages are proven."
    )
    # the plan.json of the job says the same, without planning
    assert prove(plain(BOUGHT)).stdout == result.stdout


@pytest.mark.example
def test_what_the_stock_lacks_is_shown_as_an_inequality(prove):
    # the corners of the square give 8 segments of 16: 2 from each of 4
    said = words(prove(ROUND_48).stdout)
    assert "BLANKS THAT MUST BE BOUGHT" in said
    assert "16 wanted" in said
    assert "The independent checker recomputed the same." in said
    assert "8 of 16 blanks cut from 4 sticks" in said


def test_a_build_up_without_stock_says_that_nothing_is_cut(prove):
    result = prove(STRAIGHT)
    assert "All 4 blanks of the build-up must be bought" in words(result.stdout)
    assert result.exit_code == 0


def test_a_rectangle_and_its_file_say_the_same(prove):
    result = prove(READY)
    assert result.exit_code == 0
    assert "The independent checker accepts the plan" in words(result.stdout)
    assert "STRIPS RIPPED" in result.stdout
    short = prove(IMPOSSIBLE)
    assert short.exit_code == 1
    assert short.stdout.endswith("NOT FOR CUTTING\n")


def test_the_verdict_as_data(prove):
    verdict = json.loads(prove(BOUGHT, "--json").stdout)
    assert verdict["accepted"]
    assert verdict["shortage_holds"] is None
    assert [(s["name"], s["value"], s["proven"]) for s in verdict["stages"]][:2] == [
        ("new material cost", 500, True), ("sticks touched", 2, True)
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("text", "change", "fault"),
    [
        (BOUGHT, lambda b: b["cut"][0].update(start=5), "piece not where the layout has it"),
        (BOUGHT, lambda b: b["cut"].pop(), "piece not covered once"),
        (BOUGHT, lambda b: b["cut"][1].update(piece_id="1.1"), "piece not covered once"),
        (BOUGHT, lambda b: b["laid_out"]["plan"]["stages"][0].update(value=400), "stage value wrong"),
        (BOUGHT, lambda b: b["laid_out"]["plan"]["stages"][3].update(proven=True), "bound not met"),
        (BOUGHT, lambda b: b["laid_out"]["blanks"][0].update(length=1), "blank not as wanted"),
        (BOUGHT, lambda b: b["wanted"][0]["pieces"].append("9.9"), "wrong number of pieces"),
        (BOUGHT, lambda b: b["wanted"][0]["pieces"].append("9.9"), "piece not covered once"),
        (BOUGHT, lambda b: b["laid_out"].update(plan=None), "malformed plan"),
        (BOUGHT, lambda b: b["laid_out"]["blanks"][0].update(length=10**9), "malformed plan"),
        (BOUGHT, lambda b: b["laid_out"]["blanks"][0].update(count=10**9), "malformed plan"),
        (ROUND_48, lambda b: b["shortage"].update(proven=not b["shortage"]["proven"]), "shortage not shown"),
        (ROUND_48, lambda b: b["shortage"]["laid_out"]["blanks"][0].update(count=8), "shortage of other blanks"),
        (ROUND_48, lambda b: b["shortage"]["laid_out"]["stock"].pop(), "shortage of other sticks"),
        (ROUND_48, lambda b: b["to_buy"].clear(), "piece not covered once"),
        (ROUND_48, lambda b: b["shortage"].pop("laid_out"), "malformed plan"),
    ],
)  # fmt: skip
def test_a_planted_fault_is_named(prove, text, change, fault):
    content = plain(text)
    change(content["build_up"])
    assert fault in {found.name for found in prove_build_up(content["build_up"]).faults}
    result = prove(content)
    assert f"FAULT {fault}" in words(result.stdout)
    assert result.exit_code == 1


@pytest.mark.parametrize(
    ("content", "said"),
    [
        ({}, "is no plan"),
        ([1], "is no plan"),
        ({"format": "edgewright plan", "job": 3}, "is no plan"),
        ({"format": "edgewright plan", "job": {}}, "has no cut plan in it"),
        ({"format": "edgewright plan", "job": {}, "status": "NOT FOR CUTTING"}, "prove its job file instead"),
        ({"format": "edgewright plan", "job": {}, "cut_plan": {"status": "ready"}}, "prove its job file"),
    ],
)
def test_other_files_are_refused_in_one_sentence(prove, content, said):
    result = prove(content)
    assert result.exit_code == 2
    assert said in words(result.stderr)
    assert not result.stdout


@pytest.mark.property
@pytest.mark.parametrize("kind", ["bought", "corners", "rectangle"])
def test_a_damaged_file_never_ends_in_a_traceback(kind):
    """One value of the file is replaced: it is refused with a named fault, or what changed does not matter."""
    rng = random.Random(7)
    if kind == "rectangle":
        from edgewright.cutlist.proof import prove as prove_plan

        whole = json.loads(json_text(plan_dict(plan_any(EXAMPLES / "narrow_one_side.toml"))))["cut_plan"]
    else:
        prove_plan = prove_build_up
        whole = plain(BOUGHT if kind == "bought" else ROUND_48)["build_up"]
    refused = 0
    for _ in range(150):
        content = copy.deepcopy(whole)
        at, key = rng.choice([*_places(content)])
        at[key] = rng.choice(
            [None, -1, 0, 1, 2, 10**9, 10**30, "x", "", [], {}, True, 1.5, [[]], {"id": "x"}]
        )
        refused += bool(prove_plan(content).faults)
    assert refused > 75


def _places(value, found=None):
    """Every (record or list, key) of plain data."""
    found = [] if found is None else found
    for key, part in list(value.items() if isinstance(value, dict) else enumerate(value)):
        found.append((value, key))
        if isinstance(part, dict | list):
            _places(part, found)
    return found


def test_what_stands_in_the_file_is_what_is_proven():
    plan = shaped_plan(BOUGHT)
    assert json.loads(json.dumps(build_up_dict(plan.design, plan.build_up))) == plain(BOUGHT)["build_up"]
