"""Chalk marks: N, E, S and W at the sides of the wood, so that nobody is lost on a mirrored page."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import product
from typing import Final

from edgewright.compass import SIDES, Side, is_lengthwise
from edgewright.cutlist.sheets.common import CHALK, FIGURE, letter
from edgewright.drawing.lettering import ASCENT, DESCENT, text_width
from edgewright.drawing.paper import Pen
from edgewright.drawing.view import Box

__all__ = ["LARGE_CHALK", "chalk_marks"]

#: Size of the type of the marks on sheets that hang on the wall, mm.
LARGE_CHALK: Final = 9.0

_FIRST: Final = 2.6
_CLEAR: Final = 1.0


def chalk_marks(pen: Pen, wood: Box, taken: Sequence[Box], large: float = CHALK) -> None:
    """Write the four marks inside a box, east on the left and west on the right.

    Each stands at the middle of its side, or as near to that as there is room; one that finds none is left out.

    Parameters
    ----------
    wood
        Paper box of the wood.
    taken
        Paper boxes that are not free.
    large
        Size of the type where the wood is high enough for it, mm.
    """
    sizes = (large, CHALK, FIGURE)
    high, wide = wood[3] - wood[1], wood[2] - wood[0]
    size = next((size for size in sizes if min(high, wide) >= 2 * ASCENT * size + 6), FIGURE)
    busy = list(taken)
    for side in SIDES:
        text = letter(side)
        for here in _places(side, wood, text_width(text, size), size):
            if _inside(here, wood) and not any(_overlap(here, box) for box in busy):
                pen.text((here[0] + here[2]) / 2, here[1] + DESCENT * size, size, text, "middle")
                busy.append(here)
                break


def _places(side: Side, wood: Box, wide: float, size: float) -> Iterator[Box]:
    """Boxes where a mark may stand, the best first: further in by whole mm, then a quarter of the side away."""
    x0, y0, x1, y1 = wood
    high = ASCENT * size
    for inwards, aside in product(range(24), (0.0, 0.25, -0.25)):
        into = _FIRST + inwards
        if is_lengthwise(side):
            x = (x0 + x1 - wide) / 2 + aside * (x1 - x0)
            y = y1 - into - high if side == "north" else y0 + into
        else:
            x = x0 + into if side == "east" else x1 - into - wide
            y = (y0 + y1 - high) / 2 + aside * (y1 - y0)
        yield x, y - DESCENT * size, x + wide, y + high


def _inside(box: Box, wood: Box) -> bool:
    return box[0] > wood[0] + 1 and box[1] > wood[1] + 0.5 and box[2] < wood[2] - 1 and box[3] < wood[3] - 1


def _overlap(a: Box, b: Box) -> bool:
    """Whether two boxes are nearer than 1 mm."""
    return a[0] < b[2] + _CLEAR and b[0] < a[2] + _CLEAR and a[1] < b[3] + _CLEAR and b[1] < a[3] + _CLEAR
