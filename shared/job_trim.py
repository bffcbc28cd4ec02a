"""[trim] of a shaped top: one of several ways to say what comes off."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Annotated, Any, Final

from pydantic import Field, GetCoreSchemaHandler, GetJsonSchemaHandler, model_validator
from pydantic_core import CoreSchema, core_schema

from edgewright.job_fields import (
    LENGTH_SCHEMA,
    AsTuple,
    Between,
    JobFaultsError,
    Schema,
    Section,
    brief,
)
from edgewright.job_outline import AnyPlaced
from edgewright.job_outline_base import NamedLength, OutlineFault, one_way
from edgewright.job_top import NONE, optional, required
from edgewright.job_values import Text
from edgewright.units import Length

__all__ = ["EdgeName", "EdgeNames", "NamedLength", "Parallel", "ShapedTrim"]

EdgeName = Annotated[str, Text(80)]
EdgeNames = Annotated[tuple[EdgeName, ...], AsTuple(0, 200, "names of edges")]

#: The ways to trim, of which at most one is given.
WAYS: Final = ("all_round", "edges", "parallel", "largest_rectangle", "to")


@dataclass(frozen=True)
class ByEdge:
    """A table of edge names and lengths, kept as a tuple in the order of the file."""

    each: Between

    def read(self, value: object, info: core_schema.ValidationInfo) -> tuple[NamedLength, ...]:
        """Read every entry; all faults are told."""
        if not isinstance(value, Mapping):
            raise ValueError(f'{brief(value)} is not a table: write edges and amounts, like south = "2 in"')
        if len(value) > 200:
            raise ValueError(f"the table has {len(value)} entries: 1 to 200 are allowed")
        found: list[NamedLength] = []
        faults: list[OutlineFault] = []
        for name, given in value.items():
            try:
                length = self.each.read(given, info)
                found.append(
                    NamedLength(Text(80).read(name), length if isinstance(length, Length) else given)
                )
            except ValueError as error:
                faults.append(((str(name),), str(error)))
        if faults:
            raise JobFaultsError(faults)
        return tuple(found)

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.with_info_plain_validator_function(
            self.read,
            serialization=core_schema.plain_serializer_function_ser_schema(
                lambda pairs: {pair.name: pair.length.given for pair in pairs}
            ),
        )

    def __get_pydantic_json_schema__(self, schema: CoreSchema, handler: GetJsonSchemaHandler) -> Schema:
        return {"type": "object", "additionalProperties": LENGTH_SCHEMA}


class Parallel(Section):
    """One cut that makes an edge parallel to another."""

    edge: EdgeName = required("the edge that is cut")
    to: EdgeName = required("the edge it shall be parallel to")
    distance: Annotated[Length, Between("2 in", "20 ft")] = required("what is left between the two")

    @model_validator(mode="after")
    def _two_edges(self) -> Parallel:
        if self.edge == self.to:
            message = f"{brief(self.to)} is the edge that is cut: name the edge opposite"
            raise JobFaultsError([(("to",), message)])
        return self


class ShapedTrim(Section):
    """[trim]: what comes off a shaped top, kerf included; at most one way is given."""

    all_round: Annotated[Length, Between("0 in", "10 ft")] | None = optional("amount off every edge")
    edges: Annotated[tuple[NamedLength, ...], ByEdge(Between("0 in", "20 ft"))] = Field(
        default=(),
        description="amounts off single edges by name, in the order of the cuts",
        json_schema_extra={"x-origin": NONE},
    )
    parallel: Parallel | None = optional("one cut parallel to another edge: {edge, to, distance}")
    largest_rectangle: bool = Field(
        default=False,
        description="whether the largest rectangle shall be left",
        json_schema_extra={"x-origin": NONE},
    )
    to: AnyPlaced | None = optional("a table like [top.outline]: the outline that shall be left")
    cut_order: EdgeNames = Field(
        default=(),
        description="names of the edges in the order of the cuts",
        json_schema_extra={"x-origin": "the order of trim.edges; else the order of the edges"},
    )

    @model_validator(mode="after")
    def _one_way_to_say_it(self) -> ShapedTrim:
        faults = [*one_way(self, WAYS, may_have_none=True), *self._order_faults()]
        if faults:
            raise JobFaultsError(faults)
        return self

    def _order_faults(self) -> Iterator[OutlineFault]:
        cut = [pair.name for pair in self.edges]
        for number, name in enumerate(self.cut_order):
            if name in self.cut_order[:number]:
                yield ("cut_order", number), f"{brief(name)} is named twice: name each edge once"
            elif self.edges and name not in cut:
                yield ("cut_order", number), f"{brief(name)} is not cut: name the edges of [trim.edges]"
        missing = [name for name in cut if name not in self.cut_order]
        if self.cut_order and missing:
            message = f"the list leaves out {brief(missing[0])}: name every edge of [trim.edges]"
            yield ("cut_order",), message

    @property
    def way(self) -> str | None:
        """The way that is given, by its key; None when nothing comes off."""
        return next((key for key in WAYS if getattr(self, key) not in (None, (), False)), None)

    @property
    def cuts(self) -> tuple[NamedLength, ...]:
        """`edges` in the order of the cuts."""
        if not self.cut_order:
            return self.edges
        return tuple(sorted(self.edges, key=lambda pair: self.cut_order.index(pair.name)))
