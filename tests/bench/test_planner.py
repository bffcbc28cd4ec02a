"""Design and planner on the example jobs and on harder ones, without the start-up."""

from pathlib import Path

import pytest

from edgewright.cutlist.cutting import make_cut_plan
from edgewright.design.build import build_design
from edgewright.jobfile import parse_job, read_job

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"

TWO_LAYERS = """
[job]
title = "two layers, spliced, boards for sale"
units = "in"
[top]
length = 96
width = 50
thickness = "3/4"
material = "plywood"
[trim]
north = 10
south = 4
[edge]
layers = 2
strip_width = "2 1/2"
[[stock]]
name = "long board"
length = 96
width = 6
thickness = "3/4"
price = 25
[[stock]]
name = "short board"
length = 48
width = 6
thickness = "3/4"
price = 10
"""


@pytest.mark.parametrize("path", sorted(EXAMPLES.glob("*.toml")), ids=lambda path: path.stem)
def test_design(benchmark, path):
    """From the job to sizes, metrics and findings."""
    job = read_job(path)
    assert benchmark(build_design, job).metrics


@pytest.mark.parametrize("path", sorted(EXAMPLES.glob("*.toml")), ids=lambda path: path.stem)
def test_cut_plan(benchmark, path):
    """Widest strip, layout, bounds and check of an example."""
    design = build_design(read_job(path))
    benchmark(make_cut_plan, design)


def test_cut_plan_of_two_layers(benchmark):
    """Eight sides, boards for sale."""
    design = build_design(parse_job(TWO_LAYERS))
    assert benchmark(make_cut_plan, design).status == "ready"
