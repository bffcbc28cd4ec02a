"""Levels of the tops of the shaped examples, and the whole metrics of their edges."""

from pathlib import Path

import pytest

from edgewright.design.anytop.build import build_shaped
from edgewright.design.anytop.edge import edge_figures, still_segments
from edgewright.design.wavefront import region_levels
from edgewright.jobfile import read_any_job

SHAPES = sorted((Path(__file__).resolve().parents[2] / "examples" / "shapes").glob("*.toml"))


@pytest.fixture(params=SHAPES, ids=lambda path: path.stem)
def design(request):
    return build_shaped(read_any_job(request.param))


def test_levels(benchmark, design):
    reach = max(design.profile.top.reach, design.profile.bottom.reach)
    still = still_segments(design.job, design.finished, design.region)
    assert benchmark(region_levels, design.region, reach, still)


def test_metrics(benchmark, design):
    """All that is measured on the edge: metrics, runs, layers, tips."""
    drawn = len(design.region.holes) - len(design.job.cut_outs)
    found = benchmark(edge_figures, design.job, design.finished, design.region, design.profile, drawn)
    assert found.metrics == design.metrics
