"""The job of a top of any shape: [top.outline] instead of length and width."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Annotated, Any, Literal

from pydantic import Field, ValidationError, model_validator

from edgewright.job_any import AnyJob
from edgewright.job_fields import AsTuple, Between, JobFaultsError, Section
from edgewright.job_outline import AnyOutline
from edgewright.job_shaped_checks import CHECKED, shaped_faults
from edgewright.job_shaped_edge import CutOut, ShapedEdge
from edgewright.job_shop import Base, Board, Router
from edgewright.job_thickness import AnyTop
from edgewright.job_top import NONE, ZERO, FinishedEdge, Reading, Seam, default, optional, required
from edgewright.job_trim import ShapedTrim
from edgewright.trade import COMMON, Material, inch
from edgewright.units import Length

__all__ = ["OutlinedTop", "Oversize", "ShapedJob", "ShapedRouter", "ShapedTop", "read_shaped_parts"]

#: What is sawn off again is a few kerfs; more is a waste of sheet. A choice, no source.
Oversize = Annotated[Length, Between("0 in", "3 in")]


class OutlinedTop(AnyTop):
    """[top] of a top with an outline, given or following from its size."""

    if TYPE_CHECKING:
        new: bool
        oversize: Length
        grain: Literal["length", "width"] | None

        @property
        def outline(self) -> AnyOutline:
            """Outline of the old top as measured, or of the new one as it shall be."""

        @property
        def seams(self) -> tuple[Seam, ...]:
            """Panel seams of the old top."""

        @property
        def finished_edge(self) -> FinishedEdge:
            """Old finish of its edges."""


class ShapedTop(OutlinedTop):
    """[top]: the old top as measured, with its outline in [top.outline]; or a new one as it shall be."""

    outline: AnyOutline = required("the table of its shape and measurements")
    thickness: Annotated[
        tuple[Reading, ...], AsTuple(1, 50, "thickness readings with a caliper", single=True)
    ] = required("one caliper reading or a list of readings")
    material: Material = required("what the top is made of")
    seams: Annotated[tuple[Seam, ...], AsTuple(0, 50, 'tables like {across = "length", at = "40 in"}')] = (
        default((), "panel seams in the top, across the box around it")
    )
    finished_edge: FinishedEdge = Field(
        default_factory=FinishedEdge, description="the old finish of all its edges"
    )
    glue_face_bare: bool = default(True, "whether the underside is bare wood where strips are glued")
    grain: Literal["length", "width"] | None = optional(
        "solid wood: what the grain of the top runs along", "along the longer extent"
    )
    new: bool = Field(
        default=False,
        description="whether a new top is cut to this outline from a sheet under [[stock]]",
        json_schema_extra={"x-origin": NONE},
    )
    oversize: Oversize = default(ZERO, "new top: how much larger its blank is sawn all round")


class ShapedRouter(Router):
    """[router] of a shaped top: its bits are led along curves and into corners."""

    bearing_diameter: Annotated[Length, Between("1/8 in", "2 in")] = default(
        inch("1/2"), "diameter of the bearing, which decides what it reaches at inside corners", COMMON
    )
    cutter: Annotated[Length, Between("1/8 in", "2 in")] = default(
        inch("1/2"), "diameter of the straight cutter on a trammel or along a guide", COMMON
    )


class ShapedJob(AnyJob):
    """A whole job file of a top with an outline."""

    if TYPE_CHECKING:
        top: OutlinedTop
    else:
        top: ShapedTop = Field(description="outline, thickness and material of the old top")
    trim: ShapedTrim = Field(default_factory=ShapedTrim, description="what comes off")
    edge: ShapedEdge = Field(default_factory=ShapedEdge, description="strips and profile")
    router: ShapedRouter = Field(default_factory=ShapedRouter, description="bearing and straight cutter")
    cut_outs: Annotated[tuple[CutOut, ...], AsTuple(0, 100, "cut-outs, each under its own [[cut_out]]")] = (
        Field(
            default=(),
            alias="cut_out",
            description="holes in the top",
            json_schema_extra={"x-origin": NONE},
        )
    )

    @model_validator(mode="after")
    def _tables_fit_together(self) -> ShapedJob:
        parts = {CHECKED[name]: getattr(self, name) for name in CHECKED}
        faults = list(shaped_faults(parts))
        if faults:
            raise JobFaultsError(faults)
        return self

    @property
    def joint_clear(self) -> Length:
        """Least distance of a joint of the build-up from a seam: as given, else as for splices."""
        return self.edge.joint_clear or self.splice.from_seam


def read_shaped_parts(
    document: Mapping[str, Any], context: dict[str, Any], top: type[OutlinedTop] = ShapedTop
) -> dict[str, Any]:
    """Read on its own each table that other tables are checked against; what is faulty is left out."""
    parts: dict[str, Any] = {}
    models: dict[str, type[Section]] = {
        "top": top,
        "trim": ShapedTrim,
        "edge": ShapedEdge,
        "base": Base,
    }
    for name, model in models.items():
        try:
            parts[name] = model.model_validate(document.get(name, {}), context=context)
        except ValidationError:
            continue
    lists: dict[str, type[Section]] = {"stock": Board, "cut_out": CutOut}
    for name, model in lists.items():
        try:
            parts[name] = tuple(
                model.model_validate(entry, context=context) for entry in document.get(name, ())
            )
        except (ValidationError, TypeError):
            continue
    return parts
