"""Clean wood that a job leaves: where it lies, that it is clean, and that nothing is told twice."""

from __future__ import annotations

import math

import pytest
from shaped_jobs import FOLDER, shaped_plan
from stock_jobs import ROUND_48

from edgewright.design.anytop.own_wood import own_wood
from edgewright.design.region import point_in_region
from edgewright.design.segments import distance, point_at


def wood(name):
    return own_wood(shaped_plan(name).design)


@pytest.mark.example
def test_a_round_leaves_the_four_corners_of_its_square():
    found = wood(ROUND_48)
    assert sorted(one.name for one in found) == [
        f"routed offcut {where}" for where in ("north-east", "north-west", "south-east", "south-west")
    ]
    # beyond the cutter of 1/2 in: a quarter of what the square has beside a circle of radius 24 1/2 in, where the
    # circle runs out of the square between the corners
    square, radius = 24 * 25.4, 24.5 * 25.4
    inside = math.acos(square / radius)
    sector = 0.5 * radius**2 * (math.pi / 2 - 2 * inside)
    triangles = square * math.sqrt(radius**2 - square**2)
    for one in found:
        assert one.region.area == pytest.approx(square**2 - sector - triangles)


@pytest.mark.example
def test_sawn_and_routed_wood_of_one_top_do_not_overlap():
    found = wood("racetrack")
    names = [one.name for one in found]
    assert {"offcut south", "offcut north"} < set(names)
    for one in found:
        for other in found:
            if one is not other:
                for segment in one.region.segments:
                    assert point_in_region(other.region, point_at(segment, 0.5)) != "inside"


@pytest.mark.example
def test_old_edges_are_off_by_the_depth_of_their_finish():
    plan = shaped_plan("racetrack")
    depth = plan.job.top.finished_edge.depth.mm
    for one in own_wood(plan.design):
        for segment in one.region.segments:
            at = point_at(segment, 0.5)
            assert min(distance(edge, at) for edge in plan.design.old.outline.segments) >= depth - 1e-4


@pytest.mark.example
def test_the_drop_of_a_cut_out_is_smaller_by_the_cutter_all_round():
    basin, hatch = (one for one in wood("l_counter") if one.name.startswith("drop"))
    assert (basin.name, hatch.name) == ("drop of basin", "drop of hatch")
    assert basin.region.area == pytest.approx(math.pi * (7.25 * 25.4) ** 2)
    x0, y0, x1, y1 = hatch.region.bounds
    assert ((x1 - x0) / 25.4, (y1 - y0) / 25.4) == pytest.approx((9.0, 13.0))


@pytest.mark.example
def test_in_solid_wood_blanks_lie_along_or_across_the_grain_only():
    text = ROUND_48.replace('material = "plywood"', 'material = "solid wood"\ngrain = "length"')
    ways = {way for one in wood(text) for way in one.ways}
    assert ways == {(1.0, 0.0), (0.0, 1.0)}


def test_a_hole_that_was_drawn_gives_no_drop():
    assert FOLDER.joinpath("drawn_desk.toml").exists()
    assert [one.name for one in wood("drawn_desk") if "drop" in one.name] == []
