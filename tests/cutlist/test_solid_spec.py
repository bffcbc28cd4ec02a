"""Strip pieces in the frame of the top from above, against the underside map and the areas of the ring."""

from functools import cache

import pytest

from edgewright.cutlist.cutting import make_cut_plan
from edgewright.cutlist.solid_spec import solid_spec
from edgewright.design.build import build_design
from edgewright.errors import GeometryError
from edgewright.jobfile import read_job
from edgewright.ticks import ticks_to_mm

JOB = """
[job]
title = "t"
units = "in"
[top]
length = "72 in"
width = "48 in"
thickness = "23/32 in"
material = "plywood"
[trim]
north = "8 in"
south = "6 in"
[edge]
corner_radius = "2 in"
"""
EDGES = {
    "butt": "",
    "two layers": "layers = 2\n",
    "mitre": 'corners = "mitre"\n',
    "pinwheel, proud": 'corners = "pinwheel"\nproud = "1/16 in"\nlayers = 2\n',
}


@pytest.fixture(scope="module")
def planned(tmp_path_factory):
    path = tmp_path_factory.mktemp("job") / "job.toml"

    @cache
    def make(name):
        path.write_text(JOB + EDGES[name], encoding="utf-8")
        design = build_design(read_job(path))
        return design, make_cut_plan(design)

    return make


def area(points):
    return (
        sum(ax * by - bx * ay for (ax, ay), (bx, by) in zip(points, [*points[1:], points[0]], strict=True))
        / 2
    )


@pytest.mark.parametrize("name", EDGES)
def test_pieces_fill_the_ring_of_each_layer(name, planned):
    design, plan = planned(name)
    spec = solid_spec(design, plan)
    w, proud = ticks_to_mm(plan.strip_width_ticks), ticks_to_mm(plan.proud_ticks)
    ring = (spec.size[0] + 2 * proud) * (spec.size[1] + 2 * proud) - (spec.size[0] + 2 * proud - 2 * w) * (
        spec.size[1] + 2 * proud - 2 * w
    )
    for layer in range(1, design.job.edge.layers + 1):
        low = spec.seam - layer * design.strip_thickness_mm
        here = [strip for strip in spec.strips if strip.z0 == pytest.approx(low, abs=1e-9)]
        assert sum(area(strip.corners) for strip in here) == pytest.approx(ring, rel=1e-9)
        assert all(area(strip.corners) > 0 for strip in here), "counter-clockwise"
    assert min(strip.z0 for strip in spec.strips) == 0.0
    assert max(strip.z1 for strip in spec.strips) == spec.seam


@pytest.mark.parametrize("name", EDGES)
def test_map_from_below_is_the_mirror_image(name, planned):
    design, plan = planned(name)
    spec = solid_spec(design, plan)
    corners = {strip.name: strip.corners for strip in spec.strips}
    assert list(corners) == [piece.id for piece in plan.pieces]
    for box in plan.strip_map:
        xs, ys = zip(*corners[box.piece_id], strict=True)
        below = [ticks_to_mm(n) for n in (box.x0_ticks, box.y0_ticks, box.x1_ticks, box.y1_ticks)]
        assert below == pytest.approx([spec.size[0] - max(xs), min(ys), spec.size[0] - min(xs), max(ys)])


def test_mitred_ends_run_at_45_degrees(planned):
    spec = solid_spec(*planned("mitre"))
    for strip in spec.strips:
        slanted = [
            (bx - ax, by - ay)
            for (ax, ay), (bx, by) in zip(strip.corners, [*strip.corners[1:], strip.corners[0]], strict=True)
            if abs(bx - ax) > 1e-9 and abs(by - ay) > 1e-9
        ]
        assert len(slanted) == 2
        assert all(abs(dx) == pytest.approx(abs(dy)) for dx, dy in slanted)


def test_impossible_plan_has_no_strips(tmp_path):
    path = tmp_path / "job.toml"
    path.write_text(JOB.replace('"8 in"', '"1/2 in"').replace('"6 in"', '"1/2 in"'), encoding="utf-8")
    design = build_design(read_job(path))
    plan = make_cut_plan(design)
    assert plan.status == "impossible"
    assert solid_spec(design, plan).strips == ()


def test_no_profile_no_solid(tmp_path, planned):
    from dataclasses import replace

    design, plan = planned("butt")
    with pytest.raises(GeometryError, match="finding 201"):
        solid_spec(replace(design, profile=None), plan)
