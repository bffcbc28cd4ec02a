"""A chair in plan: its seat with rounded corners, and its back."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Final

from edgewright.design.outline import Point
from edgewright.design.seat_places import Chair, chair_corners
from edgewright.design.seat_runs import Place
from edgewright.drawing.paper import KEEP, THIN, Pen
from edgewright.drawing.view import Face, Loop, Vertex

__all__ = ["draw_chair"]

#: Radius of its corners and depth of its back, as shares of the lesser side.
_ROUND: Final = 0.2
_BACK: Final = 0.16
_QUARTER: Final = math.sqrt(2) - 1


def draw_chair(pen: Pen, at: Callable[[Point], Point], place: Place, chair: Chair) -> None:
    """Draw the chair of a place within its corners; ``at`` turns a point of the room into one on paper."""
    corners = chair_corners(place, chair)
    radius = _ROUND * min(chair.width, chair.depth)
    seat = Loop(tuple(_rounded([at(one) for one in corners], radius / _scale(at))))
    # white, so that no line of the old top runs through it
    pen.shape(THIN, Face(seat, 1.0))
    pen.shape(THIN, seat)
    front, far, far_other, front_other = corners
    inwards = 1 - _BACK * min(chair.width, chair.depth) / chair.depth
    pen.line(KEEP, at(_towards(front, far, inwards)), at(_towards(front_other, far_other, inwards)))


def _scale(at: Callable[[Point], Point]) -> float:
    """Millimetres of the room in one of paper."""
    return 1 / math.dist(at((0.0, 0.0)), at((1.0, 0.0)))


def _towards(start: Point, end: Point, share: float) -> Point:
    return start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1])


def _rounded(corners: list[Point], radius: float) -> list[Vertex]:
    """Corners of a counter-clockwise rectangle with arcs of a radius."""
    vertices: list[Vertex] = []
    for number, corner in enumerate(corners):
        for other, bulge in ((corners[number - 1], _QUARTER), (corners[(number + 1) % 4], 0.0)):
            share = radius / math.dist(corner, other)
            vertices.append((*_towards(corner, other, share), bulge))
    return vertices
