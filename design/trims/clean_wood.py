"""Clean wood of the offcuts: what is left of them once the old finished edges are off.

An old edge is rounded, taped or coated to some depth. Whatever the order of the cuts, the wood further from every old
edge than that depth is the inset of the uncut top; the same cuts through it give the clean part of each offcut.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from edgewright.design.inset import inset
from edgewright.design.region import Region
from edgewright.design.tolerances import NODE_MM
from edgewright.design.trims.offcut import Offcut, offcuts_of
from edgewright.design.trims.shadow import Frame, span
from edgewright.design.trims.straight_cut import StraightCut, saw

__all__ = ["clean_wood", "cut_clean"]


def clean_wood(
    region: Region, cuts: Sequence[StraightCut], numbers: Sequence[int], depth: float
) -> tuple[Offcut, ...]:
    """Clean parts of all offcuts: the first of what `cut_clean` gives."""
    return cut_clean(region, cuts, numbers, depth)[0]


def cut_clean(
    region: Region, cuts: Sequence[StraightCut], numbers: Sequence[int], depth: float
) -> tuple[tuple[Offcut, ...], tuple[Region, ...]]:
    """Clean parts of all offcuts, in the order of the cuts, and the clean wood that stays in the top.

    Parameters
    ----------
    region
        The uncut top; all its edges, those of holes too, are taken as old.
    numbers
        Numbers from 0 of the cuts in the order they are made.
    depth
        How deep an old edge is finished, mm, at least 0.

    Returns
    -------
    tuple[tuple[Offcut, ...], tuple[Region, ...]]
        None of the edges of the offcuts is old.

    Raises
    ------
    GeometryError
        If the depth is out of range or a cut leaves the clean wood in several parts.
    """
    parts = list(inset(region, depth))
    found: list[Offcut] = []
    for number in numbers:
        one = cuts[number]
        ux, uy = Frame.on(one.keep).along
        line = one.keep.start[1] * ux - one.keep.start[0] * uy
        left: list[Region] = []
        for part in parts:
            low, high = span(part.segments, (-uy, ux))
            if low > line - NODE_MM:  # nothing of it comes off
                left.append(part)
            elif high > line + NODE_MM:
                sawn = saw(part, one)
                found += (replace(piece, dirty=()) for piece in offcuts_of(sawn))
                left.append(sawn.kept)
        parts = left
    return tuple(found), tuple(parts)
