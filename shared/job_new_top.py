"""The job of a new top given by length and width: [top] with ``new = true``, cut from a sheet instead of trimmed.

It is a job with an outline, a plain rectangle; what only an old top has (trims, seams, old edges) is no key of it.
"""

from __future__ import annotations

from functools import cached_property
from typing import Annotated, Any, Literal

from pydantic import Field, field_validator

from edgewright.job_fields import AsTuple, JobFaultsError, brief
from edgewright.job_outline import Rectangle
from edgewright.job_shaped import OutlinedTop, Oversize, ShapedJob
from edgewright.job_shaped_checks import NO_TRIM
from edgewright.job_top import ZERO, FinishedEdge, Reading, Seam, TopSize, default, optional, required
from edgewright.trade import Material

__all__ = ["NewTop", "NewTopJob"]


class NewTop(OutlinedTop):
    """[top]: a rectangular top that is cut new, as it shall be."""

    new: Literal[True] = required("true: the top is cut new from a sheet under [[stock]]")
    length: TopSize = required("east to west, as it shall be")
    width: TopSize = required("north to south, as it shall be")
    thickness: Annotated[
        tuple[Reading, ...], AsTuple(1, 50, "thickness readings with a caliper", single=True)
    ] = required("one caliper reading of the sheet or a list of readings")
    material: Material = required("what the sheet is made of")
    glue_face_bare: bool = default(True, "whether the underside is bare wood where strips are glued")
    grain: Literal["length", "width"] | None = optional(
        "what the grain of the top runs along",
        "solid wood: along the longer extent; of sheets it does not matter",
    )
    oversize: Oversize = default(ZERO, "how much larger its blank is sawn all round")

    @field_validator("new", mode="before")
    @classmethod
    def _only_true(cls, value: object) -> object:
        if value is not True:
            message = (
                f"{brief(value)} says nothing here: leave it out for an old top, write true for one cut new"
            )
            raise JobFaultsError([((), message)])
        return value

    @cached_property
    def outline(self) -> Rectangle:
        """The rectangle that it is."""
        return Rectangle(shape="rectangle", length=self.length, width=self.width)

    @property
    def seams(self) -> tuple[Seam, ...]:
        """None: it is cut from one sheet."""
        return ()

    @property
    def finished_edge(self) -> FinishedEdge:
        """Fresh saw cuts all round."""
        return FinishedEdge()


class NewTopJob(ShapedJob):
    """A whole job file of a rectangular top that is cut new."""

    top: NewTop = Field(description="length, width, thickness and material of the new top")

    @field_validator("trim", mode="before")
    @classmethod
    def _nothing_to_trim(cls, value: Any) -> Any:
        if value:
            raise JobFaultsError([((), NO_TRIM)])
        return value
