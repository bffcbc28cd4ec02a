"""What must be bought or found for a build-up: blanks of equal size in one row."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final

from edgewright.design.buildup.ring_model import PieceKind, RingPiece
from edgewright.design.outline import FIT_MM
from edgewright.ticks import TICKS_PER_INCH, TICKS_PER_MM, snap_up, ticks_to_mm
from edgewright.units import Units

__all__ = ["BlankRow", "blank_ticks", "to_be_bought"]

#: Ticks of the grid that needs are rounded up to: 1/32 in or 0.5 mm (choice of this program).
_GRID: Final[dict[Units, int]] = {"in": TICKS_PER_INCH // 32, "mm": TICKS_PER_MM // 2}


@dataclass(frozen=True, slots=True)
class BlankRow:
    """Blanks of one size; mm, area mm².

    ``running_length`` has a crosscut kerf to each blank; ``board_area`` has that and a rip kerf along it.
    """

    kind: PieceKind
    count: int
    thickness: float
    length: float
    width: float
    running_length: float
    board_area: float
    piece_ids: tuple[str, ...]


def to_be_bought(pieces: Iterable[RingPiece], kerf: float, units: Units) -> tuple[BlankRow, ...]:
    """Rows of blanks, thickest, widest and longest first; sizes rounded up to 1/32 in or 0.5 mm.

    Parameters
    ----------
    pieces
        Pieces of the build-up.
    kerf
        Saw kerf (mm).
    units
        Units of the bench.
    """
    ids: dict[tuple[float, int, int, PieceKind], list[str]] = {}
    counts: Counter[tuple[float, int, int, PieceKind]] = Counter()
    for piece in pieces:
        sides = [blank_ticks(side, units) for side in (piece.blank_width, piece.blank_length)]
        key = (piece.thickness, sides[0], sides[1], piece.kind)
        ids.setdefault(key, []).append(piece.id)
        counts[key] += 1
    rows = []
    for key in sorted(counts, key=lambda size: (-size[0], -size[1], -size[2], size[3])):
        thickness, width_ticks, length_ticks, kind = key
        count, width, length = counts[key], ticks_to_mm(width_ticks), ticks_to_mm(length_ticks)
        running = count * (length + kerf)
        rows.append(
            BlankRow(
                kind, count, thickness, length, width, running, running * (width + kerf), tuple(ids[key])
            )
        )
    return tuple(rows)


def blank_ticks(mm: float, units: Units) -> int:
    """Ticks of a blank's side rounded up to 1/32 in or 0.5 mm; float rounding alone never makes it a step larger."""
    return snap_up(math.ceil((mm - 10 * FIT_MM) * TICKS_PER_MM), _GRID[units])
