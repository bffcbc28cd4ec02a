"""Straight blanks for the build-up out of what is routed off a top: the corners beside a round cut from its square."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from edgewright.design.anytop.trim import ShapedTrims
from edgewright.design.buildup.ring_model import RingPiece
from edgewright.design.clip import clip_half_plane
from edgewright.design.outline import Point
from edgewright.design.outset import outset
from edgewright.design.region import Region
from edgewright.design.shapes.model import Shape
from edgewright.design.trims.clear_rectangle import widest_blank
from edgewright.design.trims.curved_offcut import beyond
from edgewright.design.trims.turned_rectangle import TurnedRectangle
from edgewright.errors import GeometryError

__all__ = ["CornerBlank", "corner_blanks"]


#: An offcut that reaches further than this past the middle of the top both ways runs round it (mm).
_PAST: Final = 1.0


@dataclass(frozen=True, slots=True)
class CornerBlank:
    """Widest blank of a length from one routed offcut (mm); ``pieces`` that may be cut from it, one each."""

    number: int
    offcut: Region
    blank: TurnedRectangle
    pieces: tuple[str, ...]


def corner_blanks(
    old: Shape, trims: ShapedTrims, pieces: tuple[RingPiece, ...], cutter: float
) -> tuple[CornerBlank, ...]:
    """Blanks as long as the build-up's shortest pieces out of each routed offcut, where they are wide enough.

    Parameters
    ----------
    old, trims
        The old top and how it is trimmed; only what a router takes off counts.
    pieces
        Pieces of the build-up.
    cutter
        Diameter of the straight cutter (mm).

    Returns
    -------
    tuple[CornerBlank, ...]
        Largest offcut first; an offcut that gives no piece is left out. The blank lies square to the line from
        the middle of the top, as in the corner of a square, or along the length or the width, whichever is
        wider; at another angle a wider one may lie.
    """
    flat = [piece for piece in pieces if piece.kind in ("strip", "segment")]
    if not flat or not trims.arcs:
        return ()
    length = min(piece.blank_length for piece in flat)
    try:
        offcuts = beyond(Region(old.outline), outset(trims.finished.outline, cutter))
    except GeometryError:
        return ()
    middle = trims.finished.outline.centroid
    found: list[CornerBlank] = []
    for offcut in (part for whole in offcuts for part in _quartered(whole, middle)):
        blank = _across(offcut, middle, length)
        if blank is None:
            continue
        fits = tuple(
            piece.id
            for piece in flat
            if piece.blank_length <= blank.length + 1e-6 and piece.blank_width <= blank.width + 1e-6
        )
        if fits:
            found.append(CornerBlank(len(found) + 1, offcut, blank, fits))
    return tuple(found)


def _quartered(offcut: Region, middle: Point) -> tuple[Region, ...]:
    """An offcut that runs all round the top is sawn in four; any other one stays as it is."""
    x0, y0, x1, y1 = offcut.bounds
    if not (x0 + _PAST < middle[0] < x1 - _PAST and y0 + _PAST < middle[1] < y1 - _PAST):
        return (offcut,)
    quarters: tuple[Region, ...] = ()
    for along, up in ((1.0, 1.0), (1.0, -1.0), (-1.0, 1.0), (-1.0, -1.0)):
        for half in clip_half_plane(offcut, middle, (along, 0.0)):
            quarters += clip_half_plane(half, middle, (0.0, up))
    return quarters


def _across(offcut: Region, middle: Point, length: float) -> TurnedRectangle | None:
    x, y = offcut.centroid
    ways = ((middle[1] - y, x - middle[0]), (1.0, 0.0), (0.0, 1.0))
    blanks = [blank for way in ways if (blank := widest_blank(offcut, length, way)) is not None]
    return max(blanks, key=lambda blank: blank.width, default=None)
