"""The summary on the terminal. While a stop is open it holds no figure that one could cut by."""

from __future__ import annotations

from collections.abc import Iterator

from edgewright.cautions import CAUTIONS
from edgewright.cli.as_cut_rows import as_cut_rows
from edgewright.cli.plan_json import status_of
from edgewright.cli.summary_cuts import board_lines, cut_lines, hand_lines, stop_lines, strip_lines
from edgewright.cli.summary_given import default_lines, given_lines
from edgewright.cli.text import heading, paragraph, rows, ticks_in_words
from edgewright.compass import SIDES
from edgewright.cutlist.model import Stage
from edgewright.cutlist.plan import Plan
from edgewright.cutlist.takeoff import Takeoff
from edgewright.cutlist.takeoff_text import quantity_text, shown_rows
from edgewright.design.form_words import arris_name
from edgewright.display import show_area, show_decimal, show_mm, show_ticks, shown_edge_areas
from edgewright.findings import Finding, Severity
from edgewright.ticks import TICK_MM
from edgewright.units import Units

__all__ = [
    "NOT_FOR_CUTTING",
    "caution_lines",
    "edge_figures_rows",
    "finding_lines",
    "quantity_lines",
    "stage_words",
    "summary",
    "verdict_lines",
]

NOT_FOR_CUTTING = "NOT FOR CUTTING"
#: Stages whose value is cents.
MONEY = ("new material cost", "cost with labour")
_WORDS: dict[Severity, str] = {"stop": "stops", "warn": "warnings", "note": "notes"}


def summary(plan: Plan, width: int, written: str = "") -> str:
    """Write the whole summary as plain text, wrapped to ``width`` columns; ``written`` says which files are."""
    return "\n".join(_lines(plan, width, written))


def _lines(plan: Plan, width: int, written: str) -> Iterator[str]:
    yield from paragraph(plan.job.info.title, width)
    revision = f", revision {plan.job.info.revision}" if plan.job.info.revision else ""
    date = f", {plan.job.info.date}" if plan.job.info.date else ""
    yield from paragraph(f"plan {plan.code}{revision}{date}: {status_of(plan)}", width)
    yield from _size_lines(plan, width)
    yield from given_lines(plan, width)
    if plan.ready:
        yield from cut_lines(plan, width)
        yield from board_lines(plan, width)
        yield from strip_lines(plan, width)
        yield from hand_lines(plan, width)
        yield from stop_lines(plan, width)
        yield from _proof_lines(plan, width)
    yield from _trial_lines(plan, width)
    yield from _edge_lines(plan, width)
    yield from quantity_lines(plan.takeoff, plan.job.units, width)
    yield from finding_lines(plan.findings, width)
    yield from default_lines(plan.job, width)
    if plan.ready:
        yield from caution_lines(width)
    yield ""
    yield from paragraph(written, width)
    yield from verdict_lines(plan, width)


def _size_lines(plan: Plan, width: int) -> list[str]:
    design, units = plan.design, plan.job.units
    sizes = design.sizes

    def size(pair: tuple[int, int]) -> str:
        return " x ".join(show_ticks(ticks, units) for ticks in pair)

    off = [f"{show_ticks(sizes.amounts[side], units)} {side}" for side in SIDES if sizes.amounts[side]]
    cut_plan = plan.cut_plan
    layers = f"{plan.job.edge.layers} layer{'s' * (plan.job.edge.layers > 1)}"
    return heading("sizes, length x width") + rows(
        [
            ("old", f"{size(sizes.old)}, {show_mm(design.thickness_mm, units)} thick"),
            ("comes off", ", ".join(off) + " (kerf included)" if off else "nothing"),
            *as_cut_rows(plan),
            ("finished", f"{size(sizes.finished)}, edge {show_mm(design.edge_thickness_mm, units)} thick"),
            (
                "strips",
                f"{show_ticks(cut_plan.strip_width_ticks, units)} wide, {layers}, corners {cut_plan.corners}",
            ),
        ],
        width,
    )


def _proof_lines(plan: Plan, width: int) -> list[str]:
    lines = heading("why this plan is the best")
    for stage in plan.cut_plan.stages:
        name, figure, proof = stage_words(stage, plan.job.units)
        lines += paragraph(f"{name} {figure}: {proof}", width, 2, 6)
    return lines


def stage_words(stage: Stage, units: Units, *, areas: bool = False) -> tuple[str, str, str]:
    """Name of a stage, its figure, and what is proven about it; ``areas`` where remnants are compared by area."""

    def figure(value: int) -> str:
        if stage.name in MONEY:
            return f"{value / 100:.2f}"
        if stage.name == "largest remnant":
            return show_area(value * TICK_MM**2, units) if areas else show_ticks(value, units)
        return str(value)

    why = ticks_in_words(stage.why, units)
    known = f" ({why})" if why else ""
    if stage.proven:
        proof = f"proven, {why}"
    elif stage.bound is None:
        proof = f"the best found, not proven{known}"
    else:
        bound = "at most" if stage.name == "largest remnant" else "at least"
        proof = f"the best found, {bound} {figure(stage.bound)} is possible{known}"
    return stage.name, figure(stage.value), proof


def _trial_lines(plan: Plan, width: int) -> list[str]:
    if plan.job.edge.strip_width != "widest":
        return []
    lines = heading("widest strip: each width tried")
    for trial in plan.cut_plan.trials:
        strips = f"{trial.lanes} strip{'s' * (trial.lanes != 1)} to be had"
        words = f"{show_ticks(trial.strip_width_ticks, plan.job.units)}, {strips}: {trial.reason}"
        lines += paragraph(words, width, 2, 6)
    return lines


def edge_figures_rows(plan: Plan) -> list[tuple[str, str]]:
    """Figures of the routed edge; none where no such profile exists."""
    metrics, units = plan.design.metrics, plan.job.units
    if metrics is None or plan.design.profile is None:
        return []
    above, below = plan.design.profile.top, plan.design.profile.bottom
    zones = metrics.top_round_over_mm2, metrics.flat_mm2, metrics.bottom_round_over_mm2
    (top, flat, bottom), in_all = shown_edge_areas(zones, units)
    return [
        ("perimeter", show_decimal(metrics.perimeter_mm, units)),
        ("profile length", show_decimal(metrics.profile_length_mm, units)),
        (f"top {arris_name(above)}", top),
        ("flat", flat),
        (f"bottom {arris_name(below)}", bottom),
        ("edge in all", in_all),
        ("flat top", show_area(metrics.flat_top_mm2, units)),
    ]


def _edge_lines(plan: Plan, width: int) -> list[str]:
    figures = edge_figures_rows(plan)
    return heading("edge") + rows(figures, width) if figures else []


def quantity_lines(takeoff: Takeoff | None, units: Units, width: int) -> list[str]:
    """List the totals of a bill and how to read them; nothing without a bill."""
    if takeoff is None:
        return []
    pairs = []
    for row in shown_rows(takeoff, units):
        if row.item == "total":
            buy = f"; {row.reason}" if row.reason else ""
            pairs.append((row.group, quantity_text(row) + buy))
    lines = heading("quantities, expected (low to high)") + rows(pairs, width)
    for note in takeoff.notes:
        lines += paragraph(note, width, 2)
    return lines


def finding_lines(findings: tuple[Finding, ...], width: int) -> list[str]:
    """List findings by severity, each with its number, figures and what to change."""
    lines: list[str] = []
    for severity, word in _WORDS.items():
        group = [finding for finding in findings if finding.severity == severity]
        if group:
            lines += heading(word)
        for finding in group:
            lines += paragraph(
                f"{finding.number} {finding.title}, {finding.place}: {finding.figures}", width, 2, 6
            )
            if finding.overridden is not None:
                lines += paragraph(f"overridden: {finding.overridden}", width, 6)
            else:
                lines += paragraph(f"to change: {finding.change}", width, 6)
    return lines


def caution_lines(width: int) -> list[str]:
    """Say in short what to beware of: the saw in full, of the others the first sentence."""
    lines = heading("cautions")
    for caution in CAUTIONS:
        text = caution.text if caution.topic == "saw" else caution.text.partition(". ")[0].rstrip(".") + "."
        lines += paragraph(f"{caution.topic}: {text}", width, 2, 6)
    words = "Local codes, the manuals of the tools and the data sheets of the products have the last word."
    return lines + paragraph(words, width, 2)


def verdict_lines(plan: Plan, width: int) -> list[str]:
    """End with ready, or with why not and NOT FOR CUTTING."""
    if plan.ready:
        return paragraph(
            f"Ready: plan {plan.code} passed the independent checker, and no stop is open.", width
        )
    lines = []
    shortage = plan.cut_plan.shortage
    if shortage is not None:
        words = ticks_in_words(shortage.sentence, plan.job.units)
        lines += paragraph(f"No plan: {words}.", width) + paragraph(shortage.buy_sentence, width)
    stops = [str(f.number) for f in plan.findings if f.severity == "stop" and f.overridden is None]
    if stops:
        lines += paragraph(f"Open stop{'s' * (len(stops) > 1)}: {', '.join(stops)}.", width)
    return [*lines, NOT_FOR_CUTTING]
