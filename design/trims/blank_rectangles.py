"""Disjoint true rectangles in an offcut, laid out for the blanks that are wanted from it.

A rectangle is sawn out by cuts right across the offcut along its long sides, then across its ends; what is left beyond
each of these cuts is looked at again in the same way. Which rectangle is taken first is a choice by how much of the
wanted blanks it holds, lane by lane: a good one, not a proven one.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Final

from edgewright.design.clip import clip_half_plane
from edgewright.design.inset import inset
from edgewright.design.outline import FIT_MM, Point
from edgewright.design.region import Region
from edgewright.design.trims.clear_rectangle import widest_blank
from edgewright.design.trims.shadow import Frame, span
from edgewright.design.trims.turned_rectangle import TurnedRectangle
from edgewright.errors import GeometryError

__all__ = ["WantedBlank", "blank_rectangles", "held_area"]

#: Rectangles that are taken from one offcut at most, and lengths and widths that are tried for each.
_MOST: Final = 6
_TRIED: Final = 6


@dataclass(frozen=True, slots=True)
class WantedBlank:
    """Blanks of one size (mm); ``turns`` where they may lie across the rectangle too."""

    length: float
    width: float
    count: int
    turns: bool = True


@lru_cache(maxsize=128)  # variants of a job ask for the same blanks from the same wood
def blank_rectangles(
    region: Region, ways: tuple[Point, ...], wanted: tuple[WantedBlank, ...], kerf: float
) -> tuple[TurnedRectangle, ...]:
    """Rectangles that can be sawn out of a region and hold at least one wanted blank each.

    Parameters
    ----------
    region
        Clean wood.
    ways
        Directions along which their long sides may run.
    wanted
        Blanks; each rectangle is chosen for those that the ones before it do not hold.
    kerf
        Saw kerf (mm).
    """
    first = [*_candidates(region, ways, wanted, kerf)] if wanted else []
    tries = [_taken(region, ways, wanted, kerf, first, narrow=narrow) for narrow in (False, True)]
    return max(tries, key=lambda one: round(one[0], 3))[1]


def _taken(
    region: Region,
    ways: tuple[Point, ...],
    wanted: Sequence[WantedBlank],
    kerf: float,
    first: Sequence[TurnedRectangle],
    *,
    narrow: bool,
) -> tuple[float, tuple[TurnedRectangle, ...]]:
    """Area held and rectangles, of those that hold the same the largest each time, or the narrowest."""
    found: list[TurnedRectangle] = []
    parts, total = [(region, ways)], 0.0
    left = list(wanted)
    while parts and left and len(found) < _MOST:
        part, along = parts.pop(0)
        candidates = _candidates(part, along, left, kerf) if found else iter(first)
        best = max(
            candidates,
            key=lambda one: (round(held_area(one, left, kerf)[0], 3), -one.width if narrow else one.area),
            default=None,
        )
        held, rest = (0.0, left) if best is None else held_area(best, left, kerf)
        if best is None or held <= 0:
            continue
        found.append(best)
        left, total = rest, total + held
        # what is left is laid out the same way: one setting of the guide for all of it
        parts += [(beyond, (best.direction,)) for beyond in _beyond(part, best, kerf)]
    return total, tuple(found)


def held_area(
    rectangle: TurnedRectangle, wanted: Sequence[WantedBlank], kerf: float
) -> tuple[float, list[WantedBlank]]:
    """Area (mm²) of the blanks that lanes along a rectangle hold, largest blanks first, and what is still wanted."""
    area, room, rest = 0.0, rectangle.width, []
    for blank in sorted(wanted, key=lambda one: (-one.length * one.width, -one.length)):
        count = blank.count
        sizes = [(blank.length, blank.width), (blank.width, blank.length)][: 1 + blank.turns]
        for along, across in sizes:
            if along > rectangle.length + FIT_MM:
                continue
            in_lane = int((rectangle.length + kerf + FIT_MM) // (along + kerf))
            while count and across <= room + FIT_MM:
                laid = min(count, in_lane)
                count -= laid
                area += laid * blank.length * blank.width
                room -= across + kerf
        if count:
            rest.append(WantedBlank(blank.length, blank.width, count, blank.turns))
    return area, rest


def _candidates(
    region: Region, ways: Sequence[Point], wanted: Sequence[WantedBlank], kerf: float
) -> Iterator[TurnedRectangle]:
    narrowest = min(min(blank.width, blank.length) for blank in wanted)
    shortest = min(blank.length for blank in wanted)
    if region.area < min(blank.length * blank.width for blank in wanted) or not _room(region, narrowest):
        return
    for way in ways:
        frame = Frame.at((0.0, 0.0), way)
        local = [frame.moved(segment) for segment in region.segments]
        (west, east), (low, high) = span(local, (1.0, 0.0)), span(local, (0.0, 1.0))
        if (
            min(high - low, east - west) < narrowest - FIT_MM
            or max(high - low, east - west) < shortest - FIT_MM
        ):
            continue
        across = (-way[1], way[0])
        for length in _multiples([blank.length for blank in wanted], east - west, kerf):
            wide = widest_blank(region, length, way)
            if wide is None or wide.width < narrowest - FIT_MM:
                break  # longer ones are narrower still
            yield wide
        for width in _multiples([blank.width for blank in wanted], high - low, kerf):
            long = widest_blank(region, width, across)
            if long is None or long.width < shortest - FIT_MM:
                break
            yield TurnedRectangle(long.corners[3], way, long.width, long.length)


def _room(region: Region, width: float) -> bool:
    """Whether a disc of this diameter (mm) has room, as it must for a blank as wide."""
    try:
        return bool(inset(region, max(0.0, width / 2 - FIT_MM)))
    except GeometryError:
        return True


def _multiples(sizes: Sequence[float], most: float, kerf: float) -> list[float]:
    """Sizes that hold one, two ... blanks side by side, and are at most as large as the wood."""
    found = set()
    for size in sizes:
        number = 1
        while number * (size + kerf) - kerf <= most + FIT_MM and number <= _TRIED:
            found.add(min(number * (size + kerf) - kerf, most))
            number += 1
    tried = sorted(found)
    return tried[:: max(1, -(-len(tried) // _TRIED))]


def _beyond(region: Region, taken: TurnedRectangle, kerf: float) -> Iterator[Region]:
    """What is left beyond the two cuts along a rectangle, then beyond those across its ends."""
    frame = Frame(taken.corner, taken.direction)
    (ux, uy), length, width = taken.direction, taken.length, taken.width
    back, left, right = (-ux, -uy), (-uy, ux), (uy, -ux)
    try:
        yield from clip_half_plane(region, frame.world((0.0, width + kerf)), (ux, uy))
        yield from clip_half_plane(region, frame.world((0.0, -kerf)), back)
        bands = clip_half_plane(region, frame.world((0.0, 0.0)), (ux, uy))
        for band in (part for one in bands for part in clip_half_plane(one, frame.world((0.0, width)), back)):
            yield from clip_half_plane(band, frame.world((length + kerf, 0.0)), right)
            yield from clip_half_plane(band, frame.world((-kerf, 0.0)), left)
    except GeometryError:
        return
