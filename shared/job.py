"""The job: what a person can measure and decide, as one frozen value.

The tables stand in `edgewright.job_top`, `edgewright.job_shop` and `edgewright.job_coating`;
`edgewright.jobfile` reads a file.
What was left out is there with its default; a default that follows from another key (strip thickness, bench
grid) is resolved by a property here.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import Any, Literal

from pydantic import Field, ValidationError, model_validator
from pydantic.json_schema import models_json_schema

from edgewright.compass import PerSide
from edgewright.job_any import AnyJob
from edgewright.job_as_cut import AsCut, AsCutPiece, as_cut_faults
from edgewright.job_checks import base_faults, edge_faults, stock_faults, top_faults, trim_faults
from edgewright.job_coating import Coating
from edgewright.job_edge import Edge, Splice
from edgewright.job_fields import JobFaultsError, Section
from edgewright.job_shop import Base, Board, Override, Pins, Router, Saw, Seating
from edgewright.job_top import (
    CornerLengths,
    FinishedEdge,
    FinishedEdges,
    JobInfo,
    Seam,
    SideLengths,
    Top,
    Trim,
)
from edgewright.job_used import KeyUse, given_and_used, job_digest

__all__ = [
    "AnyJob",
    "AsCut",
    "AsCutPiece",
    "Base",
    "Board",
    "Coating",
    "CornerLengths",
    "Edge",
    "FinishedEdge",
    "FinishedEdges",
    "Job",
    "JobInfo",
    "KeyUse",
    "Override",
    "Pins",
    "Router",
    "Saw",
    "Seam",
    "Seating",
    "SideLengths",
    "Splice",
    "Top",
    "Trim",
    "given_and_used",
    "job_digest",
    "job_schema",
    "part_faults",
]


class Job(AnyJob):
    """A whole job file of a rectangular top."""

    top: Top = Field(description="length, width, thickness and material of the old top")
    trim: Trim = Field(default_factory=Trim, description="what comes off")
    as_cut: AsCut | None = Field(
        default=None,
        description="what was measured after the saw stopped",
        json_schema_extra={"x-origin": "no cut is made yet"},
    )

    @model_validator(mode="after")
    def _tables_fit_together(self) -> Job:
        faults = list(part_faults({name: getattr(self, name) for name in _CHECKED}))
        if faults:
            raise JobFaultsError(faults)
        return self

    @property
    def amounts(self) -> PerSide[Fraction]:
        """Exact mm that come off each side, also where a finished size is given."""
        return self.trim.amounts(self.top)

    @property
    def finished_length(self) -> Fraction:
        """Length that is left, exact mm, not snapped."""
        return self.top.length.exact_mm - self.amounts.east - self.amounts.west

    @property
    def finished_width(self) -> Fraction:
        """Width that is left, exact mm, not snapped."""
        return self.top.width.exact_mm - self.amounts.north - self.amounts.south


_CHECKED = ("top", "trim", "edge", "base", "stock", "as_cut")


def part_faults(parts: Mapping[str, Any]) -> Iterator[tuple[tuple[str | int, ...], str]]:
    """Find the faults between tables, for as many tables as could be read."""
    top, trim = parts.get("top"), parts.get("trim")
    if top is not None:
        yield from top_faults(top)
        if trim is not None:
            yield from trim_faults(top, trim)
            if "edge" in parts:
                yield from edge_faults(top, trim, parts["edge"])
        if "base" in parts:
            yield from base_faults(top, parts["base"])
        if parts.get("as_cut") is not None:
            yield from as_cut_faults(top, parts["as_cut"])
    if "stock" in parts:
        yield from stock_faults(parts["stock"])


def read_parts(document: Mapping[str, Any], context: dict[str, Any]) -> dict[str, Any]:
    """Read on its own each table that other tables are checked against; what is faulty is left out."""
    parts: dict[str, Any] = {}
    models: dict[str, type[Section]] = {"top": Top, "trim": Trim, "edge": Edge, "base": Base}
    if "as_cut" in document:
        models["as_cut"] = AsCut
    for name, model in models.items():
        try:
            parts[name] = model.model_validate(document.get(name, {}), context=context)
        except ValidationError:
            continue
    try:
        boards = [Board.model_validate(board, context=context) for board in document.get("stock", ())]
        parts["stock"] = tuple(boards)
    except (ValidationError, TypeError):
        pass
    return parts


def job_schema() -> dict[str, Any]:
    """JSON Schema (draft 2020-12) of a job file, for editors: a rectangle, an outline, a new top."""
    from edgewright.job_new_top import NewTopJob
    from edgewright.job_shaped import ShapedJob

    kinds: list[tuple[type[AnyJob], Literal["validation"]]] = [
        (kind, "validation") for kind in (Job, ShapedJob, NewTopJob)
    ]
    _, schema = models_json_schema(kinds, by_alias=True)
    either = [{"$ref": f"#/$defs/{job.__name__}"} for job, _ in kinds]
    return {"$schema": "https://json-schema.org/draft/2020-12/schema", "anyOf": either, **schema}
