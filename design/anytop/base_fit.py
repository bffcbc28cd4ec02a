"""Where the base stands under a trimmed top of any outline.

Sides are those of the box round the outline, and an overhang is measured from there: at the middle of a straight side,
and of a round or oval top at the four points where it touches its box. Nearer to a corner that the outline leaves out,
the base has less wood over it than these figures say.
"""

from __future__ import annotations

import math

from edgewright.compass import PerSide
from edgewright.design.anytop.measured import measured_shape
from edgewright.design.model import BaseFit
from edgewright.design.outline import FIT_MM, Outline, Point
from edgewright.design.segments import point_at
from edgewright.design.shapes.model import Shape
from edgewright.errors import GeometryError
from edgewright.job_shaped import ShapedJob
from edgewright.job_shop import Base

__all__ = ["box_size", "box_trims", "shaped_base_fit"]

#: West, south, east and north, mm.
Box = tuple[float, float, float, float]


def box_size(outline: Outline) -> tuple[float, float]:
    """Length and width of the upright box round an outline, mm."""
    return _size(outline.bounds)


def box_trims(old: Shape, finished: Shape) -> PerSide[float]:
    """What comes off each side of the box round a top, mm; below 0 where something is added."""
    return _between(finished.outline.bounds, old.outline.bounds)


def shaped_base_fit(job: ShapedJob, old: Shape, finished: Shape) -> BaseFit:
    """Where the base stands under a trimmed top: where it was, or centred again when the job moves it.

    A top that is turned to be cut square lies askew on a base that stays: its overhang is what the farthest corner of
    the base leaves.

    Parameters
    ----------
    old, finished
        In the same frame; of a top with a skirt on its edge, ``finished`` without it tells what carries.

    Raises
    ------
    GeometryError
        If the overhangs leave no base.
    """
    base, turned = job.base, job.trim.largest_rectangle
    measured = measured_shape(job.top.outline, job.saw.kerf.mm, job.units)[0] if turned else old
    box, new = measured.outline.bounds, finished.outline.bounds
    given = _before(base, box)
    stands = box if given is None else given
    length, width = _size(stands)
    if min(length, width) <= FIT_MM:
        raise GeometryError(
            f"the overhangs leave no base under a top of {_size(box)[0]:.5g} x {_size(box)[1]:.5g} mm: measure from "
            "the top's edge to the apron"
        )
    if base.moved:
        stands = _about(_centre(new), length, width)
    elif turned:
        stands = _turned(stands, measured.outline, old.outline)
    (x, y), (at_x, at_y) = _centre(new), _centre(stands)
    left = _between(stands, new)
    unknown: PerSide[float | None] = PerSide(None, None, None, None)
    return BaseFit((at_x - x, at_y - y), unknown if given is None else PerSide.build(lambda side: left[side]))


def _size(box: Box) -> tuple[float, float]:
    return box[2] - box[0], box[3] - box[1]


def _centre(box: Box) -> Point:
    return (box[0] + box[2]) / 2, (box[1] + box[3]) / 2


def _between(inner: Box, outer: Box) -> PerSide[float]:
    """How far each side of one box lies inside that of another."""
    return PerSide(
        north=_plain(outer[3] - inner[3]),
        east=_plain(outer[2] - inner[2]),
        south=_plain(inner[1] - outer[1]),
        west=_plain(inner[0] - outer[0]),
    )


def _plain(mm: float) -> float:
    """A length without float rounding, so that of equal sides the first is named."""
    return round(mm, 9)


def _before(base: Base, box: Box) -> Box | None:
    """Box of the base under the old top: by its overhangs, or its footprint in the middle; None if unknown."""
    if base.overhang is not None:
        left = base.overhang
        return (
            box[0] + left.west.mm,
            box[1] + left.south.mm,
            box[2] - left.east.mm,
            box[3] - left.north.mm,
        )
    if base.footprint_length is None or base.footprint_width is None:
        return None
    return _about(_centre(box), base.footprint_length.mm, base.footprint_width.mm)


def _about(centre: Point, length: float, width: float) -> Box:
    x, y = centre
    return x - length / 2, y - width / 2, x + length / 2, y + width / 2


def _turned(box: Box, before: Outline, after: Outline) -> Box:
    """Upright box round a box that was turned and moved with an outline."""
    (ax, ay), (bx, by) = (outline.segments[0].start for outline in (before, after))
    ways = [point_at(outline.segments[0], 0.5) for outline in (before, after)]
    turn = math.atan2(ways[1][1] - by, ways[1][0] - bx) - math.atan2(ways[0][1] - ay, ways[0][0] - ax)
    cos, sin = math.cos(turn), math.sin(turn)
    corners = [
        (bx + (x - ax) * cos - (y - ay) * sin, by + (x - ax) * sin + (y - ay) * cos)
        for x in (box[0], box[2])
        for y in (box[1], box[3])
    ]
    xs, ys = zip(*corners, strict=True)
    return min(xs), min(ys), max(xs), max(ys)
