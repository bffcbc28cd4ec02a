"""Edges that a keep line is measured from, on rectangles and trapezia."""

from __future__ import annotations

import pytest

from edgewright.design.outline import Line, Outline, Point, rectangle
from edgewright.design.trims.cut_datum import edge_kept, edge_off

NAMES = ("south", "east", "north", "west")


def polygon(points: list[Point]) -> Outline:
    return Outline(tuple(Line(a, b) for a, b in zip(points, [*points[1:], points[0]], strict=True)))


def trapezium(east: float, west: float) -> Outline:
    return polygon([(0.0, 0.0), (1800.0, 0.0), (1800.0, east), (0.0, west)])


@pytest.mark.example
def test_a_taper_is_measured_from_the_edge_that_stays() -> None:
    # kept side to the left of a line that runs west
    keep = Line((1800.0, 700.0), (0.0, 700.0))
    datum = edge_kept(trapezium(750.0, 800.0), NAMES, keep)
    assert datum is not None
    assert (datum.name, datum.stays, datum.both_ends) == ("south", True, True)
    assert datum.distance == pytest.approx(700.0)
    assert edge_off(trapezium(750.0, 800.0), NAMES, keep) is None


@pytest.mark.example
def test_an_equal_amount_is_measured_from_the_edge_that_comes_off() -> None:
    # 50 mm off a leaning north edge, parallel to it
    rise = 90.0
    size = (1800.0**2 + rise**2) ** 0.5
    down = 50.0 * size / 1800.0
    rim = trapezium(700.0 + rise, 700.0)
    keep = Line((1800.0, 700.0 + rise - down), (0.0, 700.0 - down))
    datum = edge_off(rim, NAMES, keep)
    assert datum is not None
    assert (datum.name, datum.stays) == ("north", False)
    assert datum.distance == pytest.approx(50.0)
    assert edge_kept(rim, NAMES, keep) is None


@pytest.mark.example
@pytest.mark.parametrize(("lean", "told"), [(0.04, True), (0.06, False)])
def test_parallel_is_within_a_twentieth_of_a_millimetre(lean: float, told: bool) -> None:
    keep = Line((1800.0, 700.0 + lean), (0.0, 700.0))
    assert (edge_kept(rectangle(1800, 1000), NAMES, keep) is not None) == told


@pytest.mark.example
def test_an_edge_that_lies_opposite_to_a_part_only_is_told_so_or_not_at_all() -> None:
    keep = Line((1800.0, 700.0), (0.0, 700.0))
    for south, told in ((1200.0, True), (800.0, False)):
        rim = polygon([(0.0, 0.0), (south, 0.0), (1800.0, 400.0), (1800.0, 1000.0), (0.0, 900.0)])
        datum = edge_kept(rim, ("south", "slope", "east", "north", "west"), keep)
        assert (datum is not None) == told
        if datum is not None:
            assert not datum.both_ends
