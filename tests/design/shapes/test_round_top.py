"""Round tops from diameters and from a wrap tape."""

from __future__ import annotations

import math

import pytest

from edgewright.design.shapes.round_top import round_from_wrap, round_shape
from edgewright.errors import GeometryError


@pytest.mark.example
def test_three_diameters_give_their_mean():
    top = round_shape([1200.0, 1200.3, 1200.6])

    assert top.outline.length == pytest.approx(1200.3 * math.pi)
    assert top.outline.area == pytest.approx(1200.3**2 * math.pi / 4)
    assert len(top.outline.segments) == 2
    assert top.checks[0].off == pytest.approx(0.6)
    assert all(check.agrees for check in top.checks)
    assert not top.suggestions


@pytest.mark.example
def test_an_old_top_that_went_oval_is_named_and_kept_round():
    # 48 in one way, 47-3/4 the other: 1/4 in is eight times what a tape is off
    top = round_shape([48 * 25.4, 47.75 * 25.4, 47.9 * 25.4])

    assert not top.checks[0].agrees
    assert "oval of length 48 in and width 47 3/4 in" in top.suggestions[0]
    assert len({segment.radius for segment in top.outline.segments}) == 1


@pytest.mark.example
def test_a_wrap_tape_gives_the_diameter():
    assert round_from_wrap(1000 * math.pi).outline.bounds == pytest.approx((0, 0, 1000, 1000), abs=1e-9)
    # a tape 0.4 mm thick lies on a circle 0.4 mm wider at its middle
    assert round_from_wrap(1000.4 * math.pi, 0.4).outline.bounds[2] == pytest.approx(1000)


@pytest.mark.example
def test_wrap_tape_and_rule_are_compared():
    top = round_from_wrap(1000 * math.pi, diameter=1003.0, units="mm")

    assert top.checks[0].off == pytest.approx(3.0)
    assert not top.checks[0].agrees
    assert "1003 mm" in top.suggestions[0]
    assert not round_from_wrap(1000 * math.pi, diameter=1000.5).suggestions


@pytest.mark.example
@pytest.mark.parametrize(
    ("build", "words"),
    [
        (lambda: round_shape([]), "0 diameters"),
        (lambda: round_shape([1000.0] * 9), "9 diameters"),
        (lambda: round_shape([1000.0, -1.0]), "diameter 2 is -1 mm"),
        (lambda: round_from_wrap(math.inf), "circumference is inf mm"),
        (lambda: round_from_wrap(3.0, 1.0), "must be greater than 0 mm"),
    ],
)
def test_impossible_rounds_are_refused(build, words):
    with pytest.raises(GeometryError, match=words):
        build()
