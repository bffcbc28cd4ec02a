"""Batches of random tables: several strip widths, and one width for all; from jobs already read to checked plans."""

import pytest
from batch_jobs import random_tables

from edgewright.cutlist.batch.batch import plan_jobs

ONE_WIDTH = ("1 1/2",)


@pytest.mark.parametrize("seed", range(6))
def test_twelve_tables_of_several_widths(benchmark, seed):
    """Twelve tables, strips 1 to 3 in wide."""
    jobs = random_tables(12, seed)
    batch = benchmark.pedantic(plan_jobs, args=(jobs,), rounds=1)
    assert batch.layout is not None
    benchmark.extra_info["stages"] = [(stage.value, stage.bound) for stage in batch.stages]


@pytest.mark.parametrize("seed", range(4))
def test_twelve_tables_of_one_width(benchmark, seed):
    """Twelve tables, all strips alike."""
    jobs = random_tables(12, seed, ONE_WIDTH)
    batch = benchmark.pedantic(plan_jobs, args=(jobs,), rounds=1)
    assert batch.layout is not None
    benchmark.extra_info["stages"] = [(stage.value, stage.bound) for stage in batch.stages]


@pytest.mark.parametrize(
    "strips", [ONE_WIDTH, ("1", "1 1/4", "1 1/2", "2", "2 1/2", "3")], ids=["one", "several"]
)
@pytest.mark.parametrize("seed", range(2))
def test_a_hundred_tables(benchmark, seed, strips):
    """A hundred tables."""
    jobs = random_tables(100, seed, strips)
    batch = benchmark.pedantic(plan_jobs, args=(jobs,), rounds=1)
    assert batch.layout is not None
    benchmark.extra_info["stages"] = [(stage.value, stage.bound) for stage in batch.stages]
