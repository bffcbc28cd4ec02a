from __future__ import annotations

import pytest

from edgewright.cutlist.shortage import extra_strips, shortage_of
from edgewright.design.build import build_design
from edgewright.design.model import Design
from edgewright.jobfile import parse_job

INCH = 8128


def design(trim: str, rest: str = "") -> Design:
    return build_design(
        parse_job(
            f"""
            [job]
            title = "short"
            units = "in"
            [top]
            length = 72
            width = 42
            thickness = "23/32 in"
            material = "plywood"
            [trim]
            {trim}
            {rest}
            """
        )
    )


@pytest.mark.example
def test_nothing_to_cut_from() -> None:
    """Nothing comes off: the four sides, 72 twice and 38 twice with strips of 2, are all to be bought."""
    short = shortage_of(design(""), 2 * INCH)
    assert (short.sides, short.lanes, short.have_ticks) == (4, 0, 0)
    assert short.need_ticks == short.sides_sum_ticks == 220 * INCH
    assert short.by_length
    # three strips of 76 1/8: 72, 72, 38 + 1/8 + 38; fewer and longer than a sheet of 96 do not do
    assert extra_strips(design("", "[splice]\nallowed = false"), 2 * INCH) == (3, int(76.125 * INCH))


@pytest.mark.example
def test_kerfs_that_decide_are_named() -> None:
    """36 + 36 + 1/8 from 72 twice over: lengths alone would do, one kerf a strip does not."""
    job = design("north = 4", '[edge]\nthrough = "short"\n[splice]\nallowed = false')
    # strips of 1 7/8 from 4: two lanes of 72 = 144; sides 38 + 38 + 68 1/4 twice = 212 1/2: by length already
    plain = shortage_of(job, 15 * INCH // 8)
    assert plain.joints_ticks == 0
    assert (plain.need_ticks, plain.have_ticks) == (int(212.5 * INCH), 144 * INCH)
    # a board of 68 1/2 makes 212 1/2 exactly: now the one kerf of four sides from three strips decides
    board = '[[stock]]\nname = "b"\nlength = "68 1/2 in"\nwidth = 2\nthickness = "23/32 in"'
    tight = shortage_of(design("north = 4", f'[edge]\nthrough = "short"\n{board}'), 15 * INCH // 8)
    assert (tight.need_ticks - tight.have_ticks, tight.joints_ticks) == (INCH // 8, INCH // 8)
    assert "1/8 in of it for kerfs" in tight.sentence
    assert tight.by_length


@pytest.mark.example
def test_long_enough_but_not_under_the_rules() -> None:
    """Three strips of 72 are enough for 2 x 72 1/8 and the ends, but not in whole pieces."""
    short = shortage_of(
        design("north = 6", '[edge]\nproud = "1/16 in"\n[splice]\nallowed = false'), 15 * INCH // 8
    )
    assert not short.by_length
    assert not short.proven
    assert short.need_ticks <= short.have_ticks
    assert "every side whole" in short.sentence
    assert short.buy_length_ticks == int(72.125 * INCH)  # two of them
    assert short.buy_sentence.startswith("Buy or find 2 more strips")
