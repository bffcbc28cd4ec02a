"""What the tables of all old tops share: caliper readings of the thickness."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from pydantic import model_validator

from edgewright import trade
from edgewright.job_fields import JobFaultsError, Section, say
from edgewright.trade import Material
from edgewright.units import Length

__all__ = ["AnyTop"]


class AnyTop(Section):
    """[top] of any shape: what holds whether it is given by length and width or by an outline."""

    if TYPE_CHECKING:
        # each top declares them itself, so that its keys keep the order of the file
        thickness: tuple[Length, ...]
        material: Material
        glue_face_bare: bool

    @model_validator(mode="after")
    def _readings_agree(self) -> AnyTop:
        low, high = (f(self.thickness, key=lambda t: t.exact_mm) for f in (min, max))
        if high.exact_mm - low.exact_mm >= trade.inch("1/8"):
            message = (
                f"the readings go from {say(low)} to {say(high)}: they must lie less than 1/8 in apart; "
                "read the caliper again, or leave out what was measured on a lipping"
            )
            raise JobFaultsError([(("thickness",), message)])
        return self

    @property
    def thickness_min(self) -> Length:
        """Least reading."""
        return min(self.thickness, key=lambda t: t.exact_mm)

    @property
    def thickness_max(self) -> Length:
        """Greatest reading."""
        return max(self.thickness, key=lambda t: t.exact_mm)

    @property
    def thickness_mean(self) -> Length:
        """Mean of the readings (the reading itself when there is one)."""
        if len(self.thickness) == 1:
            return self.thickness[0]
        mean = sum((t.exact_mm for t in self.thickness), Fraction(0)) / len(self.thickness)
        return Length(f"mean of {len(self.thickness)} readings", mean)
