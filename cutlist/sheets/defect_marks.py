"""Defects of the old top on the trim sheet: a hatched box with its name; one that is metal is crossed and says so."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from edgewright.cutlist.model import DefectBox
from edgewright.cutlist.sheets.panel import PanelFrame
from edgewright.cutlist.sheets.places import Places, block_size
from edgewright.drawing.paper import HATCHING, PANEL, SMALL, THIN, Pen, Point
from edgewright.drawing.view import Box

__all__ = ["defect_marks", "defect_words"]

#: A defect is drawn at least so large (paper mm), that it may be seen.
_LEAST: Final = 1.2
_AIR: Final = 1.0
#: Steps by which its name moves away from it (paper mm).
_AWAY: Final = (0.0, 3.0, 6.0, 10.0, 15.0)


def defect_words(defect: DefectBox) -> str:
    """What stands beside a defect."""
    return f"{defect.name}: METAL" if defect.metal else defect.name


def defect_marks(
    pen: Pen,
    frame: PanelFrame,
    defects: Sequence[DefectBox],
    taken: Sequence[Box],
    lines: Sequence[Sequence[Point]],
) -> list[Box]:
    """Draw the defects that lie in the panel as it is before these cuts.

    Parameters
    ----------
    taken
        Paper boxes that are not free.
    lines
        Lines on paper that no name runs over.

    Returns
    -------
    list of Box
        The paper that the defects and their names take.
    """
    places = Places()
    places.limits = (frame.left + 1, frame.bottom + 1, frame.right - 1, frame.top - 1)
    for one in taken:
        places.take(one)
    for line in lines:
        places.keep_clear(line)
    drawn = [(defect, box) for defect in defects if (box := _box(frame, defect)) is not None]
    for defect, at in drawn:
        _draw(pen, at, metal=defect.metal)
        places.take(at)
    used = [at for _, at in drawn]
    for defect, at in drawn:
        used += _name(pen, places, defect, at)
    return used


def _box(frame: PanelFrame, defect: DefectBox) -> Box | None:
    """On paper, as far as it lies in the panel; None where nothing of it does."""
    edges = frame.edges
    x0, x1 = (min(max(at, edges["west"]), edges["east"]) for at in defect.along_ticks)
    y0, y1 = (min(max(at, edges["south"]), edges["north"]) for at in defect.across_ticks)
    if x0 >= x1 or y0 >= y1:
        return None
    # the page is mirrored
    left, right = _seen(frame.x(x1), frame.x(x0))
    low, high = _seen(frame.y(y0), frame.y(y1))
    return left, low, right, high


def _seen(low: float, high: float) -> tuple[float, float]:
    more = max(0.0, _LEAST - (high - low)) / 2
    return low - more, high + more


def _draw(pen: Pen, box: Box, *, metal: bool) -> None:
    x0, y0, x1, y1 = box
    pen.hatch([(x0, y0), (x1, y0), (x1, y1), (x0, y1)], 45, 0.8)
    pen.box(PANEL if metal else HATCHING, *box)
    if metal:
        pen.line(PANEL, (x0, y0), (x1, y1))
        pen.line(PANEL, (x0, y1), (x1, y0))


def _name(pen: Pen, places: Places, defect: DefectBox, box: Box) -> list[Box]:
    """Write the name as near as there is room, with a leader where it is not close by."""
    words = (defect_words(defect),)
    wide, high = block_size(words, SMALL)
    x0, y0, x1, y1 = box
    x, y = (x0 + x1) / 2, (y0 + y1) / 2
    for away in _AWAY:
        out = _AIR + away
        beside = [(x1 + out + wide / 2, y), (x0 - out - wide / 2, y)]
        over = [(x, y0 - out - high / 2), (x, y1 + out + high / 2)]
        aslant = [(cx, cy) for cx, _ in beside for _, cy in over]
        found = places.put(pen, words, SMALL, [*beside, *over, *aslant])
        if found is not None:
            if away:
                pen.line(THIN, (x, y), _nearest(found, (x, y)))
            return [found]
    # no room is free of lines: the name stands on white
    spot = [(x, y0 - _AIR - high / 2), (x, y1 + _AIR + high / 2)]
    found = places.put(pen, words, SMALL, spot, over_lines=True)
    return [] if found is None else [found]


def _nearest(box: Box, point: Point) -> Point:
    """The place of a box's edge that is nearest to a point outside it."""
    return min(max(point[0], box[0]), box[2]), min(max(point[1], box[1]), box[3])
