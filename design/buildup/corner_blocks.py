"""Solid blocks at corners: outside where the rounding is too large for two strips, inside always.

An outside block is a square of side R + w at a right angle, a kite at another (its inner end cut off where the
corner is blunt): from the sharp corner along both edges to the strips' ends, which butt into it square. An
inside block takes in the inside corner and lies flush with its edges, so that the radius is cut through the
full thickness in solid wood and no joint lies in it; the strips begin a strip width beyond the end of the
radius. Common practice, no source.
"""

from __future__ import annotations

import math
from typing import Final

from edgewright.design.buildup.curve_path import inward_at
from edgewright.design.buildup.ring_model import PieceKind, RingPiece, RingSettings
from edgewright.design.buildup.roundings import Corner
from edgewright.design.outline import Line, Point

__all__ = ["block_reach", "corner_block"]

#: At a corner that turns by less, a kite would reach far into the top: its inner end is cut off straight from
#: strip to strip (choice of this program).
SQUARE_FROM: Final = math.radians(75)


def block_reach(corner: Corner, strip_width: float) -> float:
    """From the sharp corner along each edge to where the strip begins (mm): R tan(θ/2) + w."""
    return corner.radius * math.tan(abs(corner.turn) / 2) + strip_width


def corner_block(before: Line, after: Line, corner: Corner, layer: int, settings: RingSettings) -> RingPiece:
    """Block at a corner between two straight runs; its id is given later.

    The blank is the smallest rectangle with a side along the edge that arrives at the corner.
    """
    reach = block_reach(corner, settings.strip_width)
    outer, inner = -settings.proud, settings.strip_width - settings.proud
    (px, py), (qx, qy) = before.end, after.start
    (ax, ay), (bx, by) = before.start, after.end
    ux, uy = (ax - px) / before.length, (ay - py) / before.length
    vx, vy = (bx - qx) / after.length, (by - qy) / after.length
    first, second = inward_at(before, 0.0), inward_at(after, 0.0)

    def moved(away: Point, inward: Point, depth: float) -> Point:
        x, y = corner.vertex
        return x + reach * away[0] + depth * inward[0], y + reach * away[1] + depth * inward[1]

    start, end = moved((ux, uy), first, 0.0), moved((vx, vy), second, 0.0)
    half = abs(corner.turn) / 2
    nx, ny = first[0] + second[0], first[1] + second[1]
    size = math.hypot(nx, ny)

    def on_bisector(depth: float) -> Point:
        x, y = corner.vertex
        return x + depth * nx / size, y + depth * ny / size

    plan: tuple[Point, ...]
    kind: PieceKind = "corner block" if corner.turn > 0 else "inside block"
    if corner.turn >= SQUARE_FROM:
        # both square ends meet at reach / sin(half) behind the sharp corner
        plan = (
            moved((ux, uy), first, outer),
            on_bisector(outer / math.cos(half)),
            moved((vx, vy), second, outer),
            on_bisector(reach / math.sin(half)),
        )
    elif corner.turn > 0:
        plan = (
            moved((ux, uy), first, outer),
            on_bisector(outer / math.cos(half)),
            moved((vx, vy), second, outer),
            moved((vx, vy), second, inner),
            moved((ux, uy), first, inner),
        )
    else:
        plan = (
            moved((ux, uy), first, inner),
            moved((ux, uy), first, outer),
            moved((vx, vy), second, outer),
            moved((vx, vy), second, inner),
            on_bisector(inner / math.cos(half)),
        )
    alongs = [x * ux + y * uy for x, y in plan]
    acrosses = [-x * uy + y * ux for x, y in plan]
    return RingPiece(
        id="",
        kind=kind,
        layer=layer,
        edges=(corner.name,),
        blank_length=max(alongs) - min(alongs),
        blank_width=max(acrosses) - min(acrosses),
        thickness=settings.strip_thickness,
        start_angle=0.0,
        end_angle=0.0,
        plan=plan,
        joints=(start, end),
        grain=None if settings.grain is None else settings.grain % math.pi,
    )
