"""Where the base stands under a top of any outline."""

from __future__ import annotations

import math

import pytest
from anytop_jobs import BOARD, PLAIN_EDGE, design, job
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewright.compass import SIDES
from edgewright.design.anytop.base_fit import box_trims, shaped_base_fit
from edgewright.design.base import base_fit
from edgewright.design.model import BaseFit
from edgewright.design.outline import rectangle
from edgewright.design.shapes.model import Shape
from edgewright.design.shapes.placing import placed
from edgewright.design.trim import trim_sizes
from edgewright.errors import EdgewrightError
from edgewright.job import Job
from edgewright.jobfile import parse_any_job

ROUND = 'shape = "round"\ndiameters = [1000]'
TRIMS = "[trim.edges]\nnorth = 40\neast = 10\n"


def fit(outline: str, more: str) -> BaseFit:
    made = design(outline, PLAIN_EDGE, more)
    return shaped_base_fit(made.job, made.old, made.finished)


def by_side(found: BaseFit) -> list[float | None]:
    return [found.overhang[side] for side in SIDES]


@pytest.mark.example
def test_base_that_stays_loses_overhang_where_the_top_is_cut() -> None:
    found = fit(BOARD, TRIMS + "[base]\noverhang = 100\n")
    assert by_side(found) == pytest.approx([60, 90, 100, 100])
    # half of what comes off, towards the cut side: 10 east and 40 north
    assert found.offset == pytest.approx((5, 20))


@pytest.mark.example
def test_base_that_is_moved_shares_what_is_left() -> None:
    found = fit(BOARD, TRIMS + "[base]\noverhang = 100\nmoved = true\n")
    assert by_side(found) == pytest.approx([80, 95, 80, 95])
    assert found.offset == pytest.approx((0, 0))


@pytest.mark.example
def test_without_a_base_only_the_way_off_the_middle_is_known() -> None:
    found = fit(BOARD, TRIMS)
    assert by_side(found) == [None] * 4
    assert found.offset == pytest.approx((5, 20))


@pytest.mark.example
def test_round_top_is_measured_where_it_touches_its_box() -> None:
    """1000 mm across, 30 off all round, over a base of 700 x 600."""
    found = fit(ROUND, "[trim]\nall_round = 30\n[base]\nfootprint_length = 700\nfootprint_width = 600\n")
    assert by_side(found) == pytest.approx([170, 120, 170, 120])
    assert found.offset == pytest.approx((0, 0), abs=1e-9)


@pytest.mark.example
def test_top_that_is_turned_to_be_cut_square_lies_askew_on_its_base() -> None:
    """A board of 1000 x 600 turned by a twentieth of a radian, cut to 900 x 520 about its middle; base 800 x 400."""
    more = "[trim]\nlargest_rectangle = true\n[base]\noverhang = 100\n"
    old = placed(Shape(rectangle(1000, 600), ("south", "east", "north", "west")), (30, 0), 0.05)
    x0, y0, x1, y1 = old.outline.bounds
    middle = ((x0 + x1) / 2, (y0 + y1) / 2)
    new = Shape(rectangle(900, 520, origin=(middle[0] - 450, middle[1] - 260)), old.names)
    found = shaped_base_fit(job(BOARD, PLAIN_EDGE, more), old, new)
    along = (900 - 800 * math.cos(0.05) - 400 * math.sin(0.05)) / 2
    up = (520 - 800 * math.sin(0.05) - 400 * math.cos(0.05)) / 2
    assert by_side(found) == pytest.approx([up, along, up, along])
    assert found.offset == pytest.approx((0, 0), abs=1e-9)
    # moved, it is set square again
    moved = shaped_base_fit(job(BOARD, PLAIN_EDGE, more + "moved = true\n"), old, new)
    assert by_side(moved) == pytest.approx([60, 50, 60, 50])


@pytest.mark.example
def test_overhangs_that_leave_no_base_are_told() -> None:
    with pytest.raises(EdgewrightError, match=r"leave no base under a top of 1000 x 600 mm: measure"):
        design(BOARD, PLAIN_EDGE, "[base]\noverhang = 300\n")


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=30)
@given(st.tuples(*[st.integers(1, 60)] * 4), st.tuples(*[st.integers(0, 120)] * 4), st.booleans())
def test_rectangle_with_an_outline_stands_as_one_without(
    trims: tuple[int, ...], hangs: tuple[int, ...], moved: bool
) -> None:
    cut = "".join(f"{side} = {by}\n" for side, by in zip(SIDES, trims, strict=True))
    hang = ", ".join(f"{side} = {by}" for side, by in zip(SIDES, hangs, strict=True))
    base = f"[base]\noverhang = {{{hang}}}\nmoved = {str(moved).lower()}\n"
    head = '[job]\ntitle = "t"\nunits = "mm"\n[top]\nthickness = 20\nmaterial = "plywood"\n'
    plain = parse_any_job(f"{head}length = 1000\nwidth = 600\n[trim]\n{cut}{base}")
    assert isinstance(plain, Job)
    wanted = base_fit(plain, trim_sizes(plain))
    north, east, south, west = trims
    old = Shape(rectangle(1000, 600), ("south", "east", "north", "west"))
    new = Shape(rectangle(1000 - east - west, 600 - north - south, origin=(west, south)), old.names)
    found = shaped_base_fit(job(BOARD, PLAIN_EDGE, base), old, new)
    assert by_side(found) == pytest.approx(by_side(wanted))
    assert found.offset == pytest.approx(wanted.offset)
    off = box_trims(old, new)
    assert [off[side] for side in SIDES] == pytest.approx(list(trims))
