"""The kinds of value of a job file that tell of a product: volumes, durations, densities, a mix ratio."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, Final

from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler
from pydantic_core import CoreSchema, core_schema

from edgewright.amounts import (
    Density,
    Duration,
    MixRatio,
    Volume,
    read_density,
    read_duration,
    read_ratio,
    read_volume,
)
from edgewright.job_fields import AS_GIVEN, brief

__all__ = ["AmountBetween", "Ratio", "density_between", "duration_between", "volume_between"]

LARGEST_SUM: Final = {"volume": 30, "weight": 1000}
"""Most whole parts, both together: more cannot be read off the marks of two cups, or off a scale."""
STEEPEST: Final = 20
"""Most parts of one to a part of the other."""


@dataclass(frozen=True)
class AmountBetween:
    """A figure with a unit, read by ``reader`` and measured by ``figure``, from ``low`` to ``high``."""

    what: str
    reader: Callable[[str], Any]
    kind: type[Any]
    figure: Callable[[Any], float]
    low: float
    high: float
    bounds: str
    example: str

    def read(self, value: object) -> Any:
        """Read and check one figure."""
        if isinstance(value, self.kind):
            amount = value
        elif isinstance(value, str):
            amount = self.reader(value)
        else:
            raise ValueError(f'{brief(value)} is not a {self.what}: write text like "{self.example}"')
        if not self.low * (1 - 1e-9) <= self.figure(amount) <= self.high * (1 + 1e-9):
            raise ValueError(f"{amount.given} is out of range: {self.bounds} is allowed")
        return amount

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.no_info_plain_validator_function(self.read, serialization=AS_GIVEN)

    def __get_pydantic_json_schema__(
        self, schema: CoreSchema, handler: GetJsonSchemaHandler
    ) -> dict[str, Any]:
        return {"type": "string", "description": self.bounds, "examples": [self.example]}


def volume_between(low_mm3: float, high_mm3: float, bounds: str, example: str) -> AmountBetween:
    """Volume within bounds, mm³."""
    return AmountBetween("volume", read_volume, Volume, lambda v: v.mm3, low_mm3, high_mm3, bounds, example)


def duration_between(low: float, high: float, bounds: str, example: str) -> AmountBetween:
    """Duration within bounds, minutes."""
    return AmountBetween("duration", read_duration, Duration, lambda d: d.minutes, low, high, bounds, example)


def density_between(low: float, high: float, bounds: str, example: str) -> AmountBetween:
    """Density within bounds, g/ml."""
    return AmountBetween("density", read_density, Density, lambda d: d.g_per_ml, low, high, bounds, example)


@dataclass(frozen=True)
class Ratio:
    """A mix ratio that can be measured with two cups or on a scale."""

    def read(self, value: object) -> MixRatio:
        """Read and check one ratio."""
        ratio = value if isinstance(value, MixRatio) else read_ratio(value)
        if max(ratio.a, ratio.b) > STEEPEST * min(ratio.a, ratio.b):
            raise ValueError(f"{ratio.given} is out of range: 20:1 to 1:20 is allowed")
        most = LARGEST_SUM[ratio.by]
        if ratio.a + ratio.b > most:
            raise ValueError(
                f"{ratio.given} is {ratio.a}:{ratio.b} in whole parts, and at most {most} parts together can be "
                f"measured by {ratio.by}: "
                + ("take the data sheet's ratio by weight" if ratio.by == "volume" else "round it to a tenth")
            )
        return ratio

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.no_info_plain_validator_function(self.read, serialization=AS_GIVEN)

    def __get_pydantic_json_schema__(
        self, schema: CoreSchema, handler: GetJsonSchemaHandler
    ) -> dict[str, Any]:
        return {"type": "string", "examples": ["2:1 by volume", "100:45 by weight"]}
