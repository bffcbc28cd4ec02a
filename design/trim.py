"""Trim sizes: from measured sizes and what is to come off, to finished sizes on the bench grid.

Only chosen sizes are snapped: the keep line of each first cut is a whole number of bench-grid steps from its datum,
the finished size as well. A size that is not cut stays as measured.
"""

from __future__ import annotations

from dataclasses import dataclass

from edgewright.compass import PerSide
from edgewright.design.model import TrimSizes
from edgewright.job import Job
from edgewright.ticks import nearest_ticks, snap_nearest

__all__ = ["AxisTrim", "trim_axis", "trim_sizes"]


@dataclass(frozen=True, slots=True)
class AxisTrim:
    """Finished size along one axis and what comes off at its low (south, west) and high (north, east) end, ticks."""

    finished: int
    low: int
    high: int


def trim_axis(old: int, low: int, high: int, grid: int) -> AxisTrim:
    """Snap the trims of one axis.

    Parameters
    ----------
    old
        Measured size, ticks.
    low, high
        What is asked to come off at each end, ticks, >= 0.
    grid
        Bench grid, ticks, > 0.

    Returns
    -------
    AxisTrim
        ``finished + low + high == old``; each keep line is a multiple of the grid from the datum it is measured from.
        The high end is cut first, from the low edge; then the low end, from the fresh high edge.
    """
    keep = snap_nearest(old - high, grid) if high else old
    finished = snap_nearest(keep - low, grid) if low else keep
    return AxisTrim(finished, keep - finished, old - keep)


def trim_sizes(job: Job) -> TrimSizes:
    """Sizes of the top before and after the trims of a job; the measured size rounds down, as stock."""
    grid = job.bench_grid.ticks()
    length, width = job.top.length.ticks_down(), job.top.width.ticks_down()
    asked = PerSide.build(lambda side: nearest_ticks(job.amounts[side]))
    x = trim_axis(length, asked.west, asked.east, grid)
    y = trim_axis(width, asked.south, asked.north, grid)
    amounts = PerSide(north=y.high, east=x.high, south=y.low, west=x.low)
    return TrimSizes(grid, (length, width), (x.finished, y.finished), (x.low, y.low), amounts)
