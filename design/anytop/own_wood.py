"""Clean wood that a job itself leaves: offcuts of the saw, what a router leaves beside the rim, drops of cut-outs.

All of it is free of old edges and lies where it lay in the old top, so that it can be marked before it is cut off.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from edgewright.design.anytop.model import ShapedDesign
from edgewright.design.anytop.ring import grain_direction
from edgewright.design.buildup.grain import GRAIN_WITHIN, grain_angle
from edgewright.design.clip import clip_half_plane
from edgewright.design.inset import inset
from edgewright.design.outline import Line, Outline, Point
from edgewright.design.outset import outset
from edgewright.design.region import Region
from edgewright.design.segments import reversed_segment
from edgewright.design.trims.clean_wood import cut_clean
from edgewright.design.trims.curved_offcut import beyond
from edgewright.errors import GeometryError

__all__ = ["OwnWood", "own_wood"]

#: An offcut that reaches further than this past the middle of the top both ways runs round it (mm).
_PAST: Final = 1.0
_EAST: Final = (1.0, 0.0)
_NORTH: Final = (0.0, 1.0)
_POINTS: Final = (
    "east",
    "north-east",
    "north",
    "north-west",
    "west",
    "south-west",
    "south",
    "south-east",
)


@dataclass(frozen=True, slots=True)
class OwnWood:
    """One piece of clean wood.

    Attributes
    ----------
    name
        What it is, like ``offcut north``.
    region
        Its outline in the frame of the old top (mm).
    ways
        Directions (length 1) along which blanks may be laid in it; where the wood has grain, along or across it.
    """

    name: str
    region: Region
    ways: tuple[Point, ...]


def own_wood(design: ShapedDesign) -> tuple[OwnWood, ...]:
    """All clean wood that comes off, in the order of the work.

    Wood whose outline cannot be told apart (a finish deeper than the offcut, a cut that parts the clean wood) is left
    out: nothing is promised of it.
    """
    job = design.job
    cuts, depth = [sawn.cut for sawn in design.trims.cuts], job.top.finished_edge.depth.mm
    holes = design.region.holes[: len(design.cut_outs) - len(job.cut_outs)]
    try:
        offcuts, left = cut_clean(Region(design.old.outline, holes), cuts, range(len(cuts)), depth)
    except GeometryError:
        return tuple(_drops(design))
    sawn = (
        OwnWood(f"offcut {one.name}", one.region, _ways(design, one.frame.along))
        for one in offcuts
        if one.length > 0
    )
    return (*sawn, *_routed_off(design, left), *_drops(design))


def _ways(design: ShapedDesign, *wanted: Point) -> tuple[Point, ...]:
    """The wanted directions; in solid wood those that run along or across the grain."""
    grain = grain_direction(design.job, design.old)
    if grain is None:
        return wanted
    return tuple(
        way
        for way in wanted
        if not GRAIN_WITHIN < grain_angle(math.atan2(way[1], way[0]), grain) < math.pi / 2 - GRAIN_WITHIN
    )


def _routed_off(design: ShapedDesign, left: tuple[Region, ...]) -> Iterator[OwnWood]:
    """What lies beyond the far side of the cutter, sawn in four where it runs all round the top."""
    trims, job = design.trims, design.job
    if not trims.arcs and not trims.paths:
        return
    rim = trims.finished.outline
    try:
        beyond_cutter = outset(rim, job.router.cutter.mm)
        parts = [part for whole in left for part in beyond(whole, beyond_cutter)]
    except GeometryError:
        return
    middle = rim.centroid
    quarters = (quarter for whole in parts for quarter in _quartered(whole, middle, job.saw.kerf.mm))
    told: Counter[str] = Counter()
    for part in quarters:
        x, y = part.centroid
        right, up = x - middle[0], y - middle[1]
        size = math.hypot(right, up)
        across = (-up / size, right / size) if size > 0 else _EAST
        where = _POINTS[round(math.atan2(up, right) / (math.pi / 4)) % 8]
        told[where] += 1
        name = f"routed offcut {where}{f' {told[where]}' if told[where] > 1 else ''}"
        yield OwnWood(name, part, _ways(design, *dict.fromkeys((across, _EAST, _NORTH))))


def _quartered(offcut: Region, middle: Point, kerf: float) -> tuple[Region, ...]:
    x0, y0, x1, y1 = offcut.bounds
    if not (x0 + _PAST < middle[0] < x1 - _PAST and y0 + _PAST < middle[1] < y1 - _PAST):
        return (offcut,)
    quarters: tuple[Region, ...] = ()
    for right, up in ((1.0, 1.0), (1.0, -1.0), (-1.0, -1.0), (-1.0, 1.0)):
        point = middle[0] + right * kerf / 2, middle[1] + up * kerf / 2
        for half in clip_half_plane(offcut, point, (0.0, -right)):
            quarters += clip_half_plane(half, point, (up, 0.0))
    return quarters


def _drops(design: ShapedDesign) -> Iterator[OwnWood]:
    """What falls out of the cut-outs of the job, smaller all round by the cutter."""
    asked = design.job.cut_outs
    for hole in design.cut_outs[len(design.cut_outs) - len(asked) :]:
        wood = Region(Outline(tuple(reversed_segment(edge) for edge in reversed(hole.outline.segments))))
        longest = max(
            (edge for edge in hole.outline.segments if isinstance(edge, Line)),
            key=lambda edge: edge.length,
            default=Line((0.0, 0.0), (1.0, 0.0)),
        )
        (ax, ay), (bx, by) = longest.start, longest.end
        ux, uy = (bx - ax) / longest.length, (by - ay) / longest.length
        try:
            parts = inset(wood, design.job.router.cutter.mm)
        except GeometryError:
            continue
        for part in parts:
            yield OwnWood(f"drop of {hole.name}", part, _ways(design, (ux, uy)))
