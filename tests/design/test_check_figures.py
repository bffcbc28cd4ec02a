"""Figures of the bench checks: bounds rounded to the safe side, trade figures in whole millimetres."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewright.design.check_figures import at_least, at_most, shown, trade_least, trade_most
from edgewright.units import read_length


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=80)
@given(ticks=st.integers(0, 200_000), units=st.sampled_from(["in", "mm"]))
def test_what_is_shown_of_a_bound_keeps_it(ticks, units):
    step = 127 if units == "in" else 32
    least, most = (
        read_length(text, None).exact_mm * 320 for text in (at_least(ticks, units), at_most(ticks, units))
    )
    assert ticks <= least < ticks + step
    assert ticks - step < most <= ticks


@pytest.mark.example
def test_trade_figures_of_a_metric_job():
    # 34 in is 863.6 mm
    assert (trade_least(863.6, "mm"), trade_most(863.6, "mm")) == ("864 mm", "863 mm")
    assert trade_least(300.0, "mm") == trade_most(300.0, "mm") == "300 mm"
    assert trade_least(863.6, "in") == trade_most(863.6, "in") == "34 in"


@pytest.mark.example
def test_a_computed_length_shows_a_tenth_of_a_millimetre():
    assert shown(11.58374, "mm") == "~11.6 mm"
    assert shown(18.25, "mm") == "18.25 mm"
    assert shown(25.4 / 64, "in") == "1/64 in"
    assert shown(25.4 / 65, "in") == "~1/64 in"
