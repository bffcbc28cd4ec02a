"""How far the joints of a ring lie from the panel seams of the top."""

from __future__ import annotations

import math
from collections.abc import Sequence

from edgewright.design.intersect import intersections
from edgewright.design.outline import Line
from edgewright.design.ring_model import RingPiece
from edgewright.design.segments import distance

__all__ = ["seam_clearance"]


def seam_clearance(piece: RingPiece, seams: Sequence[Line], ring: float) -> float:
    """Least distance from the joint at a piece's start to a seam (mm); infinite where there is no seam.

    Parameters
    ----------
    piece
        A strip or segment; its plan begins at its outer start and ends at its inner start.
    seams
        Panel seams from end to end.
    ring
        Ring width: the joint counts from the edge to this depth (mm).
    """
    at, (x, y) = piece.joints[0], piece.plan[-1]
    size = math.dist(at, (x, y))
    joint = Line(at, (at[0] + (x - at[0]) * ring / size, at[1] + (y - at[1]) * ring / size))
    return min((_apart(joint, seam) for seam in seams), default=math.inf)


def _apart(a: Line, b: Line) -> float:
    if intersections(a, b):
        return 0.0
    return min(
        distance(a, b.start), distance(a, b.end), distance(b, a.start), distance(b, a.end)
    )  # lines that do not meet are nearest at an end
