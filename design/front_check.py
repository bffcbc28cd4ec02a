"""Moved loops laid together: where one crosses itself or another, or has turned inside out, with names and place."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final

from edgewright.design.front import Front
from edgewright.design.outline import Outline, Point
from edgewright.design.region import LoopsError, Region
from edgewright.errors import GeometryError

__all__ = ["SPECK_MM", "check_apart"]

#: What is shorter is left out when moved loops are laid together: all but used up, it would seem to cross others.
SPECK_MM: Final = 1e-4


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
        meet = error if isinstance(error, LoopsError) else None
        x, y = _middle(fronts[0]) if meet is None else meet.at
        place = f"{x:.5g}, {y:.5g}" if meet is None else f"{x:g}, {y:g}"
        if meet is not None and len(meet.loops) > 1:
            names = [f"hole {number}" if number else "the outer edge" for number in meet.loops]
            raise GeometryError(
                f"the edge form reaches {reach:.5g} mm in; {' and '.join(names)} are too near to each other for it "
                f"near ({place}) mm: use a smaller form or leave more wood between them"
            ) from None
        raise GeometryError(
            f"the edge form reaches {reach:.5g} mm in from both sides and meets itself near ({place}) mm: the top "
            "is narrower there, or a cut-out nearer to the edge; use a smaller form or leave more wood"
        ) from None


def _middle(front: Front) -> Point:
    """A place by which the reader knows a loop: the middle of the ends of its edges (mm)."""
    ends = [one.segment.start if one.segment is not None else one.point for one in front.live]
    return math.fsum(x for x, _ in ends) / len(ends), math.fsum(y for _, y in ends) / len(ends)
