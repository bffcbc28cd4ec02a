"""The kinds of value a job file holds: how each is read, its bounds, and the sentence when it does not fit.

The kinds plug into pydantic as annotations, like ``Annotated[Length, Between("6 in", "20 ft")]``. The
validation context holds ``{"unit": "in" | "mm" | None}``, the unit of bare numbers.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from typing import Any, Final

from pydantic import BaseModel, ConfigDict, GetCoreSchemaHandler, GetJsonSchemaHandler
from pydantic_core import CoreSchema, core_schema

from edgewright.errors import InputError
from edgewright.units import Length, Units, read_length

__all__ = [
    "AS_GIVEN",
    "AsTuple",
    "Between",
    "JobFaultsError",
    "PerKey",
    "Schema",
    "Section",
    "brief",
    "say",
    "shorten",
]

Schema = dict[str, Any]

LENGTH_SCHEMA: Final[Schema] = {
    "anyOf": [{"type": "string", "examples": ["41 5/8 in", "1057 mm"]}, {"type": "number"}]
}


class Section(BaseModel):
    """A table of the job file: frozen, strict, no unknown keys."""

    model_config = ConfigDict(frozen=True, extra="forbid", strict=True, hide_input_in_errors=True)


class JobFaultsError(ValueError):
    """Faults seen only from several keys: pairs of place (from the raising model down) and sentence."""

    def __init__(self, faults: list[tuple[tuple[str | int, ...], str]]) -> None:
        self.faults = faults
        super().__init__("; ".join(message for _, message in faults))


def brief(value: object) -> str:
    """Show any value of a TOML file in one short line; never fails, however large or deep the value is."""
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, int) and abs(value) > 10**15:
        return "a number of more than 15 digits"
    if isinstance(value, str):
        return f'"{shorten(value)}"' + (f" ({len(value)} characters)" if len(value) > 40 else "")
    if isinstance(value, Mapping):
        return "a table"
    if isinstance(value, list | tuple):
        return f"a list of {len(value)}"
    return str(value)


def shorten(text: str) -> str:
    """Show a text in at most 40 characters, none of them a control character."""
    shown = "".join(c if c.isprintable() else ascii(c)[1:-1] for c in text[:40])
    return shown if len(text) <= 40 else shown + "..."


def say(length: Length) -> str:
    """Write a length as it was given, with its unit even where the file left it out."""
    if any(c.isalpha() or c in "'\"”″’′" for c in length.given):
        return length.given
    if length.exact_mm == 0:
        return f"{length.given}"
    try:
        unit = "in" if read_length(length.given, "in").exact_mm == length.exact_mm else "mm"
    except InputError:
        return f"{length.given} mm"
    return f"{length.given} {unit}"


@lru_cache(maxsize=256)
def _bound(text: str) -> Fraction:
    return read_length(text, None).exact_mm


def _unit(info: core_schema.ValidationInfo) -> Units | None:
    return (info.context or {}).get("unit")


@dataclass(frozen=True)
class Between:
    """A length from ``low`` to ``high``, both included unless ``above`` is set (then low is not).

    Attributes
    ----------
    low, high
        Bounds as text with unit, like ``"1/4 in"``.
    hint
        What the message adds: how to measure it, or what is usual.
    word
        A word that is taken instead of a length.
    """

    low: str
    high: str
    hint: str = ""
    above: bool = False
    word: str = ""

    def read(self, value: object, info: core_schema.ValidationInfo) -> Length | str:
        """Read and check one length."""
        if self.word and value == self.word:
            return self.word
        if isinstance(value, Length):
            length = value
        elif not isinstance(value, bool) and isinstance(value, int | float) and value == 0:
            length = Length("0", Fraction(0))  # nothing is nothing in any unit
        elif not isinstance(value, bool) and isinstance(value, int | float | str):
            length = read_length(value, _unit(info))
        else:
            other = f' or "{self.word}"' if self.word else ""
            raise ValueError(f'{brief(value)} is not a length{other}: write text like "41 5/8 in"')
        low, high = _bound(self.low), _bound(self.high)
        if not (low < length.exact_mm if self.above else low <= length.exact_mm) or length.exact_mm > high:
            span = (
                f"more than {self.low}, at most {self.high}" if self.above else f"{self.low} to {self.high}"
            )
            raise ValueError(f"{say(length)} is out of range: {span} is allowed{self._tail()}")
        return length

    def _tail(self) -> str:
        return f"; {self.hint}" if self.hint else ""

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.with_info_plain_validator_function(self.read, serialization=AS_GIVEN)

    def __get_pydantic_json_schema__(
        self, schema: CoreSchema, handler: GetJsonSchemaHandler
    ) -> dict[str, Any]:
        span = f"{'more than ' if self.above else ''}{self.low} to {self.high}"
        word = [{"const": self.word}] if self.word else []
        return {
            "anyOf": word + LENGTH_SCHEMA["anyOf"],
            "description": ", ".join(filter(None, (span, self.hint))),
        }


@dataclass(frozen=True)
class PerKey:
    """One length for all sides (or corners), or a table of them; a length is spread over the keys."""

    keys: tuple[str, ...]
    each: Between

    def spread(self, value: object, info: core_schema.ValidationInfo) -> object:
        """Spread one length over all keys; a table passes as it is."""
        if isinstance(value, Mapping | BaseModel):
            return value
        length = self.each.read(value, info)
        return dict.fromkeys(self.keys, length)

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.with_info_before_validator_function(self.spread, handler(source))

    def __get_pydantic_json_schema__(
        self, schema: CoreSchema, handler: GetJsonSchemaHandler
    ) -> dict[str, Any]:
        return {"anyOf": [*LENGTH_SCHEMA["anyOf"], handler(schema)]}


@dataclass(frozen=True)
class AsTuple:
    """A TOML list of ``low`` to ``high`` entries, kept as a tuple; with ``single`` a bare value is a list."""

    low: int
    high: int
    what: str
    single: bool = False

    def pack(self, value: object) -> object:
        """Make a tuple of a list and check how many entries it has."""
        if self.single and not isinstance(value, list | tuple):
            return (value,)
        if not isinstance(value, list | tuple):
            raise ValueError(f"{brief(value)} is not a list: write [ ] around {self.what}")
        if not self.low <= len(value) <= self.high:
            span = f"{self.low}" if self.low == self.high else f"{self.low} to {self.high}"
            raise ValueError(f"the list has {len(value)} entries: {span} are allowed ({self.what})")
        return tuple(value)

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.no_info_before_validator_function(self.pack, handler(source))

    def __get_pydantic_json_schema__(
        self, schema: CoreSchema, handler: GetJsonSchemaHandler
    ) -> dict[str, Any]:
        listed: Schema = {**handler(schema), "minItems": self.low, "maxItems": self.high}
        return {"anyOf": [listed["items"], listed]} if self.single else listed


def _as_given(value: object) -> object:
    return getattr(value, "given", value)


AS_GIVEN: Final = core_schema.plain_serializer_function_ser_schema(_as_given)
"""How pydantic writes a value that keeps what was given."""
