"""Grain of a solid top: a piece may be glued under it only where the grain of both runs the same way.

Wood moves across its grain and hardly along it, so a strip glued across the grain splits the top or comes off.
A strip under a side parallel to the grain is cut with its grain along its length, from a side offcut or any
board. One under an end needs its grain across its length: only the offcut of an end has that. Whatever lies
slanting, as most segments of a round ring do, must be sawn out of stock at that slant. Common practice, no
source.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Final, Literal

from edgewright.design.buildup.ring_model import RingPiece

__all__ = ["GRAIN_WITHIN", "GrainRule", "cross_grain", "grain_angle", "grain_rules"]

#: Grain that runs within this of the top's lies with it (choice of this program).
GRAIN_WITHIN: Final = math.radians(10)

GrainSource = Literal["along the length", "end offcut", "sawn at a slant"]


@dataclass(frozen=True, slots=True)
class GrainRule:
    """What a piece must be cut from so that its grain lies with the top's.

    ``slant`` is the angle from the blank's length to the grain it must have, degrees, 0 to 90.
    """

    piece_id: str
    slant: float
    source: GrainSource


def grain_angle(a: float, b: float) -> float:
    """Angle between two directions of grain, radians, 0 to π/2: grain has no front end."""
    off = abs(a - b) % math.pi
    return min(off, math.pi - off)


def grain_rules(pieces: Iterable[RingPiece], top_grain: float) -> tuple[GrainRule, ...]:
    """Stock that each straight piece may be cut from; a bent skirt, which has no one direction, is left out.

    Parameters
    ----------
    pieces
        Pieces whose grain is known.
    top_grain
        Direction of the top's grain, radians from east.
    """
    found = []
    for piece in pieces:
        if piece.grain is None:
            continue
        off = grain_angle(piece.grain, top_grain)
        source: GrainSource = "sawn at a slant"
        if off <= GRAIN_WITHIN:
            source = "along the length"
        elif off >= math.pi / 2 - GRAIN_WITHIN:
            source = "end offcut"
        found.append(GrainRule(piece.id, math.degrees(off), source))
    return tuple(found)


def cross_grain(
    pieces: Sequence[RingPiece], top_grain: float, laid_with_top: Iterable[str] = ()
) -> tuple[RingPiece, ...]:
    """Pieces whose grain would cross the top's.

    Parameters
    ----------
    pieces, top_grain
        See `grain_rules`.
    laid_with_top
        Ids of the pieces that are cut so that their grain lies with the top's.
    """
    settled = set(laid_with_top)
    wrong = {
        rule.piece_id for rule in grain_rules(pieces, top_grain) if rule.source != "along the length"
    } - settled
    return tuple(piece for piece in pieces if piece.id in wrong)
