"""The order of straight cuts: what each order and each choice of side leaves to make strips from."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cache
from itertools import islice, permutations

from edgewright.design.inset import inset
from edgewright.design.outline import Line
from edgewright.design.region import Region
from edgewright.design.tolerances import EVENT_MM
from edgewright.design.trims.clean_wood import clean_wood
from edgewright.design.trims.keep_line import off_edge
from edgewright.design.trims.offcut import Offcut, offcuts_of
from edgewright.design.trims.shadow import Frame
from edgewright.design.trims.straight_cut import Sawn, StraightCut, saw
from edgewright.design.trims.usable_rectangle import lane_lengths
from edgewright.errors import GeometryError

__all__ = [
    "Order",
    "OrderTable",
    "SideChoice",
    "compare_orders",
    "compare_sides",
    "is_rip",
    "order_by_rips",
    "ring_length",
    "saw_in_order",
    "widest_strip",
]


@dataclass(frozen=True, slots=True)
class Order:
    """What one order of cuts gives (mm).

    Attributes
    ----------
    numbers
        Numbers from 0 of the cuts, in the order they are made.
    offcuts
        With their old edges.
    lanes
        Lengths of all strips of the asked width, offcut by offcut, in clean wood.
    widest
        Widest strip of which the offcuts hold the ring's length; 0 if no width does.
    """

    numbers: tuple[int, ...]
    kept: Region
    offcuts: tuple[Offcut, ...]
    lanes: tuple[float, ...]
    widest: float

    @property
    def total(self) -> float:
        """Length of all strips of the asked width (mm)."""
        return math.fsum(self.lanes)


@dataclass(frozen=True, slots=True)
class OrderTable:
    """Orders, the best first: most length at the asked width, then the widest strip, then rips first.

    ``complete`` is False where the limit left orders out; ``refused`` holds the orders that cannot be sawn.
    """

    rows: tuple[Order, ...]
    complete: bool
    refused: tuple[tuple[tuple[int, ...], str], ...] = ()


@dataclass(frozen=True, slots=True)
class SideChoice:
    """What comes off each of two edges (mm), and what the offcuts of that choice give, rips first."""

    amounts: tuple[float, float]
    order: Order


def is_rip(region: Region, one: StraightCut) -> bool:
    """Tell whether a cut runs along the longer extent of the top's box."""
    west, south, east, north = region.bounds
    ux, uy = Frame.on(one.keep).along
    return abs(ux) >= abs(uy) if east - west >= north - south else abs(uy) > abs(ux)


def order_by_rips(region: Region, cuts: Sequence[StraightCut]) -> tuple[int, ...]:
    """Numbers of the cuts, lengthwise ones first at full length, else as given (common practice, no source)."""
    return tuple(sorted(range(len(cuts)), key=lambda number: not is_rip(region, cuts[number])))


def saw_in_order(
    region: Region, cuts: Sequence[StraightCut], numbers: Sequence[int]
) -> tuple[tuple[Sawn, ...], tuple[Offcut, ...]]:
    """Make cuts one after another: each cut's result, and all offcuts with what earlier cuts cleaned."""
    done: list[Sawn] = []
    offcuts: list[Offcut] = []
    clean: list[Line] = []
    for number in numbers:
        sawn = saw(done[-1].kept if done else region, cuts[number])
        offcuts += offcuts_of(sawn, clean)
        clean.append(cuts[number].keep)
        done.append(sawn)
    return tuple(done), tuple(offcuts)


def ring_length(finished: Region) -> Callable[[float], float]:
    """Least length of strips of a width that cover the ring under an edge: its area over the width (mm).

    A rectangle with butt joints takes just that, P - 4 w; kerfs between pieces and splice rules come on top.
    """

    @cache
    def length(width: float) -> float:
        inner = math.fsum(part.area for part in inset(finished, width))
        return (finished.area - inner) / width

    return length


def widest_strip(
    offcuts: Sequence[Offcut], kerf: float, need: Callable[[float], float], least: float = 1.0
) -> float:
    """Widest strip (mm, at least ``least``) of which the offcuts' lanes together hold ``need(width)``; else 0.

    By length alone: how pieces fall into lanes is the planner's. Widths are tried downwards where a lane more fits
    and in between, then halved to the widest that passes.
    """
    views = [(offcut, offcut.local_segments) for offcut in offcuts]
    top = max((offcut.depth for offcut in offcuts), default=0.0)
    if top < least:
        return 0.0
    tries = {least + (top - least) * step / 24 for step in range(25)}
    for offcut, segments in views:
        for depth in {offcut.depth, *(segment.start[1] for segment in segments)}:
            most = int((depth + kerf) // (least + kerf))
            tries |= {(depth + kerf) / count - kerf for count in range(1, min(most, 12) + 1)}

    def enough(width: float) -> bool:
        total = math.fsum(length for one, local in views for length in lane_lengths(one, width, kerf, local))
        return total > 0 and total >= need(width)

    above: float | None = None
    for width in sorted((width for width in tries if least <= width <= top), reverse=True):
        if enough(width):
            low, high = width, width if above is None else above
            # most often the width found is itself where a lane more fits
            for _ in range(40 if high > low and enough(min(high, low + EVENT_MM)) else 0):
                middle = (low + high) / 2
                low, high = (middle, high) if enough(middle) else (low, middle)
            return low
        above = width
    return 0.0


def compare_orders(
    region: Region,
    cuts: Sequence[StraightCut],
    strip_width: float,
    kerf: float,
    need: Callable[[float], float] | None = None,
    limit: int = 120,
    dirty_depth: float = 0.0,
) -> OrderTable:
    """Every order of the cuts, or the first ``limit`` of them starting with rips first.

    Parameters
    ----------
    strip_width, kerf
        Width of the strips and kerf between them, mm.
    need
        Length that strips of a width must make up; by default `ring_length` of the finished top.
    dirty_depth
        How deep the old edges are finished, mm; strips come from the wood further in.
    """
    first = order_by_rips(region, cuts)
    rows: list[Order] = []
    refused: list[tuple[tuple[int, ...], str]] = []
    wanted = need
    for numbers in islice(permutations(first), limit):
        try:
            done, offcuts = saw_in_order(region, cuts, numbers)
            wood = clean_wood(region, cuts, numbers, dirty_depth) if dirty_depth else offcuts
        except GeometryError as error:
            refused.append((numbers, str(error)))
            continue
        kept = done[-1].kept if done else region
        wanted = wanted or ring_length(kept)
        rows.append(_row(numbers, kept, offcuts, wood, strip_width, kerf, wanted))
    # sizes equal within rounding leave rips first
    rows.sort(key=lambda row: (-round(row.total, 3), -round(row.widest, 3)))
    return OrderTable(tuple(rows), math.factorial(len(cuts)) <= limit, tuple(refused))


def compare_sides(
    region: Region,
    edges: tuple[int, int],
    amount: float,
    strip_width: float,
    kerf: float,
    others: Sequence[StraightCut] = (),
    need: Callable[[float], float] | None = None,
    dirty_depth: float = 0.0,
) -> tuple[SideChoice, ...]:
    """An amount (mm) all off the first edge, all off the second, or half off each; other cuts stay the same.

    See `compare_orders` for the other figures.
    """
    choices = []
    for amounts in ((amount, 0.0), (0.0, amount), (amount / 2, amount / 2)):
        cuts = [
            off_edge(region, edge, off, kerf, f"edge {edge + 1}")
            for edge, off in zip(edges, amounts, strict=True)
            if off > 0
        ]
        cuts += others
        numbers = order_by_rips(region, cuts)
        done, offcuts = saw_in_order(region, cuts, numbers)
        wood = clean_wood(region, cuts, numbers, dirty_depth) if dirty_depth else offcuts
        kept = done[-1].kept
        row = _row(numbers, kept, offcuts, wood, strip_width, kerf, need or ring_length(kept))
        choices.append(SideChoice(amounts, row))
    return tuple(choices)


def _row(
    numbers: tuple[int, ...],
    kept: Region,
    offcuts: tuple[Offcut, ...],
    wood: tuple[Offcut, ...],
    width: float,
    kerf: float,
    need: Callable[[float], float],
) -> Order:
    lanes = tuple(length for offcut in wood for length in lane_lengths(offcut, width, kerf))
    return Order(numbers, kept, offcuts, lanes, widest_strip(wood, kerf, need))
