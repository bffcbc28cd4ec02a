"""Measured outlines of counters along walls: L and U."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Annotated, Any, Literal

from pydantic import Field

from edgewright.job_fields import Between, Section, say
from edgewright.job_outline_base import SHAPE, Box, OutlineFault, OutlineTable, Part, Size, mm_text
from edgewright.job_top import ZERO, default, optional, required
from edgewright.units import Length

__all__ = ["InsideDiagonal", "LCounter", "UCounter"]

Depth = Annotated[Length, Between("2 in", "10 ft", hint="measure square to the wall")]
InsideRadius = Annotated[Length, Between("0 in", "10 ft")]


class InsideDiagonal(Section):
    """The angle between two walls, from marks at equal distances off their corner."""

    legs: Part = required("from the corner to the mark on either wall")
    across: Part = required("from mark to mark")


class LCounter(OutlineTable):
    """Two legs along two walls."""

    shape: Literal["l_counter"] = SHAPE
    long_leg: Size = required("along its wall, from the wall corner")
    short_leg: Size = required("along its wall, from the wall corner")
    long_depth: Depth = required("depth of the long leg, square to its wall")
    short_depth: Depth = required("depth of the short leg, square to its wall")
    inside_angle: Annotated[float, Field(ge=30, le=175, allow_inf_nan=False)] | None = optional(
        "angle between the walls in degrees", "what inside_diagonal gives, else 90"
    )
    inside_diagonal: InsideDiagonal | None = optional(
        "the angle measured as {legs, across}; beside inside_angle a check of it"
    )
    inside_radius: InsideRadius = default(ZERO, "radius of the inside corner of the front")
    hand: Literal["left", "right"] = default(
        "left", "where the short leg lies when one faces the wall of the long leg"
    )

    @property
    def angle_deg(self) -> float:
        """Angle between the walls in degrees: as given, else from the diagonal, else 90."""
        if self.inside_angle is not None:
            return self.inside_angle
        if self.inside_diagonal is None:
            return 90.0
        return math.degrees(
            2 * math.asin(self.inside_diagonal.across.mm / (2 * self.inside_diagonal.legs.mm))
        )

    def figure_faults(self) -> Iterator[OutlineFault]:
        """A diagonal that closes no triangle, or a leg that ends inside the other."""
        measured = self.inside_diagonal
        if measured is not None and measured.across.exact_mm >= 2 * measured.legs.exact_mm:
            yield (
                ("inside_diagonal", "across"),
                f"{say(measured.across)} cannot lie across two legs of {say(measured.legs)}: less than both "
                f"together, {mm_text(2 * measured.legs.exact_mm)}, is possible; measure again",
            )
            return
        if not 30 <= self.angle_deg <= 175:
            yield (
                ("inside_diagonal",),
                f"the diagonal makes an angle of {self.angle_deg:.4g} degrees: 30 to 175 is allowed; measure again",
            )
            return
        sin, cos = math.sin(math.radians(self.angle_deg)), math.cos(math.radians(self.angle_deg))
        cos = 0.0 if self.angle_deg == 90 else cos
        for key, other in (("long", "short"), ("short", "long")):
            leg: Length = getattr(self, f"{key}_leg")
            least = (getattr(self, f"{other}_depth").mm + getattr(self, f"{key}_depth").mm * cos) / sin
            if leg.mm <= least:
                yield (
                    (f"{key}_leg",),
                    f"{say(leg)} ends within the {other} leg: more than {least:.6g} mm is "
                    "needed; measure from the wall corner",
                )

    def follows(self) -> dict[str, Any]:
        """The angle."""
        return {"inside_angle": self.angle_deg}

    @property
    def box(self) -> Box | None:
        """Both legs, at a right angle."""
        return (self.long_leg.exact_mm, self.short_leg.exact_mm) if self.angle_deg == 90 else None


class UCounter(OutlineTable):
    """Three legs along three walls, square to one another."""

    shape: Literal["u_counter"] = SHAPE
    back_length: Size = required("along the back wall")
    left_leg: Size = required("along the left wall, from the back wall; left is west when one faces the back")
    right_leg: Size = required("along the right wall, from the back wall")
    back_depth: Depth = required("depth of the back")
    left_depth: Depth = required("depth of the left leg")
    right_depth: Depth = required("depth of the right leg")
    inside_radius: InsideRadius = default(ZERO, "radius of both inside corners of the front")

    def figure_faults(self) -> Iterator[OutlineFault]:
        """Legs that do not come out of the back, or that leave no back between them."""
        for key in ("left_leg", "right_leg"):
            leg: Length = getattr(self, key)
            if leg.exact_mm <= self.back_depth.exact_mm:
                message = (
                    f"{say(leg)} ends within back_depth = {say(self.back_depth)}: measure from the back wall"
                )
                yield (key,), message
        both = self.left_depth.exact_mm + self.right_depth.exact_mm
        if both >= self.back_length.exact_mm:
            yield (
                ("back_length",),
                f"{say(self.back_length)} leaves nothing between left_depth and right_depth: more than "
                f"{mm_text(both)} is needed",
            )

    @property
    def box(self) -> Box:
        """Length of the back and the longer leg."""
        return self.back_length.exact_mm, max(self.left_leg.exact_mm, self.right_leg.exact_mm)
