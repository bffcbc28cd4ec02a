"""Where the two ends of a keep line are marked on the rim: on which edge, how far from which of its ends."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from edgewright.design.intersect import intersections
from edgewright.design.outline import Line, Outline, Point
from edgewright.design.segments import distance, parameter, turn_at
from edgewright.design.tolerances import NODE_MM

__all__ = ["Mark", "keep_marks"]

#: A corner that turns by less is not found on the wood: there is nothing to lay a tape at (choice of this program).
_SEEN: Final = math.radians(5)


@dataclass(frozen=True, slots=True)
class Mark:
    """One end of a keep line.

    Attributes
    ----------
    edge
        Name of the edge on which it is marked.
    corner
        Name of the edge beside it, towards which the distance is measured.
    distance
        Along the edge from that corner, mm; 0 at the corner itself.
    at
        The mark (mm).
    sharp
        Whether the corner is one that is seen on the wood; where an edge runs on smoothly into a curve it is not.
    """

    edge: str
    corner: str
    distance: float
    at: Point
    sharp: bool = True


def keep_marks(rim: Outline, names: Sequence[str], keep: Line) -> tuple[Mark, ...]:
    """Marks at the start and the end of a keep line, drawn on to the rim.

    Parameters
    ----------
    rim
        Outline of the top as it lies on the bench when the cut is marked.
    names
        Name of each of its segments.
    keep
        The keep line, within the top or from rim to rim.

    Returns
    -------
    tuple[Mark, ...]
        Two marks; fewer where the line does not meet the rim.
    """
    return tuple(
        mark
        for at, away in ((keep.start, keep.end), (keep.end, keep.start))
        if (mark := _mark(rim, names, at, away)) is not None
    )


def _mark(rim: Outline, names: Sequence[str], at: Point, away: Point) -> Mark | None:
    """Mark where the line from ``away`` through ``at`` comes to the rim, at or beyond ``at``."""
    x0, y0, x1, y1 = rim.bounds
    far = math.dist((x0, y0), (x1, y1)) + 1.0
    size = math.dist(at, away)
    ux, uy = (at[0] - away[0]) / size, (at[1] - away[1]) / size
    ray = Line(at, (at[0] + far * ux, at[1] + far * uy))
    found: list[tuple[float, int, Point]] = []
    for number, segment in enumerate(rim.segments):
        if distance(segment, at) <= NODE_MM:
            found.append((0.0, number, at))
        found += [(math.dist(at, point), number, point) for point in intersections(segment, ray)]
    if not found:
        return None
    _, number, point = min(found, key=lambda one: (round(one[0], 6), one[1]))
    segment = rim.segments[number]
    share = min(max(parameter(segment, point), 0.0), 1.0)
    count = len(names)
    if share <= 0.5:
        other, length = (number - 1) % count, share * segment.length
        turn = turn_at(rim.segments[other], segment)
    else:
        other, length = (number + 1) % count, (1 - share) * segment.length
        turn = turn_at(segment, rim.segments[other])
    same = names[other].split(", station ")[0] == names[number].split(", station ")[0]
    return Mark(names[number], names[other], length, point, abs(turn) > _SEEN and not same)
