"""The panel on the page as it lies on the bench: top face down, so east is on the left and west on the right."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from edgewright.compass import CORNER_SIDES, CORNERS, OPPOSITE, Side, is_lengthwise
from edgewright.cutlist.model import CutPlan, SawCut
from edgewright.drawing.paper import PANEL, Pen, Point
from edgewright.drawing.view import Loop, Vertex
from edgewright.ticks import ticks_to_mm

__all__ = ["Edges", "PanelFrame", "PlacedCut", "after_cut", "draw_panel", "line_position"]

#: Where the panel's edges lie in the frame of the old top, ticks.
Edges = dict[Side, int]
_QUARTER: Final = math.sqrt(2) - 1


def line_position(edges: Edges, cut: SawCut, position: int) -> int:
    """Take a position measured from the cut's datum edge into the frame of the old top (ticks)."""
    away = 1 if cut.side in ("north", "east") else -1
    return edges[OPPOSITE[cut.side]] + away * position


def after_cut(edges: Edges, cut: SawCut) -> Edges:
    """Edges once the cut is made."""
    return edges | {cut.side: line_position(edges, cut, cut.keep_ticks)}


@dataclass(frozen=True, slots=True)
class PlacedCut:
    """A cut and the panel's edges just before it."""

    cut: SawCut
    edges: Edges

    def at(self, position: int) -> int:
        """Take a position measured from the datum into the frame of the old top (ticks)."""
        return line_position(self.edges, self.cut, position)


@dataclass(frozen=True, slots=True)
class PanelFrame:
    """Where a panel stands on the page: its lower left corner (paper mm) and its scale."""

    edges: Edges
    left: float
    bottom: float
    scale: float

    @property
    def width(self) -> float:
        """Paper mm from east to west."""
        return ticks_to_mm(self.edges["east"] - self.edges["west"]) / self.scale

    @property
    def height(self) -> float:
        """Paper mm from south to north."""
        return ticks_to_mm(self.edges["north"] - self.edges["south"]) / self.scale

    @property
    def right(self) -> float:
        """Paper x of the west edge."""
        return self.left + self.width

    @property
    def top(self) -> float:
        """Paper y of the north edge."""
        return self.bottom + self.height

    def x(self, ticks: int) -> float:
        """Paper x of a position in the frame of the old top; mirrored, as the top lies face down."""
        return self.left + ticks_to_mm(self.edges["east"] - ticks) / self.scale

    def y(self, ticks: int) -> float:
        """Paper y of a position in the frame of the old top."""
        return self.bottom + ticks_to_mm(ticks - self.edges["south"]) / self.scale

    def across(self, side: Side, ticks: int) -> float:
        """Paper x or y, whichever runs across the side."""
        return self.y(ticks) if is_lengthwise(side) else self.x(ticks)


def draw_panel(pen: Pen, frame: PanelFrame, plan: CutPlan, old_radius_mm: float) -> None:
    """Draw the panel's edges; a corner is still rounded where neither of its sides has been cut."""
    old: Edges = {"west": 0, "south": 0, "east": plan.old_ticks[0], "north": plan.old_ticks[1]}
    vertices: list[Vertex] = []
    # the corners run counter-clockwise on the wood, so clockwise on the mirrored page
    for corner in CORNERS:
        upright, flat = CORNER_SIDES[corner]
        x, y = frame.x(frame.edges[flat]), frame.y(frame.edges[upright])
        whole = frame.edges[upright] == old[upright] and frame.edges[flat] == old[flat]
        r = old_radius_mm / frame.scale if whole else 0.0
        if r <= 0:
            vertices.append((x, y, 0.0))
            continue
        inward_x = r if flat == "east" else -r
        inward_y = r if upright == "south" else -r
        on_flat, on_upright = (x, y + inward_y), (x + inward_x, y)
        first, second = (
            (on_flat, on_upright) if corner in ("south_west", "north_east") else (on_upright, on_flat)
        )
        vertices += [(*first, -_QUARTER), (*second, 0.0)]
    pen.shape(PANEL, Loop(_apart(vertices)))


def _apart(vertices: Sequence[Vertex]) -> tuple[Vertex, ...]:
    """Leave out the end of an arc where the next one begins at once."""
    kept: list[Vertex] = []
    for index, vertex in enumerate(vertices):
        after: Point = vertices[(index + 1) % len(vertices)][:2]
        if vertex[2] or math.dist(vertex[:2], after) > 1e-3:
            kept.append(vertex)
    return tuple(kept)
