"""A top of any outline on the page: wood millimetres to paper, face down, with the names of its edges.

On the bench the top lies face down, so the page is an underside view: east is on the left, west on the right.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Final

from edgewright.cutlist.sheets.common import FIGURE
from edgewright.design.outline import Outline, Point
from edgewright.design.segments import direction, point_at
from edgewright.drawing.lettering import ASCENT, DESCENT, text_width
from edgewright.drawing.paper import LETTERING, PaperBox, Pen, pick_scale
from edgewright.drawing.view import Box, Loop, Note

__all__ = ["OutlineFrame", "edge_labels", "framed", "joined_names"]

#: Air between an edge and its name (paper mm).
_AWAY: Final = 1.6


@dataclass(frozen=True, slots=True)
class OutlineFrame:
    """Where a box of wood lies on the page.

    Attributes
    ----------
    bounds
        Box of the wood, mm: x min, y min, x max, y max.
    left, bottom
        Paper position of the box's lower left corner on the page, mm.
    scale
        Millimetres of wood in one of paper.
    """

    bounds: Box
    left: float
    bottom: float
    scale: float

    @property
    def size(self) -> tuple[float, float]:
        """Width and height on paper, mm."""
        x0, y0, x1, y1 = self.bounds
        return (x1 - x0) / self.scale, (y1 - y0) / self.scale

    def at(self, point: Point) -> Point:
        """Paper position of a point of the wood; east is on the left."""
        x, y = point
        return (
            self.left + (self.bounds[2] - x) / self.scale,
            self.bottom + (y - self.bounds[1]) / self.scale,
        )

    def loop(self, outline: Outline) -> Loop:
        """Outline on paper; mirrored, so its arcs turn the other way."""
        return Loop(tuple((*self.at((x, y)), -bulge) for x, y, bulge in outline.bulge_vertices()))

    def points(self, points: Iterable[Point]) -> list[Point]:
        """Several points on paper."""
        return [self.at(point) for point in points]


def framed(bounds: Box, room: PaperBox, corner: Point, least: float = 1.0) -> OutlineFrame | None:
    """Put wood in the middle of a room on the page, as large as it fits; None where no scale is small enough.

    Parameters
    ----------
    bounds
        Box of the wood, mm.
    room, corner
        Width, height and lower left corner of the room, paper mm.
    least
        No larger scale than this is wanted.
    """
    wide, tall = bounds[2] - bounds[0], bounds[3] - bounds[1]
    scale = pick_scale([(wide, room[0]), (tall, room[1])], least)
    if scale is None:
        return None
    return OutlineFrame(
        bounds,
        corner[0] + (room[0] - wide / scale) / 2,
        corner[1] + (room[1] - tall / scale) / 2,
        scale,
    )


def joined_names(outline: Outline, names: Sequence[str]) -> list[tuple[str, Point, Point]]:
    """One entry for each run of segments of the same name: name, middle point and outward direction there."""
    count = len(names)
    start = next((at for at in range(count) if names[at] != names[at - 1]), 0)
    runs: list[list[int]] = []
    for step in range(count):
        at = (start + step) % count
        if runs and names[runs[-1][-1]] == names[at]:
            runs[-1].append(at)
        else:
            runs.append([at])
    found = []
    for run in runs:
        half = sum(outline.segments[at].length for at in run) / 2
        for at in run:
            segment = outline.segments[at]
            if half <= segment.length or at == run[-1]:
                share = min(half / segment.length, 1.0)
                dx, dy = direction(segment, share)
                found.append((names[at], point_at(segment, share), (dy, -dx)))
                break
            half -= segment.length
    return found


def edge_labels(pen: Pen, frame: OutlineFrame, outline: Outline, names: Sequence[str]) -> list[Box]:
    """Write the name of each edge outside it, one that would lie over another is left out; returns their boxes."""
    taken: list[Box] = []
    for name, point, (ox, oy) in joined_names(outline, names):
        if "corner" in name:
            continue
        x, y = frame.at(point)
        out = (-ox, oy)
        wide, high = text_width(name, FIGURE), (ASCENT + DESCENT) * FIGURE
        # the box of the text touches the edge with its nearest side or corner
        x += out[0] * (wide / 2 + _AWAY)
        y += out[1] * (high / 2 + _AWAY)
        box = (x - wide / 2, y - high / 2, x + wide / 2, y + high / 2)
        if any(_overlap(box, other) for other in taken):
            continue
        taken.append(box)
        pen.shape(LETTERING, Note(x, box[1] + DESCENT * FIGURE, FIGURE, name, "middle"))
    return taken


def _overlap(a: Box, b: Box) -> bool:
    return a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]
