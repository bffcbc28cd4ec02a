"""A top of any outline on the page: wood millimetres to paper, face down, with lettering around it.

On the bench the top lies face down, so the page is an underside view: east is on the left, west on the right.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from edgewright.cutlist.sheets.common import FIGURE
from edgewright.cutlist.sheets.places import Places, block_size
from edgewright.design.outline import Outline, Point
from edgewright.design.segments import direction, point_at
from edgewright.drawing.arcs import chords
from edgewright.drawing.paper import SCALES, PaperBox, Pen
from edgewright.drawing.view import Box, Loop

__all__ = [
    "EdgeLabel",
    "OutlineFrame",
    "along",
    "edge_labels",
    "framed",
    "labelled",
    "named_runs",
    "outside",
    "put_labels",
]

#: Air between an edge and its name (paper mm).
_AWAY: Final = 1.6
#: Between a name and what is drawn beside it (paper mm).
_AIR: Final = 1.2
#: Where along an edge its name may stand, best first.
_SHARES: Final = (0.5, 0.38, 0.62, 0.25, 0.75, 0.12, 0.88)


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


@dataclass(frozen=True, slots=True)
class EdgeLabel:
    """Lettering that belongs outside an edge.

    Attributes
    ----------
    lines
        What is written.
    places
        Points of the edge (wood mm) with the outward direction there, best first.
    """

    lines: tuple[str, ...]
    places: tuple[tuple[Point, Point], ...]
    height: float = FIGURE


def edge_labels(
    outline: Outline,
    names: Sequence[str],
    more: Mapping[str, tuple[str, ...]] | None = None,
    height: float = FIGURE,
) -> tuple[EdgeLabel, ...]:
    """Name each run of segments of the same name; corners are left to the table.

    Parameters
    ----------
    names
        Name of each segment; stations of a measured edge count as that edge.
    more
        Further lines below a name.
    height
        Size of the type, mm.
    """
    found = []
    for name, run in named_runs(outline, names):
        if "corner" not in name:
            lines = (name, *(more or {}).get(name, ()))
            found.append(EdgeLabel(lines, tuple(along(outline, run, share) for share in _SHARES), height))
    return tuple(found)


def named_runs(outline: Outline, names: Sequence[str]) -> list[tuple[str, list[int]]]:
    """Runs of neighbouring segments of one name, with their numbers."""
    plain = [name.split(", station ")[0] for name in names]
    count = len(plain)
    start = next((at for at in range(count) if plain[at] != plain[at - 1]), 0)
    runs: list[tuple[str, list[int]]] = []
    for step in range(count):
        at = (start + step) % count
        if runs and runs[-1][0] == plain[at]:
            runs[-1][1].append(at)
        else:
            runs.append((plain[at], [at]))
    return runs


def along(outline: Outline, run: Sequence[int], share: float) -> tuple[Point, Point]:
    """Point at a share of the run's length and the outward direction there."""
    left = share * sum(outline.segments[at].length for at in run)
    for at in run:
        segment = outline.segments[at]
        if left <= segment.length or at == run[-1]:
            part = min(left / segment.length, 1.0)
            dx, dy = direction(segment, part)
            return point_at(segment, part), (dy, -dx)
        left -= segment.length
    raise AssertionError("a run has a segment")


def framed(
    bounds: Box,
    outlines: Sequence[Outline],
    labels: Sequence[EdgeLabel],
    room: PaperBox,
    corner: Point,
    parts: Sequence[Sequence[Point]] = (),
) -> tuple[OutlineFrame, Places]:
    """Put wood with its labels in the middle of a room on the page, as large as both fit.

    Parameters
    ----------
    bounds
        Box of the wood, mm.
    outlines
        Lines that no label may cover.
    labels
        Lettering around the wood; what finds no place is left out.
    room, corner
        Width, height and lower left corner of the room, paper mm.
    parts
        Corners of further pieces of wood that no label may cover, mm.
    """
    scale = SCALES[-1]
    whole: Box = (0.0, 0.0, 0.0, 0.0)
    for scale in SCALES:
        frame = OutlineFrame(bounds, 0.0, 0.0, scale)
        boxes = [(0.0, 0.0, *frame.size), *put_labels(None, frame, _places(frame, outlines, parts), labels)]
        whole = _around(boxes)
        if whole[2] - whole[0] <= room[0] and whole[3] - whole[1] <= room[1]:
            break
    left = corner[0] + (room[0] - whole[2] + whole[0]) / 2 - whole[0]
    bottom = corner[1] - whole[1]
    frame = OutlineFrame(bounds, left, bottom, scale)
    places = _places(frame, outlines, parts)
    places.limits = (corner[0], corner[1], corner[0] + room[0], corner[1] + room[1])
    return frame, places


def labelled(
    bounds: Box,
    outlines: Sequence[Outline],
    names: tuple[Outline, Sequence[str]],
    room: PaperBox,
    corner: Point,
    *,
    heights: Sequence[float],
    parts: Sequence[Sequence[Point]] = (),
    more: Mapping[str, tuple[str, ...]] | None = None,
) -> tuple[OutlineFrame, Places, tuple[EdgeLabel, ...]]:
    """Put wood with the names of its edges in a room: names as large as leave the wood its largest scale.

    Parameters
    ----------
    names
        The outline that is named, and the name of each of its segments.
    heights
        Sizes of the type to choose from, largest first, mm.
    bounds, outlines, room, corner, parts
        As in `framed`.
    more
        As in `edge_labels`.
    """
    found = [
        (*framed(bounds, outlines, labels, room, corner, parts), labels)
        for labels in (edge_labels(*names, more, height) for height in heights)
    ]
    return min(found, key=lambda one: one[0].scale)


def _places(frame: OutlineFrame, outlines: Sequence[Outline], parts: Sequence[Sequence[Point]]) -> Places:
    places = Places()
    for outline in outlines:
        points = chords(frame.loop(outline), 0.1)
        places.keep_clear((*points, points[0]))
    for part in parts:
        corners = frame.points(part)
        places.keep_clear((*corners, corners[0]))
    return places


def put_labels(
    pen: Pen | None, frame: OutlineFrame, places: Places, labels: Sequence[EdgeLabel]
) -> list[Box]:
    """Write labels outside their edges; returns their boxes. Without a pen they are only placed."""
    found = []
    for label in labels:
        wide, high = block_size(label.lines, label.height)
        # what sticks out beyond the edge, as a blank does, pushes its name away
        spots = [
            outside(frame, point, out, wide, high, more)
            for point, out in label.places
            for more in (0.0, _AIR)
        ]
        box = places.put(pen, label.lines, label.height, spots, air=_AIR) or places.put(
            pen, label.lines, label.height, spots
        )
        if box is not None:
            found.append(box)
    return found


def outside(
    frame: OutlineFrame, point: Point, out: Point, wide: float, high: float, more: float = 0.0
) -> Point:
    """Middle of a block of lettering that lies outside a point of the edge and clear of its tangent (paper mm).

    ``more`` is how much further away than it need be.
    """
    x, y = frame.at(point)
    # the page is mirrored, and so is the direction
    ox, oy = -out[0], out[1]
    away = _AWAY + more + (abs(ox) * wide + abs(oy) * high) / 2
    return x + ox * away, y + oy * away


def _around(boxes: Sequence[Box]) -> Box:
    return (
        min(box[0] for box in boxes),
        min(box[1] for box in boxes),
        max(box[2] for box in boxes),
        max(box[3] for box in boxes),
    )
