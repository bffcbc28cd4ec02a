"""Where strips that are longer than any stick are spliced: piece by piece under the rules of the job.

A splice keeps its distances from corners, panel seams and the splices of the layer below, and no piece is shorter than
the job allows. Two divisions are made: as long as the sticks go, and as even as the rules let it be.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Final, Literal

from edgewright.design.anytop.model import ShapedDesign
from edgewright.design.buildup.ring_model import RingPiece
from edgewright.design.buildup.ring_stock import blank_ticks
from edgewright.design.buildup.split_strip import crossings, place_on_strip, split_strip
from edgewright.design.outline import Point
from edgewright.display import SHOWN_TICKS, show_mm
from edgewright.ticks import TICKS_PER_MM, ticks_to_mm

__all__ = ["DIVISIONS", "LongestStick", "Spliced", "spliced"]

Division = Literal["as long", "even"]
#: Length of the longest stick for a strip, by its width in ticks and how many strips were divided before; 0 for none.
LongestStick = Callable[[int, int], int]
DIVISIONS: Final[tuple[Division, ...]] = ("as long", "even")


@dataclass(frozen=True, slots=True)
class Spliced:
    """Pieces of the ring with long strips divided; ``refused`` says for each strip that stays whole why it must."""

    pieces: tuple[RingPiece, ...]
    splices: int
    refused: tuple[tuple[str, str], ...]


def spliced(
    design: ShapedDesign,
    pieces: Sequence[RingPiece],
    longest: LongestStick,
    division: Division,
) -> Spliced:
    """Divide every straight strip that is longer than its longest stick.

    Parameters
    ----------
    pieces
        Pieces of the ring, layer by layer.
    longest
        How long the pieces of a strip may be, ticks.
    division
        How a strip is divided.
    """
    found: list[RingPiece] = []
    refused: list[tuple[str, str]] = []
    placed: dict[tuple[int, tuple[str, ...]], list[Point]] = {}
    count = divided = 0
    for piece in pieces:
        most = longest(blank_ticks(piece.blank_width, design.job.units), divided)
        length = math.ceil((piece.blank_length - 1e-5) * TICKS_PER_MM)
        if piece.kind != "strip" or not most or length <= most:
            found.append(piece)
            continue
        above = placed.get((piece.layer - 1, piece.edges), [])
        places, why = _places(design, piece, length, most, division, above)
        if why:
            refused.append((piece.id, why))
            found.append(piece)
            continue
        parts = split_strip(piece, [ticks_to_mm(at) for at in places], design.job.edge.proud.mm)
        placed[piece.layer, piece.edges] = [part.joints[1] for part in parts[:-1]]
        found += parts
        count, divided = count + len(places), divided + 1
    return Spliced(tuple(found), count, tuple(refused))


def _places(
    design: ShapedDesign,
    piece: RingPiece,
    length: int,
    most: int,
    division: Division,
    above: Sequence[Point],
) -> tuple[list[int], str]:
    """Splices of one strip in ticks from its start; or why there are none."""
    rules, units = design.job.splice, design.job.units
    has = f"{piece.id} is {show_mm(piece.blank_length, units)} long, the longest stick {_shown(design, most)}"
    allowed = rules.most(Fraction(length, TICKS_PER_MM))
    if not allowed:
        return [], f"{has}, and the job allows no splice in it"
    needed = -(-length // most) - 1
    if needed > allowed:
        return [], f"{has}: {needed} splices are needed, {allowed} allowed"
    least, corner = rules.min_piece.ticks_up(), max(rules.from_corner.ticks_up(), 0)
    apart = rules.from_seam.ticks_up()
    stagger = math.ceil(rules.stagger_widths * piece.blank_width * TICKS_PER_MM)
    barred = [(_ticks(at), apart) for at in crossings(piece, design.panel_seams)]
    barred += [(_ticks(place_on_strip(piece, point)), stagger) for point in above]
    ends = max(least, corner)
    step = SHOWN_TICKS[units] * (2 if units == "in" else 5)
    even = division == "even"
    for pieces in range(needed + 1, allowed + 2):
        places: list[int] = []
        for number in range(1, pieces):
            begin = places[-1] if places else 0
            low = max(begin + least, ends, length - (pieces - number) * most)
            high = min(begin + most, length - ends, length - (pieces - number) * least)
            wish = length * number // pieces if even else high
            at = _nearest(wish // step * step, low, high, barred, step)
            if at is None:
                break
            places.append(at)
        else:
            return places, ""
    distances = f"{_shown(design, corner)} from corners, {_shown(design, apart)} from seams"
    if above:
        distances += f", {_shown(design, stagger)} from the splices of the layer over it"
    return [], (
        f"{has}, and no place was found for a splice {distances}, with pieces of at least {_shown(design, least)}"
    )


def _nearest(wish: int, low: int, high: int, barred: Sequence[tuple[int, int]], step: int) -> int | None:
    """Place between two bounds nearest to the one wished that is clear of what is barred; None if there is none."""
    places = {wish, low, high}
    for at, apart in barred:
        places |= {at - apart, at + apart, (at - apart) // step * step, -(-(at + apart) // step) * step}
    clear = [
        place
        for place in places
        if low <= place <= high and all(abs(place - at) >= apart for at, apart in barred)
    ]
    return min(clear, key=lambda place: (abs(place - wish), place % step, place), default=None)


def _ticks(mm: float) -> int:
    return round(mm * TICKS_PER_MM)


def _shown(design: ShapedDesign, ticks: int) -> str:
    return show_mm(ticks_to_mm(ticks), design.job.units)
