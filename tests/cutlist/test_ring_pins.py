"""Pins of a build-up under any outline: far enough from the edge, in their piece, none at a corner to be rounded."""

from __future__ import annotations

import pytest
import shapely
from anytop_jobs import design
from shaped_jobs import SHAPES, shaped_plan

from edgewright.cutlist.ring_corners import rounded_corners
from edgewright.cutlist.ring_pins import ring_pins
from edgewright.design.checks import job_pin_choices
from edgewright.design.outline import Outline
from edgewright.design.segments import point_at
from edgewright.ticks import ticks_to_mm

#: 1000 x 600 mm under strips of 50 mm, corners rounded with 40 mm, pins every 100 mm.
STRIPS = 'build_up = "flat"\nstrip_width = 50\nproud = 0\ntop_round_over = 6\nbottom_round_over = 6\ncorner_radius = 40'
PINS = "[pins]\nspacing = 100"


def polygon(outline: Outline) -> shapely.Polygon:
    return shapely.Polygon([point_at(edge, step / 400) for edge in outline.segments for step in range(400)])


@pytest.mark.property
@pytest.mark.parametrize("name", SHAPES)
def test_a_pin_stands_in_its_piece_and_no_cutter_meets_it(name: str):
    top = shaped_plan(name).design
    pieces = {piece.id: shapely.Polygon(piece.plan) for piece in top.pieces if piece.kind != "skirt"}
    rim = polygon(top.finished.outline)
    for pin in ring_pins(top):
        if pin.left_out:
            continue
        row = ticks_to_mm(job_pin_choices(top.job)[pin.layer - 1].row_from_edge)
        point = shapely.Point(pin.at)
        assert rim.contains(point)
        # the rim is made of chords here
        assert rim.exterior.distance(point) >= row - 0.05
        assert pieces[pin.piece_id].buffer(1e-6).contains(point)


@pytest.mark.example
def test_pins_of_a_rectangle_stand_evenly_in_a_row():
    top = design(edge=STRIPS, more=PINS)
    pins = ring_pins(top)
    row = ticks_to_mm(job_pin_choices(top.job)[0].row_from_edge)
    # the south strip runs through, 1000 mm: ten pins, the first and the last half a spacing from its ends
    south = [pin for pin in pins if pin.at[1] < 60 and 60 < pin.at[0] < 940]
    assert sorted(round(pin.at[0]) for pin in south) == [150, 250, 350, 450, 550, 650, 750, 850]
    assert {round(pin.at[1], 2) for pin in south} == {round(row, 2)}


@pytest.mark.example
def test_no_pin_at_a_corner_that_is_going_to_be_rounded():
    top = design(edge=STRIPS, more=PINS)
    corners = rounded_corners(top)
    assert sorted((round(c.sharp[0]), round(c.sharp[1])) for c in corners) == [
        (0, 0), (0, 600), (1000, 0), (1000, 600)
    ]  # fmt: skip
    # 40 mm of rounding and an inch beyond
    assert {round(corner.reach, 3) for corner in corners} == {65.4}
    pins = ring_pins(top)
    # of a through strip the pins 50 mm from its ends are left out
    assert sorted(round(pin.at[0]) for pin in pins if pin.left_out) == [50, 50, 950, 950]
    for pin in pins:
        assert pin.left_out == any(corner.near(pin.at) for corner in corners)
    zone = shapely.Polygon(corners[0].zone(50.0))
    # an L of the ring: 65.4 along each edge, 50 wide
    assert zone.area == pytest.approx(65.4**2 - 15.4**2)


@pytest.mark.example
@pytest.mark.parametrize("name", ["l_counter", "octagon", "u_counter"])
def test_the_bill_counts_what_the_map_shows(name: str):
    plan = shaped_plan(name)
    assert plan.takeoff is not None
    (line,) = [line for line in plan.takeoff.lines if line.group == "pins"]
    assert line.quantity.expected == sum(not pin.left_out for pin in ring_pins(plan.design))


@pytest.mark.example
def test_a_skirt_and_a_bare_edge_have_no_pins():
    assert ring_pins(shaped_plan("round_wrap").design) == ()
    assert ring_pins(design()) == ()
