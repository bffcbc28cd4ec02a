"""The pour card: checks before, what each coat takes, the batch table, and the clock after the pour."""

from __future__ import annotations

import math
from fractions import Fraction
from itertools import groupby
from typing import Any, Final

from edgewright import trade
from edgewright.cli.card_words import (
    area_words,
    default_mark,
    marks_words,
    moment_words,
    number_words,
    numbered,
    short_cautions,
    temperature_words,
)
from edgewright.cutlist.batches import CoatMix, coat_mixes
from edgewright.cutlist.clock import Moment, pour_clock
from edgewright.cutlist.mixing import mixed_density
from edgewright.cutlist.takeoff import RESIN
from edgewright.cutlist.takeoff_containers import FOR_HIGH
from edgewright.cutlist.takeoff_lines import Takeoff, TakeoffLine
from edgewright.cutlist.takeoff_resin import SEAL, STAYS
from edgewright.cutlist.takeoff_text import ShownRow, shown_rows
from edgewright.design.coating import FILL, SQUARE_FOOT
from edgewright.design.metrics import EdgeMetrics
from edgewright.job_any import AnyJob

__all__ = ["pour_card"]

#: Coats whose hours find room on one page.
_COATS: Final = 2
_MOST_TICKS: Final = 4
_ORDER: Final = (*STAYS, "drips", "bucket", "tools")


def pour_card(job: AnyJob, takeoff: Takeoff, metrics: EdgeMetrics) -> dict[str, Any]:
    """All texts of the card; every value is a string, a number, a truth or a list of them."""
    mixes = coat_mixes(takeoff, job)
    flood = [mix for mix in mixes if mix.group != SEAL]
    coats = min(len(flood), _COATS)
    names = [f"coat {n}" for n in range(1, coats + 1)]
    total = next(t for t in takeoff.totals if t.group == RESIN)
    return {
        "mix": _mix_words(job),
        "degrees": "°F" if job.units == "in" else "°C",
        "checks": _checks(job, metrics),
        "buy": f"for all coats {(total.containers or '').partition(FOR_HIGH)[0]}",
        "amounts": _amounts(job, takeoff),
        "unit": flood[0].measure.unit,
        "pot-life": _pot_life(job),
        "batches": [
            *(row for mix in mixes if mix.group == SEAL for row in _rows(job, mix, [])),
            *_rows(job, flood[0], names),
        ],
        "note": f"{_sums(mixes)} {_note(job, flood[0])}",
        "coats": coats,
        "clock": [_moment_row(moment, coats, len(flood)) for moment in pour_clock(job.coating)],
        "clock-note": _clock_note(job),
        "cautions": short_cautions("resin", "flame"),
    }


def _mix_words(job: AnyJob) -> str:
    ratio = job.coating.mix_ratio
    given = "mix_ratio" in job.coating.model_fields_set
    origin = "" if given else " (default, common practice: the data sheet comes first)"
    how = "weigh both" if ratio.by == "weight" else "in cups"
    return f"Resin A : hardener B = {ratio.given}, {how}{origin}"


def _checks(job: AnyJob, metrics: EdgeMetrics) -> list[str]:
    units, tape = job.units, metrics.perimeter_mm * 1.1
    length = f"{tape / 914.4:.1f} yd" if units == "in" else f"{tape / 1000:.1f} m"
    planned = job.coating.room_temperature
    low, high = ((t - 32) / 1.8 for t in trade.POUR_TEMPERATURE.value)
    outside = planned is not None and not low - 0.05 <= planned.celsius <= high + 0.05
    room = f"; planned {planned.given}{', OUTSIDE THAT' if outside else ''}" if planned else ""
    return [
        "Level both ways, blocked clear of the table",
        f"Water paint dry {trade.RESIN_AFTER_WATER.value} h, oil longer; since ______",
        f"Room, wood, resin {temperature_words(trade.POUR_TEMPERATURE.value, units)}{room}",
        f"Underside masked: {length} of tape; floor sheet",
        "Two marked cups a batch, parts not yet mixed",
        "Timer, flame, trowel, brush; dust off, fan off",
    ]


def _amounts(job: AnyJob, takeoff: Takeoff) -> dict[str, Any]:
    """Lines of the seal coat and of one flood coat side by side, as the bill shows them, with the totals."""
    groups = [group for group in (SEAL, "resin coat 1") if takeoff.in_group(group)]
    shown = {(row.group, row.item): row for row in shown_rows(takeoff, job.units)}
    lines = {line.name: line for group in groups for line in takeoff.in_group(group)}
    body = []
    for name in sorted(lines, key=_ORDER.index):
        cells = [_band_words(shown.get((group, name))) for group in groups]
        body.append([name, _extent(lines[name], job), *(cell for pair in cells for cell in pair)])
    totals = [_band_words(shown[group, "total"]) for group in groups]
    unit = shown[groups[-1], "total"].unit
    heads = [f"{'seal coat' if group == SEAL else 'each flood coat'}, {unit}" for group in groups]
    return {
        "header": ["", "how much", *(text for head in heads for text in (head, "from – to"))],
        "rows": body,
        "total": ["mixed, both parts", "", *(cell for pair in totals for cell in pair)],
    }


def _band_words(row: ShownRow | None) -> list[str]:
    if row is None:
        return ["", ""]
    return [str(row.expected), "" if row.low == row.high else f"{row.low} – {row.high}"]


def _extent(line: TakeoffLine, job: AnyJob) -> str:
    """Area or length that a line is reckoned from."""
    for factor in line.factors:
        size = factor.band.expected
        if factor.unit == "mm2":
            return area_words(size, job.units)
        if factor.name == "perimeter":
            return f"{size / 304.8:.1f} ft" if job.units == "in" else f"{size / 1000:.2f} m"
    return ""


def _pot_life(job: AnyJob) -> list[str]:
    minutes = Fraction(job.coating.pot_life.minutes).limit_denominator(4)
    return [number_words(minutes, "fl oz"), f"min{default_mark(job, 'pot_life')}"]


def _rows(job: AnyJob, mix: CoatMix, coats: list[str]) -> list[dict[str, Any]]:
    """Batches of one coat, those of one size in a row, then what is held ready; without ``coats`` the seal coat."""
    rows, measure = [], mix.measure
    for spare, batches in ((False, mix.batches), (True, mix.reserve)):
        first = 1
        for steps, same in groupby(batches):
            count = len(list(same))
            ticks = [name * (len(coats) > 1) for name in coats or [""] for _ in range(count)]
            a, b = _weighed(job, mix, steps)
            rows.append(
                {
                    "coat": ("each flood coat" if coats else "seal coat") + _cup_words(mix, steps),
                    "name": "reserve" if spare else f"batch {numbered(first, count)}",
                    "spare": spare,
                    "ticks": ticks if len(ticks) <= _MOST_TICKS else [],
                    "tally": f"{count} a coat; tally:",
                    "total": marks_words(measure, steps * (measure.a + measure.b)),
                    "a": marks_words(measure, steps * measure.a),
                    "b": marks_words(measure, steps * measure.b),
                    "a-weighed": a,
                    "b-weighed": b,
                    "tint": _tint(job, mix, steps) if coats else "",
                }
            )
            first += count
    return rows


def _cup_words(mix: CoatMix, steps: int) -> str:
    """Size that a cup must have to be three quarters full."""
    if mix.measure.unit == "g":
        return ""
    mixed = float(mix.measure.mark * steps * (mix.measure.a + mix.measure.b))
    return f", cup {math.ceil(mixed / FILL - 1e-9)}"


def _weighed(job: AnyJob, mix: CoatMix, steps: int) -> tuple[str, str]:
    """Grams of both parts for a check on the scale, where the job gives both densities."""
    a, b = job.coating.density_a, job.coating.density_b
    if mix.measure.unit == "g" or a is None or b is None:
        return "", ""
    ml = steps * mix.measure.mark_mm3 / 1000
    return f"{ml * mix.measure.a * a.g_per_ml:.0f} g", f"{ml * mix.measure.b * b.g_per_ml:.0f} g"


def _tint(job: AnyJob, mix: CoatMix, steps: int) -> str:
    """Grams of colour in a batch, or the most it may take where the job gives none."""
    given = job.coating.tint_percent
    if given == 0:
        return ""
    if mix.measure.unit == "g":
        grams = float(mix.measure.mark * steps * (mix.measure.a + mix.measure.b))
    else:
        grams = steps * mix.measure.step_mm3 / 1000 * mixed_density(job.coating)[0].expected
    share = trade.TINT_CAP.value if given is None else given
    figure = number_words(Fraction(math.floor(grams * share / 10 + 1e-9), 10), "g")
    return f"{figure} g" if given is not None else f"≤ {figure} g"


def _sums(mixes: tuple[CoatMix, ...]) -> str:
    """What the batches of each kind of coat come to."""
    said = []
    for mix in {mix.group == SEAL: mix for mix in mixes}.values():
        each = mix.measure.a + mix.measure.b
        mixed, spare = (marks_words(mix.measure, sum(part) * each) for part in (mix.batches, mix.reserve))
        reserve = f", reserve {spare}" if mix.reserve else ""
        said.append(
            f"{'seal coat' if mix.group == SEAL else 'each flood coat'} {mixed}{reserve} {mix.measure.unit}"
        )
    return f"In all: {'; '.join(said)}."


def _note(job: AnyJob, mix: CoatMix) -> str:
    slow, most = trade.SPREAD_TIME.value[1], math.floor(mix.limit_mm3 / mix.measure.mark_mm3 + 1e-9)
    pace = f"{slow} s a square foot"
    if job.units == "mm":
        pace = f"{slow / SQUARE_FOOT * 1e6:.0f} s a square metre"
    by = default_mark(job, "largest_batch") if mix.limited_by == "the bucket" else ""
    said = (
        f"At most {marks_words(mix.measure, most)} {mix.measure.unit} a batch, set by {mix.limited_by}{by}: "
        f"{trade.MIXING_TIME.value} min to mix, in one cup and again in a second, then about {pace}. Begin and end a "
        "batch at an edge; never scrape the bucket onto the work."
    )
    if mix.reserve:
        said += (
            " Reserve: measured, NOT mixed, until the flat runs short; then mix it in the bucket just emptied, else "
            "pour it back."
        )
    return f"{said} {_colour_words(job, mix)}".rstrip()


def _colour_words(job: AnyJob, mix: CoatMix) -> str:
    given = job.coating.tint_percent
    by_density = mix.measure.unit == "g" or given != 0
    density = "" if mixed_density(job.coating)[1] or not by_density else " Density by default, from memory."
    if given == 0:
        return density.strip()
    share = (
        f"{trade.TINT_CAP.value} % by weight is the usual cap" if given is None else f"{given:g} % by weight"
    )
    return f"Colour: {share}; tint one master mix of A for all batches of a coat.{density}"


def _moment_row(moment: Moment, shown: int, coats: int) -> dict[str, Any]:
    """One moment with the coats that it holds for, of those that are shown."""
    figure, unit = moment_words(moment)
    # where not all coats are shown, the page is printed again: its last column is any coat's
    holds = [True] * shown
    if moment.who == "not the last coat" and coats == shown:
        holds[-1] = False
    elif moment.who == "last coat":
        holds[:-1] = [False] * (shown - 1)
    return {
        "figure": figure,
        "unit": unit,
        "what": moment.what,
        "coats": holds,
    }


def _clock_note(job: AnyJob) -> str:
    coating, grit = job.coating, trade.GRIT_BETWEEN_COATS.value
    at = temperature_words(trade.SCRAPE_DRIPS_AT.value, job.units)
    if coating.resin_coats == 1:
        again = ""
    elif coating.recoat_from is not None and coating.recoat_until is not None:
        again = (
            f"Next coat without sanding from {coating.recoat_from.given} to {coating.recoat_until.given}, later scuff "
            f"with {grit} grit first. "
        )
    else:
        again = f"Scuff with {grit} grit before the next coat, unless the data sheet's window is open. "
    more = ""
    if coating.resin_coats > _COATS:
        more = f" For coat 3{' and 4' if coating.resin_coats > 3 else ''} print this page again."
    return (
        f"{again}Scrape drips while they cut like gel: hours for {at}, colder is later. Full cure: some resins take 30 "
        f"days. Common practice, no source: the data sheet comes first.{more}"
    )
