"""Adaptive quadrature: exact where its rules are, honest about its error elsewhere."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewright.design.quadrature import Integral, integrate


@pytest.mark.reference
def test_fifteen_points_are_exact_up_to_degree_22_and_seven_up_to_13():
    """Kronrod's rule of 15 points; a wrong digit in a node or weight would show."""
    for degree in range(23):
        exact = 2 / (degree + 1) if degree % 2 == 0 else 0.0
        found = integrate(lambda x, degree=degree: x**degree, -1, 1, pieces=1)
        assert found.value == pytest.approx(exact, abs=2e-15)
        if degree <= 13:
            # both rules agree, so nothing but rounding is left
            assert found.error < 2e-14
    # neither rule knows x^24 to the last digit
    assert abs(integrate(lambda x: x**24, -1, 1, pieces=1).value - 2 / 25) > 1e-9
    assert integrate(lambda x: x**14, -1, 1, pieces=1).error > 1e-6


@pytest.mark.example
def test_a_root_is_integrated_by_halving_towards_it():
    found = integrate(math.sqrt, 0, 1)
    assert found.value == pytest.approx(2 / 3, abs=1e-12)
    assert abs(found.value - 2 / 3) <= found.error <= 1e-11


@pytest.mark.example
def test_a_kink_off_the_middle():
    found = integrate(lambda x: abs(x - 0.3), 0, 1, pieces=200)
    assert abs(found.value - (0.09 + 0.49) / 2) <= found.error < 1e-11


@pytest.mark.example
def test_few_pieces_give_an_error_that_says_so():
    rough = integrate(lambda x: math.sin(200 * x), 0, 3, pieces=3)
    exact = (1 - math.cos(600)) / 200
    assert abs(rough.value - exact) <= rough.error
    assert rough.error > 1e-3
    fine = integrate(lambda x: math.sin(200 * x), 0, 3, pieces=400)
    assert abs(fine.value - exact) <= fine.error < 1e-12


@pytest.mark.example
def test_nothing_between_equal_bounds_and_sums_add_their_errors():
    assert integrate(math.exp, 2, 2) == Integral(0.0, 0.0)
    assert Integral(1, 0.1) + Integral(2, 0.2) == Integral(3, pytest.approx(0.3))


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=80)
@given(st.floats(-3, 3), st.floats(0.01, 6), st.floats(0.01, 4), st.floats(0.1, 3))
def test_the_error_is_never_less_than_what_it_is_off(low, span, rate, width):
    exact = math.exp(rate * low) * math.expm1(rate * span) / rate
    found = integrate(lambda x: math.exp(rate * x), low, low + span)
    # low + span is rounded before the integral begins
    rounded = 4e-16 * (abs(low) + span) * math.exp(rate * (low + span))
    assert abs(found.value - exact) <= found.error + rounded
    # a bell that may be narrow
    bell = integrate(lambda x: math.exp(-((x / width) ** 2)), -span, span)
    assert abs(bell.value - math.sqrt(math.pi) * width * math.erf(span / width)) <= bell.error + 1e-15


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=40)
@given(st.floats(0, 5), st.floats(0.1, 5))
def test_run_backwards_the_sign_turns(low, span):
    there = integrate(math.cosh, low, low + span)
    assert integrate(math.cosh, low + span, low).value == pytest.approx(-there.value, rel=1e-13)
