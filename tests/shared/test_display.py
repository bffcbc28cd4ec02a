from __future__ import annotations

import math
from fractions import Fraction
from itertools import accumulate, pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewright.display import (
    SHOWN_TICKS,
    rounded_parts,
    show_area,
    show_decimal,
    show_mm,
    show_ticks,
    show_volume,
    shown_edge_areas,
    shown_run,
)
from edgewright.units import Units, read_length

thorough = settings(derandomize=True, deadline=None, max_examples=2000)
modest = settings(derandomize=True, deadline=None, max_examples=500)
UNITS: st.SearchStrategy[Units] = st.sampled_from(["in", "mm"])


# 1 in = 8128 ticks, 1/64 in = 127 ticks, 1 mm = 320 ticks
@pytest.mark.example
@pytest.mark.parametrize(
    ("ticks", "units", "shown"),
    [
        (0, "in", "0 in"),
        (8128, "in", "1 in"),
        (15 * 1016, "in", "1 7/8 in"),
        (127, "in", "1/64 in"),
        (4064, "in", "1/2 in"),
        (-4064, "in", "-1/2 in"),
        (-3 * 4064, "in", "-1 1/2 in"),
        (41 * 8128 + 5 * 1016, "in", "41 5/8 in"),
        (41 * 8128 + 5 * 1016 + 30, "in", "~41 5/8 in"),
        (41 * 8128 + 5 * 1016 - 30, "in", "~41 5/8 in"),
        (1, "in", "~0 in"),
        (-1, "in", "~0 in"),
        (0, "mm", "0 mm"),
        (1830 * 320, "mm", "1830 mm"),
        (40 * 320 + 96, "mm", "40.3 mm"),
        (-32, "mm", "-0.1 mm"),
        # a saw kerf of 1/8 in is 3.175 mm: exact in three decimals, so nothing is rounded
        (1016, "mm", "3.175 mm"),
        # 1/64 in = 0.396875 mm: rounded
        (127, "mm", "~0.4 mm"),
        (1, "mm", "~0 mm"),
    ],
)
def test_lengths_as_shown(ticks: int, units: Units, shown: str) -> None:
    assert show_ticks(ticks, units) == shown
    assert show_ticks(ticks, units, unit=False) == shown.removesuffix(f" {units}")


@pytest.mark.example
@pytest.mark.parametrize(
    ("mm", "units", "shown"),
    [
        (1057.275, "in", "41 5/8 in"),
        (1057.3, "in", "41 5/8 in"),
        (-12.7, "in", "-1/2 in"),
        (0.05, "in", "0 in"),
        (40.26, "mm", "40.3 mm"),
        (40.0, "mm", "40 mm"),
        (-0.01, "mm", "0 mm"),
        (-0.26, "mm", "-0.3 mm"),
    ],
)
def test_free_lengths_as_shown(mm: float, units: Units, shown: str) -> None:
    assert show_mm(mm, units) == shown
    assert show_mm(mm, units, unit=False) == shown.removesuffix(f" {units}")


@pytest.mark.example
def test_areas_and_volumes_as_shown() -> None:
    # 395.55 in² * 645.16 mm²/in² = 255193 mm²
    assert show_area(255193.0, "in") == "395.55 in²"
    assert show_area(255193.0, "mm") == "0.255 m²"
    # 6.9 fl oz * 29573.53 mm³ = 204057 mm³
    assert show_volume(204057.0, "in") == "6.9 fl oz"
    assert show_volume(204057.0, "mm") == "204 ml"
    assert show_area(-0.1, "mm", unit=False) == "0.000"
    assert show_volume(204057.0, "mm", unit=False) == "204"


@pytest.mark.example
def test_areas_of_an_edge_add_up_as_shown() -> None:
    # 124.707 + 146.139 + 124.707 = 395.553 in²: 395.55 leaves one of three hundredths to give to the largest rest
    sizes = [area * 645.16 for area in (124.7074, 146.1394, 124.7072)]
    assert shown_edge_areas(sizes, "in") == (["124.71 in²", "146.14 in²", "124.70 in²"], "395.55 in²")
    # 4.704 + 12.106 + 4.704 = 21.514 cm²
    metric = shown_edge_areas([470.4, 1210.6, 470.4], "mm")
    assert metric == (["4.7 cm²", "12.1 cm²", "4.7 cm²"], "21.5 cm²")


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=200)
@given(st.lists(st.floats(0, 1e6), min_size=1, max_size=6), st.integers(0, 4))
def test_rounded_parts_add_up_and_stay_near(parts: list[float], places: int) -> None:
    shown, total = rounded_parts(parts, math.fsum(parts), places)
    step = 10.0**-places
    assert sum(shown) == total
    assert abs(float(total) - math.fsum(parts)) <= step / 2 + 1e-9
    assert all(abs(float(a) - b) < step + 1e-9 for a, b in zip(shown, parts, strict=True))


@pytest.mark.example
def test_a_run_rounds_positions_once_and_takes_widths_from_them() -> None:
    # thirds of an inch, 2709 ticks = 21.33/64: positions round to 21, 43 and 64 sixty-fourths,
    # so the widths are 21, 22 and 21; each rounded alone would be 21 and they would not add up to 64
    positions, widths = shown_run([0, 2709, 5419, 8128], "in")
    assert positions == ["0 in", "21/64 in", "43/64 in", "1 in"]
    assert widths == ["21/64 in", "11/32 in", "21/64 in"]


@pytest.mark.example
def test_a_run_may_be_short_but_must_ascend() -> None:
    assert shown_run([], "in") == ([], [])
    assert shown_run([320], "mm", unit=False) == (["1"], [])
    assert shown_run([0, 0], "mm") == (["0 mm", "0 mm"], ["0 mm"])
    with pytest.raises(ValueError, match="ascend"):
        shown_run([320, 0], "mm")


@pytest.mark.property
@thorough
@given(st.integers(-(10**5), 10**5), UNITS)
def test_on_the_grid_what_is_shown_reads_back_exactly(steps: int, units: Units) -> None:
    ticks = steps * SHOWN_TICKS[units]
    length = read_length(show_ticks(ticks, units))
    assert length.ticks() == length.ticks_up() == length.ticks_down() == ticks


@pytest.mark.property
@thorough
@given(st.integers(-(10**7), 10**7), UNITS)
def test_a_tilde_stands_before_rounded_figures_and_no_others(ticks: int, units: Units) -> None:
    shown = show_ticks(ticks, units)
    error = abs(read_length(shown.removeprefix("~")).exact_mm - Fraction(ticks, 320))
    assert shown.startswith("~") == (error > 0)
    assert error <= (Fraction(127, 640) if units == "in" else Fraction(1, 20))


@pytest.mark.property
@modest
@given(st.floats(-1e5, 1e5), UNITS)
def test_a_free_length_is_off_by_half_a_step_at_most(mm: float, units: Units) -> None:
    error = abs(read_length(show_mm(mm, units)).exact_mm - Fraction(mm))
    assert error <= Fraction(SHOWN_TICKS[units], 640) + Fraction(1, 10**9)


@pytest.mark.property
@modest
@given(st.integers(0, 10**5), st.lists(st.integers(0, 20_000), min_size=1, max_size=12), UNITS)
def test_shown_widths_add_up_to_shown_positions(start: int, widths: list[int], units: Units) -> None:
    run = list(accumulate(widths, initial=start))
    positions, shown = shown_run(run, units)
    at = [read_length(text).exact_mm for text in positions]
    wide = [read_length(text).exact_mm for text in shown]
    assert [b - a for a, b in pairwise(at)] == wide
    assert at[0] + sum(wide) == at[-1]
    assert min(wide) >= 0
    half = Fraction(SHOWN_TICKS[units], 640)
    assert all(abs(a - Fraction(ticks, 320)) <= half for a, ticks in zip(at, run, strict=True))


@pytest.mark.example
def test_a_computed_length_is_shown_in_decimals() -> None:
    assert show_decimal(1.8656 * 25.4, "in") == "1.8656 in"
    assert show_decimal(5399.1858, "mm") == "5399.19 mm"
