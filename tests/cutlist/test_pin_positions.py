"""Pins stand in their own strips, near enough to each other, and none where the corner will be rounded."""

import math
from itertools import pairwise

import pytest
import shapely
from sheet_jobs import JOBS, sheet_plan

from edgewright.cutlist.pin_positions import pin_positions
from edgewright.cutlist.sheets.underside import Underside
from edgewright.design.checks import job_pin_choices
from edgewright.design.pins import pin_count

EVERY = pytest.mark.parametrize("name", JOBS)


@pytest.mark.property
@EVERY
def test_each_stands_in_its_own_piece(name):
    plan = sheet_plan(name)
    # a tick on the page for a tick of wood
    under = Underside(plan, 0.0, 0.0, 1 / 320)
    sides = {side.id: side for side in plan.cut_plan.sides}
    strips = {
        piece.id: shapely.Polygon(under.corners(sides[piece.side_id], piece))
        for piece in plan.cut_plan.pieces
    }
    for pin in pin_positions(plan.design, plan.cut_plan):
        assert strips[pin.piece_id].buffer(-320).contains(shapely.Point(pin.x, pin.y)), pin


@pytest.mark.property
@EVERY
def test_no_two_neighbours_are_farther_apart_than_the_spacing(name):
    plan = sheet_plan(name)
    spacing = job_pin_choices(plan.job)[0].spacing
    for piece in plan.cut_plan.pieces:
        spots = sorted(
            (pin.x, pin.y) for pin in pin_positions(plan.design, plan.cut_plan) if pin.piece_id == piece.id
        )
        axis = 0 if len({x for x, _ in spots}) > len({y for _, y in spots}) else 1
        along = sorted(spot[axis] for spot in spots)
        assert all(0 < b - a <= spacing + 1e-6 for a, b in pairwise(along))


@pytest.mark.property
@EVERY
def test_none_is_driven_in_or_beside_a_rounded_corner(name):
    plan = sheet_plan(name)
    length, width = plan.cut_plan.finished_ticks
    reach = (max(plan.design.corner_radii_mm) + 25.4) * 320 if any(plan.design.corner_radii_mm) else -math.inf
    for pin in pin_positions(plan.design, plan.cut_plan):
        # all corners of these jobs are alike
        near = min(pin.x, length - pin.x) <= reach and min(pin.y, width - pin.y) <= reach
        assert pin.left_out == near


@pytest.mark.property
@EVERY
def test_with_those_left_out_they_are_as_many_as_the_formula_says(name):
    plan = sheet_plan(name)
    cut = plan.cut_plan
    choices = job_pin_choices(plan.job)
    pinned = {side.id for side in cut.sides if choices[side.layer - 1].length is not None}
    pieces = [piece.length_ticks for piece in cut.pieces if piece.side_id in pinned]
    square = cut.corners != "mitre" and not any(plan.design.corner_radii_mm)
    corners = len(pinned) if square else 0
    found = pin_positions(plan.design, cut)
    assert len(found) == pin_count(pieces, cut.strip_width_ticks, choices[0].spacing, corners)
    assert sum(pin.at_corner for pin in found) == 2 * corners
