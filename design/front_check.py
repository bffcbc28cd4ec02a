"""Moved loops laid together: where one crosses itself or another, or has turned inside out, with names and place."""

from __future__ import annotations

import math
import re
from bisect import bisect_right
from collections.abc import Sequence
from itertools import accumulate
from typing import Final

from edgewright.design.front import Front
from edgewright.design.outline import Outline, Point
from edgewright.design.region import Region
from edgewright.errors import GeometryError

__all__ = ["SPECK_MM", "check_apart"]

#: What is shorter is left out when moved loops are laid together: all but used up, it would seem to cross others.
SPECK_MM: Final = 1e-4
#: How a region that cannot be names its segments and holes, counted from 1.
_SEGMENTS: Final = re.compile(r"segments (\d+) and (\d+) of the loops")
_HOLE: Final = re.compile(r"hole (\d+) is outside the outer loop")


def check_apart(fronts: Sequence[Front], reach: float) -> None:
    """Raise GeometryError where the moved loops cross themselves or one another, or have turned inside out."""
    whole: list[Outline] = []
    for front in fronts:
        try:
            loop = front.outline(reach, SPECK_MM)
        except GeometryError:
            loop = None  # ends that miss one another: it has gone through itself
        if loop is None or loop.area * (1 if not whole else -1) <= 0:
            x, y = _middle(front)
            raise GeometryError(
                f"the edge form reaches {reach:.5g} mm in; nothing is left within it of the face about "
                f"({x:.5g}, {y:.5g}) mm: use a smaller form"
            )
        whole.append(loop)
    try:
        Region(whole[0], tuple(whole[1:]))
    except GeometryError as error:
        place = str(error).partition(" at (")[2].partition(")")[0]
        if not place:
            place = "{:.5g}, {:.5g}".format(*_middle(fronts[0]))
        names = _loops_named(str(error), [len(loop.segments) for loop in whole])
        if len(names) > 1:
            raise GeometryError(
                f"the edge form reaches {reach:.5g} mm in; {' and '.join(names)} are too near to each other for it "
                f"near ({place}) mm: use a smaller form or leave more wood between them"
            ) from None
        raise GeometryError(
            f"the edge form reaches {reach:.5g} mm in from both sides and meets itself near ({place}) mm: the top "
            "is narrower there, or a cut-out nearer to the edge; use a smaller form or leave more wood"
        ) from None


def _loops_named(said: str, counts: Sequence[int]) -> list[str]:
    """Names of the loops that a region's refusal speaks of, outer edge first; ``counts`` are their segments."""
    ends = list(accumulate(counts))
    found = set()
    if pair := _SEGMENTS.match(said):
        found = {bisect_right(ends, int(number) - 1) for number in pair.groups()}
    elif (number := _HOLE.match(said)) is not None:
        # not crossed any more but passed altogether
        found = {0, int(number[1])}
    return [f"hole {at}" if at else "the outer edge" for at in sorted(found)]


def _middle(front: Front) -> Point:
    """A place by which the reader knows a loop: the middle of the ends of its edges (mm)."""
    ends = [one.segment.start if one.segment is not None else one.point for one in front.live]
    return math.fsum(x for x, _ in ends) / len(ends), math.fsum(y for _, y in ends) / len(ends)
