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
from edgewright.cutlist.layout import ripped_strips
from edgewright.cutlist.model import EndCut, Lane, LooseStrip, Piece, Stick
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

    ``lane_id`` is the strip that comes off. It is None for the first rip of a board with an old finished edge: that
    only takes the edge off, with the wide part against the fence; later the clean edge goes to the fence.
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
        None for the cut that squares the start of a lane, or parts it from what lies before it in its strip.
    stop_ticks
        Where the cut is, measured from the lane's squared start along the piece's long edge; for a squaring cut from
        the raw end of the strip.
    length_ticks
        Length of the piece along its long edge; for a squaring cut what lies behind it on the saw.
    cut, end
        A square cut or a mitre, at the piece's start or end as it lies in the strip.
    raw_end
        The end of the strip that is its start, as it lay in the top ("west", "south"); "marked" for a board with
        defects, "" for another.
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


def fence_rips(
    sticks: Sequence[Stick], pieces: Sequence[Piece], kerf: int, loose: Sequence[LooseStrip] = ()
) -> tuple[FenceRip, ...]:
    """Rips of the boards that the plan uses, and of what came off already; what is a strip as it is needs none.

    Each fence setting is set once for all boards: first the skims of old edges, then the strips, wide before narrow.
    A loose strip lies with its inner edge, a fresh saw cut, against the fence.
    """
    used = frozenset(piece.lane_id for piece in pieces)
    found = []
    for stick in sticks:
        strips = ripped_strips(stick, used)
        if stick.source == "offcut" or not strips:
            continue
        waste = stick.edge_waste_ticks
        if waste:
            wide = stick.width_ticks - waste
            found.append(FenceRip(stick.id, None, wide, stick.length_ticks, how_ripped(wide)))
        left = stick.width_ticks - waste
        for lane, *_ in strips:
            if waste or lane.width_ticks != left:
                found.append(
                    FenceRip(
                        stick.id,
                        lane.strip,
                        lane.width_ticks,
                        stick.length_ticks,
                        how_ripped(lane.width_ticks),
                    )
                )
            left -= lane.width_ticks + kerf
    by_id = {lane.id: lane for stick in sticks for lane in stick.lanes}
    for loose_strip in loose:
        for lane in (by_id[name] for name in loose_strip.lanes if name in used):
            wide = lane.width_ticks
            if wide != loose_strip.width_ticks:
                length = loose_strip.length_ticks
                found.append(FenceRip(loose_strip.id, lane.id, wide, length, how_ripped(wide)))
    return tuple(sorted(found, key=lambda rip: (rip.lane_id is not None, -rip.fence_ticks)))


def crosscuts(sticks: Sequence[Stick], pieces: Sequence[Piece], kerf: int) -> tuple[CrossCut, ...]:
    """Crosscuts of all strips in use, in order: the squaring cut, then piece after piece from the start.

    A strip with several lanes is parted from its far end: its last lane first, so that what is left before it keeps
    the raw end that lanes are measured from. A mitred piece that does not nest with its neighbour is first cut square
    to its long edge, then mitred; two nested pieces share one mitre. A piece that ends square where its strip ends
    needs no cut there.
    """
    in_lane: dict[str, list[Piece]] = {}
    for piece in sorted(pieces, key=lambda p: p.lane_start_ticks):
        in_lane.setdefault(piece.lane_id, []).append(piece)
    found: list[CrossCut] = []
    for stick in sticks:
        raw_end = ends_of(stick.side)[0] if stick.side else "marked" if stick.defects else ""
        for strip in stick.strips:
            wood = strip[0].raw_ticks
            for lane in reversed(strip):
                if lane.id in in_lane:
                    found += _of_lane(lane, in_lane[lane.id], wood, raw_end)
                    # its squaring cut leaves this much of the strip before it
                    wood = max(0, lane.trim_start_ticks - kerf)
    return tuple(found)


def _of_lane(lane: Lane, here: Sequence[Piece], wood: int, raw_end: str) -> list[CrossCut]:
    """Crosscuts of one lane; ``wood`` is what is left of its strip, from the raw end on."""
    found = []
    if lane.trim_start_ticks:
        behind = wood - lane.trim_start_ticks
        held = how_held(behind, behind)
        found.append(
            CrossCut(lane.id, None, lane.trim_start_ticks, behind, "square", "start", False, raw_end, held)
        )
    nests = [a.lane_start_ticks + a.length_ticks > b.lane_start_ticks for a, b in pairwise(here)]
    for piece, shared, shares in zip(here, [False, *nests], [*nests, False], strict=True):
        start, end = piece.lane_start_ticks, piece.lane_start_ticks + piece.length_ticks
        near, far = (piece.end_cut, piece.start_cut) if piece.turned else (piece.start_cut, piece.end_cut)
        rest = wood - lane.trim_start_ticks - end
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
