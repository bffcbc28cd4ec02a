"""Strip width limits against figures of common practice, worked by hand."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewright.compass import PerSide
from edgewright.design.base import base_fit
from edgewright.design.limits import (
    WIDEST_USUAL,
    WIDEST_WANTED,
    overhang_cap,
    width_cap,
    width_floor,
    width_limits,
)
from edgewright.design.trim import trim_sizes
from edgewright.errors import GeometryError
from edgewright.job import Job
from edgewright.ticks import TICKS_PER_INCH

GRID = TICKS_PER_INCH // 32
UNKNOWN = PerSide(None, None, None, None)


def ticks(inches):
    whole = inches * TICKS_PER_INCH
    assert whole == int(whole)
    return int(whole)


def over(**inches):
    return PerSide(**{"north": None, "east": None, "south": None, "west": None} | inches)


@pytest.mark.reference
@pytest.mark.parametrize(
    ("radius", "floor"),
    # common practice, no source: rb + proud 1/16 + pin wander 1/4 + pin to inner edge 3/8
    [(1 / 8, 13 / 16), (1 / 4, 15 / 16), (3 / 8, 1 + 1 / 16), (1 / 2, 1 + 3 / 16), (5 / 8, 1 + 5 / 16)],
)
def test_floor_by_bottom_radius(radius, floor):
    assert width_floor(ticks(radius), 0, GRID, "in")[0] == ticks(floor)
    # proud up to 1/16 in is already allowed for
    assert width_floor(ticks(radius), ticks(1 / 16), GRID, "in")[0] == ticks(floor)
    assert width_floor(ticks(radius), ticks(1 / 8), GRID, "in")[0] == ticks(floor + 1 / 16)


@pytest.mark.example
def test_floor_snaps_up_to_the_grid():
    # 3/8 in gives 1-1/16 in; a radius 1/64 in larger needs the next 32nd
    assert width_floor(ticks(3 / 8 + 1 / 64), 0, GRID, "in")[0] == ticks(1 + 3 / 32)
    # 10 mm: 10 + 1.5875 + 6.35 + 9.525 = 27.4625 mm, next half millimetre 27.5
    assert width_floor(10 * 320, 0, 160, "mm")[0] == 27.5 * 320


@pytest.mark.example
def test_cap_keeps_clear_of_the_base_on_its_nearest_side():
    cap, reason = overhang_cap(over(north=2 * 25.4, south=8 * 25.4), GRID, "in")
    assert cap == ticks(1 + 7 / 8)
    assert reason == "overhang 2 in on the north side, less 1/8 in clearance"


@pytest.mark.example
def test_cap_snaps_down_to_the_grid():
    # 2-1/64 in - 1/8 in = 1-57/64 in, 32nd below: 1-7/8 in
    assert overhang_cap(over(east=(2 + 1 / 64) * 25.4), GRID, "in")[0] == ticks(1 + 7 / 8)


@pytest.mark.example
def test_cap_is_the_lesser_of_wish_and_overhang():
    wide, near = over(north=10 * 25.4), over(north=2 * 25.4)
    assert width_cap(ticks(3), wide, GRID, "in") == (ticks(3), WIDEST_WANTED)
    assert width_cap(ticks(3), UNKNOWN, GRID, "in") == (ticks(3), WIDEST_WANTED)
    assert width_cap(ticks(3), near, GRID, "in")[0] == ticks(1 + 7 / 8)
    assert width_cap(ticks(3 + 1 / 64), UNKNOWN, GRID, "in")[0] == ticks(3)
    assert width_cap(ticks(3), UNKNOWN, GRID, "in", given=False) == (ticks(3), WIDEST_USUAL)
    # where both agree the base is named, for that one cannot be wished away
    assert width_cap(ticks(1 + 7 / 8), near, GRID, "in")[1] != WIDEST_WANTED


@pytest.mark.example
def test_used_up_overhang_gives_a_cap_below_zero():
    assert overhang_cap(over(west=-25.4), GRID, "in")[0] == ticks(-1 - 1 / 8)


@pytest.mark.example
def test_limits_of_a_job():
    tables = {
        "job": {"title": "t", "units": "in"},
        "top": {"length": 72, "width": 42, "thickness": "23/32 in", "material": "plywood"},
        "trim": {"north": 6},
        "base": {"overhang": 8},
    }
    job = Job.model_validate(tables, context={"unit": "in"})
    sizes = trim_sizes(job)
    limits = width_limits(job, sizes, base_fit(job, sizes))
    # default 3/8 in round-over; 8 - 6 = 2 in left in the north
    assert (limits.floor, limits.cap) == (ticks(1 + 1 / 16), ticks(1 + 7 / 8))
    assert "north" in limits.cap_reason


@pytest.mark.example
def test_a_wish_nobody_wrote_is_called_usual():
    tables = {
        "job": {"title": "t", "units": "in"},
        "top": {"length": 72, "width": 42, "thickness": "23/32 in", "material": "plywood"},
    }
    for edge, reason in (({}, WIDEST_USUAL), ({"max_strip_width": 3}, WIDEST_WANTED)):
        job = Job.model_validate(tables | {"edge": edge}, context={"unit": "in"})
        sizes = trim_sizes(job)
        assert width_limits(job, sizes, base_fit(job, sizes)).cap_reason == reason


@pytest.mark.example
def test_metric_reasons_are_shown_so_that_they_hold():
    # 10 + 1.5875 + 6.35 = 17.9375 mm and 9.525 mm inside it
    _, reason = width_floor(10 * 320, 0, 160, "mm")
    assert "pin row 18 mm" in reason
    assert "9.6 mm of wood" in reason


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=80)
@given(
    left=st.floats(-100, 400),
    radius=st.integers(0, 8128),
    grid=st.sampled_from([254, 127, 160, 32]),
)
def test_snapping_never_oversteps_a_limit(left, radius, grid):
    cap, _ = overhang_cap(over(south=left), grid, "in")
    assert cap % grid == 0
    assert cap / 320 <= left - 25.4 / 8 + 1e-8
    assert cap / 320 > left - 25.4 / 8 - (grid + 1) / 320
    floor, _ = width_floor(radius, 0, grid, "in")
    assert floor % grid == 0
    assert 0 <= floor - (radius + 5588) < grid  # 1/16 + 1/4 + 3/8 in = 11/16 in = 5588 ticks


def narrow(finished, **edge):
    """Limits of a top 48 in long whose width is trimmed to ``finished`` inches."""
    tables = {
        "job": {"title": "t", "units": "in"},
        "top": {"length": 48, "width": 14, "thickness": "3/4 in", "material": "mdf"},
        "trim": {"north": 14 - finished},
        "edge": edge,
    }
    job = Job.model_validate(tables, context={"unit": "in"})
    sizes = trim_sizes(job)
    return width_limits(job, sizes, base_fit(job, sizes))


@pytest.mark.example
@pytest.mark.parametrize(
    ("edge", "cap"),
    [
        # two strips meet in the middle of 4 in
        ({"corners": "mitre"}, 2),
        ({"corners": "pinwheel"}, 2),
        # the short strips fit between the long ones: 1/2 in of 4 in stays for them
        ({"corners": "butt"}, 1.75),
        # they run through, and the long ones fit between them: 48 in are enough
        ({"corners": "butt", "through": "short"}, 2),
        # in the second layer the others run through
        ({"corners": "butt", "through": "short", "layers": 2}, 1.75),
        ({"corners": "butt", "through": "short", "layers": 2, "alternate_layers": False}, 2),
    ],
)
def test_strips_are_no_wider_than_a_ring_has_room_for(edge, cap):
    limits = narrow(4, **edge)
    assert limits.cap == ticks(cap)
    assert "4 in" in limits.cap_reason
    # a wide top is none the worse for it
    assert narrow(12, **edge).cap == ticks(3)


@pytest.mark.example
def test_a_top_too_narrow_for_pins_is_refused_with_both_bounds():
    # 3/8 + 1/16 + 1/4 + 3/8 = 1 1/16 in are needed, 2 in allow 1 in
    with pytest.raises(ValueError, match="at least 1 1/16 in, at most 1 in is possible"):
        narrow(2, corners="mitre")
    with pytest.raises(ValueError, match="1 1/8 in does not fit the finished top: at most 1 in is allowed"):
        narrow(2, corners="mitre", strip_width="1 1/8 in")
    assert narrow(2, corners="mitre", strip_width="1 in").cap == ticks(1)
    assert narrow(2.125, corners="mitre").cap == ticks(1 + 1 / 16)


@pytest.mark.example
def test_what_is_snapped_over_the_bound_is_refused_too():
    # half of 3 25/32 in is 1 57/64 in as asked for; the pitch, snapped up to 1/32 in, makes the strip 1 29/32 in
    with pytest.raises(GeometryError, match="on the bench grid"):
        narrow(3.78125, corners="mitre", strip_width="1 57/64 in")
