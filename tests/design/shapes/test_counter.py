"""L and U counters."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shape_cases import chords

from edgewright.design.shapes.counter import angle_from_legs, l_counter, u_counter
from edgewright.errors import GeometryError


def edges(shape):
    return dict(zip(shape.names, shape.outline.segments, strict=True))


@pytest.mark.example
def test_a_square_l_with_an_inside_radius():
    top = l_counter(2400, 1800, 640, 600, inside_radius=13)

    # two rectangles and what a radius of 13 fills in at the inside corner
    assert top.outline.area == pytest.approx(2400 * 640 + 600 * 1160 + 13**2 * (1 - math.pi / 4))
    assert top.outline.bounds == pytest.approx((0, 0, 2400, 1800))
    assert edges(top)["short leg end"].end[0] == pytest.approx(600)
    # the short leg is on the left of one who faces the long wall in the north
    assert edges(top)["short leg back"].end == pytest.approx((0, 0))


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=80)
@given(
    st.floats(1500, 4000),
    st.floats(1500, 4000),
    st.floats(400, 650),
    st.floats(400, 650),
    st.floats(70, 170),
    st.sampled_from(("left", "right")),
)
def test_measures_of_an_l_are_in_its_outline(long_leg, short_leg, long_depth, short_depth, degrees, hand):
    top = l_counter(long_leg, short_leg, long_depth, short_depth, math.radians(degrees), 0, hand)
    found = edges(top)

    assert found["long leg back"].length == pytest.approx(long_leg)
    assert found["short leg back"].length == pytest.approx(short_leg)
    assert found["long leg end"].length == pytest.approx(long_depth)
    assert found["short leg end"].length == pytest.approx(short_depth)
    # the wall corner is where both backs meet; ends of both, and the third side of that triangle by the cosine rule
    across = {
        "left": (found["long leg back"].start, found["short leg back"].end),
        "right": (found["long leg back"].end, found["short leg back"].start),
    }[hand]
    third = long_leg**2 + short_leg**2 - 2 * long_leg * short_leg * math.cos(math.radians(degrees))
    assert math.dist(*across) == pytest.approx(math.sqrt(third))
    # two parallelogram-free pieces: each leg a trapezoid, split from wall corner to inside corner
    reach = [found[f"{leg} leg front"].length for leg in ("long", "short")]
    area = long_depth * (long_leg + reach[0]) / 2 + short_depth * (short_leg + reach[1]) / 2
    assert top.outline.area == pytest.approx(area)
    assert chords(top).is_valid


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=40)
@given(st.floats(300, 2000), st.floats(5, 175))
def test_the_angle_comes_back_from_equal_legs(leg, degrees):
    # the diagonal from the cosine rule
    diagonal = math.sqrt(2 * leg * leg * (1 - math.cos(math.radians(degrees))))

    assert math.degrees(angle_from_legs(leg, diagonal)) == pytest.approx(degrees, rel=1e-9)


@pytest.mark.example
def test_equal_legs_make_the_angle_or_check_it():
    # legs of 1000 with a diagonal of 1000 √2 + 5: the walls open by 5 / (1000 cos 45°), over 1800 that is 12.7
    measured = l_counter(2400, 1800, 640, 600, equal_legs=(1000, 1000 * math.sqrt(2) + 5))
    checked = l_counter(2400, 1800, 640, 600, math.pi / 2, equal_legs=(1000, 1000 * math.sqrt(2) + 5))

    short = edges(measured)["short leg back"]
    assert short.start[0] - short.end[0] == pytest.approx(1800 * 5 / (1000 * math.cos(math.pi / 4)), abs=0.05)
    assert not measured.checks
    assert not checked.checks[0].agrees
    assert checked.checks[0].off == pytest.approx(5)


@pytest.mark.example
def test_a_u_counter_is_three_rectangles():
    top = u_counter(3000, 1500, 1200, 600, 650, 610, 20)

    area = 3000 * 600 + 650 * 900 + 610 * 600 + 2 * 20**2 * (1 - math.pi / 4)
    assert top.outline.area == pytest.approx(area)
    assert top.outline.bounds == pytest.approx((0, 0, 3000, 1500))
    assert edges(top)["right leg end"].length == pytest.approx(610)
    # left is west when one faces the back wall
    assert edges(top)["left leg back"].end == pytest.approx((0, 0))


@pytest.mark.example
@pytest.mark.parametrize(
    ("build", "words"),
    [
        (lambda: l_counter(600, 1800, 640, 600), "long leg is 600 mm; it must be greater than 600 mm"),
        (lambda: l_counter(2400, 630, 640, 600), "short leg is 630 mm; it must be greater than 640 mm"),
        (lambda: l_counter(2400, 1800, 0, 600), "depth of the long leg is 0 mm"),
        (lambda: l_counter(2400, 1800, 640, 600, math.pi), "angle between the walls is 180°"),
        (lambda: l_counter(2400, 1800, 640, 600, math.nan), "angle between the walls is nan°"),
        (lambda: l_counter(2400, 1800, 640, 600, hand="middle"), "`middle`"),
        (
            lambda: l_counter(2400, 1800, 640, 600, equal_legs=(100, 200)),
            "diagonal is 200 mm; leg 100 mm and",
        ),
        (
            lambda: l_counter(700, 1800, 640, 600, inside_radius=120),
            "the long leg front edge, which is 100 mm",
        ),
        (lambda: u_counter(1200, 1500, 1200, 600, 650, 610), "add up to 1260 mm; the back of 1200 mm"),
        (lambda: u_counter(3000, 600, 1200, 600, 650, 610), "left leg is 600 mm"),
        (lambda: u_counter(3000, 1500, 1200, 600, 650, -1), "depth of the right leg is -1 mm"),
        (lambda: u_counter(1460, 1500, 1200, 600, 650, 610, 150), "the back leg front edge"),
    ],
)
def test_impossible_counters_are_refused(build, words):
    with pytest.raises(GeometryError, match=words):
        build()
