"""Blanks from the corners that a round leaves of its square."""

from __future__ import annotations

import pytest

from edgewright.cutlist.shaped_plan import plan_shaped
from edgewright.design.anytop.blanks import corner_blanks
from edgewright.design.anytop.model import ShapedDesign
from edgewright.design.trims.round_from_square import corner_blank_width
from edgewright.job_shaped import ShapedJob
from edgewright.jobfile import parse_any_job

JOB = """
[job]
title = "Round from its square"
units = "in"
[top]
thickness = "3/4"
material = "plywood"
[top.outline]
shape = "rectangle"
length = {square}
width = {square}
[trim.to]
shape = "round"
diameters = {diameter}
[edge]
segments = 12
strip_width = "{width}"
[router]
cutter = "1/8"
"""


def design(diameter: int, width: str = "1 1/2", square: int | None = None) -> ShapedDesign:
    job = parse_any_job(JOB.format(diameter=diameter, width=width, square=square or diameter))
    assert isinstance(job, ShapedJob)
    return plan_shaped(job).design


@pytest.mark.reference
@pytest.mark.parametrize("diameter", [36, 48])
def test_four_corners_give_blanks_as_wide_as_the_diagonal_leaves(diameter: int) -> None:
    # the square's half diagonal R sqrt 2 less half the blank, the radius and the cut: common practice, no source
    top = design(diameter)
    found = corner_blanks(top.old, top.trims, top.pieces, 3.175)
    radius, length = diameter * 12.7, top.pieces[0].blank_length
    assert len(found) == 4
    for blank in found:
        assert blank.blank.width == pytest.approx(corner_blank_width(radius, length, 3.175), rel=1e-6)
        assert len(blank.pieces) == 12


@pytest.mark.example
def test_a_corner_too_small_for_a_piece_gives_none() -> None:
    top = design(36, "2 3/4")
    assert corner_blanks(top.old, top.trims, top.pieces, 12.7) == ()


@pytest.mark.example
def test_what_is_not_routed_gives_no_corner_blank() -> None:
    top = design(48)
    assert corner_blanks(top.old, type(top.trims)(top.old), top.pieces, 3.175) == ()


@pytest.mark.example
def test_a_cut_off_all_round_is_sawn_in_four() -> None:
    top = design(46, square=48)
    found = corner_blanks(top.old, top.trims, top.pieces, 3.175)
    length = top.pieces[0].blank_length
    assert len(found) == 4
    for blank in found:
        wanted = corner_blank_width(23 * 25.4, length, 3.175, 48 * 25.4)
        assert blank.blank.width == pytest.approx(wanted, rel=1e-6)
