"""The fill and sand card: what is filled, batches and hardener, grits, waiting times, base colour."""

from __future__ import annotations

from decimal import Decimal
from itertools import groupby
from typing import TYPE_CHECKING, Any, Final

from edgewright import trade
from edgewright.cli.card_words import (
    area_words,
    default_mark,
    marks_words,
    moment_words,
    numbered,
    short_cautions,
    temperature_words,
)
from edgewright.cutlist.batches import (
    FillerPass,
    filler_pass,
    filler_passes,
    filler_reach,
    hardener_grams,
)
from edgewright.cutlist.clock import filling_clock
from edgewright.cutlist.plan import Plan
from edgewright.cutlist.takeoff_containers import FOR_HIGH
from edgewright.cutlist.takeoff_factors import DENSITY_FILLER
from edgewright.cutlist.takeoff_ground import BASE, FILLER
from edgewright.cutlist.takeoff_lines import Takeoff
from edgewright.cutlist.takeoff_text import ShownRow, shown_rows
from edgewright.design.metrics import EdgeMetrics
from edgewright.display import rounded_parts, show_mm
from edgewright.job_any import AnyJob
from edgewright.trade import Material

if TYPE_CHECKING:
    from edgewright.cutlist.shaped_plan import ShapedPlan

__all__ = ["fill_card"]

_FACE: Final[dict[Material, str]] = {
    "plywood": "Face veneer is {veneer} mm: take off {off} mm at most, by hand, and stop before the glue line shows.",
    "mdf": "MDF: sand off the fuzz that water paint raises; seal its edges twice.",
    "particleboard": "Particleboard: sand its edges lightly, they crumble; soak them with thin resin first.",
    "solid wood": "Solid wood: sand along the grain; end grain drinks, fill it twice.",
    "laminate": "Laminate: scuff it dull with 60 to 120 grit before any coat; do not sand through it.",
}
_MOST_TICKS: Final = 8


def fill_card(plan: Plan | ShapedPlan, takeoff: Takeoff, metrics: EdgeMetrics) -> dict[str, Any]:
    """All texts of the card; every value is a string, a number or a list of them."""
    job, units = plan.job, plan.job.units
    passes = filler_passes(takeoff, job)
    rows = shown_rows(takeoff, units)
    said = _FACE[job.top.material].format(
        veneer="–".join(f"{n:g}" for n in trade.VENEER.value), off=f"{trade.VENEER_SANDING.value:g}"
    )
    return {
        "order": _order(takeoff),
        "grits": [str(grit) for grit in trade.FILL_GRITS.value],
        "face": said,
        "unit": passes[0].measure.unit,
        "where": _where(plan, takeoff, metrics, rows),
        "batches": [row for one in passes for row in _batch_rows(one)],
        "note": _note(plan, passes[0]),
        "waits": [[m.what, *moment_words(m)] for m in filling_clock()],
        "base": _base(job, rows, takeoff),
        "cautions": short_cautions("dust", "styrene", "peroxide hardener"),
    }


def _note(plan: Plan | ShapedPlan, first: FillerPass) -> str:
    job, measure, steps = plan.job, first.measure, first.batches[0]
    least, *best = trade.FILLER_TEMPERATURE.value
    reach = filler_reach(plan.design.edge_thickness_mm, steps * measure.step_mm3)
    return (
        f"A batch of {marks_words(measure, steps)} {measure.unit} reaches about {_whole_length(reach, job.units)} of "
        f"edge; mixed filler spreads for {job.coating.filler_work_time.given}{default_mark(job, 'filler_work_time')}. "
        "Weigh each batch: 2 g of hardener paste to 100 g of polyester filler, never under 1 g, never over 3 g; the "
        f"grams above take {DENSITY_FILLER.band.expected * 1000:g} g/ml (default, from memory). Filler and room at "
        f"{temperature_words((least,), job.units)} at least, best {temperature_words(tuple(best), job.units)}."
    )


def _whole_length(mm: float, units: str) -> str:
    return f"{mm / 25.4:.0f} in" if units == "in" else f"{mm / 10:.0f} cm"


def _order(takeoff: Takeoff) -> list[str]:
    coarse, middle, fine = trade.FILL_GRITS.value
    steps = ["Flush-trim the strips to the edge of the top."] if takeoff.in_group("glue") else []
    return [
        *steps,
        "Fill: edge, seams, joints, pin and screw holes.",
        f"Sand flat: {coarse}, then {middle}.",
        f"Fill again what shrank; sand {middle}, then {fine}.",
        "Rout the top edge, turn over, rout the bottom edge.",
        f"Touch up what the bit opened; edge by hand, {fine}.",
    ]


def _where(
    plan: Plan | ShapedPlan, takeoff: Takeoff, metrics: EdgeMetrics, rows: tuple[ShownRow, ...]
) -> list[list[str]]:
    """Rows: what is filled, how much there is of it, first and second pass; the last row is the total."""
    design, units, perimeter = plan.design, plan.job.units, metrics.perimeter_mm
    filler = {row.item: row.expected for row in rows if row.group == FILLER and row.item != "total"}
    lines = {line.name: line for line in takeoff.in_group(FILLER)}
    layers = [("edge of the top", design.thickness_mm)]
    if design.edge_thickness_mm > design.thickness_mm:
        layers.append(("edge of the strips", design.edge_thickness_mm - design.thickness_mm))
    found = []
    shares = [
        _shared(filler.pop(f"edge, {name} pass"), [t for _, t in layers]) for name in ("first", "second")
    ]
    for (name, thick), first, second in zip(layers, *shares, strict=True):
        size = (
            f"{show_mm(perimeter, units)} x {show_mm(thick, units)}: {area_words(perimeter * thick, units)}"
        )
        found.append([name, size, str(first), str(second)])
    for name in ("glue seams", "panel seams"):
        if name in filler:
            length = lines[name].factors[0].band.expected
            found.append([name, show_mm(length, units), str(filler.pop(name)), ""])
    if "cut-outs, first pass" in filler:
        area = lines["cut-outs, first pass"].factors[0].band.expected
        found.append(
            [
                "cut-outs",
                area_words(area, units),
                *(str(filler.pop(f"cut-outs, {n} pass")) for n in ("first", "second")),
            ]
        )
    lost = [sum((v for k, v in filler.items() if filler_pass(k) == n), Decimal(0)) for n in (1, 2)]
    found.append(["sanded off, left on the board", "", *map(str, lost)])
    columns = [sum((Decimal(row[n]) for row in found if row[n]), Decimal(0)) for n in (2, 3)]
    return [*found, *_by_the_piece(plan, takeoff), ["in all", "", *map(str, columns)]]


def _by_the_piece(plan: Plan | ShapedPlan, takeoff: Takeoff) -> list[list[str]]:
    """What is filled with a dab: joints, pins, screw holes."""
    pieces = len(plan.cut_plan.pieces if isinstance(plan, Plan) else plan.design.pieces)
    pins = takeoff.total("pins")
    rows = []
    if pieces:
        rows.append(["joints of the strips, splices too", f"{pieces}", "with the edge", ""])
    if pins is not None:
        rows.append(["pin holes, from below", f"{pins.expected:.0f}", "a dab each", ""])
    return [*rows, ["old screw holes", "count them: ______", "a dab each", ""]]


def _shared(total: Decimal, weights: list[float]) -> list[Decimal]:
    parts = [float(total) * weight / sum(weights) for weight in weights]
    return rounded_parts(parts, float(total), max(0, -int(total.as_tuple().exponent)))[0]


def _batch_rows(one: FillerPass) -> list[dict[str, Any]]:
    """Batches of one size share a row."""
    rows, first = [], 1
    for steps, same in groupby(one.batches):
        count = len(list(same))
        volume = steps * one.measure.step_mm3
        paste = hardener_grams(volume)
        rows.append(
            {
                "pass": f"pass {one.number}",
                "numbers": numbered(first, count),
                "ticks": count if count <= _MOST_TICKS else 0,
                "each": marks_words(one.measure, steps),
                "grams": f"{volume * DENSITY_FILLER.band.expected:.0f} g",
                "hardener": f"{paste.expected:.1f} g",
                "total": "",
                "range": f"{paste.low:.1f} to {paste.high:.1f} g",
            }
        )
        first += count
    total = sum(one.batches)
    rows[-1]["total"] = f"{marks_words(one.measure, total)} {one.measure.unit}"
    return rows


def _base(job: AnyJob, rows: tuple[ShownRow, ...], takeoff: Takeoff) -> dict[str, Any]:
    """Amount of each coat so that the coats add up to the bill's total."""
    coats = job.coating.base_coats
    shown = {row.item: row for row in rows if row.group == BASE}
    film, drink, tray, total = (
        shown[name] for name in ("flat and edge", "edge drinks", "roller and tray", "total")
    )
    each = float(film.expected + tray.expected) / coats
    parts = [each + float(drink.expected), *[each] * (coats - 1)]
    places = max(0, -int(total.expected.as_tuple().exponent))
    amounts, _ = rounded_parts(parts, float(total.expected), places)
    area = takeoff.in_group(BASE)[0].factors[0].band.expected
    bought = next((t.containers for t in takeoff.totals if t.group == BASE), None)
    return {
        "area": area_words(area, job.units),
        "coats": [[f"coat {n}", str(amount)] for n, amount in enumerate(amounts, 1)],
        "unit": total.unit,
        "note": (
            f"In all {total.expected} {total.unit} ({total.low} to {total.high}), thirsty edges and tray reckoned in. "
            f"Buy {(bought or '').partition(FOR_HIGH)[0]}."
        ),
    }
