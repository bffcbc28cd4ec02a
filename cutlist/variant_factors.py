"""What is weighed of a rectangular top before the first cut: where the trim comes off, and how strips meet."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from fractions import Fraction

from edgewright.compass import Side
from edgewright.cutlist.variant_choices import (
    Choice,
    Factor,
    corner_radius_factor,
    layer_factor,
    length_text,
    round_over_factor,
    with_edge,
    with_tables,
)
from edgewright.job import Job, Trim
from edgewright.units import Length

__all__ = ["corner_factors", "layer_factors", "radius_factors", "side_factors"]


def side_factors(job: Job) -> Iterator[Factor]:
    """Share out what comes off the width, and what comes off the length."""
    axes: tuple[tuple[str, Side, Side, str], ...] = (
        ("width", "north", "south", "half off each side"),
        ("length", "east", "west", "half off each end"),
    )
    for axis, high, low, half in axes:
        off_high, off_low = job.amounts[high], job.amounts[low]
        total = off_high + off_low
        if total > 0:
            shares = (
                (f"all off {high}", total),
                (f"all off {low}", Fraction(0)),
                (half, total / 2),
            )
            choices = [Choice(name, _trim_change(high, low, share, total)) for name, share in shares]
            written = f"{length_text(off_high, job.units)} {high}, {length_text(off_low, job.units)} {low}"
            heading = f"where {length_text(total, job.units)} of the {axis} come off"
            yield Factor("sides", heading, written, tuple(choices))


def _trim_change(high: Side, low: Side, off_high: Fraction, total: Fraction) -> Callable[[Job], Job]:
    def change(job: Job) -> Job:
        amounts = {side: mm for side, mm in job.amounts.items() if mm} | {
            high: off_high,
            low: total - off_high,
        }
        trims = {side: Length(f"{float(mm):.6g} mm", mm) for side, mm in amounts.items()}
        return with_tables(job, trim=Trim.model_validate(trims))

    return change


def corner_factors(job: Job) -> Iterator[Factor]:
    """How strips meet at the corners."""
    choices = (
        Choice("butt long through", lambda job: with_edge(job, corners="butt", through="long")),
        Choice("butt short through", lambda job: with_edge(job, corners="butt", through="short")),
        Choice("pinwheel", lambda job: with_edge(job, corners="pinwheel")),
        Choice("mitre", lambda job: with_edge(job, corners="mitre")),
    )
    yield Factor("corners", "how the strips meet at the corners", "as written", choices)


def layer_factors(job: Job) -> Iterator[Factor]:
    """Layers of strips under the top."""
    yield layer_factor(job)


def radius_factors(job: Job) -> Iterator[Factor]:
    """Round-overs of both arrises, and corners seen from above."""
    yield round_over_factor(job)
    yield corner_radius_factor(job)
