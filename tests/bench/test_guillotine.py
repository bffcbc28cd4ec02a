"""Guillotine layouts of a workshop: one ring, skirts for four tops, sixty and more blanks."""

from __future__ import annotations

from random import Random

import pytest
from guillotine_cases import sawn_apart

from edgewright.cutlist.guillotine.model import Blank, GuillotinePlan, GuillotineRules, StockRect
from edgewright.cutlist.guillotine.plan import plan_guillotine

INCH = 8128
RULES = GuillotineRules(INCH // 8, INCH * 3 // 4)
SHEET = StockRect("sheet", "sheet", "for sale", 96 * INCH, 48 * INCH, None, 6000, None)
SMALL = StockRect("small", "small sheet", "for sale", 60 * INCH, 30 * INCH, 4, 2500, None)
OFFCUTS = StockRect("offcut", "offcut", "offcut", 40 * INCH, 17 * INCH, 2, 0, None)


def sixteenths(number: int) -> int:
    return number * INCH // 16


def ring() -> tuple[list[StockRect], list[Blank]]:
    stock = [
        StockRect("north", "north offcut", "offcut", 72 * INCH, 5 * INCH, 1, 0, None),
        StockRect("south", "south offcut", "offcut", 72 * INCH, 3 * INCH, 1, 0, None),
        SHEET,
    ]
    segment = Blank("segment", sixteenths(163), INCH * 83 // 32, 12, "length")
    return stock, [segment, Blank("block", 4 * INCH, 4 * INCH, 8, None)]


def skirts() -> tuple[list[StockRect], list[Blank]]:
    sizes = [(60, 4.5), (30, 4.5), (72, 4.5), (36, 4.5), (48, 3.75), (24, 3.75), (54, 3), (27.5, 3)]
    stock = StockRect("sheet", "sheet", "on hand", 96 * INCH, 48 * INCH, 3, 0, "length")
    return [stock], [
        Blank(f"s{n}", int(a * INCH), int(w * INCH), 2, "length") for n, (a, w) in enumerate(sizes)
    ]


def sixty() -> tuple[list[StockRect], list[Blank]]:
    pick = Random(3)
    sizes = [(sixteenths(pick.randint(160, 700)), sixteenths(pick.randint(32, 190))) for _ in range(6)]
    return [SHEET, OFFCUTS], [Blank(f"b{n}", a, w, 10, "length") for n, (a, w) in enumerate(sizes)]


def many(types: int, count: int, widths: int) -> tuple[list[StockRect], list[Blank]]:
    pick = Random(5)
    wide = [sixteenths(pick.randint(32, 190)) for _ in range(widths)]
    blanks = [
        Blank(f"b{n:02}", sixteenths(pick.randint(80, 500)), pick.choice(wide), count, "length")
        for n in range(types)
    ]
    return [SHEET, SMALL, OFFCUTS], blanks


CASES = {
    "ring": ring(),
    "skirts of four tops": skirts(),
    "60 blanks of 6 sizes": sixty(),
    "120 blanks of 20 sizes in 5 widths": many(20, 6, 5),
    "120 blanks of 40 sizes": many(40, 3, 40),
    "8 sheets sawn apart": sawn_apart(1, 8)[:2],
}


@pytest.mark.parametrize("name", CASES)
def test_layout(benchmark, name):
    """From blanks to a checked plan."""
    stock, blanks = CASES[name]
    plan = benchmark.pedantic(
        plan_guillotine,
        (stock, blanks, RULES if name != "8 sheets sawn apart" else GuillotineRules(1, 0)),
        rounds=2,
    )
    assert isinstance(plan, GuillotinePlan)
    benchmark.extra_info["stages"] = [(s.name, s.value, s.bound) for s in plan.stages]
