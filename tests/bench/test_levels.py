"""Levels of the tops of the shaped examples, and of a larger counter."""

from pathlib import Path

import pytest
from region_cases import circle, rounded

from edgewright.design.anytop.build import build_shaped
from edgewright.design.region import Region
from edgewright.design.wavefront import region_levels
from edgewright.jobfile import read_any_job

SHAPES = sorted((Path(__file__).resolve().parents[2] / "examples" / "shapes").glob("*.toml"))


@pytest.fixture(params=SHAPES, ids=lambda path: path.stem)
def design(request):
    return build_shaped(read_any_job(request.param))


def test_levels(benchmark, design):
    reach = max(design.profile.top.reach, design.profile.bottom.reach)
    assert benchmark(region_levels, design.region, reach, design.still)


def test_levels_of_a_counter_with_two_cut_outs(benchmark):
    """An L with returns and roundings, a sink and a round bowl: 33 lines and arcs, to 12 mm."""
    south = [(0, 0), (2400, 0), (2400, 30), (2430, 30), (2430, 600), (1500, 600), (1500, 640)]
    north = [(900, 640), (600, 640), (600, 1800), (560, 1800), (560, 1830), (0, 1830)]
    radii = [20.0, 5, 0, 5, 30, 8, 8, 0, 60, 20, 0, 20, 40]
    sink = rounded([(1200, 150), (1200, 450), (1700, 450), (1700, 150)], [20] * 4)
    top = Region(rounded(south + north, radii), (sink, circle(300, 1300, 150)))
    assert len(top.segments) == 33
    assert len(benchmark(region_levels, top, 12)) == 3
