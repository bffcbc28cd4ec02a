"""A straight strip of the ring made of several pieces, butted end to end with square cuts."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from edgewright.design.buildup.ring_model import RingPiece
from edgewright.design.outline import Line, Point

__all__ = ["crossings", "place_on_strip", "split_strip"]


def split_strip(piece: RingPiece, splices: Sequence[float], proud: float) -> tuple[RingPiece, ...]:
    """Pieces of a strip that is spliced; their ids get letters from the strip's start.

    Parameters
    ----------
    piece
        A straight strip.
    splices
        Where, ascending, mm from the start of its blank.
    proud
        How far the strip stands outside the finished edge (mm).
    """
    if not splices:
        return (piece,)
    origin, (ux, uy) = _axis(piece)
    nx, ny = -uy, ux
    outer_start, outer_end, inner_end, inner_start = piece.plan

    def at(along: float, depth: float) -> Point:
        return origin[0] + along * ux + depth * nx, origin[1] + along * uy + depth * ny

    cuts: list[tuple[Point, Point, Point, float]] = [
        (outer_start, inner_start, piece.joints[0], piece.start_angle),
        *((at(s, 0.0), at(s, piece.blank_width), at(s, proud), 0.0) for s in splices),
        (outer_end, inner_end, piece.joints[1], piece.end_angle),
    ]
    found = []
    for number, (first, last) in enumerate(pairwise(cuts)):
        corners = (first[0], last[0], last[1], first[1])
        places = [(x - origin[0]) * ux + (y - origin[1]) * uy for x, y in corners]
        found.append(
            replace(
                piece,
                id=f"{piece.id}{chr(ord('a') + number)}",
                blank_length=max(places) - min(places),
                start_angle=first[3],
                end_angle=last[3],
                plan=corners,
                joints=(first[2], last[2]),
            )
        )
    return tuple(found)


def crossings(piece: RingPiece, seams: Sequence[Line]) -> tuple[float, ...]:
    """Where panel seams of the top cross a strip, mm from the start of its blank; as far as they come to it."""
    (ox, oy), (ux, uy) = _axis(piece)
    found = []
    for seam in seams:
        ends = [
            ((x - ox) * ux + (y - oy) * uy, (y - oy) * ux - (x - ox) * uy) for x, y in (seam.start, seam.end)
        ]
        (ax, ay), (bx, by) = ends
        if min(ay, by) > piece.blank_width or max(ay, by) < 0:
            continue
        # a seam along the strip parts nothing of it
        if abs(by - ay) > 1e-9:
            middle = piece.blank_width / 2
            found.append(ax + (bx - ax) * (middle - ay) / (by - ay))
    return tuple(at for at in sorted(found) if 0 < at < piece.blank_length)


def place_on_strip(piece: RingPiece, point: Point) -> float:
    """How far along a strip a point lies, mm from the start of its blank."""
    (ox, oy), (ux, uy) = _axis(piece)
    return (point[0] - ox) * ux + (point[1] - oy) * uy


def _axis(piece: RingPiece) -> tuple[Point, Point]:
    """The outer corner where the blank starts, and the direction (length 1) along it."""
    (ax, ay), (bx, by) = piece.plan[0], piece.plan[1]
    size = math.hypot(bx - ax, by - ay)
    ux, uy = (bx - ax) / size, (by - ay) / size
    ahead = min(0.0, *((x - ax) * ux + (y - ay) * uy for x, y in piece.plan))
    return (ax + ahead * ux, ay + ahead * uy), (ux, uy)
