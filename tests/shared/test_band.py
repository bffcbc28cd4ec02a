"""Bands: extremes add up, likely lies inside, expected is always covered."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewright.band import Band, likely_band, total_band
from edgewright.errors import InputError

figures = st.floats(-1e6, 1e6)
bands = st.lists(figures, min_size=3, max_size=3).map(lambda three: Band(*sorted(three)))
inside = st.floats(0, 1)


def pick(band, share):
    return min(max(band.low + share * (band.high - band.low), band.low), band.high)


@pytest.mark.example
@pytest.mark.parametrize("three", [(2, 1, 3), (1, 4, 3), (3, 3, 2), (math.nan, 1, 2), (0, 1, math.inf)])
def test_a_band_out_of_order_is_refused(three):
    with pytest.raises(InputError, match="is out of order"):
        Band(*three)


@pytest.mark.example
def test_sums_and_products_take_the_extremes():
    assert Band(1, 2, 3) + Band(10, 20, 30) == Band(11, 22, 33)
    assert Band(1, 2, 3) * Band(10, 20, 30) == Band(10, 40, 90)
    assert 2 * Band(1, 2, 3) == Band(1, 2, 3) * 2 == Band(2, 4, 6)
    # -3 × 30 is the least, -1 × 10 the most
    assert Band(-3, -2, -1) * Band(10, 20, 30) == Band(-90, -40, -10)
    assert total_band(()) == Band.exact(0)


@pytest.mark.example
def test_one_uniform_figure_is_likely_within_nearly_all_of_its_range():
    # 0..12: σ = 12/√12 = √12, so 6 ± 1.645 × 3.4641 = 0.3015 .. 11.6985
    low, high = likely_band([Band.between(0, 12)])

    assert (low, high) == pytest.approx((0.3015, 11.6985), abs=1e-4)


@pytest.mark.example
def test_four_alike_average_out_to_half_the_relative_width():
    # four of 0..12: σ doubles while the sum is four times as wide
    low, high = likely_band([Band.between(0, 12)] * 4)

    assert (low, high) == pytest.approx((24 - 2 * 5.69846, 24 + 2 * 5.69846), abs=1e-4)


@pytest.mark.example
def test_likely_is_clipped_to_what_is_possible():
    # the expected figure sits at the low end: 0 - 0.95 × 6 is impossible
    assert likely_band([Band(0, 0, 12)])[0] == 0


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=80)
@given(bands, bands, inside, inside)
def test_whatever_the_parts_are_the_sum_and_product_hold_them(a, b, share_a, share_b):
    x, y = pick(a, share_a), pick(b, share_b)

    assert (a + b).low <= x + y <= (a + b).high
    assert (a * b).low <= x * y <= (a * b).high


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=80)
@given(st.lists(bands, max_size=8))
def test_likely_lies_between_the_extremes_and_holds_what_is_expected(parts):
    total = total_band(parts)
    low, high = likely_band(parts)

    assert total.low <= low <= total.expected <= high <= total.high


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=60)
@given(st.lists(st.tuples(st.floats(0, 100), st.floats(1, 100)), min_size=2, max_size=8))
def test_independent_figures_are_likely_in_less_than_they_can_reach(pairs):
    parts = [Band.between(low, low + width) for low, width in pairs]
    low, high = likely_band(parts)
    moving = likely_band([total_band(parts)])

    assert high - low < moving[1] - moving[0] < total_band(parts).width
