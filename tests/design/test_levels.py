"""Level sets: against the outline drawn anew at each inset, and their own laws."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewright.design.levels import area_at, area_between, last_inset, perimeter_at, rectangle_levels
from edgewright.design.outline import rectangle
from edgewright.errors import GeometryError

SIZES = st.floats(50.0, 3000.0)
FRACTIONS = st.one_of(st.just(0.0), st.just(0.5), st.floats(0.001, 0.5))
FOUR = st.tuples(FRACTIONS, FRACTIONS, FRACTIONS, FRACTIONS)


@pytest.mark.example
def test_sharp_rectangle_by_hand():
    (level,) = rectangle_levels(10, 6, (0, 0, 0, 0))

    # 2(10 - 2d) + 2(6 - 2d) and (10 - 2d)(6 - 2d)
    assert (level.d_from, level.d_to) == (0, 3)
    assert (level.p0, level.p1) == (32, -8)
    assert (level.a0, level.a1, level.a2) == (60, -32, 4)


@pytest.mark.example
def test_every_corner_radius_is_an_event():
    levels = rectangle_levels(100, 60, (5, 0, 10, 5))

    assert [(level.d_from, level.d_to) for level in levels] == [(0, 5), (5, 10), (10, 30)]
    # three arcs alive: 3·π/2 + 1·2 replaces 2π
    assert [level.p1 for level in levels] == pytest.approx([-(2 + 1.5 * math.pi), -(6 + math.pi / 2), -8])


@pytest.mark.example
def test_disc_shrinks_to_its_centre():
    levels = rectangle_levels(80, 80, (40, 40, 40, 40))

    assert last_inset(levels) == 40
    assert perimeter_at(levels, 10) == pytest.approx(60 * math.pi, rel=1e-14)
    assert area_at(levels, 40) == pytest.approx(0, abs=1e-11)


@pytest.mark.example
def test_a_radius_longer_than_half_its_side_ends_the_levels_early():
    # west side: 50 - 40 = 10 left straight, used up at d = 10 once the sharp corner has come that far
    levels = rectangle_levels(100, 50, (40, 0, 0, 0))

    assert last_inset(levels) == 10
    # at d = 10 the arc (radius 30 about (40, 40)) just reaches the north side y = 40 of the 80 × 30 box:
    # south 50, east 30, north 80, arc 15π, and nothing of the west side
    assert perimeter_at(levels, 10) == pytest.approx(160 + 15 * math.pi, rel=1e-14)
    with pytest.raises(GeometryError, match="between 0 mm and 10 mm"):
        perimeter_at(levels, 10.001)


@pytest.mark.example
def test_a_side_used_up_from_the_start_still_has_its_outline():
    # a quarter disc: the arc meets the sharp corners from the start
    levels = rectangle_levels(50, 50, (50, 0, 0, 0))

    assert last_inset(levels) == 0
    assert perimeter_at(levels, 0) == pytest.approx(100 + 25 * math.pi, rel=1e-14)
    assert area_at(levels, 0) == pytest.approx(625 * math.pi, rel=1e-14)
    with pytest.raises(GeometryError, match="inset is 1 mm"):
        area_at(levels, 1)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=80)
@given(SIZES, SIZES, FOUR, st.floats(0, 0.99))
def test_a_level_is_the_outline_drawn_anew(length, width, fractions, share):
    radii = tuple(fraction * min(length, width) for fraction in fractions)
    levels = rectangle_levels(length, width, radii)
    d = share * min(length, width) / 2
    drawn = rectangle(length - 2 * d, width - 2 * d, tuple(max(radius - d, 0.0) for radius in radii))

    assert last_inset(levels) == pytest.approx(min(length, width) / 2, rel=1e-14)
    assert perimeter_at(levels, d) == pytest.approx(drawn.length, rel=1e-12, abs=1e-9)
    assert area_at(levels, d) == pytest.approx(drawn.area, abs=1e-13 * length * width + 1e-9)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=80)
@given(SIZES, SIZES, FOUR)
def test_pieces_join_and_area_falls_by_the_perimeter(length, width, fractions):
    radii = tuple(fraction * min(length, width) for fraction in fractions)
    levels = rectangle_levels(length, width, radii)

    assert levels[0].d_from == 0
    for level in levels:
        # dA/dd = -P, coefficient by coefficient
        assert level.a1 == pytest.approx(-level.p0, rel=1e-14)
        assert 2 * level.a2 == pytest.approx(-level.p1, rel=1e-14)
        assert level.d_from < level.d_to
    for before, after in pairwise(levels):
        d = before.d_to
        assert after.d_from == d
        assert after.perimeter(d) == pytest.approx(before.perimeter(d), rel=1e-11)
        assert after.area(d) == pytest.approx(before.area(d), abs=1e-12 * length * width)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=80)
@given(SIZES, SIZES, FOUR, st.floats(0, 1), st.floats(0, 1))
def test_a_band_is_the_difference_of_two_areas(length, width, fractions, one, other):
    radii = tuple(fraction * min(length, width) for fraction in fractions)
    levels = rectangle_levels(length, width, radii)
    outer, inner = sorted((one * last_inset(levels), other * last_inset(levels)))

    band = area_between(levels, outer, inner)

    assert band == pytest.approx(area_at(levels, outer) - area_at(levels, inner), abs=1e-12 * length * width)


@pytest.mark.example
def test_insets_out_of_range_are_refused():
    levels = rectangle_levels(100, 60, (0, 0, 0, 0))

    # a float's rounding beyond the last event is still the last event
    assert area_at(levels, 30.0000000000001) == area_at(levels, 30)
    for wrong in (-1.0, 31.0, math.nan):
        with pytest.raises(GeometryError, match=f"inset is {wrong:g} mm; it must lie between 0 mm and 30 mm"):
            perimeter_at(levels, wrong)
    with pytest.raises(GeometryError, match="inner inset is 2 mm; it must be at least the outer inset, 5 mm"):
        area_between(levels, 5, 2)
    with pytest.raises(GeometryError, match="length is -1 mm"):
        rectangle_levels(-1, 5, (0, 0, 0, 0))
