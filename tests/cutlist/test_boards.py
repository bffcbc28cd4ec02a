from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewright.cutlist.boards import Board, board_sticks

INCH = 8128


@pytest.mark.example
def test_one_kerf_between_lanes_and_none_behind_the_last() -> None:
    """Strips of 2 and kerf 1/8: three take 6 1/4 exactly; a tick less leaves two."""
    for width, lanes in ((int(6.25 * INCH), 3), (int(6.25 * INCH) - 1, 2), (2 * INCH, 1)):
        (stick,) = board_sticks((Board("b", 48 * INCH, width, 0, 1, None),), 2 * INCH, INCH // 8, 200 * INCH)
        assert len(stick.lanes) == lanes
        assert {lane.length_ticks for lane in stick.lanes} == {48 * INCH}
    assert board_sticks((Board("b", 48 * INCH, 2 * INCH - 1, 0, 1, None),), 2 * INCH, INCH // 8, INCH) == ()


@pytest.mark.example
def test_both_long_edges_are_cleaned_first() -> None:
    """4 1/4 less twice 1/4 is 3 3/4: one strip of 2, not two."""
    wide = int(4.25 * INCH)
    (clean,) = board_sticks((Board("b", 48 * INCH, wide, 0, 1, None),), 2 * INCH, INCH // 8, INCH)
    (old,) = board_sticks((Board("b", 48 * INCH, wide, INCH // 4, 1, None),), 2 * INCH, INCH // 8, INCH)
    assert (len(clean.lanes), len(old.lanes)) == (2, 1)


@pytest.mark.example
def test_a_count_limits_and_no_count_does_not() -> None:
    need = 500 * INCH
    three = board_sticks((Board("b", 48 * INCH, 2 * INCH, 0, 3, 500),), 2 * INCH, INCH // 8, need)
    assert [s.id for s in three] == ["b 1", "b 2", "b 3"]
    assert {(s.source, s.price_cents) for s in three} == {("for sale", 500)}
    many = board_sticks((Board("b", 48 * INCH, 2 * INCH, 0, None, 500),), 2 * INCH, INCH // 8, need)
    assert sum(lane.length_ticks for s in many for lane in s.lanes) >= need
    (one,) = board_sticks((Board("b", 48 * INCH, 2 * INCH, 0, 1, None),), 2 * INCH, INCH // 8, need)
    assert (one.id, one.source, one.price_cents) == ("b", "on hand", 0)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=200)
@given(st.integers(1, 400), st.integers(20, 90), st.integers(1, 9), st.integers(0, 20))
def test_as_many_lanes_as_fit_and_no_more(width: int, strip: int, kerf: int, edge: int) -> None:
    """Counted by laying strips and kerfs one after the other into the clean width."""
    clean, lanes, at = width - 2 * edge, 0, 0
    while at + strip <= clean:
        lanes, at = lanes + 1, at + strip + kerf
    sticks = board_sticks((Board("b", 100, width, edge, 1, None),), strip, kerf, 50)
    assert sum(len(s.lanes) for s in sticks) == lanes
