"""Narrowest and widest strip that the bench checks allow.

Floor: reach of the bottom form + flush-trim allowance + pin wander + pin to inner edge; a narrower strip has no
room for a row of pins that no cutter meets. Cap: what the job looks for at most, what the overhang leaves before
the base, and what the finished top holds a ring of.
Both are snapped to the bench grid, the floor up and the cap down. Allowances are common practice, no source.
"""

from __future__ import annotations

import math
from fractions import Fraction
from typing import Final

from edgewright.compass import PerSide
from edgewright.design.check_figures import at_least, at_most
from edgewright.design.job_forms import reach_ticks
from edgewright.design.model import BaseFit, TrimSizes, WidthLimits
from edgewright.design.outline import FIT_MM
from edgewright.design.pins import inner_edge_room, pin_row
from edgewright.errors import GeometryError
from edgewright.job import Job
from edgewright.job_checks import ring_cap
from edgewright.ticks import TICKS_PER_MM, part_ticks, snap_down, snap_up, stock_ticks
from edgewright.trade import OVERHANG_CLEARANCE
from edgewright.units import Length, Units

__all__ = ["WIDEST_USUAL", "WIDEST_WANTED", "overhang_cap", "width_cap", "width_floor", "width_limits"]

#: Reason of a cap that only the job's ``max_strip_width`` sets: a wish, not a bound of the bench.
WIDEST_WANTED: Final = "max_strip_width of the job"
#: The same where the job leaves it out.
WIDEST_USUAL: Final = "the usual most, for the job gives no max_strip_width"


def width_floor(bottom_reach: int, proud: int, grid: int, units: Units) -> tuple[int, str]:
    """Narrowest strip and why, ticks.

    Parameters
    ----------
    bottom_reach, proud
        How far in the bottom form reaches, and what the strips stand proud, ticks.
    grid
        Bench grid, ticks.
    """
    row, inner = pin_row(bottom_reach, proud), inner_edge_room()
    reason = (
        f"pin row {at_least(row, units)} from the finished edge, so that no cutter meets a pin, "
        f"and {at_least(inner, units)} of wood inside it"
    )
    return snap_up(row + inner, grid), reason


def overhang_cap(overhang: PerSide[float | None], grid: int, units: Units) -> tuple[int, str] | None:
    """Widest strip that ends 1/8 in short of the base, ticks, and what decides; None if nothing is known.

    Not above 0 where the overhang is used up.
    """
    known = [(left, side) for side, left in overhang.items() if left is not None]
    if not known:
        return None
    least, side = min(known, key=lambda pair: pair[0])
    ticks = math.floor((least + FIT_MM) * TICKS_PER_MM)
    clearance = part_ticks(OVERHANG_CLEARANCE.value)
    reason = (
        f"overhang {at_most(ticks, units)} on the {side} side, less {at_least(clearance, units)} clearance"
    )
    return snap_down(ticks - clearance, grid), reason


def width_cap(
    max_strip_width: int, overhang: PerSide[float | None], grid: int, units: Units, *, given: bool = True
) -> tuple[int, str]:
    """Widest strip and why, ticks: the job's own maximum or the overhang's, whichever is less.

    ``given`` is False where the maximum is a default that nobody wrote.
    """
    wanted = snap_down(max_strip_width, grid)
    by_overhang = overhang_cap(overhang, grid, units)
    if by_overhang is not None and by_overhang[0] <= wanted:
        return by_overhang
    return wanted, WIDEST_WANTED if given else WIDEST_USUAL


def width_limits(job: Job, sizes: TrimSizes, base: BaseFit) -> WidthLimits:
    """Both limits for a job.

    Raises
    ------
    GeometryError
        If the finished top holds no ring of strips as wide as they are asked for, or as they must be: a job file
        that was read can come to this only by what is snapped to the bench grid.
    """
    units, edge = job.units, job.edge
    floor, floor_reason = width_floor(
        reach_ticks(edge, "bottom", job.top), edge.proud.ticks_up(), sizes.grid, units
    )
    cap, cap_reason = width_cap(
        edge.max_strip_width.ticks_down(),
        base.overhang,
        sizes.grid,
        units,
        given="max_strip_width" in edge.model_fields_set,
    )
    length, width = (Fraction(size, TICKS_PER_MM) for size in sizes.finished)
    most, why = ring_cap(length, width, edge)
    ring = stock_ticks(most)
    given = edge.strip_width
    # the pitch of strips is snapped up, so that each is a little wider than asked for
    kerf = job.saw.kerf.ticks_up()
    least = snap_up((given.ticks() if isinstance(given, Length) else floor) + kerf, sizes.grid) - kerf
    if least > ring:
        raise GeometryError(
            f"edge.strip_width: strips {at_least(least, units)} wide on the bench grid; at most "
            f"{at_most(ring, units)} is possible, because {why}: use narrower strips, or trim less"
        )
    ring = snap_down(ring, sizes.grid)
    if ring < cap:
        cap, cap_reason = ring, why
    return WidthLimits(floor, floor_reason, cap, cap_reason)
