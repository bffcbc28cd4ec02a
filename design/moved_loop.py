"""A loop of the outline moved in by an inset, as points: as many at every inset, so that levels can be joined.

A stretch that has died leaves all its points where its neighbours meet.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from edgewright.design.front import Front, Live
from edgewright.design.outline import FIT_MM, Point

__all__ = ["MovedLoop"]


@dataclass(frozen=True, slots=True)
class MovedLoop:
    """A loop on its way inwards.

    Attributes
    ----------
    fronts
        Its fronts, each with the inset at which it begins, the first one at 0.
    chords
        How many chords each stretch of the first front is drawn as, at every inset.
    """

    fronts: tuple[tuple[float, Front], ...]
    chords: tuple[int, ...]

    def points(self, inset: float) -> list[Point]:
        """Points at an inset (mm), stretch by stretch: its start and the inner ends of its chords."""
        first = self.fronts[0][1]
        front = next(front for begin, front in reversed(self.fronts) if begin <= inset + FIT_MM)
        numbers = {stretch: number for number, stretch in enumerate(front.live)}
        points: list[Point] = []
        waiting = 0
        for at, stretch in enumerate(first.live):
            # at a square corner a side of its own joins what is routed to what stays
            extra = int(first.corners[at].kind == "square")
            if stretch not in numbers:
                # dead: all its points lie where the next living one begins
                waiting += self.chords[at] + extra
                continue
            _, end = front.ends(numbers[stretch], inset)
            points += _gathered(front, numbers[stretch], inset, waiting)
            waiting = 0
            points += _along(front, numbers[stretch], inset, self.chords[at])
            points += [end] * extra
        first_alive = min(numbers.values())
        return points + _gathered(front, first_alive, inset, waiting)


def _gathered(front: Front, number: int, inset: float, count: int) -> list[Point]:
    """Points of what has died before a stretch: where it begins, or along the way of a square corner round an arc."""
    if not count:
        return []
    corner = front.corners[number - 1]
    if corner.via is None:
        return [front.ends(number, inset)[0]] * count
    if front.live[number - 1].speed:
        return [front.corner_at((number - 1) % len(front.live), inset)[0], *[corner.via] * (count - 1)]
    return [corner.via] * count


def _along(front: Front, number: int, inset: float, chords: int) -> Sequence[Point]:
    """Start of a stretch and the inner ends of its chords."""
    start, end = front.ends(number, inset)
    stretch: Live = front.live[number]
    if chords == 1 or math.dist(start, end) <= FIT_MM:
        return [start] * chords
    (cx, cy), radius = stretch.centre, stretch.radius(inset)
    begin, sweep = math.atan2(start[1] - cy, start[0] - cx), front.sweep(number, start, end)
    angles = (begin + sweep * n / chords for n in range(1, chords))
    return [start, *((cx + radius * math.cos(a), cy + radius * math.sin(a)) for a in angles)]
