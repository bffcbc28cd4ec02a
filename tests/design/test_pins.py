"""Pins against figures of common practice, worked by hand."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewright.design.pins import (
    PIN_LENGTHS_MM,
    pin_choice,
    pin_choices,
    pin_count,
    pin_row,
    pin_rows,
    pin_window,
)
from edgewright.ticks import TICKS_PER_INCH
from edgewright.trade import PIN_LENGTHS


def ticks(inches):
    whole = inches * TICKS_PER_INCH
    assert whole == int(whole)
    return int(whole)


INCH_LENGTHS = [round(float(length) * 320) for length in PIN_LENGTHS.value]
MM_LENGTHS = [int(length) * 320 for length in PIN_LENGTHS_MM.value]


def choose(thickness, strip, lengths=INCH_LENGTHS, units="in"):
    return pin_choice(thickness, strip, ticks(3 / 8), 0, lengths, ticks(4), units)


@pytest.mark.reference
def test_two_layers_of_23_32_take_1_1_4():
    # T = 1-7/16: at most 1-7/16 - 3/16 = 1-1/4 exactly, at least 23/32 + 1/2 = 1-7/32 (common practice)
    pin = choose(ticks(23 / 32), ticks(23 / 32))
    assert pin.length == pin.longest == ticks(1.25)
    assert pin.shortest == ticks(1 + 7 / 32)


@pytest.mark.reference
def test_18_on_18_mm_takes_30_mm():
    # 30 mm holds and 40 mm breaks out (tool-hire size table); window 18 + 12 = 30 to 36 - 5 = 31 mm
    pin = choose(18 * 320, 18 * 320, MM_LENGTHS, "mm")
    assert pin.length == pin.shortest == 30 * 320
    assert pin.longest == 31 * 320


@pytest.mark.reference
def test_half_inch_strip_on_three_quarters_takes_one_inch():
    # at least 1/2 + 1/2 = 1, at most 1-1/4 - 3/16 = 1-1/16 (common practice)
    pin = choose(ticks(3 / 4), ticks(1 / 2))
    assert pin.length == pin.shortest == ticks(1)
    assert pin.longest == ticks(1 + 1 / 16)


@pytest.mark.reference
@pytest.mark.parametrize("strip", [1 / 4, 1 / 2, 11 / 16, 3 / 4])
def test_under_11_16_no_length_is_legal_whatever_the_strip(strip):
    # T0 + Ts - 3/16 >= Ts + 1/2 just when T0 >= 11/16 (common practice)
    every = range(ticks(4))
    assert choose(ticks(11 / 16), ticks(strip), every).length == ticks(strip + 1 / 2)
    assert choose(ticks(11 / 16) - 1, ticks(strip), every).length is None


@pytest.mark.example
def test_longest_that_fits_is_chosen_in_any_order():
    pin = choose(ticks(1), ticks(1), [ticks(2), ticks(1.5), ticks(1.75), ticks(1.625)])
    assert pin.length == ticks(1.75)  # at most 2 - 3/16 = 1-13/16


@pytest.mark.example
def test_nothing_in_stock_fits():
    assert choose(ticks(23 / 32), ticks(23 / 32), [ticks(1), ticks(1.5)]).length is None


@pytest.mark.example
def test_further_layers_have_more_wood_and_the_same_bite():
    low1, high1 = pin_window(ticks(3 / 4), ticks(1 / 2), 1, "in")
    low2, high2 = pin_window(ticks(3 / 4), ticks(1 / 2), 2, "in")
    assert low1 == low2
    assert high2 - high1 == ticks(1 / 2)


def layers(thickness, strip, count, lengths=INCH_LENGTHS):
    choices = pin_choices(ticks(thickness), ticks(strip), count, ticks(3 / 8), 0, lengths, ticks(4), "in")
    return [choice.length and choice.length / TICKS_PER_INCH for choice in choices]


@pytest.mark.reference
def test_each_layer_is_pinned_as_it_is_glued():
    # 1/2 on 1/2 in: at least 1, at most 13/16: none; on 1 in at most 1-5/16: 1-1/4 (common practice)
    assert layers(1 / 2, 1 / 2, 3) == [None, 1.25, 1.25]
    assert layers(1 / 2, 1 / 2, 3, [ticks(1.75)]) == [None, None, 1.75]


@pytest.mark.example
def test_the_pin_of_the_layer_before_is_kept():
    # 3/4 on 3/4 in takes 1-1/4; the second layer would take up to 2-1/16, and 1-1/4 bites as well there
    assert layers(3 / 4, 3 / 4, 2) == [1.25, 1.25]


@pytest.mark.example
def test_row_stands_clear_of_cutter_sliver_and_wander():
    # 3/8 + 1/16 + 1/4 = 11/16; strips 1/8 proud add another 1/16
    assert pin_row(ticks(3 / 8), 0) == ticks(11 / 16)
    assert pin_row(ticks(3 / 8), ticks(1 / 16)) == ticks(11 / 16)
    assert pin_row(ticks(3 / 8), ticks(1 / 8)) == ticks(3 / 4)


@pytest.mark.reference
def test_pins_of_a_72_by_36_ring():
    # 18 + 18 + 9 + 9 = 54 along the strips and 8 at four corners (common practice)
    pieces = [ticks(72), ticks(72), ticks(32.25), ticks(32.25)]
    assert pin_count(pieces, ticks(1 + 7 / 8), ticks(4), 4) == 62
    assert pin_count(pieces, ticks(1 + 7 / 8), ticks(4), 0) == 54


@pytest.mark.example
def test_two_rows_above_two_and_a_half_inches():
    assert pin_rows(ticks(2.5)) == 1
    assert pin_rows(ticks(2.5) + 1) == 2
    assert pin_count([ticks(8), ticks(9)], ticks(3), ticks(4), 0) == 2 * (2 + 3)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=80)
@given(
    thickness=st.integers(2000, 13000),
    strip=st.integers(1000, 13000),
    lengths=st.lists(st.integers(1000, 20000), min_size=1, max_size=12),
)
def test_a_chosen_pin_bites_and_leaves_skin_and_none_fits_better(thickness, strip, lengths):
    pin = choose(thickness, strip, lengths)
    bite, skin = ticks(1 / 2), ticks(3 / 16)
    legal = [
        length
        for length in lengths
        if length - strip >= bite and thickness + strip - length >= skin  # into the top; before the face
    ]
    assert pin.length == (max(legal) if legal else None)
