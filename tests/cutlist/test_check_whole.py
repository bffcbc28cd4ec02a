from __future__ import annotations

import ast
import copy
import sys
from collections.abc import Callable
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from whole_cases import one_stock, plain, shop, slow_best, triplets

from edgewright.cutlist import check_whole as module
from edgewright.cutlist.check_whole import check_whole
from edgewright.cutlist.check_whole_bound import recompute_whole_bounds
from edgewright.cutlist.whole.model import PieceKind, StickKind, WholeProblem
from edgewright.cutlist.whole.solve import solve_whole

Plain = dict[str, Any]


def leaves(proof: Plain) -> list[Plain]:
    return leaves(proof["fewer"]) + leaves(proof["more"]) if "stick" in proof else [proof]


def branches(proof: Plain) -> list[Plain]:
    if "stick" not in proof:
        return []
    return [proof, *branches(proof["fewer"]), *branches(proof["more"])]


def impossible() -> WholeProblem:
    return WholeProblem((StickKind("s", 2, (3, 1), ((10, 1),)),), (PieceKind("p", 6, 3),), 1)


def searched() -> WholeProblem:
    """One tick too little waste: no prices show it, a search does."""
    stock = [(38, 1), (46, 3), (34, 2)]
    lengths = [6, 8, 10, 13, 14, 15, 15, 18, 18, 19, 19, 21, 22, 23, 23]
    kinds = tuple(StickKind(f"s{length}", count, (1,), ((length, 1),)) for length, count in stock)
    return WholeProblem(kinds, one_stock(46, lengths).pieces, 0)


CASES = {
    "shop": lambda: shop(0),
    "triplets": lambda: triplets(60, 0),
    "impossible": impossible,
    "searched": searched,
}


@cache
def _solved(case: str) -> tuple[Plain, Plain]:
    problem = CASES[case]()
    return plain(problem), plain(solve_whole(problem))


def solved(case: str) -> tuple[Plain, Plain]:
    return copy.deepcopy(_solved(case))


def names(problem: Plain, result: Plain) -> set[str]:
    return {fault.name for fault in check_whole(problem, result)}


@pytest.mark.example
@pytest.mark.parametrize("case", CASES)
def test_sound_results_have_no_fault(case: str) -> None:
    assert check_whole(*solved(case)) == ()


@pytest.mark.example
def test_cases_have_what_faults_are_planted_in() -> None:
    assert branches(solved("shop")[1]["stages"][0]["proof"])
    assert any(leaf["searched"] for leaf in leaves(solved("searched")[1]["stages"][0]["proof"]))
    assert solved("impossible")[1]["status"] == "impossible"


def pattern(at: int, **values: Any) -> Callable[[Plain], Any]:
    return lambda result: result["patterns"][at].update(values)


def stage(at: int, **values: Any) -> Callable[[Plain], Any]:
    return lambda result: result["stages"][at].update(values)


def drop_a_piece(result: Plain) -> None:
    entry = result["patterns"][0]["pieces"][0]
    entry[1] -= 1
    if not entry[1]:
        result["patterns"][0]["pieces"].pop(0)


def one_more(result: Plain) -> None:
    result["patterns"][0]["pieces"][0][1] += 1


def stick_less(result: Plain) -> None:
    result["sticks"][0][1] -= 1


def all_leaves(**values: Any) -> Callable[[Plain], Any]:
    return lambda result: [leaf.update(values) for leaf in leaves(result["stages"][0]["proof"])]


def halve_prices(result: Plain) -> None:
    for leaf in leaves(result["stages"][0]["proof"]):
        leaf["values"] = [value // 2 for value in leaf["values"]]


def swap_halves(result: Plain) -> None:
    for branch in branches(result["stages"][0]["proof"]):
        branch["fewer"], branch["more"] = branch["more"], branch["fewer"]


FAULTS: list[tuple[str, Callable[[Plain], Any], set[str]]] = [
    ("shop", drop_a_piece, {"pieces cut"}),
    ("triplets", one_more, {"pattern too long", "pieces cut"}),
    ("shop", pattern(0, times=0), {"count below 1", "pieces cut"}),
    ("triplets", stick_less, {"lanes not there", "stage value", "bound above value"}),
    ("shop", lambda r: r["sticks"].append(r["sticks"][0]), {"stick kind listed twice"}),
    ("shop", lambda r: r["sticks"].append(["84 in", 4]), {"sticks not there"}),
    ("shop", stage(0, value=1), {"stage value"}),
    ("shop", stage(0, bound=1), {"stage bound"}),
    ("triplets", stage(0, proven=False), {"proven"}),
    ("shop", lambda r: r.update(proven=False), {"proven"}),
    ("shop", lambda r: r.update(stages=r["stages"][:1]), {"stages"}),
    ("shop", lambda r: r.update(status="impossible"), {"cutting without a cutting"}),
    ("impossible", lambda r: r.update(status="open"), {"status"}),
    # a proof that proves less or too much
    ("triplets", halve_prices, {"proven", "stage bound"}),
    ("impossible", all_leaves(values=[0]), {"proven"}),
    ("triplets", all_leaves(scale=1), {"proven", "stage bound"}),
    ("shop", all_leaves(values=[0] * 25), {"proven", "stage bound"}),
    ("searched", all_leaves(searched=False), {"proven"}),
    # malformed
    ("shop", swap_halves, {"malformed cutting"}),
    ("triplets", all_leaves(scale=-1), {"malformed cutting"}),
    ("triplets", all_leaves(values=[-1] * 60), {"malformed cutting"}),
    ("triplets", all_leaves(values=[]), {"malformed cutting"}),
    ("triplets", all_leaves(multipliers=[1]), {"malformed cutting"}),
    ("triplets", all_leaves(scale=1.5), {"malformed cutting"}),
    ("shop", all_leaves(searched=True), {"malformed cutting"}),
    ("shop", lambda r: r["stages"][0]["proof"].update(at=-1), {"malformed cutting"}),
    ("shop", lambda r: r["stages"][0]["proof"].update(stick="none"), {"malformed cutting"}),
    ("shop", pattern(0, stick="none"), {"malformed cutting"}),
    ("shop", lambda r: r.pop("patterns"), {"malformed cutting"}),
    ("shop", lambda r: r.update(status="fine"), {"malformed cutting"}),
]


@pytest.mark.example
@pytest.mark.parametrize(("case", "plant", "found"), FAULTS)
def test_planted_faults_are_found(case: str, plant: Callable[[Plain], Any], found: set[str]) -> None:
    problem, result = solved(case)
    plant(result)
    assert found <= names(problem, result)


@pytest.mark.example
def test_more_wanted_or_less_stock_makes_a_cutting_false() -> None:
    problem, result = solved("shop")
    problem["kerf"] += 508
    assert names(problem, result)
    problem, result = solved("shop")
    for kind in problem["kinds"]:
        kind["count"] = 0
    assert "sticks not there" in names(problem, result) or "malformed cutting" in names(problem, result)


SMALL = st.builds(
    lambda stock, sizes, kerf: WholeProblem(
        tuple(
            StickKind(f"s{at}", count, (price,), ((length, 1),))
            for at, (length, count, price) in enumerate(stock)
        ),
        tuple(PieceKind(f"p{at}", size, 1) for at, size in enumerate(sizes)),
        kerf,
    ),
    st.lists(
        st.tuples(st.integers(8, 20), st.sampled_from([None, 1, 2]), st.integers(1, 9)),
        min_size=1,
        max_size=2,
    ),
    st.lists(st.integers(1, 8), min_size=1, max_size=4),
    st.integers(0, 2),
)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=200)
@given(SMALL, st.lists(st.integers(0, 40), min_size=4, max_size=4), st.integers(0, 12))
def test_no_prices_prove_more_than_is_true(problem: WholeProblem, prices: list[int], scale: int) -> None:
    """Whatever prices stand in a leaf, the bound is never above the best there is."""
    leaf = {"values": prices[: len(problem.pieces)], "scale": scale, "multipliers": [], "searched": False}
    result = {"stages": [{"value": None, "bound": 0, "proven": False, "proof": leaf}]}
    (bound,) = recompute_whole_bounds(plain(problem), result, 1000)
    best = slow_best(problem)
    if best is not None:
        assert bound is not None
        assert bound <= best[0]


def test_checker_imports_only_the_standard_library_and_checks() -> None:
    folder = Path(str(module.__file__)).parent
    todo, seen = ["check_whole"], set()
    while todo:
        name = todo.pop()
        seen.add(name)
        for node in ast.walk(ast.parse((folder / f"{name}.py").read_text(encoding="utf-8"))):
            if isinstance(node, ast.Import):
                assert {alias.name.split(".")[0] for alias in node.names} <= sys.stdlib_module_names
            elif isinstance(node, ast.ImportFrom):
                parts = str(node.module).split(".")
                if parts[0] not in sys.stdlib_module_names:
                    assert parts[:2] == ["edgewright", "cutlist"]
                    assert parts[2].startswith("check_")
                    todo += [parts[2]] if parts[2] not in seen else []
    assert seen == {"check_whole", "check_whole_bound", "check_packing", "check_faults"}
