"""A straight saw cut: a keep line, the kerf on its waste side, and where the guide is clamped.

What comes off is what lies beyond the kerf. The guide offset runs from the guide to the near side of the kerf:
on the keep side that is the keep line, on the waste side the far edge of the kerf. A saw has one such figure for
each side of its shoe, found by a test cut.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from edgewright.design.chain import regions_of
from edgewright.design.clip import clip_half_plane
from edgewright.design.outline import FIT_MM, Line, Point
from edgewright.design.region import Region, point_in_region
from edgewright.design.segments import distance
from edgewright.design.tolerances import EVENT_MM, NODE_MM
from edgewright.design.trims.shadow import Frame, span
from edgewright.errors import GeometryError

__all__ = ["GuideSide", "Sawn", "StraightCut", "beside", "cut", "guide_line", "saw"]

GuideSide = Literal["keep", "waste"]


@dataclass(frozen=True, slots=True)
class StraightCut:
    """One straight cut.

    Attributes
    ----------
    keep
        Keep line; the wood that stays lies on its left.
    kerf
        Width of the kerf in mm, at least 0, all of it on the right of the keep line.
    at
        A point of the waste near which it is cut off; None for a cut across the whole top. On a U-shaped top the
        end of one leg is cut without touching the other.
    name
        What the sheet calls it.
    """

    keep: Line
    kerf: float
    at: Point | None = None
    name: str = ""

    def __post_init__(self) -> None:
        Frame.on(self.keep)
        if not (math.isfinite(self.kerf) and self.kerf >= 0):
            raise GeometryError(
                f"kerf is {self.kerf:g} mm; it must be at least 0 mm: measure it with a test cut"
            )

    @property
    def waste(self) -> Line:
        """Far edge of the kerf, run like the keep line (mm)."""
        return beside(self.keep, -self.kerf)


@dataclass(frozen=True, slots=True)
class Sawn:
    """What a cut leaves.

    Attributes
    ----------
    kept
        The top.
    offcuts
        Largest first; none if the waste is all kerf.
    fresh
        The edges of the top that the saw made, along the keep line.
    """

    cut: StraightCut
    kept: Region
    offcuts: tuple[Region, ...]
    fresh: tuple[Line, ...]


def beside(line: Line, left: float) -> Line:
    """The parallel of a line at a distance to its left, negative to its right (mm)."""
    ux, uy = Frame.on(line).along
    (ax, ay), (bx, by) = line.start, line.end
    return Line((ax - left * uy, ay + left * ux), (bx - left * uy, by + left * ux))


def guide_line(keep: Line, kerf: float, offset: float, side: GuideSide) -> Line:
    """Where the guide's edge is clamped, run like the keep line; kerf and guide offset in mm.

    Raises
    ------
    GeometryError
        If the offset is not a finite number of at least 0 mm.
    """
    if not (math.isfinite(offset) and offset >= 0):
        raise GeometryError(
            f"guide offset is {offset:g} mm; it must be at least 0 mm: measure it with a test cut"
        )
    return beside(keep, offset if side == "keep" else -(kerf + offset))


def saw(region: Region, one: StraightCut) -> Sawn:
    """Saw a top along a straight line.

    Raises
    ------
    GeometryError
        If the cut misses the top, leaves nothing of it, or leaves it in several parts.
    """
    line, frame = one.keep, Frame.on(one.keep)
    ux, uy = frame.along
    kept, waste = (clip_half_plane(region, line.start, (s * ux, s * uy)) for s in (1, -1))
    low, high = span(region.segments, (-uy, ux))
    origin = -line.start[0] * uy + line.start[1] * ux
    place = f"from ({line.start[0]:.5g}, {line.start[1]:.5g}) to ({line.end[0]:.5g}, {line.end[1]:.5g}) mm"
    if not waste:
        raise GeometryError(
            f"the cut {place} misses the top by {max(0.0, low - origin):.4g} mm; "
            "it must run through the wood: move the keep line into the top"
        )
    if not kept:
        raise GeometryError(
            f"the cut {place} leaves 0 mm of the top: its far edge ends {max(0.0, origin - high):.4g} mm before "
            "the keep line; some wood must stay on the keep side: move the line outward or turn it round"
        )
    off = waste
    if one.at is not None:
        near = one.at
        inside = [part for part in waste if point_in_region(part, near) != "outside"]
        off = tuple(inside[:1]) or (min(waste, key=lambda part: _away(part, near)),)
        others = [segment for part in waste if part is not off[0] for segment in part.segments]
        kept = regions_of([*(segment for part in kept for segment in part.segments), *others])
    if len(kept) > 1:
        x, y = kept[1].centroid
        raise GeometryError(
            f"the cut {place} leaves the top in {len(kept)} parts, one of {kept[1].area:.4g} mm² about "
            f"({x:.5g}, {y:.5g}) mm; it must stay in 1 part: end the cut earlier"
        )
    offcuts = [piece for part in off for piece in _beyond(part, one.waste)]
    offcuts.sort(key=lambda piece: -piece.area)
    return Sawn(one, kept[0], tuple(offcuts), _on_line(kept[0], off, frame))


def cut(region: Region, keep_line: Line, kerf: float) -> tuple[Region, tuple[Region, ...]]:
    """Saw a top right across: what stays on the left of the keep line, and the offcuts beyond the kerf.

    See `saw` for what is refused.
    """
    sawn = saw(region, StraightCut(keep_line, kerf))
    return sawn.kept, sawn.offcuts


def _beyond(part: Region, line: Line) -> tuple[Region, ...]:
    """What lies on the right of a line; an edge within rounding of the line counts as on it."""
    ux, uy = Frame.on(line).along
    try:
        return clip_half_plane(part, line.start, (-ux, -uy))
    except GeometryError:
        # an edge of the part and the line cannot be told apart: step past it
        return clip_half_plane(part, beside(line, -EVENT_MM).start, (-ux, -uy))


def _away(part: Region, point: Point) -> float:
    """Distance from a point to the edges of a part (mm)."""
    return min(distance(segment, point) for segment in part.segments)


def _on_line(kept: Region, waste: tuple[Region, ...], frame: Frame) -> tuple[Line, ...]:
    """Edges of what is kept that the saw makes: those on the keep line that were next to waste."""
    found = []
    for segment in kept.segments:
        if not isinstance(segment, Line):
            continue
        (x0, y0), (x1, y1) = frame.local(segment.start), frame.local(segment.end)
        if max(abs(y0), abs(y1)) > NODE_MM or x1 - x0 <= FIT_MM:
            continue
        middle = frame.world(((x0 + x1) / 2, 0.0))
        if any(_away(part, middle) <= NODE_MM for part in waste):
            found.append(segment)
    return tuple(found)
