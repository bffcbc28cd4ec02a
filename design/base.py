"""Where the base stands under the trimmed top."""

from __future__ import annotations

from edgewright.compass import OPPOSITE, PerSide, Side, is_lengthwise
from edgewright.design.model import BaseFit, TrimSizes
from edgewright.job import Job
from edgewright.ticks import ticks_to_mm

__all__ = ["base_fit", "old_overhang", "remaining_overhang", "unmoved_offset"]

Overhang = PerSide[float | None]


def old_overhang(job: Job, sizes: TrimSizes) -> Overhang:
    """Overhang of the old top, mm: measured, or half of what a centred footprint leaves; None if unknown."""
    base = job.base
    if base.overhang is not None:
        given = base.overhang.per_side()
        return PerSide.build(lambda side: given[side].mm)
    if base.footprint_length is None or base.footprint_width is None:
        return PerSide.build(lambda side: None)
    east_west = (ticks_to_mm(sizes.old[0]) - base.footprint_length.mm) / 2
    north_south = (ticks_to_mm(sizes.old[1]) - base.footprint_width.mm) / 2
    return PerSide.build(lambda side: north_south if is_lengthwise(side) else east_west)


def remaining_overhang(old: Overhang, trims: PerSide[float], *, moved: bool) -> Overhang:
    """Overhang of the finished top, mm.

    Parameters
    ----------
    old
        Overhang before the trims, mm, None where unknown.
    trims
        What comes off each side, mm.
    moved
        True where the base is centred again: opposite sides then share what is left.
    """

    def left(side: Side) -> float | None:
        here, there = old[side], old[OPPOSITE[side]]
        if here is None:
            return None
        if not moved:
            return here - trims[side]
        # with one of the two unknown the footprint is unknown, and so is the share
        return None if there is None else (here + there - trims[side] - trims[OPPOSITE[side]]) / 2

    return PerSide.build(left)


def unmoved_offset(old: Overhang, trims: PerSide[float]) -> tuple[float, float]:
    """How far an unmoved base lies from the finished top's centre, mm, east and north positive.

    The centre of the top moves away from the side that was cut: (cut east - cut west) / 2. Where both old
    overhangs are known the base may have been off centre before; half their difference is added.
    """

    def along(high: Side) -> float:
        low = OPPOSITE[high]
        before_low, before_high = old[low], old[high]
        before = 0.0 if before_low is None or before_high is None else before_low - before_high
        return (before + trims[high] - trims[low]) / 2

    return along("east"), along("north")


def base_fit(job: Job, sizes: TrimSizes) -> BaseFit:
    """Place the base under the finished top: where it was, or centred again when the job moves it."""
    trims = PerSide.build(lambda side: ticks_to_mm(sizes.amounts[side]))
    old, moved = old_overhang(job, sizes), job.base.moved
    offset = (0.0, 0.0) if moved else unmoved_offset(old, trims)
    return BaseFit(offset, remaining_overhang(old, trims, moved=moved))
