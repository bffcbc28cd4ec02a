"""Orders of cuts and choices of side."""

from __future__ import annotations

import math

import pytest
from region_cases import polygon

from edgewright.design.outline import rectangle
from edgewright.design.region import Region
from edgewright.design.trims.cut_order import (
    compare_orders,
    compare_sides,
    is_rip,
    order_by_rips,
    ring_length,
    saw_in_order,
    widest_strip,
)
from edgewright.design.trims.keep_line import off_edge, parallel_to

INCH = 25.4
TOP = Region(rectangle(1000, 600))
CUTS = [off_edge(TOP, 1, 80, 3, "east"), off_edge(TOP, 2, 50, 3, "north"), off_edge(TOP, 0, 50, 3, "south")]


@pytest.mark.example
def test_rips_come_first_at_full_length():
    assert [is_rip(TOP, one) for one in CUTS] == [False, True, True]
    assert order_by_rips(TOP, CUTS) == (1, 2, 0)

    _, offcuts = saw_in_order(TOP, CUTS, (1, 2, 0))
    assert [piece.length for piece in offcuts] == pytest.approx([1000, 1000, 500])
    _, offcuts = saw_in_order(TOP, CUTS, (0, 1, 2))
    assert [piece.length for piece in offcuts] == pytest.approx([600, 920, 920])


@pytest.mark.example
def test_all_orders_by_the_length_they_give():
    table = compare_orders(TOP, CUTS, 47, 3)

    # a strip of 47 is one lane of each side's 47 and of the end's 77
    expected = {
        (0, 1, 2): 600 + 920 + 920,
        (0, 2, 1): 600 + 920 + 920,
        (1, 0, 2): 1000 + 550 + 920,
        (2, 0, 1): 1000 + 550 + 920,
        (1, 2, 0): 1000 + 1000 + 500,
        (2, 1, 0): 1000 + 1000 + 500,
    }
    assert {row.numbers: row.total for row in table.rows} == pytest.approx(expected)
    assert table.rows[0].numbers in {(1, 2, 0), (2, 1, 0)}
    assert table.complete
    assert all(row.kept.area == pytest.approx(920 * 500) for row in table.rows)
    assert not compare_orders(TOP, CUTS, 47, 3, limit=2).complete


@pytest.mark.example
def test_an_order_that_cannot_be_sawn_is_told():
    # once 400 are off the north, a keep line 50 below its old edge has no wood beyond it
    cuts = [off_edge(TOP, 2, 400, 3), off_edge(TOP, 2, 50, 3)]
    table = compare_orders(TOP, cuts, 20, 3)

    assert [row.numbers for row in table.rows] == [(1, 0)]
    ((numbers, why),) = table.refused
    assert numbers == (0, 1)
    assert "misses the top by 350 mm" in why


@pytest.mark.example
@pytest.mark.parametrize(
    ("narrow_by", "one_side", "both_sides"),
    [
        # narrowing 72 x 42 in, kerf 1/8: with n lanes the strip is (W + k)/n - k, W + k the trim of a side
        (3, 3 / 4 - 1 / 8, 1.5 / 2 - 1 / 8),
        (4, 4 / 3 - 1 / 8, 2 / 2 - 1 / 8),
        (5, 5 / 3 - 1 / 8, 2.5 / 2 - 1 / 8),
        (6, 6 / 3 - 1 / 8, 3 / 2 - 1 / 8),
        (8, 8 / 3 - 1 / 8, 4 / 2 - 1 / 8),
        (10, 10 / 3 - 1 / 8, 5 / 2 - 1 / 8),
        (12, 12 / 3 - 1 / 8, 6 / 2 - 1 / 8),
    ],
)
def test_widest_strip_one_side_against_both(narrow_by, one_side, both_sides):
    top = Region(rectangle(72 * INCH, 42 * INCH))
    south, north, both = compare_sides(top, (0, 2), narrow_by * INCH, 20, INCH / 8)

    assert south.order.widest / INCH == pytest.approx(one_side, abs=1e-6)
    assert north.order.widest / INCH == pytest.approx(one_side, abs=1e-6)
    assert both.order.widest / INCH == pytest.approx(both_sides, abs=1e-6)
    assert both.amounts == pytest.approx((narrow_by * INCH / 2,) * 2)


@pytest.mark.example
def test_cleaning_half_an_inch_off_the_old_edges():
    # 6 in off 72 x 42: 5 1/2 clean with its kerf make 3 lanes on one side, 2 1/2 make 2 on each of two
    top = Region(rectangle(72 * INCH, 42 * INCH))
    south, _, both = compare_sides(top, (0, 2), 6 * INCH, INCH, INCH / 8, dirty_depth=INCH / 2)

    assert south.order.widest / INCH == pytest.approx(5.5 / 3 - 1 / 8, abs=1e-6)
    assert both.order.widest / INCH == pytest.approx(2.5 / 2 - 1 / 8, abs=1e-6)
    # both ends of a lane are old too
    assert south.order.lanes == pytest.approx((71 * INCH,) * 4)
    assert south.order.offcuts[0].length == pytest.approx(72 * INCH)


@pytest.mark.example
def test_widest_strip_of_a_taper_lies_between_its_ends():
    top = Region(polygon((0, 0), (1000, 0), (1000, 640), (0, 600)))
    _, offcuts = saw_in_order(top, [parallel_to(top, 0, 560, 0)], (0,))

    # 40 wide at the west end, 80 at the east end: a strip w wide is 1000 - 25 (w - 40) long
    assert widest_strip(offcuts, 0, lambda _: 700.0) == pytest.approx(52, abs=1e-6)
    assert widest_strip(offcuts, 0, lambda _: 1000.0) == pytest.approx(40, abs=1e-6)
    # two lanes of w: 1000 and 1000 - 25 (2w - 40)
    assert widest_strip(offcuts, 0, lambda _: 1500.0) == pytest.approx(30, abs=1e-6)
    assert widest_strip(offcuts, 0, lambda _: 1e6) == 0
    assert widest_strip((), 0, lambda _: 1.0) == 0


@pytest.mark.example
def test_ring_length_of_a_rectangle_is_that_of_butt_joints():
    need = ring_length(TOP)

    assert need(40) == pytest.approx(2 * 1000 + 2 * (600 - 80))
    # a strip as wide as the whole top covers it once
    assert need(600) == pytest.approx(1000)
    disc_like = Region(rectangle(600, 600, (300, 300, 300, 300)))
    assert ring_length(disc_like)(50) == pytest.approx(math.pi * (300**2 - 250**2) / 50)
