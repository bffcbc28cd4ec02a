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

__all__ = ["gathered", "inwards", "lane_rests", "lay_pieces", "remnants", "ripped_strips"]


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


def gathered(pieces: Sequence[Piece], sticks: Sequence[Stick]) -> tuple[Piece, ...]:
    """Empty strips into free lanes of strips that are in use anyway, so that fewer strips are ripped.

    Only defects leave a strip several lanes; the planner counts lanes. All pieces of a lane go to one other lane of the
    same grain that is long enough, the shortest such; a strip is emptied wholly or not at all.
    """
    if all(len(strip) == 1 for stick in sticks for strip in stick.strips):
        return tuple(pieces)
    at = {piece.id: piece.lane_id for piece in pieces}
    lane_of = {lane.id: lane for stick in sticks for lane in stick.lanes}
    grain = {lane.id: stick.grain for stick in sticks for lane in stick.lanes}
    end = {piece.id: piece.lane_start_ticks + piece.length_ticks for piece in pieces}
    for strip in [strip for stick in sticks for strip in stick.strips]:
        own = {lane.id for lane in strip}
        used = set(at.values())
        in_use = {lane_of[name].strip for name in used}
        free = [
            lane
            for lane in sorted(lane_of.values(), key=lambda lane: lane.length_ticks)
            if lane.strip in in_use and lane.id not in used and lane.id not in own
        ]
        moved: dict[str, str] = {}
        for name in sorted(own & used):
            reach = max(end[piece] for piece, lane in at.items() if lane == name)
            found = next((n for n in free if n.length_ticks >= reach and grain[n.id] == grain[name]), None)
            if found is None:
                break
            free.remove(found)
            moved[name] = found.id
        else:
            at = {piece: moved.get(lane, lane) for piece, lane in at.items()}
    order = {name: n for n, name in enumerate(lane_of)}
    drawn = [replace(piece, lane_id=at[piece.id]) for piece in pieces]
    return tuple(sorted(drawn, key=lambda piece: order[piece.lane_id]))


def inwards(pieces: Sequence[Piece], sticks: Sequence[Stick]) -> tuple[Piece, ...]:
    """Draw pieces to the inner strips of each stick, so that few strips are ripped only to be passed over.

    Strips are listed as they are ripped, offcuts from the finished edge outwards. Without defects strips never get
    longer outwards, so whatever fits a strip fits one further in. With defects a strip's pieces are moved only where
    each of its lanes finds one at least as long as its pieces take, and where no longer lane is cut up for it.
    """
    moved: dict[str, str] = {}
    for stick in sticks:
        if stick.source == "offcut" or stick.defects:
            moved |= _moved_in(pieces, stick)
    order = {lane.id: n for n, lane in enumerate(lane for stick in sticks for lane in stick.lanes)}
    drawn = [replace(piece, lane_id=moved.get(piece.lane_id, piece.lane_id)) for piece in pieces]
    return tuple(sorted(drawn, key=lambda piece: order[piece.lane_id]))


def _moved_in(pieces: Sequence[Piece], stick: Stick) -> dict[str, str]:
    """Which lanes of a stick give their pieces to which lanes further in."""
    reach: dict[str, int] = {}
    for piece in pieces:
        reach[piece.lane_id] = max(reach.get(piece.lane_id, 0), piece.lane_start_ticks + piece.length_ticks)
    lengths = [lane.length_ticks for lane in stick.lanes]
    in_order = len(stick.strips) == len(lengths) and lengths == sorted(lengths, reverse=True)
    moved: dict[str, str] = {}
    free: list[tuple[Lane, ...]] = []
    for strip in stick.strips:
        taken = sorted((lane for lane in strip if lane.id in reach), key=lambda lane: -reach[lane.id])
        if taken:
            for inner in free:
                longest = sorted(inner, key=lambda lane: -lane.length_ticks)[: len(taken)]
                spares = in_order or max(n.length_ticks for n in strip) >= longest[0].length_ticks
                if (
                    spares
                    and len(longest) == len(taken)
                    and all(
                        reach[lane.id] <= there.length_ticks
                        for lane, there in zip(taken, longest, strict=True)
                    )
                ):
                    moved |= {lane.id: there.id for lane, there in zip(taken, longest, strict=True)}
                    free.remove(inner)
                    break
            else:
                continue
        free.append(strip)
    return moved


def ripped_strips(stick: Stick, used: frozenset[str]) -> tuple[tuple[Lane, ...], ...]:
    """Strips of a board that are ripped: those in use; where defects tell strips apart, all up to the last in use."""
    in_use = [n for n, strip in enumerate(stick.strips) if any(lane.id in used for lane in strip)]
    if stick.defects:
        return stick.strips[: max(in_use, default=-1) + 1]
    return tuple(stick.strips[n] for n in in_use)


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
        if stick.source == "offcut":
            ripped = tuple(
                strip for strip in stick.strips if strip[0].strip in freed or any(n.id in used for n in strip)
            )
        else:
            ripped = ripped_strips(stick, used)
            if not ripped:
                continue
        found += [
            Remnant(f"rest of {lane.id}", stick.id, rests[lane.id], lane.width_ticks)
            for strip in ripped
            for lane in strip
            if lane.id in rests
        ]
        if stick.source != "offcut":
            width = stick.width_ticks - stick.edge_waste_ticks
            width -= sum(strip[0].width_ticks + rules.kerf_ticks for strip in ripped)
            if width > 0:
                found.append(Remnant(f"rest of {stick.id}", stick.id, stick.length_ticks, width))
    for cut in cuts:
        if cut.yields is not None and cut.yields.startswith("rest of "):
            stick_id = f"offcut {cut.side}"
            found.append(Remnant(cut.yields, stick_id, cut.offcut_length_ticks, cut.offcut_width_ticks))
    lanes = {lane.id: lane for stick in sticks for lane in stick.lanes}
    for strip in () if as_cut is None else as_cut.loose:
        in_use = [lanes[name] for name in strip.lanes if name in used]
        width = strip.width_ticks - sum(lane.width_ticks + rules.kerf_ticks for lane in in_use)
        if width > 0:
            name = f"rest of {strip.id}" if in_use else strip.id
            found.append(Remnant(name, f"offcut {strip.side}", strip.length_ticks, width))
    return tuple(found)
