"""The clock of the job: how long after one step the next may come, in minutes, each with its origin.

Durations only: what hour it is, the person writes down. All are usual at shop temperature; colder is later.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from edgewright import trade
from edgewright.cutlist.takeoff_factors import JOB_FILE
from edgewright.job_coating import Coating
from edgewright.trade import Default

__all__ = ["Moment", "filling_clock", "pour_clock"]

HOUR = 60.0
DAY = 24 * HOUR

Who = Literal["every coat", "not the last coat", "last coat"]


@dataclass(frozen=True, slots=True)
class Moment:
    """One entry of a clock.

    Attributes
    ----------
    what
        Name of the step, like ``flame`` or ``sweep drips``.
    low, high
        Minutes after the step that the clock counts from; equal for a moment, ``high`` None for an earliest time.
    who
        Which coats it holds for.
    origin
        Where the figure comes from.
    """

    what: str
    low: float
    high: float | None
    who: Who
    origin: str


def pour_clock(coating: Coating) -> tuple[Moment, ...]:
    """Moments after a flood coat lies, in order of time."""
    found = [_at("flame", minutes, trade.FLAME_AFTER.origin) for minutes in trade.FLAME_AFTER.value]
    sweeps = trade.DRIP_SWEEPS_AFTER
    found += [_at("sweep drips", minutes, sweeps.origin) for minutes in sweeps.value]
    found.append(_window("pull tape", trade.TAPE_PULL_AFTER, HOUR))
    found.append(_window("scrape drips", trade.SCRAPE_DRIPS_AFTER, HOUR))
    if coating.resin_coats > 1:
        found.append(recoat(coating))
    found.append(_window("light use", trade.LIGHT_USE_AFTER, HOUR, "last coat"))
    found.append(_window("full cure", trade.FULL_CURE_AFTER, DAY, "last coat"))
    return tuple(sorted(found, key=lambda moment: moment.low))


def recoat(coating: Coating) -> Moment:
    """When the next coat may be poured: the job's own window, else the next day and scuffed."""
    if coating.recoat_from is None:
        low, high, origin = trade.RECOAT_AFTER.value * DAY, None, trade.RECOAT_AFTER.origin
    else:
        low, origin = coating.recoat_from.minutes, JOB_FILE
        high = None if coating.recoat_until is None else coating.recoat_until.minutes
    return Moment("next coat", low, high, "not the last coat", origin)


def filling_clock() -> tuple[Moment, ...]:
    """Earliest times from filling to resin, each counted from the step before it."""
    sandable, water, resin = trade.FILLER_SANDABLE, trade.WATER_FILLER_DRY, trade.RESIN_AFTER_WATER
    return (
        Moment("sand polyester filler", sandable.value, None, "every coat", sandable.origin),
        Moment("sand water filler", water.value * HOUR, None, "every coat", water.origin),
        Moment("resin over water paint or filler", resin.value * HOUR, None, "every coat", resin.origin),
    )


def _at(what: str, minutes: float, origin: str) -> Moment:
    return Moment(what, minutes, minutes, "every coat", origin)


def _window(
    what: str,
    times: Default[tuple[float, float]] | Default[tuple[int, int]],
    unit: float,
    who: Who = "every coat",
) -> Moment:
    low, high = times.value
    return Moment(what, low * unit, high * unit, who, times.origin)
