"""``cuts``: every cut in the order of work: panel cuts, strips from boards, crosscuts."""

from __future__ import annotations

from collections.abc import Iterator

from edgewright.cli.table import Column, Row, Table, length, lengths, numbers, table, texts
from edgewright.cutlist.bench_cuts import CrossCut, FenceRip
from edgewright.cutlist.model import SawCut
from edgewright.cutlist.plan import Plan
from edgewright.cutlist.shown_cuts import shown_cut
from edgewright.cutlist.shown_lanes import ShownLane, lanes_of, shown_lane, stop_text
from edgewright.display import show_ticks
from edgewright.units import Units

__all__ = ["attached_words", "cut_columns", "cuts_table", "measured_words", "operation_words"]


def cut_columns(units: Units) -> tuple[tuple[Column, ...], ...]:
    """Columns of the cut list."""
    return (
        numbers("step"),
        texts("operation", "side_or_strip", "measured_from"),
        lengths(units, "keep_line", "kerf_from", "kerf_to"),
        texts("guide_side"),
        lengths(units, "guide_at"),
        texts("gives"),
        lengths(units, "width", "length"),
        texts("held", "plan_code"),
    )


def cuts_table(plan: Plan) -> Table:
    """The cut list of a plan that is ready; steps are numbered on from the cuts already made.

    Raises
    ------
    ValueError
        For a plan that is not ready: nobody must cut by it.
    """
    if not plan.ready:
        raise ValueError("a plan that is NOT FOR CUTTING has no cut list")
    made = 0 if plan.cut_plan.as_cut is None else plan.cut_plan.as_cut.cuts_made
    steps = enumerate(_rows(plan), start=1 + made)
    rows = ({"step": step, **row, "plan_code": plan.code} for step, row in steps)
    return table("cuts", cut_columns(plan.job.units), rows)


def _rows(plan: Plan) -> Iterator[Row]:
    units, kerf = plan.job.units, plan.cut_plan.rules.kerf_ticks
    narrow = plan.job.saw.min_held_width.ticks_up()
    for cut in plan.cut_plan.cuts:
        yield _panel(cut, units, attached=is_attached(cut, narrow))
    for rip in plan.rips:
        yield _fence(rip, units)
    lanes = lanes_of(plan.cut_plan)
    for crosscut in plan.crosscuts:
        shown = shown_lane(plan.cut_plan, lanes[crosscut.lane_id], units)
        yield _cross(crosscut, shown, kerf, units)


def is_attached(cut: SawCut, narrow: int) -> bool:
    """Whether a cut frees a strip too narrow to be ripped once it is loose (ticks)."""
    return 0 < cut.offcut_width_ticks < narrow and not str(cut.yields or "rest of ").startswith("rest of ")


def attached_words(plan: Plan) -> str:
    """Which cuts are rips of a strip that is still attached to the panel; "" for none."""
    narrow = plan.job.saw.min_held_width.ticks_up()
    numbers = [str(cut.number) for cut in plan.cut_plan.cuts if is_attached(cut, narrow)]
    if not numbers:
        return ""
    cuts = f"Cut {numbers[0]}" if len(numbers) == 1 else f"Cuts {', '.join(numbers[:-1])} and {numbers[-1]}"
    return (
        f"{cuts}: rip while attached. These strips are narrower than "
        f"{show_ticks(narrow, plan.job.units)}: never take them from a loose offcut."
    )


def _panel(cut: SawCut, units: Units, *, attached: bool) -> Row:
    held = f"panel supported on both sides of the cut, guide clamped on the {cut.guide_side} side"
    shown = shown_cut(cut, units)
    return {
        "operation": f"{cut.kind} the panel",
        "side_or_strip": cut.side,
        "measured_from": f"{cut.datum_edge} {cut.datum} edge",
        **length("keep_line", cut.keep_ticks, units, shown.keep),
        **length("kerf_from", cut.keep_ticks, units, shown.keep),
        **length("kerf_to", cut.kerf_end_ticks, units, shown.kerf_end),
        "guide_side": cut.guide_side,
        **length("guide_at", cut.guide_ticks, units, shown.guide),
        "gives": cut.yields or "",
        **length("width", cut.offcut_width_ticks, units, shown.width or None),
        **length("length", cut.offcut_length_ticks, units),
        "held": f"rip while attached: {held}" if attached else held,
    }


def _fence(rip: FenceRip, units: Units) -> Row:
    return {
        "operation": "rip a board on the fence"
        if rip.lane_id
        else "rip the old edge off, wide part to the fence",
        "side_or_strip": rip.stick_id,
        "measured_from": "fence",
        "gives": rip.lane_id or "a clean edge, later turned to the fence",
        **length("width", rip.fence_ticks, units),
        **length("length", rip.length_ticks, units),
        "held": rip.held,
    }


def operation_words(cut: CrossCut) -> str:
    """What one crosscut does."""
    if cut.piece_id is None:
        return "square the start"
    if cut.cut == "square":
        return "crosscut square"
    return f"mitre the {cut.end} at 45°" + (", strip turned end for end" if cut.turned else "")


def measured_words(cut: CrossCut) -> str:
    """What a crosscut is measured from, with the end of the strip as it lay in the top."""
    end = f"{cut.raw_end} end" if cut.raw_end else "end"
    return f"{end} of the strip as ripped" if cut.piece_id is None else f"squared {end} of the strip"


def _cross(cut: CrossCut, shown: ShownLane, kerf: int, units: Units) -> Row:
    row = {
        "operation": operation_words(cut),
        "side_or_strip": cut.lane_id,
        "measured_from": measured_words(cut),
        **length("keep_line", cut.stop_ticks, units, stop_text(shown, cut, units)),
        "gives": cut.piece_id or "",
        **length("length", cut.length_ticks, units),
        "held": cut.held,
    }
    if cut.piece_id is not None and cut.cut == "square":
        # a mitre's kerf runs slantwise, and that of a squaring cut lies before its keep line
        part = shown.part(cut.piece_id)
        row |= length("kerf_from", cut.stop_ticks, units, part.end_text(units))
        row |= length("kerf_to", cut.stop_ticks + kerf, units, shown.kerf_end(part, kerf, units))
    return row
