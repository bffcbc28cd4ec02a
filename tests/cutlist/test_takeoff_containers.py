"""Containers always hold the high figure, and never twice as much as a smaller choice would."""

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewright.convert import convert
from edgewright.cutlist.takeoff_containers import containers

OUNCES = {"gallon": 128, "quart": 32, "pint": 16, "8 fl oz": 8, "4 fl oz": 4}
MILLILITRES = {"4 l": 4000, "1 l": 1000, "500 ml": 500, "250 ml": 250, "125 ml": 125}


def bought(text, sizes):
    """Volume and number of containers, read back from the words."""
    volume = number = 0
    for part in text.split(":")[0].split(" + "):
        count, name = re.fullmatch(r"(\d+) (?:× )?(.+?)s?", part).groups()
        volume += int(count) * sizes[name]
        number += int(count)
    return volume, number


def say(ounces, **options):
    return containers(convert(ounces, "fl_oz", "mm**3"), "in", **options)


@pytest.mark.example
@pytest.mark.parametrize(
    ("ounces", "names"),
    [
        (7, "1 × 8 fl oz"),
        (8, "1 × 8 fl oz"),
        (15.8, "1 pint"),
        (22, "1 pint + 1 × 8 fl oz"),
        (26.7, "1 quart"),
        (50, "2 quarts"),
        (70, "1 gallon"),
        (155.9, "1 gallon + 1 quart"),
        (256, "2 gallons"),
        (300, "2 gallons + 1 quart + 1 pint"),
    ],
)
def test_inch_sizes(ounces, names):
    assert say(ounces).split(":")[0] == names


@pytest.mark.example
def test_metric_sizes_and_small_bottles():
    assert containers(812.4e3, "mm") == "1 × 1 l: 1000 ml, for the high figure of 812 ml"
    assert containers(4.9e6, "mm").startswith("1 × 4 l + 1 × 1 l:")
    assert say(1.7, small_bottles=True).startswith("1 × 4 fl oz:")
    assert containers(51e3, "mm", small_bottles=True).startswith("1 × 125 ml:")


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=150)
@given(st.floats(0.1, 2000), st.booleans())
def test_containers_hold_the_need_with_little_over(ounces, small):
    volume, _ = bought(say(ounces, small_bottles=small), OUNCES)

    assert volume >= ounces * (1 - 1e-6)
    # at worst a gallon stands in for just over two quarts
    assert volume - ounces < 64
    assert volume <= max(8, 2 * ounces)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=100)
@given(st.floats(1, 60000))
def test_metric_containers_hold_the_need(millilitres):
    text = containers(convert(millilitres, "mL", "mm**3"), "mm")
    volume, number = bought(text, MILLILITRES)

    assert millilitres * (1 - 1e-6) <= volume <= max(250, 2 * millilitres)
    assert number <= volume // 4000 + 2
