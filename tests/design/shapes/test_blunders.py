"""Likely misreadings among four sides and two diagonals."""

from __future__ import annotations

import math

import pytest
from shape_cases import inches

from edgewright.design.shapes.blunders import blunder_suggestions, likely_blunders

DIAGONAL = math.hypot(72, 36)


@pytest.mark.example
def test_the_side_that_restores_equal_sides_comes_first():
    # one of four that close: that side, its opposite, and either long side by half an inch (diagonals likewise)
    found = likely_blunders(inches(72, 36, 72, 35, DIAGONAL, DIAGONAL), 3.175)

    assert (found[0].number, found[0].slip, found[0].restores) == (3, "1 in short", True)
    assert not any(blunder.restores for blunder in found[1:])
    others = {(blunder.number, blunder.slip) for blunder in found[1:]}
    assert {(1, "1 in short"), (0, "1/2 in short"), (2, "1/2 in short")} <= others


@pytest.mark.example
def test_a_six_taken_for_a_nine():
    # 36 read as 39, and 69 as 66, both three inches
    found = likely_blunders(inches(72, 39, 72, 36, DIAGONAL, DIAGONAL), 3.175)
    assert (found[0].number, found[0].slip) == (1, "with a 6 taken for a 9")

    long = math.hypot(69, 36)
    found = likely_blunders(inches(66, 36, 69, 36, long, long), 3.175)
    assert (found[0].number, found[0].slip) == (0, "with a 9 taken for a 6")


@pytest.mark.example
def test_a_kerf_and_half_an_inch():
    found = likely_blunders(inches(71.875, 36, 72, 36, DIAGONAL, DIAGONAL), 3.175)
    assert (found[0].number, found[0].slip) == (0, "one kerf short")

    found = likely_blunders(inches(72, 36.5, 72, 36, DIAGONAL, DIAGONAL), 3.175)
    assert (found[0].number, found[0].slip) == (1, "1/2 in long")


@pytest.mark.example
def test_a_kerf_of_half_an_inch_is_said_once():
    found = likely_blunders(inches(72, 36.5, 72, 36, DIAGONAL, DIAGONAL), 12.7)

    assert len({(blunder.number, blunder.true) for blunder in found}) == len(found)


@pytest.mark.example
def test_a_metric_tape_slips_by_its_own_marks():
    diagonal = math.hypot(1800, 900)
    says = blunder_suggestions((1800, 900, 1800, 800, diagonal, diagonal), 3.0, "mm")

    assert says[0].startswith("west side 800 mm may have been read 100 mm short: with 900 mm")
    # 1896 read as 1866 moves a side by 30 mm
    diagonal = math.hypot(1896, 900)
    found = likely_blunders((1866, 900, 1896, 900, diagonal, diagonal), 3.0, "mm")
    assert (found[0].number, found[0].slip) == (0, "with a 9 taken for a 6")


@pytest.mark.example
def test_an_error_of_no_usual_size_is_to_be_measured_again():
    # 1.7 in on a side: no single slip closes it
    says = blunder_suggestions(inches(72, 36, 72, 34.3, DIAGONAL, DIAGONAL), 3.175)

    assert says == ("no single slip of a usual size makes sides and diagonals close: measure all six again",)
