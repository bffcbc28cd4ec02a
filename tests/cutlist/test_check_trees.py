"""Whether a tree of pieces exists, against every way to share out every side, tick by tick."""

from __future__ import annotations

from itertools import product
from random import Random

import pytest

from edgewright.cutlist.check_search import Search, Work
from edgewright.cutlist.check_trees import tree_exists


def shares(length: int, lanes: int) -> list[tuple[int, ...]]:
    return [share for share in product(range(length + 1), repeat=lanes) if sum(share) == length]


def by_hand(sides: list[tuple[int, int]], lanes: list[int], kerf: int, least: int) -> bool:
    """Some sharing out uses every lane, hangs together, has one splice less than lanes, and no short piece."""
    for rows in product(*(shares(length, len(lanes)) for length, _ in sides)):
        pieces = [[n for n in row if n] for row in rows]
        if any(len(row) - 1 > most for row, (_, most) in zip(pieces, sides, strict=True)):
            continue
        if any(n < least for row in pieces for n in row if len(row) > 1):
            continue
        if sum(map(len, pieces)) != len(sides) + len(lanes) - 1:
            continue
        columns = list(zip(*rows, strict=True))
        if any(
            sum(n + kerf for n in column if n) > lane + kerf or not any(column)
            for column, lane in zip(columns, lanes, strict=True)
        ):
            continue
        if connected(rows, len(lanes)):
            return True
    return False


def connected(rows: tuple[tuple[int, ...], ...], lanes: int) -> bool:
    seen, to_see = {0}, [0]
    while to_see:
        lane = to_see.pop()
        for row in rows:
            if row[lane]:
                for other in range(lanes):
                    if row[other] and other not in seen:
                        seen.add(other)
                        to_see.append(other)
    return len(seen) == lanes and all(any(row) for row in rows)


@pytest.mark.property
def test_a_tree_is_found_exactly_where_there_is_one() -> None:
    found = 0
    for number in range(150):
        pick = Random(number)
        lanes = [pick.randint(3, 9) for _ in range(pick.randint(2, 3))]
        sides = [(pick.randint(2, 9), pick.randint(0, 2)) for _ in range(pick.randint(1, 3))]
        kerf, least = pick.randint(0, 1), pick.randint(1, 3)
        truth = by_hand(sides, lanes, kerf, least)
        assert tree_exists(sides, lanes, kerf, least, lambda: None) == truth, (sides, lanes, kerf, least)
        found += truth
    assert 25 <= found <= 125


@pytest.mark.example
def test_two_long_sides_leave_too_little_of_the_longer_strip() -> None:
    """87 1/4 twice from 91 1/4 and 85: long enough with their kerf, but beside a whole side only 3 7/8 are left."""
    sides, lanes = [(698, 1), (698, 1)], [730, 680]  # in eighths of an inch
    assert sum(lanes) >= 2 * 698 + 1
    assert not tree_exists(sides, lanes, 1, 64, lambda: None)
    assert tree_exists(sides, lanes, 1, 31, lambda: None)


@pytest.mark.example
def test_the_search_counts_on_a_loop_where_no_tree_will_do() -> None:
    """With one splice nothing; with two, one more than a tree has, it is let pass."""
    sides, lanes = [(698, 1), (698, 1)], [730, 681]
    assert Search(sides, 1, Work(10_000)).exists(lanes, 1)
    assert not Search(sides, 1, Work(10_000), 64).exists(lanes, 1)
    assert Search(sides, 1, Work(10_000), 64).exists(lanes, 2)
