"""How far the joints of a ring lie from the panel seams of the top."""

from __future__ import annotations

import math
from collections.abc import Sequence

from edgewright.design.buildup.ring_model import RingPiece
from edgewright.design.outline import Line, Point
from edgewright.design.segments import distance

__all__ = ["joint_clearance", "seam_clearance"]


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
    return joint_clearance(at, ((x - at[0]) / size, (y - at[1]) / size), seams, ring)


def joint_clearance(at: Point, inward: Point, seams: Sequence[Line], ring: float) -> float:
    """Least distance from a joint to a seam (mm); the joint runs ``inward`` (unit vector) from the edge."""
    joint = Line(at, (at[0] + ring * inward[0], at[1] + ring * inward[1]))
    return min((_apart(joint, seam) for seam in seams), default=math.inf)


def _apart(a: Line, b: Line) -> float:
    """Least distance of two lines (mm)."""
    if _side(a, b.start) * _side(a, b.end) < 0 and _side(b, a.start) * _side(b, a.end) < 0:
        return 0.0
    # lines that do not cross are nearest at an end
    return min(distance(a, b.start), distance(a, b.end), distance(b, a.start), distance(b, a.end))


def _side(line: Line, point: Point) -> float:
    (ax, ay), (bx, by) = line.start, line.end
    return (bx - ax) * (point[1] - ay) - (by - ay) * (point[0] - ax)
