"""Pictures for the customer: the top before and after in its room, with chairs, and its edge in section.

Both tops are drawn to one scale, in the same place of the room, as one looks down on them: north is up. There is
nothing on them that only the shop needs.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from edgewright.compass import PerSide
from edgewright.cutlist.sheets.chairs import draw_chair
from edgewright.design.edge_wood import EdgeWood
from edgewright.design.outline import Outline, Point
from edgewright.design.profile import EdgeProfile
from edgewright.design.seat_places import Chair, chair_corners
from edgewright.design.seat_runs import Place
from edgewright.drawing.paper import (
    HATCHING,
    HIDDEN,
    KEEP,
    PANEL,
    SCALES,
    THIN,
    PaperBox,
    Pen,
    pick_scale,
    scale_text,
)
from edgewright.drawing.view import Box, Hatch, Loop, View

__all__ = ["LEAST_MM", "TopInRoom", "customer_edge", "customer_tops"]

#: Lettering: at least 10 pt (3.53 mm), and what heads a drawing.
LEAST_MM: Final = 3.6
_HEAD: Final = 4.6
_LINE: Final = 1.35
#: Between the two drawings, and how thick a wall is drawn (paper mm).
_APART: Final = 8.0
_WALL: Final = 2.2
#: Scales of the two tops: more than the shop's, for here the drawing shall fill its room.
_SCALES: Final = (
    5.0,
    8.0,
    10.0,
    12.0,
    15.0,
    20.0,
    25.0,
    30.0,
    40.0,
    50.0,
    60.0,
    80.0,
    100.0,
    150.0,
    200.0,
    400.0,
)
#: A strip or top that is wider in section than this is broken off (paper mm).
_SECTION: Final = 52.0


@dataclass(frozen=True, slots=True)
class TopInRoom:
    """One of the two tops.

    Attributes
    ----------
    head
        What stands above it, one line.
    outline, holes
        In the frame of the old top, mm.
    places
        Where chairs are drawn.
    ghost
        The outline that it had, drawn dashed; None for none.
    """

    head: str
    outline: Outline
    holes: tuple[Outline, ...] = ()
    places: tuple[Place, ...] = ()
    ghost: Outline | None = None


def customer_tops(
    tops: Sequence[TopInRoom], chair: Chair, walls: PerSide[float | None], box: PaperBox
) -> View:
    """Draw one or two tops side by side.

    Parameters
    ----------
    tops
        The top before and after; of a new top that one alone.
    walls
        Where walls stand in the frame of the old top: y of north and south, x of east and west, mm; None for none.
    box
        Width and height that the figure may fill, paper mm.
    """
    room = _room(tops, chair, walls)
    wide = (box[0] - (len(tops) - 1) * _APART) / len(tops)
    # a wall is drawn outside of the room
    high = box[1] - (_HEAD + LEAST_MM) * _LINE - 3.0 - 2 * _WALL
    sizes = [(room[2] - room[0], wide - 2 * _WALL), (room[3] - room[1], high)]
    scale = next((one for one in _SCALES if all(size <= paper * one for size, paper in sizes)), _SCALES[-1])
    low = LEAST_MM * _LINE + 1.5 + _WALL
    pen = Pen()
    for number, top in enumerate(tops):
        middle = number * (wide + _APART) + wide / 2
        frame = _Frame(room, middle - (room[2] - room[0]) / scale / 2, low, scale)
        _draw(pen, frame, top, chair, walls)
        pen.text(middle, frame.at((0.0, room[3]))[1] + _WALL + 2.0, _HEAD, top.head, "middle")
    signs = [scale_text(scale).capitalize(), "seen from above, north is up"]
    if any(top.ghost is not None for top in tops):
        signs.append("dashed: the old edge")
    if any(wall is not None for _, wall in walls.items()):
        signs.append("hatched: walls or furniture")
    pen.text(box[0] / 2, 0.25 * LEAST_MM, LEAST_MM, ", ".join(signs) + ".", "middle")
    return pen.view("customer", "Before and after" if len(tops) > 1 else "The finished top")


@dataclass(frozen=True, slots=True)
class _Frame:
    """Where the room lies on the page: its lower left corner (paper mm) and its scale."""

    room: Box
    left: float
    bottom: float
    scale: float

    def at(self, point: Point) -> Point:
        return (
            self.left + (point[0] - self.room[0]) / self.scale,
            self.bottom + (point[1] - self.room[1]) / self.scale,
        )

    def loop(self, outline: Outline) -> Loop:
        return Loop(tuple((*self.at((x, y)), bulge) for x, y, bulge in outline.bulge_vertices()))


def _room(tops: Sequence[TopInRoom], chair: Chair, walls: PerSide[float | None]) -> Box:
    """Box round all that is drawn in either top's room, mm; it ends at a wall."""
    xs, ys = [], []
    for top in tops:
        for outline in (top.outline, top.ghost or top.outline):
            x0, y0, x1, y1 = outline.bounds
            xs += [x0, x1]
            ys += [y0, y1]
        for place in top.places:
            corners = chair_corners(place, chair)
            xs += [x for x, _ in corners]
            ys += [y for _, y in corners]
    xs += [wall for wall in (walls.west, walls.east) if wall is not None]
    ys += [wall for wall in (walls.south, walls.north) if wall is not None]
    return min(xs), min(ys), max(xs), max(ys)


def _draw(pen: Pen, frame: _Frame, top: TopInRoom, chair: Chair, walls: PerSide[float | None]) -> None:
    if top.ghost is not None:
        pen.shape(HIDDEN, frame.loop(top.ghost))
    pen.shape(PANEL, frame.loop(top.outline))
    for hole in top.holes:
        pen.shape(THIN, frame.loop(hole))
    for place in top.places:
        draw_chair(pen, frame.at, place, chair)
    x0, y0 = frame.at((frame.room[0], frame.room[1]))
    x1, y1 = frame.at((frame.room[2], frame.room[3]))
    for side, wall in walls.items():
        if wall is None:
            continue
        x, y = frame.at((wall, wall))
        a, b, out = {
            "north": ((x0, y), (x1, y), (0.0, _WALL)),
            "south": ((x0, y), (x1, y), (0.0, -_WALL)),
            "east": ((x, y0), (x, y1), (_WALL, 0.0)),
            "west": ((x, y0), (x, y1), (-_WALL, 0.0)),
        }[side]
        pen.line(KEEP, a, b)
        pen.hatch((a, b, (b[0] + out[0], b[1] + out[1]), (a[0] + out[0], a[1] + out[1])), 45, 1.2)


def customer_edge(
    profile: EdgeProfile, below: float, strip: float, thickness: str, box: PaperBox = (75.0, 48.0)
) -> View:
    """Draw the finished edge in section as one piece of wood, the outside on the right.

    Parameters
    ----------
    profile
        The edge.
    below
        How much of its thickness lies below the top itself, mm; 0 for a top alone.
    strip
        How far in from the edge it is that thick, mm.
    thickness
        The thickness in words.
    box
        Width and height that the figure may fill, paper mm.
    """
    high = box[1] - LEAST_MM * _LINE - 2.0
    scale = pick_scale([(profile.thickness, high)]) or SCALES[-1]
    # a top is broken off, and a wide strip too
    end = -(_SECTION - 6.0) * scale
    strip_end = end if strip > -end - 8 * scale or not below else -strip
    edge, bottom = _SECTION, LEAST_MM * _LINE + 1.0
    wood = EdgeWood(profile, [below] if below else [], end, strip_end)

    def at(x: float, y: float) -> Point:
        return edge + x / scale, bottom + y / scale

    pen = Pen()
    loop = wood.outline(at)
    pen.shape(PANEL, loop)
    pen.shape(HATCHING, Hatch(loop, 45, 2.5))
    x = edge + 4.0
    low, top = at(0.0, 0.0)[1], at(0.0, profile.thickness)[1]
    for y in (low, top):
        pen.line(THIN, (edge + 1.0, y), (x + 1.5, y))
    pen.line(THIN, (x, low), (x, top))
    if top - low > 6.5:
        pen.arrow((x, low), (x, top))
        pen.arrow((x, top), (x, low))
    pen.text(x + 2.0, (low + top) / 2 - 0.36 * LEAST_MM, LEAST_MM, thickness)
    size = "full size" if scale == 1 else scale_text(scale)
    pen.text(0, 0.25 * LEAST_MM, LEAST_MM, f"The new edge in section, {size}")
    return pen.view("customer_edge", f"The new edge in section, {size}")
