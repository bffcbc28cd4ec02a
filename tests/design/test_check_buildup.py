"""Findings 3xx, each at its bound and beyond; figures worked by hand."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewright.design.check_buildup import (
    corner_block_findings,
    largest_corner_radius,
    pin_findings,
    screw_findings,
    strip_width_findings,
)
from edgewright.design.limits import WIDEST_WANTED
from edgewright.design.model import WidthLimits
from edgewright.design.pins import PinChoice
from edgewright.ticks import TICKS_PER_INCH

INCH = 25.4


def ticks(inches):
    return round(inches * TICKS_PER_INCH)


WISH = WidthLimits(ticks(1.0625), "pins need it", ticks(3), WIDEST_WANTED)
BASE = WidthLimits(ticks(1.0625), "pins need it", ticks(1.875), "overhang 2 in on the north side")


def width(limits, inches, **more):
    return [
        (finding.number, finding.severity)
        for finding in strip_width_findings(limits, ticks(inches), units="in", **more)
    ]


@pytest.mark.example
def test_strip_narrower_than_the_floor_stops():
    assert width(WISH, 1.0625) == []
    assert width(WISH, 1.03125) == [(301, "stop")]
    (finding,) = strip_width_findings(WISH, ticks(0.625), units="in")
    assert finding.figures == "strip 5/8 in, at least 1 1/16 in"
    assert finding.change.startswith("pins need it")


@pytest.mark.example
def test_strip_wider_than_the_cap_stops_at_the_base_and_is_noted_otherwise():
    assert width(BASE, 1.875) == []
    assert width(BASE, 1.90625) == [(302, "stop")]
    assert width(WISH, 3) == []
    assert width(WISH, 3.03125) == [(302, "note")]


@pytest.mark.example
def test_a_last_strip_left_wider_counts_against_the_cap_only():
    assert width(BASE, 1.75, extra_width=ticks(0.125)) == []
    assert width(BASE, 1.75, extra_width=ticks(0.25)) == [(302, "stop")]
    assert width(BASE, 1, extra_width=ticks(0.25)) == [(301, "stop")]
    # what was left on a strip because it was no use to rip it off is no wish for width
    assert width(WISH, 3, extra_width=ticks(0.0625)) == []


@pytest.mark.example
def test_a_wish_below_the_overhang_cap_does_not_hide_it():
    hidden = (ticks(4), "overhang 4 1/8 in on the east side")
    assert width(WISH, 3.5, by_overhang=hidden) == [(302, "note")]
    assert width(WISH, 4, by_overhang=hidden) == [(302, "note")]
    assert width(WISH, 4.5, by_overhang=hidden) == [(302, "stop")]


@pytest.mark.reference
@pytest.mark.parametrize(
    ("strip", "radius"),
    # common practice with a ring of 1-1/16 in; for 1-7/8, 2-1/2 and 3 the table gives 3.8, 6.0 and 7.7
    [(1.375, 2.1), (1.5, 2.6), (1.875, 3.8), (2.5, 6.0), (3.0, 7.7)],
)
def test_largest_corner_radius(strip, radius):
    assert largest_corner_radius(strip, 1.0625) == pytest.approx(radius, abs=0.06)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=80)
@given(ring=st.floats(5, 60), more=st.floats(0, 60))
def test_at_the_largest_radius_the_ring_is_just_wide_enough(ring, more):
    strip = ring + more
    radius = largest_corner_radius(strip, ring)
    # from the arc's middle point to the inner corner of the square ring at (w, w)
    middle = radius - radius / math.sqrt(2)
    assert math.dist((middle, middle), (strip, strip)) == pytest.approx(ring)


@pytest.mark.example
def test_corner_block_above_the_largest_radius():
    # (1.375 - 1.0625/√2) / (1 - 1/√2) = 2.1294 in, shown rounded down: 2 8/64
    sharp = (0.0, 2.125 * INCH, 2.129 * INCH, 2.13 * INCH)
    found = corner_block_findings(sharp, ticks(1.375), ticks(1.0625), "in")
    assert [(f.number, f.severity, f.place) for f in found] == [(305, "warn", "north_west")]
    assert found[0].figures.endswith("strip 1 3/8 in covers up to 2 1/8 in")
    assert "not in the cut list" in found[0].change


@pytest.mark.example
def test_corners_that_need_a_block_are_one_finding():
    radii = (3 * INCH, 3 * INCH, 4 * INCH, INCH)
    (finding,) = corner_block_findings(radii, ticks(1.375), ticks(1.0625), "in")
    assert (finding.place, finding.figures) == (
        "corners",
        "south-west, south-east: corner radius 3 in; north-east: corner radius 4 in; "
        "strip 1 3/8 in covers up to 2 1/8 in",
    )


@pytest.mark.example
def test_corner_radius_just_at_the_largest_passes():
    most = largest_corner_radius(1.875 * INCH, 1.0625 * INCH)
    assert corner_block_findings((most,) * 4, ticks(1.875), ticks(1.0625), "in") == ()
    # a strip that covers no rounded corner at all still covers a sharp one
    assert corner_block_findings((0.0,) * 4, ticks(0.5), ticks(1.0625), "in") == ()
    # a strip below the floor is finding 301, whatever the corners
    assert corner_block_findings((1.0,) * 4, ticks(0.5), ticks(1.0625), "in") == ()
    assert len(corner_block_findings((INCH * 3,) * 4, ticks(1.0625), ticks(1.0625), "in")) == 1


@pytest.mark.example
def test_pin_that_fits_is_noted_with_its_row():
    pin = PinChoice(ticks(1.25), ticks(1.21875), ticks(1.25), ticks(0.6875), ticks(4))
    (finding,) = pin_findings((pin,), "in")
    assert (finding.number, finding.severity) == (304, "note")
    assert finding.figures == ("pins 1 1/4 in long every 4 in, row at least 11/16 in from the finished edge")


@pytest.mark.example
def test_no_pin_warns_and_tells_an_empty_window_from_an_empty_shelf():
    too_thin = PinChoice(None, ticks(1), ticks(0.9375), ticks(0.6875), ticks(4))
    not_there = PinChoice(None, ticks(1), ticks(1.0625), ticks(0.6875), ticks(4))
    (thin,), (shelf,) = pin_findings((too_thin,), "in"), pin_findings((not_there,), "in")
    assert (thin.number, thin.severity) == (shelf.number, shelf.severity) == (303, "warn")
    assert "too thin" in thin.change
    assert "get pins" in shelf.change
    # a top just thick enough takes one single length
    single = PinChoice(None, ticks(1), ticks(1), ticks(0.6875), ticks(4))
    assert "get pins" in pin_findings((single,), "in")[0].change


@pytest.mark.example
def test_each_layer_is_told_apart():
    none, some = (
        PinChoice(None, ticks(1), ticks(0.8125), ticks(0.6875), ticks(4)),
        PinChoice(ticks(1.25), ticks(1), ticks(1.3125), ticks(0.6875), ticks(4)),
    )
    found = pin_findings((none, some, some), "in")
    assert [(f.number, f.figures.partition(":")[0]) for f in found] == [
        (303, "layer 1"),
        (304, "layers 2, 3"),
    ]
    assert found[0].figures == "layer 1: pin length at least 1 in, at most 13/16 in"


@pytest.mark.example
def test_a_pin_window_is_shown_from_inside():
    # 0.709 in on 0.709 in: 1.209 to 1.2305 in; in 64ths 1-7/32 lies in it, 1-13/64 and 1-15/64 do not
    between = PinChoice(None, round(1.209 * 8128), round(1.2305 * 8128), ticks(0.6875), ticks(4))
    (finding,) = pin_findings((between,), "in")
    assert finding.figures == "pin length at least 1 7/32 in, at most 1 7/32 in"
    # a window without a 64th in it is shown in decimals
    narrow = PinChoice(None, 9832, 9872, ticks(0.6875), ticks(4))
    # 9832 / 8128 and 9872 / 8128
    assert pin_findings((narrow,), "in")[0].figures == "pin length at least 1.2096 in, at most 1.2146 in"


@pytest.mark.example
def test_metric_pins_have_no_inch_about_them():
    # the row is 9.5 + 1.5875 + 6.35 = 17.4375 mm, shown so that it is kept; 4 in of spacing near 102 mm
    pin = PinChoice(30 * 320, 30 * 320, 31 * 320, round(17.4375 * 320), round(101.6 * 320))
    (finding,) = pin_findings((pin,), "mm")
    assert finding.figures == "pins 30 mm long every 102 mm, row at least 17.5 mm from the finished edge"
    assert " in of" not in finding.change
    assert "within 26 mm of it" in finding.change


@pytest.mark.example
def test_screw_over_the_thin_field():
    # 3/4 in of base + 23/32 in of top - 3/16 in of skin = 1-9/32 in
    def screw(inches):
        return screw_findings(inches * INCH, 0.75 * INCH, 23 / 32 * INCH, "in")

    assert screw(1 + 9 / 32) == ()
    (finding,) = screw(1.5)
    assert (finding.number, finding.severity) == (307, "stop")
    assert finding.figures == "screw 1 1/2 in, at most 1 9/32 in"
    assert screw_findings(None, 19.0, 18.0, "mm") == screw_findings(100.0, None, 18.0, "mm") == ()
