"""Exact metrics of measured tops: the slowest example, and each of the others; a few milliseconds are wanted."""

from __future__ import annotations

from pathlib import Path

import pytest

from edgewright.design.anytop.build import build_shaped
from edgewright.design.anytop.edge import edge_figures, still_segments
from edgewright.design.levels import Levels
from edgewright.design.metrics import edge_metrics
from edgewright.design.wavefront import region_levels, region_wave
from edgewright.job_shaped import ShapedJob
from edgewright.jobfile import read_any_job

EXAMPLES = sorted((Path(__file__).resolve().parents[2] / "examples" / "shapes").glob("*.toml"))


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_levels_and_metrics(benchmark, path):
    """From the finished outline to every figure of its edge, twins included."""
    job = read_any_job(path)
    assert isinstance(job, ShapedJob)
    design = build_shaped(job)
    profile, region = design.profile, design.region
    reach = max(profile.top.reach, profile.bottom.reach)

    def run():
        levels: tuple[Levels, ...] = region_levels(region, reach)
        return edge_metrics(levels[0], profile)

    assert benchmark(run).edge_mm2 > 0


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_all_edge_figures(benchmark, path):
    """The same with layers, tips of inside corners, and what is not routed."""
    job = read_any_job(path)
    design = build_shaped(job)
    profile = design.profile
    reach = max(profile.top.reach, profile.bottom.reach)

    def run():
        still = still_segments(job, design.finished, design.region)
        wave = region_wave(design.region, reach, still)
        return edge_figures(job, design.finished, design.region, still, profile, wave)

    assert benchmark(run).metrics == design.metrics
