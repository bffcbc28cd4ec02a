"""Dimensions and hatches taken apart into plain lines and text.

Readers draw dimension and hatch entities each in their own way and scale; plain lines look the same
everywhere. All sizes follow from the lettering height h (ISO 3098: lines are h / 10 wide):

- arrowheads h long and h / 3 wide (3:1)
- extension lines run 8 line widths past the dimension line
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Final

from edgewright.drawing.arcs import chords
from edgewright.drawing.view import Circle, Dimension, Face, Hatch, Loop, Note, Segment, Shape

__all__ = ["PlainShape", "dimension_strokes", "hatch_strokes", "plain_parts"]

PlainShape = Loop | Segment | Circle | Note

_PAST: Final = 0.8
_GAP: Final = 0.2
_ABOVE: Final = 0.4
_HALF_ARROW: Final = 1 / 6


def plain_parts(shape: Shape) -> Iterator[PlainShape]:
    """Lines and text of a shape, for writers that know nothing else; a shaded face has none."""
    if isinstance(shape, Dimension):
        lines, note = dimension_strokes(shape)
        yield from lines
        yield note
    elif isinstance(shape, Hatch):
        yield from hatch_strokes(shape)
    elif not isinstance(shape, Face):
        yield shape


def dimension_strokes(dimension: Dimension) -> tuple[tuple[Segment, ...], Note]:
    """Extension lines, dimension line, arrowheads and text of a dimension between two different points."""
    d = dimension
    length = math.hypot(d.x1 - d.x0, d.y1 - d.y0)
    ux, uy = (d.x1 - d.x0) / length, (d.y1 - d.y0) / length
    h, away = d.height_mm, math.copysign(1.0, d.offset_mm)

    def at(along: float, aside: float) -> tuple[float, float]:
        return d.x0 + ux * along - uy * aside, d.y0 + uy * along + ux * aside

    lines = [Segment(*at(0, d.offset_mm), *at(length, d.offset_mm))]
    for along, inward in ((0.0, 1), (length, -1)):
        lines.append(Segment(*at(along, away * _GAP * h), *at(along, d.offset_mm + away * _PAST * h)))
        tip = at(along, d.offset_mm)
        for half in (_HALF_ARROW, -_HALF_ARROW):
            lines.append(Segment(*tip, *at(along + inward * h, d.offset_mm + half * h)))
    angle = math.degrees(math.atan2(uy, ux))
    # lettering is read from below or from the right (ISO 129-1), so it never stands upside down
    upside_down = not -90 < angle <= 90
    if upside_down:
        angle += 180 if angle <= 0 else -180
    x, y = at(length / 2, d.offset_mm + (-_ABOVE if upside_down else _ABOVE) * h)
    return tuple(lines), Note(x, y, h, d.text, "middle", angle)


def hatch_strokes(hatch: Hatch) -> tuple[Segment, ...]:
    """Hatch lines inside the loop, on a raster through the origin so that neighbouring hatches line up."""
    turn = math.radians(hatch.angle)
    c, s = math.cos(turn), math.sin(turn)
    points = [(c * x + s * y, c * y - s * x) for x, y in chords(hatch.loop)]
    rows = [v for _, v in points]
    lines = []
    for n in range(math.ceil(min(rows) / hatch.spacing_mm), math.floor(max(rows) / hatch.spacing_mm) + 1):
        v = n * hatch.spacing_mm
        crossings = sorted(
            u0 + (v - v0) * (u1 - u0) / (v1 - v0)
            for (u0, v0), (u1, v1) in zip(points, (*points[1:], points[0]), strict=True)
            if (v0 > v) != (v1 > v)
        )
        for u0, u1 in zip(crossings[::2], crossings[1::2], strict=True):
            if u1 > u0:
                lines.append(Segment(c * u0 - s * v, s * u0 + c * v, c * u1 - s * v, s * u1 + c * v))
    return tuple(lines)
