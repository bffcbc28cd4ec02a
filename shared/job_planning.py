"""The table of a job file about what a good plan is, and how long one is looked for."""

from __future__ import annotations

from fractions import Fraction
from typing import Annotated, Literal

from pydantic import Field, model_validator

from edgewright import trade
from edgewright.job_fields import JobFaultsError, Section
from edgewright.job_top import default, optional

__all__ = ["Planning"]

Minutes = Annotated[float, Field(ge=0, le=240, allow_inf_nan=False)]


class Planning(Section):
    """[planning]: what counts when strips are planned.

    ``"order"``: new material cost first, then splices, sticks touched, fence settings, strips ripped, and the largest
    remnant kept. ``"cost"``: new material and labour together, at a rate per hour.
    """

    objective: Literal["order", "cost"] = default(
        "order", 'one thing after another, or "cost": material and labour together'
    )
    labour_rate: Annotated[float, Field(ge=0, le=10_000, allow_inf_nan=False)] | None = optional(
        'money per hour of work, for objective = "cost"'
    )
    minutes_per_splice: Minutes = default(trade.MINUTES_PER_SPLICE, "to fit, glue and fill one splice")
    minutes_per_stick: Minutes = default(trade.MINUTES_PER_STICK, "to fetch, mark and clean one stick")
    minutes_per_strip: Minutes = default(trade.MINUTES_PER_STRIP, "to set up and rip one strip")
    effort: Annotated[int, Field(ge=0, le=10_000)] = default(
        100, "work spent on looking for the best plan, percent of the usual"
    )

    @model_validator(mode="after")
    def _a_rate_for_cost(self) -> Planning:
        if self.objective == "cost" and self.labour_rate is None:
            message = (
                '"cost" needs to know what an hour costs: give labour_rate, like 45, or leave objective out'
            )
            raise JobFaultsError([(("objective",), message)])
        if self.objective == "order" and self.labour_rate is not None:
            message = f'{self.labour_rate:g} counts only with objective = "cost": write that too, or leave the rate out'
            raise JobFaultsError([(("labour_rate",), message)])
        return self

    def labour_cents(self) -> tuple[int, int, int] | None:
        """Whole cents of labour for a splice, a stick and a strip; None where labour is not weighed."""
        if self.labour_rate is None:
            return None
        minutes = (self.minutes_per_splice, self.minutes_per_stick, self.minutes_per_strip)
        rate = Fraction(repr(self.labour_rate)) * 100 / 60
        splice, stick, strip = (int(rate * Fraction(repr(each)) + Fraction(1, 2)) for each in minutes)
        return splice, stick, strip
