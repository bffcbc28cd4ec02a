"""What the jobs of all tops share: everything but the top, its trims and its shape."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from edgewright.job_coating import Coating
from edgewright.job_edge import Edge, Splice
from edgewright.job_fields import AsTuple, Section
from edgewright.job_planning import Planning
from edgewright.job_shop import Base, Board, Override, Pins, Router, Saw, Seating
from edgewright.job_thickness import AnyTop
from edgewright.job_top import NONE, JobInfo
from edgewright.trade import Material
from edgewright.units import Length, Units

__all__ = ["AnyJob"]


class AnyJob(Section):
    """A job file of any top; read as a `Job` or a `ShapedJob`, which say more of top, trim and edge."""

    info: JobInfo = Field(alias="job", description="a title at least")
    top: AnyTop = Field(description="the old top")
    trim: Section = Field(default_factory=Section, description="what comes off")
    edge: Edge = Field(default_factory=Edge, description="strips and profile")
    splice: Splice = Field(default_factory=Splice, description="where a side may be spliced")
    planning: Planning = Field(default_factory=Planning, description="what a good plan is")
    saw: Saw = Field(default_factory=Saw, description="blade and guide")
    router: Router = Field(default_factory=Router, description="the bit's bearing")
    pins: Pins = Field(default_factory=Pins, description="what the nailer holds")
    stock: Annotated[tuple[Board, ...], AsTuple(0, 1000, "boards, each under its own [[stock]]")] = Field(
        default=(), description="boards on hand or for sale", json_schema_extra={"x-origin": NONE}
    )
    base: Base = Field(default_factory=Base, description="what the top stands on")
    seating: Seating = Field(default_factory=Seating, description="chairs and knees")
    coating: Coating = Field(default_factory=Coating, description="resin and what goes under it")
    overrides: Annotated[
        tuple[Override, ...], AsTuple(0, 200, "overrides, each under its own [[override]]")
    ] = Field(
        default=(),
        alias="override",
        description="findings that the person overrides",
        json_schema_extra={"x-origin": NONE},
    )

    @property
    def units(self) -> Units:
        """Unit of what is shown; inches unless the job says millimetres."""
        return self.info.shown_units

    @property
    def bench_grid(self) -> Length:
        """Step that chosen sizes are snapped to."""
        return self.info.grid

    @property
    def strip_thickness(self) -> Length:
        """Thickness of the strips: as given, else the top's mean thickness."""
        return self.edge.strip_thickness or self.top.thickness_mean

    def board_material(self, board: Board) -> Material:
        """Material of a board: its own, else the top's."""
        return board.material or self.top.material
