from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewright.compass import PerSide
from edgewright.cutlist.model import Lane
from edgewright.cutlist.offcuts import OffcutStock, corner_loss, offcut_sticks, rip_sides

INCH = 8128
NONE = PerSide(0, 0, 0, 0)


def stock(
    amounts: PerSide[int],
    *,
    old: tuple[int, int] = (72 * INCH, 42 * INCH),
    finish: PerSide[int] = NONE,
    radius: int = 0,
    pitch: int = 2 * INCH,
) -> OffcutStock:
    finished = (old[0] - amounts.east - amounts.west, old[1] - amounts.north - amounts.south)
    return OffcutStock(old, finished, amounts, finish, radius, INCH // 8, pitch)


def lanes(of: OffcutStock, side: str, sliver: int = 0) -> tuple[Lane, ...]:
    return next(s.lanes for s in offcut_sticks(of, sliver) if s.side == side)


@pytest.mark.example
def test_rips_keep_the_old_length_and_crosscuts_have_the_finished_width() -> None:
    of = stock(PerSide(4 * INCH, 4 * INCH, 0, 0))
    assert [n.length_ticks for n in lanes(of, "north")] == [72 * INCH] * 2
    assert [n.length_ticks for n in lanes(of, "east")] == [38 * INCH] * 2
    tall = stock(PerSide(4 * INCH, 4 * INCH, 0, 0), old=(42 * INCH, 72 * INCH))
    assert rip_sides(tall.old) == ("east", "west")
    assert [n.length_ticks for n in lanes(tall, "east")] == [72 * INCH] * 2
    assert [n.length_ticks for n in lanes(tall, "north")] == [38 * INCH] * 2


@pytest.mark.example
def test_a_side_that_is_cut_has_its_offcut_even_without_a_lane() -> None:
    (one,) = offcut_sticks(stock(PerSide(INCH, 0, 0, 0)), 0)
    assert (one.id, one.lanes, one.width_ticks) == ("offcut north", (), INCH - INCH // 8)


@pytest.mark.example
def test_the_old_finish_counts_across_and_at_the_ends() -> None:
    """6 less 1/2 gives two of pitch 2; the ends lose 1/4 and 3/8 where they stay finished."""
    finish = PerSide(INCH // 2, INCH * 3 // 8, 0, INCH // 4)
    north = lanes(stock(PerSide(6 * INCH, 0, 0, 0), finish=finish), "north")
    assert [n.length_ticks for n in north] == [72 * INCH - INCH * 5 // 8] * 2
    assert {(n.trim_start_ticks, n.trim_end_ticks) for n in north} == {(INCH // 4, INCH * 3 // 8)}
    # where the east end is cut off an inch, nothing of it is left on a crosscut's lane, but rips came before
    both = stock(PerSide(6 * INCH, 4 * INCH, 0, 0), finish=PerSide(INCH // 2, 0, INCH, 0))
    assert {(n.trim_start_ticks, n.trim_end_ticks) for n in lanes(both, "east")} == {(INCH, 0)}


@pytest.mark.example
def test_an_old_round_corner_shortens_the_outermost_lanes() -> None:
    """Radius 5: at depth u the wood begins 5 - sqrt(25 - (5 - u)²) from the end: 5 at 0, 2 at 1, 1 at 2."""
    assert corner_loss(0, 0, 0, 5 * INCH) == 5 * INCH
    assert corner_loss(1 * INCH, 0, 0, 5 * INCH) == 2 * INCH  # 5 - sqrt(25 - 16)
    assert corner_loss(2 * INCH, 0, 0, 5 * INCH) == 1 * INCH  # 5 - sqrt(25 - 9)
    assert corner_loss(5 * INCH, 0, 0, 5 * INCH) == 0
    # finished 1 deep all round: what is clean begins behind an arc of 4, so at depth 1 it is 5 from the end
    assert corner_loss(1 * INCH, 1 * INCH, 1 * INCH, 5 * INCH) == 5 * INCH
    assert corner_loss(5 * INCH, 1 * INCH, 1 * INCH, 5 * INCH) == 1 * INCH
    # three lanes of pitch 2 in 6: depths 0, 2 and 4 from the old edge, both ends
    of = stock(PerSide(6 * INCH, 0, 0, 0), radius=5 * INCH)
    inner, middle, outer = lanes(of, "north")
    assert outer.length_ticks == 62 * INCH
    assert middle.length_ticks == 70 * INCH
    at_four = math.ceil(5 * INCH - math.sqrt(24) * INCH)  # 5 - sqrt(25 - 1)
    assert inner.length_ticks == 72 * INCH - 2 * at_four
    # a left-over of 1 lies outermost, so all depths are 1 more
    of = stock(PerSide(7 * INCH, 0, 0, 0), radius=5 * INCH)
    assert lanes(of, "north")[2].length_ticks == 68 * INCH


@pytest.mark.example
def test_a_sliver_stays_on_the_outermost_strip() -> None:
    """6 1/16 in three of pitch 2: the 1/16 stays on the third if that is allowed, and never on a finished edge."""
    amounts = PerSide(6 * INCH + 508, 0, 0, 0)
    assert [n.width_ticks for n in lanes(stock(amounts), "north", 508)] == [15240, 15240, 15240 + 508]
    assert [n.width_ticks for n in lanes(stock(amounts), "north", 507)] == [15240] * 3
    finish = PerSide(508, 0, 0, 0)
    assert [n.width_ticks for n in lanes(stock(amounts, finish=finish), "north", 508)] == [15240] * 3


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=300)
@given(st.integers(0, 9000), st.integers(0, 3000), st.integers(0, 3000), st.integers(0, 20000))
def test_the_loss_clears_the_corner_and_no_more(depth: int, side: int, end: int, radius: int) -> None:
    """The lane's outer corner lies on clean wood: inside the arc of the clean outline, or past the corner."""
    depth += side
    loss = corner_loss(depth, side, end, radius)
    finish = max(side, end)
    inner = radius - finish
    assert loss >= end
    if inner > 0 and depth - finish < inner and loss < radius:
        # from the arc's centre (radius, radius) to the outer corner of the lane
        depth = max(depth, finish)
        assert math.hypot(radius - loss, radius - depth) <= inner + 1e-6
        if loss > end:
            assert math.hypot(radius - (loss - 1), radius - depth) > inner - 1e-6
