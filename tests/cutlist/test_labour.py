"""Material and labour weighed together, against every way to share out the sides in small cases."""

from __future__ import annotations

import dataclasses
from functools import cache
from itertools import combinations
from random import Random

import pytest
from strip_cases import BARE_RULES, INCH, plain_strips, side, stick

from edgewright.cutlist.check_bounds import recompute_bounds
from edgewright.cutlist.model import RingSide, Stick
from edgewright.cutlist.solve import solve_strips
from edgewright.cutlist.stages import staged

SPLICE, STICK, STRIP = LABOUR = (7, 3, 2)
RULES = dataclasses.replace(BARE_RULES, kerf_ticks=1, labour_cents=LABOUR)


@cache
def fewest_splices(sides: tuple[int, ...], lanes: tuple[int, ...]) -> int | None:
    """Fewest splices (at most one a side) that cover the sides from all of these lanes; kerf 1."""
    if not sides:
        return 0
    first, rest = sides[0], sides[1:]
    found = []
    for i, lane in enumerate(lanes):
        others = (*lanes[:i], *lanes[i + 1 :])
        if lane + 1 >= first + 1:
            found.append((0, tuple(sorted((*others, lane - first - 1)))))
        for j in range(len(others)):
            for part in range(1, first):
                one, two = lane - part - 1, others[j] - (first - part) - 1
                if one >= -1 and two >= -1:
                    found.append((1, tuple(sorted((*others[:j], *others[j + 1 :], one, two)))))
    best = [
        spent + more
        for spent, left in dict.fromkeys(found)
        if (more := fewest_splices(rest, left)) is not None
    ]
    return min(best, default=None)


def least_cost(sides: tuple[RingSide, ...], sticks: tuple[Stick, ...]) -> int | None:
    """Every choice of lanes: their sticks' prices, and labour for sticks, strips and splices."""
    lanes = [(lane, owner) for owner in sticks for lane in owner.lanes]
    lengths = tuple(side.length_ticks for side in sides)
    best: int | None = None
    for count in range(1, len(lanes) + 1):
        for chosen in combinations(lanes, count):
            splices = fewest_splices(lengths, tuple(sorted(lane.length_ticks for lane, _ in chosen)))
            if splices is None:
                continue
            owners = {owner.id: owner.price_cents for _, owner in chosen}
            cost = sum(owners.values()) + STICK * len(owners) + STRIP * count + SPLICE * splices
            best = cost if best is None else min(best, cost)
    return best


@pytest.mark.property
def test_least_cost_with_labour_as_by_trying_everything() -> None:
    proven = solved = 0
    for number in range(120):
        pick = Random(number)
        sides = tuple(
            side(f"{name}1", pick.randint(3, 8), splices=1) for name in "NESW"[: pick.randint(1, 3)]
        )
        sticks = tuple(
            stick(
                f"s{n}",
                *[pick.randint(3, 9)] * pick.randint(1, 2),
                price=pick.choice([None, None, 4, 9]),
            )
            for n in range(pick.randint(1, 3))
        )
        truth = least_cost(sides, sticks)
        layout = solve_strips(sides, sticks, RULES, INCH)
        assert (layout is None) == (truth is None), number
        if layout is None:
            continue
        solved += 1
        value = dict(staged(sides, sticks, layout.pieces, RULES))["cost with labour"]
        assert value == truth, number
        bound, _ = recompute_bounds(plain_strips(sides, sticks, layout.pieces, RULES))["cost with labour"]
        assert bound is not None
        assert bound <= value
        proven += bound == value
    assert solved >= 60
    assert proven == solved


@pytest.mark.example
def test_a_dear_splice_is_bought_off_and_a_cheap_one_is_not() -> None:
    """72 from own lanes of 40 takes a splice; a board of 80 costs 5.00 and spares it, one strip and one stick."""
    sides = (side("N1", 72 * INCH),)
    sticks = (stick("own a", 40 * INCH), stick("own b", 40 * INCH), stick("board", 80 * INCH, price=500))
    for splice_cents, strips in ((0, {"own a.1", "own b.1"}), (2000, {"board.1"})):
        rules = dataclasses.replace(RULES, kerf_ticks=INCH // 8, labour_cents=(splice_cents, 0, 0))
        layout = solve_strips(sides, sticks, rules, INCH)
        assert layout is not None
        assert {piece.lane_id for piece in layout.pieces} == strips


@pytest.mark.example
def test_no_effort_finds_nothing_and_says_so_at_once() -> None:
    sides = (side("N1", 72 * INCH),)
    own = (stick("own", 80 * INCH),)
    assert solve_strips(sides, own, dataclasses.replace(BARE_RULES, effort_percent=0), INCH) is None
    assert solve_strips(sides, own, dataclasses.replace(BARE_RULES, effort_percent=1), INCH) is not None
