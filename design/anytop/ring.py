"""What a shaped job asks of its build-up: strip width, ring and skirt settings."""

from __future__ import annotations

import math
from typing import Final

from edgewright.compass import PerSide
from edgewright.design.buildup.ring_model import RingSettings
from edgewright.design.buildup.skirt import SkirtSettings
from edgewright.design.check_figures import exceeds
from edgewright.design.job_forms import reach_ticks
from edgewright.design.limits import overhang_cap, width_floor
from edgewright.design.shapes.model import Shape
from edgewright.job_shaped import ShapedJob
from edgewright.ticks import snap_down, snap_nearest, ticks_to_mm
from edgewright.trade import inch
from edgewright.units import Length, Units

__all__ = [
    "USUAL_WIDTH_MM",
    "grain_direction",
    "ring_settings",
    "skirt_settings",
    "strip_cap",
    "strip_floor_mm",
    "strip_width_mm",
]

#: Strips of a shaped top that are bought are this wide where the job gives no width: 2 in or 50 mm (choice of this
#: program).
USUAL_WIDTH_MM: Final[dict[Units, float]] = {"in": float(inch("2")), "mm": 50.0}


def strip_floor_mm(job: ShapedJob) -> float:
    """Narrowest strip that has room for its pins (mm)."""
    floor, _ = width_floor(
        reach_ticks(job.edge, "bottom", job.top), job.edge.proud.ticks_up(), job.bench_grid.ticks(), job.units
    )
    return ticks_to_mm(floor)


def strip_cap(job: ShapedJob, overhang: PerSide[float | None]) -> tuple[int, str] | None:
    """What the base leaves for strips, or for a skirt under the edge: ticks and why; None where nothing is known.

    Parameters
    ----------
    overhang
        From the finished edge to the base, mm. A side that the base reaches past is left out: finding 402 says all.
    """
    known = PerSide.build(
        lambda side: None if (left := overhang[side]) is None or exceeds(0.0, left) else left
    )
    return overhang_cap(known, job.bench_grid.ticks(), job.units)


def strip_width_mm(job: ShapedJob, overhang: PerSide[float | None] | None = None) -> float:
    """Width of the strips (mm) on the bench grid: as given; else 2 in or 50 mm, within what job and base leave.

    Where the base leaves less than the floor the strips are as narrow as they may be, and finding 302 stops the job.

    Parameters
    ----------
    overhang
        From the finished edge to the base, mm; left out where it is not known yet.
    """
    width = job.edge.strip_width
    if isinstance(width, Length):
        return ticks_to_mm(snap_nearest(width.ticks(), job.bench_grid.ticks()))
    cap = ticks_to_mm(snap_down(job.edge.max_strip_width.ticks_down(), job.bench_grid.ticks()))
    floor = strip_floor_mm(job)
    usual = min(max(USUAL_WIDTH_MM[job.units], floor), cap)
    before_base = None if overhang is None else strip_cap(job, overhang)
    if before_base is None:
        return usual
    return min(usual, max(ticks_to_mm(before_base[0]), floor))


def grain_direction(job: ShapedJob, shape: Shape) -> float | None:
    """Direction of the top's grain (radians from east); None for sheet goods."""
    if job.top.material != "solid wood":
        return None
    x0, y0, x1, y1 = shape.outline.bounds
    along = job.top.grain or ("length" if x1 - x0 >= y1 - y0 else "width")
    return 0.0 if along == "length" else math.pi / 2


def ring_settings(
    job: ShapedJob, shape: Shape, strip_width: float | None = None, *, narrow: bool = False
) -> RingSettings:
    """Settings of the flat ring under a finished outline.

    On curves the ring is as wide as the strips, unless ``narrow`` is set; inside a rounded corner the floor is
    enough. ``strip_width`` (mm) is what the design settled on; left out, it is what the job gives without a base.
    """
    width, proud = strip_width_mm(job) if strip_width is None else strip_width, job.edge.proud.mm
    floor = min(width - proud, strip_floor_mm(job))
    return RingSettings(
        strip_width=width,
        strip_thickness=job.strip_thickness.mm,
        ring_width=floor if narrow else width - proud,
        proud=proud,
        layers=job.edge.layers,
        alternate=job.edge.alternate_layers,
        corners=job.edge.corners,
        through=job.edge.through,
        segments_per_circle=job.edge.segments,
        grain=grain_direction(job, shape),
        corner_width=floor,
    )


def skirt_settings(job: ShapedJob) -> SkirtSettings:
    """Settings of a skirt; the job has one."""
    drop = 0.0 if job.edge.skirt_drop is None else job.edge.skirt_drop.mm
    top = job.top.thickness_mean.mm
    return SkirtSettings(
        thickness=job.strip_thickness.mm,
        drop=top + drop,
        top_thickness=top,
        mount="on" if job.edge.build_up == "skirt_on_edge" else "under",
        grain=None,
    )
