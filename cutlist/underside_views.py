"""Drawings of the underside with its strips, one of each layer; mirrored, and on layers that no tool follows."""

from __future__ import annotations

import math
from collections.abc import Sequence

from edgewright.cutlist.drawing_words import FACE_DOWN, PLACES, heading_lines
from edgewright.cutlist.plan import Plan
from edgewright.cutlist.shaped_plan import ShapedPlan
from edgewright.cutlist.sheets.underside import Underside
from edgewright.design.outline import FIT_MM, Outline, Point
from edgewright.display import show_ticks
from edgewright.drawing.arcs import box_around
from edgewright.drawing.layers import REFERENCE, STRIP_PLACES, UNDERSIDE_OUTLINE
from edgewright.drawing.plain_ascii import plain_ascii
from edgewright.drawing.reference import lettering_mm, notes_above
from edgewright.drawing.view import Loop, Note, Shape, View

__all__ = ["shaped_underside_views", "underside_views"]

_LAYERS = (STRIP_PLACES, UNDERSIDE_OUTLINE, REFERENCE)


def underside_views(plan: Plan) -> tuple[View, ...]:
    """The strips of a rectangular top, one view for each layer; x runs from the east edge to the west edge (mm)."""
    cut = plan.cut_plan
    under = Underside(plan, 0.0, 0.0, 1.0)
    sides = {side.id: side for side in cut.sides}
    views = []
    for layer in sorted({side.layer for side in cut.sides}):
        places = [
            (piece.id, under.corners(sides[piece.side_id], piece))
            for piece in cut.pieces
            if sides[piece.side_id].layer == layer
        ]
        more = []
        if cut.proud_ticks:
            proud = show_ticks(cut.proud_ticks, plan.job.units)
            more = [f"oversize: strips stand {proud} proud until they are trimmed flush"]
        views.append(_view(layer, plan.job.info.title, plan.code, [under.outline()], places, more))
    return tuple(views)


def shaped_underside_views(plan: ShapedPlan) -> tuple[View, ...]:
    """The build-up of a top with an outline, one view for each layer (mm)."""
    design = plan.design
    x0, _, x1, _ = design.region.bounds
    loops = [_mirrored(outline, x0 + x1) for outline in design.region.loops]
    views = []
    for layer in sorted({piece.layer for piece in design.pieces}):
        places = [
            (piece.id, [(x0 + x1 - x, y) for x, y in piece.plan])
            for piece in design.pieces
            if piece.layer == layer
        ]
        more = ["pieces as they are glued on, before they are trimmed flush"]
        views.append(_view(layer, plan.job.info.title, plan.code, loops, places, more))
    return tuple(views)


def _mirrored(outline: Outline, twice_middle: float) -> Loop:
    return Loop(tuple((twice_middle - x, y, -bulge) for x, y, bulge in outline.bulge_vertices()))


def _view(
    layer: int,
    title: str,
    code: str,
    outlines: Sequence[Loop],
    places: Sequence[tuple[str, Sequence[Point]]],
    more: Sequence[str],
) -> View:
    loops = [
        Loop(tuple((x, y, 0.0) for x, y in corners))
        for _, points in places
        for corners in _simple(_apart(points))
    ]
    box = box_around((*outlines, *loops))
    shapes: list[tuple[str, Shape]] = [
        *((UNDERSIDE_OUTLINE.name, loop) for loop in outlines),
        *((STRIP_PLACES.name, loop) for loop in loops),
        *(_name(name, points, lettering_mm(box)) for name, points in places),
        *notes_above(box, [*heading_lines(title, code), FACE_DOWN, f"layer {layer}: {PLACES}", *more]),
    ]
    return View(f"underside, layer {layer}", title, tuple(shapes), _LAYERS)


def _apart(points: Sequence[Point]) -> list[Point]:
    """Corners without those that lie on the one before."""
    return [point for at, point in enumerate(points) if math.dist(point, points[at - 1]) > FIT_MM]


def _simple(corners: Sequence[Point]) -> list[Sequence[Point]]:
    """A piece that goes all the way round, outside and inside: its edge runs to the inside and back on one line."""
    count = len(corners)
    for at in range(count):
        for back in range(at + 2, count):
            there, here = (
                (corners[at], corners[(at + 1) % count]),
                (corners[(back + 1) % count], corners[back]),
            )
            if all(math.dist(a, b) <= FIT_MM for a, b in zip(there, here, strict=True)):
                inside = corners[at + 1 : back]
                outside = [*corners[back + 1 :], *corners[:at]]
                return [loop for loop in (outside, inside) if len(loop) > 2]
    return [corners]


def _name(name: str, points: Sequence[Point], largest: float) -> tuple[str, Shape]:
    """Name along the longest edge of a piece, in its middle."""
    corners = _apart(points)
    pairs = list(zip(corners, [*corners[1:], corners[0]], strict=True))
    (ax, ay), (bx, by) = max(pairs, key=lambda pair: round(math.dist(*pair), 6))
    long = math.hypot(bx - ax, by - ay)
    x, y = (sum(point[axis] for point in corners) / len(corners) for axis in (0, 1))
    across = [((bx - ax) * (py - ay) - (by - ay) * (px - ax)) / long for px, py in corners]
    size = min(largest, (max(across) - min(across)) / 2, long / max(4, len(name)))
    angle = math.degrees(math.atan2(by - ay, bx - ax))
    # read from below or from the right
    angle += 180 if angle <= -90 else -180 if angle > 90 else 0
    turn = math.radians(angle)
    place = (x + size / 2 * math.sin(turn), y - size / 2 * math.cos(turn))
    return REFERENCE.name, Note(*place, size, plain_ascii(name), "middle", angle)
