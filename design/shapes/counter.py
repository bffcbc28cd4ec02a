"""Counters along walls: L and U."""

from __future__ import annotations

import math
from typing import Final, Literal

from edgewright.design.outline import Outline
from edgewright.design.shapes.corners import round_corners
from edgewright.design.shapes.figures import (
    LEAST_MM,
    need_greater,
    need_not_negative,
    need_positive,
    need_triangle,
)
from edgewright.design.shapes.loop import Vertex, move_outline, named_loop
from edgewright.design.shapes.model import TAPE_MM, Shape, ShapeCheck
from edgewright.display import show_mm
from edgewright.errors import GeometryError
from edgewright.units import Units

__all__ = ["LEAST_WALL_ANGLE", "MOST_WALL_ANGLE", "angle_from_legs", "l_counter", "u_counter"]

#: Angles between two walls that make an L (radians): beyond them a leg folds back or runs straight on.
LEAST_WALL_ANGLE: Final = math.radians(30)
MOST_WALL_ANGLE: Final = math.radians(175)


def angle_from_legs(leg: float, diagonal: float) -> float:
    """Angle (radians) between two walls from marks at equal distances and the diagonal between them (mm).

    With the diagonal c and the legs a: 2 asin(c / 2a). 3-4-5 is the same measurement with unequal legs.

    Raises
    ------
    GeometryError
        If a figure is not greater than 0 or the diagonal is not shorter than both legs together.
    """
    need_triangle(("diagonal", "leg", "other leg"), (diagonal, leg, leg))
    return 2 * math.asin(diagonal / (2 * leg))


def l_counter(
    long_leg: float,
    short_leg: float,
    long_depth: float,
    short_depth: float,
    inside_angle: float | None = None,
    inside_radius: float = 0.0,
    hand: Literal["left", "right"] = "left",
    *,
    equal_legs: tuple[float, float] | None = None,
    units: Units = "in",
) -> Shape:
    """L-shaped counter: the long leg along the north, ends square to their walls.

    Parameters
    ----------
    long_leg, short_leg
        Lengths along the walls from the wall corner, in mm.
    long_depth, short_depth
        Depths square to the walls, in mm.
    inside_angle
        Angle between the walls in radians; None for what the equal legs give, else for a right angle.
    inside_radius
        Radius of the inside corner of the front in mm, 0 for sharp.
    hand
        Where the short leg lies when one faces the long wall: ``"left"`` (west) or ``"right"`` (east).
    equal_legs
        Leg and diagonal in mm, see `angle_from_legs`; with an angle given too, a check of it.
    units
        In what the sentences speak.

    Raises
    ------
    GeometryError
        If a figure is out of range or a leg does not reach past the depth of the other.
    """
    for name, value in (
        ("long leg", long_leg),
        ("short leg", short_leg),
        ("depth of the long leg", long_depth),
        ("depth of the short leg", short_depth),
    ):
        need_positive(name, value)
    need_not_negative("inside radius", inside_radius, "give 0 for a sharp inside corner")
    if hand not in ("left", "right"):
        raise GeometryError(
            f"hand of the counter is `{hand}`; it must be left or right: name where the short leg is"
        )
    measured = None if equal_legs is None else angle_from_legs(*equal_legs)
    angle = inside_angle if inside_angle is not None else measured if measured is not None else math.pi / 2
    if not LEAST_WALL_ANGLE <= angle <= MOST_WALL_ANGLE:
        raise GeometryError(
            f"angle between the walls is {math.degrees(angle):.4g}°; it must be from "
            f"{math.degrees(LEAST_WALL_ANGLE):g}° to {math.degrees(MOST_WALL_ANGLE):g}°: measure the corner again"
        )
    # from the wall corner: the long wall runs east, the short one turns by the angle to the south
    cos, sin = math.cos(angle), math.sin(angle)
    if abs(cos) < 1e-15:
        cos = 0.0
    on_short = (long_depth + short_depth * cos) / sin
    on_long = (short_depth + long_depth * cos) / sin
    for name, leg, least in (("long leg", long_leg, on_long), ("short leg", short_leg, on_short)):
        need_greater(name, leg, "", least, "it must reach past the depth of the other leg")
    end = (short_leg * cos + short_depth * sin, -short_leg * sin + short_depth * cos)
    vertices: list[Vertex] = [
        ((0.0, 0.0), 0.0, "short leg back"),
        ((short_leg * cos, -short_leg * sin), 0.0, "short leg end"),
        (end, 0.0, "short leg front"),
        ((on_long, -long_depth), 0.0, "long leg front"),
        ((long_leg, -long_depth), 0.0, "long leg end"),
        ((long_leg, 0.0), 0.0, "long leg back"),
    ]
    if hand == "right":
        points = [((-x, y), bulge) for (x, y), bulge, _ in vertices]
        names = [name for _, _, name in vertices]
        # mirrored, the loop runs the other way: each edge now starts where it ended
        vertices = [(*points[(at + 1) % 6], names[at]) for at in reversed(range(6))]
    shape = _at_origin(*named_loop(vertices), _angle_check(angle, inside_angle, equal_legs, units))
    return round_corners(shape, 0.0, inside_radius)


def u_counter(
    back_length: float,
    left_leg: float,
    right_leg: float,
    back_depth: float,
    left_depth: float,
    right_depth: float,
    inside_radius: float = 0.0,
) -> Shape:
    """U-shaped counter with square corners: its back along the north, legs to the south.

    Parameters
    ----------
    back_length
        Along the back wall, in mm.
    left_leg, right_leg
        Along the side walls from the back wall, in mm; left is west when one faces the back wall.
    back_depth, left_depth, right_depth
        Depths square to the walls, in mm.
    inside_radius
        Radius of both inside corners in mm, 0 for sharp.

    Raises
    ------
    GeometryError
        If a figure is not greater than 0, the legs leave no back between them, or a leg does not reach
        past the back.
    """
    for name, value in (
        ("length of the back", back_length),
        ("left leg", left_leg),
        ("right leg", right_leg),
        ("depth of the back", back_depth),
        ("depth of the left leg", left_depth),
        ("depth of the right leg", right_depth),
    ):
        need_positive(name, value)
    need_not_negative("inside radius", inside_radius, "give 0 for sharp inside corners")
    for name, leg in (("left leg", left_leg), ("right leg", right_leg)):
        need_greater(
            name,
            leg,
            "the depth of the back, ",
            back_depth,
            "measure it from the back wall, or give an L counter",
        )
    between = back_length - left_depth - right_depth
    if not between >= LEAST_MM:
        raise GeometryError(
            f"depths of the left and right leg add up to {left_depth + right_depth:.10g} mm; the back of "
            f"{back_length:.10g} mm must be longer: measure the depths again"
        )
    vertices: list[Vertex] = [
        ((0.0, 0.0), 0.0, "left leg back"),
        ((0.0, -left_leg), 0.0, "left leg end"),
        ((left_depth, -left_leg), 0.0, "left leg front"),
        ((left_depth, -back_depth), 0.0, "back leg front"),
        ((back_length - right_depth, -back_depth), 0.0, "right leg front"),
        ((back_length - right_depth, -right_leg), 0.0, "right leg end"),
        ((back_length, -right_leg), 0.0, "right leg back"),
        ((back_length, 0.0), 0.0, "back leg back"),
    ]
    return round_corners(_at_origin(*named_loop(vertices), ()), 0.0, inside_radius)


def _angle_check(
    angle: float, given: float | None, equal_legs: tuple[float, float] | None, units: Units
) -> tuple[ShapeCheck, ...]:
    """Check the diagonal of equal legs against an angle that was given as well."""
    if given is None or equal_legs is None:
        return ()
    leg, diagonal = equal_legs
    expected = 2 * leg * math.sin(angle / 2)
    says = (
        f"the diagonal over legs of {show_mm(leg, units)} is {show_mm(diagonal, units)}; walls at "
        f"{math.degrees(angle):.4g}° make it {show_mm(expected, units)}"
    )
    return (ShapeCheck("diagonal of equal legs", diagonal, expected, 2 * TAPE_MM, says),)


def _at_origin(outline: Outline, names: tuple[str, ...], checks: tuple[ShapeCheck, ...]) -> Shape:
    west, south, _, _ = outline.bounds
    return Shape(move_outline(outline, (-west, -south)), names, checks)
