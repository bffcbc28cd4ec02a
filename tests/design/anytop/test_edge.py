"""Edge of a shaped top: worked figures of a board, and every example against rays from its raw outline."""

from __future__ import annotations

import math
from pathlib import Path

import pytest
from anytop_jobs import BOARD, design, job
from edge_rays import ray_figures

from edgewright.design.anytop.build import build_shaped
from edgewright.design.anytop.edge import still_segments
from edgewright.design.ellipse import Ellipse
from edgewright.errors import GeometryError
from edgewright.job_shaped import ShapedJob
from edgewright.jobfile import read_any_job

EXAMPLES = sorted((Path(__file__).resolve().parents[3] / "examples" / "shapes").glob("*.toml"))
ROUND_5 = 'build_up = "none"\ntop_round_over = 5\nbottom_round_over = 0\n'
#: Area and removed section of a quarter round-over by unit of k: r²(π/2 - 1), r³(5/6 - π/4) (Pappus, Steiner).
BEND, LOSS = math.pi / 2 - 1, 5 / 6 - math.pi / 4


@pytest.mark.example
def test_three_routed_sides_of_a_board() -> None:
    """1000 + 2 · 600 = 2200 mm; two mitred corners take 2 · 2 d, the ends at the wall nothing: P(d) = 2200 - 4 d."""
    found = design(edge=ROUND_5 + 'unrouted = ["north"]')
    r, metrics = 5.0, found.metrics
    assert metrics is not None
    assert metrics.perimeter_mm == pytest.approx(2200)
    assert metrics.top_round_over_mm2 == pytest.approx(math.pi / 2 * r * 2200 - 4 * r * r * BEND, rel=1e-12)
    assert metrics.flat_mm2 == pytest.approx(2200 * 15)
    removed = r * r * (1 - math.pi / 4) * 2200 - 4 * r**3 * LOSS
    assert metrics.solid_volume_mm3 == pytest.approx(1000 * 600 * 20 - removed, rel=1e-13)
    assert metrics.flat_top_mm2 == pytest.approx((1000 - 10) * (600 - 5))
    assert [(run.name, run.length, run.routed) for run in found.runs] == [
        ("south", 1000, True),
        ("east", 600, True),
        ("north", 1000, False),
        ("west", 600, True),
    ]


@pytest.mark.example
def test_a_hollow_of_the_faces_and_the_volume() -> None:
    """A square hole of 200 x 100 takes 20 000 mm² of both faces and 400 000 mm³; a routed round one loses wood, too."""
    hole = '[[cut_out]]\nkind = "rectangle"\nx = 500\ny = 300\nlength = 200\nwidth = 100\n'
    bare, cut = design(edge=ROUND_5), design(edge=ROUND_5, more=hole)
    assert bare.metrics is not None
    assert cut.metrics is not None
    assert cut.metrics.edge_mm2 == bare.metrics.edge_mm2  # edges of cut-outs are told apart
    assert bare.metrics.flat_top_mm2 - cut.metrics.flat_top_mm2 == pytest.approx(20000)
    assert bare.metrics.flat_underside_mm2 - cut.metrics.flat_underside_mm2 == pytest.approx(20000)
    assert bare.metrics.solid_volume_mm3 - cut.metrics.solid_volume_mm3 == pytest.approx(400000)

    routed = design(
        edge=ROUND_5, more='[[cut_out]]\nkind = "round"\nx = 500\ny = 300\ndiameter = 100\nrouted = true'
    )
    assert routed.metrics is not None
    # π 50² · 20, and the top form along P = 100 π with k = -2π
    gone = math.pi * 2500 * 20 + 25 * (1 - math.pi / 4) * 100 * math.pi + 2 * math.pi * 125 * LOSS
    assert bare.metrics.solid_volume_mm3 - routed.metrics.solid_volume_mm3 == pytest.approx(gone, rel=1e-9)
    assert bare.metrics.flat_top_mm2 - routed.metrics.flat_top_mm2 == pytest.approx(math.pi * 55**2, rel=1e-9)
    assert bare.metrics.flat_underside_mm2 - routed.metrics.flat_underside_mm2 == pytest.approx(
        math.pi * 50**2
    )


@pytest.mark.property
@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_every_example_agrees_with_rays(path: Path) -> None:
    found_job = read_any_job(path)
    if not isinstance(found_job, ShapedJob):  # pragma: no cover
        raise AssertionError(f"{path.name} has no outline")
    found = build_shaped(found_job)
    profile, metrics = found.profile, found.parallel_metrics
    assert profile is not None
    assert metrics is not None
    still = still_segments(found.job, found.finished, found.region)
    rim = [ray_figures(found.region, form, still, loop=0) for form in (profile.top, profile.bottom)]
    holes = [
        ray_figures(found.region, profile.top, still, loop=1 + at) for at in range(len(found.region.holes))
    ]
    routed = math.fsum(run.length for run in found.runs if run.routed)
    # an ellipse's own curve is measured, not the arcs that stand for it within 0.05 mm
    exact = 1e-9 if found.finished.ellipse is None else 2e-5
    edge = rim[0].surface + rim[1].surface + routed * profile.flat
    assert metrics.edge_mm2 == pytest.approx(edge, rel=exact)
    volume = found.region.area * profile.thickness - math.fsum(one.removed for one in (*rim, *holes))
    assert metrics.solid_volume_mm3 == pytest.approx(volume, rel=exact)
    assert math.fsum(found.layer_areas) == pytest.approx(metrics.edge_mm2, rel=1e-12)
    assert abs(metrics.edge_mm2 - metrics.edge_twin_mm2) <= metrics.edge_twin_error_mm2
    assert (
        abs(metrics.solid_volume_mm3 - metrics.solid_volume_twin_mm3) <= metrics.solid_volume_twin_error_mm3
    )


@pytest.mark.example
def test_an_ellipse_is_measured_by_its_own_curve() -> None:
    """Steiner on the exact perimeter: S = (πr/2) P - 2π r² (π/2 - 1)."""
    found = design('shape = "ellipse"\nlength = 1200\nwidth = 800', ROUND_5)
    assert found.metrics is not None
    perimeter = Ellipse(1200.0, 800.0).perimeter
    assert perimeter == pytest.approx(3173.087918, abs=1e-6)
    assert found.metrics.perimeter_mm == pytest.approx(perimeter, rel=1e-14)
    surface = math.pi / 2 * 5 * perimeter - 2 * math.pi * 25 * BEND
    assert found.metrics.top_round_over_mm2 == pytest.approx(surface, rel=1e-12)


@pytest.mark.example
def test_seams_by_length() -> None:
    """A ring of one layer: glue line 3200 mm; four joints, each 20 mm high; a panel seam right across, 600 mm."""
    text = 'build_up = "flat"\ntop_round_over = 0\nbottom_round_over = 0\nstrip_width = 60'
    found = design(edge=text, more='[[top.seams]]\nat = 400\nacross = "length"')
    assert found.seams.glue == pytest.approx(3200)
    assert found.seams.joints == pytest.approx(4 * 20)
    assert found.seams.panel == pytest.approx(600)
    assert found.layer_areas == pytest.approx((3200 * 20, 3200 * 20))


@pytest.mark.example
def test_no_profile_still_tells_lengths() -> None:
    found = design(edge='build_up = "none"\ntop_round_over = 15\nbottom_round_over = 15')
    assert found.metrics is None
    assert found.layer_areas == ()
    assert math.fsum(run.length for run in found.runs) == pytest.approx(3200)
    assert found.mass.top.volume == pytest.approx(1000 * 600 * 20)


@pytest.mark.example
def test_an_edge_that_is_not_there_is_named_with_those_that_are() -> None:
    asked = job(BOARD, ROUND_5 + 'unrouted = ["back"]')
    with pytest.raises(
        GeometryError, match=r'no edge "back"; the finished top has .*south.*east.*north.*west'
    ):
        build_shaped(asked)


@pytest.mark.example
def test_only_the_top_form_leaves_tips_in_a_cut_out() -> None:
    """A square hole with sharp corners: four tips above; below, its arris stays sharp and nothing is left standing."""
    hole = '[[cut_out]]\nkind = "rectangle"\nx = 500\ny = 300\nlength = 200\nwidth = 100\nrouted = true\n'
    both = design(edge='build_up = "none"\ntop_round_over = 5\nbottom_round_over = 5\n', more=hole)
    assert [(tip.corner, tip.arris) for tip in both.tips] == [("cut-out", "top")] * 4
    assert both.metrics is not None
    assert both.parallel_metrics is not None
    # the rim has no inside corner: its edge is not changed, the cut-out's has what its tips add
    assert both.metrics.edge_mm2 == both.parallel_metrics.edge_mm2
    assert both.metrics.flat_underside_mm2 == both.parallel_metrics.flat_underside_mm2
    standing = math.fsum(tip.tip.standing_volume for tip in both.tips)
    assert standing > 0
    assert both.metrics.solid_volume_mm3 - both.parallel_metrics.solid_volume_mm3 == pytest.approx(
        standing, rel=1e-5
    )
    fine = design(
        edge='build_up = "none"\ntop_round_over = 5\nbottom_round_over = 5\n',
        more=hole + "[router]\nbearing_diameter = 3.2\n",
    )
    # parallels run round the four corners in arcs: P(d) = 600 + 2 pi d; a smaller bearing leaves less standing
    bare = math.pi / 2 * 5 * 600 + 600 * 15 + 2 * math.pi * 25 * BEND
    changes = [both.cut_outs[0].edge_area - bare, fine.cut_outs[0].edge_area - bare]
    assert changes[0] == pytest.approx(math.fsum(tip.tip.area_change for tip in both.tips), abs=1e-6)
    assert abs(changes[1]) < abs(changes[0])
