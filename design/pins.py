"""Pins that hold the strips while the glue sets: length, row and count.

Pins are driven from the underside through the outermost strip. All figures are common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from edgewright.ticks import part_ticks, stock_ticks
from edgewright.trade import (
    COMMON,
    FLUSH_TRIM,
    PIN_BITE,
    PIN_SKIN,
    PIN_TO_INNER_EDGE,
    PIN_WANDER,
    Default,
    inch,
)
from edgewright.units import Units

__all__ = [
    "PIN_BITE_MM",
    "PIN_LENGTHS_MM",
    "PIN_SKIN_MM",
    "TWO_ROWS",
    "PinChoice",
    "pin_choice",
    "pin_choices",
    "pin_count",
    "pin_row",
    "pin_rows",
    "pin_window",
]

PIN_SKIN_MM: Final = Default(Fraction(5), "mm", COMMON)
"""Wood that stays before the show face, in a job in millimetres."""
PIN_BITE_MM: Final = Default(Fraction(12), "mm", COMMON)
"""Bite into the wood above the strip, in a job in millimetres."""
PIN_LENGTHS_MM: Final = Default(
    tuple(Fraction(length) for length in (12, 15, 18, 20, 25, 30, 35, 40, 50)), "mm", COMMON
)
BITE_SLACK: Final = Default(inch("1/64"), "mm", COMMON)
"""A bite short by so much still holds: calipered strips are rarely exactly as thick as they are called."""
TWO_ROWS: Final = Default(inch("2 1/2"), "mm", COMMON)
"""A strip wider than this gets two staggered rows."""
CORNER_PINS: Final = Default(2, "pins", COMMON)
"""More pins at each butted corner."""


@dataclass(frozen=True, slots=True)
class PinChoice:
    """The pin to use in one layer, ticks.

    Attributes
    ----------
    length
        Longest stocked pin that fits, None where none does.
    shortest, longest
        Lengths that may be driven; none at all when shortest > longest. A pin may be 1/64 in shorter, never longer.
    row_from_edge
        Nearest that the row may stand to the finished edge.
    spacing
        From pin to pin along the row.
    """

    length: int | None
    shortest: int
    longest: int
    row_from_edge: int
    spacing: int


def pin_window(thickness: int, strip: int, layer: int, units: Units) -> tuple[int, int]:
    """Shortest and longest pin for one layer as it is glued, ticks.

    Parameters
    ----------
    thickness
        Thinnest reading T0 of the top, ticks.
    strip
        Thickness Ts of one layer, ticks.
    layer
        1 lies against the top; layer i is driven with T0 + i Ts of wood beneath the nailer.
    units
        Jobs in millimetres use the metric skin and bite (5 and 12 mm for 3/16 and 1/2 in).

    Returns
    -------
    tuple[int, int]
        Ts + bite, and T0 + i Ts - skin. The window is empty when T0 < skin + bite, 11/16 in or 17 mm.
    """
    skin, bite = (PIN_SKIN, PIN_BITE) if units == "in" else (PIN_SKIN_MM, PIN_BITE_MM)
    return strip + part_ticks(bite.value), thickness + layer * strip - part_ticks(skin.value)


def pin_row(bottom_reach: int, proud: int) -> int:
    """Nearest that a pin may be aimed to the finished edge, ticks, so that no cutter can meet it.

    The reach of the bottom form, the sliver that is flush-trimmed (at least 1/16 in) and what a pin wanders.
    """
    return bottom_reach + max(proud, part_ticks(FLUSH_TRIM.value)) + part_ticks(PIN_WANDER.value)


def pin_choice(
    thickness: int,
    strip: int,
    bottom_reach: int,
    proud: int,
    lengths: Iterable[int],
    spacing: int,
    units: Units,
    layer: int = 1,
) -> PinChoice:
    """Choose the longest stocked pin for one layer as it is glued; its bite may be short by 1/64 in, its skin not.

    Parameters
    ----------
    thickness, strip
        Thinnest reading T0 and thickness Ts of one layer, ticks.
    bottom_reach, proud
        How far in the bottom form reaches, and what the strips stand proud, ticks.
    lengths
        Pins at hand, ticks, in any order.
    layer
        As in `pin_window`.
    """
    shortest, longest = pin_window(thickness, strip, layer, units)
    slack = stock_ticks(BITE_SLACK.value) if shortest <= longest else 0
    fitting = [length for length in lengths if shortest - slack <= length <= longest]
    return PinChoice(max(fitting, default=None), shortest, longest, pin_row(bottom_reach, proud), spacing)


def pin_choices(
    thickness: int,
    strip: int,
    layers: int,
    bottom_reach: int,
    proud: int,
    lengths: Iterable[int],
    spacing: int,
    units: Units,
) -> tuple[PinChoice, ...]:
    """Choose the pin of every layer, the one against the top first; parameters as in `pin_choice`.

    Each further layer has more wood to go into and asks for the same bite: what fits the layer before fits it
    too and is kept, so that one box of pins does for all layers where it can.
    """
    on_hand = tuple(lengths)
    choices: list[PinChoice] = []
    for layer in range(1, layers + 1):
        before = choices[-1].length if choices else None
        offered = on_hand if before is None else (before,)
        choices.append(pin_choice(thickness, strip, bottom_reach, proud, offered, spacing, units, layer))
    return tuple(choices)


def pin_rows(strip_width: int) -> int:
    """Rows of pins in a strip of this width (ticks): two, staggered, above 2 1/2 in."""
    return 2 if strip_width > stock_ticks(TWO_ROWS.value) else 1


def pin_count(pieces: Iterable[int], strip_width: int, spacing: int, butted_corners: int) -> int:
    """Pins for a ring.

    Parameters
    ----------
    pieces
        Length of each piece of strip, ticks.
    strip_width, spacing
        Ticks.
    butted_corners
        Corners, over all layers, where a strip butts against another: each takes two pins more.
    """
    one_row = sum(-(-length // spacing) for length in pieces)
    return pin_rows(strip_width) * one_row + CORNER_PINS.value * butted_corners


def inner_edge_room() -> int:
    """Wood between the row and the inner edge of the strip, ticks, so that the strip does not split."""
    return part_ticks(PIN_TO_INNER_EDGE.value)
