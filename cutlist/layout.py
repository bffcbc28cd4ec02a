"""Lay segments along their lanes: pieces with positions, kerfs and turned mitres, and the remnants."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from edgewright.cutlist.fill import Segment
from edgewright.cutlist.model import (
    EndCut,
    Lane,
    PanelAsCut,
    Piece,
    PlanRules,
    Remnant,
    RingSide,
    SawCut,
    Stick,
)

__all__ = ["inwards", "lane_rests", "lay_pieces", "remnants"]


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


def inwards(pieces: Sequence[Piece], sticks: Sequence[Stick]) -> tuple[Piece, ...]:
    """Draw the pieces of each offcut to its inner lanes, so that no strip is ripped only to be passed over.

    Lanes are listed from the finished edge outwards and never get longer, so whatever fits a lane fits one further in.
    """
    used = {piece.lane_id for piece in pieces}
    moved: dict[str, str] = {}
    for stick in sticks:
        if stick.source == "offcut":
            taken = [lane.id for lane in stick.lanes if lane.id in used]
            moved |= {old: lane.id for old, lane in zip(taken, stick.lanes, strict=False)}
    order = {lane.id: n for n, lane in enumerate(lane for stick in sticks for lane in stick.lanes)}
    drawn = [replace(piece, lane_id=moved.get(piece.lane_id, piece.lane_id)) for piece in pieces]
    return tuple(sorted(drawn, key=lambda piece: order[piece.lane_id]))


def lane_rests(sticks: Sequence[Stick], pieces: Sequence[Piece], rules: PlanRules) -> dict[str, int]:
    """What is left of each lane of own sticks and of boards bought, ticks: its end behind the last kerf, or all."""
    used = {piece.lane_id for piece in pieces}
    rests = {}
    for stick in sticks:
        if stick.source == "for sale" and not any(lane.id in used for lane in stick.lanes):
            continue
        for lane in stick.lanes:
            ends = [p.lane_start_ticks + p.length_ticks for p in pieces if p.lane_id == lane.id]
            rest = lane.length_ticks - max(ends) - rules.kerf_ticks if ends else lane.length_ticks
            if rest > 0:
                rests[lane.id] = rest
    return rests


def remnants(
    sticks: Sequence[Stick],
    pieces: Sequence[Piece],
    cuts: Sequence[SawCut],
    rules: PlanRules,
    as_cut: PanelAsCut | None = None,
) -> tuple[Remnant, ...]:
    """What goes back to the rack: lane ends, spare strips, the rest of an offcut and of each board touched.

    Of what came off in cuts already made a piece that is not used goes back whole.
    """
    used = frozenset(piece.lane_id for piece in pieces)
    rests = lane_rests(sticks, pieces, rules)
    freed = {cut.yields: cut for cut in cuts}
    found = []
    for stick in sticks:
        ripped = [lane for lane in stick.lanes if lane.id in used or lane.id in freed]
        if stick.source != "offcut" and not ripped:
            continue
        found += [
            Remnant(f"rest of {lane.id}", stick.id, rests[lane.id], lane.width_ticks)
            for lane in ripped
            if lane.id in rests
        ]
        if stick.source != "offcut":
            width = stick.width_ticks - sum(lane.width_ticks + rules.kerf_ticks for lane in ripped)
            if width > 0:
                found.append(Remnant(f"rest of {stick.id}", stick.id, stick.length_ticks, width))
    for cut in cuts:
        if cut.yields is not None and cut.yields.startswith("rest of "):
            stick_id = f"offcut {cut.side}"
            found.append(Remnant(cut.yields, stick_id, cut.offcut_length_ticks, cut.offcut_width_ticks))
    lanes = {lane.id: lane for stick in sticks for lane in stick.lanes}
    for strip in () if as_cut is None else as_cut.loose:
        ripped = [lanes[name] for name in strip.lanes if name in used]
        width = strip.width_ticks - sum(lane.width_ticks + rules.kerf_ticks for lane in ripped)
        if width > 0:
            name = f"rest of {strip.id}" if ripped else strip.id
            found.append(Remnant(name, f"offcut {strip.side}", strip.length_ticks, width))
    return tuple(found)
