"""The part of the summary that one cuts by: panel cuts, boards, strips, how pieces are held."""

from __future__ import annotations

from collections import Counter

from edgewright.cli.cuts_table import attached_words
from edgewright.cli.text import heading, paragraph, rows
from edgewright.compass import ends_of
from edgewright.cutlist.bench_cuts import CrossCut
from edgewright.cutlist.model import Lane, Piece, SawCut
from edgewright.cutlist.plan import Plan
from edgewright.cutlist.sequence import fence_settings
from edgewright.cutlist.shown_cuts import shown_cut
from edgewright.cutlist.shown_lanes import ShownLane, shown_lane
from edgewright.cutlist.trial_cut import ENOUGH_TO_STOP, trial_cut_question
from edgewright.display import show_ticks
from edgewright.units import Units

__all__ = ["board_lines", "cut_lines", "hand_lines", "stop_lines", "strip_lines"]

_MITRED = ("", ", one end mitred", ", both ends mitred")


def cut_lines(plan: Plan, width: int) -> list[str]:
    """List the cuts through the panel in order; say where the datum hands over."""
    if not plan.cut_plan.cuts:
        return []
    shoe = f"{plan.job.saw.shoe_side} side of the shoe"
    lines = heading("saw cuts through the panel, in order")
    handed: set[str] = set()
    asked = trial_cut_question(plan)
    for cut in plan.cut_plan.cuts:
        if asked is not None and cut.number == asked.cut:
            planned = ", ".join(f"{name} {figure}" for name, figure in asked.planned)
            words = f"Before cut {cut.number} measure on the test cut: {planned} as planned. {ENOUGH_TO_STOP}"
            lines += paragraph(words, width, 2)
        if cut.datum_edge == "fresh" and cut.datum not in handed:
            handed.add(cut.datum)
            words = f"From here measure from the fresh {cut.datum} edge: the old one is cut off."
            lines += paragraph(words, width, 2)
        first = (
            f"{cut.number}. {cut.kind}, {cut.side} side, measured from the {cut.datum_edge} {cut.datum} edge"
        )
        lines += paragraph(first, width, 2, 5)
        lines += rows(_cut_rows(cut, shoe, plan.job.units), width, 5)
    loose = attached_words(plan)
    return lines + (paragraph(loose, width, 2) if loose else [])


def _cut_rows(cut: SawCut, shoe: str, units: Units) -> list[tuple[str, str]]:
    shown = shown_cut(cut, units)
    if shown.width:
        gives = f", gives {cut.yields}" if cut.yields else ""
        offcut = f"{shown.width} x {show_ticks(cut.offcut_length_ticks, units)}{gives}"
    else:
        offcut = "none: a skim cut, the blade runs partly beside the wood"
    offset = show_ticks(cut.guide_offset_ticks, units)
    return [
        ("keep line", shown.keep),
        ("kerf", f"{shown.kerf}, from {shown.keep} to {shown.kerf_end}"),
        (
            "guide at",
            f"{shown.guide}, on the {cut.guide_side} side (offset {offset}, {shoe})",
        ),
        ("offcut", offcut),
    ]


def board_lines(plan: Plan, width: int) -> list[str]:
    """Boards to buy, and strips to rip from boards on the fence."""
    units = plan.job.units
    used = {piece.lane_id for piece in plan.cut_plan.pieces}
    bought = [
        stick
        for stick in plan.cut_plan.sticks
        if stick.source == "for sale" and any(lane.id in used for lane in stick.lanes)
    ]
    lines = []
    if bought:
        kinds = Counter((s.name, s.length_ticks, s.width_ticks, s.price_cents) for s in bought)
        pairs = [
            (
                f"{count} x {name}",
                f"{show_ticks(wide, units)} x {show_ticks(long, units)}, {cents / 100:.2f} each",
            )
            for (name, long, wide, cents), count in kinds.items()
        ]
        total = sum(stick.price_cents for stick in bought) / 100
        lines += heading("boards to buy") + rows([*pairs, ("in all", f"{total:.2f}")], width)
    settings = fence_settings(plan.rips)
    if settings:
        boards = {stick.id for stick in plan.cut_plan.sticks}
        where = "from boards" if all(rip.stick_id in boards for rip in plan.rips) else "on the fence"
        lines += heading(f"strips to rip {where}: {_counted(len(settings), 'fence setting')}")
    for setting in settings:
        lines += paragraph(f"fence at {show_ticks(setting.fence_ticks, units)}", width, 2)
        for rip in setting.rips:
            gives = (
                f"gives {rip.lane_id}"
                if rip.lane_id
                else "takes the old edge off; later turn the clean edge to the fence"
            )
            words = f"{rip.stick_id} ({show_ticks(rip.length_ticks, units)} long): {gives}; {rip.held}"
            lines += paragraph(words, width, 4, 6)
    return lines


def _counted(number: int, what: str) -> str:
    return f"{number} {what}{'s' * (number != 1)}"


def strip_lines(plan: Plan, width: int) -> list[str]:
    """Each strip with its pieces, kerfs and rest: what is printed adds up to the strip."""
    units = plan.job.units
    lines = heading("strips and their pieces")
    words = (
        "A piece is named by its side and layer (N2: north side, second layer); letters run from the west or "
        "south end. Strips are glued with the top face down: seen so, west and east trade places."
    )
    lines += paragraph(words, width, 2)
    for stick in plan.cut_plan.sticks:
        for lane in stick.lanes:
            pieces = sorted(
                (p for p in plan.cut_plan.pieces if p.lane_id == lane.id), key=lambda p: p.lane_start_ticks
            )
            if pieces:
                long = f"{show_ticks(lane.length_ticks, units)} long"
                if lane.trim_start_ticks or lane.trim_end_ticks:
                    long += " between clean ends"
                end = f", from its {ends_of(stick.side)[0]} end" if stick.side else ""
                end = ", from its marked end" if stick.defects else end
                words = f"{lane.id}: {show_ticks(lane.width_ticks, units)} wide, {long}{end}"
                lines += paragraph(words, width, 2, 6)
                first = next(other for other in stick.lanes if other.strip == lane.strip) is lane
                lines += rows(_lane_rows(plan, lane, pieces, first=first), width, 6)
    return lines


def _lane_rows(plan: Plan, lane: Lane, pieces: list[Piece], *, first: bool) -> list[tuple[str, str]]:
    pairs, units = [], plan.job.units
    if lane.trim_start_ticks:
        off = show_ticks(lane.trim_start_ticks, units)
        # what lies before a later lane of a strip is another lane and its defect
        words = (
            f"square off {off} from that end" if first else f"part the strip {off} from that end as ripped"
        )
        pairs.append(("first", words))
    shown = shown_lane(plan.cut_plan, lane, units)
    if shown.nested:
        rest = [("rest", f"{shown.rest.text(units)} behind a square cut")] if shown.rest else []
        return [*pairs, *((piece.id, _nested(piece, shown, units)) for piece in pieces), *rest]
    by_id = {piece.id: piece for piece in pieces}
    for part in shown.parts:
        found, size = by_id.get(part.name), part.text(units)
        words = size if found is None else f"{size}{_ends(found)}, ends at {part.end_text(units)}"
        pairs.append((part.name, words))
    return pairs


def _nested(piece: Piece, shown: ShownLane, units: Units) -> str:
    part = shown.part(piece.id)
    turned = ", strip turned end for end" if piece.turned else ""
    places = f"from {part.start_text(units)} to {part.end_text(units)}"
    return f"{part.text(units)} along the long edge{_ends(piece)}, {places}{turned}"


def _ends(piece: Piece) -> str:
    return _MITRED[(piece.start_cut == "mitre") + (piece.end_cut == "mitre")]


def stop_lines(plan: Plan, width: int) -> list[str]:
    """Stops of the crosscut saw: which pieces share one, long before short."""
    if not plan.stops:
        return []
    units = plan.job.units
    lines = heading(f"crosscut stops: {_counted(len(plan.stops), 'setting')}")
    words = "Each is measured from the squared end that lies against the stop. Square all starts first."
    lines += paragraph(words, width, 2)
    pairs = [
        (show_ticks(stop.stop_ticks, units), ", ".join(stop.piece_ids) + _MITRED[stop.mitres])
        for stop in plan.stops
    ]
    return lines + rows(pairs, width)


def hand_lines(plan: Plan, width: int) -> list[str]:
    """How the wood is held at each crosscut."""
    if not plan.crosscuts:
        return []
    by_hold: dict[str, list[CrossCut]] = {}
    for cut in plan.crosscuts:
        by_hold.setdefault(cut.held, []).append(cut)
    lines = heading("crosscuts: how the wood is held")
    for held, cuts in by_hold.items():
        names = ", ".join(dict.fromkeys(cut.piece_id or f"squaring {cut.lane_id}" for cut in cuts))
        lines += paragraph(f"{names}: {held}", width, 2, 6)
    return lines
