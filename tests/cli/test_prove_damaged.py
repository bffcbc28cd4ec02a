"""``edgewright prove`` on a plan.json that was edited, cut short or is something else: never a traceback."""

from __future__ import annotations

import copy
import json
from collections import Counter
from random import Random
from typing import Any

import pytest
from cli_jobs import BOARDS, READY, run

#: What may stand in place of any value.
JUNK: list[Any] = [
    None, 0, -1, 1, 10**18, -(10**30), 1e308, "", "x", [], {}, True, [[]], {"a": 1}, "impossible", "north", [None] * 3
]  # fmt: skip


@pytest.fixture(scope="module")
def plans(tmp_path_factory):
    """Plans of a job with its own wood, and of one with boards to buy, as written."""
    folder = tmp_path_factory.mktemp("plans")
    found = []
    for number, text in enumerate((READY, BOARDS)):
        path = folder / f"{number}.toml"
        path.write_text(text, encoding="utf-8")
        found.append(json.loads(run("plan", path, "--json").stdout))
    return found


@pytest.fixture
def prove(tmp_path):
    def prove(text: str, *more: str):
        path = tmp_path / "plan.json"
        path.write_text(text, encoding="utf-8")
        return run("prove", path, *more)

    return prove


def places(value: Any, place: tuple[Any, ...]) -> list[tuple[Any, ...]]:
    """Place of every value within; of long lists the first four entries."""
    if isinstance(value, dict):
        return [place, *(p for key, part in value.items() for p in places(part, (*place, key)))]
    if isinstance(value, list):
        return [place, *(p for n, part in enumerate(value[:4]) for p in places(part, (*place, n)))]
    return [place]


def damage(plan: dict[str, Any], place: tuple[Any, ...], pick: Random) -> None:
    """Take a value away, move a number, double a list, or put something else in its place."""
    holder: Any = plan
    for key in place[:-1]:
        holder = holder[key]
    value, way = holder[place[-1]], pick.random()
    if way < 0.25:
        del holder[place[-1]]
    elif way < 0.5 and isinstance(value, int):
        holder[place[-1]] = value + pick.choice([1, -1, 1016, 10**9, -(10**15)])
    elif way < 0.65 and isinstance(value, list):
        holder[place[-1]] = value * 2 if way < 0.6 else value[::-1]
    else:
        holder[place[-1]] = pick.choice(JUNK)


@pytest.mark.property
def test_no_damage_makes_it_stumble_and_most_is_found(plans, prove):
    codes: Counter[int] = Counter()
    for number in range(160):
        pick = Random(number)
        plan = copy.deepcopy(plans[number % 2])
        damage(plan, pick.choice(places(plan["cut_plan"], ("cut_plan",))), pick)
        result = prove(json.dumps(plan), *(["--json"] if number % 3 == 0 else []))
        assert result.exit_code in (0, 1, 2), (number, result.stderr)
        assert (result.stderr == "") == (result.exit_code < 2), number
        codes[result.exit_code] += 1
    # 0 is right where the value decides nothing, like a bound that is recomputed or the name of a stick for sale
    assert codes[1] >= 120


@pytest.mark.example
def test_a_claim_that_is_too_good_is_named(plans, prove):
    """One strip less than the pieces are cut from."""
    plan = copy.deepcopy(plans[0])
    stage = next(stage for stage in plan["cut_plan"]["stages"] if stage["name"] == "strips ripped")
    stage["value"] -= 1
    result = prove(json.dumps(plan))
    assert result.exit_code == 1
    assert "strips ripped" in result.stdout


@pytest.mark.example
@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "is no JSON"),
        ("{", "is no JSON"),
        ("[" * 100_000, "is no JSON"),
        ("9" * 5_000, "is no JSON"),
        ("null", "is no plan"),
        ("[]", "is no plan"),
        ("7", "is no plan"),
        ('{"format": "edgewright plan"}', "is no plan"),
        ('{"format": "something else", "cut_plan": {}}', "is no plan"),
        ('{"format": "edgewright plan", "cut_plan": []}', "is no plan"),
        ('{"format": "edgewright plan", "cut_plan": {}, "job": {}}', "holds no cut"),
    ],
    ids=lambda value: value[:20],
)
def test_what_is_no_plan_is_refused_in_one_sentence(prove, text, words):
    result = prove(text)
    assert (result.exit_code, result.stdout) == (2, "")
    assert words in result.stderr
    assert result.stderr.count("\n") == 1
