"""Passes of the router: how many, how deep, and how much wood each takes."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewright.design.forms import bevel, chamfer, cove, no_form, ogee, round_over
from edgewright.design.passes import router_passes
from edgewright.errors import GeometryError

INCH = 25.4


@pytest.mark.example
@pytest.mark.parametrize(
    ("form", "depths"),
    [
        (no_form(), []),
        (round_over(3 / 8 * INCH), [3 / 8]),
        (round_over(1 / 2 * INCH), [1 / 4, 1 / 2]),
        (round_over(3 / 4 * INCH), [3 / 8, 3 / 4]),
        (round_over(1.0 * INCH), [1 / 3, 2 / 3, 1]),
        # shallow, but it reaches far in
        (bevel(1.0 * INCH, 1 / 4 * INCH), [1 / 8, 1 / 4]),
    ],
)
def test_forms_over_three_eighths_take_two_passes_or_more(form, depths):
    assert [one.depth / INCH for one in router_passes(form)] == pytest.approx(depths)


@pytest.mark.example
def test_a_chamfer_lowered_half_way_takes_a_quarter():
    first, second = router_passes(chamfer(12.0))
    assert (first.depth, second.depth) == (6.0, 12.0)
    assert first.section == pytest.approx(18.0)
    assert second.section == pytest.approx(72.0 - 18.0)
    assert (first.share, second.share) == (pytest.approx(0.25), pytest.approx(0.75))


@pytest.mark.example
def test_a_round_over_lowered_half_way():
    # what lies outside the circle and below half the radius: r²/2 (1 - cos 30°) strip less the circle's part
    r = 20.0
    first, *_ = router_passes(round_over(r), Fraction(10))
    outer = r * (1 - math.cos(math.pi / 6))
    # ∫ (z - r/2) dd over 0..outer by the circle about (r, r)
    taken = outer * r / 2 - (
        r * r * (math.pi / 6) / 2 - r * r * math.sin(math.pi / 6) * math.cos(math.pi / 6) / 2
    )
    assert first.section == pytest.approx(taken, rel=1e-9)


@pytest.mark.example
def test_settings_lie_on_the_bench_grid_but_the_last_is_the_form():
    settings_ = [one.depth for one in router_passes(round_over(15.0), Fraction(10), grid=1.0)]
    assert settings_ == [7.0, 15.0]
    # 6 would leave 10.5 for the second pass, 12 is too much for the first: the setting stays off the grid
    assert [one.depth for one in router_passes(round_over(16.5), Fraction(10), grid=6.0)] == [8.25, 16.5]


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=80)
@given(
    st.one_of(
        st.builds(round_over, st.floats(1, 50)),
        st.builds(chamfer, st.floats(1, 50)),
        st.builds(cove, st.floats(1, 50)),
        st.builds(ogee, st.floats(1, 20), st.floats(0, 5)),
        st.builds(bevel, st.floats(1, 50), st.floats(1, 50)),
    ),
    st.integers(2, 15),
    st.sampled_from([0.0, 0.5, 0.79375]),
)
def test_no_pass_is_too_deep_and_together_they_take_the_form(form, most, grid):
    passes = router_passes(form, Fraction(most), grid)
    before = 0.0
    for one in passes:
        assert before < one.depth <= before + most + 1e-6
        assert one.section > 0
        before = one.depth
    assert before == form.depth
    assert sum(one.share for one in passes) == pytest.approx(1)
    assert [one.number for one in passes] == list(range(1, len(passes) + 1))


@pytest.mark.example
def test_a_largest_cut_of_nothing_is_refused():
    with pytest.raises(GeometryError, match="largest cut is 0 mm"):
        router_passes(chamfer(3.0), Fraction(0))
