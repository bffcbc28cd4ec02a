"""The underside on the page: where a layer's strips, seams and corners lie with the top face down.

Wood positions are ticks in the underside frame: x from the east edge to the west edge, y from south to north.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from edgewright.compass import Side, is_lengthwise
from edgewright.cutlist.model import Piece, RingSide
from edgewright.cutlist.pin_positions import no_pin_squares, place_on_side
from edgewright.cutlist.plan import Plan
from edgewright.drawing.paper import Point
from edgewright.drawing.view import Box, Loop
from edgewright.ticks import TICK_MM

__all__ = ["Underside"]


@dataclass(frozen=True, slots=True)
class Underside:
    """The finished top on the page: its lower left corner (paper mm) and its scale."""

    plan: Plan
    left: float
    bottom: float
    scale: float

    @property
    def size(self) -> tuple[int, int]:
        """Finished length and width (ticks)."""
        return self.plan.cut_plan.finished_ticks

    @property
    def ring(self) -> int:
        """How far the strips reach inwards from the finished edge (ticks)."""
        return self.plan.cut_plan.strip_width_ticks - self.plan.cut_plan.proud_ticks

    def at(self, x: float, y: float) -> Point:
        """Paper position of a wood position."""
        return self.left + TICK_MM * x / self.scale, self.bottom + TICK_MM * y / self.scale

    def on_side(self, side: Side, along: float, inwards: float) -> tuple[float, float]:
        """Wood position of a place along a side (from west or south) and inwards from the finished edge."""
        return place_on_side(self.size, side, along, inwards)

    def corners(self, side: RingSide, piece: Piece) -> list[Point]:
        """Paper corners of a piece, outer edge first; a mitred end falls back by the width to the inner edge."""
        wide, proud = self.plan.cut_plan.strip_width_ticks, self.plan.cut_plan.proud_ticks
        start = side.start_offset_ticks + piece.side_start_ticks
        end = start + piece.length_ticks
        back = (wide if piece.start_cut == "mitre" else 0, wide if piece.end_cut == "mitre" else 0)
        places = (
            (start, -proud),
            (end, -proud),
            (end - back[1], wide - proud),
            (start + back[0], wide - proud),
        )
        return [self.at(*self.on_side(side.side, *place)) for place in places]

    def inner_box(self) -> Box:
        """Paper box inside the ring."""
        (x0, y0), (x1, y1) = self.at(self.ring, self.ring), self.at(*(size - self.ring for size in self.size))
        return x0, y0, x1, y1

    def outer_box(self) -> Box:
        """Paper box around the strips as they stand, proud or not."""
        proud = self.plan.cut_plan.proud_ticks
        (x0, y0), (x1, y1) = self.at(-proud, -proud), self.at(*(size + proud for size in self.size))
        return x0, y0, x1, y1

    def outline(self) -> Loop:
        """Paper outline of the finished top; mirrored, so its arcs turn the other way."""
        outline = self.plan.design.finished_outline
        _, y0, x1, _ = outline.bounds
        return Loop(
            tuple(
                (self.left + (x1 - x) / self.scale, self.bottom + (y - y0) / self.scale, -bulge)
                for x, y, bulge in outline.bulge_vertices()
            )
        )

    def seams(self, side: Side) -> Iterator[float]:
        """Paper positions along a side where the top has a seam."""
        axis = 0 if is_lengthwise(side) else 1
        for seam in self.plan.job.top.seams:
            at = seam.at.ticks() - self.plan.cut_plan.finished_origin_ticks[axis]
            if (seam.across == "length") == is_lengthwise(side) and 0 < at < self.size[axis]:
                yield self.at(*self.on_side(side, at, 0))[axis]

    def no_pin_squares(self) -> Iterator[tuple[Point, Point]]:
        """Squares at rounded corners where no pin may be driven: the finished corner, and the one inside."""
        return no_pin_squares(self.plan.design, self.size)
