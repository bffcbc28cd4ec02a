"""Figures of the solid of a shaped top: the wood it holds is that of the plan, from the underside up."""

import math
from pathlib import Path

import pytest

from edgewright.cutlist.any_plan import plan_any
from edgewright.cutlist.shaped_solid import shaped_solid_spec
from edgewright.design.glb_file import glb_bytes
from edgewright.design.stl_file import stl_bytes
from edgewright.errors import GeometryError
from edgewright.jobfile import parse_any_job

SHAPES = Path(__file__).resolve().parents[2] / "examples" / "shapes"
FILES = {path.stem: path for path in sorted(SHAPES.glob("*.toml"))}


@pytest.mark.parametrize("name", ["octagon", "live_edge", "round_wrap", "l_counter"])
def test_bodies_lie_between_the_underside_and_the_top(name):
    design = plan_any(FILES[name]).design
    spec = shaped_solid_spec(design)
    # what is bent is left out, and told
    named = [body.name for body in spec.strips]
    assert [piece.id for piece in design.pieces if piece.id not in spec.left_out] == named
    assert bool(spec.left_out) == (name == "round_wrap")
    seam = design.edge_thickness_mm - design.thickness_mm
    for body in spec.strips:
        # pieces of the build-up lie under the top
        assert 0 <= body.z0 < body.z1 <= seam + 1e-9
    assert spec.region == design.region


def test_layers_of_strips_lie_on_one_another():
    text = FILES["octagon"].read_text(encoding="utf-8") + "layers = 2\n"
    design = plan_any(parse_any_job(text)).design
    spec = shaped_solid_spec(design)
    thick = design.strip_thickness_mm
    heights = sorted({(body.z0, body.z1) for body in spec.strips})
    assert len(heights) == 2
    for (low, high), (want_low, want_high) in zip(heights, [(0.0, thick), (thick, 2 * thick)], strict=True):
        assert (low, high) == pytest.approx((want_low, want_high))


@pytest.mark.parametrize("name", ["d_end", "boat"])
def test_meshes_are_the_same_bytes_each_time(name):
    specs = [shaped_solid_spec(plan_any(FILES[name]).design) for _ in range(2)]
    assert len({glb_bytes(spec, "a top") for spec in specs}) == 1
    assert len({stl_bytes(spec, "a top") for spec in specs}) == 1


def test_a_mesh_beside_an_edge_that_stays_at_a_smooth_joint():
    """Where the routed edge ends square to a smooth neighbour, the face across it may be a mere line."""
    text = (
        FILES["drawn_desk"]
        .read_text(encoding="utf-8")
        .replace(
            "corner_radius = 2",
            'corner_radius = 2\nunrouted = ["edge 2"]\nbottom_form = {form = "cove", radius = 0.117}',
        )
    )
    design = plan_any(parse_any_job(text, str(SHAPES / "job.toml"))).design
    assert glb_bytes(shaped_solid_spec(design), "a top").startswith(b"glTF")
    assert math.isfinite(design.metrics.solid_volume_mm3)


def test_without_a_profile_there_is_no_solid():
    text = (
        FILES["octagon"].read_text(encoding="utf-8") + 'top_round_over = "3/4"\nbottom_round_over = "3/4"\n'
    )
    with pytest.raises(GeometryError, match="finding 201"):
        shaped_solid_spec(plan_any(parse_any_job(text)).design)
