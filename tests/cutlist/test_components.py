from __future__ import annotations

import pytest
from strip_cases import EIGHTH, INCH, side, stick

from edgewright.cutlist.columns import Columns
from edgewright.cutlist.components import Component, Pool, can_cover, components, pool_of
from edgewright.cutlist.model import RingSide, Stick


def pool(sides: list[RingSide], sticks: list[Stick], min_piece: int = 8 * INCH) -> Pool:
    return pool_of(sides, sticks, joint=EIGHTH, kerf=EIGHTH, min_piece=min_piece)


def found(of: Pool, limit: int = 9) -> set[tuple[tuple[int, ...], tuple[int, ...]]]:
    listed, complete = components(of, splices_allowed=True, work_limit=10_000, splice_limit=limit)
    assert complete
    assert len({(c.sides, c.lanes) for c in listed}) == len(listed)
    return {(c.sides, c.lanes) for c in listed}


@pytest.mark.example
def test_like_sides_and_like_sticks_are_counted() -> None:
    sides = [side("N1", 72 * INCH), side("E1", 32 * INCH), side("S1", 72 * INCH), side("W1", 32 * INCH)]
    seam = side("S1", 72 * INCH, seams=(40 * INCH,))
    of = pool(
        sides, [stick("a", 80 * INCH, 80 * INCH), stick("b", 80 * INCH, 80 * INCH), stick("c", 80 * INCH)]
    )
    assert {(t.length, len(t.members)) for t in of.sides} == {(72 * INCH, 2), (32 * INCH, 2)}
    assert sorted(len(s.members) for s in of.sticks) == [1, 2]
    assert sorted(of.available(t) for t in range(len(of.lanes))) == [1, 4]
    # a seam, a price or another lane makes a difference
    assert len(pool([*sides[:2], seam], []).sides) == 3
    assert len(pool(sides, [stick("a", 80 * INCH), stick("b", 80 * INCH, price=3)]).sticks) == 2


@pytest.mark.example
def test_one_lane_holds_its_sides_with_a_kerf_between() -> None:
    two = [side("E1", 36 * INCH, splices=0), side("W1", 36 * INCH, splices=0)]
    assert found(pool(two, [stick("a", 72 * INCH + EIGHTH)])) == {((1,), (1,)), ((2,), (1,))}
    assert found(pool(two, [stick("a", 72 * INCH)])) == {((1,), (1,))}


@pytest.mark.example
def test_no_lane_to_spare_and_nothing_that_falls_into_two() -> None:
    """Two sides of 72 from lanes of 80: each from one. From lanes of 50 each takes two, and both together three."""
    two = [side("N1", 72 * INCH), side("S1", 72 * INCH)]
    assert found(pool(two, [stick("a", 80 * INCH, 80 * INCH)])) == {((1,), (1,))}
    assert found(pool(two, [stick("a", *[50 * INCH] * 4)])) == {((1,), (2,)), ((2,), (3,))}
    assert found(pool(two, [stick("a", *[50 * INCH] * 4)]), limit=1) == {((1,), (2,))}


@pytest.mark.example
def test_each_side_must_be_in_reach_of_its_splices() -> None:
    """100 with one splice takes two lanes: 60 + 40 reach it, 40 + 40 do not, however many more there are."""
    of = pool([side("N1", 100 * INCH), side("E1", 20 * INCH)], [stick("a", 60 * INCH, *[40 * INCH] * 4)])
    longest_first = [lane.length for lane in of.lanes]
    assert longest_first == [60 * INCH, 40 * INCH]
    long = tuple(int(t.length == 100 * INCH) for t in of.sides)
    assert can_cover(of, long, (1, 1))
    assert not can_cover(of, long, (0, 4))
    assert can_cover(of, tuple(1 - n for n in long), (0, 1))


@pytest.mark.example
def test_a_side_too_short_for_two_pieces_is_not_spliced() -> None:
    assert pool([side("E1", 15 * INCH)], []).sides[0].max_splices == 0
    assert pool([side("E1", 16 * INCH)], []).sides[0].max_splices == 1


@pytest.mark.example
def test_what_replaces_a_component_that_broke_a_rule() -> None:
    """One side from two lanes of three: refused, it comes back with the third lane, and is not listed again."""
    of = pool([side("N1", 72 * INCH, splices=2)], [stick("a", *[40 * INCH] * 3)])
    columns = Columns(of, splices_allowed=True)
    pair = Component((1,), (2,), 8 * INCH)
    columns.add((pair,))
    columns.refuse({0: 1}, {0})
    assert columns.now == [Component((1,), (3,), 48 * INCH)]
    columns.add((pair,))
    assert columns.now == [Component((1,), (3,), 48 * INCH)]
    strict = Columns(of, splices_allowed=False)
    strict.add((pair,))
    strict.refuse({0: 1}, {0})
    assert strict.now == []


@pytest.mark.example
def test_a_combination_is_forbidden_and_its_parts_are_not() -> None:
    of = pool([side("N1", 72 * INCH), side("S1", 72 * INCH)], [stick("a", *[40 * INCH] * 4)])
    columns = Columns(of, splices_allowed=True)
    columns.add((Component((1,), (2,), 8 * INCH),))
    columns.refuse({0: 2}, set())
    assert columns.now[0] == Component((1,), (2,), 8 * INCH)
    assert columns.forbidden == [{0: 2}]
