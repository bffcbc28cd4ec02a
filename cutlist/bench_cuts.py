"""Cuts at the bench after the panel is cut: strips ripped from boards on the fence, and crosscuts to length.

Each cut says how the piece is held. Nothing shorter than the hand-held limit is held by hand.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from edgewright import trade
from edgewright.compass import ends_of
from edgewright.cutlist.model import EndCut, Lane, Piece, Stick
from edgewright.ticks import part_ticks

__all__ = ["CrossCut", "FenceRip", "crosscuts", "fence_rips", "how_held", "how_ripped"]

PUSH_STICK_WIDTH = part_ticks(trade.PUSH_STICK_WIDTH.value)
HELD_LENGTH = part_ticks(trade.MIN_CROSSCUT_HELD.value)

BY_HAND = "by hand against the fence, hands well clear of the blade"
CLAMPED = "clamped in a mitre box or under a hold-down, not by hand"
PUSHED = "on the fence with a push stick and guard, strip on the far side of the blade"
FENCE = "on the fence with guard and riving knife"


@dataclass(frozen=True, slots=True)
class FenceRip:
    """A rip of a board on the fence: fence setting, length of the board and how it is held.

    ``lane_id`` is None for the first rip of a board with an old finished edge: it only takes that edge off, with the
    wide part against the fence; then the clean edge goes to the fence.
    """

    stick_id: str
    lane_id: str | None
    fence_ticks: int
    length_ticks: int
    held: str


@dataclass(frozen=True, slots=True)
class CrossCut:
    """One crosscut of a strip.

    Attributes
    ----------
    piece_id
        None for the cut that squares the strip's start.
    stop_ticks
        Where the cut is, measured from the strip's squared start along the piece's long edge; for a squaring cut from
        the raw end.
    cut, end
        A square cut or a mitre, at the piece's start or end as it lies in the strip.
    raw_end
        The end of the strip that is its start, as it lay in the top ("west", "south"); "" for a board.
    """

    lane_id: str
    piece_id: str | None
    stop_ticks: int
    length_ticks: int
    cut: EndCut
    end: Literal["start", "end"]
    turned: bool
    raw_end: str
    held: str


def fence_rips(sticks: Sequence[Stick], pieces: Sequence[Piece]) -> tuple[FenceRip, ...]:
    """Rips of the boards that the plan uses, in order; a board that is a strip as it is needs none."""
    used = {piece.lane_id for piece in pieces}
    found = []
    for stick in sticks:
        lanes = [lane for lane in stick.lanes if lane.id in used]
        if stick.source == "offcut" or not lanes:
            continue
        waste = stick.edge_waste_ticks
        if waste:
            wide = stick.width_ticks - waste
            found.append(FenceRip(stick.id, None, wide, stick.length_ticks, how_ripped(wide)))
        found += [
            FenceRip(stick.id, lane.id, lane.width_ticks, stick.length_ticks, how_ripped(lane.width_ticks))
            for lane in lanes
            if waste or lane.width_ticks != stick.width_ticks
        ]
    return tuple(found)


def crosscuts(sticks: Sequence[Stick], pieces: Sequence[Piece]) -> tuple[CrossCut, ...]:
    """Crosscuts of all strips in use, in order: the squaring cut, then piece after piece from the start.

    A mitred piece that does not nest with its neighbour is first cut square to its long edge, then mitred; two nested
    pieces share one mitre. A piece that ends square where its strip ends needs no cut there.
    """
    found: list[CrossCut] = []
    for stick in sticks:
        raw_end = ends_of(stick.side)[0] if stick.side else ""
        for lane in stick.lanes:
            here = sorted((p for p in pieces if p.lane_id == lane.id), key=lambda p: p.lane_start_ticks)
            if here:
                found += _of_lane(lane, here, raw_end)
    return tuple(found)


def _of_lane(lane: Lane, here: Sequence[Piece], raw_end: str) -> list[CrossCut]:
    raw_length = lane.length_ticks + lane.trim_end_ticks
    found = []
    if lane.trim_start_ticks:
        held = how_held(raw_length, raw_length)
        found.append(
            CrossCut(
                lane.id, None, lane.trim_start_ticks, raw_length, "square", "start", False, raw_end, held
            )
        )
    nests = [a.lane_start_ticks + a.length_ticks > b.lane_start_ticks for a, b in pairwise(here)]
    for piece, shared, shares in zip(here, [False, *nests], [*nests, False], strict=True):
        start, end = piece.lane_start_ticks, piece.lane_start_ticks + piece.length_ticks
        near, far = (piece.end_cut, piece.start_cut) if piece.turned else (piece.start_cut, piece.end_cut)
        rest = raw_length - end
        cuts: list[tuple[int, EndCut, Literal["start", "end"]]] = []
        if rest and not (far == "mitre" and shares):
            cuts.append((end, "square", "end"))
        if near == "mitre" and not shared:
            cuts.append((start, "mitre", "start"))
        if far == "mitre":
            cuts.append((end, "mitre", "end"))
        held = how_held(piece.length_ticks, piece.length_ticks + rest)
        found += [
            CrossCut(lane.id, piece.id, stop, piece.length_ticks, cut, which, piece.turned, raw_end, held)
            for stop, cut, which in cuts
        ]
    return found


def how_ripped(width: int) -> str:
    """How a strip so wide is ripped on the fence."""
    return PUSHED if width < PUSH_STICK_WIDTH else FENCE


def how_held(piece: int, strip: int) -> str:
    """How a piece is crosscut: by hand only where both it and the strip it is cut from are long enough."""
    return BY_HAND if min(piece, strip) >= HELD_LENGTH else CLAMPED
