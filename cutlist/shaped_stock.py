"""What the build-up of a top with an outline may be cut from: its own offcuts and drops, the rack, boards for sale.

Offcuts give true rectangles of clean wood, chosen for the blanks that are wanted; boards give what lies between their
old edges. Sizes are rounded down to what is shown, 1/64 in or 0.1 mm, so that they can be marked as they are printed.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from edgewright.cutlist.check_handling import MIN_RIP_LENGTH
from edgewright.cutlist.demand import matching_boards, offcuts_fit
from edgewright.cutlist.guillotine.model import StockRect
from edgewright.cutlist.model import Source
from edgewright.cutlist.shaped_demand import Demand, wanted_blanks
from edgewright.design.anytop.model import ShapedDesign
from edgewright.design.anytop.own_wood import OwnWood, own_wood
from edgewright.design.anytop.ring import grain_direction
from edgewright.design.buildup.grain import grain_angle
from edgewright.design.outline import FIT_MM, Point
from edgewright.design.trims.blank_rectangles import blank_rectangles, held_area
from edgewright.design.trims.shadow import span
from edgewright.design.trims.turned_rectangle import TurnedRectangle
from edgewright.display import SHOWN_TICKS
from edgewright.ticks import TICKS_PER_MM, snap_down, ticks_to_mm

__all__ = ["ShapedStick", "shaped_stock"]

Grain = Literal["length", "width"] | None


@dataclass(frozen=True, slots=True)
class ShapedStick:
    """Stock for the planner, and where it lies.

    Attributes
    ----------
    stock
        A clean rectangle and how many there are of it.
    places
        Of own wood: where each copy lies in the old top (mm); empty for boards.
    names
        Of own wood: the name of each copy.
    edge_waste
        Old edge to be ripped off each long side of a board first, ticks.
    """

    stock: StockRect
    places: tuple[TurnedRectangle, ...] = ()
    names: tuple[str, ...] = ()
    edge_waste: int = 0

    def name(self, copy: int) -> str:
        """Name of one copy, from 1."""
        if self.names:
            return self.names[copy - 1]
        return self.stock.name if self.stock.count == 1 else f"{self.stock.name} {copy}"


def shaped_stock(
    design: ShapedDesign, demand: Demand, wood: Sequence[OwnWood] | None = None
) -> tuple[ShapedStick, ...]:
    """All stock of the strips' thickness and material: own wood first, then boards on hand, then boards for sale.

    Parameters
    ----------
    demand
        Blanks that the rectangles of own wood are laid out for.
    wood
        What `own_wood` gave for this design, for who asks often.
    """
    own: tuple[ShapedStick, ...] = ()
    if demand.blanks and offcuts_fit(design.job):
        own = _own_sticks(design, demand, own_wood(design) if wood is None else wood)
    return (*own, *_boards(design, "on hand"), *_boards(design, "for sale"))


def _own_sticks(design: ShapedDesign, demand: Demand, wood: Sequence[OwnWood]) -> tuple[ShapedStick, ...]:
    """Rectangles of own wood; equal ones are one stock with a count."""
    step, top_grain = SHOWN_TICKS[design.job.units], grain_direction(design.job, design.old)
    alike: dict[tuple[int, int, Grain], list[tuple[TurnedRectangle, str]]] = {}
    for piece in wood:
        grain, found = _laid_out(piece, demand, design.job.saw.kerf.mm, top_grain)
        for number, rectangle in enumerate(found, start=1):
            name = piece.name if len(found) == 1 else f"{piece.name}, part {number}"
            size = (_whole(rectangle.length, step), _whole(rectangle.width, step))
            run = grain
            if size[0] < size[1]:
                rectangle, size = _longer_first(rectangle), size[::-1]
                run = None if grain is None else "width" if grain == "length" else "length"
            if min(size) > 0:
                alike.setdefault((*size, run), []).append((rectangle, name))
    source: Source = "offcut"
    return tuple(
        ShapedStick(
            StockRect(f"own {number}", same[0][1], source, length, width, len(same), 0, grain),
            tuple(rectangle for rectangle, _ in same),
            tuple(name for _, name in same),
        )
        for number, ((length, width, grain), same) in enumerate(alike.items(), start=1)
    )


def _laid_out(
    wood: OwnWood, demand: Demand, kerf: float, top_grain: float | None
) -> tuple[Grain, tuple[TurnedRectangle, ...]]:
    """Rectangles of one piece of wood, along or across its grain, whichever holds more; and which way it was.

    Wood that is too short to be ripped on the fence gives none. Its lanes are ripped before the ends of the rectangle
    are cut off, so its whole length counts.
    """
    best: tuple[float, Grain, tuple[TurnedRectangle, ...]] = (0.0, None, ())
    runs: dict[Grain, list[Point]] = {}
    for way in wood.ways:
        low, high = span(wood.region.segments, way)
        if high - low < ticks_to_mm(MIN_RIP_LENGTH):
            continue
        runs.setdefault(_grain(way, top_grain), []).append(way)
    for run, ways in runs.items():
        wanted = wanted_blanks(demand, run)
        found = blank_rectangles(wood.region, tuple(ways), wanted, kerf)
        area, left = 0.0, list(wanted)
        for rectangle in found:
            held, left = held_area(rectangle, left, kerf)
            area += held
        if area > best[0]:
            best = (area, run, found)
    return best[1:]


def _whole(mm: float, step: int) -> int:
    """Ticks rounded down to the step; float rounding alone never makes stock a step smaller."""
    return snap_down(math.floor((mm + 10 * FIT_MM) * TICKS_PER_MM), step)


def _longer_first(one: TurnedRectangle) -> TurnedRectangle:
    ux, uy = one.direction
    return TurnedRectangle(one.corners[1], (-uy, ux), one.width, one.length)


def _grain(way: Point, top_grain: float | None) -> Grain:
    """Whether the grain runs along a direction or across it; None for sheet goods."""
    if top_grain is None:
        return None
    return "length" if grain_angle(math.atan2(way[1], way[0]), top_grain) < math.pi / 4 else "width"


def _boards(design: ShapedDesign, source: Source) -> tuple[ShapedStick, ...]:
    """Boards of one source without defects; where grain matters it runs along their length."""
    top = design.job.top
    grain: Grain = "length" if top.material == "solid wood" or (top.new and top.grain) else None
    sticks = []
    for number, board in enumerate(matching_boards(design.job), start=1):
        if (board.price_cents is None) != (source == "on hand") or board.defects:
            continue
        wide, price = board.width - 2 * board.finished_depth, board.price_cents or 0
        stock = StockRect(
            f"board {number}", board.name, source, board.length, wide, board.count, price, grain
        )
        sticks.append(ShapedStick(stock, edge_waste=board.finished_depth))
    return tuple(sticks)
