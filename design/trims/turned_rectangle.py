"""A rectangle in plan at any angle."""

from __future__ import annotations

from dataclasses import dataclass

from edgewright.design.outline import Line, Outline, Point
from edgewright.design.trims.shadow import Frame

__all__ = ["TurnedRectangle"]


@dataclass(frozen=True, slots=True)
class TurnedRectangle:
    """A rectangle: ``length`` along a direction of length 1 from a corner, ``width`` to its left (mm)."""

    corner: Point
    direction: Point
    length: float
    width: float

    @property
    def area(self) -> float:
        """Area in mm²."""
        return self.length * self.width

    @property
    def corners(self) -> tuple[Point, Point, Point, Point]:
        """The four corners, counter-clockwise from `corner` (mm)."""
        frame = Frame(self.corner, self.direction)
        return (
            self.corner,
            frame.world((self.length, 0.0)),
            frame.world((self.length, self.width)),
            frame.world((0.0, self.width)),
        )

    @property
    def outline(self) -> Outline:
        """The rectangle as an outline, first along its length."""
        a, b, c, d = self.corners
        return Outline((Line(a, b), Line(b, c), Line(c, d), Line(d, a)))
