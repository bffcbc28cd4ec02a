"""What stands in the packet, as plain strings: the template sets them and decides nothing."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any, Final

from edgewright.cautions import CAUTIONS
from edgewright.cli.as_cut_rows import as_cut_rows
from edgewright.cli.cards import NO_CARDS, cards
from edgewright.cli.chapters import chapter, table
from edgewright.cli.customer_page import customer_data
from edgewright.cli.cuts_table import attached_words
from edgewright.cli.label_cells import label_sheet
from edgewright.cli.packet_figures import picture_figure, sheet_figures
from edgewright.cli.packet_lists import (
    crosscut_rows,
    cut_rows,
    fence_rows,
    label_cells,
    remnant_rows,
    stop_rows,
)
from edgewright.cli.printable import printable
from edgewright.cli.proof_sums import price_sum
from edgewright.cli.router_chapter import router_chapter
from edgewright.cli.summary import edge_figures_rows, stage_words
from edgewright.cutlist.check_certificate import certified_sum
from edgewright.cutlist.plan import Plan
from edgewright.cutlist.stages import plain_plan
from edgewright.cutlist.takeoff import Takeoff
from edgewright.cutlist.takeoff_text import shown_rows
from edgewright.cutlist.trial_cut import ENOUGH_TO_STOP, trial_cut_question
from edgewright.display import show_mm, show_ticks
from edgewright.findings import Finding, open_stops
from edgewright.job_any import AnyJob
from edgewright.units import Units

if TYPE_CHECKING:
    from edgewright.cutlist.shaped_plan import ShapedPlan

__all__ = ["PROOF_NOTE", "caution_rows", "packet_data", "packet_frame", "title_block"]

#: Said beside every proof on paper.
PROOF_NOTE: Final = (
    "The independent checker worked out each bound again, without the planner. All figures of the proof stand in "
    "plan.json; edgewright prove plan.json prints and checks them once more."
)
#: Letters that the narrowest field of the title block holds in a line.
_FIELD: Final = 10
_TITLES: Final = {"stop": "Stops", "warn": "Warnings", "note": "Notes"}


def packet_data(plan: Plan, paper: str, *, alone: bool = True) -> dict[str, Any]:
    """All texts, rows and figures of the packet; every value is a string, a number, a list or None.

    A job that does not stand ``alone`` goes without what its own packet has: picture, edge figures and proofs, too.
    """
    shortage = plan.cut_plan.shortage
    return packet_frame(
        plan,
        paper,
        [f"No plan: {shortage.sentence}.", shortage.buy_sentence] if shortage else [],
        alone=alone,
    ) | {
        "picture": picture_figure(plan) if alone else None,
        "sizes": _sizes(plan),
        "widths": _widths(plan) if alone else [],
        "proofs": _proofs(plan) if alone else [],
        "proof-note": PROOF_NOTE if plan.cut_plan.stages else "",
        "sheets": sheet_figures(plan, paper),
        "cuts": cut_rows(plan),
        "guide-note": _guide_note(plan),
        "rips": fence_rows(plan),
        "crosscuts": crosscut_rows(plan),
        "stops": stop_rows(plan),
        "remnants": remnant_rows(plan),
        "chapters": [
            *router_chapter(plan, paper),
            *(
                chapter("figures", (), [table("Edge figures", "", ["", ""], edge_figures_rows(plan))])
                if alone
                else ()
            ),
        ],
        "labels": label_cells(plan),
    }


def packet_frame(
    plan: Plan | ShapedPlan, paper: str, no_plan: Sequence[str] = (), *, alone: bool = True
) -> dict[str, Any]:
    """What every packet has: title, verdict, findings, quantities and cautions; all that a kind of top adds is empty.

    Parameters
    ----------
    plan
        Plan of a top of either kind.
    paper
        Name of the paper size.
    no_plan
        Sentences that tell why there is no cut plan, if there is none.
    alone
        False in the packet of a batch: cautions stand there once, quantities, cards and the customer's page in the
        job's own packet.
    """
    job, takeoff, made = (plan.job, plan.takeoff, cards(plan)) if alone else (plan.job, None, None)
    title = printable(job.info.title)
    return {
        "paper": paper,
        "units": job.units,
        "title": title,
        "short-title": title if len(title) <= 70 else title[:69] + "…",
        "heading": title,
        "code": plan.code,
        "ready": plan.ready,
        "title-block": title_block(job),
        "verdict": [] if plan.ready else [*no_plan, *_see_stops(plan.findings)],
        "picture": None,
        "sizes": [],
        "findings": _finding_groups(plan.findings),
        "widths": [],
        "proofs": [],
        "proof-note": "",
        "sheets": [],
        "cuts": [],
        "guide-note": "",
        "rips": [],
        "crosscuts": [],
        "stops": [],
        "remnants": [],
        "chapters": [],
        "quantities": _quantity_rows(takeoff, job.units),
        "buy": [[t.group, t.containers] for t in (takeoff.totals if takeoff else ()) if t.containers],
        "notes": list(takeoff.notes) if takeoff else [],
        "cautions": caution_rows() if alone else [],
        "customer": customer_data(plan, paper) if alone else None,
        "cards": made,
        "no-cards": "" if made or not alone else NO_CARDS,
        "labels": [],
        "label-size": label_sheet(job),
    }


def caution_rows() -> list[list[str]]:
    """All cautions: topic and text."""
    return [[c.topic, f"{c.text} {c.defer}"] for c in CAUTIONS]


def _see_stops(findings: tuple[Finding, ...]) -> list[str]:
    stops = sorted({stop.number for stop in open_stops(findings)})
    return [f"Open stops: {', '.join(map(str, stops))}. See below what to change."] if stops else []


def _sizes(plan: Plan) -> list[list[str]]:
    design, units, cut = plan.design, plan.job.units, plan.cut_plan
    sizes = design.sizes

    def size(pair: tuple[int, int]) -> str:
        return f"{show_ticks(pair[0], units)} x {show_ticks(pair[1], units)}"

    off = ", ".join(f"{show_ticks(n, units)} {side}" for side, n in sizes.amounts.items() if n)
    layers = plan.job.edge.layers
    return [
        [
            "old top",
            f"{size(sizes.old)}, {show_mm(design.thickness_mm, units)} thick, {plan.job.top.material}",
        ],
        ["comes off", f"{off}, kerf included" if off else "nothing"],
        *([name, words] for name, words in as_cut_rows(plan)),
        ["finished", f"{size(sizes.finished)}, edge {show_mm(design.edge_thickness_mm, units)} thick"],
        [
            "strips",
            f"{show_ticks(cut.strip_width_ticks, units)} wide, {layers} layer{'s' * (layers > 1)}, "
            f"corners {cut.corners}",
        ],
    ]


def title_block(job: AnyJob) -> list[list[str]]:
    """Caption and text of the title block's fields that a job gives; what is left out stays blank, to be written in.

    References
    ----------
    ISO 7200: legal owner, creator, approval person, revision index and date of issue. Title, identification number
    (the plan's code), document type and sheet number are set beside them.
    """
    info = job.info
    given = (
        ("owner", info.shop or "Edgewright plan"),
        ("drawn by", info.drawn_by),
        ("approved by", info.approved_by),
        ("revision", info.revision),
        ("date", info.date),
    )
    return [[caption, printable(text or "", longest_word=_FIELD)] for caption, text in given]


def _finding_groups(findings: tuple[Finding, ...]) -> list[dict[str, Any]]:
    """Findings by severity, each with its number, figures and what to change."""
    groups = []
    for severity, title in _TITLES.items():
        entries = [_finding(f) for f in findings if f.severity == severity]
        if entries:
            groups.append({"title": title, "entries": entries})
    return groups


def _finding(finding: Finding) -> dict[str, str | None]:
    return {
        "head": printable(f"{finding.number}  {finding.title}, {finding.place.replace('_', '-')}"),
        "figures": printable(finding.figures),
        "change": printable(finding.change),
        "overridden": printable(finding.overridden) if finding.overridden else None,
    }


def _widths(plan: Plan) -> list[list[str]]:
    if plan.job.edge.strip_width != "widest":
        return []
    units = plan.job.units
    return [[show_ticks(t.strip_width_ticks, units), str(t.lanes), t.reason] for t in plan.cut_plan.trials]


def _proofs(plan: Plan) -> list[list[str]]:
    """Each stage: name, figure, what is proven of it; with the short sum where that follows from prices."""
    plain = plain_plan(plan.cut_plan)
    rows = []
    for stage in plan.cut_plan.stages:
        name, figure, proof = stage_words(stage, plan.job.units)
        sums = certified_sum(plain, stage.name) if stage.value and stage.certificate is not None else None
        shown = sums is not None and sums.bound == stage.bound
        rows.append([name, figure, f"{proof}: {price_sum(sums)}" if sums is not None and shown else proof])
    return rows


def _guide_note(plan: Plan) -> str:
    saw, units = plan.design.job.saw, plan.job.units
    asked = trial_cut_question(plan)
    advice = f"Make a test cut first. {ENOUGH_TO_STOP}"
    if asked is not None:
        blanks = " and ".join(f"the {name}, measured ____________" for name, _ in asked.planned)
        advice = f"Before cut {asked.cut} write down {blanks}. {ENOUGH_TO_STOP}"
    kerf = show_ticks(plan.cut_plan.rules.kerf_ticks, units)
    offset = show_ticks(plan.cut_plan.rules.guide_offset_ticks, units)
    given = f" (given as {saw.kerf.given})" if kerf.startswith("~") else ""
    return (
        f"Kerf {kerf}{given}, guide offset {offset} to the near side of the kerf, {saw.shoe_side} side of "
        f"the shoe along the guide, guide on the {saw.guide_side} side. {advice} {attached_words(plan)}"
    ).rstrip()


def _quantity_rows(takeoff: Takeoff | None, units: Units) -> list[list[str]]:
    """Lines and totals of a bill: name, expected, low, high, unit, likely band."""
    if takeoff is None:
        return []
    rows = []
    for row in shown_rows(takeoff, units):
        total = row.item == "total"
        # a count that is known has no band
        banded = row.likely_low is not None and row.low != row.high
        likely = f"{row.likely_low} to {row.likely_high}" if banded else ""
        name = row.group.upper() if total else f"{row.group}: {row.item}"
        rows.append([name, str(row.expected), str(row.low), str(row.high), row.unit, likely])
    return rows
