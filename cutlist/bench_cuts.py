"""Cuts at the bench after the panel is cut: strips ripped from boards on the fence, and crosscuts to length.

Each cut says how the piece is held. Nothing shorter than the hand-held limit is held by hand.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from edgewright import trade
from edgewright.cutlist.model import EndCut, Piece, Stick
from edgewright.ticks import part_ticks

__all__ = ["CrossCut", "FenceRip", "crosscuts", "fence_rips"]

PUSH_STICK_WIDTH = part_ticks(trade.PUSH_STICK_WIDTH.value)
HELD_LENGTH = part_ticks(trade.MIN_CROSSCUT_HELD.value)

BY_HAND = "by hand against the fence, hands well clear of the blade"
CLAMPED = "clamped in a mitre box or under a hold-down, not by hand"
PUSHED = "on the fence with a push stick and guard, strip on the far side of the blade"
FENCE = "on the fence with guard and riving knife"


@dataclass(frozen=True, slots=True)
class FenceRip:
    """A strip ripped from a board: fence setting, length of the board and how it is held."""

    stick_id: str
    lane_id: str
    fence_ticks: int
    length_ticks: int
    held: str


@dataclass(frozen=True, slots=True)
class CrossCut:
    """One crosscut of a strip.

    ``stop_ticks`` is where the piece ends, measured from the strip's squared start along the piece's long edge. For a
    squaring cut (no piece) it is measured from the raw end.
    """

    lane_id: str
    piece_id: str | None
    stop_ticks: int
    length_ticks: int
    cut: EndCut
    turned: bool
    held: str


def fence_rips(sticks: Sequence[Stick], pieces: Sequence[Piece]) -> tuple[FenceRip, ...]:
    """Strips that the plan takes from boards, in the order of the boards."""
    used = {piece.lane_id for piece in pieces}
    return tuple(
        FenceRip(
            stick.id,
            lane.id,
            lane.width_ticks,
            stick.length_ticks,
            PUSHED if lane.width_ticks < PUSH_STICK_WIDTH else FENCE,
        )
        for stick in sticks
        if stick.source != "offcut"
        for lane in stick.lanes
        if lane.id in used
    )


def crosscuts(sticks: Sequence[Stick], pieces: Sequence[Piece]) -> tuple[CrossCut, ...]:
    """Crosscuts of all strips in use: squaring cuts first, then the pieces from the start of each strip.

    A piece that ends where its strip ends needs no square cut there and is left out unless its end is mitred.
    """
    found = []
    for stick in sticks:
        for lane in stick.lanes:
            here = [p for p in pieces if p.lane_id == lane.id]
            if not here:
                continue
            if lane.trim_start_ticks:
                rest = lane.length_ticks + lane.trim_end_ticks
                found.append(
                    CrossCut(lane.id, None, lane.trim_start_ticks, rest, "square", False, _held(rest, rest))
                )
            for piece in sorted(here, key=lambda p: p.lane_start_ticks):
                end = piece.lane_start_ticks + piece.length_ticks
                far_cut = piece.start_cut if piece.turned else piece.end_cut
                rest = lane.length_ticks + lane.trim_end_ticks - end
                if rest or far_cut == "mitre":
                    held = _held(piece.length_ticks, piece.length_ticks + rest)
                    found.append(
                        CrossCut(lane.id, piece.id, end, piece.length_ticks, far_cut, piece.turned, held)
                    )
    return tuple(found)


def _held(piece: int, strip: int) -> str:
    """By hand only where both the piece and the strip it is cut from are long enough."""
    return BY_HAND if min(piece, strip) >= HELD_LENGTH else CLAMPED
