"""Straight strips of the ring: where each begins and ends in each layer.

At a square outside corner one strip runs through to the outer edge of the other, which butts into it; corners
within ten degrees of square are done alike, both ends cut to the angle. Elsewhere strips are mitred on the
bisector, butt into a block, or meet a curve square to the edge.
"""

from __future__ import annotations

import math
from typing import Literal

from edgewright.design.buildup.corner_blocks import block_reach
from edgewright.design.buildup.corner_cuts import along_edge, corner_cut, square_cut
from edgewright.design.buildup.ring_model import Cut, RingPiece, RingSettings, quad
from edgewright.design.buildup.roundings import Corner
from edgewright.design.outline import Line, Segment
from edgewright.design.segments import direction, point_at

__all__ = ["first_runs_through", "strip_end", "strip_piece"]


def first_runs_through(before: Line, after: Line, layer: int, settings: RingSettings) -> bool:
    """Whether at a square corner the strip that arrives runs through, and not the one that leaves."""
    if settings.corners == "pinwheel":
        # counter-clockwise each strip starts free and butts into the next
        return settings.swapped(layer)
    if math.isclose(before.length, after.length, rel_tol=1e-9):
        first_long = abs(direction(before, 0.0)[0]) > abs(direction(after, 0.0)[0])
    else:
        first_long = before.length > after.length
    return (first_long == (settings.through == "long")) != settings.swapped(layer)


def strip_end(
    own: Line,
    other: Segment,
    corner: Corner,
    end: Literal["start", "end"],
    extension: float,
    layer: int,
    settings: RingSettings,
) -> Cut:
    """Cut of a strip at one of its ends.

    Parameters
    ----------
    own, other
        The strip's edge and the run beyond the corner (its segment next to the corner).
    corner, end
        The corner and which end of the strip lies there.
    extension
        Straight stretch that the last segment of a curve takes along (mm).
    """
    before, after = (other, own) if end == "start" else (own, other)
    back = 1.0 if end == "start" else -1.0
    if corner.kind in ("block", "inside block"):
        extension = block_reach(corner, settings.strip_width)
    if extension > 0:
        t = extension / own.length
        return square_cut(own, point_at(own, t if back > 0 else 1 - t))
    if corner.kind == "square" and settings.corners != "mitre" and isinstance(other, Line):
        first = first_runs_through(_line(before), _line(after), layer, settings)
        width, proud = settings.strip_width, settings.proud
        return along_edge(other, -proud if first == (end == "end") else width - proud, corner.vertex)
    return corner_cut(before, after, corner, settings.ring_width)


def _line(segment: Segment) -> Line:
    if not isinstance(segment, Line):
        raise AssertionError("a square corner lies between two straight edges")
    return segment


def strip_piece(
    own: Line, names: tuple[str, ...], cuts: tuple[Cut, Cut], layer: int, settings: RingSettings
) -> RingPiece:
    """Strip under one straight run; its id is given later.

    Raises
    ------
    GeometryError
        If its ends leave nothing between them.
    """
    along = direction(own, 0.0)
    outer, inner = -settings.proud, settings.strip_width - settings.proud
    plan, length, start_angle, end_angle = quad(own.start, along, outer, inner, *cuts, " and ".join(names))
    return RingPiece(
        id="",
        kind="strip",
        layer=layer,
        edges=names,
        blank_length=length,
        blank_width=settings.strip_width,
        thickness=settings.strip_thickness,
        start_angle=start_angle,
        end_angle=end_angle,
        plan=plan,
        joints=(cuts[0].at, cuts[1].at),
        grain=None if settings.grain is None else math.atan2(along[1], along[0]) % math.pi,
    )
