from __future__ import annotations

import ast
import copy
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from guillotine_cases import random_case, rect

from edgewright.cutlist import check_guillotine as module
from edgewright.cutlist.check_guillotine import (
    check_guillotine,
    recompute_guillotine_bounds,
    shortage_is_proven,
)
from edgewright.cutlist.check_guillotine_search import can_lay
from edgewright.cutlist.check_guillotine_stock import Sawmill
from edgewright.cutlist.check_search import Work, WorkLimitError
from edgewright.cutlist.guillotine.fill import best_fill
from edgewright.cutlist.guillotine.model import Blank, GuillotineRules
from edgewright.cutlist.guillotine.plain import plain_layout
from edgewright.cutlist.guillotine.plan import plan_guillotine
from edgewright.cutlist.guillotine.pool import Pool
from edgewright.cutlist.guillotine.problem import make_problem

Plain = dict[str, Any]

#: Two lanes of 10 and one of 6 from a board 50 by 30, kerf 1; 1 left beside them, lane ends of 8, 8 and 29.
BLANKS = [Blank("wide", 20, 10, 4, "length"), Blank("slim", 20, 6, 1, "length")]
STOCK = [rect("board", 50, 30, 2, grain="length"), rect("sheet", 80, 30, None, 7, grain="length")]
RULES = GuillotineRules(1, 2)


@pytest.fixture
def plain() -> Plain:
    made = plain_layout(STOCK, BLANKS, RULES, plan_guillotine(STOCK, BLANKS, RULES))
    assert not check_guillotine(made)
    assert [(lane["width"], len(lane["pieces"])) for lane in made["plan"]["layouts"][0]["lanes"]] == [
        (10, 2),
        (10, 2),
        (6, 1),
    ]
    return made


def lane(plain: Plain, number: int = 0) -> Plain:
    return plain["plan"]["layouts"][0]["lanes"][number]  # type: ignore[no-any-return]


def stage(plain: Plain, name: str) -> Plain:
    return next(s for s in plain["plan"]["stages"] if s["name"] == name)


def _move(plain: Plain) -> None:
    lane(plain)["pieces"][1]["start"] -= 1


def _gap(plain: Plain) -> None:
    lane(plain)["pieces"][1]["start"] += 1


def _out(plain: Plain) -> None:
    lane(plain)["pieces"][1]["start"] += 20


def _widen(plain: Plain) -> None:
    plain["plan"]["layouts"][0]["lanes"].append(copy.deepcopy(lane(plain)))


def _thin(plain: Plain) -> None:
    plain["rules"]["min_rip_width"] = 7


def _turn(plain: Plain) -> None:
    lane(plain)["pieces"][0]["turned"] = True


def _across(plain: Plain) -> None:
    plain["stock"][0]["grain"] = "width"


def _lose(plain: Plain) -> None:
    lane(plain)["pieces"].pop()


def _empty(plain: Plain) -> None:
    lane(plain, 2)["pieces"] = []


def _copy(plain: Plain) -> None:
    plain["plan"]["layouts"][0]["copy"] = 3


def _twice(plain: Plain) -> None:
    plain["plan"]["layouts"] *= 2


def _other_way(plain: Plain) -> None:
    plain["rules"]["first"] = "width"


def _rest(plain: Plain) -> None:
    plain["plan"]["rests"][0]["length"] += 1


def _cheap(plain: Plain) -> None:
    plain["plan"]["layouts"][0]["stock_id"] = "sheet"


def _proud(plain: Plain) -> None:
    stage(plain, "fence settings")["value"] = 1


def _bound(plain: Plain) -> None:
    stage(plain, "sticks touched")["bound"] = 0


def _unknown(plain: Plain) -> None:
    lane(plain)["pieces"][0]["blank_id"] = "other"


def _no_cuts(plain: Plain) -> None:
    plain["plan"]["certificate"]["cuts"] = [{"points": [["wide", "many"]]}]


def _twins(plain: Plain) -> None:
    plain["blanks"][1]["id"] = "wide"


@pytest.mark.parametrize(
    ("spoil", "name"),
    [
        (_move, "blanks overlap"),
        (_gap, "gap in a lane"),
        (_out, "out of the stick"),
        (_widen, "lanes do not fit"),
        (_thin, "rip too narrow"),
        (_turn, "wrong size"),
        (_across, "across the grain"),
        (_lose, "wrong number of blanks"),
        (_empty, "empty lane"),
        (_copy, "more stock than there is"),
        (_twice, "stick used twice"),
        (_other_way, "ripped the wrong way"),
        (_rest, "wrong rest"),
        (_cheap, "stage value wrong"),
        (_proud, "stage value wrong"),
        (_bound, "stage bound wrong"),
        (_unknown, "unknown blank"),
        (_no_cuts, "malformed plan"),
        (_twins, "malformed plan"),
    ],
)
def test_planted_fault_is_found(plain: Plain, spoil: Callable[[Plain], None], name: str) -> None:
    spoil(plain)
    assert name in {fault.name for fault in check_guillotine(plain)}


@pytest.mark.parametrize("key", ["stock", "blanks", "rules", "plan", "shortage"])
def test_a_missing_part_is_a_malformed_plan(plain: Plain, key: str) -> None:
    del plain[key]
    assert {fault.name for fault in check_guillotine(plain)} == {"malformed plan"}


def test_a_plan_that_is_not_best_is_not_proven() -> None:
    """A sound layout on two boards where one would do, called proven."""
    blanks = [Blank("b", 20, 10, 2, None)]
    stock = [rect("board", 20, 30, 2)]
    plan = plain_layout(
        stock, blanks, GuillotineRules(1, 0), plan_guillotine(stock, blanks, GuillotineRules(1, 0))
    )
    first = plan["plan"]["layouts"][0]
    second = copy.deepcopy(first)
    first["lanes"].pop()
    second["lanes"].pop()
    second["copy"] = 2
    plan["plan"]["layouts"].append(second)
    plan["plan"]["rests"] = [{"stock_id": "board", "copy": n, "length": 20, "width": 19} for n in (1, 2)]
    values = {"new material cost": 0, "sticks touched": 2, "fence settings": 1, "largest remnant": 380}
    for s in plan["plan"]["stages"]:
        s.update(value=values[s["name"]], bound=None, proven=s["name"] == "sticks touched")
    assert [fault.name for fault in check_guillotine(plan)] == ["bound not met"]
    assert recompute_guillotine_bounds(plan)["sticks touched"][0] == 1


def test_shortage_that_is_none_is_refused() -> None:
    short = plain_layout(
        STOCK[:1], BLANKS, RULES, plan_guillotine(STOCK[:1], [Blank("b", 90, 9, 1, None)], RULES)
    )
    # the shortage of another job: its points say nothing about these blanks
    short["shortage"]["missing"] = ["wide"]
    assert short["shortage"]["proven"]
    assert not shortage_is_proven(short)
    assert [fault.name for fault in check_guillotine(short)] == ["shortage not shown"]


@pytest.mark.property
def test_any_points_bound_from_below() -> None:
    """Even points that say nothing never make the bound higher than the best plan."""
    for seed in range(40):
        stock, blanks, rules = random_case(seed)
        plan = plan_guillotine(stock, blanks, rules)
        plain = plain_layout(stock, blanks, rules, plan)
        if plain["plan"] is None:
            continue
        for points in ([[b.id, 1] for b in blanks], [[b.id, b.length] for b in blanks], []):
            plain["plan"]["certificate"] = {"cuts": [{"points": points}], "searched": []}
            bounds = recompute_guillotine_bounds(plain)
            cost, sticks = (s["value"] for s in plain["plan"]["stages"][:2])
            assert bounds["new material cost"][0] is not None
            assert bounds["new material cost"][0] <= cost
            if bounds["sticks touched"][0] is not None:
                assert bounds["sticks touched"][0] <= sticks


@pytest.mark.property
def test_planner_and_checker_find_that_sticks_hold_as_much() -> None:
    """Two programs that share no code: numpy over sums, and plain lists."""
    for seed in range(60):
        stock, blanks, rules = random_case(seed)
        problem = make_problem(stock, blanks, rules)
        mill = Sawmill(
            {
                "stock": [_as_dict(s) for s in stock],
                "blanks": [_as_dict(b) for b in blanks],
                "rules": _as_dict(rules),
            }
        )
        points = [(7 * t + 3) % 11 + 1 for t in range(len(problem.blanks))]
        by_group = [0] * len(mill.wanted)
        for blank, p in zip(problem.blanks, points, strict=True):
            for name, _ in blank.ids:
                by_group[mill.group_of[name]] = p
        planner = dict(
            zip([s.members[0][0] for s in problem.sticks], Pool(problem, 50).held(points), strict=True)
        )
        checker = {name: mill.holds(s, by_group) for s in mill.sticks for name in s.ids}
        assert {name: checker[name] for name in planner} == planner


def _as_dict(value: Any) -> Plain:
    return {name: getattr(value, name) for name in value.__slots__}


@pytest.mark.example
def test_search_of_layouts() -> None:
    # 3 blanks of 6 x 6 on boards of 11 x 11: by area two hold them, in truth each holds one
    stock, blanks = [rect("a", 11, 11, 3)], [Blank("b", 6, 6, 3, None)]
    mill = Sawmill(
        {
            "stock": [_as_dict(s) for s in stock],
            "blanks": [_as_dict(b) for b in blanks],
            "rules": _as_dict(GuillotineRules(0, 0)),
        }
    )
    assert not can_lay(mill, [2], [], Work(1000))
    assert can_lay(mill, [3], [], Work(1000))
    with pytest.raises(WorkLimitError):
        can_lay(mill, [3], [], Work(0))


@pytest.mark.example
def test_knapsack_by_hand() -> None:
    # 2 of size 5 (worth 6) leave 2 of 12; 3 of size 4 (worth 4) make 12: 12 beats 12 only once 5 + 4 + 3 is tried
    assert best_fill([5, 4, 3], [2, 3, 1], [6, 4, 3], 12) == (13, (1, 1, 1))


def test_checker_imports_nothing_of_the_planner() -> None:
    folder = Path(module.__file__).parent
    for file in (*folder.glob("check_guillotine*.py"), folder / "check_build_up.py"):
        names = set()
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Import):
                names |= {alias.name for alias in node.names}
            elif isinstance(node, ast.ImportFrom):
                names.add(node.module or "")
        foreign = {
            name
            for name in names
            if not name.startswith("edgewright.cutlist.check_")
            and name.split(".")[0] not in sys.stdlib_module_names
        }
        assert not foreign, f"{file.name} imports {foreign}"
