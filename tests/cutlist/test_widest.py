from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewright.cutlist.cutting import make_cut_plan
from edgewright.cutlist.demand import ring_sides, sticks_for
from edgewright.cutlist.widest import length_need, try_width, widest_strip, width_candidates
from edgewright.design.build import build_design
from edgewright.design.model import Design
from edgewright.jobfile import parse_job

INCH = 8128
GRID = INCH // 32


def design(trim: str, *, top: str = "", rest: str = "", length: float = 72, width: float = 42) -> Design:
    return build_design(
        parse_job(
            f"""
            [job]
            title = "widest"
            units = "in"
            [top]
            length = {length}
            width = {width}
            thickness = "23/32 in"
            material = "plywood"
            {top}
            [trim]
            {trim}
            {rest}
            """
        )
    )


@pytest.mark.example
def test_candidates_are_the_cap_and_the_widest_for_each_number_of_lanes() -> None:
    """From 6 in: 6 / n - 1/8 down to the 1/32, between the cap of 3 and 1/4."""
    found = width_candidates(design("north = 6"))
    by_hand = {3 * INCH} | {n * GRID for n in (92, 60, 44, 34, 28, 23, 20, 17, 15, 13, 12, 10, 9, 8)}
    assert set(found) == by_hand
    assert list(found) == sorted(found, reverse=True)


@pytest.mark.example
def test_a_board_on_hand_gives_candidates_and_one_for_sale_does_not() -> None:
    board = '[[stock]]\nname = "b"\nlength = 40\nwidth = "2 1/2 in"\nthickness = "23/32 in"\n'
    own, sale = design("north = 6", rest=board), design("north = 6", rest=board + "price = 4")
    assert 2.5 * INCH in width_candidates(own)
    assert 2.5 * INCH not in width_candidates(sale)


@pytest.mark.example
def test_need_counts_the_kerfs_that_cannot_be_saved() -> None:
    """Four sides from three lanes: one kerf at least; from four or more none; nested mitres save for each joint."""
    job = design("north = 6")
    width = 15 * INCH // 8
    sides, sticks = ring_sides(job, width), sticks_for(job, width)
    total = int(208.5 * INCH)
    assert length_need(sides, sticks, 1016, splices=True) == (total, 1016, 216 * INCH)
    more = (*sticks, replace(sticks[0], id="again"))
    assert length_need(sides, more, 1016, splices=True) == (total, 0, 432 * INCH)
    assert length_need(sides, sticks, -800, splices=False)[1] == -2400
    assert length_need(sides, sticks, -800, splices=True)[1] == -3200


@pytest.mark.example
def test_a_width_between_two_candidates_where_an_old_corner_is_round() -> None:
    """72 x 44 to 38, whole pieces, old corners of radius 2. The ends take 2 x (38 - 2 w) + 1/8 of the outermost strip.

    w 1 7/8 leaves nothing over: that strip lies at the edge and is 72 - 4 = 68 long, the ends take 68 5/8.
    w 1 27/32 leaves 3/32 over: the strip begins 2 - sqrt(4 - (2 - 3/32)²) = 1.395 in, so 69.2 are left for 68 3/4.
    """
    job = design("north = 6", width=44, top="corner_radius = 2", rest="[splice]\nallowed = false")
    width, trials = widest_strip(job)
    assert width == 59 * GRID
    tried = {trial.strip_width_ticks: trial.fits for trial in trials}
    assert tried[60 * GRID] is False
    assert list(tried) == sorted(tried, reverse=True)


@pytest.mark.example
def test_a_width_between_two_candidates_where_the_stagger_decides() -> None:
    """Twelve boards of 37 1/2 x 1 7/8 for the long sides of two layers: splices within 36 ± 1 1/2, at most 3 apart.

    A stagger of 2 w is 3 3/4 at w 1 7/8 and 3 at w 1 1/2, the next number of lanes would come only far below.
    """
    boards = (
        '[[stock]]\nname = "b"\nlength = "37 1/2 in"\nwidth = "1 7/8 in"\nthickness = "23/32 in"\ncount = 8\n'
    )
    ends = '[[stock]]\nname = "e"\nlength = "36 in"\nwidth = "1 7/8 in"\nthickness = "23/32 in"\ncount = 4\n'
    edge = '[edge]\nlayers = 2\ncorners = "mitre"\nnest_mitres = false\n'
    job = design('north = "1/4 in"', width=36.25, rest=edge + boards + ends)
    width, trials = widest_strip(job)
    assert width == 48 * GRID
    wide, layout = try_width(job, 60 * GRID, for_sale=False)
    assert layout is None
    assert wide.need_ticks <= wide.have_ticks
    assert trials[-1].fits


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=12)
@given(
    st.integers(12, 32),
    st.integers(0, 16),
    st.integers(0, 12),
    st.sampled_from(["butt", "mitre", "pinwheel"]),
    st.booleans(),
)
def test_no_width_on_the_grid_above_the_answer_fits(
    off: int, other: int, radius: int, corners: str, splices: bool
) -> None:
    job = design(
        f"north = {off / 4}\nsouth = {other / 4}",
        top=f"corner_radius = {radius / 2}",
        rest=f'[edge]\ncorners = "{corners}"\n[splice]\nallowed = {str(splices).lower()}',
    )
    width, trials = widest_strip(job)
    assert (width is not None) == trials[-1].fits
    lowest = 8 * GRID if width is None else width + GRID
    for above in range(lowest, 96 * GRID + 1, GRID):
        assert not try_width(job, above, for_sale=False)[0].fits


@pytest.mark.example
@pytest.mark.parametrize(
    ("corners", "widest"),
    # of a top 3 in wide half at most; a strip of 1/2 in fits between two butted ones
    [("mitre", 1.5), ("pinwheel", 1.5), ("butt", 1.25)],
)
def test_the_ring_of_a_narrow_top_has_no_strip_on_another(corners: str, widest: float) -> None:
    """Plenty of wood beside a narrow top: the checker refuses strips that overlap or have no length."""
    job = design("finished_width = 3", length=48, width=16, rest=f'[edge]\ncorners = "{corners}"')
    plan = make_cut_plan(job)
    assert plan.strip_width_ticks == widest * INCH
    assert plan.status == "ready"
