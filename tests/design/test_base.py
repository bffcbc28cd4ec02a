"""Where the base stands; figures worked by hand."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewright.compass import OPPOSITE, SIDES, PerSide
from edgewright.design.base import base_fit, remaining_overhang, unmoved_offset
from edgewright.design.trim import trim_sizes
from edgewright.job import Job

INCH = 25.4
UNKNOWN = PerSide(None, None, None, None)
length_mm = st.floats(0, 500)
four = st.builds(PerSide, length_mm, length_mm, length_mm, length_mm)


def job(base, **trim):
    tables = {
        "job": {"title": "kitchen table", "units": "in"},
        "top": {"length": 72, "width": 42, "thickness": "23/32 in", "material": "plywood"},
        "trim": trim,
        "base": base,
    }
    return Job.model_validate(tables, context={"unit": "in"})


def fit(base, **trim):
    asked = job(base, **trim)
    return base_fit(asked, trim_sizes(asked))


@pytest.mark.example
def test_one_sided_trim_leaves_the_base_half_of_it_towards_the_cut():
    # 6 in off the north: the new centre lies 3 in further south, so the base stands 3 in north of it
    placed = fit({"overhang": 8}, north=6)
    assert placed.offset == pytest.approx((0, 3 * INCH))
    assert placed.overhang.north == pytest.approx(2 * INCH)
    assert placed.overhang.south == pytest.approx(8 * INCH)


@pytest.mark.example
def test_cut_from_the_east_leaves_the_base_to_the_east():
    assert unmoved_offset(UNKNOWN, PerSide(0.0, 10.0, 0.0, 4.0)) == (3.0, 0.0)


@pytest.mark.example
def test_a_moved_base_shares_what_is_left():
    # 8 + 8 - 6 = 10 in, 5 in on each side
    placed = fit({"overhang": 8, "moved": True}, north=6)
    assert placed.offset == (0, 0)
    assert placed.overhang.north == placed.overhang.south == pytest.approx(5 * INCH)


@pytest.mark.example
def test_a_centred_footprint_gives_half_of_what_it_leaves():
    # (72 - 60) / 2 = 6 at the ends, (42 - 30) / 2 = 6 at the sides, 4 in of these cut off in the south
    placed = fit({"footprint_length": 60, "footprint_width": 30}, south=4)
    left = {side: over / INCH for side, over in placed.overhang.items()}
    assert left == pytest.approx({"north": 6, "east": 6, "south": 2, "west": 6})


@pytest.mark.example
def test_without_overhang_nothing_is_known_but_the_offset_is():
    placed = fit({}, north=6)
    assert placed.overhang == UNKNOWN
    assert placed.offset == pytest.approx((0, 3 * INCH))


@pytest.mark.example
def test_a_base_off_centre_before_the_trim_may_be_centred_by_it():
    # 2 in more overhang in the east before, 2 in cut off there
    old = PerSide(100.0, 150.8, 100.0, 100.0)
    assert unmoved_offset(old, PerSide(0.0, 50.8, 0.0, 0.0)) == pytest.approx((0, 0))


@pytest.mark.example
def test_moved_with_one_overhang_unknown_stays_unknown():
    left = remaining_overhang(PerSide(100.0, 50.0, None, 50.0), PerSide(0.0, 0.0, 0.0, 0.0), moved=True)
    assert left == PerSide(None, 50.0, None, 50.0)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=60)
@given(old=four, trims=four)
def test_moving_the_base_keeps_its_size_and_centres_it(old, trims):
    still = remaining_overhang(old, trims, moved=False)
    moved = remaining_overhang(old, trims, moved=True)
    for side in SIDES:
        both = still[side] + still[OPPOSITE[side]]
        assert moved[side] + moved[OPPOSITE[side]] == pytest.approx(both)
        assert moved[side] == pytest.approx(moved[OPPOSITE[side]])
    # the offset is what an unmoved base has too much on one side
    assert unmoved_offset(old, trims) == pytest.approx(
        ((still.west - still.east) / 2, (still.south - still.north) / 2)
    )
