"""The proof of a plan in words and sums that can be followed with a pencil."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from edgewright.cli.proof_sums import price_sum
from edgewright.cli.summary import NOT_FOR_CUTTING, stage_words
from edgewright.cli.text import heading, paragraph, ticks_in_words
from edgewright.cutlist.check_faults import PlanFault
from edgewright.cutlist.model import Stage
from edgewright.cutlist.proof import Proof, ProvenStage
from edgewright.display import show_ticks
from edgewright.units import Units

__all__ = ["fault_lines", "proof_dict", "proof_lines"]


def proof_dict(
    title: str,
    code: str,
    faults: Sequence[PlanFault],
    stages: Sequence[Stage | ProvenStage],
    shortage: bool | None,
) -> dict[str, Any]:
    """The verdict as plain data."""
    return {
        "format": "edgewright prove",
        "version": 1,
        "title": title,
        "plan_code": code,
        "accepted": not faults,
        "shortage_holds": shortage,
        "faults": [{"name": f.name, "place": f.place, "message": f.message} for f in faults],
        "stages": [
            {"name": s.name, "value": s.value, "bound": s.bound, "proven": s.proven, "why": s.why}
            for s in stages
        ],
    }


def proof_lines(
    title: str, code: str, units: Units, plan: dict[str, Any], proof: Proof, width: int
) -> list[str]:
    """Write the proof, wrapped to ``width`` columns."""
    lines = [*paragraph(title, width), *paragraph(f"plan {code}", width)]
    for stage in proof.stages:
        lines += _stage_lines(stage, plan, units, width)
    if proof.shortage is not None:
        lines += heading("no plan")
        lines += paragraph(ticks_in_words(str(plan["shortage"]["sentence"]), units), width, 2)
        held = "recomputed the same" if proof.shortage else "could not show this by itself"
        lines += paragraph(f"The independent checker {held}.", width, 2)
    lines += ["", *_verdict(plan, proof, width)]
    return lines


def _stage_lines(stage: ProvenStage, plan: dict[str, Any], units: Units, width: int) -> Iterator[str]:
    name, figure, proof = stage_words(
        Stage(stage.name, stage.value, stage.bound, stage.proven, stage.why), units
    )
    yield from heading(f"{name} {figure}")
    yield from paragraph(proof, width, 2)
    if stage.certified is None or stage.certificate is None or not stage.value:
        return
    scale, sums = stage.certificate["scale"], stage.certified
    counts = {side["id"]: side["length_ticks"] for side in plan["sides"]}
    for entry in stage.certificate["sides"]:
        held = [name for name in entry["ids"] if name in counts]
        names = ", ".join(held[:4]) + (f" and {len(held) - 4} more" if len(held) > 4 else "")
        words = f"side of {show_ticks(entry['length_ticks'], units)} ({names}): worth {entry['value'] / scale:.4f}"
        yield from paragraph(words, width, 4, 8)
    for entry in stage.certificate["lanes"]:
        words = (
            f"strip of {show_ticks(entry['length_ticks'], units)} from {entry['ids'][0]} or a stick like it: "
            f"costs {entry['value'] / scale:.4f}"
        )
        yield from paragraph(words, width, 4, 8)
    total = price_sum(sums)
    yield from paragraph(
        f"{total[:1].upper()}{total[1:]}. No set of sides that hangs together is worth more than its strips and "
        "splices cost.",
        width,
        4,
    )


def _verdict(plan: dict[str, Any], proof: Proof, width: int) -> Iterator[str]:
    if proof.faults:
        yield from fault_lines(proof.faults, width)
    elif proof.shortage is not None:
        yield NOT_FOR_CUTTING
    else:
        proven = sum(stage.proven for stage in proof.stages)
        yield from paragraph(
            f"The independent checker accepts the plan: {len(plan['pieces'])} pieces cover {len(plan['sides'])} "
            f"sides from {len(plan['sticks'])} sticks that could be used, {len(plan['cuts'])} cuts through the "
            f"panel; {proven} of {len(proof.stages)} stages are proven.",
            width,
        )


def fault_lines(faults: Sequence[PlanFault], width: int) -> Iterator[str]:
    """List the faults that the checker found, and what that means."""
    for fault in faults:
        yield from paragraph(f"FAULT {fault.name}, {fault.place}: {fault.message}", width, 0, 4)
    yield from paragraph("The independent checker refuses this plan.", width)
    yield NOT_FOR_CUTTING
