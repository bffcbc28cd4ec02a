"""``cuts.csv``: every cut in the order of work: panel cuts, strips from boards, crosscuts."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from edgewright.cli.csv_text import csv_text
from edgewright.cutlist.bench_cuts import CrossCut, FenceRip
from edgewright.cutlist.model import SawCut
from edgewright.cutlist.plan import Plan
from edgewright.display import show_ticks
from edgewright.units import Units

__all__ = ["COLUMNS", "attached_words", "cuts_csv", "exact_mm", "measured_words", "operation_words"]

COLUMNS: Final = (
    *("step", "operation", "side_or_strip", "measured_from", "keep_line", "keep_line_mm"),
    *("kerf_from", "kerf_to", "guide_side", "guide_at", "guide_at_mm", "gives"),
    *("width", "width_mm", "length", "length_mm", "held", "plan_code"),
)


def cuts_csv(plan: Plan) -> str:
    """Write the cut list of a plan that is ready.

    Returns
    -------
    str
        Steps are numbered on from the cuts already made. Lengths in the job's units with the unit behind, ``~`` in
        front of one that is rounded; columns in ``_mm`` are exact decimals. Lines end in CR LF.

    Raises
    ------
    ValueError
        For a plan that is not ready: nobody must cut by it.

    References
    ----------
    RFC 4180.
    """
    if not plan.ready:
        raise ValueError("a plan that is NOT FOR CUTTING has no cut list")
    made = 0 if plan.cut_plan.as_cut is None else plan.cut_plan.as_cut.cuts_made
    steps = enumerate(_rows(plan), start=1 + made)
    return csv_text(COLUMNS, ({"step": step, **row, "plan_code": plan.code} for step, row in steps))


def exact_mm(ticks: int) -> str:
    """Millimetres of whole ticks as an exact decimal without idle zeros."""
    whole, rest = divmod(abs(ticks) * 3125, 1_000_000)
    return ("-" if ticks < 0 else "") + f"{whole}.{rest:06d}".rstrip("0").rstrip(".")


def _rows(plan: Plan) -> Iterator[dict[str, str]]:
    units, kerf = plan.job.units, plan.cut_plan.rules.kerf_ticks
    narrow = plan.job.saw.min_held_width.ticks_up()
    for cut in plan.cut_plan.cuts:
        yield _panel(cut, units, attached=is_attached(cut, narrow))
    for rip in plan.rips:
        yield _fence(rip, units)
    for crosscut in plan.crosscuts:
        yield _cross(crosscut, kerf, units)


def _both(name: str, ticks: int, units: Units) -> dict[str, str]:
    return {name: show_ticks(ticks, units), f"{name}_mm": exact_mm(ticks)}


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


def _panel(cut: SawCut, units: Units, *, attached: bool) -> dict[str, str]:
    held = f"panel supported on both sides of the cut, guide clamped on the {cut.guide_side} side"
    return {
        "operation": f"{cut.kind} the panel",
        "side_or_strip": cut.side,
        "measured_from": f"{cut.datum_edge} {cut.datum} edge",
        **_both("keep_line", cut.keep_ticks, units),
        "kerf_from": show_ticks(cut.keep_ticks, units),
        "kerf_to": show_ticks(cut.kerf_end_ticks, units),
        "guide_side": cut.guide_side,
        **_both("guide_at", cut.guide_ticks, units),
        "gives": cut.yields or "",
        **_both("width", cut.offcut_width_ticks, units),
        **_both("length", cut.offcut_length_ticks, units),
        "held": f"rip while attached: {held}" if attached else held,
    }


def _fence(rip: FenceRip, units: Units) -> dict[str, str]:
    return {
        "operation": "rip a board on the fence"
        if rip.lane_id
        else "rip the old edge off, wide part to the fence",
        "side_or_strip": rip.stick_id,
        "measured_from": "fence",
        "gives": rip.lane_id or "a clean edge, later turned to the fence",
        **_both("width", rip.fence_ticks, units),
        **_both("length", rip.length_ticks, units),
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


def _cross(cut: CrossCut, kerf: int, units: Units) -> dict[str, str]:
    row = {
        "operation": operation_words(cut),
        "side_or_strip": cut.lane_id,
        "measured_from": measured_words(cut),
        **_both("keep_line", cut.stop_ticks, units),
        "gives": cut.piece_id or "",
        **_both("length", cut.length_ticks, units),
        "held": cut.held,
    }
    if cut.piece_id is not None and cut.cut == "square":
        # a mitre's kerf runs slantwise, and that of a squaring cut lies before its keep line
        row |= {
            "kerf_from": show_ticks(cut.stop_ticks, units),
            "kerf_to": show_ticks(cut.stop_ticks + kerf, units),
        }
    return row
