"""From which straight edge a keep line is measured square: the one that comes off, or one that stays."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from edgewright.design.outline import Line, Outline
from edgewright.design.tolerances import NODE_MM
from edgewright.design.trims.shadow import Frame

__all__ = ["PARALLEL_MM", "Datum", "edge_kept", "edge_off"]

#: An edge is parallel to the keep line if both are as far apart at either end, within this (choice of this program).
PARALLEL_MM: Final = 0.05
#: An edge that ends this much before the keep line does is still told to lie opposite to both its ends (1/2 in).
_ENDS_MM: Final = 12.7
#: Least part of the keep line that an edge lies opposite, for one that stays and for the one that comes off.
_KEPT_SHARE: Final = 0.5
_OFF_SHARE: Final = 0.25


@dataclass(frozen=True, slots=True)
class Datum:
    """A straight edge parallel to a keep line.

    Attributes
    ----------
    name
        Name of the edge.
    distance
        Square from the edge to the keep line, mm.
    stays
        Whether the edge lies on the side that stays.
    edge
        The edge (mm).
    both_ends
        Whether the edge lies opposite to both ends of the keep line; else only to a part of it.
    """

    name: str
    distance: float
    stays: bool
    edge: Line
    both_ends: bool


def edge_kept(rim: Outline, names: Sequence[str], keep: Line) -> Datum | None:
    """Straight edge of the wood that stays from which the keep line is measured; None where none is parallel.

    Parameters
    ----------
    rim
        Outline of the top as it lies on the bench when the cut is marked.
    names
        Name of each of its segments.
    keep
        The keep line from rim to rim, the wood that stays on its left.
    """
    return _parallel(rim, names, keep, stays=True)


def edge_off(rim: Outline, names: Sequence[str], keep: Line, name: str = "") -> Datum | None:
    """Straight edge that comes off by an equal amount all along; None where it tapers or is curved.

    Parameters
    ----------
    rim, names, keep
        As for `edge_kept`.
    name
        The edge that the cut is called by: of several it is taken first.
    """
    return _parallel(rim, names, keep, stays=False, first=name)


def _parallel(
    rim: Outline, names: Sequence[str], keep: Line, *, stays: bool, first: str = ""
) -> Datum | None:
    frame = Frame.on(keep)
    least = _KEPT_SHARE if stays else _OFF_SHARE
    found: list[tuple[bool, float, int, Datum]] = []
    for number, (name, edge) in enumerate(zip(names, rim.segments, strict=True)):
        if not isinstance(edge, Line):
            continue
        (x0, y0), (x1, y1) = frame.local(edge.start), frame.local(edge.end)
        low, high = min(x0, x1), max(x0, x1)
        # how far the two part over the longer of them
        parted = abs(y1 - y0) * max(1.0, keep.length / edge.length)
        middle = (y0 + y1) / 2 if stays else -(y0 + y1) / 2
        opposite = min(high, keep.length) - max(low, 0.0)
        if parted > PARALLEL_MM or middle <= NODE_MM or opposite < least * keep.length:
            continue
        both = low <= _ENDS_MM and high >= keep.length - _ENDS_MM
        found.append((name != first, -round(opposite, 6), number, Datum(name, middle, stays, edge, both)))
    return min(found, key=lambda one: one[:3])[3] if found else None
