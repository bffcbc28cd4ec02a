from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewright.compass import PerSide
from edgewright.design.trim import AxisTrim, trim_axis, trim_sizes
from edgewright.jobfile import parse_job

INCH = 8128
GRID = INCH // 32


def sizes(trim: str, *, length: str = "72 in", width: str = "42 in", info: str = 'units = "in"') -> Any:
    return trim_sizes(
        parse_job(
            f"""
            [job]
            title = "trim"
            {info}
            [top]
            length = "{length}"
            width = "{width}"
            thickness = "23/32 in"
            material = "plywood"
            [trim]
            {trim}
            """
        )
    )


@pytest.mark.example
def test_what_comes_off_one_side() -> None:
    made = sizes("north = 6")
    assert (made.old, made.finished, made.origin) == (
        (72 * INCH, 42 * INCH),
        (72 * INCH, 36 * INCH),
        (0, 0),
    )
    assert made.amounts == PerSide(6 * INCH, 0, 0, 0)


@pytest.mark.example
def test_the_origin_moves_with_the_south_west_corner() -> None:
    made = sizes("north = 1\neast = 2\nsouth = 3\nwest = 4")
    assert made.finished == (66 * INCH, 38 * INCH)
    assert made.origin == (4 * INCH, 3 * INCH)


@pytest.mark.example
def test_a_finished_size_from_one_side_or_both() -> None:
    assert sizes('finished_width = 36\nwidth_from = "north"').amounts == PerSide(6 * INCH, 0, 0, 0)
    assert sizes('finished_width = 36\nwidth_from = "south"').amounts == PerSide(0, 0, 6 * INCH, 0)
    assert sizes("finished_width = 36").amounts == PerSide(3 * INCH, 0, 3 * INCH, 0)
    assert sizes('finished_length = 70\nlength_from = "west"').amounts == PerSide(0, 0, 0, 2 * INCH)


@pytest.mark.example
def test_only_what_is_chosen_is_snapped() -> None:
    """41 63/64 less 6 is 35 63/64: off the 1/32 grid, so the keep line goes to 36; the uncut length stays as read."""
    made = sizes("north = 6", length="71 63/64 in", width="41 63/64 in")
    assert made.finished == (72 * INCH - 127, 36 * INCH)
    assert made.amounts.north == 6 * INCH - 127
    # 1060.3 less 100 is 960.3: on the 0.5 mm grid that is 960.5
    metric = sizes('north = "100 mm"', length="1830 mm", width="1060.3 mm", info='units = "mm"')
    assert metric.finished[1] == 960.5 * 320
    assert metric.amounts.north == 99.8 * 320


@pytest.mark.example
def test_an_uneven_half_keeps_the_finished_size() -> None:
    """41 15/16 to 36 from both sides: halves of 2 31/32 each; with 1/64 more to share the finished size stays whole."""
    made = sizes("finished_width = 36", width="41 15/16 in")
    assert made.finished[1] == 36 * INCH
    odd = sizes("finished_width = 36", width="41 61/64 in")
    assert odd.amounts.north + odd.amounts.south == 42 * INCH - 127 * 3 - 36 * INCH
    assert odd.finished[1] == 36 * INCH


lengths = st.integers(10 * INCH, 240 * INCH)
amounts = st.integers(0, 4 * INCH)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=400)
@given(lengths, amounts, amounts, st.sampled_from([GRID, 160, 127, 32, 1]))
def test_parts_add_up_and_keep_lines_lie_on_the_grid(old: int, low: int, high: int, grid: int) -> None:
    made = trim_axis(old, low, high, grid)
    assert made.low + made.finished + made.high == old
    # first cut: from the old low edge; second: from the fresh high edge
    if high:
        assert (old - made.high) % grid == 0
    if low:
        assert made.finished % grid == 0
    assert abs(made.high - high) * 2 <= grid
    assert abs(made.low - low) <= grid
    if not low and not high:
        assert made == AxisTrim(old, 0, 0)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=200)
@given(lengths, amounts, amounts)
def test_what_lies_on_the_grid_is_not_moved(old: int, low: int, high: int) -> None:
    old, low, high = (n // GRID * GRID for n in (old, low, high))
    assert trim_axis(old, low, high, GRID) == AxisTrim(old - low - high, low, high)
