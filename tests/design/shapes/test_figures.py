"""Bounds of measured figures and the sentences about them."""

from __future__ import annotations

import math

import pytest

from edgewright.design.shapes.figures import (
    need_at_most,
    need_greater,
    need_not_negative,
    need_place,
    need_positive,
    need_triangle,
)
from edgewright.errors import GeometryError


@pytest.mark.example
@pytest.mark.parametrize(
    ("value", "words"),
    [
        (0, "rail is 0 mm; it must be greater than 0 mm: measure it again"),
        (math.nan, "rail is nan mm; it must be greater than 0 mm"),
        (1e-6, "it must be at least 0.001 mm"),
        (math.inf, "it must be at most 100000 mm"),
    ],
)
def test_lengths_are_positive_and_of_this_world(value, words):
    with pytest.raises(GeometryError, match=words):
        need_positive("rail", value)
    need_positive("rail", 0.001)
    need_positive("rail", 1e5)


@pytest.mark.example
def test_nothing_is_allowed_where_nothing_may_be():
    need_not_negative("radius", 0)
    need_not_negative("radius", 5)
    for value, words in ((-1, "at least 0 mm"), (1e-9, "0 or at least 0.001 mm"), (1e6, "at most 100000 mm")):
        with pytest.raises(GeometryError, match=words):
            need_not_negative("radius", value)


@pytest.mark.example
def test_bounds_are_named():
    need_at_most("bow", 5, "the chord", 5, "measure")
    need_greater("leg", 6, "the depth, ", 5, "measure")
    with pytest.raises(GeometryError, match=r"bow is 5\.1 mm; the chord allows at most 5 mm: measure"):
        need_at_most("bow", 5.1, "the chord", 5, "measure")
    with pytest.raises(GeometryError, match="leg is 5 mm; it must be greater than the depth, 5 mm: measure"):
        need_greater("leg", 5, "the depth, ", 5, "measure")
    with pytest.raises(GeometryError, match="must be within 100000 mm of the origin"):
        need_place("tap", 0, math.nan)


@pytest.mark.example
def test_a_triangle_names_the_side_that_is_too_long():
    need_triangle(("a", "b", "c"), (3, 4, 6.9))
    with pytest.raises(GeometryError, match="c is 7 mm; a 3 mm and b 4 mm reach 7 mm together"):
        need_triangle(("a", "b", "c"), (3, 4, 7))
