"""The kinds of value in a job file that are no lengths: text, coverages, temperatures."""

from __future__ import annotations

import unicodedata
from dataclasses import dataclass
from typing import Any

from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler
from pydantic_core import CoreSchema, core_schema

from edgewright.job_fields import AS_GIVEN, brief
from edgewright.units import Coverage, Temperature, read_coverage, read_temperature

__all__ = ["FilmBetween", "TempBetween", "Text"]


@dataclass(frozen=True)
class Text:
    """A line of text in any script: 1 to ``longest`` characters, not blank, no control characters."""

    longest: int = 200

    def read(self, value: object) -> str:
        """Check one text."""
        if not isinstance(value, str):
            raise ValueError(f"{brief(value)} is not text: put it in quotes")
        if not value.strip():
            raise ValueError(f"{brief(value)} is blank: write 1 to {self.longest} characters")
        if len(value) > self.longest:
            raise ValueError(f"{brief(value)} is too long: at most {self.longest} characters are allowed")
        # Zl and Zp break a line on a printed sheet like a control character does
        bad = next((c for c in value if unicodedata.category(c) in ("Cc", "Cs", "Zl", "Zp")), None)
        if bad is not None:
            raise ValueError(f"{brief(value)} holds the control character U+{ord(bad):04X}: take it out")
        return value

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.no_info_plain_validator_function(self.read)

    def __get_pydantic_json_schema__(
        self, schema: CoreSchema, handler: GetJsonSchemaHandler
    ) -> dict[str, Any]:
        return {"type": "string", "minLength": 1, "maxLength": self.longest}


@dataclass(frozen=True)
class FilmBetween:
    """A coverage whose film lies within bounds (mm)."""

    low_mm: float
    high_mm: float
    bounds: str

    def read(self, value: object) -> Coverage:
        """Read and check one coverage."""
        if isinstance(value, Coverage):
            coverage = value
        elif isinstance(value, str):
            coverage = read_coverage(value)
        else:
            raise ValueError(f'{brief(value)} is not a coverage: write text like "35 mil" or "3 fl oz/ft^2"')
        if not self.low_mm <= coverage.film_mm <= self.high_mm:
            film = f"{coverage.given} (a film of {coverage.film_mm:.3g} mm)"
            raise ValueError(
                f"{film} is out of range: {self.bounds} is allowed; 35 mil is usual for a trowel coat"
            )
        return coverage

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.no_info_plain_validator_function(self.read, serialization=AS_GIVEN)

    def __get_pydantic_json_schema__(
        self, schema: CoreSchema, handler: GetJsonSchemaHandler
    ) -> dict[str, Any]:
        return {"type": "string", "examples": ["35 mil", "3 fl oz/ft^2"]}


@dataclass(frozen=True)
class TempBetween:
    """A temperature within bounds (degrees Celsius)."""

    low: float
    high: float
    bounds: str

    def read(self, value: object) -> Temperature:
        """Read and check one temperature."""
        if isinstance(value, Temperature):
            temperature = value
        elif isinstance(value, str):
            temperature = read_temperature(value)
        else:
            raise ValueError(f'{brief(value)} is not a temperature: write text like "70 degF" or "21 degC"')
        if not self.low - 1e-9 <= temperature.celsius <= self.high + 1e-9:
            raise ValueError(f"{temperature.given} is out of range: {self.bounds} is allowed for a room")
        return temperature

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.no_info_plain_validator_function(self.read, serialization=AS_GIVEN)

    def __get_pydantic_json_schema__(
        self, schema: CoreSchema, handler: GetJsonSchemaHandler
    ) -> dict[str, Any]:
        return {"type": "string", "examples": ["70 degF", "21 degC"]}
