"""From a measured outline in the job file to its shape."""

from __future__ import annotations

import math
from collections.abc import Sequence

from edgewright.compass import CORNERS
from edgewright.design.outline import Outline
from edgewright.design.shapes.bowed import boat, d_end
from edgewright.design.shapes.boxed import racetrack, rectangle_shape, tapered
from edgewright.design.shapes.counter import l_counter, u_counter
from edgewright.design.shapes.ellipse_top import ellipse_shape
from edgewright.design.shapes.imported import from_bulges
from edgewright.design.shapes.live_edge import stations
from edgewright.design.shapes.model import Shape
from edgewright.design.shapes.oval import four_arc_oval
from edgewright.design.shapes.placing import placed
from edgewright.design.shapes.polygon import irregular_polygon, regular_polygon
from edgewright.design.shapes.quad import quad
from edgewright.design.shapes.round_top import round_from_wrap, round_shape
from edgewright.job_outline import (
    Boat,
    DEnd,
    Drawing,
    Ellipse,
    LCounter,
    OutlineTable,
    Oval,
    Placed,
    Polygon,
    Quad,
    Racetrack,
    Rectangle,
    RegularPolygon,
    Round,
    Stations,
    Tapered,
    UCounter,
)
from edgewright.units import Length, Units

__all__ = ["measured_shape", "placed_shape"]


def measured_shape(table: OutlineTable, kerf: float, units: Units) -> tuple[Shape, tuple[Outline, ...]]:
    """Shape of a measured outline, and the holes that an imported drawing has.

    Parameters
    ----------
    table
        One of the tables of `edgewright.job_outline`.
    kerf
        Saw kerf (mm), a likely misreading among the measurements.
    units
        Units of the sentences.

    Raises
    ------
    GeometryError
        If the measurements make no outline; one sentence.
    """
    match table:
        case Drawing():
            return from_bulges(table.loops)
        case Quad():
            first, second = (diagonal.mm for diagonal in table.diagonals)
            sides = (table.south.mm, table.east.mm, table.north.mm, table.west.mm)
            return quad(*sides, first, second, kerf=kerf, units=units), ()
        case _:
            return _shape(table, units), ()


def placed_shape(table: OutlineTable, old: Shape, kerf: float, units: Units) -> Shape:
    """Shape of an outline set down on an old top: its box's centre on the old one's, moved and turned as asked.

    Raises
    ------
    GeometryError
        If the measurements make no outline.
    """
    shape, _ = measured_shape(table, kerf, units)
    at, turn = (0.0, 0.0), 0.0
    if isinstance(table, Placed):
        at, turn = (table.offset[0].mm, table.offset[1].mm), math.radians(table.turn)
    turned = placed(shape, (0.0, 0.0), turn)
    (ox, oy), (nx, ny) = old.outline.middle, turned.outline.middle
    return placed(turned, (ox - nx + at[0], oy - ny + at[1]), 0.0)


def _mm(length: Length | None) -> float | None:
    return None if length is None else length.mm


def _all_mm(lengths: Sequence[Length]) -> tuple[float, ...]:
    return tuple(length.mm for length in lengths)


def _shape(table: OutlineTable, units: Units) -> Shape:
    match table:
        case Rectangle():
            radii = tuple(table.corner_radius[corner].mm for corner in CORNERS)
            clips = [table.clip(corner) for corner in CORNERS]
            cut = [None if clip is None else (clip.along.mm, clip.across.mm) for clip in clips]
            return rectangle_shape(
                table.length.mm, table.width.mm, (radii[0], radii[1], radii[2], radii[3]), cut
            )
        case Racetrack():
            return racetrack(table.length.mm, table.width.mm)
        case Round(diameters=None):
            assert table.wrap is not None  # the table holds exactly one of the two
            return round_from_wrap(table.wrap.mm, table.tape_thickness.mm, units=units)
        case Round():
            return round_shape(_all_mm(table.diameters or ()), units)
        case Ellipse():
            return ellipse_shape(table.length.mm, table.width.mm, _mm(table.quarter_width), units)
        case Oval():
            return four_arc_oval(
                table.length.mm, table.width.mm, _mm(table.end_radius), _mm(table.quarter_width)
            )
        case Boat():
            return boat(table.length.mm, table.end_width.mm, table.middle_width.mm)
        case DEnd():
            depth = (table.chord or table.width).mm / 2 if table.depth is None else table.depth.mm
            return d_end(table.length.mm, table.width.mm, depth, table.ends, _mm(table.chord))
        case RegularPolygon():
            return regular_polygon(
                table.sides,
                across_flats=_mm(table.across_flats),
                across_corners=_mm(table.across_corners),
                side=_mm(table.side),
                units=units,
            )
        case Polygon():
            return irregular_polygon(
                _all_mm(table.sides), _all_mm(table.diagonals), table.angles, units=units
            )
        case Tapered():
            return tapered(table.length.mm, table.west_width.mm, table.east_width.mm, table.square_side)
        case LCounter():
            legs = table.inside_diagonal
            return l_counter(
                table.long_leg.mm,
                table.short_leg.mm,
                table.long_depth.mm,
                table.short_depth.mm,
                None if table.inside_angle is None else math.radians(table.inside_angle),
                table.inside_radius.mm,
                table.hand,
                equal_legs=None if legs is None else (legs.legs.mm, legs.across.mm),
                units=units,
            )
        case UCounter():
            return u_counter(
                table.back_length.mm,
                table.left_leg.mm,
                table.right_leg.mm,
                table.back_depth.mm,
                table.left_depth.mm,
                table.right_depth.mm,
                table.inside_radius.mm,
            )
        case Stations():
            south, north = table.widths
            return stations(_all_mm(table.at), _all_mm(south), _all_mm(north), table.straight, units)
        case _:
            raise TypeError(f"no shape for {type(table).__name__}")
