"""Lay segments along their lanes: pieces with positions, kerfs and turned mitres, and the remnants."""

from __future__ import annotations

from collections.abc import Sequence

from edgewright.cutlist.model import EndCut, Lane, Piece, PlanRules, Remnant, RingSide, Stick
from edgewright.cutlist.realise import Segment

__all__ = ["lay_pieces", "remnants"]


def lay_pieces(
    segments: Sequence[Segment],
    sides: Sequence[RingSide],
    lanes: Sequence[Lane],
    rules: PlanRules,
    strip_width: int,
) -> tuple[Piece, ...]:
    """Pieces in the order of the lanes; in a lane the longest first, from its start.

    Pieces of a side carry its name, and a letter where there are several (``N1``, or ``N1a`` and ``N1b``).
    """
    side_of = {side.id: side for side in sides}
    many = {side.id: [s for s in segments if s.side_id == side.id] for side in sides}
    pieces = []
    for lane in lanes:
        here = sorted(
            (s for s in segments if s.lane_id == lane.id), key=lambda s: (-s.length, s.side_id, s.start)
        )  # fmt: skip
        at, turned, previous_cut = 0, False, "square"
        for number, segment in enumerate(here):
            side = side_of[segment.side_id]
            row = sorted(many[side.id], key=lambda s: s.start)
            index = row.index(segment)
            start_cut: EndCut = side.end_cut if index == 0 else "square"
            end_cut: EndCut = side.end_cut if index == len(row) - 1 else "square"
            if number:
                nests = rules.nest_mitres and previous_cut == "mitre" and start_cut == end_cut == "mitre"
                turned = not turned if nests else False
                at += rules.mitre_kerf_ticks - strip_width if nests else rules.kerf_ticks
            name = side.id if len(row) == 1 else f"{side.id}{chr(ord('a') + index)}"
            pieces.append(
                Piece(name, side.id, lane.id, segment.length, segment.start, at, start_cut, end_cut, turned)
            )
            at += segment.length
            previous_cut = "mitre" if start_cut == end_cut == "mitre" else "square"
    return tuple(pieces)


def remnants(sticks: Sequence[Stick], pieces: Sequence[Piece], rules: PlanRules) -> tuple[Remnant, ...]:
    """Lane ends and unused lanes that stay, of own sticks and of the boards bought; longest first in each stick."""
    used_lanes = {piece.lane_id for piece in pieces}
    found = []
    for stick in sticks:
        if stick.source == "for sale" and not any(lane.id in used_lanes for lane in stick.lanes):
            continue
        for lane in stick.lanes:
            ends = [p.lane_start_ticks + p.length_ticks for p in pieces if p.lane_id == lane.id]
            length = lane.length_ticks - max(ends) - rules.kerf_ticks if ends else lane.length_ticks
            if length > 0:
                found.append(Remnant(f"rest of {lane.id}", stick.id, length, lane.width_ticks))
    return tuple(sorted(found, key=lambda r: (r.stick_id, -r.length_ticks, r.id)))
