"""Blanks that the build-up of a top with an outline is to be cut to: sizes in ticks, counts, and the rule of grain."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from edgewright.cutlist.guillotine.model import Blank
from edgewright.design.anytop.model import ShapedDesign
from edgewright.design.anytop.ring import grain_direction
from edgewright.design.buildup.grain import GRAIN_WITHIN, grain_angle
from edgewright.design.buildup.ring_model import RingPiece
from edgewright.design.buildup.ring_stock import blank_ticks
from edgewright.design.trims.blank_rectangles import WantedBlank
from edgewright.display import show_ticks
from edgewright.ticks import ticks_to_mm
from edgewright.units import Units

__all__ = ["Demand", "ShapedBlank", "shaped_demand", "wanted_blanks"]

Grain = Literal["length", "width"]


@dataclass(frozen=True, slots=True)
class ShapedBlank:
    """Blanks of one size and grain, and the pieces of the build-up that they become, in the order of the ring."""

    blank: Blank
    piece_ids: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Demand:
    """What is wanted; ``slanted`` are pieces whose grain would run neither along nor across a blank: none is cut."""

    blanks: tuple[ShapedBlank, ...]
    slanted: tuple[str, ...]


def shaped_demand(design: ShapedDesign, pieces: Sequence[RingPiece]) -> Demand:
    """Blanks of all pieces, largest first.

    In solid wood the grain of a piece must lie with the top's: along a strip under a side that runs with it, across a
    strip under an end. A skirt has it along its length, for it is bent or stands on edge.
    """
    units, top_grain = design.job.units, grain_direction(design.job, design.old)
    alike: dict[tuple[int, int, Grain | None], list[str]] = {}
    slanted: list[str] = []
    for piece in pieces:
        grain: Grain | None = None
        if top_grain is not None:
            off = grain_angle(_along(piece), top_grain) if piece.kind != "skirt" else 0.0
            if GRAIN_WITHIN < off < math.pi / 2 - GRAIN_WITHIN:
                slanted.append(piece.id)
                continue
            grain = "length" if off <= GRAIN_WITHIN else "width"
        size = blank_ticks(piece.blank_length, units), blank_ticks(piece.blank_width, units)
        alike.setdefault((*size, grain), []).append(piece.id)
    order = sorted(alike, key=lambda key: (-key[0] * key[1], -key[0], key[2] or ""))
    return Demand(
        tuple(
            ShapedBlank(Blank(_name(*key, units), *key[:2], len(alike[key]), key[2]), tuple(alike[key]))
            for key in order
        ),
        tuple(slanted),
    )


def wanted_blanks(demand: Demand, run: Grain | None) -> tuple[WantedBlank, ...]:
    """The same in mm, as they lie in wood whose grain runs along (``length``) or across (``width``) its rectangles."""
    found = []
    for one in demand.blanks:
        blank = one.blank
        size = ticks_to_mm(blank.length), ticks_to_mm(blank.width)
        held = blank.grain is not None and run is not None
        length, width = size if not held or blank.grain == run else size[::-1]
        found.append(WantedBlank(length, width, blank.count, turns=not held))
    return tuple(found)


def _name(length: int, width: int, grain: Grain | None, units: Units) -> str:
    """What blanks are called by: their size, for sentences."""
    size = f"{show_ticks(length, units, unit=False)} x {show_ticks(width, units)}"
    return size if grain is None else f"{size}, grain along the {grain}"


def _along(piece: RingPiece) -> float:
    """Direction of the blank's length as the piece lies (radians from east)."""
    (ax, ay), (bx, by) = piece.plan[0], piece.plan[1]
    along = math.atan2(by - ay, bx - ax)
    # the first two corners of an inside block lie square to the edge that its blank runs along
    return along + math.pi / 2 if piece.kind == "inside block" else along
