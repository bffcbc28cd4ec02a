"""Places at a table: where the chairs stand, as many as the edge and the room give.

The rule is one pitch of edge a person, whole places along each stretch from corner to corner, spread evenly (common
practice, no source). A place whose chair would stand in a wall, in another chair or under another part of the top is
none. Legs take further places away; they are not counted here.
"""

from __future__ import annotations

import math
from collections.abc import Collection, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from edgewright import trade
from edgewright.compass import PerSide
from edgewright.design.outline import FIT_MM, Outline, Point
from edgewright.design.seat_runs import Place, Run, runs
from edgewright.drawing.arcs import chords
from edgewright.drawing.view import Loop
from edgewright.job_shop import Seating

__all__ = ["Chair", "chair_corners", "chair_of", "seat_places", "shared_out"]

#: The rim in straight lines stays this near to it, far less than the gap to a chair, mm.
_CHORD_MM: Final = 3.0
_NO_WALLS: Final[PerSide[float | None]] = PerSide(None, None, None, None)


@dataclass(frozen=True, slots=True)
class Chair:
    """A chair as drawn in plan, mm: its width along the edge, its depth, and its gap to the edge."""

    width: float
    depth: float
    gap: float


def chair_of(seating: Seating) -> Chair:
    """Chair of a job: as given, else a plain side chair."""
    wide, deep = seating.chair_width, seating.chair_depth
    return Chair(
        float(trade.CHAIR_WIDTH.value) if wide is None else wide.mm,
        float(trade.CHAIR_DEPTH.value) if deep is None else deep.mm,
        float(trade.CHAIR_GAP.value),
    )


def chair_corners(place: Place, chair: Chair) -> tuple[Point, Point, Point, Point]:
    """Corners of a chair at a place, counter-clockwise from its front on the left of who sits there (mm)."""
    (x, y), (ox, oy) = place.at, place.out
    near, far, half = chair.gap, chair.gap + chair.depth, chair.width / 2
    return (
        (x + near * ox + half * oy, y + near * oy - half * ox),
        (x + far * ox + half * oy, y + far * oy - half * ox),
        (x + far * ox - half * oy, y + far * oy + half * ox),
        (x + near * ox - half * oy, y + near * oy + half * ox),
    )


def seat_places(
    outline: Outline,
    pitch: float,
    chair: Chair,
    still: Collection[int] = (),
    walls: PerSide[float | None] = _NO_WALLS,
    wanted: int | None = None,
) -> tuple[Place, ...]:
    """Places at a top.

    Parameters
    ----------
    outline
        Counter-clockwise, mm.
    pitch
        Edge for each person, mm, greater than 0; a wider chair takes its own width.
    still
        Numbers of segments that nobody sits at.
    walls
        Where walls stand, in the outline's frame: y of a north or south one, x of an east or west one, mm.
    wanted
        How many at most, spread over all stretches; None for as many as fit.
    """
    # as floats an edge may be a hair too short for a whole number of places
    most_each = max(pitch, chair.width)
    rim = [*chords(Loop(outline.bulge_vertices()), _CHORD_MM)]
    room = _Room(
        chair,
        tuple(pairwise([*rim, rim[0]])),
        (_or(walls.west, -1), _or(walls.south, -1), _or(walls.east, 1), _or(walls.north, 1)),
    )
    found: list[tuple[Run, tuple[Place, ...]]] = []
    for run in sorted(runs(outline, still, chair.gap + chair.depth), key=_southern):
        # where one chair would not stand, all of the run are spread wider
        for count in range(int((run.length + 1e3 * FIT_MM) // most_each), 0, -1):
            places = run.spread(count)
            if room.holds(places, [place for _, others in found for place in others]):
                found.append((run, places))
                break
    if wanted is None:
        return tuple(place for _, places in found for place in places)
    shares = shared_out([(run.length, len(places)) for run, places in found], wanted)
    for at, ((run, places), count) in enumerate(zip(found, shares, strict=True)):
        if count < len(places):
            others = [place for n, (_, beside) in enumerate(found) if n != at for place in beside]
            anew = run.spread(count)
            some = tuple(places[number * len(places) // count] for number in range(count))
            found[at] = run, anew if room.holds(anew, others) else some
    return tuple(place for _, places in found for place in places)


def shared_out(capacities: Sequence[tuple[float, int]], wanted: int) -> list[int]:
    """Share places out over stretches of edge (length, most places): the next goes where each has the most room.

    References
    ----------
    The method of highest averages (D'Hondt).
    """
    shares = [0] * len(capacities)
    for _ in range(min(wanted, sum(most for _, most in capacities))):
        open_ = [n for n, (_, most) in enumerate(capacities) if shares[n] < most]
        # of equals the longest stretch goes first
        best = max(
            open_,
            key=lambda n: (round(capacities[n][0] / (shares[n] + 1), 6), round(capacities[n][0], 6), -n),
        )
        shares[best] += 1
    return shares


def _or(wall: float | None, way: int) -> float:
    return way * math.inf if wall is None else wall


def _southern(run: Run) -> tuple[float, float]:
    """Orders runs from the south, then from the west, wherever an outline begins."""
    x, y = run.at(run.length / 2).at
    return round(y, 3), round(x, 3)


@dataclass(frozen=True, slots=True)
class _Room:
    """What chairs stand between: the rim of the top in short straight lines, and walls (west, south, east, north)."""

    chair: Chair
    rim: tuple[tuple[Point, Point], ...]
    walls: tuple[float, float, float, float]

    def holds(self, places: Sequence[Place], others: Sequence[Place]) -> bool:
        """Whether chairs at all these places stand free of walls, of one another, of other chairs and of the top."""
        chairs = [chair_corners(place, self.chair) for place in places]
        standing = [chair_corners(place, self.chair) for place in others]
        x0, y0, x1, y1 = self.walls
        for number, corners in enumerate(chairs):
            if not all(
                x0 - FIT_MM <= x <= x1 + FIT_MM and y0 - FIT_MM <= y <= y1 + FIT_MM for x, y in corners
            ):
                return False
            if not all(_apart(corners, other) for other in (*standing, *chairs[:number], *self.rim)):
                return False
        return True


def _apart(box: Sequence[Point], other: Sequence[Point]) -> bool:
    """Whether a line along a side of either convex figure lies between both (the separating axis theorem)."""
    for axis in (0, 1):
        one, two = [point[axis] for point in box], [point[axis] for point in other]
        if max(one) <= min(two) or max(two) <= min(one):
            return True
    for figure in (box, other):
        for (ax, ay), (bx, by) in zip(figure, [*figure[1:], figure[0]], strict=True):
            nx, ny = by - ay, ax - bx
            size = math.hypot(nx, ny)
            one = [(nx * x + ny * y) / size for x, y in box]
            two = [(nx * x + ny * y) / size for x, y in other]
            if max(one) <= min(two) + FIT_MM or max(two) <= min(one) + FIT_MM:
                return True
    return False
