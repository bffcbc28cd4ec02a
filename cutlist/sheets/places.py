"""Places for lettering on a figure: the first of some wished places that hides no line and no other lettering."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import pairwise
from typing import Final

from edgewright.drawing.lettering import ASCENT, DESCENT, text_width
from edgewright.drawing.paper import LETTERING, THIN, Pen, Point, polygon
from edgewright.drawing.view import Box, Face, Note

__all__ = ["Places", "block_size"]

#: Base line to base line, of the lettering height.
_PITCH: Final = 1.25


def block_size(lines: Sequence[str], height: float) -> tuple[float, float]:
    """Width and height of lines of lettering, mm."""
    wide = max(text_width(line, height) for line in lines)
    return wide, (ASCENT + DESCENT) * height + (len(lines) - 1) * _PITCH * height


class Places:
    """What is drawn already; lettering keeps clear of it."""

    def __init__(self) -> None:
        self.limits: Box | None = None
        self._taken: list[Box] = []
        self._lines: list[tuple[Point, Point]] = []

    def copy(self) -> Places:
        """The same places, to try others in."""
        twin = Places()
        twin.limits, twin._taken, twin._lines = self.limits, [*self._taken], [*self._lines]
        return twin

    def keep_clear(self, points: Sequence[Point]) -> None:
        """No lettering lies on this line."""
        self._lines += pairwise(points)

    def take(self, box: Box) -> None:
        """No lettering lies in this box."""
        self._taken.append(box)

    def free(self, box: Box, *, over_lines: bool = False, air: float = 0.3) -> bool:
        """Whether nothing is drawn in a box and it lies within the limits."""
        wider = (box[0] - air, box[1] - air, box[2] + air, box[3] + air)
        if self.limits is not None and not _within(box, self.limits):
            return False
        if any(_overlap(wider, other) for other in self._taken):
            return False
        return over_lines or not any(_meets(wider, a, b) for a, b in self._lines)

    def put(
        self,
        pen: Pen | None,
        lines: Sequence[str],
        height: float,
        middles: Iterable[Point],
        *,
        over_lines: bool = False,
        white: bool = False,
        air: float = 0.3,
    ) -> Box | None:
        """Write a block of lines about the first of some middle points that is free; None where none is.

        Parameters
        ----------
        pen
            None to look for the place only.
        over_lines
            Lines may run there: the block stands on white.
        white
            The block stands on white in any case.
        air
            Around the block, to lines and other lettering (mm).
        """
        wide, high = block_size(lines, height)
        for x, y in middles:
            box = (x - wide / 2, y - high / 2, x + wide / 2, y + high / 2)
            if self.free(box, over_lines=over_lines, air=air):
                self.take(box)
                if pen is not None:
                    _write(pen, lines, height, box, white=white or over_lines)
                return box
        return None


def _write(pen: Pen, lines: Sequence[str], height: float, box: Box, *, white: bool) -> None:
    if white:
        x0, y0, x1, y1 = box[0] - 0.4, box[1] - 0.2, box[2] + 0.4, box[3] + 0.2
        pen.shape(THIN, Face(polygon(((x0, y0), (x1, y0), (x1, y1), (x0, y1))), 1.0))
    for number, line in enumerate(lines):
        y = box[3] - ASCENT * height - number * _PITCH * height
        pen.shape(LETTERING, Note((box[0] + box[2]) / 2, y, height, line, "middle"))


def _within(box: Box, limits: Box) -> bool:
    return (
        box[0] >= limits[0] - 1e-6
        and box[1] >= limits[1] - 1e-6
        and box[2] <= limits[2] + 1e-6
        and box[3] <= limits[3] + 1e-6
    )


def _overlap(a: Box, b: Box) -> bool:
    return a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]


def _meets(box: Box, a: Point, b: Point) -> bool:
    """Whether a straight stretch runs through a box: it is cut down by one side of the box after the other."""
    low, high = 0.0, 1.0
    for start, step, least, most in (
        (a[0], b[0] - a[0], box[0], box[2]),
        (a[1], b[1] - a[1], box[1], box[3]),
    ):
        if abs(step) < 1e-12:
            if not least < start < most:
                return False
            continue
        one, other = (least - start) / step, (most - start) / step
        low, high = max(low, min(one, other)), min(high, max(one, other))
    return low < high
