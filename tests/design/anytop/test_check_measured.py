"""Findings 105 and 109: what measurements say of one another."""

from __future__ import annotations

import pytest
from anytop_jobs import design

INCH = 25.4


def quad(south: float, east: float, north: float, west: float, one: float, other: float):
    """Findings of a quadrilateral by its figures in inches."""
    figures = [value * INCH for value in (south, east, north, west, one, other)]
    text = 'shape = "quad"\nsouth = {}\neast = {}\nnorth = {}\nwest = {}\ndiagonals = [{}, {}]'.format(
        *figures
    )
    return [found for found in design(text).findings if found.number in (105, 109)]


@pytest.mark.reference
def test_a_top_that_leans_is_no_misreading() -> None:
    """Common practice: 72 by 36 with diagonals 80.55 and 80.44 leans 1/16 in."""
    (found,) = quad(72, 36, 72, 36, 80.55, 80.44)
    assert (found.number, found.severity) == (105, "note")
    assert found.figures == "the diagonals differ by 2.79 mm"
    assert "out of square by" in found.change
    assert "measure again" not in found.change


@pytest.mark.example
def test_a_true_parallelogram_is_not_to_be_measured_again() -> None:
    # sides 60 and 30 and a right triangle of 24 and 18 at each end: √(84² + 18²)... of corners (60, 0), (84, 18)
    one, other = (84**2 + 18**2) ** 0.5, (36**2 + 18**2) ** 0.5
    (found,) = quad(60, 30, 60, 30, one, other)
    assert (found.number, found.severity) == (105, "note")


@pytest.mark.reference
def test_an_inch_burnt_on_a_short_side_is_one_stop_with_the_likely_slip_first() -> None:
    """Common practice: the other diagonal is predicted about 0.45 in off, 11.2 mm."""
    (found,) = quad(72, 35, 72, 36, 80.55, 80.44)
    assert (found.number, found.severity, found.overridable) == (109, "stop", True)
    assert found.figures.startswith("south-east to north-west diagonal: measured 2043.18 mm")
    # all six lie off the fit: they are counted
    assert found.figures.endswith("; 6 more disagree")
    assert found.change.index("likely: ") < found.change.index("measure again")
    assert "best fit of all six" in found.change
    assert "Nothing was corrected" not in found.change


@pytest.mark.example
@pytest.mark.parametrize(("off", "severity"), [(0.05, None), (0.1, "warn"), (0.24, "warn"), (0.26, "stop")])
def test_a_quarter_of_an_inch_is_the_bound(off: float, severity: str | None) -> None:
    """A true rectangle of 48 by 36 has diagonals of 60; what one of them is off is the misclosure."""
    found = [one for one in quad(48, 36, 48, 36, 60, 60 + off) if one.number == 109]
    assert [one.severity for one in found] == ([] if severity is None else [severity])


@pytest.mark.example
def test_a_round_top_tells_what_is_used() -> None:
    (found,) = [
        one for one in design('shape = "round"\ndiameters = [800, 806]').findings if one.number == 109
    ]
    assert found.severity == "warn"
    assert found.figures.startswith("spread of the diameters: measured 6.00 mm")
    assert found.figures.endswith("2 more disagree")
    assert "mean diameter" in found.change
