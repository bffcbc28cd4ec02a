"""Rows of blanks: what is counted together and how it adds up."""

import pytest
from region_cases import circle
from ring_cases import rules

from edgewright.design.buildup.ring_pieces import ring_pieces
from edgewright.design.buildup.ring_stock import to_be_bought
from edgewright.design.outline import rectangle


@pytest.mark.example
def test_strips_of_a_rectangle():
    """1200 × 800, strips of 40, one layer: two of 1200 and two of 720."""
    made = ring_pieces(rectangle(1200, 800), ("south", "east", "north", "west"), rules(layers=1, proud=0))
    long, short = to_be_bought(made, 3.2, "mm")
    assert (long.count, long.length, long.width, long.thickness) == (2, 1200, 40, 18)
    assert (short.count, short.length, short.piece_ids) == (2, 720, ("1.2", "1.4"))
    assert long.running_length == pytest.approx(2 * 1203.2)
    assert short.board_area == pytest.approx(2 * 723.2 * 43.2)


@pytest.mark.example
def test_equal_segments_are_one_row_rounded_up():
    """Fourteen segments of a 1200 round in each of two layers; sizes on the half millimetre, never smaller."""
    made = ring_pieces(circle(0, 0, 600, hole=False), ("a", "b"), rules(segments_per_circle=14))
    (row,) = to_be_bought(made, 3.2, "mm")
    assert (row.kind, row.count) == ("segment", 28)
    for size, blank in ((row.length, made[0].blank_length), (row.width, made[0].blank_width)):
        assert 0 <= size - blank < 0.5
        assert (2 * size) == int(2 * size)
    (inch,) = to_be_bought(made, 3.2, "in")
    assert 0 <= inch.length - made[0].blank_length < 25.4 / 32
    assert inch.length / 25.4 * 32 == pytest.approx(round(inch.length / 25.4 * 32))
